"""Whether two clubs differ, said in one of three ways and never sooner than the shots allow.

The page is watched after every shot and the fitter stops when it looks good: an ordinary 90 %
interval would call a difference far too often. The interval here is a confidence sequence, right
at all looks together from the first one on: the set of differences that the two-sample t
statistic, weighed with a normal mixture over the effect size, does not yet contradict (keys
``anytime-t``, ``lai-1976``, ``two-sample-bayes``). How strong a contradiction must be follows from
Ville's inequality, begun at the first look (``comparison_boundary``).

One page shows several comparisons of a measure in a situation, each candidate against one club.
They share the chance of a false "real difference", at most 10 %, by Holm's step-down procedure
(key ``holm-1979``), which holds for always-valid evidence at any look (``judged_together``).

Three verdicts:

- *no difference you could use*: the ordinary 90 % interval lies within the margin. That is two
  one-sided tests at 5 % (key ``schuirmann-1987``) at this look; it is not shared and not guarded
  against watching, since it changes nothing about the club.
- *real difference*: the always-valid interval leaves nought out, and it is not the former.
- *too few balls*: all else, with how many more would show a difference as large as the margin.
  That number comes from spread and margin alone, never from the difference seen so far.

Assumptions: a club's shots scatter normally and don't drift. How the spread of a pair is found is
said in ``comparison_error``. Two blocks that differ in more than the club are not comparable at
all: see ``block_context``.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal, Protocol

from scipy import special

from sessions.maths.comparison_boundary import (
    ALPHA,
    EFFECT_VARIANCE,
    LEAST_BALLS,
    LEAST_FOR_INTERVAL,
    always_valid_t,
    balls_to_call,
    contradiction_needed,
    refuse_margin,
)
from sessions.maths.comparison_error import NO_OTHERS, OtherBlocks
from sessions.maths.dispersion import mean_and_sd
from sessions.maths.errors import NotAFigure

Verdict = Literal["real difference", "no difference you could use", "too few balls"]
IntervalKind = Literal["always valid", "at this look"]

LOOK_LEVEL = 0.90
MOST_MORE_BALLS = 12


# Balls never carry alike to the decimal: what has no scatter can't be weighed.
ALL_ALIKE = "All balls of a club are alike: the figures may be rounded or typed."


@dataclass(frozen=True)
class Difference:
    """Club A against club B in one measure and what may be said of it.

    ``difference`` is A minus B in the measure's unit, or A over B for spreads, or the share of A
    for ratings; ``neutral`` is what it is for clubs that are alike. ``low`` and ``high`` are the
    interval that the verdict was taken from, None with next to no balls; ``interval`` says which.
    ``more_balls`` is how many more with each club would show a difference as large as the margin;
    None with a verdict, or when it won't be today.
    """

    balls_a: int
    balls_b: int
    mean_a: float | None
    mean_b: float | None
    difference: float | None
    low: float | None
    high: float | None
    pooled_sd: float | None
    margin: float
    verdict: Verdict
    more_balls: int | None
    advice: str
    interval: IntervalKind = "always valid"
    neutral: float = 0.0


class Weighed(Protocol):
    """A pair's shots in one measure, before its share of the false calls is known."""

    @property
    def balls(self) -> tuple[int, int]: ...
    @property
    def values(self) -> tuple[float | None, float | None]: ...
    @property
    def difference(self) -> float | None: ...
    @property
    def neutral(self) -> float: ...
    @property
    def spread(self) -> float | None: ...
    @property
    def margin(self) -> float: ...
    @property
    def log_contradiction(self) -> float: ...
    def log_needed(self, alpha: float) -> float: ...
    def always_valid(self, alpha: float) -> tuple[float, float] | None: ...
    def at_this_look(self) -> tuple[float, float] | None: ...
    def is_within_margin(self, low: float, high: float) -> bool: ...
    def balls_needed(self, alpha: float) -> int | None: ...


@dataclass(frozen=True)
class MeansWeighed:
    """Two clubs' values in one measure; see ``Weighed``."""

    balls: tuple[int, int]
    values: tuple[float | None, float | None]
    margin: float
    first_look: int
    spread: float | None
    error: float | None
    freedom: int
    neutral: float = 0.0

    @property
    def difference(self) -> float | None:
        one, other = self.values
        return None if one is None or other is None else one - other

    @property
    def information(self) -> float:
        return self.balls[0] * self.balls[1] / sum(self.balls)

    @property
    def log_contradiction(self) -> float:
        if self.difference is None or not self.error:
            return -math.inf
        r = 1 / (1 + EFFECT_VARIANCE * self.information)
        t2v = (self.difference / self.error) ** 2 / self.freedom
        return 0.5 * math.log(r) + (self.freedom + 1) / 2 * (math.log1p(t2v) - math.log1p(r * t2v))

    def log_needed(self, alpha: float) -> float:
        return math.log(contradiction_needed(alpha, self.first_look))

    def always_valid(self, alpha: float) -> tuple[float, float] | None:
        if self.difference is None or not self.error:
            return None
        half = self.error * always_valid_t(
            *self.balls, alpha, freedom=self.freedom, first_look=self.first_look
        )
        return None if math.isinf(half) else (self.difference - half, self.difference + half)

    def at_this_look(self) -> tuple[float, float] | None:
        if self.difference is None or not self.error:
            return None
        half = _t_quantile(self.freedom) * self.error
        return self.difference - half, self.difference + half

    def is_within_margin(self, low: float, high: float) -> bool:
        return -self.margin < low and high < self.margin

    def balls_needed(self, alpha: float) -> int | None:
        """With each club, where the balls to come are judged as those so far: at every look."""
        if not self.spread:
            return None
        return balls_to_call(self.margin / self.spread, alpha, first_look=self.first_look)


def means_weighed(
    a: Sequence[float],
    b: Sequence[float],
    *,
    margin: float,
    others: OtherBlocks = NO_OTHERS,
    first_look: int = LEAST_BALLS,
) -> MeansWeighed:
    """Return what two clubs' values say of the difference of their means.

    Args:
        a: what club A did, misreads left out, in the measure's unit.
        b: what club B did, likewise.
        margin: the smallest difference worth having, above nought.
        others: the scatter of the player's other blocks of the same swing.
        first_look: balls with each club from which on a verdict is given.

    Raises:
        NotAFigure: a value is no number, or the margin not above nought.
    """
    refuse_margin(margin)
    n_a, n_b = len(a), len(b)
    (mean_a, sd_a), (mean_b, sd_b) = mean_and_sd(a), mean_and_sd(b)
    spread = error = None
    freedom = n_a + n_b - 2
    if min(n_a, n_b) >= LEAST_FOR_INTERVAL and sd_a is not None and sd_b is not None:
        spread, error, freedom = others.spread_and_error((n_a, sd_a), (n_b, sd_b))
    return MeansWeighed((n_a, n_b), (mean_a, mean_b), margin, first_look, spread, error, freedom)


def judged_together(
    weighed: Sequence[Weighed],
    *,
    alpha: float = ALPHA,
    family: int | None = None,
    most_more_balls: int = MOST_MORE_BALLS,
    least_balls: int = LEAST_BALLS,
) -> tuple[Difference, ...]:
    """Judge the comparisons of one measure in one situation; the order is kept.

    Holm: the strongest contradiction is held to alpha / m, the next to alpha / (m - 1), and so
    on; from the first that falls short on, all are held to that one's share. Each interval is
    drawn at the share its comparison was held to.

    Args:
        weighed: one per comparison shown.
        alpha: the chance of any false "real difference" among them.
        family: how many comparisons share it, where more could have been shown than are.
        most_more_balls: beyond this many more, the answer is not today.
        least_balls: with fewer with either club nothing is judged.

    Raises:
        NotAFigure: the family is smaller than what is judged.
    """
    sharing = len(weighed) if family is None else family
    if sharing < len(weighed) or (family is not None and family < 1):
        raise NotAFigure("All differences judged share the chance of a false call.")
    order = sorted(range(len(weighed)), key=lambda i: -weighed[i].log_contradiction)
    found: dict[int, Difference] = {}
    left, is_stepping = sharing, True
    for index in order:
        one = weighed[index]
        share = alpha / left
        is_enough = min(one.balls) >= least_balls
        is_shown = is_enough and one.log_contradiction >= one.log_needed(share)
        found[index] = _judged(one, share, is_enough, is_shown, most_more_balls, least_balls)
        is_stepping = is_stepping and is_shown
        if is_stepping:
            left -= 1
    return tuple(found[index] for index in range(len(weighed)))


def nearer_to(found: Difference, aim: float) -> float | None:
    """Return how much nearer to ``aim`` A's mean lies than B's, negative where it lies farther.

    Means on one side of the aim differ in nearness as they differ from each other; one on each
    side differ by far less. Mirrored at the aim, B's balls scatter as before, so that nearness has
    the same doubt as the difference has, and is told only where it is larger than that.

    Args:
        found: a difference of means, in one unit with ``aim``.
        aim: where balls were to end.

    Returns:
        The nearness, or None where no real difference is called or nearness itself is not told.

    Raises:
        NotAFigure: ``aim`` is no number.
    """
    if not math.isfinite(aim):
        raise NotAFigure("Balls are aimed at a distance that is a number.")
    a, b, low, high = found.mean_a, found.mean_b, found.low, found.high
    if found.verdict != "real difference" or a is None or b is None:
        return None
    if found.difference is None or low is None or high is None:
        return None
    nearness = abs(b - aim) - abs(a - aim)
    doubt = max(high - found.difference, found.difference - low)
    return nearness if abs(nearness) > doubt else None


def difference_of_clubs(
    a: Sequence[float],
    b: Sequence[float],
    *,
    margin: float,
    family: int = 1,
    others: OtherBlocks = NO_OTHERS,
    most_more_balls: int = MOST_MORE_BALLS,
    least_balls: int = LEAST_BALLS,
) -> Difference:
    """Judge one difference of means: ``means_weighed`` and ``judged_together`` in one."""
    weighed = means_weighed(a, b, margin=margin, others=others, first_look=least_balls)
    (found,) = judged_together(
        [weighed], family=family, most_more_balls=most_more_balls, least_balls=least_balls
    )
    return found


def _judged(
    one: Weighed,
    share: float,
    is_enough: bool,
    is_shown: bool,
    most_more_balls: int,
    least_balls: int,
) -> Difference:
    look = one.at_this_look()
    interval, kind = one.always_valid(share), "always valid"
    verdict: Verdict = "too few balls"
    if is_enough and look is not None and one.is_within_margin(*look):
        verdict, interval, kind = "no difference you could use", look, "at this look"
    elif is_shown:
        verdict = "real difference"
    more = None
    if verdict == "too few balls":
        more = _more_balls(one, share, least_balls)
        more = more if more is not None and more <= most_more_balls else None
    low, high = interval if interval is not None else (None, None)
    return Difference(
        balls_a=one.balls[0],
        balls_b=one.balls[1],
        mean_a=one.values[0],
        mean_b=one.values[1],
        difference=one.difference,
        low=low,
        high=high,
        pooled_sd=one.spread,
        margin=one.margin,
        verdict=verdict,
        more_balls=more,
        advice=ALL_ALIKE if is_enough and one.spread == 0 else _advice(verdict, more),
        interval="at this look" if kind == "at this look" else "always valid",
        neutral=one.neutral,
    )


def _more_balls(one: Weighed, share: float, least_balls: int) -> int | None:
    """From spread and margin alone; None where there is no saying, or where they were hit."""
    at_least = least_balls - min(one.balls)
    needed = one.balls_needed(share)
    if needed is None:
        return max(at_least, 1) if at_least > 0 else None
    more = max(needed - min(one.balls), at_least)
    return more if more > 0 else None


def _advice(verdict: Verdict, more: int | None) -> str:
    if verdict == "real difference":
        return "The difference is real."
    if verdict == "no difference you could use":
        return "Choose by turf, look and feel."
    if more is None:
        return "Not today: choose by turf, look and feel."
    return f"About {more} more {'ball' if more == 1 else 'balls'} with each club."


@lru_cache(maxsize=1024)
def _t_quantile(freedom: int) -> float:
    return float(special.stdtrit(freedom, (1 + LOOK_LEVEL) / 2))
