"""Swing weight and masses from parts."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.maths.balance import (
    Part,
    balance,
    balance_of_whole_club,
    mass_needed,
    moment_of_swing_weight,
    swing_weight_of_moment,
    weight_to_add,
)
from sessions.maths.balance_changes import (
    butt_cut,
    changes_beside_rules,
    grams_per_point,
    head_nearer,
    lengthened,
    without_adapter,
)
from sessions.maths.errors import BuildRefused, NotAFigure

CLUB = (
    Part("head", 300.0, 35.44),
    Part("shaft", 120.0, 16.755625),
    Part("grip", 50.0, 4.25),
    Part("tape", 2.0, 5.0),
    Part("epoxy and ferrule", 3.0, 32.75),
)


@pytest.mark.common_practice
@pytest.mark.parametrize(
    ("points", "in_oz"), [(-2, 210.0), (0, 213.5), (2, 217.0), (6, 224.0), (10, 231.0)]
)
def test_the_scale_has_d0_at_213_and_a_half_and_a_point_of_one_and_three_quarters(
    points: float, in_oz: float
) -> None:
    assert moment_of_swing_weight(points) == in_oz
    assert swing_weight_of_moment(in_oz) == points


def test_weight_to_add_reaches_the_wanted_swing_weight() -> None:
    now = balance(CLUB).swing_weight_points
    added = weight_to_add(CLUB, now + 2, at_in=35.0, most_allowed_g=9.0)
    assert added.is_allowed
    assert added.reached_points == pytest.approx(now + 2)
    again = balance([*CLUB, Part("weight", added.mass_g, 35.0)])
    assert again.swing_weight_points == pytest.approx(now + 2)


def test_more_than_the_hosel_takes_is_not_allowed_and_says_what_can_be_reached() -> None:
    now = balance(CLUB).swing_weight_points
    added = weight_to_add(CLUB, now + 6, at_in=35.0, most_allowed_g=9.0)
    assert not added.is_allowed
    assert added.mass_g > 9.0
    assert now < added.reached_points < now + 6


def test_a_club_that_is_already_too_heavy_takes_no_weight() -> None:
    now = balance(CLUB).swing_weight_points
    added = weight_to_add(CLUB, now - 1, at_in=35.0, most_allowed_g=9.0)
    assert not added.is_allowed
    assert added.mass_g < 0
    assert added.reached_points == pytest.approx(now)


def test_nothing_to_add_is_allowed() -> None:
    now = balance(CLUB).swing_weight_points
    assert weight_to_add(CLUB, now, at_in=35.0, most_allowed_g=0.0).is_allowed


@pytest.mark.common_practice
def test_a_heavier_grip_lowers_swing_weight() -> None:
    heavier = [*CLUB[:2], Part("grip", 60.0, 4.25), *CLUB[3:]]
    drop = balance(CLUB).swing_weight_points - balance(heavier).swing_weight_points
    # Ten grams of grip take about two points.
    assert drop == pytest.approx(2.0, abs=0.1)


@pytest.mark.parametrize(
    "parts",
    [
        [],
        [Part("head", 0.0, 35.0)],
        [Part("head", -1.0, 35.0)],
        [Part("head", math.nan, 35.0)],
        [Part("head", 300.0, math.inf)],
    ],
)
def test_parts_without_mass_or_place_are_refused(parts: list[Part]) -> None:
    with pytest.raises(NotAFigure):
        balance(parts)


def test_a_mass_that_cannot_be_is_refused() -> None:
    with pytest.raises(BuildRefused, match="there are 0"):
        mass_needed(CLUB, "counterweight", 2)
    with pytest.raises(BuildRefused, match="light enough"):
        mass_needed(CLUB, "head", -130)
    with pytest.raises(BuildRefused, match="over the fulcrum"):
        mass_needed([*CLUB, Part("ring", 1.0, 14.0)], "ring", 2)
    with pytest.raises(BuildRefused, match="below the fulcrum"):
        weight_to_add(CLUB, 2, at_in=1.0, most_allowed_g=9.0)
    with pytest.raises(NotAFigure):
        weight_to_add(CLUB, math.nan, at_in=35.0, most_allowed_g=9.0)


MASSES = st.floats(1, 400)


@given(st.lists(st.builds(Part, st.just("part"), MASSES, st.floats(0, 36)), min_size=1, max_size=6))
def test_the_whole_club_on_an_edge_agrees_with_its_parts(parts: list[Part]) -> None:
    found = balance(parts)
    moment, points = balance_of_whole_club(found.mass_g, found.balance_point_in)
    assert moment == pytest.approx(found.moment_in_oz, abs=1e-6)
    assert points == pytest.approx(found.swing_weight_points, abs=1e-6)
    assert 0 <= found.balance_point_in <= 36 + 1e-9


@given(st.floats(-5, 8))
def test_the_head_mass_needed_gives_what_was_wanted(points: float) -> None:
    mass = mass_needed(CLUB, "head", points)
    again = balance([Part("head", mass, 35.44), *CLUB[1:]])
    assert again.swing_weight_points == pytest.approx(points, abs=1e-9)


@pytest.mark.common_practice
def test_the_rules_of_thumb_are_off_for_a_wedge() -> None:
    head, shaft, grip, length = changes_beside_rules(CLUB, shaft_g_per_in=3.55)
    # Two grams are less than a point, nine of shaft half a point, half an inch more than three.
    assert 0 < head.exact_points < head.rule_points
    assert shaft.exact_points == pytest.approx(0.5, abs=0.01)
    assert grip.exact_points == pytest.approx(grip.rule_points, abs=0.05)
    assert length.exact_points > length.rule_points


@given(st.floats(-2, 2))
def test_longer_there_and_back_is_the_same_club(inches: float) -> None:
    there = lengthened(CLUB, inches, shaft_g_per_in=3.5)
    back = lengthened(there, -inches, shaft_g_per_in=3.5)
    found, before = balance(back), balance(CLUB)
    assert found.swing_weight_points == pytest.approx(before.swing_weight_points, abs=1e-9)
    assert found.mass_g == pytest.approx(before.mass_g)


@pytest.mark.parametrize("wrong", [math.nan, math.inf, -1.0])
def test_a_change_of_no_believable_size_is_refused(wrong: float) -> None:
    with pytest.raises(NotAFigure):
        grams_per_point(wrong)
    with pytest.raises(NotAFigure):
        butt_cut(CLUB, wrong, shaft_g_per_in=3.5, cap_in=0.2)
    with pytest.raises(NotAFigure):
        without_adapter(mass_g=480, swing_weight_points=4, adapter_g=wrong, adapter_from_butt_in=34)


def test_a_change_that_cannot_be_made_is_refused() -> None:
    with pytest.raises(BuildRefused, match="over the fulcrum"):
        grams_per_point(14.0)
    with pytest.raises(NotAFigure, match="shorter than nothing"):
        lengthened(CLUB, -40, shaft_g_per_in=0)
    with pytest.raises(NotAFigure, match="more than the shaft weighs"):
        butt_cut(CLUB, 31, shaft_g_per_in=4, cap_in=0.2)
    with pytest.raises(BuildRefused, match="one shaft to weigh; there are 0"):
        changes_beside_rules([CLUB[0], CLUB[2]], shaft_g_per_in=3.5)
    with pytest.raises(BuildRefused, match="one head to move; there are 0"):
        head_nearer(CLUB[1:], 2)
    with pytest.raises(BuildRefused, match="above the butt"):
        head_nearer(CLUB, 250)
    with pytest.raises(NotAFigure, match="takes points off"):
        head_nearer(CLUB, -1)
    with pytest.raises(BuildRefused, match="as much as the whole club"):
        without_adapter(mass_g=10, swing_weight_points=4, adapter_g=12, adapter_from_butt_in=34)
