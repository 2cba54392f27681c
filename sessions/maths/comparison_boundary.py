"""How far evidence must go before a difference is called, for a page that is watched at every ball.

The boundary of the confidence sequence that ``comparison`` judges means by (keys ``anytime-t``,
``lai-1976``, ``two-sample-bayes``), and how many balls reach it.
"""

import math
from functools import lru_cache

from scipy import optimize

from sessions.maths.errors import NotAFigure

ALPHA = 0.10
LEAST_BALLS = 5
LEAST_FOR_INTERVAL = 3
# Variance of the effects the mixture is spread over, in squared spreads of one shot: differences
# of two to three spreads are what a few balls can show.
EFFECT_VARIANCE = 6.0
# Nobody hits more balls than this with one club.
MOST_TO_COUNT = 1000
# How many more balls: to see a difference of one margin in 80 % of cases, tested once at 5 %.
_Z_TEST, _Z_POWER = 1.959963985, 0.841621234


def always_valid_t(
    n_a: int,
    n_b: int,
    alpha: float = ALPHA,
    *,
    freedom: int | None = None,
    first_look: int = LEAST_BALLS,
) -> float:
    """Return how many standard errors either way the difference may be off, at any look.

    With n = n_a n_b / (n_a + n_b), v degrees of freedom and r = 1 / (1 + n g), the mixture's
    weight against a difference is sqrt(r) ((1 + t^2/v) / (1 + r t^2/v))^((v+1)/2); this is the t
    at which it reaches ``contradiction_needed``, or infinity where so few balls never can. Before
    the first look it is held to 1/alpha, as if looks had begun with the first ball.
    """
    v = n_a + n_b - 2 if freedom is None else freedom
    if n_a < 1 or n_b < 1 or v < 1:
        return math.inf
    r = 1 / (1 + EFFECT_VARIANCE * n_a * n_b / (n_a + n_b))
    is_begun = min(n_a, n_b) >= first_look
    needed = contradiction_needed(alpha, first_look) if is_begun else 1 / alpha
    k = (needed / math.sqrt(r)) ** (2 / (v + 1))
    if k * r >= 1:
        return math.inf
    return math.sqrt(v * (k - 1) / (1 - k * r))


@lru_cache(maxsize=4096)
def contradiction_needed(alpha: float, first_look: int = LEAST_BALLS) -> float:
    """Return how much likelier the mixture must make the shots than no difference does.

    Ville's inequality asks for 1/alpha when looks begin with the first ball. Here they begin with
    ``first_look`` balls a side, so it is asked of what comes after: c with
    P(E >= c) + E[E; E < c] / c = alpha, E the weight at the first look. Under no difference z is
    standard normal; weighed by E it has variance 1/r (key ``ville-1939``). Exact for a known
    spread; that it holds with an estimated one is measured (docs/calibration.md).
    """
    if not 0 < alpha < 1:
        raise NotAFigure("The chance of a false call lies between 0 and 1.")
    r = 1 / (1 + EFFECT_VARIANCE * max(first_look, LEAST_FOR_INTERVAL) / 2)

    def false_calls(c: float) -> float:
        z = math.sqrt(max(2 * math.log(c / math.sqrt(r)) / (1 - r), 0.0))
        return math.erfc(z / math.sqrt(2)) + math.erf(z * math.sqrt(r / 2)) / c - alpha

    return float(optimize.brentq(false_calls, 1.0, 1 / alpha + 1))


def balls_to_see(margin: float, spread: float) -> int:
    """Return how many balls with each club show a difference of one margin in 80 % of cases.

    The two-sample t test, once, at 5 %, by the normal approximation with its usual correction
    for the estimated spread (key ``guenther-1981``).
    """
    refuse_margin(margin)
    if not (math.isfinite(spread) and spread > 0):
        raise NotAFigure("Balls can be counted only for a spread that is a number above 0.")
    spreads = margin / spread
    return math.ceil(2 * ((_Z_TEST + _Z_POWER) / spreads) ** 2 + _Z_TEST**2 / 4)


@lru_cache(maxsize=4096)
def balls_to_call(spreads: float, alpha: float = ALPHA, *, first_look: int = LEAST_BALLS) -> int:
    """Return how many balls with each club call a difference of so many spreads in 80 % of cases.

    As `balls_to_see`, for a page that is watched after every shot: more than a single test needs,
    since the boundary in force stands farther out. By the normal approximation, at that many
    balls; being watched before calls a few more.

    Raises:
        NotAFigure: no number of spreads above 0.
    """
    if not (math.isfinite(spreads) and spreads > 0):
        raise NotAFigure("Balls can be counted only for a difference that is a number above 0.")
    few, many = 1, MOST_TO_COUNT
    while few < many:
        balls = (few + many) // 2
        seen = spreads * math.sqrt(balls / 2)
        if always_valid_t(balls, balls, alpha, first_look=first_look) + _Z_POWER <= seen:
            many = balls
        else:
            few = balls + 1
    return many


def refuse_margin(margin: float) -> None:
    """Raise NotAFigure for a margin that is none."""
    if not (math.isfinite(margin) and margin > 0):
        raise NotAFigure("The smallest difference worth having must be above 0.")
