"""The line of carry against statsmodels: a belief is the same as made-up shots, weighted."""

import numpy as np
import pytest
import statsmodels.api as sm
from scipy import stats

from sessions.maths.carry_line import LoftCarry, carry_line

SHOTS = [
    LoftCarry(46.0, 110.2),
    LoftCarry(46.0, 107.9),
    LoftCarry(50.0, 101.5),
    LoftCarry(50.0, 97.0),
    LoftCarry(56.0, 83.1),
]


@pytest.mark.independent(library="statsmodels", call="WLS(shots and beliefs as rows).fit()")
def test_beliefs_count_as_weighted_rows() -> None:
    carry = 109.0
    line = carry_line(46.0, carry, SHOTS)
    # One row says what the pitching wedge carries, one what a degree takes away, and one for each
    # of the three clubs that it carries as the line says, give or take 1.5 % of the baseline.
    lofts = [46.0, 50.0, 56.0]
    rows = [[1.0, s.loft_deg - 46.0, *(float(s.loft_deg == at) for at in lofts)] for s in SHOTS]
    design = np.vstack([np.array(rows), np.eye(5)])
    seen = np.array([s.carry_m for s in SHOTS] + [carry, -0.021 * carry, 0, 0, 0])
    beliefs = [(0.04 / 0.05) ** 2, (0.04 / 0.004) ** 2, *([(0.04 / 0.015) ** 2] * 3)]
    fit = sm.WLS(seen, design, weights=np.array([1.0] * 5 + beliefs)).fit()
    assert line.intercept_m == pytest.approx(fit.params[0], rel=1e-10)
    assert line.slope_m_per_deg == pytest.approx(fit.params[1], rel=1e-10)
    assert line.clubs["50 degrees"].offset_m == pytest.approx(fit.params[3], rel=1e-9)
    known = fit.normalized_cov_params
    assert np.array(line.covariance) == pytest.approx(known[:2, :2], rel=1e-9)
    # The belief in the spread adds four shots' worth of it.
    squares = fit.ssr + 4 * (0.04 * carry) ** 2
    assert line.shot_sd_m == pytest.approx((squares / 9) ** 0.5, rel=1e-10)
    # A club that was hit and one that was not, at the same loft.
    hit, other = line.at(50.0, club="50 degrees"), line.at(50.0)
    row = np.array([1.0, 4.0, 0.0, 1.0, 0.0])
    scale = float(stats.t.isf(0.05, 9)) * line.shot_sd_m
    assert hit.carry_m == pytest.approx(float(row @ fit.params), rel=1e-10)
    assert hit.high_m - hit.carry_m == pytest.approx(scale * float(row @ known @ row) ** 0.5)
    row[3] = 0.0
    doubt = float(row @ known @ row) + (0.015 / 0.04) ** 2
    assert other.high_m - other.carry_m == pytest.approx(scale * doubt**0.5)


@pytest.mark.independent(library="numpy", call="simulation: share of true means covered")
def test_the_interval_covers_players_like_the_expected_one() -> None:
    rng = np.random.default_rng(20261124)
    covered, tries = 0, 1000
    for _ in range(tries):
        spread = 4.0 / np.sqrt(rng.chisquare(4) / 4)
        start = rng.normal(100.0, 5.0 * spread / 4.0)
        slope = rng.normal(-2.1, 0.4 * spread / 4.0)
        offsets = {d: rng.normal(0.0, 1.5 * spread / 4.0) for d in (0.0, 4.0, 6.0, 8.0)}
        shots = [
            LoftCarry(46.0 + d, float(rng.normal(start + slope * d + offsets[d], spread)))
            for d in (0.0, 4.0, 8.0)
            for _ in range(3)
        ]
        there = carry_line(46.0, 100.0, shots).at(52.0)
        covered += there.low_m <= start + slope * 6.0 + offsets[6.0] <= there.high_m
    # 0.90 with a standard error of 0.0095: three of them.
    assert covered / tries == pytest.approx(0.90, abs=0.029)
