"""Bends in numbers and words, against the limits of a head."""

from decimal import Decimal as D

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.maths.bending import (
    MAKING_LIMITS,
    Bend,
    BendLimits,
    bend_judgement,
    bend_to_make,
    bend_words,
    bounce_after,
    combined_bend,
    loft_after_lie_bend,
    making_limits,
    offset_change,
    planned_bend,
    total_travel,
)
from sessions.maths.errors import NotAFigure, UnknownMaking

LOFTS = st.integers(30, 150).map(lambda n: D(n) / 2)
HALF_DEGREES = st.integers(min_value=-12, max_value=12).map(lambda halves: D(halves) / 2)
TWO_EACH_WAY = BendLimits(D(2), D(2), D(2), D(2))


@pytest.mark.common_practice
def test_a_degree_weak_adds_a_degree_of_loft_and_of_bounce() -> None:
    assert D(56) + D(1) == D(57)
    assert bounce_after(D(10), D(1)) == D(11)
    assert bend_words(planned_bend(D(57), D(56))) == "1 weak"


@pytest.mark.common_practice
def test_a_degree_strong_takes_one_of_each() -> None:
    assert bounce_after(D(10), D(-1)) == D(9)
    assert bend_words(planned_bend(D(55), D(56))) == "1 strong"


def test_a_head_received_weaker_than_its_target_is_bent_the_other_way() -> None:
    # Stamped 54, planned 1 weak (55), received at 55.5: half a degree strong is to be made.
    assert planned_bend(D("55"), D("54")) == D(1)
    assert bend_to_make(D("55"), D("55.5")) == D("-0.5")
    assert bend_words(bend_to_make(D("55"), D("55.5"))) == "0.5 strong"


@pytest.mark.parametrize(
    ("deg", "axis", "said"),
    [
        ("0", "loft", "none"),
        ("0.04", "loft", "none"),
        ("1.00", "loft", "1 weak"),
        ("-0.5", "loft", "0.5 strong"),
        ("1.5", "lie", "1.5 upright"),
        ("-2", "lie", "2 flat"),
    ],
)
def test_a_bend_is_said_in_the_words_of_the_trade(deg: str, axis: str, said: str) -> None:
    assert bend_words(D(deg), axis) == said  # type: ignore[arg-type]


@pytest.mark.common_practice
def test_weak_takes_offset_away_and_strong_adds_it() -> None:
    assert offset_change(D(1)) == "less offset"
    assert offset_change(D(-1)) == "more offset"
    assert offset_change(D(0)) == "same offset"


@pytest.mark.common_practice
@pytest.mark.parametrize(
    ("making", "degrees"),
    [
        ("forged low-carbon steel", 3),
        ("cast soft carbon steel", 2),
        ("cast 304 or 431 stainless", 2),
        ("17-4 stainless", 1),
        ("hollow", 0),
        ("multi-piece", 0),
        ("insert", 0),
        ("printed", 0),
        ("titanium", 0),
        ("copper alloy", 0),
        ("plated", 0),
        ("unknown", 0),
    ],
)
def test_the_default_limit_follows_the_making(making: str, degrees: int) -> None:
    limits = making_limits(making)
    assert (limits.weak_deg, limits.strong_deg) == (degrees, degrees)
    assert (limits.upright_deg, limits.flat_deg) == (degrees, degrees)
    assert limits.said_by == "common practice"


def test_no_making_is_left_without_a_check() -> None:
    assert len(MAKING_LIMITS) == 12


def test_the_makers_limit_wins_even_over_an_unknown_making() -> None:
    makers = BendLimits(D(1), D(0), D(1), D(1), said_by="the maker")
    assert making_limits("forged low-carbon steel", makers) is makers
    assert making_limits("never heard of", makers) is makers


def test_a_making_nobody_named_is_refused() -> None:
    with pytest.raises(UnknownMaking, match="choose unknown"):
        making_limits("wood")


def test_loft_and_lie_share_one_hosel() -> None:
    assert combined_bend(Bend(D(3), D(4))) == 5.0


@pytest.mark.parametrize(
    ("loft", "lie", "allowed"),
    [
        ("2", "0", True),
        ("2.01", "0", False),
        ("-2", "0", True),
        ("0", "2", True),
        ("1.4", "1.4", True),  # root 1.9799
        ("1.5", "1.5", False),  # root 2.1213
        ("0", "0", True),
    ],
)
def test_the_last_bend_that_passes_and_the_first_that_does_not(
    loft: str, lie: str, allowed: bool
) -> None:
    assert bend_judgement(Bend(D(loft), D(lie)), TWO_EACH_WAY).is_allowed is allowed


def test_a_combined_bend_is_held_against_the_smaller_limit() -> None:
    limits = BendLimits(D(3), D(3), D(1), D(1))
    assert bend_judgement(Bend(D(3)), limits).is_allowed
    judged = bend_judgement(Bend(D(1), D("0.5")), limits)
    assert judged.limit_deg == D(1)
    assert not judged.is_allowed


def test_each_way_has_its_own_limit() -> None:
    limits = BendLimits(weak_deg=D(2), strong_deg=D(1), upright_deg=D(2), flat_deg=D(2))
    assert bend_judgement(Bend(D(2)), limits).is_allowed
    assert not bend_judgement(Bend(D("-1.5")), limits).is_allowed


def test_earlier_bends_count_in_the_total() -> None:
    earlier = [Bend(D(1)), Bend(D("0.5"))]
    assert bend_judgement(Bend(D("0.5")), TWO_EACH_WAY, earlier).is_allowed
    judged = bend_judgement(Bend(D(1)), TWO_EACH_WAY, earlier)
    assert not judged.is_allowed
    assert judged.refusals == (
        "1 weak is too far: 2.5 degrees with the earlier bends against a limit of 2 "
        "(common practice).",
    )


def test_an_earlier_lie_bend_counts_against_a_loft_bend() -> None:
    assert not bend_judgement(Bend(D("1.5")), TWO_EACH_WAY, [Bend(lie_deg=D("1.5"))]).is_allowed


def test_bending_back_gives_no_travel_back() -> None:
    travel = total_travel([Bend(D(1)), Bend(D(-1)), Bend(D(1))])
    assert (travel.weak_deg, travel.strong_deg) == (D(2), D(1))


def test_a_first_reversal_passes_and_a_second_over_a_degree_is_refused() -> None:
    limits = BendLimits(D(9), D(9), D(9), D(9))
    once = [Bend(D("1.5"))]
    assert bend_judgement(Bend(D("-1.5")), limits, once).is_allowed
    twice = [*once, Bend(D("-1.5"))]
    assert bend_judgement(Bend(D(1)), limits, twice).is_allowed
    refused = bend_judgement(Bend(D("1.5")), limits, twice)
    assert refused.refusals == (
        "This head would be bent back by more than 1 degree for the second time: it may crack.",
    )


def test_steps_of_one_degree_the_same_way_are_one_run() -> None:
    travel = total_travel([Bend(D(1)), Bend(D(1)), Bend(D(-1)), Bend(D("-0.5"))])
    assert travel.reversals == 1


def test_a_head_that_is_not_bent_says_so() -> None:
    judged = bend_judgement(Bend(D("0.5")), making_limits("hollow"))
    assert judged.refusals == (
        "0.5 weak is too far: this head is not bent unless its maker allows it.",
    )


def test_three_and_a_half_on_a_cast_head_is_refused() -> None:
    assert not bend_judgement(Bend(D("-3.5")), making_limits("cast soft carbon steel")).is_allowed


@pytest.mark.parametrize("bad", ["NaN", "Infinity"])
def test_an_angle_that_is_no_number_is_refused(bad: str) -> None:
    with pytest.raises(NotAFigure):
        planned_bend(D(bad), D(54))
    with pytest.raises(NotAFigure):
        Bend(loft_deg=D(bad))
    with pytest.raises(NotAFigure):
        loft_after_lie_bend(float("nan"), 1.0)


def test_a_negative_limit_is_refused() -> None:
    with pytest.raises(NotAFigure, match="none below 0"):
        BendLimits(D(-1), D(1), D(1), D(1))


@given(stamped=LOFTS, target=LOFTS, bounce=HALF_DEGREES)
def test_bounce_moves_as_far_as_loft(stamped: D, target: D, bounce: D) -> None:
    bend = planned_bend(target, stamped)
    assert stamped + bend == target
    assert bounce_after(bounce, bend) - bounce == target - stamped


@given(st.lists(st.builds(Bend, HALF_DEGREES, HALF_DEGREES), max_size=6))
def test_travel_never_shrinks(bends: list[Bend]) -> None:
    for seen in range(len(bends)):
        before, after = total_travel(bends[:seen]), total_travel(bends[: seen + 1])
        assert after.weak_deg >= before.weak_deg
        assert after.strong_deg >= before.strong_deg
        assert after.reversals >= before.reversals


@given(st.floats(1, 89), st.floats(-5, 5))
def test_a_lie_bend_never_adds_loft(loft: float, lie: float) -> None:
    assert loft_after_lie_bend(loft, lie) <= loft + 1e-9


@given(HALF_DEGREES, HALF_DEGREES)
def test_there_and_back_is_the_same_loft_and_bounce(bounce: D, bend: D) -> None:
    assert bounce_after(bounce_after(bounce, bend), -bend) == bounce
    assert planned_bend(D(56) + bend, D(56)) == -planned_bend(D(56), D(56) + bend)
    # The metal was moved twice all the same.
    travel = total_travel([Bend(bend), Bend(-bend)])
    assert (travel.weak_deg, travel.strong_deg) == (abs(bend), abs(bend))


@given(HALF_DEGREES, HALF_DEGREES)
def test_a_strong_bend_never_adds_bounce_nor_a_weak_one_takes_any(bounce: D, bend: D) -> None:
    after = bounce_after(bounce, bend)
    assert after <= bounce if bend <= 0 else after > bounce


@given(HALF_DEGREES)
def test_offset_goes_the_other_way_than_loft(bend: D) -> None:
    said = {True: "less offset", False: "more offset"}
    assert offset_change(bend) == ("same offset" if bend == 0 else said[bend > 0])
    opposite = {"less offset": "more offset", "more offset": "less offset"}
    assert offset_change(-bend) == opposite.get(offset_change(bend), "same offset")


@given(HALF_DEGREES, HALF_DEGREES)
def test_both_bends_together_are_no_less_than_each_and_no_more_than_their_sum(
    loft: D, lie: D
) -> None:
    both = combined_bend(Bend(loft, lie))
    assert both >= max(abs(loft), abs(lie)) - D("1e-9")
    assert both <= float(abs(loft) + abs(lie)) + 1e-9
    assert both == combined_bend(Bend(-loft, lie)) == combined_bend(Bend(lie, loft))


@given(st.lists(st.builds(Bend, HALF_DEGREES, HALF_DEGREES), max_size=4), HALF_DEGREES)
def test_an_allowed_bend_leaves_the_travel_within_its_limit(earlier: list[Bend], bend: D) -> None:
    judged = bend_judgement(Bend(bend), TWO_EACH_WAY, earlier)
    if judged.is_allowed and bend != 0:
        side = judged.travel.weak_deg if bend > 0 else judged.travel.strong_deg
        assert side <= 2


@given(st.floats(40, 64), st.floats(-3, 3))
def test_a_lie_bend_takes_as_much_loft_either_way_and_hardly_any(loft: float, lie: float) -> None:
    after = loft_after_lie_bend(loft, lie)
    assert after == pytest.approx(loft_after_lie_bend(loft, -lie), abs=1e-12)
    # 3 degrees on 64 take 0.16.
    assert loft - after < 0.2
