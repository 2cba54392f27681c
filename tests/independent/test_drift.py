"""Drift over a visit, far-off shots and the median distance against statsmodels and SciPy."""

import numpy as np
import pytest
import statsmodels.api as sm
from scipy import stats
from statsmodels.robust import mad

from sessions.maths.dispersion import ShotFigures, block_figures, far_off, proximity, spread
from sessions.maths.drift import BallInOrder, drift

CARRIES = [98.2, 101.4, 99.9, 103.1, 97.3, 104.8, 100.2, 62.6]


def visit() -> list[BallInOrder]:
    rng = np.random.default_rng(7)
    means = {"own": 90.0, "new": 96.0, "third": 84.0}
    clubs = ["own"] * 6 + ["new"] * 6 + ["third"] * 5 + ["own"] * 4
    return [
        BallInOrder(n, club, means[club] - 0.2 * n + float(rng.normal(0, 2)))
        for n, club in enumerate(clubs, start=1)
    ]


@pytest.mark.independent(library="statsmodels", call="OLS(carry, number and club dummies).fit()")
def test_drift_is_the_slope_beside_a_mean_for_each_club() -> None:
    balls = visit()
    clubs = sorted({ball.group for ball in balls})
    design = [[ball.number, *(float(ball.group == club) for club in clubs)] for ball in balls]
    fit = sm.OLS([ball.value for ball in balls], np.array(design)).fit()
    found = drift(balls)
    assert found is not None
    low, high = fit.conf_int(alpha=0.05)[0]
    assert found.per_ten == pytest.approx(10 * fit.params[0], rel=1e-9)
    assert (found.low, found.high) == (pytest.approx(10 * low), pytest.approx(10 * high))


@pytest.mark.independent(library="statsmodels", call="robust.mad(x, c=1)")
def test_the_median_distance_from_the_median() -> None:
    found = spread(CARRIES)
    assert found is not None
    assert found.mad == pytest.approx(float(mad(np.array(CARRIES), c=1)))


@pytest.mark.independent(
    library="scipy",
    call="median_abs_deviation(scale='normal') as a z score",
    though="the function takes only quantiles from it: here its own robust score",
)
def test_a_shot_far_off_is_flagged_and_stays_in_the_mean() -> None:
    values = np.array(CARRIES)
    scaled = abs(values - np.median(values)) / stats.median_abs_deviation(values, scale="normal")
    assert list(far_off(CARRIES)) == list(values[scaled > 3.5]) == [62.6]
    figures = block_figures([ShotFigures(carry_m=carry) for carry in CARRIES])
    assert figures.far_off_m == (62.6,)
    assert figures.carry is not None
    assert figures.carry.n == 8


@pytest.mark.independent(
    library="numpy",
    call="std(ddof=1) of the misses along and across",
    though="the function goes by sums: here its own standard deviation",
)
def test_proximity_has_its_spread_along_and_across() -> None:
    points = [(-3.0, 98.0), (2.0, 101.0), (5.0, 99.0), (-1.0, 103.0)]
    near = proximity(points, target_m=100.0)
    assert near is not None
    across, along = np.std(points, axis=0, ddof=1)
    assert (near.along_sd_m, near.across_sd_m) == (pytest.approx(along), pytest.approx(across))
