"""The cheapest way to step down from the pitching wedge within the limits, and the next ones.

What counts against a plan is a sum over its clubs and over its steps, so the best plan is a
shortest path, one slot after the other, and dynamic programming (Bellman) finds it exactly: the
cheapest way on from a club depends only on the slot, the club, the owned clubs that are used up,
and on which earlier plans this one differs from already.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

import numpy as np

from sessions.maths.carry_line import CarryLine
from sessions.maths.loft_options import SAME_DEG, PricedOption, head_lofts, options
from sessions.maths.loft_wish import (
    CandidateHead,
    KeptClub,
    Option,
    PlanWeights,
    PlanWish,
    option_price,
)

# Plans whose lofts all lie closer than this, and that buy in the same slots, are one to a player.
DISTINCT_FROM_DEG = Decimal(1)
# Costs that are closer are the same cost: sums in another order differ by about this.
SAME_COST = 1e-9
NO_WAY = float("inf")

Path = tuple[Option, ...]


def baseline(line: CarryLine) -> Decimal:
    """Return the pitching wedge's loft as an exact decimal."""
    return Decimal(repr(line.baseline_loft_deg))


def carry_m(line: CarryLine, option: Option | None) -> float:
    """Return what a club is expected to carry [m]; None is the pitching wedge, as it was hit.

    A club that was hit carries what it carries, on the line or off it; a new one lies on the line.
    """
    if option is None:
        return line.baseline_carry_m
    return line.carry_m(float(option.loft_deg), "" if option.club is None else option.club.club_id)


def gap_percent(line: CarryLine, above: Option | None, below: Option) -> float:
    """Return the gap between two clubs in percent of the pitching wedge's carry."""
    return 100 * (carry_m(line, above) - carry_m(line, below)) / line.baseline_carry_m


def is_within(line: CarryLine, wish: PlanWish, above: Option | None, below: Option) -> bool:
    """Say whether step and gap between two clubs lie within the wish's limits, ends included."""
    low, high = (float(limit) for limit in wish.step_limits_deg)
    least, most = wish.gap_limits_percent
    above_deg = line.baseline_loft_deg if above is None else float(above.loft_deg)
    step, gap = float(below.loft_deg) - above_deg, gap_percent(line, above, below)
    in_step = low - SAME_DEG <= step <= high + SAME_DEG
    return in_step and least - SAME_DEG <= gap <= most + SAME_DEG


def may_end(wish: PlanWish, loft_deg: Decimal) -> bool:
    """Say whether a plan may end at a loft: near the wished one, not short of the least."""
    wished, least = wish.most_lofted_deg, wish.end_at_least_deg
    is_near = wished is None or abs(loft_deg - wished) <= wish.most_lofted_within_deg
    return is_near and (least is None or loft_deg >= least)


def step_cost(
    line: CarryLine,
    wish: PlanWish,
    weights: PlanWeights,
    slot: int,
    above: Option | None,
    below: Option,
) -> float:
    """Return what a step costs: how uneven its gap is, half as much above a touch club."""
    uneven = gap_percent(line, above, below) - wish.aim_percent
    return _share(wish, weights, slot, below.loft_deg) * uneven**2


def _share(wish: PlanWish, weights: PlanWeights, slot: int, loft_deg: Decimal) -> float:
    share = weights.touch_gap_share if wish.role(slot, loft_deg) == "touch" else 1.0
    return weights.per_percent_uneven2 * share


def end_cost(wish: PlanWish, weights: PlanWeights, loft_deg: Decimal) -> float:
    """Return what the most lofted club costs by being off the wished or the usual loft."""
    if wish.most_lofted_deg is not None:
        off = loft_deg - wish.most_lofted_deg
    elif wish.usual_end_deg is not None:
        low, high = wish.usual_end_deg
        off = max(low - loft_deg, loft_deg - high, Decimal(0))
    else:
        return 0.0
    return weights.per_degree_off_wish2 * float(off) ** 2


def cost(line: CarryLine, wish: PlanWish, path: Path, weights: PlanWeights) -> float:
    """Return all that counts against a path."""
    steps = sum(
        step_cost(line, wish, weights, slot, above, below)
        for slot, (above, below) in enumerate(steps_of(path))
    )
    clubs = sum(
        option_price(wish.slot(slot), option, weights, line.baseline_carry_m)
        for slot, option in enumerate(path)
    )
    return steps + clubs + end_cost(wish, weights, path[-1].loft_deg)


def is_distinct(path: Path, other: Path) -> bool:
    """Say whether two plans differ to a player: a degree somewhere, or bought where kept."""
    return any(_differs(a, b) for a, b in zip(path, other, strict=True))


def _differs(option: Option, other: Option) -> bool:
    is_apart = abs(option.loft_deg - other.loft_deg) >= DISTINCT_FROM_DEG
    return is_apart or (option.head is None) != (other.head is None)


def best_paths(
    line: CarryLine,
    wish: PlanWish,
    heads: Sequence[CandidateHead],
    owned: Sequence[KeptClub],
    weights: PlanWeights,
    *,
    most: int,
    besides: Sequence[Path] = (),
) -> list[Path]:
    """Return the cheapest path, then the cheapest that is distinct from it, and so on.

    Args:
        line: the player's carries.
        wish: limits, wishes and what to leave out.
        heads: what could be built.
        owned: clubs that must or may stand in a path; each of those that must is in every path.
        weights: what counts against a path.
        most: how many paths at most.
        besides: paths known already, which every path returned differs from too.

    Returns:
        As many as there are, none where the limits let none through. Among equally cheap paths
        the one with the least loft, then the smaller bend, comes first.
    """
    ways = _ways(line, wish, heads, owned, weights)
    found: list[Path] = []
    while len(found) < most:
        path = _cheapest(ways, wish.wedges, [*besides, *found])
        if path is None:
            break
        found.append(path)
    return found


@dataclass(frozen=True)
class _Ways:
    """Options slot by slot and, for each option, the ones that may follow and what that costs.

    ``onward[slot][i]`` goes from option i of the slot above (for slot 0 from the pitching wedge)
    to (index, cost of the step and of the club) of this slot.
    """

    slots: tuple[tuple[PricedOption, ...], ...]
    onward: tuple[tuple[tuple[tuple[int, float], ...], ...], ...]
    # A bit for every owned club that must be used, or that could be used twice over.
    bits: dict[str, int]
    must: int


def _ways(
    line: CarryLine,
    wish: PlanWish,
    heads: Sequence[CandidateHead],
    owned: Sequence[KeptClub],
    weights: PlanWeights,
) -> _Ways:
    start = line.baseline_loft_deg
    low, high = (float(limit) for limit in wish.step_limits_deg)
    catalogue = head_lofts(wish, heads)
    slots: list[tuple[PricedOption, ...]] = []
    onward: list[tuple[tuple[tuple[int, float], ...], ...]] = []
    above: list[PricedOption | None] = [None]
    for slot in range(wish.wedges):
        here = options(
            wish,
            catalogue,
            owned,
            weights,
            slot=slot,
            within_deg=(start + (slot + 1) * low, start + (slot + 1) * high),
            baseline_carry_m=line.baseline_carry_m,
        )
        if slot == wish.wedges - 1:
            here = [way for way in here if may_end(wish, way.option.loft_deg)]
        slots.append(tuple(here))
        onward.append(_onward(line, wish, weights, slot, above, here))
        above = list(here)
    counted = [
        club.club_id
        for club in owned
        if club.must_stay or float(club.weak_limit_deg + club.strong_limit_deg) >= low - SAME_DEG
    ]
    bits = {club_id: 1 << n for n, club_id in enumerate(dict.fromkeys(counted))}
    must = sum(bits[club_id] for club_id in {club.club_id for club in owned if club.must_stay})
    return _Ways(tuple(slots), tuple(onward), bits, must)


def _onward(
    line: CarryLine,
    wish: PlanWish,
    weights: PlanWeights,
    slot: int,
    above: Sequence[PricedOption | None],
    here: Sequence[PricedOption],
) -> tuple[tuple[tuple[int, float], ...], ...]:
    """Return for each club above the options that may follow, and what each then costs."""
    start = line.baseline_loft_deg
    lofts_above = np.array([start if way is None else way.loft_deg for way in above])
    carries_above = np.array([carry_m(line, None if way is None else way.option) for way in above])
    below = np.array([way.loft_deg for way in here])
    carries = np.array([carry_m(line, way.option) for way in here])
    low, high = (float(limit) for limit in wish.step_limits_deg)
    least, most = wish.gap_limits_percent
    step = below - lofts_above[:, np.newaxis]
    gap = 100 * (carries_above[:, np.newaxis] - carries) / line.baseline_carry_m
    is_in_step = (step >= low - SAME_DEG) & (step <= high + SAME_DEG)
    follows = is_in_step & (gap >= least - SAME_DEG) & (gap <= most + SAME_DEG)
    share = np.array([_share(wish, weights, slot, way.option.loft_deg) for way in here])
    price = np.array([way.price for way in here])
    if slot == wish.wedges - 1:
        price = price + [end_cost(wish, weights, way.option.loft_deg) for way in here]
    costs = price + share * (gap - wish.aim_percent) ** 2
    return tuple(
        tuple((int(index), float(row[index])) for index in np.flatnonzero(may))
        for row, may in zip(costs, follows, strict=True)
    )


def _cheapest(ways: _Ways, wedges: int, unlike: Sequence[Path]) -> Path | None:
    """Return the cheapest path that is distinct from each of the others, or None."""
    all_differ = (1 << len(unlike)) - 1
    used = [
        [ways.bits.get(way.option.club.club_id, 0) if way.option.club else 0 for way in slot]
        for slot in ways.slots
    ]
    differ = [
        [
            sum(1 << n for n, path in enumerate(unlike) if _differs(way.option, path[number]))
            for way in slot
        ]
        for number, slot in enumerate(ways.slots)
    ]

    @cache
    def rest(slot: int, above: int, taken: int, differing: int) -> tuple[float, int]:
        """The cost of the cheapest way on, and the option it takes next (-1: none)."""
        if slot == wedges:
            is_done = taken & ways.must == ways.must and differing == all_differ
            return (0.0 if is_done else NO_WAY), -1
        cheapest, chosen = NO_WAY, -1
        for index, price in ways.onward[slot][above]:
            bit = used[slot][index]
            if bit & taken or price > cheapest:
                continue
            whole = price + rest(slot + 1, index, taken | bit, differing | differ[slot][index])[0]
            if whole < cheapest - SAME_COST:
                cheapest, chosen = whole, index
        return cheapest, chosen

    path: list[Option] = []
    above, taken, differing = 0, 0, 0
    for slot in range(wedges):
        _, above = rest(slot, above, taken, differing)
        if above < 0:
            return None
        taken, differing = taken | used[slot][above], differing | differ[slot][above]
        path.append(ways.slots[slot][above].option)
    return tuple(path)


def steps_of(path: Path) -> list[tuple[Option | None, Option]]:
    """Return each club with the one above it, from the pitching wedge (None) down."""
    return list(zip([None, *path], path, strict=False))


def steps_outside(
    line: CarryLine, wish: PlanWish, path: Path
) -> list[tuple[Option | None, Option]]:
    """Return the neighbours (above, below) whose step or gap lies outside the limits."""
    return [pair for pair in steps_of(path) if not is_within(line, wish, *pair)]
