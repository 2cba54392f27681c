"""What is asked of a loft plan before the fitter says anything: its end, its soles, its steps.

The interview's first suggestion of a sole for each job goes to the slots in their order. All of
it pulls at a plan and forbids nothing; a fitter's wish comes first. Common practice.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from fitshop.setting import Value
from sessions.maths.loft_wish import SlotRole, SlotWish, WiderSteps
from sessions.rules.sole_advice import Band, Job, SoleAdvice, SoleLimits

# No head has more: the open end of high bounce.
MOST_BOUNCE_DEG = Decimal(30)
WIDE, NARROW = "wide sole", "narrower sole"
SOFTENED, RELIEVED = "softened leading edge", "heel and trailing-edge relief"
# Relief that lets the face open without lifting the edge: graded clear or strong.
CLEAR_RELIEF = 2
# The jobs of the slots, the strongest first, by the number of wedges.
JOBS = {
    1: (Job.SAND,),
    2: (Job.FULL_SHOTS, Job.SAND),
    3: (Job.FULL_SHOTS, Job.SAND, Job.OPENED_FACE),
    4: (Job.FULL_SHOTS, Job.FULL_SHOTS, Job.SAND, Job.OPENED_FACE),
}


@dataclass(frozen=True, slots=True)
class PlanLimits:
    """Where a set of wedges usually ends, and how far steps may grow to get there, as set."""

    sand_from_deg: Decimal
    end_high_deg: Decimal
    wider_step_high_deg: Decimal
    wider_gap_high_pct: Decimal
    wide_sole_mm: Decimal
    narrow_sole_mm: Decimal

    @property
    def usual_end_deg(self) -> tuple[Decimal, Decimal]:
        return self.sand_from_deg, max(self.sand_from_deg, self.end_high_deg)

    @property
    def wider(self) -> WiderSteps:
        return WiderSteps(
            self.sand_from_deg, self.wider_step_high_deg, float(self.wider_gap_high_pct)
        )


def plan_limits_from(settings: Mapping[str, Value]) -> PlanLimits:
    """Build the limits from the settings `plan.*`. Raises KeyError for a missing one."""
    return PlanLimits(
        **{name: Decimal(str(settings[f"plan.{name}"])) for name in PlanLimits.__dataclass_fields__}
    )


def sole_traits(
    *,
    width_mm: Decimal,
    relief_heel: int,
    relief_trailing: int,
    is_softened: bool,
    limits: PlanLimits,
) -> frozenset[str]:
    """Say of a head's sole what a slot may ask for, in the interview's words."""
    said = {
        WIDE: width_mm >= limits.wide_sole_mm,
        NARROW: width_mm <= limits.narrow_sole_mm,
        SOFTENED: is_softened,
        RELIEVED: min(relief_heel, relief_trailing) >= CLEAR_RELIEF,
    }
    return frozenset(word for word, is_so in said.items() if is_so)


def slot_wishes(
    wedges: int, advice: SoleAdvice, limits: SoleLimits, full_shots: int | None = None
) -> tuple[SlotWish, ...]:
    """Ask of each slot the sole that its job wants; so many of them full-shot clubs, if said.

    A job about which too little was said asks for nothing.
    """
    return tuple(
        _wish(advice, limits, job, _role(number, full_shots))
        for number, job in enumerate(JOBS.get(wedges, ()))
    )


def _role(number: int, full_shots: int | None) -> SlotRole | None:
    if full_shots is None:
        return None
    return "full_shot" if number < full_shots else "touch"


def _wish(advice: SoleAdvice, limits: SoleLimits, job: Job, role: SlotRole | None) -> SlotWish:
    suggested = advice.suggestion(job)
    if suggested.band is None:
        return SlotWish(role)
    traits = frozenset({suggested.sole}) if suggested.sole else frozenset()
    return SlotWish(role, _bounce(suggested.band, limits), traits)


def _bounce(band: Band, limits: SoleLimits) -> tuple[Decimal, Decimal]:
    match band:
        case Band.LOW:
            return limits.bounce_low_from_deg, limits.bounce_low_to_deg
        case Band.MID:
            return limits.bounce_mid_from_deg, limits.bounce_mid_to_deg
        case Band.HIGH:
            return limits.bounce_high_from_deg, MOST_BOUNCE_DEG
