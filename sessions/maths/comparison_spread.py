"""Whether two clubs scatter alike: the ratio of their spreads, watched after every shot.

The ratio of the two estimated variances, weighed with a log-normal mixture over the true ratio:
the likelihood of the F statistic under each ratio over that under equal spreads, the invariant
likelihood ratio of two normal samples with unknown means and unknown common scale (keys
``lai-1976``, ``ville-1939``). What it does not yet contradict is the interval. It rests on shots
that scatter normally far more than a comparison of means does; wild shots are said beside it.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy import optimize, special

from sessions.maths.comparison import (
    LEAST_FOR_INTERVAL,
    LOOK_LEVEL,
    refuse_margin,
)
from sessions.maths.dispersion import mean_and_sd
from sessions.maths.errors import NotAFigure

# Standard deviation of the logarithm of the variance ratio that the mixture is spread over: one
# club scattering half as much again as the other is what a fitting looks for.
LOG_RATIO_SD = 1.0
_NODES, _WEIGHTS = np.polynomial.hermite_e.hermegauss(41)
_LOG_RATIOS = LOG_RATIO_SD * _NODES
_LOG_WEIGHTS = np.log(_WEIGHTS / _WEIGHTS.sum())
_FARTHEST = 1e6
_Z_TEST, _Z_POWER = 1.959963985, 0.841621234


@dataclass(frozen=True)
class SpreadsWeighed:
    """Spread of club A over spread of club B; see ``sessions.maths.comparison.Weighed``.

    ``margin`` is how much smaller the smaller spread must be, as a share of the larger.
    """

    balls: tuple[int, int]
    values: tuple[float | None, float | None]
    margin: float
    neutral: float = 1.0
    spread: float | None = None

    @property
    def difference(self) -> float | None:
        one, other = self.values
        return None if not one or not other else one / other

    @property
    def log_contradiction(self) -> float:
        if not self._can_judge or self.difference is None:
            return -math.inf
        return log_f_contradiction(self.difference**2, *self._freedom)

    def log_needed(self, alpha: float) -> float:
        return -math.log(alpha)

    def always_valid(self, alpha: float) -> tuple[float, float] | None:
        if not self._can_judge or self.difference is None:
            return None
        low, high = always_valid_f(*self._freedom, alpha)
        if math.isinf(high) or low == 0:
            return None
        return self.difference / math.sqrt(high), self.difference / math.sqrt(low)

    def at_this_look(self) -> tuple[float, float] | None:
        if not self._can_judge or self.difference is None:
            return None
        low, high = _f_quantiles(*self._freedom)
        return self.difference / math.sqrt(high), self.difference / math.sqrt(low)

    def is_within_margin(self, low: float, high: float) -> bool:
        return 1 - self.margin < low and high < 1 / (1 - self.margin)

    def balls_needed(self) -> int | None:
        """From the margin alone: the logarithm of a spread is off by about 1/sqrt(2(n-1))."""
        return 1 + math.ceil(((_Z_TEST + _Z_POWER) / math.log(1 - self.margin)) ** 2)

    @property
    def _freedom(self) -> tuple[int, int]:
        return self.balls[0] - 1, self.balls[1] - 1

    @property
    def _can_judge(self) -> bool:
        return min(self.balls) >= LEAST_FOR_INTERVAL


def spreads_weighed(a: Sequence[float], b: Sequence[float], *, margin: float) -> SpreadsWeighed:
    """Return what two clubs' values say of the ratio of their spreads.

    Args:
        a: what club A did, misreads left out.
        b: what club B did, likewise.
        margin: a smaller difference, as a share of the larger spread, is of no use; 0 to 1.

    Raises:
        NotAFigure: a value is no number, or the margin is not between 0 and 1.
    """
    refuse_margin(margin)
    if margin >= 1:
        raise NotAFigure("The smallest difference of two spreads is a share below 1.")
    (_, sd_a), (_, sd_b) = mean_and_sd(a), mean_and_sd(b)
    return SpreadsWeighed((len(a), len(b)), (sd_a, sd_b), margin)


def log_f_contradiction(variance_ratio: float, freedom_a: int, freedom_b: int) -> float:
    """Return the log of how much likelier the mixture makes a variance ratio than equal spreads.

    With w the share of A in the sum of squares, a true ratio rho makes it likelier by
    rho^(-a/2) (w/rho + 1 - w)^(-(a+b)/2), a and b the degrees of freedom; mixed over log rho,
    normal with standard deviation ``LOG_RATIO_SD``, by Gauss-Hermite quadrature.
    """
    share = freedom_a * variance_ratio / (freedom_a * variance_ratio + freedom_b)
    logs = (
        _LOG_WEIGHTS
        - freedom_a / 2 * _LOG_RATIOS
        - (freedom_a + freedom_b) / 2 * np.log(share * np.exp(-_LOG_RATIOS) + 1 - share)
    )
    top = float(logs.max())
    return top + math.log(float(np.exp(logs - top).sum()))


@lru_cache(maxsize=4096)
def always_valid_f(freedom_a: int, freedom_b: int, alpha: float) -> tuple[float, float]:
    """Return the variance ratios between which equal spreads are not contradicted, at any look.

    0 or infinity on a side where so few balls never contradict them.
    """
    needed = -math.log(alpha)

    def excess(log_ratio: float) -> float:
        return log_f_contradiction(math.exp(log_ratio), freedom_a, freedom_b) - needed

    far = math.log(_FARTHEST)
    return (
        _edge(excess, -far, 0.0) if excess(-far) > 0 else 0.0,
        _edge(excess, 0.0, far) if excess(far) > 0 else math.inf,
    )


def _edge(excess: Callable[[float], float], low: float, high: float) -> float:
    return math.exp(float(optimize.brentq(excess, low, high, xtol=1e-5)))


@lru_cache(maxsize=4096)
def _f_quantiles(freedom_a: int, freedom_b: int) -> tuple[float, float]:
    tail = (1 - LOOK_LEVEL) / 2
    return (
        float(special.fdtri(freedom_a, freedom_b, tail)),
        float(special.fdtri(freedom_a, freedom_b, 1 - tail)),
    )
