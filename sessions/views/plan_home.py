"""What the loft plan's page says of home: bands beside the carries here, or what they wait for."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.contrib import messages
from django.http import HttpRequest
from django.utils import timezone

from fitshop.actor import Actor
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused
from sessions.maths.loft_plan import LoftPlan
from sessions.maths.other_air import CarryBand, FlownCarry
from sessions.maths.unit_factors import DistanceUnit
from sessions.models import LoftPlan as ChosenPlan
from sessions.models import Visit
from sessions.rules.evidence import VisitEvidence
from sessions.rules.home_air import (
    HomeAir,
    air_sentences,
    home_carries,
    home_gap_words,
    home_words,
)
from sessions.selectors.home_air import baseline_flown, visit_home_air
from sessions.services.figures import figures_answer


@dataclass(frozen=True)
class PlanHome:
    """The home figures of one page: bands by what was flown, and the words for them."""

    air: HomeAir
    bands: Mapping[FlownCarry, CarryBand]
    baseline: FlownCarry | None
    unit: DistanceUnit

    def heading(self) -> dict[str, Any]:
        """The line above the plans."""
        band = None if self.baseline is None else self.bands.get(self.baseline)
        return {
            "place": self.air.place,
            "baseline": "" if band is None else home_words(band, self.unit),
            "sentences": air_sentences(self.air),
            "missing": self.air.missing,
            "is_wanted": self.air.is_wanted,
            "has_unanswered": self.air.has_unanswered,
            "answered_later": self.air.answered_later or "",
        }

    def carry(self, carry_m: float | None, loft_deg: Decimal) -> str:
        """`about 126 to 130 yd`, or nothing."""
        band = self._band(carry_m, loft_deg)
        return "" if band is None else home_words(band, self.unit)

    def slots(self, plan: LoftPlan) -> list[dict[str, str]]:
        """Carry and gap at home of each slot of a plan, from the pitching wedge down."""
        above = None if self.baseline is None else self.bands.get(self.baseline)
        shown = []
        for slot in plan.slots:
            band = self._band(slot.carry_m, slot.target_loft_deg)
            said = {"home": "" if band is None else home_words(band, self.unit), "home_gap": ""}
            if band is not None and above is not None:
                said["home_gap"] = home_gap_words(above, band, self.unit)
            shown.append(said)
            above = band
        return shown

    def _band(self, carry_m: float | None, loft_deg: Decimal) -> CarryBand | None:
        return None if carry_m is None else self.bands.get(_flown(carry_m, loft_deg))


def plan_home(
    visit: Visit,
    evidence: VisitEvidence,
    plans: Sequence[LoftPlan],
    chosen: ChosenPlan | None,
    unit: DistanceUnit,
) -> PlanHome:
    """Everything on the page that has a carry, brought home at once."""
    air = visit_home_air(visit, evidence)
    if air.missing:
        return PlanHome(air, {}, None, unit)
    baseline = baseline_flown(evidence)
    wanted = dict.fromkeys(_every_slot(plans, chosen))
    flown = list(wanted) if baseline is None else [baseline, *wanted]
    return PlanHome(air, home_carries(air, flown), baseline, unit)


def _every_slot(plans: Sequence[LoftPlan], chosen: ChosenPlan | None) -> Iterable[FlownCarry]:
    for plan in plans:
        for slot in plan.slots:
            yield _flown(slot.carry_m, slot.target_loft_deg)
    for row in () if chosen is None else chosen.slots.all():
        if row.predicted_carry_m is not None:
            yield _flown(row.predicted_carry_m, row.target_loft_deg)


def _flown(carry_m: float, loft_deg: Decimal) -> FlownCarry:
    return FlownCarry(carry_m, float(loft_deg))


def figures_said(request: HttpRequest, visit: Visit, actor: Actor) -> None:
    """Take down whether the figures are as flown, for the blocks that did not say so."""
    answer = request.POST.get("answer", "")
    try:
        figures_answer(visit=visit, answer=answer, by=actor, at=timezone.now())
    except FieldsRefused as refused:
        for sentence in refused.errors.values():
            messages.error(request, sentence)
    except Refused as refused:
        messages.error(request, refused.sentence)
    else:
        messages.success(request, "Taken down for the blocks that had no answer.")
