"""Which service takes which kind of entry, with the rows that the entry names."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any, TypeVar
from uuid import UUID

from django.db import models

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from sessions.models import (
    Adapter,
    Block,
    Club,
    Comparison,
    MeasuringDevice,
    Rating,
    Shot,
    ShotExclusion,
    Trial,
    TrialHead,
    TrialShaft,
    Visit,
)
from sessions.services.bag import bag_club_record, other_clubs_record
from sessions.services.comparisons import (
    comparison_open,
    comparison_peek,
    comparison_rate,
    comparison_reveal,
)
from sessions.services.conditions import conditions_record
from sessions.services.equipment import equipment_withdraw
from sessions.services.interviews import interview_answer, interview_close
from sessions.services.shots import rating_record, shot_exclude, shot_mend, shot_record
from sessions.services.taking_back import (
    exclusion_take_back,
    hand_over_take_back,
    rating_take_back,
)
from sessions.services.trials import block_start, trial_finish, trial_start

M = TypeVar("M", bound=models.Model)
Values = Mapping[str, Any]

# What a service of these will ask for next, read along.
READ_WITH: Mapping[type[models.Model], str] = {
    Block: "trial__visit",
    Rating: "visit",
    Shot: "block__trial__visit",
    ShotExclusion: "shot__block__trial__visit",
    Trial: "visit",
    TrialHead: "head",
}


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
    # When the tablet was last told the state, by this server's own clock.
    heard_at: datetime | None = None


def _found(model: type[M], row_id: UUID | None, noun: str, **of: Any) -> M:
    """What an entry belongs to. Not there: the entry waits, since it may still be on its way."""
    rows = model._default_manager.filter(pk=row_id, **of)
    joined = READ_WITH.get(model)
    row = (rows.select_related(joined) if joined else rows).first()
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
    try:
        conditions_record(
            visit=visit, conditions_id=sent.values["id"], values=sent.values, by=by, at=at
        )
    except FieldsRefused as refused:
        # The tablet's fields have no unit in their names.
        raise FieldsRefused(
            {name.rpartition("_")[0] or name: said for name, said in refused.errors.items()}
        ) from refused
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
        swing_weight_points=values["swing_weight_points"],
        mass_g=values["mass_g"],
        changed=values["changed"],
        head_tight=values["head_tight"],
        heard_at=sent.heard_at,
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
    block_start(
        trial=trial,
        block_id=values["id"],
        values=values,
        heard_at=sent.heard_at,
        by=by,
        at=at,
    )
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


def _shot_mend(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    values = dict(sent.values)
    shot_mend(
        shot=_found(Shot, values.pop("shot_id"), "shot", block__trial__visit=visit),
        mended_id=values.pop("id"),
        exclusion_id=values.pop("exclusion_id"),
        block=_maybe(Block, values.pop("block_id"), "block", trial__visit=visit),
        values=values,
        by=by,
        at=at,
    )
    return {}


def _act_take_back(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    row_id, of_id = sent.values["id"], sent.values["of_id"]
    match sent.values["what"]:
        case "exclusion":
            exclusion = _found(ShotExclusion, of_id, "exclusion", shot__block__trial__visit=visit)
            exclusion_take_back(exclusion=exclusion, row_id=row_id, by=by, at=at)
        case "rating":
            rating = _found(Rating, of_id, "rating", visit=visit)
            rating_take_back(rating=rating, row_id=row_id, by=by, at=at)
        case _:
            hand_over_take_back(trial=_found(Trial, of_id, "club", visit=visit), by=by, at=at)
    return {}


def _rating_record(visit: Visit, sent: Sent, by: Actor, at: datetime) -> Values:
    values = sent.values
    rating_record(
        trial=_found(Trial, values["trial_id"], "club", visit=visit),
        rating_id=values["id"],
        about=values["about"],
        score=values["score"],
        situation=values,
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
        kind=values["kind"],
        knowingly=values["knowingly"],
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
        turn=values["turn"],
        situation=values,
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
    "shot.mend": _shot_mend,
    "act.take_back": _act_take_back,
    "rating.record": _rating_record,
    "equipment.withdraw": _equipment_withdraw,
    "comparison.open": _comparison_open,
    "comparison.rate": _comparison_rate,
    "comparison.reveal": _comparison_reveal,
    "comparison.peek": _comparison_peek,
}
