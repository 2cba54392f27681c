"""The bench: steps ticked in order, readings written as they are read, the cure kept."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from decimal import Decimal
from typing import Any
from uuid import UUID, uuid4

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.services.audit import audit_record
from orders.flow import ClubState
from orders.models import BenchStep, BuildOrder, Gauge, OrderClub, Reading
from orders.models.bench import Measure, Stage, Step
from orders.policy import ORDER_POLICY, OrderAction
from orders.rules.bench_steps import IN_ORDER
from orders.selectors.figures import (
    COLUMNS,
    is_glued_since_rework,
    settings_of,
    standing_readings,
    standing_steps,
    values_judged,
)
from orders.selectors.metal import BENDS, bend_facts, is_glued_now, may_bend_again
from orders.services.bench_refusals import refuse_length, refuse_reading, refuse_step
from orders.services.cure import cure_begun
from orders.services.metal import fact_record, readings_bent_over
from orders.services.moves import club_move, locked_club, order_follows

LAST = IN_ORDER[-1]
# What a ruler's length is turned into the target's method with.
MOVES_LENGTH = {(Stage.AS_BUILT, Measure.LIE), (Stage.AS_RECEIVED, Measure.SOLE_POINT)}


@transaction.atomic
def step_finish(
    *, club: OrderClub, step: str, values: Mapping[str, Any], by: Actor, at: datetime
) -> BenchStep:
    """Tick one step of the bench's order for one club. Ticked twice is ticked once.

    `values` by step: picked {"hand"}; hosel {"depth_mm"}; butt_cut {"butt_mm"};
    dry_weight {"added_g"}; epoxy {"resin", "batch", "expires_on", "temperature_c", "hours"};
    any {"note"}.
    A club in rework may have a step done anew, once, and the weight may be typed again until it
    is glued; what was written before is kept beside it.
    A bend is made once more with {"again": True}, where the head was read since the last one.
    Raises Refused, StateRefused, FieldsRefused.
    Writes BenchStep, PermanentFact, Reading, OrderClub, BuildOrder, AuditEntry.
    """
    order, row = locked_club(club)
    _require_bench(order, by)
    known = row.steps.filter(step=step).first()
    bends_again = bool(values.get("again")) and may_bend_again(row, step)
    if known is not None and not bends_again and not _may_be_done_again(row, known, values):
        return known
    refuse_step(row, step, values, again=bends_again, at=at, zone=order.location.zone_info)
    kept = {
        key: value for key, value in values.items() if value not in (None, "") and key != "again"
    }
    _step_effects(row, step, kept, at)
    fact_record(club=row, step=Step(step), by=by, at=at)
    if step in BENDS:
        readings_bent_over(row, at)

    done = known or BenchStep(id=uuid4(), club=row, step=step)
    if known is not None:
        kept["earlier"] = [*known.values.get("earlier", []), _as_written(known)]
    done.values, done.done_at = _plain(kept), at
    done.done_by, done.staff_id = by.name, by.staff_id
    done.save()
    row.save()
    order_follows(order)
    audit_record(
        action="orders.step.finished",
        subject=row,
        after={"step": step, "order": order.number, "slot": row.slot, "state": row.state}
        | _plain(kept),
        by=by,
        at=at,
    )
    return done


@transaction.atomic
def reading_record(
    *,
    club: OrderClub,
    stage: str,
    measure: str,
    value: Decimal,
    gauge: Gauge | None = None,
    as_typed: str = "",
    length_method: str = "",
    reading_id: UUID | None = None,
    by: Actor,
    at: datetime,
) -> Reading:
    """Write one reading of one gauge, in degrees, millimetres, grams or points.

    The same `reading_id` again: the same row, since a second reading of the same figure is a
    second measurement. A length is kept as it was read, with the method of its gauge; without
    a gauge by `length_method`, without that as the target is meant.
    Raises Refused, StateRefused, FieldsRefused. Writes Reading, OrderClub, AuditEntry.
    """
    order, row = locked_club(club)
    _require_bench(order, by)
    known = Reading.objects.filter(pk=reading_id, club=row).first() if reading_id else None
    if known is not None:
        return known
    stage_, measure_ = Stage(stage), Measure(measure)
    refuse_reading(order, row, stage_, measure_, gauge, at)
    method = _method(row, measure_, gauge, length_method)

    reading = Reading.objects.create(
        id=reading_id or uuid4(),
        club=row,
        stage=stage_,
        measure=measure_,
        value=value,
        length_method=method,
        gauge=gauge,
        as_typed=as_typed[:40],
        read_at=at,
        read_by=by.name,
    )
    _mean_kept(row, stage_, measure_)
    audit_record(
        action="orders.reading.recorded",
        subject=row,
        after={
            "stage": stage,
            "measure": measure,
            "value": value,
            "gauge": gauge.name if gauge else "",
            "as_typed": as_typed[:40],
            "length_method": method,
        },
        by=by,
        at=at,
    )
    return reading


@transaction.atomic
def reading_strike_out(*, reading: Reading, why: str, by: Actor, at: datetime) -> Reading:
    """Strike out a mistyped reading: it stays to be seen and counts no more.

    Raises Refused, StateRefused, FieldsRefused. Writes Reading, OrderClub, AuditEntry.
    """
    order, row = locked_club(reading.club)
    _require_bench(order, by)
    locked = Reading.objects.select_for_update(of=("self",)).get(pk=reading.pk)
    if locked.struck_out_at is not None:
        return locked
    if not why.strip():
        raise FieldsRefused({"why": "Say why this reading is struck out."})
    if locked.stage == Stage.DRY and is_glued_since_rework(row):
        raise StateRefused(
            "The weight went in by this reading and the head is glued: read it as built instead.",
            code="bench.glued_by_it",
        )
    is_of_bend = locked.stage == Stage.AS_RECEIVED and locked.measure != Measure.SOLE_POINT
    if is_of_bend and bend_facts(row):
        raise StateRefused(
            "The head is bent by this reading already. Read it after the bend instead.",
            code="bench.bent_by_it",
        )
    if locked.stage == Stage.BENT and is_glued_now(row):
        raise StateRefused(
            "The head is glued by this reading already. Read it as built instead.",
            code="bench.glued_by_it",
        )

    if is_of_bend and row.steps.filter(step=Step.EPOXY).exists():
        rest = standing_readings(row, Stage.AS_RECEIVED, Measure(locked.measure))
        if all(each.pk == locked.pk for each in rest):
            raise StateRefused(
                "The head is glued: this is the only reading of it, and it can't be read again.",
                code="bench.glued_last_reading",
            )

    locked.struck_out_at, locked.struck_out_why = at, why.strip()[:120]
    locked.save(update_fields=["struck_out_at", "struck_out_why"])
    _mean_kept(row, Stage(locked.stage), Measure(locked.measure))
    audit_record(
        action="orders.reading.struck_out",
        subject=row,
        before={"measure": locked.measure, "value": locked.value},
        after={"why": locked.struck_out_why},
        by=by,
        at=at,
    )
    return locked


def _require_bench(order: BuildOrder, by: Actor) -> None:
    ORDER_POLICY.require(
        by, OrderAction.BENCH_WORK, location_id=order.location_id, state=order.state
    )


def _may_be_done_again(club: OrderClub, done: BenchStep, values: Mapping[str, Any]) -> bool:
    """In a rework once more; what counts no more since something was glued anew; and other grams
    until it is glued."""
    is_weight = done.step == Step.DRY_WEIGHT and not is_glued_since_rework(club)
    if is_weight and _grams(values.get("added_g")) != _grams(done.values.get("added_g")):
        return True
    is_back = club.state == ClubState.REWORK
    if is_back and (club.reworked_at is None or done.done_at <= club.reworked_at):
        return True
    return done.step not in standing_steps(club, settings_of(club.revision).values)


def _grams(typed: Any) -> Decimal:
    return Decimal(0) if typed in (None, "") else Decimal(str(typed))


def _step_effects(club: OrderClub, step: str, values: dict[str, Any], at: datetime) -> None:
    """What a step does to the club's state and cure. May add to `values`."""
    if step == Step.EPOXY:
        cure_begun(club, values, at=at)
        club_move(club, ClubState.CURING)
    elif step == Step.DRY_WEIGHT and club.target_swing_weight_points is not None:
        values["added_g"] = _grams(values.get("added_g"))
    elif step == Step.CURED and club.state == ClubState.CURING:
        club_move(club, ClubState.TO_BUILD if club.reworked_at is None else ClubState.REWORK)
    elif step == Step.PICKED and club.state == ClubState.TO_PICK:
        club_move(club, ClubState.TO_BUILD)
    elif step == LAST and club.state != ClubState.TO_CHECK:
        club_move(club, ClubState.TO_CHECK)


def _method(club: OrderClub, measure: Measure, gauge: Gauge | None, said: str) -> str:
    """By which method a length is read; nothing for another measure. Raises FieldsRefused."""
    if measure != Measure.LENGTH:
        return ""
    method = gauge.length_method if gauge is not None else said or club.length_method
    refuse_length(club, method, "length_method" if gauge is None else "gauge")
    return method


def _mean_kept(club: OrderClub, stage: Stage, measure: Measure) -> None:
    """Keep the mean of what stands on the club's own row: a length in its target's method."""
    column, places = COLUMNS.get((stage, measure), ("", ""))
    if not column:
        return
    values = values_judged(club, standing_readings(club, stage, measure))
    mean = sum(values, Decimal(0)) / len(values) if values else None
    setattr(club, column, None if mean is None else mean.quantize(Decimal(places)))
    club.save(update_fields=[column])
    if (stage, measure) in MOVES_LENGTH:
        _mean_kept(club, Stage.AS_BUILT, Measure.LENGTH)


def _as_written(step: BenchStep) -> dict[str, Any]:
    values = {key: value for key, value in step.values.items() if key != "earlier"}
    return {"done_at": step.done_at.isoformat(), "done_by": step.done_by, **values}


def _plain(values: Mapping[str, Any]) -> dict[str, Any]:
    """Decimals and times as text, for a JSON column."""
    return {
        key: value.isoformat()
        if isinstance(value, datetime)
        else str(value)
        if isinstance(value, Decimal)
        else value
        for key, value in values.items()
    }
