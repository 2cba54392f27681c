"""Plans of lofts: the best, the next, and why there is none."""

from dataclasses import replace
from decimal import Decimal as D
from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sessions.maths.carry_line import CarryLine, carry_line
from sessions.maths.errors import NotAFigure, PlanImpossible
from sessions.maths.loft_plan import (
    CandidateHead,
    KeptClub,
    PlanWish,
    loft_plans,
)

YARD = 0.9144
LINE = carry_line(45.0, 128 * YARD)
WISH = PlanWish(wedges=3, hand="right")


def head(loft: int | str, bend: int = 2, hand: str = "right", available: bool = True) -> object:
    return CandidateHead(
        f"head {loft} {hand}",
        D(loft),
        D(10),
        D(bend),
        D(bend),
        hand,  # type: ignore[arg-type]
        available,
    )


HEADS = [head(loft) for loft in range(44, 63, 2)]


def test_even_steps_to_the_wished_most_lofted_club() -> None:
    best = loft_plans(LINE, replace(WISH, most_lofted_deg=D(60)), HEADS)[0]
    assert best.target_lofts_deg == (D(50), D(55), D(60))
    assert [round(slot.carry_m / YARD) for slot in best.slots] == [115, 101, 88]


def test_a_bent_head_says_its_bend_its_bounce_and_why() -> None:
    slot = loft_plans(LINE, replace(WISH, most_lofted_deg=D(60)), HEADS)[0].slots[1]
    assert slot.stamped_loft_deg == D(54)
    assert slot.bend_deg == D(1)
    assert slot.bounce_after_deg == D(11)
    assert slot.why == (
        "A new head stamped 54, bent 1 weak: 5 degrees below the club before it, a gap of 11 % "
        "of the pitching wedge's carry."
    )


def test_a_measured_pitching_wedge_between_half_degrees_is_the_start() -> None:
    best = loft_plans(carry_line(40.4, 143 * YARD), WISH, HEADS)[0]
    assert best.target_lofts_deg == (D("45.5"), D("50.5"), D("55.5"))
    assert best.slots[0].step_deg == D("5.1")


def test_further_plans_are_distinct() -> None:
    plans = loft_plans(LINE, WISH, HEADS)
    assert len(plans) == 3
    for one, other in ((0, 1), (0, 2), (1, 2)):
        pairs = zip(plans[one].target_lofts_deg, plans[other].target_lofts_deg, strict=True)
        assert any(abs(a - b) >= 1 for a, b in pairs)
    assert plans[0].cost <= plans[1].cost <= plans[2].cost


def test_the_plan_is_built_round_a_club_that_stays() -> None:
    loved = KeptClub("loved", D("54.8"), D(12))
    for plan in loft_plans(LINE, WISH, HEADS, [loved]):
        assert "loved" in {slot.club_id for slot in plan.slots}
    slot = next(s for s in loft_plans(LINE, WISH, HEADS, [loved])[0].slots if s.club_id)
    assert (slot.head_id, slot.target_loft_deg, slot.bounce_after_deg) == (None, D("54.8"), D(12))
    assert slot.why.startswith("Your own club stays: ")


def test_owned_clubs_that_step_well_make_a_plan_that_buys_nothing() -> None:
    owned = [KeptClub(f"own {loft}", D(loft), must_stay=False) for loft in (50, 55, 60)]
    best = loft_plans(LINE, WISH, HEADS, owned)[0]
    assert best.buys_nothing
    assert best.target_lofts_deg == (D(50), D(55), D(60))


def test_keeping_everything_is_a_plan_with_notes_on_what_is_odd() -> None:
    kept = [KeptClub("lob", D(60)), KeptClub("gap", D(52))]
    (only,) = loft_plans(LINE, replace(WISH, wedges=2), [], kept)
    assert only.buys_nothing
    assert only.target_lofts_deg == (D(52), D(60))
    assert only.notes[1] == (
        "From 52 to 60 is 8 degrees and 17 % of the pitching wedge's carry: "
        "4 to 6 degrees and 8 to 13 % was asked for."
    )


def test_owned_clubs_may_be_bent_a_little() -> None:
    owned = [
        KeptClub("48.2", D("48.2"), None, D(1), D(1), must_stay=False),
        KeptClub("51.0", D("51.0"), None, D(1), D(1), must_stay=False),
        KeptClub("54.8", D("54.8"), None, D(1), D(1), must_stay=False),
        KeptClub("60.4", D("60.4"), None, D(1), D(1), must_stay=False),
    ]
    best = loft_plans(carry_line(46.0, 119 * YARD), WISH, HEADS, owned)[0]
    assert best.buys_nothing
    assert [slot.club_id for slot in best.slots] == ["51.0", "54.8", "60.4"]


def test_wrong_hand_unavailable_and_left_out_heads_are_never_chosen() -> None:
    heads = [
        head(50, 0, "left"),
        head(50, 0, available=False),
        replace(head(50, 0), head_id="left out"),  # type: ignore[type-var]
        replace(head(50, 0), head_id="good"),  # type: ignore[type-var]
    ]
    wish = PlanWish(wedges=1, hand="right", leave_out=frozenset({"left out"}))
    (only,) = loft_plans(LINE, wish, heads)
    assert only.slots[0].head_id == "good"


def test_a_club_left_out_does_not_bind_the_plan() -> None:
    wish = replace(WISH, leave_out=frozenset({"old"}))
    plans = loft_plans(LINE, wish, HEADS, [KeptClub("old", D("46.0"))])
    assert all(slot.club_id is None for plan in plans for slot in plan.slots)


@pytest.mark.parametrize(
    ("wish", "heads", "kept", "binding"),
    [
        (replace(WISH, wedges=1, most_lofted_deg=D(60)), HEADS, [], "the wish for 60 degrees"),
        (WISH, [head(50, 0), head(60, 0)], [], "the heads that can be had"),
        (WISH, HEADS, [KeptClub("a", D(52)), KeptClub("b", D("52.3"))], "the clubs that are to"),
        (replace(WISH, gap_limits_percent=(20.0, 25.0)), HEADS, [], "gaps of 20 to 25 %"),
        (replace(WISH, step_limits_deg=(D(2), D(3))), HEADS, [], "steps of 2 to 3 degrees"),
    ],
)
def test_the_refusal_names_the_limit_in_the_way(
    wish: PlanWish, heads: list[CandidateHead], kept: list[KeptClub], binding: str
) -> None:
    with pytest.raises(PlanImpossible) as refused:
        loft_plans(LINE, wish, heads, kept)
    assert f"In the way: {binding}" in str(refused.value)


def test_no_heads_and_two_wrong_limits_say_that_it_is_more_than_one() -> None:
    with pytest.raises(PlanImpossible, match="More than one limit"):
        loft_plans(LINE, replace(WISH, step_limits_deg=(D(2), D(3))), [])


def test_more_clubs_to_stay_than_wedges_is_refused() -> None:
    kept = [KeptClub("a", D(50)), KeptClub("b", D(55))]
    with pytest.raises(PlanImpossible, match="2 clubs are to stay but 1 wedge was asked for"):
        loft_plans(LINE, replace(WISH, wedges=1), HEADS, kept)


@pytest.mark.parametrize("wedges", [0, 5])
def test_a_number_of_wedges_that_makes_no_sense_is_refused(wedges: int) -> None:
    with pytest.raises(NotAFigure, match="1 to 4 wedges"):
        loft_plans(LINE, replace(WISH, wedges=wedges), HEADS)


def test_a_head_whose_loft_is_no_number_is_refused() -> None:
    with pytest.raises(NotAFigure):
        loft_plans(LINE, WISH, [replace(head(50), stamped_loft_deg=D("NaN"))])  # type: ignore[type-var]


def cheapest_by_brute_force(
    line: CarryLine, wish: PlanWish, heads: list[CandidateHead]
) -> float | None:
    """Try every choice of heads and half-degree bends, written apart from the code under test."""
    ways = [
        (float(one.stamped_loft_deg) + halves / 2, abs(halves) / 2)
        for one in heads
        for halves in range(-int(one.strong_limit_deg * 2), int(one.weak_limit_deg * 2) + 1)
    ]
    cheapest = None
    for path in product(ways, repeat=wish.wedges):
        lofts = [line.baseline_loft_deg, *(loft for loft, _ in path)]
        cost = 6 * wish.wedges + 0.5 * sum(bend for _, bend in path)
        fits = True
        for above, below in pairwise(lofts):
            gap = 100 * (line.at(above).carry_m - line.at(below).carry_m) / line.baseline_carry_m
            fits = fits and 4 <= below - above <= 6 and 8 <= gap <= 13
            cost += (gap - 10.5) ** 2
        if fits and (cheapest is None or cost < cheapest):
            cheapest = cost
    return cheapest


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.integers(47, 62), min_size=1, max_size=4, unique=True),
    st.integers(0, 1),
    st.integers(1, 2),
    st.sampled_from([44.0, 45.0, 46.0]),
)
def test_no_choice_tried_by_brute_force_is_cheaper(
    lofts: list[int], bend: int, wedges: int, start: float
) -> None:
    line = carry_line(start, 115.0)
    heads = [head(loft, bend) for loft in lofts]
    wish = replace(WISH, wedges=wedges)
    cheapest = cheapest_by_brute_force(line, wish, heads)  # type: ignore[arg-type]
    if cheapest is None:
        with pytest.raises(PlanImpossible):
            loft_plans(line, wish, heads)
    else:
        assert loft_plans(line, wish, heads)[0].cost == pytest.approx(cheapest, abs=1e-9)
