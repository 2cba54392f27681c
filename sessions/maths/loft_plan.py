"""Which lofts the wedges below the pitching wedge should have, and which clubs give them.

Kept clubs stand at their measured loft or, where they may be bent, near it; a new head may be
bent, within its limits, to a loft in half degrees. Buying nothing is a plan like any other. Steps
of 4 to 6 degrees and gaps of 8 to 13 % of the pitching wedge's carry are common practice and come
in with the wish. The search itself is in ``loft_search``.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from itertools import pairwise

from sessions.maths.bending import bend_words, bounce_after
from sessions.maths.carry_line import CarryLine
from sessions.maths.errors import NotAFigure, PlanImpossible
from sessions.maths.loft_search import (
    HALF,
    CandidateHead,
    KeptClub,
    Option,
    Path,
    PlanWeights,
    PlanWish,
    baseline,
    cost,
    gap_percent,
    is_within,
    paths_by_cost,
)
from sessions.maths.shown import show_degrees

__all__ = [
    "CandidateHead",
    "KeptClub",
    "LoftPlan",
    "PlanSlot",
    "PlanWeights",
    "PlanWish",
    "loft_plans",
]

MOST_WEDGES = 4
PLANS_SHOWN = 3
# Plans whose lofts all lie closer than this, and that buy in the same slots, are one to a player.
DISTINCT_FROM_DEG = Decimal(1)
_DEFAULT_WEIGHTS = PlanWeights()


@dataclass(frozen=True)
class PlanSlot:
    """One wedge of a plan: a new head or a kept club, bent or not, and what it should carry.

    ``bend_deg`` is from the stamp of a new head and from the measured loft of a kept club, weak
    positive. ``bounce_after_deg`` is None where the kept club's bounce is not known.
    """

    target_loft_deg: Decimal
    head_id: str | None
    club_id: str | None
    stamped_loft_deg: Decimal | None
    bend_deg: Decimal
    bounce_after_deg: Decimal | None
    step_deg: Decimal
    carry_m: float
    carry_low_m: float
    carry_high_m: float
    gap_m: float
    gap_percent: float
    is_extrapolated: bool
    why: str


@dataclass(frozen=True)
class LoftPlan:
    """A plan from the pitching wedge down; ``notes`` say what a plan of kept clubs leaves odd."""

    slots: tuple[PlanSlot, ...]
    cost: float
    notes: tuple[str, ...] = field(default=())

    @property
    def target_lofts_deg(self) -> tuple[Decimal, ...]:
        return tuple(slot.target_loft_deg for slot in self.slots)

    @property
    def buys_nothing(self) -> bool:
        return all(slot.head_id is None for slot in self.slots)


def loft_plans(
    line: CarryLine,
    wish: PlanWish,
    heads: Sequence[CandidateHead],
    kept: Sequence[KeptClub] = (),
    weights: PlanWeights = _DEFAULT_WEIGHTS,
) -> tuple[LoftPlan, ...]:
    """Return the best plan and up to two distinct ones more, the best first.

    Distinct: a loft that is a degree or more away, or a club kept where another plan buys. Where
    the clubs that must stay are all the wedges asked for, that is the one plan, with notes on the
    steps and gaps outside the limits: nobody is told to buy.

    Args:
        line: the player's carries; its baseline is the pitching wedge.
        wish: how many wedges, the limits, and what to leave out (ids of heads and clubs).
        heads: what could be built; another hand, unavailable and left-out ones are passed over.
        kept: owned clubs that must or may stand in the plan.
        weights: what counts against a plan.

    Raises:
        PlanImpossible: nothing fits; the sentence names what stands in the way.
        NotAFigure: the number of wedges is not 1 to 4, or a loft is no number.
    """
    owned = [club for club in kept if club.club_id not in wish.leave_out]
    must = [club for club in owned if club.must_stay]
    _refuse_wish(wish, heads, owned, len(must))
    if len(must) == wish.wedges:
        return (_plan_of_kept(line, wish, must, weights),)
    found = paths_by_cost(line, wish, heads, owned, weights)
    if not found:
        raise PlanImpossible(_what_binds(line, wish, heads, owned))
    chosen: list[tuple[float, Path]] = []
    for one in found:
        if all(_is_distinct(one[1], other) for _, other in chosen):
            chosen.append(one)
        if len(chosen) == PLANS_SHOWN:
            break
    return tuple(LoftPlan(_slots(line, path), price) for price, path in chosen)


def _refuse_wish(
    wish: PlanWish, heads: Sequence[CandidateHead], owned: Sequence[KeptClub], staying: int
) -> None:
    lofts = [head.stamped_loft_deg for head in heads] + [club.loft_deg for club in owned]
    if not all(loft.is_finite() for loft in lofts):
        raise NotAFigure("A head or a club has a loft that is not a number.")
    if not 1 <= wish.wedges <= MOST_WEDGES:
        raise NotAFigure(f"A plan has 1 to {MOST_WEDGES} wedges below the pitching wedge.")
    if staying > wish.wedges:
        raise PlanImpossible(
            f"{staying} clubs are to stay but {_wedges(wish.wedges)} asked for: "
            "ask for more, or let one go."
        )


def _is_distinct(path: Path, other: Path) -> bool:
    pairs = list(zip(path, other, strict=True))
    is_apart = any(abs(a.loft_deg - b.loft_deg) >= DISTINCT_FROM_DEG for a, b in pairs)
    return is_apart or any((a.head is None) != (b.head is None) for a, b in pairs)


def _plan_of_kept(
    line: CarryLine, wish: PlanWish, must: Sequence[KeptClub], weights: PlanWeights
) -> LoftPlan:
    """Return the plan that keeps what is there, with a note on each odd step."""
    ordered = sorted(must, key=lambda club: club.loft_deg)
    path = tuple(Option(club.loft_deg, None, club) for club in ordered)
    lofts = [baseline(line), *(option.loft_deg for option in path)]
    notes = tuple(
        f"From {show_degrees(above)} to {show_degrees(below)} is {show_degrees(below - above)} "
        f"degrees and {gap_percent(line, above, below):.0f} % of the pitching wedge's carry: "
        f"{_limits(wish)} was asked for."
        for above, below in pairwise(lofts)
        if not is_within(line, wish, above, below)
    )
    return LoftPlan(_slots(line, path), cost(line, wish, path, weights), notes)


def _slots(line: CarryLine, path: Path) -> tuple[PlanSlot, ...]:
    lofts = [baseline(line), *(option.loft_deg for option in path)]
    return tuple(_slot(line, above, option) for above, option in zip(lofts, path, strict=False))


def _slot(line: CarryLine, above_deg: Decimal, option: Option) -> PlanSlot:
    there = line.at(float(option.loft_deg))
    step = option.loft_deg - above_deg
    gap = gap_percent(line, above_deg, option.loft_deg)
    bend = bend_words(option.bend_deg)
    if option.head is not None:
        bounce: Decimal | None = option.head.bounce_deg
        stamped: Decimal | None = option.head.stamped_loft_deg
        is_bent = "as stamped" if bend == "none" else f"bent {bend}"
        what = f"A new head stamped {show_degrees(option.head.stamped_loft_deg)}, {is_bent}"
    else:
        bounce, stamped = (option.club.bounce_deg if option.club else None), None
        what = "Your own club stays" + ("" if bend == "none" else f", bent {bend}")
    return PlanSlot(
        target_loft_deg=option.loft_deg,
        head_id=option.head.head_id if option.head else None,
        club_id=option.club.club_id if option.club else None,
        stamped_loft_deg=stamped,
        bend_deg=option.bend_deg,
        bounce_after_deg=None if bounce is None else bounce_after(bounce, option.bend_deg),
        step_deg=step,
        carry_m=there.carry_m,
        carry_low_m=there.low_m,
        carry_high_m=there.high_m,
        gap_m=gap * line.baseline_carry_m / 100,
        gap_percent=gap,
        is_extrapolated=there.is_extrapolated,
        why=f"{what}: {show_degrees(step)} degrees below the club before it, a gap of "
        f"{gap:.0f} % of the pitching wedge's carry.",
    )


def _what_binds(
    line: CarryLine, wish: PlanWish, heads: Sequence[CandidateHead], owned: Sequence[KeptClub]
) -> str:
    """Say which single limit, if it were lifted, would let a plan through."""
    free_steps = replace(wish, step_limits_deg=(HALF, Decimal(25)))
    free_gaps = replace(wish, gap_limits_percent=(0.0, 100.0))
    letting_go = [replace(club, must_stay=False) for club in owned]
    low, high = wish.step_limits_deg
    least, most = wish.gap_limits_percent
    tries: list[tuple[str, PlanWish, Sequence[CandidateHead], Sequence[KeptClub]]] = [
        ("the heads that can be had, bent within their limits", wish, _any_head(line, wish), owned),
        (f"steps of {show_degrees(low)} to {show_degrees(high)} degrees", free_steps, heads, owned),
        (f"gaps of {least:g} to {most:g} % of the pitching wedge's carry", free_gaps, heads, owned),
        ("the clubs that are to stay", wish, heads, letting_go),
    ]
    if wish.most_lofted_deg is not None:
        wished = f"the wish for {show_degrees(wish.most_lofted_deg)} degrees at the end"
        tries.insert(0, (wished, replace(wish, most_lofted_deg=None), heads, owned))
    binding = [
        name
        for name, freer, with_heads, with_clubs in tries
        if any(paths_by_cost(line, freer, with_heads, with_clubs, _DEFAULT_WEIGHTS))
    ]
    beginning = f"No plan fits: {_wedges(wish.wedges)} asked for with {_limits(wish)}."
    if not binding:
        return f"{beginning} More than one limit stands in the way."
    return f"{beginning} In the way: {', or '.join(binding)}."


def _any_head(line: CarryLine, wish: PlanWish) -> list[CandidateHead]:
    """Return a made-up head at each half degree below the pitching wedge."""
    start = (baseline(line) / HALF).to_integral_value() * HALF
    lofts = [start + HALF * step for step in range(1, 2 * 6 * MOST_WEDGES + 2)]
    none = Decimal(0)
    return [CandidateHead(f"any {loft}", loft, none, none, none, wish.hand) for loft in lofts]


def _limits(wish: PlanWish) -> str:
    low, high = wish.step_limits_deg
    least, most = wish.gap_limits_percent
    return f"{show_degrees(low)} to {show_degrees(high)} degrees and {least:g} to {most:g} %"


def _wedges(count: int) -> str:
    return "1 wedge was" if count == 1 else f"{count} wedges were"
