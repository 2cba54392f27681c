"""Who did what: one row for every service that changed something. Only ever added to."""

from django.db import models


def deed_words(action: str) -> str:
    """An audited deed as words: `fitting.trial.started` is `trial started`."""
    return " ".join(action.split(".")[1:]).replace("_", " ")


class AuditEntry(models.Model):
    id = models.BigAutoField(primary_key=True)
    at = models.DateTimeField()
    actor_kind = models.CharField(max_length=20)
    actor_name = models.CharField(max_length=200)
    staff_id = models.UUIDField(null=True, blank=True)
    action = models.CharField(max_length=80)
    object_type = models.CharField(max_length=60)
    object_id = models.CharField(max_length=64)
    before = models.JSONField(null=True, blank=True)
    after = models.JSONField(null=True, blank=True)
    request_id = models.CharField(max_length=64, blank=True, default="")
    command_id = models.UUIDField(null=True, blank=True)
    device = models.CharField(max_length=80, blank=True, default="")

    class Meta:
        ordering = ["-id"]
        verbose_name_plural = "audit entries"
        indexes = [
            models.Index(fields=["object_type", "object_id"], name="audit_by_object"),
            models.Index(fields=["action"], name="audit_by_action"),
        ]

    def __str__(self) -> str:
        return f"{self.action} by {self.actor_name}"

    @property
    def deed(self) -> str:
        return deed_words(self.action)
