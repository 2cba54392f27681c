"""A loft plan whose slots ask for the soles of their jobs, by the function First clubs asks too.

Which slot is the sand club hangs on the lofts, and the lofts are what is searched: the search
begins with a guess, and is done again with the jobs of the plan it found until they agree.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from sessions.maths.carry_line import CarryLine
from sessions.maths.loft_plan import CandidateHead, KeptClub, LoftPlan, PlanWish, loft_plans
from sessions.maths.loft_wish import SlotWish
from sessions.rules.facts import Role
from sessions.rules.judgements import ALL_ON, Off
from sessions.rules.plan_wish import slot_wishes
from sessions.rules.slot_jobs import jobs_of
from sessions.rules.slot_suggestions import PlannedSlot
from sessions.rules.sole_advice import SoleAdvice, SoleLimits

# Each further search starts from the plan before it; two settle nearly every bag.
MOST_SEARCHES = 4


def plans_by_job(
    line: CarryLine,
    wish: PlanWish,
    heads: Sequence[CandidateHead],
    kept: Sequence[KeptClub],
    *,
    answers: Mapping[str, object],
    advice: SoleAdvice,
    limits: SoleLimits,
    off: Off = ALL_ON,
) -> tuple[LoftPlan, ...]:
    """Search until the first plan's soles are those of its own slots' jobs.

    Raises PlanImpossible, NotAFigure.
    """
    plans = loft_plans(line, wish, heads, kept)
    for _ in range(MOST_SEARCHES - 1):
        settled = replace(wish, slots=_wishes(wish, plans[0], answers, advice, limits, off))
        if settled.slots == wish.slots:
            break
        wish, plans = settled, loft_plans(line, settled, heads, kept)
    return plans


def _wishes(
    wish: PlanWish,
    plan: LoftPlan,
    answers: Mapping[str, object],
    advice: SoleAdvice,
    limits: SoleLimits,
    off: Off,
) -> tuple[SlotWish, ...]:
    """The wishes of a plan's own slots; a role that the fitter asked for stays."""
    slots = [
        PlannedSlot(number, slot.target_loft_deg, Role(slot.role))
        for number, slot in enumerate(plan.slots, start=1)
    ]
    jobs = jobs_of(answers, slots)
    asked = slot_wishes([jobs[slot.slot] for slot in slots], advice, limits, off=off)
    return tuple(replace(one, role=wish.slot(number).role) for number, one in enumerate(asked))
