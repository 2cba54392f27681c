"""Messages to players: the row is the queue, and everything to be sent is frozen in it."""

from django.db import models

from fitshop.models.base import Identified

# Letters about a sign-in. No page shows them: their reader could take the sign-in.
ACCOUNT_KIND = "account"


class MessageStatus(models.TextChoices):
    PENDING = "pending", "waiting"
    SENDING = "sending", "being sent"
    SENT = "sent", "sent"
    UNKNOWN = "unknown", "unknown: decide"
    DEAD = "dead", "failed"
    CANCELLED = "cancelled", "cancelled"


class OutgoingMessage(Identified):
    """One letter to one person about one occasion, and how far it has come."""

    kind = models.CharField(max_length=40)
    subject_type = models.CharField(max_length=40)
    subject_id = models.CharField(max_length=64)
    occasion = models.CharField(max_length=80)

    recipient_email = models.EmailField()
    recipient_name = models.CharField(max_length=200, blank=True, default="")
    mail_subject = models.CharField(max_length=200)
    body_text = models.TextField()
    body_html = models.TextField(blank=True, default="")
    attachments = models.JSONField(default=list)
    message_id = models.CharField(max_length=200, unique=True)

    status = models.CharField(
        max_length=10, choices=MessageStatus.choices, default=MessageStatus.PENDING
    )
    created_at = models.DateTimeField()
    created_by = models.CharField(max_length=200, blank=True, default="")
    due_at = models.DateTimeField()
    lease_until = models.DateTimeField(null=True, blank=True)
    lease_token = models.UUIDField(null=True, blank=True)
    # The first try since it was queued, or since a person had it sent again.
    tried_since = models.DateTimeField(null=True, blank=True)
    attempts = models.PositiveIntegerField(default=0)
    worker_deaths = models.PositiveIntegerField(default=0)
    data_started_at = models.DateTimeField(null=True, blank=True)
    sent_at = models.DateTimeField(null=True, blank=True)
    last_reply = models.TextField(blank=True, default="")
    # It no longer holds: if it has not left yet, it must not.
    withdrawn_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["-created_at"]
        constraints = [
            models.UniqueConstraint(
                fields=["kind", "subject_type", "subject_id", "occasion"], name="message_once"
            ),
            models.CheckConstraint(
                condition=models.Q(status__in=MessageStatus.values), name="message_status_is_known"
            ),
            models.CheckConstraint(
                condition=~models.Q(status="sent") | models.Q(sent_at__isnull=False),
                name="message_sent_has_its_time",
            ),
        ]
        indexes = [models.Index(fields=["status", "due_at"], name="message_by_due")]

    def __str__(self) -> str:
        return f"{self.kind} to {self.recipient_name or 'a player'}"


class MessageAttachment(Identified):
    """A rendered attachment, kept by its hash: rendered once, sent as often as needed."""

    message = models.ForeignKey(OutgoingMessage, on_delete=models.CASCADE, related_name="files")
    name = models.CharField(max_length=120)
    content_type = models.CharField(max_length=80)
    sha256 = models.CharField(max_length=64)
    content = models.BinaryField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["message", "name"], name="attachment_name_once")
        ]

    def __str__(self) -> str:
        return self.name


class Heartbeat(models.Model):
    """When a part of the clockwork last finished its round."""

    name = models.CharField(max_length=40, primary_key=True)
    at = models.DateTimeField()

    def __str__(self) -> str:
        return f"{self.name} at {self.at:%H:%M:%S}"
