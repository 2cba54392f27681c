"""The search for plans against trying every choice, written apart from the code under test."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal as D
from functools import cache
from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sessions.maths.carry_line import CarryLine, LoftCarry, carry_line
from sessions.maths.errors import PlanImpossible
from sessions.maths.loft_plan import (
    CandidateHead,
    KeptClub,
    LoftPlan,
    PlanWish,
    SlotWish,
    loft_plans,
)

STEPS = (4, 6)
GAPS = (8.0, 13.0)


@dataclass(frozen=True)
class Way:
    """A club at a loft: new or owned (then by its id), bent, with its bounce and its traits."""

    loft: float
    owned: str | None
    bent: float
    bounce: float
    traits: frozenset[str]
    stays: bool = False


def ways_of(heads: list[CandidateHead], owned: list[KeptClub]) -> list[Way]:
    found = []
    for head in heads:
        stamp, reach = float(head.stamped_loft_deg), int(2 * head.weak_limit_deg)
        for halves in range(-reach, reach + 1):
            bend = halves / 2
            found.append(
                Way(stamp + bend, None, abs(bend), float(head.bounce_deg) + bend, head.traits)
            )
    for club in owned:
        loft, limit = float(club.loft_deg), float(club.weak_limit_deg)
        for halves in range(80, 140):
            if halves / 2 != loft and abs(halves / 2 - loft) <= limit + 1e-9:
                bent, stays = abs(halves / 2 - loft), club.must_stay
                found.append(Way(halves / 2, club.club_id, bent, 0, frozenset(), stays))
        found.append(Way(loft, club.club_id, 0, 0, frozenset()))
    return found


@cache
def carry(line: CarryLine, way: Way | None) -> float:
    """The pitching wedge's own, an owned club's own if it was hit, else the line's."""
    if way is None:
        return line.baseline_carry_m
    return line.at(way.loft, club=way.owned or "").carry_m


def gap(line: CarryLine, above: Way | None, below: Way) -> float:
    """In percent of the pitching wedge's carry, from the line's own predictions."""
    return 100 * (carry(line, above) - carry(line, below)) / line.baseline_carry_m


def price(line: CarryLine, wish: PlanWish, path: tuple[Way, ...]) -> float:
    """What counts against a plan, said once more: see PlanWeights."""
    total, above = 0.0, None
    for number, way in enumerate(path):
        asked = wish.slots[number] if wish.slots else SlotWish()
        is_touch = asked.role == "touch" or (asked.role is None and way.loft >= 54)
        total += (0.5 if is_touch else 1.0) * (gap(line, above, way) - 10.5) ** 2
        total += 0.5 * way.bent + 6 * (way.owned is None)
        total += (140 / line.baseline_carry_m) ** 2 if way.bent else 0
        total += 12 if way.bent and way.stays else 0
        if way.owned is None and asked.bounce_deg is not None:
            low, high = (float(edge) for edge in asked.bounce_deg)
            total += 0.5 * max(low - way.bounce, way.bounce - high, 0) ** 2
        if way.owned is None:
            total += 2 * len(asked.traits - way.traits)
        above = way
    end = path[-1].loft
    if wish.most_lofted_deg is not None:
        total += 2 * (end - float(wish.most_lofted_deg)) ** 2
    elif wish.usual_end_deg is not None:
        low, high = (float(edge) for edge in wish.usual_end_deg)
        total += 2 * max(low - end, end - high, 0) ** 2
    return total


def every_plan(
    line: CarryLine, wish: PlanWish, heads: list[CandidateHead], owned: list[KeptClub]
) -> Iterator[tuple[Way, ...]]:
    must = {club.club_id for club in owned if club.must_stay}
    for path in product(ways_of(heads, owned), repeat=wish.wedges):
        clubs = [way.owned for way in path if way.owned]
        if len(set(clubs)) < len(clubs) or not must <= set(clubs):
            continue
        lofts = [line.baseline_loft_deg, *(way.loft for way in path)]
        gaps = [gap(line, above, below) for above, below in zip((None, *path), path, strict=False)]
        steps = [below - above for above, below in pairwise(lofts)]
        if not all(STEPS[0] - 1e-9 <= step <= STEPS[1] + 1e-9 for step in steps):
            continue
        if not all(GAPS[0] - 1e-9 <= gap <= GAPS[1] + 1e-9 for gap in gaps):
            continue
        if wish.most_lofted_deg is not None and abs(lofts[-1] - float(wish.most_lofted_deg)) > 1:
            continue
        yield path


def best_and_next(
    line: CarryLine, wish: PlanWish, heads: list[CandidateHead], owned: list[KeptClub]
) -> list[float]:
    """The costs of the best plan and of the two cheapest that differ from those before."""
    ranked = sorted(
        ((price(line, wish, path), path) for path in every_plan(line, wish, heads, owned)),
        key=lambda one: one[0],
    )
    chosen: list[tuple[float, tuple[Way, ...]]] = []
    for cost, path in ranked:
        if all(
            any(
                abs(a.loft - b.loft) >= 1 or (a.owned is None) != (b.owned is None)
                for a, b in zip(path, other, strict=True)
            )
            for _, other in chosen
        ):
            chosen.append((cost, path))
        if len(chosen) == 3:
            break
    return [cost for cost, _ in chosen]


ROLES = st.sampled_from([None, "full_shot", "touch"])
BANDS = st.sampled_from([None, (D(4), D(6)), (D(7), D(10)), (D(11), D(25))])
TRAITS = st.frozensets(st.sampled_from(["wide sole", "softened leading edge"]))
SLOTS = st.builds(SlotWish, ROLES, BANDS, TRAITS)
HEADS = st.lists(
    st.builds(
        lambda loft, bounce, limit, traits: (D(loft), D(bounce), D(limit) / 2, traits),
        st.integers(47, 62),
        st.integers(4, 14),
        st.integers(0, 3),
        TRAITS,
    ),
    max_size=6,
)
OWNED = st.lists(st.tuples(st.integers(470, 620), st.integers(0, 4), st.booleans()), max_size=3)


@settings(max_examples=60, deadline=None)
@given(
    HEADS,
    OWNED,
    st.integers(1, 2),
    st.lists(SLOTS, min_size=2, max_size=2),
    st.sampled_from([None, D(50), D(55)]),
    st.booleans(),
    st.sampled_from([43.0, 45.0, 46.3]),
    st.lists(
        st.tuples(st.integers(44, 60), st.floats(75, 118), st.sampled_from(["", "own 0"])),
        max_size=5,
    ),
)
def test_nothing_tried_by_brute_force_is_cheaper_nor_are_the_next_ones(
    heads: list[tuple[D, D, D, frozenset[str]]],
    owned: list[tuple[int, int, bool]],
    wedges: int,
    slots: list[SlotWish],
    most: D | None,
    has_usual_end: bool,
    start: float,
    shots: list[tuple[int, float, str]],
) -> None:
    line = carry_line(
        start, 115.0, [LoftCarry(float(loft), metres, club) for loft, metres, club in shots]
    )
    candidates = [
        CandidateHead(f"{number}", loft, bounce, limit, limit, "right", True, traits)
        for number, (loft, bounce, limit, traits) in enumerate(heads)
    ]
    clubs = [
        KeptClub(f"own {number}", D(tenths) / 10, None, D(limit) / 2, D(limit) / 2, must)
        for number, (tenths, limit, must) in enumerate(owned)
    ]
    staying = sum(1 for club in clubs if club.must_stay)
    wish = PlanWish(
        wedges=wedges,
        hand="right",
        most_lofted_deg=most,
        slots=tuple(slots[:wedges]),
        usual_end_deg=(D(52), D(56)) if has_usual_end else None,
    )
    wanted = best_and_next(line, wish, candidates, clubs)
    if staying > wedges:
        with pytest.raises(PlanImpossible):
            loft_plans(line, wish, candidates, clubs)
        return
    if staying == wedges:
        bent = [plan for plan in loft_plans(line, wish, candidates, clubs) if not _as_is(plan)]
        assert all(plan.cost == pytest.approx(wanted[0], abs=1e-7) for plan in bent[:1])
        return
    if not wanted:
        _nothing_is_bought(line, wish, candidates, clubs)
        return
    plans = loft_plans(line, wish, candidates, clubs)
    found = [plan.cost for plan in plans if not plan.notes]
    assert found[: len(wanted)] == pytest.approx(wanted, abs=1e-7)


def _nothing_is_bought(
    line: CarryLine, wish: PlanWish, heads: list[CandidateHead], owned: list[KeptClub]
) -> None:
    """Where nothing fits, all that may be offered is what is owned, with what is odd about it."""
    try:
        plans = loft_plans(line, wish, heads, owned)
    except PlanImpossible:
        return
    assert all(plan.buys_nothing and plan.notes for plan in plans)


def _as_is(plan: LoftPlan) -> bool:
    return all(slot.bend_deg == 0 for slot in plan.slots)


@settings(max_examples=60, deadline=None)
@given(
    HEADS,
    OWNED,
    st.integers(1, 4),
    st.sampled_from([43.0, 45.0, 46.3, 48.0]),
    st.lists(st.tuples(st.integers(44, 60), st.floats(60, 130)), max_size=8),
)
def test_a_plan_never_breaks_a_limit_nor_uses_a_club_twice(
    heads: list[tuple[D, D, D, frozenset[str]]],
    owned: list[tuple[int, int, bool]],
    wedges: int,
    start: float,
    shots: list[tuple[int, float]],
) -> None:
    line = carry_line(start, 115.0, [LoftCarry(float(loft), carry) for loft, carry in shots])
    candidates = {
        f"{number}": CandidateHead(f"{number}", loft, bounce, limit, limit, "right", True, traits)
        for number, (loft, bounce, limit, traits) in enumerate(heads)
    }
    clubs = {
        f"own {number}": KeptClub(
            f"own {number}", D(tenths) / 10, None, D(limit) / 2, D(limit) / 2, must_stay=False
        )
        for number, (tenths, limit, _) in enumerate(owned)
    }
    wish = PlanWish(wedges=wedges, hand="right")
    try:
        plans = loft_plans(line, wish, list(candidates.values()), list(clubs.values()))
    except PlanImpossible:
        return
    for plan in plans:
        used = [slot.club_id for slot in plan.slots if slot.club_id]
        assert len(set(used)) == len(used)
        for slot in plan.slots:
            source = candidates[slot.head_id] if slot.head_id else clubs[str(slot.club_id)]
            assert -source.strong_limit_deg <= slot.bend_deg <= source.weak_limit_deg
            if not plan.notes:
                assert 4 <= slot.step_deg <= 6
                assert 8 - 1e-9 <= slot.gap_percent <= 13 + 1e-9
