"""The bench: steps ticked in order, readings written as they are read, the cure kept."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, tzinfo
from decimal import Decimal
from typing import Any
from uuid import UUID, uuid4

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.selectors import settings_in_force
from fitshop.services.audit import audit_record
from orders.flow import ClubState, OrderState
from orders.models import BenchStep, BuildOrder, Gauge, OrderClub, Reading
from orders.models.bench import Measure, Stage, Step
from orders.policy import ORDER_POLICY, OrderAction
from orders.rules.bench_steps import AFTER_THE_CURE
from orders.rules.cure import CureLimits, cure_limits_from, cured_at
from orders.selectors.figures import (
    COLUMNS,
    MEASURES,
    bend_of,
    figures_of,
    settings_of,
    standing_readings,
    work_of,
)
from orders.services.moves import club_move, locked_club, order_move
from sessions.rules.wording import figure, listed

BENDS = (Step.BENT_BARE, Step.BENT_BUILT)


@transaction.atomic
def step_finish(
    *, club: OrderClub, step: str, values: Mapping[str, Any], by: Actor, at: datetime
) -> BenchStep:
    """Tick one step of the bench's order for one club. Ticked twice is ticked once.

    `values` by step: picked {"hand"}; hosel {"depth_mm"}; butt_cut {"butt_mm"};
    dry_weight {"points", "added_g"}; epoxy {"temperature_c", "hours"}; any {"note"}.
    A club in rework may have a step done anew; what was written before is kept beside it.
    Raises Refused, StateRefused, FieldsRefused.
    Writes BenchStep, OrderClub, BuildOrder, AuditEntry.
    """
    order, row = locked_club(club)
    _require_bench(order, by)
    known = row.steps.filter(step=step).first()
    if known is not None and row.state != ClubState.REWORK:
        return known
    _refuse_step(row, step, values, at=at, zone=order.location.zone_info)
    kept = {key: value for key, value in values.items() if value not in (None, "")}
    _step_effects(row, step, kept, at)

    done = known or BenchStep(id=uuid4(), club=row, step=step)
    if known is not None:
        kept["earlier"] = [*known.values.get("earlier", []), _as_written(known)]
    done.values, done.done_at = _plain(kept), at
    done.done_by, done.staff_id = by.name, by.staff_id
    done.save()
    row.save()
    _order_follows(order)
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
    reading_id: UUID | None = None,
    by: Actor,
    at: datetime,
) -> Reading:
    """Write one reading of one gauge, in degrees, millimetres, grams or points.

    The same `reading_id` again: the same row, since a second reading of the same figure is a
    second measurement. Raises Refused, StateRefused, FieldsRefused.
    Writes Reading, OrderClub, AuditEntry.
    """
    order, row = locked_club(club)
    _require_bench(order, by)
    known = Reading.objects.filter(pk=reading_id, club=row).first() if reading_id else None
    if known is not None:
        return known
    stage_, measure_ = Stage(stage), Measure(measure)
    _refuse_reading(order, row, stage_, measure_, gauge, at)

    reading = Reading.objects.create(
        id=reading_id or uuid4(),
        club=row,
        stage=stage_,
        measure=measure_,
        value=value,
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
    if locked.stage == Stage.AS_RECEIVED and row.steps.filter(step__in=BENDS).exists():
        raise StateRefused("The head is bent by this reading already. Read it as built instead.")

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


def refuse_while_curing(club: OrderClub, *, at: datetime, zone: tzinfo) -> None:
    """Bending, final readings and hand-over wait for the epoxy. Raises StateRefused."""
    if club.cure_until is None or at >= club.cure_until:
        return
    ends, now = club.cure_until.astimezone(zone), at.astimezone(zone)
    shown = "%H:%M" if ends.date() == now.date() else "%a %H:%M"
    raise StateRefused(f"Cure ends {ends:{shown}}; it is {now:{shown}}.")


def _require_bench(order: BuildOrder, by: Actor) -> None:
    ORDER_POLICY.require(
        by, OrderAction.BENCH_WORK, location_id=order.location_id, state=order.state
    )


def _refuse_step(
    club: OrderClub, step: str, values: Mapping[str, Any], *, at: datetime, zone: tzinfo
) -> None:
    work = work_of(club)
    if step not in work.steps:
        raise StateRefused("This club doesn't need that step.")
    if club.state in (ClubState.READY, ClubState.COLLECTED):
        raise StateRefused("This club is built and checked.")
    done = set(club.steps.values_list("step", flat=True))
    if missing := work.missing_before(step, done):
        raise StateRefused(f"First: {Step(missing[0]).label}.")
    if step in AFTER_THE_CURE:
        refuse_while_curing(club, at=at, zone=zone)
    if step in BENDS:
        _refuse_bend(club)
    match Step(step):
        case Step.PICKED if values.get("hand") != club.hand:
            raise FieldsRefused(
                {
                    "hand": f"This club is for the {club.hand.upper()} hand. "
                    "Look at the head, say its hand aloud, and choose it."
                }
            )
        case Step.BARE_HEAD:
            _refuse_unread(club)
        case Step.MEASURED:
            _refuse_unmeasured(club)
        case Step.DRY_WEIGHT:
            _refuse_too_much_added(club, values)


def _refuse_bend(club: OrderClub) -> None:
    bend = bend_of(club, settings_of(club.revision).values)
    if bend.loft_deg is None or bend.lie_deg is None:
        raise StateRefused("Measure loft and lie as received first: bend from that.")
    if bend.refusals:
        raise StateRefused(
            " ".join(bend.refusals)
            + " Don't bend it: take another head, or have the order revised."
        )


def _refuse_unread(club: OrderClub) -> None:
    missing = [
        word
        for word, value in (("loft", club.as_received_loft_deg), ("lie", club.as_received_lie_deg))
        if value is None
    ]
    if missing:
        raise StateRefused(f"As received, {listed(missing)} must be measured first.")


def _refuse_unmeasured(club: OrderClub) -> None:
    missing = [
        each.measure.label
        for each in figures_of(club, settings_of(club.revision).values)
        if each.verdict.mean is None
    ]
    if missing:
        raise StateRefused(f"Not measured yet: {listed(missing)}.")


def _refuse_too_much_added(club: OrderClub, values: Mapping[str, Any]) -> None:
    added, most = (
        values.get("added_g"),
        Decimal(str(settings_of(club.revision)["build.most_added_g"])),
    )
    if added is not None and added != "" and Decimal(str(added)) > most:
        raise FieldsRefused(
            {
                "added_g": f"At most {figure(most)} g goes into a hosel. Change a part, or have "
                "the swing weight revised: length comes before swing weight."
            }
        )


def _step_effects(club: OrderClub, step: str, values: dict[str, Any], at: datetime) -> None:
    """What a step does to the club's state and cure. May add to `values`."""
    if step == Step.EPOXY:
        club.cure_until = _cure_end(values, at)
        values["cure_until"] = club.cure_until
        club_move(club, ClubState.CURING)
    elif step == Step.PICKED and club.state == ClubState.TO_PICK:
        club_move(club, ClubState.TO_BUILD)
    elif step == work_of(club).steps[-1] and club.state != ClubState.TO_CHECK:
        club_move(club, ClubState.TO_CHECK)


def _cure_end(values: Mapping[str, Any], at: datetime) -> datetime:
    temperature, hours = values.get("temperature_c"), values.get("hours")
    if temperature is None or temperature == "":
        raise FieldsRefused({"temperature_c": "Read the temperature at the bench and type it."})
    limits = cure_limits_from(settings_in_force().values)
    if hours is not None:
        # The resin's own sheet wins over the shop's usual time.
        limits = CureLimits(
            Decimal(str(hours)), limits.full_speed_c, limits.double_at_c, limits.least_c
        )
    until = cured_at(at, Decimal(str(temperature)), limits)
    if until is None:
        raise FieldsRefused(
            {
                "temperature_c": f"Below {figure(limits.least_c)} °C the epoxy doesn't cure. "
                "Warm the bench and the parts, then mix."
            }
        )
    return until


def _refuse_reading(
    order: BuildOrder,
    club: OrderClub,
    stage: Stage,
    measure: Measure,
    gauge: Gauge | None,
    at: datetime,
) -> None:
    if measure not in MEASURES[stage]:
        raise FieldsRefused({"measure": f"A {measure.label} is not read {stage.label}."})
    if gauge is not None and gauge.measure != measure:
        raise FieldsRefused({"gauge": f"{gauge.name} doesn't read {measure.label}."})
    if club.state in (ClubState.READY, ClubState.COLLECTED):
        raise StateRefused("This club is built and checked.")
    done = set(club.steps.values_list("step", flat=True))
    if stage == Stage.AS_RECEIVED:
        if done.intersection(BENDS):
            raise StateRefused("The head is bent already: it can't be read as received any more.")
        return
    if missing := work_of(club).missing_before(Step.MEASURED, done):
        raise StateRefused(f"First: {Step(missing[0]).label}.")
    refuse_while_curing(club, at=at, zone=order.location.zone_info)


def _mean_kept(club: OrderClub, stage: Stage, measure: Measure) -> None:
    """Keep the mean of what stands on the club's own row."""
    column, places = COLUMNS.get((stage, measure), ("", ""))
    if not column:
        return
    values = [reading.value for reading in standing_readings(club, stage, measure)]
    mean = sum(values, Decimal(0)) / len(values) if values else None
    setattr(club, column, None if mean is None else mean.quantize(Decimal(places)))
    club.save(update_fields=[column])


def _order_follows(order: BuildOrder) -> None:
    """The order's state follows its clubs: begun, and all of them built."""
    if order.state in (OrderState.RELEASED, OrderState.WAITING_FOR_PARTS):
        order_move(order, OrderState.IN_BUILD)
    clubs = OrderClub.objects.filter(revision__order=order, revision__is_current=True)
    if (
        order.state in (OrderState.IN_BUILD, OrderState.REWORK)
        and not clubs.exclude(state=ClubState.TO_CHECK).exists()
    ):
        order_move(order, OrderState.TO_CHECK)
    order.save(update_fields=["state"])


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
