"""Whether two clubs scatter alike: the ratio of their spreads, watched after every shot.

A spread here is how far balls end from their club's middle ball, on average: the absolute
deviations from the median, which one bad strike in ten or heavy tails move little, where a ratio
of variances would call every third pair of equal clubs different (key ``brown-forsythe-1974``).
Whether two clubs' deviations have the same mean is judged as any two means are, by the two-sample t
statistic weighed with a normal mixture over the effect size (keys ``anytime-t``, ``ville-1939``);
the interval of the ratio holds every ratio that, multiplied onto club B's deviations, is not
contradicted (key ``fieller-1954``).

Assumptions: both clubs scatter in the same shape, one perhaps wider. Beyond that no shape is
supposed; what is measured for bad strikes and heavy tails stands in docs/calibration.md.
"""

import math
import statistics
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from scipy import optimize, special

from sessions.maths.comparison import LOOK_LEVEL
from sessions.maths.comparison_boundary import LEAST_FOR_INTERVAL, balls_to_call, refuse_margin
from sessions.maths.comparison_error import NO_OTHERS
from sessions.maths.dispersion import mean_and_sd
from sessions.maths.errors import NotAFigure

# Variance of the effects the mixture is spread over, in squared spreads of one deviation: twice
# the scatter is an effect of about one.
EFFECT_VARIANCE = 1.0
# Of a normal scatter the standard deviation is so many mean deviations.
SD_OF_MEAN_DEVIATION = math.sqrt(math.pi / 2)
# And the variance of one deviation's logarithm, to first order: that of |z| over its squared mean.
_LOG_VARIANCE = math.pi / 2 - 1
# No club scatters so many times as wide as another: farther out an interval has no end.
_FARTHEST = 50.0


@dataclass(frozen=True)
class SpreadsWeighed:
    """Spread of club A over spread of club B; see ``sessions.maths.comparison.Weighed``.

    ``values`` are the spreads as standard deviations of a normal scatter would be; ``deviations``
    each club's mean absolute deviation and how much a single one varies, None for next to no
    balls. ``margin`` is how much smaller the smaller spread must be, as a share of the larger.
    """

    balls: tuple[int, int]
    values: tuple[float | None, float | None]
    margin: float
    deviations: tuple[tuple[float, float], tuple[float, float]] | None
    neutral: float = 1.0
    spread: float | None = None

    @property
    def difference(self) -> float | None:
        one, other = self.values
        return None if not one or not other else one / other

    @property
    def log_contradiction(self) -> float:
        return self._contradiction(1.0)

    def log_needed(self, alpha: float) -> float:
        return -math.log(alpha)

    def always_valid(self, alpha: float) -> tuple[float, float] | None:
        needed = self.log_needed(alpha)
        return self._ratios(lambda ratio: self._contradiction(ratio) - needed)

    def at_this_look(self) -> tuple[float, float] | None:
        def beyond(ratio: float) -> float:
            t, freedom = self._t(ratio)
            return abs(t) - _t_quantile(freedom)

        return self._ratios(beyond)

    def is_within_margin(self, low: float, high: float) -> bool:
        return 1 - self.margin < low and high < 1 / (1 - self.margin)

    def balls_needed(self, alpha: float) -> int | None:
        """From the margin alone: how sure the logarithm of a mean deviation is."""
        return 1 + balls_to_call(-math.log(1 - self.margin) / math.sqrt(_LOG_VARIANCE), alpha)

    def _t(self, ratio: float) -> tuple[float, int]:
        """The t statistic of A's deviations against B's times a ratio, and its freedom."""
        if self.deviations is None:
            return 0.0, 1
        (mean_a, sd_a), (mean_b, sd_b) = self.deviations
        (n_a, n_b) = self.balls
        _, error, freedom = NO_OTHERS.spread_and_error((n_a, sd_a), (n_b, ratio * sd_b))
        return ((mean_a - ratio * mean_b) / error if error else 0.0), freedom

    def _contradiction(self, ratio: float) -> float:
        if self.deviations is None:
            return -math.inf
        n_a, n_b = self.balls
        t, freedom = self._t(ratio)
        r = 1 / (1 + EFFECT_VARIANCE * n_a * n_b / (n_a + n_b))
        t2v = t**2 / freedom
        return 0.5 * math.log(r) + (freedom + 1) / 2 * (math.log1p(t2v) - math.log1p(r * t2v))

    def _ratios(self, beyond: Callable[[float], float]) -> tuple[float, float] | None:
        """The ratios that are not beyond, None where there is no end on a side."""
        if self.deviations is None or self.difference is None:
            return None

        def beyond_log(log_ratio: float) -> float:
            return beyond(math.exp(log_ratio))

        middle, far = math.log(self.difference), math.log(_FARTHEST)
        if min(beyond_log(middle - far), beyond_log(middle + far)) <= 0:
            return None
        low, high = (
            float(optimize.brentq(beyond_log, *ends, xtol=1e-5))
            for ends in ((middle - far, middle), (middle, middle + far))
        )
        return math.exp(low), math.exp(high)


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
    one, other = _deviation(a), _deviation(b)
    return SpreadsWeighed(
        balls=(len(a), len(b)),
        values=(_as_sd(one), _as_sd(other)),
        margin=margin,
        deviations=_both(one, other) if min(len(a), len(b)) >= LEAST_FOR_INTERVAL else None,
    )


@lru_cache(maxsize=1024)
def _t_quantile(freedom: int) -> float:
    return float(special.stdtrit(freedom, (1 + LOOK_LEVEL) / 2))


def _deviation(values: Sequence[float]) -> tuple[float, float] | None:
    """Mean and standard deviation of the distances from the median; None for one ball or none.

    Few balls lie nearer to their own median than to the club's: made good as the standard
    deviation is, by n over n - 1.
    """
    mean_and_sd(values)
    n = len(values)
    if n < LEAST_FOR_INTERVAL - 1:
        return None
    middle = statistics.median(values)
    apart = [abs(value - middle) * math.sqrt(n / (n - 1)) for value in values]
    mean, sd = mean_and_sd(apart)
    return None if mean is None or sd is None else (mean, sd)


def _both(
    one: tuple[float, float] | None, other: tuple[float, float] | None
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """Both, where both clubs scatter at all."""
    if one is None or other is None or not one[0] or not other[0]:
        return None
    return one, other


def _as_sd(deviation: tuple[float, float] | None) -> float | None:
    return None if deviation is None else SD_OF_MEAN_DEVIATION * deviation[0]
