"""What the shop chose, version by version. What may be chosen is declared in `declared.py`."""

from django.db import models


class SettingsVersion(models.Model):
    """A numbered state of all settings: specs, orders and decisions keep the number."""

    number = models.PositiveIntegerField(primary_key=True)
    made_at = models.DateTimeField()
    made_by = models.CharField(max_length=200)

    class Meta:
        ordering = ["-number"]

    def __str__(self) -> str:
        return f"settings {self.number}"


class SettingValue(models.Model):
    """What one setting was changed to, from a version on."""

    version = models.ForeignKey(SettingsVersion, on_delete=models.PROTECT, related_name="values")
    key = models.CharField(max_length=100)
    text = models.CharField(max_length=400, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["version", "key"], name="setting_once_a_version")
        ]

    def __str__(self) -> str:
        return f"{self.key} = {self.text}"
