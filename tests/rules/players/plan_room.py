"""The demo shop's catalogue and limits, and how a plan is held against a fitter's expectation."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal as D

from orders.declared import SETTINGS as ORDER_SETTINGS
from orders.demo.catalogue_heads import head_rows
from sessions.declared import SETTINGS
from sessions.maths.carry_line import CarryLine, carry_line
from sessions.maths.delivery import Hand
from sessions.maths.loft_plan import KeptClub, LoftPlan, PlanWish
from sessions.models import Head
from sessions.rules.facts import limits_from
from sessions.rules.plan_jobs import plans_by_job
from sessions.rules.plan_wish import jobs_to_begin, plan_limits_from, slot_wishes
from sessions.rules.sole_advice import sole_advice, sole_limits_from
from sessions.selectors.plans import candidate_head

YARD_M = 0.9144
DEFAULTS = {setting.key: setting.default for setting in (*SETTINGS, *ORDER_SETTINGS)}
LIMITS = limits_from(DEFAULTS)
PLAN_LIMITS = plan_limits_from(DEFAULTS)
SOLE_LIMITS = sole_limits_from(DEFAULTS)
HEADS = tuple(Head(**row) for row in head_rows() if row["availability"] != "discontinued")
CATALOGUE = tuple(candidate_head(head, LIMITS, PLAN_LIMITS) for head in HEADS)
HEAD_BY_ID = {str(head.pk): head for head in HEADS}


@dataclass(frozen=True)
class Wanted:
    """A fitter's expectation: a band of lofts and a carry [yd] for each slot."""

    bands_deg: tuple[tuple[float, float], ...]
    carries_yd: tuple[float, ...]


def plans_for(
    loft_deg: float,
    carry_yd: float,
    *,
    wedges: int,
    answers: dict[str, object] | None = None,
    owned: Sequence[KeptClub] = (),
    most_deg: int | None = None,
    hand: Hand = "right",
) -> tuple[LoftPlan, ...]:
    """The plans of a player who has hit the pitching wedge only, as the page asks for them."""
    advice = sole_advice(answers or {}, SOLE_LIMITS)
    line: CarryLine = carry_line(loft_deg, carry_yd * YARD_M)
    wish = PlanWish(
        wedges=wedges,
        hand=hand,
        most_lofted_deg=None if most_deg is None else D(most_deg),
        step_limits_deg=(LIMITS.loft_step_low_deg, LIMITS.loft_step_high_deg),
        gap_limits_percent=(float(LIMITS.gap_low_pct), float(LIMITS.gap_high_pct)),
        slots=slot_wishes(jobs_to_begin(wedges), advice, SOLE_LIMITS),
        usual_end_deg=PLAN_LIMITS.usual_end_deg,
        wider=PLAN_LIMITS.wider,
    )
    return plans_by_job(
        line, wish, CATALOGUE, owned, answers=answers or {}, advice=advice, limits=SOLE_LIMITS
    )


def is_in_its_bands(plan: LoftPlan, wanted: Wanted) -> bool:
    """Every loft in its band, either end right, and every carry within 5 yards."""
    lofts = [float(loft) for loft in plan.target_lofts_deg]
    carries = [slot.carry_m / YARD_M for slot in plan.slots]
    return (
        len(lofts) == len(wanted.bands_deg)
        and all(
            low <= loft <= high for loft, (low, high) in zip(lofts, wanted.bands_deg, strict=True)
        )
        and all(
            abs(carry - yards) <= 5 for carry, yards in zip(carries, wanted.carries_yd, strict=True)
        )
    )


def has_sound_gaps(plan: LoftPlan) -> bool:
    """Every gap 8 to 13 % of the pitching wedge's carry, and a why in every slot."""
    return all(8 <= slot.gap_percent <= 13 and slot.why for slot in plan.slots)


def lofts_of(plan: LoftPlan) -> tuple[float, ...]:
    return tuple(float(loft) for loft in plan.target_lofts_deg)
