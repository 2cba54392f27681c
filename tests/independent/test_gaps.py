"""The gap on a carry line and its overlap against draws from the posterior, ball by ball.

Independent: NumPy's generator draws the variance of a shot (scaled inverse chi-square), then
intercept, slope and offsets, then two balls; the tested function imports Student's t from SciPy.
The line's figures are typed by hand.
"""

import numpy as np
import pytest

from sessions.maths.carry_line import CarryLine, ClubOnLine
from sessions.maths.gaps import gap_on_line

pytestmark = pytest.mark.independent(
    library="numpy",
    call="default_rng: draws from the posterior, two balls each",
    though="the line builds a row with it: here posteriors are drawn and counted",
)

DRAWS = 400_000


def line(**more: object) -> CarryLine:
    values: dict[str, object] = {
        "baseline_loft_deg": 46.0,
        "baseline_carry_m": 110.0,
        "shots": 20,
        "intercept_m": 110.0,
        "slope_m_per_deg": -2.2,
        "shot_sd_m": 4.5,
        "degrees_of_freedom": 9.0,
        "covariance": ((0.05, -0.004, 0.0), (-0.004, 0.002, 0.0), (0.0, 0.0, 0.0)),
        "hit_lofts_deg": (46.0, 50.0),
    } | more
    return CarryLine(**values)  # type: ignore[arg-type]


# An own club that was hit: its offset lies on its head here, its shaft is sure.
OWN = {
    "heads": {"own": 1.5},
    "shafts": {"own": 0.0},
    "clubs": {"own": ClubOnLine("own", "own")},
    "covariance": (
        (0.05, -0.004, 0.0, 0.0, 0.0),
        (-0.004, 0.002, 0.0, 0.0, 0.0),
        (0.0, 0.0, 0.0, 0.0, 0.0),
        (0.0, 0.0, 0.0, 0.04, 0.0),
        (0.0, 0.0, 0.0, 0.0, 0.0),
    ),
}


def drawn(of: CarryLine, apart: float, offsets: tuple[tuple[float, float], ...]) -> np.ndarray:
    """Mean gap and the difference of two balls, DRAWS times; `offsets` are (mean, variance)."""
    rng = np.random.default_rng(20270507)
    nu = of.degrees_of_freedom
    sigma = of.shot_sd_m * np.sqrt(nu / rng.chisquare(nu, DRAWS))
    slope = of.slope_m_per_deg + sigma * np.sqrt(of.covariance[1][1]) * rng.standard_normal(DRAWS)
    mean = -slope * apart
    for sign, (offset, variance) in zip((1, -1), offsets, strict=True):
        mean = mean + sign * (offset + sigma * np.sqrt(variance) * rng.standard_normal(DRAWS))
    balls = mean + sigma * rng.standard_normal(DRAWS) - sigma * rng.standard_normal(DRAWS)
    return np.stack([mean, balls])


@pytest.mark.parametrize(
    ("apart", "offsets", "more", "clubs"),
    [
        (5.0, ((0.0, 0.0), (0.0, 0.0)), {}, ("", "")),
        (
            4.0,
            ((0.0, 0.2), (0.0, 0.2)),
            {"head_variance": 0.15, "shaft_variance": 0.05},
            ("", "new"),
        ),
        (
            3.0,
            ((1.5, 0.04), (0.0, 0.2)),
            {"head_variance": 0.15, "shaft_variance": 0.05, **OWN},
            ("own", "new"),
        ),
    ],
)
def test_interval_and_overlap_are_those_of_the_draws(apart, offsets, more, clubs):  # type: ignore[no-untyped-def]
    of = line(**more)
    found = gap_on_line(of, 50.0, 50.0 + apart, clubs=clubs)
    mean, balls = drawn(of, apart, offsets)
    assert found.mean_m == pytest.approx(float(mean.mean()), abs=0.03)
    low, high = np.quantile(mean, [0.05, 0.95])
    assert (found.low_m, found.high_m) == pytest.approx((low, high), abs=0.05)
    assert found.overlap == pytest.approx(float((balls < 0).mean()), abs=0.003)
    one_sd = np.quantile(mean, 0.84135) - np.quantile(mean, 0.5)
    assert found.doubt_m == pytest.approx(float(one_sd), abs=0.03)
