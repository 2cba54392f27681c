"""What a tablet recorded, taken over once: the same entry again has the same receipt again.

The door reads what was typed into values; here each entry goes to its service in a transaction
of its own. A refused entry is not stored, so that a corrected one, under an id of its own, can
follow; sent again unchanged it is judged again and refused alike.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any, TypeVar
from uuid import UUID

from django.db import IntegrityError, models, transaction

from fitshop.actor import Actor
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from sessions.models import (
    Adapter,
    Block,
    Club,
    Command,
    Comparison,
    MeasuringDevice,
    Shot,
    Trial,
    TrialHead,
    TrialShaft,
    Visit,
)
from sessions.policy import NOT_OPEN
from sessions.services.bag import bag_club_record, other_clubs_record
from sessions.services.comparisons import (
    comparison_open,
    comparison_peek,
    comparison_rate,
    comparison_reveal,
)
from sessions.services.equipment import equipment_withdraw
from sessions.services.interviews import interview_answer, interview_close
from sessions.services.shots import rating_record, shot_exclude, shot_record
from sessions.services.trials import block_start, trial_finish, trial_start
from sessions.services.visits import conditions_record, sequence_take

M = TypeVar("M", bound=models.Model)
Values = Mapping[str, Any]

STORED, AGAIN, NOT_ALLOWED, NOT_NOW, NOT_FITTING = 201, 200, 403, 409, 422
OTHER_CONTENT = "An entry with this id was stored with other content. Record it again."
WRONG_SUM = "The entry was damaged on the way: its check sum differs."
NOT_STORABLE = "There is a character in it that can't be stored."
NOT_AS_TYPED = "Figures are sent as they were typed, as text."
NOT_BELIEVABLE = "The figures contradict each other or what is stored; nothing was changed."


@dataclass(frozen=True, slots=True)
class Sent:
    """One entry as it came: its body, and the values and sentences that the door read from it."""

    id: UUID
    kind: str
    body: Mapping[str, Any]
    sha256: str
    values: Values = field(default_factory=dict)
    errors: Mapping[str, str] = field(default_factory=dict)
    counter: int | None = None
    device_time: datetime | None = None


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
        return _refusal(sent, NOT_FITTING, errors=refused.errors)
    except StateRefused as refused:
        return _refusal(sent, NOT_NOW, sentence=refused.sentence)
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
        raise FieldsRefused(dict(sent.errors))

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
    sent: Sent, status: int, *, errors: Mapping[str, str] | None = None, sentence: str = ""
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
    }


# --- to the services ----------------------------------------------------------------------


def _found(model: type[M], row_id: UUID | None, noun: str, **of: Any) -> M:
    """What an entry belongs to. Not there: the entry waits, since it may still be on its way."""
    row = model._default_manager.filter(pk=row_id, **of).first()
    if row is None:
        raise StateRefused(f"This waits for its {noun}, which is not recorded.")
    return row


def _maybe(model: type[M], row_id: UUID | None, noun: str, **of: Any) -> M | None:
    return None if row_id is None else _found(model, row_id, noun, **of)


def _interview_answer(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    values = dict(sent.values)
    interview_answer(
        visit=visit,
        answer_id=values["id"],
        question=values["question"],
        value=values["value"],
        ask_later=values["ask_later"],
        said_by=values["said_by"],
        said_where=values["said_where"],
        by=by,
        at=at,
    )
    return {}


def _interview_close(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    interview_close(visit=visit, by=by, at=at)
    return {}


def _bag_club(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    values = dict(sent.values)
    bag_club_record(
        visit=visit, entry_id=values["id"], club_id=values["club_id"], values=values, by=by, at=at
    )
    return {}


def _bag_others(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    other_clubs_record(visit=visit, counts=sent.values["counts"], by=by, at=at)
    return {}


def _conditions_record(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    conditions_record(
        visit=visit, conditions_id=sent.values["id"], values=sent.values, by=by, at=at
    )
    return {}


def _trial_start(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    values = sent.values
    trial_start(
        visit=visit,
        trial_id=values["id"],
        purpose=values["purpose"],
        club=_maybe(Club, values["club_id"], "club"),
        trial_head=_maybe(TrialHead, values["trial_head_id"], "trial head"),
        trial_shaft=_maybe(TrialShaft, values["trial_shaft_id"], "trial shaft"),
        adapter=_maybe(Adapter, values["adapter_id"], "adapter"),
        slot=values["slot"],
        role=values["role"],
        loft_deg=values["loft_deg"],
        lie_deg=values["lie_deg"],
        changed=values["changed"],
        head_tight=values["head_tight"],
        by=by,
        at=at,
    )
    return {}


def _trial_finish(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    trial_finish(trial=_found(Trial, sent.values["trial_id"], "club", visit=visit), by=by, at=at)
    return {}


def _block_start(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    values = dict(sent.values)
    trial = _found(Trial, values["trial_id"], "club", visit=visit)
    values["device"] = _maybe(MeasuringDevice, values["device_id"], "device")
    block_start(trial=trial, block_id=values["id"], values=values, by=by, at=at)
    return {}


def _shot_record(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    values = sent.values
    shot_record(
        block=_found(Block, values["block_id"], "block", trial__visit=visit),
        shot_id=values["id"],
        values=values,
        device_time=sent.device_time,
        device_counter=sent.counter,
        by=by,
        at=at,
    )
    return {}


def _shot_exclude(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    values = sent.values
    shot = _found(Shot, values["shot_id"], "shot", block__trial__visit=visit)
    shot_exclude(shot=shot, exclusion_id=values["id"], reason=values["reason"], by=by, at=at)
    return {}


def _rating_record(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    values = sent.values
    rating_record(
        trial=_found(Trial, values["trial_id"], "club", visit=visit),
        rating_id=values["id"],
        about=values["about"],
        score=values["score"],
        by=by,
        at=at,
    )
    return {}


def _equipment_withdraw(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    values = sent.values
    kinds: dict[str, type[TrialHead | TrialShaft | Adapter]] = {
        "head": TrialHead,
        "shaft": TrialShaft,
        "adapter": Adapter,
    }
    item = _found(kinds[values["what"]], values["item_id"], values["what"])
    equipment_withdraw(item=item, why=values["why"], by=by, at=at)
    return {}


def _comparison_open(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    values = sent.values
    comparison_open(
        visit=visit,
        comparison_id=values["id"],
        slot=values["slot"],
        trials=[_found(Trial, trial_id, "club", visit=visit) for trial_id in values["trial_ids"]],
        covered=values["covered"],
        seed=values["seed"],
        by=by,
        at=at,
    )
    return {}


def _comparison_rate(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    values = sent.values
    comparison_rate(
        comparison=_comparison(visit, sent),
        rating_id=values["id"],
        code=values["code"],
        about=values["about"],
        score=values["score"],
        by=by,
        at=at,
    )
    return {}


def _comparison_reveal(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    comparison_reveal(comparison=_comparison(visit, sent), by=by, at=at)
    return {}


def _comparison_peek(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    """The one receipt with something to show: what is behind the number, to hand it over."""
    comparison = _comparison(visit, sent)
    peek = comparison_peek(comparison=comparison, code=sent.values["code"], by=by, at=at)
    trial = comparison.arms.select_related("trial__trial_head").get(code=peek.code).trial
    mark = f"{trial.trial_head.mark}, " if trial.trial_head is not None else ""
    return {"shown": f"{mark}{trial.head_name}"}


def _comparison(visit: Visit, sent: Sent) -> Comparison:
    return _found(Comparison, sent.values["comparison_id"], "comparison", visit=visit)


HANDLERS: Mapping[str, Callable[[Visit, Sent, Actor, datetime], Values]] = {
    "interview.answer": _interview_answer,
    "interview.close": _interview_close,
    "bag.club": _bag_club,
    "bag.others": _bag_others,
    "conditions.record": _conditions_record,
    "trial.start": _trial_start,
    "trial.finish": _trial_finish,
    "block.start": _block_start,
    "shot.record": _shot_record,
    "shot.exclude": _shot_exclude,
    "rating.record": _rating_record,
    "equipment.withdraw": _equipment_withdraw,
    "comparison.open": _comparison_open,
    "comparison.rate": _comparison_rate,
    "comparison.reveal": _comparison_reveal,
    "comparison.peek": _comparison_peek,
}
