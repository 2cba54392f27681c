"""Means, spreads, intervals and ellipses against libraries the code does not use for them."""

import math
import statistics

import numpy as np
import pytest
from statsmodels.stats.weightstats import DescrStatsW

from sessions.maths.dispersion import next_shot_ellipse, proximity, spread

CARRIES = [98.2, 101.4, 99.9, 103.1, 97.3, 104.8, 100.2, 102.6]
# (sideways, carry), the worked example of the project's reference values.
POINTS = [(-3, 98), (2, 101), (5, 99), (-1, 103), (0, 97), (4, 104), (-6, 100), (1, 102)]


@pytest.mark.independent(library="statistics", call="mean, stdev and median of the values")
def test_mean_spread_and_median() -> None:
    found = spread(CARRIES)
    assert found is not None
    assert found.mean == pytest.approx(statistics.mean(CARRIES), rel=1e-14)
    assert found.sd == pytest.approx(statistics.stdev(CARRIES), rel=1e-14)
    assert found.median == pytest.approx(statistics.median(CARRIES), rel=1e-14)


@pytest.mark.independent(library="statsmodels", call="DescrStatsW(x).tconfint_mean(alpha)")
@pytest.mark.parametrize("level", [0.8, 0.9, 0.95])
def test_the_interval_of_the_mean(level: float) -> None:
    found = spread(CARRIES, level)
    assert found is not None
    low, high = DescrStatsW(CARRIES).tconfint_mean(alpha=1 - level)
    assert (found.low, found.high) == (pytest.approx(low), pytest.approx(high))


# NumAcc1 to 4: the values NIST certifies, known from memory. The last two lose digits in the
# binary representation of the data itself (tolerance 1e-8); a one-pass formula fails them.
@pytest.mark.worked_by_hand(how="NIST values, from memory: mean 10000002 and so on")
@pytest.mark.parametrize(
    ("values", "mean", "sd", "tolerance"),
    [
        ([10000001.0, 10000003.0, 10000002.0], 10000002.0, 1.0, 1e-12),
        ([1.2, *[1.1, 1.3] * 500], 1.2, 0.1, 1e-12),
        ([1000000.2, *[1000000.1, 1000000.3] * 500], 1000000.2, 0.1, 1e-8),
        ([10000000.2, *[10000000.1, 10000000.3] * 500], 10000000.2, 0.1, 1e-8),
    ],
    ids=["NumAcc1", "NumAcc2", "NumAcc3", "NumAcc4"],
)
def test_a_large_common_part_costs_no_digits(
    values: list[float], mean: float, sd: float, tolerance: float
) -> None:
    found = spread(values)
    assert found is not None
    assert found.mean == pytest.approx(mean, rel=1e-14)
    assert found.sd == pytest.approx(sd, abs=tolerance)


# Half axes and angle worked with SciPy for the project's reference values.
@pytest.mark.worked_by_hand(how="worked example: n = 8, F(.95; 2, 6)")
def test_the_ellipse_of_the_worked_example() -> None:
    ellipse = next_shot_ellipse(POINTS, share=0.95)
    assert ellipse is not None
    assert (ellipse.centre_side_m, ellipse.centre_carry_m) == (0.25, 100.5)
    assert ellipse.semi_major_m == pytest.approx(13.66213, abs=5e-6)
    assert ellipse.semi_minor_m == pytest.approx(8.41607, abs=5e-6)
    assert ellipse.angle_deg == pytest.approx(17.24, abs=0.005)


@pytest.mark.independent(
    library="numpy",
    call="simulation: share of next shots inside",
    though="the function takes eigenvectors from it: here shots are drawn and counted",
)
@pytest.mark.parametrize("n", [5, 12])
def test_the_ellipse_holds_the_share_of_next_shots_it_claims(n: int) -> None:
    rng = np.random.default_rng(20261124)
    tries, inside = 2000, 0
    covariance = [[16.0, 6.0], [6.0, 25.0]]
    for _ in range(tries):
        shots = rng.multivariate_normal([1.0, 95.0], covariance, size=n + 1)
        ellipse = next_shot_ellipse([(float(x), float(y)) for x, y in shots[:n]])
        assert ellipse is not None
        side, carry = shots[n] - [ellipse.centre_side_m, ellipse.centre_carry_m]
        turn = math.radians(ellipse.angle_deg)
        along = side * math.cos(turn) + carry * math.sin(turn)
        across = carry * math.cos(turn) - side * math.sin(turn)
        inside += (along / ellipse.semi_major_m) ** 2 + (across / ellipse.semi_minor_m) ** 2 <= 1
    # 0.80 with a standard error of 0.009: three of them.
    assert inside / tries == pytest.approx(0.80, abs=0.027)


@pytest.mark.independent(
    library="numpy",
    call="linalg.norm of the misses, mean",
    though="the function goes by math.hypot: here norms of vectors",
)
def test_proximity_is_the_mean_distance() -> None:
    near = proximity(POINTS, target_m=100.0, target_side_m=1.0)
    assert near is not None
    misses = np.array(POINTS, dtype=float) - [1.0, 100.0]
    assert near.mean_distance_m == pytest.approx(np.linalg.norm(misses, axis=1).mean())
    assert (near.across_m, near.along_m) == (pytest.approx(-0.75), pytest.approx(0.5))
