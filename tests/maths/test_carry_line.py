"""The line of carry against loft, before and after shots."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.maths.carry_line import LoftCarry, carry_line
from sessions.maths.errors import NotAFigure


@pytest.mark.common_practice
def test_without_shots_a_degree_takes_about_two_percent_of_the_pitching_wedge() -> None:
    line = carry_line(45.0, 100.0)
    assert line.at(45.0).carry_m == pytest.approx(100.0)
    assert line.at(50.0).carry_m == pytest.approx(89.5)


@pytest.mark.common_practice
@pytest.mark.parametrize("yards", [120.0, 140.0])
def test_steps_of_four_to_six_degrees_are_about_ten_to_fifteen_yards(yards: float) -> None:
    # "About": four degrees of a 120-yard pitching wedge are 10.1, six of a 140-yard one 17.6.
    line = carry_line(46.0, yards * 0.9144)
    gaps = [(line.at(50.0).carry_m - line.at(50.0 + step).carry_m) / 0.9144 for step in (4, 5)]
    assert all(10.0 <= gap <= 15.0 for gap in gaps)


@pytest.mark.common_practice
@pytest.mark.parametrize("carry", [70.0, 110.0, 128.0])
def test_steps_of_four_to_six_degrees_lie_within_eight_to_thirteen_percent(carry: float) -> None:
    line = carry_line(45.0, carry)
    for step in (4.0, 6.0):
        gap = (line.at(50.0).carry_m - line.at(50.0 + step).carry_m) / carry
        assert 0.08 <= gap <= 0.13


def test_far_from_every_hit_club_is_flagged() -> None:
    line = carry_line(45.0, 110.0, [LoftCarry(50.0, 98.0)])
    assert not line.at(54.0).is_extrapolated
    assert line.at(54.1).is_extrapolated
    assert line.at(40.9).is_extrapolated
    assert not line.at(49.0).is_extrapolated


def test_shots_pull_the_line_towards_the_player() -> None:
    # A player who loses 3 % a degree.
    shots = [LoftCarry(45.0 + d, 100.0 - 3.0 * d) for d in (0.0, 5.0, 10.0) for _ in range(10)]
    line = carry_line(45.0, 100.0, shots)
    assert line.slope_m_per_deg == pytest.approx(-3.0, abs=0.2)
    assert line.at(55.0).carry_m == pytest.approx(70.0, abs=1.0)


def test_shots_narrow_the_interval() -> None:
    shots = [LoftCarry(50.0, 89.0), LoftCarry(50.0, 91.0)] * 4
    before, after = carry_line(45.0, 100.0).at(50.0), carry_line(45.0, 100.0, shots).at(50.0)
    assert after.high_m - after.low_m < before.high_m - before.low_m


@pytest.mark.parametrize("bad", [math.nan, math.inf, 0.0, -10.0])
def test_a_baseline_that_is_none_is_refused(bad: float) -> None:
    with pytest.raises(NotAFigure):
        carry_line(45.0, bad)


def test_figures_that_are_no_numbers_are_refused() -> None:
    with pytest.raises(NotAFigure):
        carry_line(math.nan, 100.0)
    with pytest.raises(NotAFigure):
        carry_line(45.0, 100.0, [LoftCarry(50.0, math.nan)])
    with pytest.raises(NotAFigure):
        carry_line(45.0, 100.0).at(math.nan)
    with pytest.raises(NotAFigure):
        carry_line(45.0, 100.0).at(50.0, level=1.0)


SHOTS = st.lists(st.builds(LoftCarry, st.floats(42, 64), st.floats(30, 140)), max_size=12)


@given(SHOTS, st.floats(40, 48), st.floats(60, 140), st.floats(42, 64))
def test_a_prediction_lies_within_its_interval(
    shots: list[LoftCarry], loft: float, carry: float, at: float
) -> None:
    there = carry_line(loft, carry, shots).at(at)
    assert there.low_m < there.carry_m < there.high_m


@given(SHOTS, st.floats(0.5, 2.0))
def test_the_unit_of_carry_does_not_matter(shots: list[LoftCarry], factor: float) -> None:
    scaled = [LoftCarry(shot.loft_deg, shot.carry_m * factor) for shot in shots]
    one, other = carry_line(46.0, 100.0, shots).at(54.0), carry_line(46.0, 100.0 * factor, scaled)
    assert other.at(54.0).carry_m == pytest.approx(one.carry_m * factor, rel=1e-9)
    assert other.at(54.0).low_m == pytest.approx(one.low_m * factor, rel=1e-6, abs=1e-6)
