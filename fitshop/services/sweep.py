"""Sending what is due. The rows are the queue; any number of sweeps may run at once.

Each letter: claim it in a short transaction, render what is attached, talk to the mail server
outside any transaction, write the result with one's own lease token. Nothing here depends on a
broker: a sweep that never comes, comes twice or dies half way costs time, never a letter.
"""

from __future__ import annotations

import hashlib
import random
import uuid
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from django.conf import settings
from django.db import DatabaseError, connection, transaction
from django.db.models import F, Q, Value
from django.db.models.functions import Coalesce
from django.utils.module_loading import import_string

from fitshop.actor import Actor
from fitshop.models import Heartbeat, MessageAttachment, MessageStatus, OutgoingMessage
from fitshop.models.messages import ACCOUNT_KIND
from fitshop.rendering import RenderingFailed
from fitshop.services.account_letters import NoLongerHolds, account_letter_text
from fitshop.services.audit import audit_record
from fitshop.services.mail_transport import (
    REFUSES_ADDRESS,
    Fate,
    Outcome,
    Transport,
    letter_from,
)

HEARTBEAT = "messages"
LEASE = timedelta(seconds=60)  # longer than the transport's own limit
FIRST_PAUSE = timedelta(seconds=30)
LONGEST_PAUSE = timedelta(hours=1)
LONGEST_TRYING = timedelta(hours=24)
MOST_WORKER_DEATHS = 3
MOST_PER_SWEEP = 50

Clock = Callable[[], datetime]


class LeaseLost(Exception):
    """Another sweep holds the letter by now: this one must not touch it."""


@dataclass(frozen=True, slots=True)
class Swept:
    """What one sweep did, by the state the letters are in now."""

    counts: Counter[str]

    def __str__(self) -> str:
        return ", ".join(f"{many} {state}" for state, many in sorted(self.counts.items())) or "none"


def sweep(*, transport: Transport, clock: Clock, by: Actor) -> Swept:
    """Send every letter that is due, at most MOST_PER_SWEEP, then leave a heartbeat.

    The clock is handed in because a sweep lasts: every lease is counted from its own moment.
    Writes OutgoingMessage, MessageAttachment, Heartbeat, AuditEntry.
    """
    counts: Counter[str] = Counter()
    for _ in range(MOST_PER_SWEEP):
        claimed = messages_claim(limit=1, at=clock())
        if not claimed:
            break
        outcome = _sent(claimed[0], transport=transport, clock=clock)
        if outcome is not None:
            counts[
                message_result_record(message=claimed[0], outcome=outcome, by=by, at=clock())
            ] += 1
    doubtful_messages_settle(by=by, at=clock())
    Heartbeat.objects.update_or_create(name=HEARTBEAT, defaults={"at": clock()})
    return Swept(counts)


@transaction.atomic
def messages_claim(*, limit: int, at: datetime) -> list[OutgoingMessage]:
    """Take up to `limit` letters that are due, or whose sender died before offering them.

    A try is counted here, so that a letter which kills its sender can't do so for ever.
    """
    waiting = Q(status=MessageStatus.PENDING, due_at__lte=at)
    left = Q(
        status=MessageStatus.SENDING,
        lease_until__lt=at,
        data_started_at__isnull=True,
        worker_deaths__lt=MOST_WORKER_DEATHS - 1,
    )
    due = OutgoingMessage.objects.filter(waiting | left).order_by("due_at", "id")
    if connection.features.has_select_for_update_skip_locked:
        due = due.select_for_update(skip_locked=True)
    claimed = []
    for row in due[:limit]:
        died = 1 if row.status == MessageStatus.SENDING else 0
        taken = OutgoingMessage.objects.filter(
            pk=row.pk, status=row.status, lease_token=row.lease_token
        ).update(
            status=MessageStatus.SENDING,
            lease_until=at + LEASE,
            lease_token=(token := uuid.uuid4()),
            attempts=F("attempts") + 1,
            tried_since=Coalesce("tried_since", Value(at)),
            worker_deaths=F("worker_deaths") + died,
            data_started_at=None,
        )
        if taken:
            row.refresh_from_db()
            assert row.lease_token == token
            claimed.append(row)
    return claimed


def message_result_record(
    *, message: OutgoingMessage, outcome: Outcome, by: Actor, at: datetime
) -> str:
    """Write what became of a claimed letter; return its state, or "lease lost".

    Only the holder of the lease may write. Writes OutgoingMessage, AuditEntry.
    """
    changed: dict[str, Any] = {"last_reply": outcome.reply[:2000], "lease_until": None}
    changed["lease_token"] = None
    match outcome.fate:
        case Fate.DELIVERED:
            changed |= {"status": MessageStatus.SENT, "sent_at": at}
        case Fate.REFUSED:
            changed |= {"status": MessageStatus.DEAD}
        case Fate.UNKNOWN:
            changed |= {"status": MessageStatus.UNKNOWN}
        case Fate.LATER if _is_withdrawn(message):
            changed |= {"status": MessageStatus.CANCELLED}
        case Fate.LATER if _is_tried_enough(message, at):
            changed |= {"status": MessageStatus.DEAD}
        case Fate.LATER:
            changed |= {"status": MessageStatus.PENDING, "due_at": at + pause(message.attempts)}
            changed["data_started_at"] = None
    with transaction.atomic():
        written = _held(message).update(**changed)
        if not written:
            return "lease lost"
        audit_record(
            action=f"shop.message.{changed['status']}",
            subject=message,
            before={"status": MessageStatus.SENDING},
            after={"status": changed["status"], "try": message.attempts, "fate": outcome.fate},
            by=by,
            at=at,
        )
    return str(changed["status"])


@transaction.atomic
def doubtful_messages_settle(*, by: Actor, at: datetime) -> int:
    """Hand to a person what a sender that died leaves open; return how many letters.

    Died after it began to offer the content: unknown. Died again and again before: dead.
    Writes OutgoingMessage, AuditEntry.
    """
    settled = 0
    left = OutgoingMessage.objects.select_for_update().filter(
        status=MessageStatus.SENDING, lease_until__lt=at
    )
    for row in left.filter(
        Q(data_started_at__isnull=False) | Q(worker_deaths__gte=MOST_WORKER_DEATHS - 1)
    ):
        if row.data_started_at is not None:
            row.status = MessageStatus.UNKNOWN
            row.last_reply = "The sender stopped while it handed the letter over."
        else:
            row.status = MessageStatus.DEAD
            row.last_reply = "The sender stopped at every try before the letter was handed over."
            row.worker_deaths += 1
        row.lease_until = row.lease_token = None
        row.save()
        audit_record(
            action=f"shop.message.{row.status}",
            subject=row,
            before={"status": MessageStatus.SENDING},
            after={"status": row.status, "try": row.attempts},
            by=by,
            at=at,
        )
        settled += 1
    return settled


def pause(tries: int, chance: float | None = None) -> timedelta:
    """How long to wait after so many tries: 30 s, doubled each time, up to an hour.

    Up to a quarter more by `chance` (0 to 1; drawn where not given), so that the letters of one
    outage don't all come back at once.
    """
    drawn = random.random() if chance is None else chance
    doubled: timedelta = min(FIRST_PAUSE * 2 ** (min(tries, 20) - 1), LONGEST_PAUSE)
    return doubled * (1 + drawn / 4)


def _is_withdrawn(message: OutgoingMessage) -> bool:
    """Whether it was withdrawn while it was being handed over: asked of the row, not of ours."""
    return OutgoingMessage.objects.filter(pk=message.pk, withdrawn_at__isnull=False).exists()


def _is_tried_enough(message: OutgoingMessage, at: datetime) -> bool:
    """True after a day of tries; a letter that a person sent again has another day."""
    return message.attempts > 1 and at - (message.tried_since or at) >= LONGEST_TRYING


def _sent(message: OutgoingMessage, *, transport: Transport, clock: Clock) -> Outcome | None:
    """Render and hand over one claimed letter; None where the lease was lost on the way."""
    if _address_is_refused(message):
        return Outcome(Fate.REFUSED, f"{REFUSES_ADDRESS}it was refused before. Correct it first.")
    try:
        if message.kind == ACCOUNT_KIND:
            if not transport.is_private:
                return Outcome(Fate.REFUSED, "No mail server: such a letter is not left in a file.")
            # Its text has the link. It lives in this object only, and no one saves that.
            message.body_text = account_letter_text(message, clock())
        letter = letter_from(message, _rendered(message))
    except NoLongerHolds as over:
        return Outcome(Fate.REFUSED, str(over))
    except RenderingFailed as error:
        return Outcome(Fate.LATER, f"An attachment could not be made: {error}")
    except DatabaseError:
        raise
    except Exception as error:  # a row that can't be written must not stop those behind it
        return Outcome(Fate.REFUSED, f"The letter could not be written: {error!r}")

    def before_data() -> None:
        now = clock()
        if not _held(message).update(data_started_at=now, lease_until=now + LEASE):
            raise LeaseLost

    try:
        now = clock()
        if not _held(message).update(lease_until=now + LEASE):
            return None
        return transport.send(letter, before_data=before_data)
    except LeaseLost:
        return None


def _held(message: OutgoingMessage) -> Any:
    """The row, as long as it is ours."""
    return OutgoingMessage.objects.filter(
        pk=message.pk, status=MessageStatus.SENDING, lease_token=message.lease_token
    )


def _address_is_refused(message: OutgoingMessage) -> bool:
    """Whether this very address was refused for good; a person's "send again" overrides it."""
    if message.last_reply:
        return False
    return OutgoingMessage.objects.filter(
        recipient_email__iexact=message.recipient_email,
        status=MessageStatus.DEAD,
        last_reply__startswith=REFUSES_ADDRESS,
    ).exists()


def _rendered(message: OutgoingMessage) -> list[MessageAttachment]:
    """The attachments as files, each rendered once from its frozen values and then kept."""
    kept = {file.name: file for file in message.files.all()}
    for wanted in message.attachments:
        if wanted["name"] in kept:
            continue
        render: Callable[[dict[str, Any]], bytes] = import_string(
            settings.DOCUMENT_RENDERERS[wanted["document"]]
        )
        content = render(wanted["values"])
        kept[wanted["name"]], _ = MessageAttachment.objects.get_or_create(
            message=message,
            name=wanted["name"],
            defaults={
                "content_type": "application/pdf",
                "sha256": hashlib.sha256(content).hexdigest(),
                "content": content,
            },
        )
    return [kept[wanted["name"]] for wanted in message.attachments]
