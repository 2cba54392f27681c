"""A cure: begun with its resin, read while it lasts, put right where something was mistyped.

Nobody shortens it below the resin's sheet: not by typed hours, not by a correction, not at the
hand-over.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.services.audit import audit_record
from orders.flow import ClubState
from orders.models import BenchStep, BuildOrder, OrderClub, Resin
from orders.policy import ORDER_POLICY, OrderAction
from orders.rules.cure import CureLimits
from orders.selectors.cures import FIRST, cure_of, epoxy_step, resin_values
from orders.services.moves import locked_club
from sessions.rules.wording import figure


def cure_begun(club: OrderClub, values: dict[str, Any], *, at: datetime) -> None:
    """Turn what was typed at the epoxy step into what is kept, and set the club's lock.

    Raises FieldsRefused.
    """
    today = at.astimezone(club.revision.order.location.zone_info).date()
    kept = _facts_typed(values, today)
    values.clear()
    values.update(kept)
    step = BenchStep(club=club, step="epoxy", values=values, done_at=at)
    club.cure_until = cure_of(step).end.until
    values["cure_until"] = club.cure_until.isoformat()


@transaction.atomic
def cure_read(*, club: OrderClub, celsius: Decimal, by: Actor, at: datetime) -> BenchStep:
    """Write a temperature read while it cures: the coldest counts, so it never ends sooner.

    Raises Refused, StateRefused. Writes BenchStep, OrderClub, AuditEntry.
    """
    _, row, step = _curing(club, by)
    if row.cure_until is not None and at >= row.cure_until and not cure_of(step).end.is_too_cold:
        raise StateRefused("Its cure is over: pull and rattle it.", code="cure.over")
    reading = {"c": figure(celsius), "read_at": at.isoformat(), "read_by": by.name}
    before = row.cure_until
    step.values = step.values | {"temperatures": [*step.values.get("temperatures", []), reading]}
    _lock_kept(row, step)
    audit_record(
        action="orders.cure.read",
        subject=row,
        before={"cure_until": before},
        after={"celsius": celsius, "cure_until": row.cure_until},
        by=by,
        at=at,
    )
    return step


@transaction.atomic
def cure_correct(
    *,
    club: OrderClub,
    values: Mapping[str, Any],
    temperatures: Mapping[int, Decimal],
    why: str,
    by: Actor,
    at: datetime,
) -> BenchStep:
    """Put right what was mistyped at the gluing, while the cure lasts; the old values are kept.

    `values`: resin, batch, expires_on, hours as at the step. `temperatures`: by their place, the
    one at the mixing first. Raises Refused, StateRefused, FieldsRefused.
    Writes BenchStep, OrderClub, AuditEntry.
    """
    order, row, step = _curing(club, by)
    if not why.strip():
        raise FieldsRefused({"why": "Say what was mistyped."}, code="cure.no_reason")
    old = dict(step.values)
    mixed_on = step.done_at.astimezone(order.location.zone_info).date()
    first = temperatures.get(FIRST, Decimal(old["temperature_c"]))
    new = _facts_typed({**values, "temperature_c": first}, mixed_on)
    later = [dict(reading) for reading in old.get("temperatures", [])]
    for place, celsius in temperatures.items():
        if place != FIRST and place <= len(later):
            later[place - 1]["c"] = figure(celsius)
    new |= {"temperatures": later} if later else {}
    before, after = _differences(old, new)
    if not after:
        return step

    note = {"at": at.isoformat(), "by": by.name, "why": why.strip()[:120], "before": before}
    kept = {name: value for name, value in old.items() if name in ("note", "earlier")}
    corrections = [*old.get("corrections", []), note | {"after": after}]
    step.values = kept | new | {"corrections": corrections}
    _lock_kept(row, step)
    audit_record(
        action="orders.cure.corrected",
        subject=row,
        before=before | {"cure_until": old.get("cure_until")},
        after=after | {"cure_until": row.cure_until, "why": why.strip()[:120]},
        by=by,
        at=at,
    )
    return step


def _curing(club: OrderClub, by: Actor) -> tuple[BuildOrder, OrderClub, BenchStep]:
    """The club locked, with its gluing, as long as its cure is not yet tested."""
    order, row = locked_club(club)
    ORDER_POLICY.require(
        by, OrderAction.BENCH_WORK, location_id=order.location_id, state=order.state
    )
    step = epoxy_step(row)
    if step is None or row.state != ClubState.CURING:
        raise StateRefused("This club is not curing.", code="cure.over")
    return order, row, step


def _lock_kept(club: OrderClub, step: BenchStep) -> None:
    club.cure_until = cure_of(step).end.until
    step.values = step.values | {"cure_until": club.cure_until.isoformat()}
    step.save(update_fields=["values"])
    club.save(update_fields=["cure_until"])


def _facts_typed(values: Mapping[str, Any], today: date) -> dict[str, Any]:
    """What is kept of a gluing, as JSON. Raises FieldsRefused."""
    resin, temperature = values.get("resin"), values.get("temperature_c")
    batch, expires_on = str(values.get("batch") or "").strip(), values.get("expires_on")
    if not isinstance(resin, Resin):
        raise FieldsRefused({"resin": "Which resin? Its sheet says how long."}, code="cure.resin")
    if temperature is None or temperature == "":
        raise FieldsRefused(
            {"temperature_c": "Read the temperature at the bench and type it."},
            code="cure.no_temperature",
        )
    if not batch:
        raise FieldsRefused({"batch": "Type the batch on the tin."}, code="cure.no_batch")
    if expires_on is None:
        raise FieldsRefused({"expires_on": "Type the day on the tin."}, code="cure.no_expiry")
    if expires_on < today:
        raise FieldsRefused(
            {"expires_on": "This epoxy is past its day. Mix from another."}, code="cure.expired"
        )
    _refuse_below_sheet(resin, Decimal(str(temperature)), values.get("hours"))
    hours = values.get("hours")
    return {
        "resin": resin_values(resin),
        "batch": batch[:40],
        "expires_on": expires_on.isoformat(),
        "temperature_c": figure(Decimal(str(temperature))),
    } | ({} if hours is None else {"hours": figure(hours)})


def _refuse_below_sheet(resin: Resin, celsius: Decimal, hours: Decimal | None) -> None:
    limits = CureLimits(
        resin.hours, resin.full_speed_c, resin.double_at_c, resin.least_c, resin.least_hours
    )
    if celsius < limits.least_c:
        raise FieldsRefused(
            {
                "temperature_c": f"Below {figure(limits.least_c)} °C the epoxy doesn't cure. "
                "Warm the bench and the parts, then mix."
            },
            code="cure.too_cold",
        )
    if hours is not None and hours < limits.least_hours:
        raise FieldsRefused(
            {"hours": f"The sheet asks for {figure(limits.least_hours)} hours at least."},
            code="cure.below_sheet",
        )


def _differences(
    old: Mapping[str, Any], new: Mapping[str, Any]
) -> tuple[dict[str, Any], dict[str, Any]]:
    """What differs, before and after: a resin by its name."""
    names = ("resin", "batch", "expires_on", "temperature_c", "hours", "temperatures")
    changed = [name for name in names if old.get(name) != new.get(name)]
    return {n: old.get(n) for n in changed}, {n: new.get(n) for n in changed}
