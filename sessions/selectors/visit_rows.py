"""The rows that evidence is made from. Who has read them already hands them on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal
from uuid import UUID

from django.db.models import Prefetch, QuerySet

from sessions.models import BagEntry, Block, LoftPlan, PlanSlot, Shot, ShotExclusion, Trial, Visit


@dataclass(frozen=True, slots=True)
class VisitRows:
    """A visit's trials in order, with club, blocks, devices and shots, and what is beside them.

    `entries`: the last bag entry of each own club, with the club, by its id. `codes`: the numbers
    of the clubs that must not be named before the reveal, by trial.
    """

    trials: Sequence[Trial]
    entries: Mapping[UUID, BagEntry]
    plan: LoftPlan | None
    codes: Mapping[UUID, int]


def left_out_rows() -> Prefetch[Literal["exclusions"], QuerySet[Any], str]:
    """What a shot's `exclusion` is read from."""
    return Prefetch("exclusions", ShotExclusion.objects.select_related("taken_back"))


def trials_hit(visit: Visit) -> list[Trial]:
    """The trials with all that was hit in them."""
    shots = Shot.objects.prefetch_related(left_out_rows())
    blocks = Block.objects.select_related("device").prefetch_related(
        Prefetch("shots", queryset=shots)
    )
    return list(
        visit.trials.standing()
        .select_related("club", "trial_head", "trial_shaft")
        .prefetch_related(Prefetch("blocks", queryset=blocks))
        .order_by("sequence")
    )


def current_plan(visit: Visit, *also: str) -> LoftPlan | None:
    """The loft plan in force with its slots, strongest first; `also` what of them is read too."""
    slots = Prefetch("slots", PlanSlot.objects.order_by("slot"))
    plans = LoftPlan.objects.filter(visit=visit, is_current=True)
    return plans.prefetch_related(slots, *also).first()
