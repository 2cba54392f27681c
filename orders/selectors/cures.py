"""A club's cure: which resin, from which batch, at which temperatures, and when it ends.

The facts stand in the epoxy step's own values, so that they go wherever the step goes. A row
from before resins were kept has a temperature and hours alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from fitshop.actor import Actor
from fitshop.selectors import settings_in_force
from fitshop.setting import Value
from orders.flow import ClubState, OrderState
from orders.models import BenchStep, OrderClub, Resin
from orders.models.bench import Step
from orders.policy import ORDER_POLICY, OrderAction
from orders.rules.cure import USUAL, CureEnd, CureLimits, cure_end, cure_limits_from
from sessions.rules.wording import figure

# The first reading's place in a correction; the later ones follow from 1.
FIRST = 0
LISTED = 200


@dataclass(frozen=True, slots=True)
class Temperature:
    celsius: Decimal
    read_at: datetime
    read_by: str


@dataclass(frozen=True, slots=True)
class Cure:
    """One gluing as it stands. `resin_id` is empty where nobody named the resin."""

    resin_id: str
    resin: str
    limits: CureLimits
    hours: Decimal | None
    batch: str
    expires_on: date | None
    temperatures: tuple[Temperature, ...]
    corrections: tuple[Mapping[str, Any], ...]

    @property
    def end(self) -> CureEnd:
        limits = self.limits if self.hours is None else replace(self.limits, hours=self.hours)
        return cure_end([(each.read_at, each.celsius) for each in self.temperatures], limits)


def epoxy_step(club: OrderClub) -> BenchStep | None:
    """The club's gluing, from steps already fetched where they are."""
    return next((step for step in club.steps.all() if step.step == Step.EPOXY), None)


def is_too_cold(club: OrderClub) -> bool:
    """Whether its cure stands still: no hour ends it before it is warmed."""
    if club.state != ClubState.CURING:
        return False
    step = epoxy_step(club)
    return step is not None and cure_of(step).end.is_too_cold


def cure_of(step: BenchStep) -> Cure:
    values = step.values
    resin = values.get("resin") or {}
    expires, hours = values.get("expires_on"), values.get("hours")
    first = Temperature(Decimal(values["temperature_c"]), step.done_at, step.done_by)
    later = [
        Temperature(Decimal(row["c"]), datetime.fromisoformat(row["read_at"]), row["read_by"])
        for row in values.get("temperatures", [])
    ]
    return Cure(
        resin_id=resin.get("id", ""),
        resin=resin.get("name", ""),
        limits=_limits(resin) if resin else cure_limits_from(settings_in_force().values),
        hours=None if hours is None else Decimal(hours),
        batch=values.get("batch", ""),
        expires_on=None if expires is None else date.fromisoformat(expires),
        temperatures=(first, *later),
        corrections=tuple(values.get("corrections", [])),
    )


def resin_values(resin: Resin) -> dict[str, str]:
    """A resin as a cure keeps it: what is changed on it later moves no cure."""
    figures = {name: figure(getattr(resin, name)) for name in (*USUAL, "least_hours")}
    return {"id": str(resin.pk), "name": resin.name, "speed": resin.speed} | figures


def _limits(resin: Mapping[str, str]) -> CureLimits:
    return CureLimits(**{name: Decimal(resin[name]) for name in (*USUAL, "least_hours")})


def usual_figures(settings: Mapping[str, Value]) -> dict[str, Value]:
    """What the form of a new resin begins with."""
    return {name: settings[f"cure.{name}"] for name in USUAL}


def last_glued(actor: Actor) -> dict[str, Any]:
    """Resin and batch of the last gluing at the actor's locations: what is likely in the hand."""
    step = (
        BenchStep.objects.filter(
            step=Step.EPOXY, club__revision__order__location_id__in=actor.location_ids
        )
        .order_by("-done_at")
        .first()
    )
    if step is None:
        return {}
    cure = cure_of(step)
    return {"resin": cure.resin_id, "batch": cure.batch, "expires_on": cure.expires_on}


@dataclass(frozen=True, slots=True)
class Glued:
    """A club that was glued with a batch, for the list of who has to be called."""

    club: OrderClub
    step: BenchStep
    cure: Cure


def glued_with(actor: Actor, batch: str) -> list[Glued]:
    """Every club in force that was glued with a batch, newest first; earlier gluings too."""
    if not batch.strip() or not ORDER_POLICY.is_allowed(actor, OrderAction.BENCH_VIEW):
        return []
    rows = (
        BenchStep.objects.filter(
            step=Step.EPOXY,
            values__batch__iexact=batch.strip(),
            club__revision__is_current=True,
            club__revision__order__location_id__in=actor.location_ids,
        )
        .exclude(club__revision__order__state=OrderState.CANCELLED)
        .select_related("club__revision__order__visit__player")
        .order_by("-done_at")
    )
    return [Glued(step.club, step, cure_of(step)) for step in rows[:LISTED]]
