"""What a tablet recorded, taken over once: the same entry again has the same receipt again.

The door reads what was typed into values; here each entry goes to its service in a transaction
of its own. A refused entry is not stored, so that a corrected one, under an id of its own, can
follow; sent again unchanged it is judged again and refused alike.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db import IntegrityError, transaction

from fitshop.actor import Actor
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from sessions.models import (
    Command,
    Visit,
)
from sessions.policy import NOT_OPEN
from sessions.services.command_handlers import HANDLERS, Sent
from sessions.services.visits import sequence_take

STORED, AGAIN, NOT_ALLOWED, NOT_NOW, NOT_FITTING = 201, 200, 403, 409, 422
OTHER_CONTENT = "An entry with this id was stored with other content. Record it again."
WRONG_SUM = "The entry was damaged on the way: its check sum differs."
NOT_STORABLE = "There is a character in it that can't be stored."
NOT_AS_TYPED = "Figures are sent as they were typed, as text."
NOT_BELIEVABLE = "The figures contradict each other or what is stored; nothing was changed."


@dataclass(frozen=True, slots=True)
class Device:
    """The tablet: its name, and how far its clock is ahead of the server's [s]."""

    name: str = ""
    clock_offset_s: float | None = None


def command_hash(kind: str, body: Mapping[str, Any]) -> str:
    """The hex SHA-256 of kind and canonical body: keys sorted, no spaces, letters as they are."""
    canonical = json.dumps(body, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(f"{kind}\n{canonical}".encode("utf-8", "surrogatepass")).hexdigest()


def commands_take(
    *, visit: Visit, sent: Sequence[Sent], device: Device, by: Actor, at: datetime
) -> list[dict[str, Any]]:
    """Take over entries in their order, each in a transaction of its own; one receipt each.

    A refused entry doesn't stop those after it; what belongs to it waits.
    """
    return [command_take(visit=visit, sent=one, device=device, by=by, at=at) for one in sent]


def command_take(
    *, visit: Visit, sent: Sent, device: Device, by: Actor, at: datetime
) -> dict[str, Any]:
    """Take over one entry and return its receipt; refusals are receipts too, never raised.

    Writes Command and what its service writes; nothing where it is refused.
    """
    try:
        return _stored(visit=visit, sent=sent, device=device, by=by, at=at)
    except FieldsRefused as refused:
        return _refusal(sent, NOT_FITTING, errors=refused.errors, code=refused.code)
    except StateRefused as refused:
        return _refusal(sent, NOT_NOW, sentence=refused.sentence, code=refused.code)
    except Refused as refused:
        status = NOT_NOW if refused.sentence == NOT_OPEN else NOT_ALLOWED
        return _refusal(sent, status, sentence=refused.sentence)
    except IntegrityError:
        # The id was stored at the same moment by another request, or a constraint said no.
        return _again(visit, sent) or _refusal(sent, NOT_FITTING, sentence=NOT_BELIEVABLE)


@transaction.atomic
def _stored(*, visit: Visit, sent: Sent, device: Device, by: Actor, at: datetime) -> dict[str, Any]:
    if by.staff_id is None:
        raise Refused("Sign in to record; what you recorded is kept.")
    visit = Visit.objects.select_for_update().get(pk=visit.pk)
    again = _again(visit, sent)
    if again is not None:
        return again
    sentence = _content_refusal(sent)
    if sentence:
        return _refusal(sent, NOT_FITTING, sentence=sentence)
    if sent.errors:
        raise FieldsRefused(dict(sent.errors), code="entry.not_readable")

    result = HANDLERS[sent.kind](visit, sent, by.within_command(sent.id), at)

    sequence = sequence_take(visit)
    receipt = {
        "id": str(sent.id),
        "outcome": "stored",
        "status": STORED,
        "sequence": sequence,
        "version": sequence,
        "sha256": sent.sha256,
        "errors": {},
        "sentence": "",
        **result,
    }
    Command.objects.create(
        id=sent.id,
        visit=visit,
        kind=sent.kind,
        body=sent.body,
        sha256=sent.sha256,
        staff_id=by.staff_id,
        device=device.name,
        device_time=sent.device_time,
        device_counter=sent.counter,
        clock_offset_s=device.clock_offset_s,
        received_at=at,
        sequence=sequence,
        receipt=receipt,
    )
    return receipt


def _again(visit: Visit, sent: Sent) -> dict[str, Any] | None:
    """The receipt of an entry that was stored before; a refusal where its content differs."""
    known = Command.objects.filter(pk=sent.id).first()
    if known is None:
        return None
    is_same = (
        known.visit_id == visit.pk
        and known.kind == sent.kind
        and known.sha256 == sent.sha256
        and command_hash(sent.kind, sent.body) == sent.sha256
    )
    if not is_same:
        return _refusal(sent, NOT_FITTING, sentence=OTHER_CONTENT)
    return {**known.receipt, "status": AGAIN}


def _content_refusal(sent: Sent) -> str:
    """Why the entry can't be what the tablet recorded, or can't be kept; empty where it can."""
    if command_hash(sent.kind, sent.body) != sent.sha256:
        return WRONG_SUM
    for leaf in _leaves(sent.body):
        if isinstance(leaf, str) and ("\x00" in leaf or _has_half_letter(leaf)):
            return NOT_STORABLE
        if isinstance(leaf, int | float) and not isinstance(leaf, bool):
            return NOT_AS_TYPED
    return ""


def _leaves(value: Any) -> list[Any]:
    if isinstance(value, Mapping):
        return [*value, *(leaf for one in value.values() for leaf in _leaves(one))]
    if isinstance(value, list):
        return [leaf for one in value for leaf in _leaves(one)]
    return [value]


def _has_half_letter(text: str) -> bool:
    """Half of a letter that takes two code units can't be stored as UTF-8."""
    return any("\ud800" <= letter <= "\udfff" for letter in text)


def _refusal(
    sent: Sent,
    status: int,
    *,
    errors: Mapping[str, str] | None = None,
    sentence: str = "",
    code: str = "",
) -> dict[str, Any]:
    said = dict(errors or {})
    return {
        "id": str(sent.id),
        "outcome": "refused",
        "status": status,
        "sequence": None,
        "version": None,
        "sha256": sent.sha256,
        "errors": said,
        "sentence": sentence or " ".join(said.values()),
        "code": code,
    }


__all__ = ["Device", "Sent", "command_hash", "command_take", "commands_take"]
