"""Which club to hand over next, and for how many balls, so that the choice is made with the fewest.

Choosing the best of several clubs by their means is a budget problem: balls with a club that is
clearly behind tell nothing. Optimal computing budget allocation (key ``ocba``) shares balls out
in proportion to (spread / distance behind the leader) squared, and to the leader the root of the
sum of the others' squares. Here a club counts as farther behind by the margin: who is better by
less than that is nobody's concern. The next balls go to the club that is most short of its share.

The choice is made when the chance that some other club is better than the leader by more than the
margin, summed over the others (Bonferroni), is at most 5 %: Student's t with the pooled spread
(key ``bayesian-data-analysis``). That is advice on where to spend balls, not a verdict; verdicts
are in ``comparison``.

Assumptions: all clubs scatter alike, normally, without drift.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from scipy import special

from sessions.maths.dispersion import mean_and_sd
from sessions.maths.errors import NotAFigure

SURE_ENOUGH = 0.95
FIRST_BALLS = 3
MOST_AT_ONCE = 3


@dataclass(frozen=True)
class Tried:
    """One club's balls so far, in the measure that the choice is by."""

    key: str
    values: Sequence[float]


@dataclass(frozen=True)
class NextTrial:
    """What to do next. ``key`` is None where the choice is made or no ball is left.

    ``chance_of_better`` is how likely another club is better than the leader by more than the
    margin; None before every club has been tried.
    """

    key: str | None
    balls: int
    leader: str | None
    rival: str | None
    chance_of_better: float | None
    is_decided: bool


def next_trial(
    clubs: Sequence[Tried],
    *,
    margin: float,
    balls_left: int,
    aim: float | None = None,
    sure_enough: float = SURE_ENOUGH,
    most_at_once: int = MOST_AT_ONCE,
) -> NextTrial:
    """Return the club to hand over next and the number of balls.

    Args:
        clubs: two or more, each with what was hit so far; untried ones with nothing.
        margin: a difference of means that is of no use, above nought, in the values' unit.
        balls_left: of the visit's budget.
        aim: the mean that is wanted (a planned carry); without one the largest mean is best.
        sure_enough: the chance at which the choice counts as made.
        most_at_once: balls before another club is looked at.

    Raises:
        NotAFigure: fewer than two clubs, a value that is no number, or a margin not above nought.
    """
    if len(clubs) < 2:
        raise NotAFigure("With one club there is nothing to choose.")
    if not (math.isfinite(margin) and margin > 0):
        raise NotAFigure("The smallest difference worth having must be above 0.")
    if aim is not None and not math.isfinite(aim):
        raise NotAFigure("The mean that is wanted must be a number.")
    fewest = min(clubs, key=lambda club: len(club.values))
    if len(fewest.values) < FIRST_BALLS:
        balls = min(FIRST_BALLS - len(fewest.values), balls_left)
        return NextTrial(fewest.key if balls else None, balls, None, None, None, False)
    counts = [len(club.values) for club in clubs]
    scores, spread, freedom = _scores(clubs, aim)
    best = max(range(len(clubs)), key=lambda i: scores[i])
    behind = [scores[best] - score + margin for score in scores]
    chances = [
        _chance_of_better(behind[i], spread, counts[i], counts[best], freedom)
        for i in range(len(clubs))
    ]
    chances[best] = 0.0
    rival = max(range(len(clubs)), key=lambda i: chances[i])
    chance = min(math.fsum(chances), 1.0)
    is_decided = chance <= 1 - sure_enough
    following: str | None = None
    balls = 0
    if not is_decided and balls_left > 0:
        shares = _shares(behind, best)
        after = sum(counts) + most_at_once
        short = [share * after - count for share, count in zip(shares, counts, strict=True)]
        chosen = max(range(len(clubs)), key=lambda i: short[i])
        following = clubs[chosen].key
        balls = max(1, min(most_at_once, balls_left))
    return NextTrial(following, balls, clubs[best].key, clubs[rival].key, chance, is_decided)


def _scores(clubs: Sequence[Tried], aim: float | None) -> tuple[list[float], float, int]:
    """How good each club's mean is, the pooled spread of one ball, its degrees of freedom."""
    scores, squares, freedom = [], 0.0, 0
    for club in clubs:
        mean, sd = mean_and_sd(club.values)
        assert mean is not None
        scores.append(mean if aim is None else -abs(mean - aim))
        squares += (len(club.values) - 1) * (sd or 0.0) ** 2
        freedom += len(club.values) - 1
    return scores, math.sqrt(squares / freedom), freedom


def _chance_of_better(behind: float, spread: float, n: int, n_best: int, freedom: int) -> float:
    if spread == 0:
        return 0.0
    error = spread * math.sqrt(1 / n + 1 / n_best)
    return float(special.stdtr(freedom, -behind / error))


def _shares(behind: Sequence[float], best: int) -> list[float]:
    """Each club's share of all balls; the spread is common and falls out."""
    weights = [0.0 if i == best else 1 / distance**2 for i, distance in enumerate(behind)]
    weights[best] = math.sqrt(math.fsum(weight**2 for weight in weights))
    whole = math.fsum(weights)
    return [weight / whole for weight in weights]
