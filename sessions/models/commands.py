"""What a tablet sent, once: the id is unique, and the receipt is given again for ever."""

from django.db import models

from sessions.models.visits import Visit


class Command(models.Model):
    id = models.UUIDField(primary_key=True, editable=False)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="commands")
    kind = models.CharField(max_length=40)
    body = models.JSONField()
    sha256 = models.CharField(max_length=64)
    staff_id = models.UUIDField()
    device = models.CharField(max_length=80, blank=True, default="")
    device_time = models.DateTimeField(null=True, blank=True)
    device_counter = models.PositiveIntegerField(null=True, blank=True)
    clock_offset_s = models.FloatField(null=True, blank=True)
    received_at = models.DateTimeField()
    sequence = models.PositiveIntegerField()
    receipt = models.JSONField()

    class Meta:
        ordering = ["sequence"]
        constraints = [
            models.UniqueConstraint(fields=["visit", "sequence"], name="command_sequence_once")
        ]

    def __str__(self) -> str:
        return f"{self.kind} {self.sequence}"
