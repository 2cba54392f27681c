"""The line of carry against statsmodels: a belief is the same as made-up shots, weighted."""

from typing import Any

import numpy as np
import pytest
import statsmodels.api as sm
from scipy import stats

from sessions.maths.carry_line import (
    ClubKey,
    ClubOnLine,
    LinePrior,
    LoftCarry,
    carry_line,
    posterior_line,
)

# A pitching wedge, one trial head on two shafts, another on one of them.
SHOTS = [
    LoftCarry(46.0, 110.2, "own"),
    LoftCarry(46.0, 107.9, "own"),
    LoftCarry(50.0, 101.5, "fifty", "light"),
    LoftCarry(50.0, 97.0, "fifty", "heavy"),
    LoftCarry(56.0, 83.1, "wide", "heavy"),
]
CARRY = 109.0
HEADS, SHAFTS = ["own", "fifty", "wide"], ["own", "light", "heavy"]


def row(loft: float, head: str = "", shaft: str = "") -> np.ndarray:
    d = loft - 46.0
    return np.array(
        [1.0, d, d**2, *(float(head == h) for h in HEADS), *(float(shaft == s) for s in SHAFTS)]
    )


def fitted() -> Any:
    """The beliefs as rows of their own: what the pitching wedge carries, what a degree takes away,
    no bend in the line, and for each head and shaft that it carries as the line says."""
    rows = [row(s.loft_deg, s.club, s.shaft or s.club) for s in SHOTS]
    seen = np.array([s.carry_m for s in SHOTS] + [CARRY, -0.021 * CARRY, *[0.0] * 7])
    doubts = np.array([0.05, 0.004, 0.0002, *[0.012] * 3, *[0.009] * 3])
    weights = np.array([*[1.0] * 5, *(0.04 / doubts) ** 2])
    return sm.WLS(seen, np.vstack([np.array(rows), np.eye(9)]), weights=weights).fit()


@pytest.mark.independent(library="statsmodels", call="WLS(shots and beliefs as rows).fit()")
def test_beliefs_count_as_weighted_rows() -> None:
    line, fit = carry_line(46.0, CARRY, SHOTS), fitted()
    found = [
        line.intercept_m,
        line.slope_m_per_deg,
        line.curvature_m_per_deg2,
        *(line.heads[h] for h in HEADS),
        *(line.shafts[s] for s in SHAFTS),
    ]
    assert found == pytest.approx(list(fit.params), rel=1e-9, abs=1e-12)
    assert np.array(line.covariance) == pytest.approx(fit.normalized_cov_params, rel=1e-8)
    # The belief in the spread adds four shots' worth of it.
    squares = fit.ssr + 4 * (0.04 * CARRY) ** 2
    assert line.shot_sd_m == pytest.approx((squares / 9) ** 0.5, rel=1e-10)


@pytest.mark.independent(library="statsmodels", call="WLS(...).fit(), t interval of a row")
@pytest.mark.parametrize(
    ("club", "head", "shaft", "more"),
    [
        (ClubOnLine("fifty", "light"), "fifty", "light", 0.0),
        # Never hit together, each hit with something else.
        (ClubOnLine("wide", "light"), "wide", "light", 0.0),
        # A head or a shaft never hit adds its own doubt, in variances of one shot.
        (ClubOnLine("new", "heavy"), "", "heavy", 0.3**2),
        (ClubOnLine("fifty", "new"), "fifty", "", 0.225**2),
        ("nobody's", "", "", 0.375**2),
    ],
)
def test_a_club_is_as_doubtful_as_its_head_and_its_shaft(
    club: ClubKey, head: str, shaft: str, more: float
) -> None:
    line, fit = carry_line(46.0, CARRY, SHOTS), fitted()
    asked = row(50.0, head, shaft)
    doubt = float(asked @ fit.normalized_cov_params @ asked) + more
    scale = float(stats.t.isf(0.05, 9)) * line.shot_sd_m
    mean, ball = line.at(50.0, club=club), line.next_ball(50.0, club=club)
    assert mean.carry_m == ball.carry_m == pytest.approx(float(asked @ fit.params), rel=1e-9)
    assert mean.high_m - mean.carry_m == pytest.approx(scale * doubt**0.5, rel=1e-8)
    # A further shot has one shot's variance on top.
    assert ball.carry_m - ball.low_m == pytest.approx(scale * (doubt + 1) ** 0.5, rel=1e-8)


@pytest.mark.independent(library="statsmodels", call="WLS(...).fit(), variance of a contrast")
def test_what_two_clubs_share_is_no_doubt_of_their_gap() -> None:
    line, fit = carry_line(46.0, CARRY, SHOTS), fitted()
    apart = row(50.0, "fifty", "heavy") - row(56.0, "wide", "heavy")
    assert apart[-1] == 0.0
    doubt = float(apart @ fit.normalized_cov_params @ apart)
    pair = (ClubOnLine("fifty", "heavy"), ClubOnLine("wide", "heavy"))
    assert line.variance_between(50.0, 56.0, pair) == pytest.approx(doubt, rel=1e-8)
    # Two new heads on one new shaft: the shaft is shared, the heads are not.
    line_only = row(50.0) - row(56.0)
    doubt = float(line_only @ fit.normalized_cov_params @ line_only) + 2 * 0.3**2
    new = (ClubOnLine("one", "new"), ClubOnLine("other", "new"))
    assert line.variance_between(50.0, 56.0, new) == pytest.approx(doubt, rel=1e-8)


@pytest.mark.independent(
    library="numpy",
    call="polyfit",
    though="the function inverts a matrix of beliefs: here least squares alone",
)
def test_with_no_belief_in_a_straight_line_it_is_a_parabola() -> None:
    lofts = [44.0, 46.0, 50.0, 52.0, 56.0, 58.0, 60.0]
    carries = [118.2, 114.9, 105.3, 101.9, 88.8, 84.1, 75.0]
    nothing = LinePrior(0.0, 0.0, 1e5, 1e5, 1e-4, -3.0, curvature_doubt=1e5)
    shots = [LoftCarry(*pair) for pair in zip(lofts, carries, strict=True)]
    line = posterior_line(46.0, 1.0, shots, nothing)
    bend, slope, start = np.polyfit(np.array(lofts) - 46.0, carries, 2)
    found = (line.intercept_m, line.slope_m_per_deg, line.curvature_m_per_deg2)
    assert found == pytest.approx((start, slope, bend), rel=1e-8)


@pytest.mark.independent(
    library="numpy",
    call="simulation: share of true means covered",
    though="the function inverts a matrix: here players are drawn and counted",
)
def test_the_interval_covers_players_like_the_expected_one() -> None:
    rng = np.random.default_rng(20261124)
    covered, tries = 0, 1000
    for _ in range(tries):
        spread = 4.0 / np.sqrt(rng.chisquare(4) / 4)
        scale = spread / 4.0
        start, slope = rng.normal(100.0, 5.0 * scale), rng.normal(-2.1, 0.4 * scale)
        bend = rng.normal(0.0, 0.02 * scale)
        offsets = {d: rng.normal(0.0, 1.5 * scale) for d in (0.0, 4.0, 6.0, 8.0)}
        truth = {d: start + slope * d + bend * d**2 + off for d, off in offsets.items()}
        shots = [
            LoftCarry(46.0 + d, float(rng.normal(truth[d], spread)))
            for d in (0.0, 4.0, 8.0)
            for _ in range(3)
        ]
        there = carry_line(46.0, 100.0, shots).at(52.0)
        covered += there.low_m <= truth[6.0] <= there.high_m
    # 0.90 with a standard error of 0.0095: three of them.
    assert covered / tries == pytest.approx(0.90, abs=0.029)
