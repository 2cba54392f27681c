"""Whether two clubs differ in how often something happens: bad strikes, and which is rated higher.

Counts watched after every shot. The evidence is the likelihood of what was seen, each chance
mixed over its range, over the best that alike clubs can make of it (key ``universal-inference``):
by Ville's inequality it exceeds 1/alpha at any look with a chance of at most alpha. Ratings are
ordinal: of two clubs rated in the same round only which was rated higher counts, never by how
much, and never over several people.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy import optimize

from sessions.maths.comparison_boundary import balls_to_call, refuse_margin
from sessions.maths.errors import NotAFigure

_HALF = 0.5
_Z_LOOK = 1.6448536269514722
_CHANCES = np.linspace(0.001, 0.999, 200)


@dataclass(frozen=True)
class SharesWeighed:
    """Share of A's balls minus share of B's; see ``sessions.maths.comparison.Weighed``."""

    happened: tuple[int, int]
    balls: tuple[int, int]
    margin: float
    neutral: float = 0.0
    spread: float | None = None

    @property
    def values(self) -> tuple[float | None, float | None]:
        one, other = (
            None if not n else x / n for x, n in zip(self.happened, self.balls, strict=True)
        )
        return one, other

    @property
    def difference(self) -> float | None:
        one, other = self.values
        return None if one is None or other is None else one - other

    @property
    def log_contradiction(self) -> float:
        if not all(self.balls):
            return -math.inf
        return log_share_contradiction(self.happened, self.balls, 0.0)

    def log_needed(self, alpha: float) -> float:
        return -math.log(alpha)

    def always_valid(self, alpha: float) -> tuple[float, float] | None:
        return always_valid_shares(self.happened, self.balls, alpha) if all(self.balls) else None

    def at_this_look(self) -> tuple[float, float] | None:
        """Newcombe's interval: both Wilson intervals, squared and added (key ``newcombe-1998``)."""
        if self.difference is None:
            return None
        (low_a, high_a), (low_b, high_b) = (
            _wilson(x, n) for x, n in zip(self.happened, self.balls, strict=True)
        )
        one, other = self.happened[0] / self.balls[0], self.happened[1] / self.balls[1]
        return (
            self.difference - math.hypot(one - low_a, high_b - other),
            self.difference + math.hypot(high_a - one, other - low_b),
        )

    def is_within_margin(self, low: float, high: float) -> bool:
        return -self.margin < low and high < self.margin

    def balls_needed(self, alpha: float) -> int | None:
        """From the pooled share and the margin, by the normal approximation."""
        if not all(self.balls):
            return None
        pooled = (sum(self.happened) + 1) / (sum(self.balls) + 2)
        return balls_to_call(self.margin / math.sqrt(pooled * (1 - pooled)), alpha)


@dataclass(frozen=True)
class RatingsWeighed:
    """Of the rounds in which the two were rated differently, the share in which A was higher.

    ``balls`` are the rounds in which each was rated: the same for both. ``margin`` is how far
    from an even half the share must be.
    """

    higher: int
    lower: int
    same: int
    margin: float
    neutral: float = _HALF
    spread: float | None = None

    @property
    def balls(self) -> tuple[int, int]:
        rounds = self.higher + self.lower + self.same
        return rounds, rounds

    @property
    def values(self) -> tuple[float | None, float | None]:
        share = self.difference
        return (None, None) if share is None else (share, 1 - share)

    @property
    def difference(self) -> float | None:
        told = self.higher + self.lower
        return None if not told else self.higher / told

    @property
    def log_contradiction(self) -> float:
        return log_even_contradiction(self.higher, self.lower, _HALF)

    def log_needed(self, alpha: float) -> float:
        return -math.log(alpha)

    def always_valid(self, alpha: float) -> tuple[float, float] | None:
        if self.difference is None:
            return None
        return _between(
            lambda share: log_even_contradiction(self.higher, self.lower, share) + math.log(alpha),
            self.difference,
            (1e-6, 1 - 1e-6),
            (0.0, 1.0),
        )

    def at_this_look(self) -> tuple[float, float] | None:
        if self.difference is None:
            return None
        return _wilson(self.higher, self.higher + self.lower)

    def is_within_margin(self, low: float, high: float) -> bool:
        return _HALF - self.margin < low and high < _HALF + self.margin

    def balls_needed(self, alpha: float) -> int | None:
        """Rounds: one count against an even half has half the variance of two clubs' difference."""
        return math.ceil(balls_to_call(self.margin / _HALF, alpha) / 2)


def shares_weighed(
    happened: tuple[int, int], balls: tuple[int, int], *, margin: float
) -> SharesWeighed:
    """Return what two counts say of the difference of two chances.

    Args:
        happened: with club A and with club B.
        balls: hit with each.
        margin: a smaller difference of the two shares is of no use.

    Raises:
        NotAFigure: a count is below nought or above the balls, or the margin not above nought.
    """
    refuse_margin(margin)
    if any(not 0 <= x <= n for x, n in zip(happened, balls, strict=True)):
        raise NotAFigure("A count lies between 0 and the balls hit.")
    return SharesWeighed(happened, balls, margin)


def ratings_weighed(a: Sequence[int], b: Sequence[int], *, margin: float) -> RatingsWeighed:
    """Return what one person's ratings of two clubs say, round by round.

    Args:
        a: club A's ratings, one a round, of one question by one person.
        b: club B's ratings in the same rounds.
        margin: a share of rounds nearer to an even half than this is of no use.

    Raises:
        NotAFigure: the rounds don't match, or the margin is not above nought.
    """
    refuse_margin(margin)
    if len(a) != len(b):
        raise NotAFigure("Ratings are compared round by round: each round rates both clubs.")
    pairs = list(zip(a, b, strict=True))
    return RatingsWeighed(
        higher=sum(1 for one, other in pairs if one > other),
        lower=sum(1 for one, other in pairs if one < other),
        same=sum(1 for one, other in pairs if one == other),
        margin=margin,
    )


def log_share_contradiction(
    happened: tuple[int, int], balls: tuple[int, int], difference: float
) -> float:
    """Return the log of how strongly counts contradict a difference of two chances.

    Each chance mixed over Beta(1/2, 1/2), over the likeliest pair that differs by just that.
    """
    mixed = sum(
        _log_beta(_HALF + x, _HALF + n - x) - _log_beta(_HALF, _HALF)
        for x, n in zip(happened, balls, strict=True)
    )
    return mixed - _best_log_likelihood(happened, balls, difference)


def log_even_contradiction(higher: int, lower: int, share: float) -> float:
    """Return the log of how strongly rounds contradict that A is rated higher with a chance."""
    if not higher + lower:
        return -math.inf
    mixed = _log_beta(_HALF + higher, _HALF + lower) - _log_beta(_HALF, _HALF)
    return mixed - higher * math.log(share) - lower * math.log1p(-share)


@lru_cache(maxsize=4096)
def always_valid_shares(
    happened: tuple[int, int], balls: tuple[int, int], alpha: float
) -> tuple[float, float]:
    """Return the differences of two chances that the counts don't contradict, at any look."""
    seen = happened[0] / balls[0] - happened[1] / balls[1]
    return _between(
        lambda difference: log_share_contradiction(happened, balls, difference) + math.log(alpha),
        seen,
        (-0.999, 0.999),
        (-1.0, 1.0),
    )


def _between(
    excess: Callable[[float], float],
    seen: float,
    searched: tuple[float, float],
    limits: tuple[float, float],
) -> tuple[float, float]:
    """The stretch about what was seen that is not contradicted; a limit where all of a side is."""
    low, high = searched
    start = min(max(seen, low), high)
    if excess(start) >= 0:
        return start, start
    return (
        float(optimize.brentq(excess, low, start, xtol=1e-3)) if excess(low) > 0 else limits[0],
        float(optimize.brentq(excess, start, high, xtol=1e-3)) if excess(high) > 0 else limits[1],
    )


def _best_log_likelihood(
    happened: tuple[int, int], balls: tuple[int, int], difference: float
) -> float:
    """The likeliest pair of chances that differ by ``difference``, on a fine grid."""
    if difference == 0:
        x, n = sum(happened), sum(balls)
        return _log_likelihood(x, n, x / n)
    lowest, highest = max(0.0, -difference), min(1.0, 1.0 - difference)
    chances = lowest + (highest - lowest) * _CHANCES
    (x_a, x_b), (n_a, n_b) = happened, balls
    logs = (
        x_a * np.log(chances + difference)
        + (n_a - x_a) * np.log1p(-chances - difference)
        + x_b * np.log(chances)
        + (n_b - x_b) * np.log1p(-chances)
    )
    return float(logs.max())


def _log_likelihood(x: int, n: int, chance: float) -> float:
    hit = x * math.log(chance) if x else 0.0
    return hit + ((n - x) * math.log1p(-chance) if n > x else 0.0)


def _log_beta(a: float, b: float) -> float:
    return math.lgamma(a) + math.lgamma(b) - math.lgamma(a + b)


def _wilson(x: int, n: int) -> tuple[float, float]:
    """Wilson's 90 % interval of a share."""
    z2 = _Z_LOOK**2
    middle = (x + z2 / 2) / (n + z2)
    half = _Z_LOOK / (n + z2) * math.sqrt(x * (n - x) / n + z2 / 4)
    return max(middle - half, 0.0), min(middle + half, 1.0)
