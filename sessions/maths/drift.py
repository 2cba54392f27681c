"""Whether a player drifts over the visit: longer while warming up, shorter while tiring.

Each ball against its own club's mean, in the order of the hour: what is left of carry when the
club is taken away, regressed on the number of the ball. Common least squares with one mean per
club (keys ``nist-norris``, ``student-1908``).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from scipy import special

from sessions.maths.dispersion import mean_and_sd
from sessions.maths.errors import NotAFigure

LEVEL = 0.95
LEAST_BALLS = 12
PER_BALLS = 10


@dataclass(frozen=True)
class Drift:
    """Change in ten balls of the visit, in the values' unit, with its interval."""

    balls: int
    per_ten: float
    low: float
    high: float
    level: float

    @property
    def is_sure(self) -> bool:
        """The interval leaves nought out."""
        return self.low > 0 or self.high < 0


@dataclass(frozen=True)
class BallInOrder:
    """One ball: its number in the visit, the club and situation it belongs to, what it did."""

    number: int
    group: str
    value: float


def drift(balls: Sequence[BallInOrder], level: float = LEVEL) -> Drift | None:
    """Return the drift over a visit, or None below twelve balls or where none follows another.

    Args:
        balls: any order; each group is a club in one situation, with a mean of its own.
        level: of the interval.

    Raises:
        NotAFigure: a value is no number, or the level not between 0 and 1.
    """
    if not 0 < level < 1:
        raise NotAFigure("The level of an interval lies between 0 and 1.")
    groups: dict[str, list[BallInOrder]] = {}
    for ball in balls:
        groups.setdefault(ball.group, []).append(ball)
    freedom = len(balls) - len(groups) - 1
    if len(balls) < LEAST_BALLS or freedom < 1:
        return None
    numbers: list[float] = []
    values: list[float] = []
    for group in groups.values():
        mean_number, _ = mean_and_sd([float(ball.number) for ball in group])
        mean_value, _ = mean_and_sd([ball.value for ball in group])
        numbers += [ball.number - (mean_number or 0.0) for ball in group]
        values += [ball.value - (mean_value or 0.0) for ball in group]
    along = math.fsum(x * x for x in numbers)
    if along == 0:
        return None
    slope = math.fsum(x * y for x, y in zip(numbers, values, strict=True)) / along
    left = math.fsum((y - slope * x) ** 2 for x, y in zip(numbers, values, strict=True))
    error = math.sqrt(left / freedom / along)
    half = float(special.stdtrit(freedom, (1 + level) / 2)) * error
    return Drift(
        balls=len(balls),
        per_ten=PER_BALLS * slope,
        low=PER_BALLS * (slope - half),
        high=PER_BALLS * (slope + half),
        level=level,
    )
