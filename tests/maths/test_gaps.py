"""A gap between two clubs on a carry line, by hand."""

import math
from dataclasses import replace

import pytest

from sessions.maths.carry_line import ClubOnLine
from sessions.maths.errors import NotAFigure
from sessions.maths.gaps import gap_on_line
from tests.independent.test_gaps import line


def test_without_doubt_the_gap_is_the_slope_and_half_the_balls_of_two_like_clubs_overlap() -> None:
    sure = line(covariance=((0.0,) * 3,) * 3)
    found = gap_on_line(sure, 50.0, 55.0)
    assert (found.mean_m, found.low_m, found.high_m) == pytest.approx((11.0, 11.0, 11.0))
    assert gap_on_line(sure, 50.0, 50.0).overlap == pytest.approx(0.5)


def test_a_gap_that_is_known_otherwise_keeps_its_mean_and_takes_the_line_s_doubt() -> None:
    found = gap_on_line(line(), 50.0, 55.0, mean_m=9.0)
    given = gap_on_line(line(), 50.0, 55.0)
    assert found.mean_m == 9.0
    assert found.high_m - found.low_m == pytest.approx(given.high_m - given.low_m)


def test_an_offset_shared_with_the_slope_counts_once_for_each_end() -> None:
    """Own 2 * 0.01 and slope 25 * 0.002, less 2 * 5 * 0.003 for the stronger one, more for the
    weaker: with the same on both ends the shared part cancels."""
    known = (
        (0.05, -0.004, 0.0, 0.0, 0.0),
        (-0.004, 0.002, 0.0, 0.003, 0.003),
        (0.0, 0.0, 0.0, 0.0, 0.0),
        (0.0, 0.003, 0.0, 0.01, 0.0),
        (0.0, 0.003, 0.0, 0.0, 0.01),
    )
    both = replace(
        line(covariance=known),
        heads={"a": 1.0, "b": 1.0},
        clubs={key: ClubOnLine(key, "any") for key in ("a", "b")},
    )
    one = gap_on_line(both, 50.0, 55.0, clubs=("a", "b"))
    assert one.mean_m == pytest.approx(11.0)
    # t for 9 degrees of freedom at 95 %: 1.833 (printed tables).
    assert one.high_m - one.mean_m == pytest.approx(1.833 * 4.5 * math.sqrt(0.07), abs=0.001)


def test_a_line_that_bends_makes_the_lower_gap_the_wider() -> None:
    """110 - 2 d - 0.02 d^2 below 46 degrees, by hand."""
    bent = line(slope_m_per_deg=-2.0, curvature_m_per_deg2=-0.02)
    assert bent.carry_m(50.0) == pytest.approx(110 - 8 - 0.32)
    assert gap_on_line(bent, 50.0, 55.0).mean_m == pytest.approx(10 + 0.02 * (81 - 16))
    assert gap_on_line(bent, 55.0, 60.0).mean_m == pytest.approx(10 + 0.02 * (196 - 81))


@pytest.mark.parametrize("bad", [math.nan, math.inf])
def test_what_is_no_number_is_refused(bad: float) -> None:
    for lofts in ((bad, 55.0), (50.0, bad)):
        with pytest.raises(NotAFigure):
            gap_on_line(line(), *lofts)
    with pytest.raises(NotAFigure):
        gap_on_line(line(), 50.0, 55.0, mean_m=bad)
    with pytest.raises(NotAFigure):
        gap_on_line(line(), 50.0, 55.0, level=1.0)
