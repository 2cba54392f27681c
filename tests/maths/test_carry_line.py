"""The line of carry against loft, before and after shots."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.maths.carry_line import ClubOnLine, LoftCarry, carry_line
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
    assert line.at(45.9).is_extrapolated
    assert not line.at(46.0).is_extrapolated


def test_with_no_ball_hit_every_carry_is_far_from_a_hit_club() -> None:
    """A pitching wedge's carry that the player only says is no measurement."""
    assert carry_line(46.0, 110.0).at(46.0).is_extrapolated
    told = carry_line(46.0, 110.0, stated=[LoftCarry(56.0, 90.0, "old 56")])
    assert told.at(56.0, club="old 56").is_extrapolated


def test_shots_pull_the_line_towards_the_player() -> None:
    # A player who loses 3 % a degree.
    shots = [LoftCarry(45.0 + d, 100.0 - 3.0 * d) for d in (0.0, 5.0, 10.0) for _ in range(10)]
    line = carry_line(45.0, 100.0, shots)
    # Three clubs may each be off the line, so they don't settle it; the clubs themselves are.
    assert -3.0 < line.slope_m_per_deg < -2.6
    assert line.at(55.0).carry_m == pytest.approx(70.0, abs=2.5)
    assert line.at(55.0, club="55 degrees").carry_m == pytest.approx(70.0, abs=1.0)


def test_shots_narrow_the_interval() -> None:
    shots = [LoftCarry(50.0, 89.0), LoftCarry(50.0, 91.0)] * 4
    before, after = carry_line(45.0, 100.0).at(50.0), carry_line(45.0, 100.0, shots).at(50.0)
    assert after.high_m - after.low_m < before.high_m - before.low_m


def test_a_club_that_was_never_hit_is_less_sure_than_one_that_was() -> None:
    shots = [LoftCarry(46.0, 100.0 + d, "pw") for d in (-2, 0, 2)] + [
        LoftCarry(50.0, 91.0 + d, "fifty") for d in (-2, 0, 2) * 4
    ]
    line = carry_line(46.0, 100.0, shots, is_baseline_hit=True)
    hit, new = line.at(50.0, club="fifty"), line.at(50.0)
    assert hit.high_m - hit.low_m < new.high_m - new.low_m
    # However much was hit: 1.645 times 1.5 % of the baseline on each side, less what the
    # spread turned out smaller than expected.
    many = carry_line(46.0, 100.0, shots * 40, is_baseline_hit=True)
    wide = many.at(50.0).high_m - many.at(50.0).carry_m
    assert wide > 1.645 * 1.5 * many.shot_sd_m / 4.0


def test_a_head_on_two_shafts_tells_the_shafts_apart() -> None:
    """The heavy shaft takes 4 m from either head; the heads carry alike."""
    shots = [
        LoftCarry(50.0, 92.0 + miss - 4.0 * (shaft == "heavy"), head, shaft)
        for head in ("one", "other")
        for shaft in ("light", "heavy")
        for miss in (-1.0, 0.0, 1.0) * 10
    ]
    line = carry_line(46.0, 100.0, [*[LoftCarry(46.0, 100.0, "pw")] * 6, *shots])
    assert line.heads["one"] == pytest.approx(line.heads["other"])
    # By hand: sixty balls a shaft leave 2 * 4^2 / 60 of doubt, two shafts are believed to differ
    # by 2 * 0.9^2; so 1.62 / (1.62 + 0.53), three quarters, of the 4 m are told.
    assert 2.8 < line.shafts["light"] - line.shafts["heavy"] < 3.2
    # A head that was never hit carries less on the heavy shaft too, and is surer for it.
    light, heavy = (line.at(50.0, club=ClubOnLine("third", s)) for s in ("light", "heavy"))
    assert light.carry_m - heavy.carry_m > 2.0
    anyone = line.at(50.0)
    assert heavy.high_m - heavy.low_m < anyone.high_m - anyone.low_m


def test_a_player_whose_line_bends_is_followed_when_enough_clubs_are_hit() -> None:
    """100 - 1.8 d - 0.03 d^2: by hand 83.68 at 8 degrees below, 71.53 at 13."""
    lofts = [46.0 + d for d in (0, 2, 4, 6, 9, 11, 14)] * 12
    shots = [LoftCarry(loft, 100 - 1.8 * (loft - 46) - 0.03 * (loft - 46) ** 2) for loft in lofts]
    line = carry_line(46.0, 100.0, shots)
    # Believed to be 0 give or take 0.02; seven clubs may each be off the line, so part is told.
    assert -0.03 < line.curvature_m_per_deg2 < -0.005
    assert line.at(54.0).carry_m == pytest.approx(83.68, abs=1.0)
    assert line.at(59.0).carry_m == pytest.approx(71.53, abs=1.0)


def test_about_a_dozen_shots_overrule_what_was_expected() -> None:
    """Expected at ten degrees down: 79. A player at 70 is believed nearly wholly after twelve."""
    shots = [LoftCarry(46.0, 100.0, "pw")] * 6 + [LoftCarry(56.0, 70.0, "own 56")] * 6
    there = carry_line(46.0, 100.0, shots, is_baseline_hit=True).at(56.0, club="own 56")
    assert there.carry_m == pytest.approx(70.0, abs=1.2)


def test_the_next_ball_scatters_wider_than_the_mean() -> None:
    line = carry_line(46.0, 100.0, [LoftCarry(46.0, 100.0 + d, "pw") for d in (-3, 0, 3)])
    mean, ball = line.at(50.0), line.next_ball(50.0)
    assert ball.carry_m == mean.carry_m
    assert ball.low_m < mean.low_m < mean.high_m < ball.high_m


def test_what_the_player_says_of_a_club_counts_as_one_ball_with_it() -> None:
    shots = [LoftCarry(46.0, 100.0, "pw")] * 5
    says = LoftCarry(56.0, 70.0, "old 56")
    silent = carry_line(46.0, 100.0, shots)
    told = carry_line(46.0, 100.0, shots, stated=[says])
    one_ball = carry_line(46.0, 100.0, [*shots, says])
    assert told.at(56.0, club="old 56").carry_m == one_ball.at(56.0, club="old 56").carry_m
    assert told.at(56.0, club="old 56").carry_m < silent.at(56.0).carry_m
    assert told.shots == 5
    assert told.at(60.0).is_extrapolated


def test_a_pitching_wedge_that_was_hit_is_as_sure_as_its_shots() -> None:
    shots = [LoftCarry(46.0, 100.0 + d, "pw") for d in (-4, 4)]
    once = carry_line(46.0, 100.0, shots)
    hit = carry_line(46.0, 100.0, shots, is_baseline_hit=True)
    assert hit.at(46.0).high_m > once.at(46.0).high_m


# The whole tables stand in docs/calibration.md; this guards them, with fixed draws.
@pytest.mark.parametrize("percentile", [-1.645, 1.645])
def test_a_player_at_the_edge_of_what_is_expected_is_mostly_covered_from_eight_shots(
    percentile: float,
) -> None:
    rng = np.random.default_rng(20261124)
    covered, tries = 0, 300
    # Carry at 52 degrees at its 5th or 95th percentile: intercept and slope move together.
    doubt = math.sqrt(5.0**2 + (0.4 * 6) ** 2)
    start = 100.0 + percentile * 5.0**2 / doubt
    slope = -2.1 + percentile * 0.4**2 * 6 / doubt
    for _ in range(tries):
        off = rng.normal(0.0, 1.5, 3)
        shots = [
            LoftCarry(46.0 + d, float(rng.normal(start + slope * d + off[club], 4.0)))
            for club, d in enumerate((0.0, 8.0))
            for _ in range(4)
        ]
        there = carry_line(46.0, 100.0, shots).at(52.0)
        covered += there.low_m <= start + slope * 6.0 + off[2] <= there.high_m
    assert covered / tries >= 0.80


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
