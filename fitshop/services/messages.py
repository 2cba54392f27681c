"""Queueing a letter, and deciding about one whose fate is unknown. Sending is in `sweep`.

The row is the queue: it is written in the business transaction, with everything frozen in it.
"""

from __future__ import annotations

import uuid
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from django.conf import settings
from django.db import transaction
from django.db.models import QuerySet

from fitshop.actor import Actor
from fitshop.models import MessageStatus, OutgoingMessage
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.services.audit import audit_record


class MessageIsDecided(Exception):
    """Only a failed letter that still holds, or one of unknown fate, waits for a person."""


@transaction.atomic
def message_queue(
    *,
    kind: str,
    subject_type: str,
    subject_id: str,
    occasion: str,
    recipient_email: str,
    recipient_name: str,
    mail_subject: str,
    body_text: str,
    body_html: str = "",
    attachments: Sequence[Mapping[str, Any]] = (),
    due_at: datetime | None = None,
    by: Actor,
    at: datetime,
) -> OutgoingMessage:
    """Put one letter into the queue; asked twice for one occasion, give the first again.

    `attachments` are {"name", "document", "values"}: the values are frozen here and rendered
    by the sweep. Writes OutgoingMessage, AuditEntry.
    """
    known = OutgoingMessage.objects.filter(
        kind=kind, subject_type=subject_type, subject_id=subject_id, occasion=occasion
    ).first()
    if known is not None:
        return known

    message_uuid = uuid.uuid4()
    domain = settings.MESSAGES_FROM.rpartition("@")[2].strip("> ") or "shop.invalid"
    message = OutgoingMessage.objects.create(
        id=message_uuid,
        kind=kind,
        subject_type=subject_type,
        subject_id=subject_id,
        occasion=occasion,
        recipient_email=recipient_email,
        recipient_name=recipient_name,
        mail_subject=mail_subject,
        body_text=body_text,
        body_html=body_html,
        attachments=list(attachments),
        message_id=f"<{message_uuid}@{domain}>",
        created_at=at,
        created_by=by.name,
        due_at=due_at or at,
    )
    audit_record(
        action="shop.message.queued",
        subject=message,
        after={"kind": kind, "subject": f"{subject_type} {subject_id}", "occasion": occasion},
        by=by,
        at=at,
    )
    return message


@transaction.atomic
def messages_withdraw(
    *, kind: str, subject_type: str, subject_id: str, by: Actor, at: datetime
) -> list[OutgoingMessage]:
    """Stop every letter of a kind about one thing that has not left; give those that are stopped.

    One whose content is being offered at this moment may go, but is not tried again; one whose
    fate is unknown stays a person's to decide, who can't send it again. A sweep that has claimed
    a stopped one finds its lease gone before it offers the content.

    Writes OutgoingMessage, AuditEntry.
    """
    about = OutgoingMessage.objects.filter(
        kind=kind, subject_type=subject_type, subject_id=subject_id
    )
    return _withdrawn(about, by=by, at=at)


@transaction.atomic
def messages_to_withdraw(*, address: str, by: Actor, at: datetime) -> list[OutgoingMessage]:
    """Stop every letter to an address that has not left, as `messages_withdraw` does.

    Whoever reads there took the consent back. Writes OutgoingMessage, AuditEntry.
    """
    return _withdrawn(OutgoingMessage.objects.filter(recipient_email__iexact=address), by=by, at=at)


@transaction.atomic
def message_decide(
    *, message: OutgoingMessage, decision: str, by: Actor, at: datetime
) -> OutgoingMessage:
    """Send again, mark as delivered, or cancel a letter that failed or whose fate is unknown.

    Raises Refused, MessageIsDecided, ValueError (no such decision).
    Writes OutgoingMessage, AuditEntry.
    """
    SHOP_POLICY.require(by, ShopAction.MESSAGE_DECIDE)
    row = OutgoingMessage.objects.select_for_update().get(pk=message.pk)
    if row.status not in {MessageStatus.UNKNOWN, MessageStatus.DEAD}:
        raise MessageIsDecided("This message is not waiting for a decision.")
    before = row.status
    match decision:
        case "resend" if row.withdrawn_at is not None:
            raise MessageIsDecided("It was stopped for good: it is not sent again.")
        case "resend":
            row.status, row.due_at, row.attempts = MessageStatus.PENDING, at, 0
            row.tried_since = row.data_started_at = None
            row.worker_deaths = 0
            row.created_at = row.created_at if before == MessageStatus.UNKNOWN else at
        case "was delivered":
            row.status, row.sent_at = MessageStatus.SENT, at
        case "cancel":
            row.status = MessageStatus.CANCELLED
        case _:
            raise ValueError("Choose: send again, was delivered, or cancel.")
    row.lease_until = row.lease_token = None
    row.save()
    audit_record(
        action="shop.message.decided",
        subject=row,
        before={"status": before},
        after={"status": row.status, "decision": decision},
        by=by,
        at=at,
    )
    return row


def _withdrawn(
    rows: QuerySet[OutgoingMessage], *, by: Actor, at: datetime
) -> list[OutgoingMessage]:
    stopped = []
    settled = [MessageStatus.SENT, MessageStatus.CANCELLED]
    for row in rows.select_for_update().exclude(status__in=settled):
        before, row.withdrawn_at = row.status, at
        if not _may_have_left(row):
            row.status = MessageStatus.CANCELLED
            row.lease_until = row.lease_token = None
            stopped.append(row)
        row.save(update_fields=["status", "withdrawn_at", "lease_until", "lease_token"])
        audit_record(
            action="shop.message.withdrawn",
            subject=row,
            before={"status": before},
            after={"status": row.status},
            by=by,
            at=at,
        )
    return stopped


def _may_have_left(message: OutgoingMessage) -> bool:
    is_offered = message.data_started_at is not None
    return message.status == MessageStatus.UNKNOWN or (
        message.status == MessageStatus.SENDING and is_offered
    )
