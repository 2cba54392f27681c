"""Whether two clubs differ, said in one of three ways and never sooner than the shots allow.

The page is watched after every shot and the fitter stops when it looks good: an ordinary 90 %
interval would call a difference far too often. The interval here is a confidence sequence, right
at all looks together: the difference is left out of it at any time with a chance of at most 10 %.
It is the set of differences that the two-sample t statistic, weighed with a normal mixture over
the effect size, does not yet contradict tenfold (keys ``anytime-t``, ``lai-1976``,
``two-sample-bayes``; the chance is Ville's inequality). It errs towards "too few balls".

Assumptions: shots of a club scatter normally and don't drift; both clubs scatter about alike (the
larger of the pooled and the unpooled standard error is taken, so that a club with few and a club
with wild shots don't help each other). Two blocks that differ in more than the club are not
comparable at all: see ``unfairness``.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from sessions.maths.dispersion import mean_and_sd
from sessions.maths.errors import NotAFigure

Verdict = Literal["real difference", "no difference you could use", "too few balls"]

ALPHA = 0.10
LEAST_BALLS = 5
MOST_MORE_BALLS = 12
# Variance of the effects the mixture is spread over, in squared spreads of one shot: differences
# of about one spread are what a fitting looks for.
EFFECT_VARIANCE = 1.0


@dataclass(frozen=True)
class Difference:
    """Club A minus club B in one measure, in its unit, and what may be said of it.

    ``low`` and ``high`` are None below three balls each. ``more_balls`` is how many more with
    each club the verdict is likely to take; None with a verdict, or when it won't be today.
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


@dataclass(frozen=True)
class BlockContext:
    """What a block of shots was hit with and from, in the words stored; None is not noted."""

    swing: str | None = None
    surface: str | None = None
    ground: str | None = None
    wet: str | None = None
    face: str | None = None
    ball: str | None = None
    device: str | None = None
    figures: str | None = None
    grooves: str | None = None
    visit: str | None = None


# What may differ: the field, what is said when it does, what it is called when one side is silent.
_CONTEXT_WORDS: tuple[tuple[str, str, str], ...] = (
    ("swing", "The swings differ", "the swing"),
    ("surface", "The shots were hit from different surfaces", "what the shots were hit from"),
    ("ground", "The ground was not the same", "how firm the ground was"),
    ("wet", "A wet face can halve the spin", "dry or wet"),
    ("face", "The face was not held the same way", "how the face was held"),
    ("ball", "The balls differ", "the ball"),
    ("device", "The figures come from different devices", "the device"),
    ("figures", "The figures don't mean the same", "as flown or normalised"),
    (
        "grooves",
        "Fresh grooves beat worn ones on spin, whatever the sole",
        "the grooves",
    ),
    ("visit", "The shots are from two visits", "the visit"),
)


def difference_of_clubs(
    a: Sequence[float],
    b: Sequence[float],
    *,
    margin: float,
    judged_together: int = 1,
    most_more_balls: int = MOST_MORE_BALLS,
    least_balls: int = LEAST_BALLS,
) -> Difference:
    """Judge the difference of two clubs in one measure.

    A *real difference* has an interval without nought and is at least the margin. *No difference
    you could use* has its whole interval within the margin. All else is *too few balls*.

    Args:
        a: what club A did, misreads left out, in the measure's unit.
        b: what club B did, likewise.
        margin: the smallest difference worth having, above nought.
        judged_together: how many differences the page judges at once (measures times pairs); the
            chance of a false call is shared out among them.
        most_more_balls: beyond this many more, the answer is not today.
        least_balls: with fewer with either club nothing is judged.

    Raises:
        NotAFigure: a value is no number, the margin not above nought, or nothing judged.
    """
    if not (math.isfinite(margin) and margin > 0):
        raise NotAFigure("The smallest difference worth having must be above 0.")
    if judged_together < 1:
        raise NotAFigure("At least one difference is judged.")
    n_a, n_b = len(a), len(b)
    (mean_a, sd_a), (mean_b, sd_b) = mean_and_sd(a), mean_and_sd(b)
    difference = None if mean_a is None or mean_b is None else mean_a - mean_b
    alpha = ALPHA / judged_together
    pooled: float | None = None
    half: float | None = None
    if min(n_a, n_b) >= 3 and sd_a is not None and sd_b is not None:
        pooled = math.sqrt(((n_a - 1) * sd_a**2 + (n_b - 1) * sd_b**2) / (n_a + n_b - 2))
        unpooled = math.sqrt(sd_a**2 / n_a + sd_b**2 / n_b)
        error = max(unpooled, pooled * math.sqrt(1 / n_a + 1 / n_b))
        half = always_valid_t(n_a, n_b, alpha) * error
    low = high = None
    if difference is not None and half is not None and math.isfinite(half):
        low, high = difference - half, difference + half
    verdict = _verdict(difference, half, margin, min(n_a, n_b) >= least_balls)
    more = None
    if verdict == "too few balls":
        more = _more_balls(n_a, n_b, difference, pooled, margin, alpha, least_balls)
        more = more if more is not None and more <= most_more_balls else None
    return Difference(
        balls_a=n_a,
        balls_b=n_b,
        mean_a=mean_a,
        mean_b=mean_b,
        difference=difference,
        low=low,
        high=high,
        pooled_sd=pooled,
        margin=margin,
        verdict=verdict,
        more_balls=more,
        advice=_advice(verdict, more),
    )


def always_valid_t(n_a: int, n_b: int, alpha: float = ALPHA) -> float:
    """Return how many standard errors either way the difference may be off, at any look.

    With n = n_a n_b / (n_a + n_b), v = n_a + n_b - 2 and r = 1 / (1 + n g), the mixture's weight
    against a difference is sqrt(r) ((1 + t^2/v) / (1 + r t^2/v))^((v+1)/2); this is the t at which
    it reaches 1/alpha, or infinity where so few balls never can.
    """
    freedom = n_a + n_b - 2
    if n_a < 1 or n_b < 1 or freedom < 1:
        return math.inf
    r = 1 / (1 + EFFECT_VARIANCE * n_a * n_b / (n_a + n_b))
    k = (1 / (alpha * math.sqrt(r))) ** (2 / (freedom + 1))
    if k * r >= 1:
        return math.inf
    return math.sqrt(freedom * (k - 1) / (1 - k * r))


def unfairness(a: BlockContext, b: BlockContext) -> tuple[str, ...]:
    """Return a sentence for each way in which two blocks differ in more than the club.

    What only one block notes counts as a doubt and is said; what neither notes is not.
    """
    said = []
    for name, sentence, called in _CONTEXT_WORDS:
        one, other = getattr(a, name), getattr(b, name)
        if one == other:
            continue
        if one is None or other is None:
            said.append(f"Only one of the two notes {called} ({one or other}).")
        else:
            said.append(f"{sentence}: {one} against {other}.")
    return tuple(said)


def _verdict(
    difference: float | None, half: float | None, margin: float, are_enough: bool
) -> Verdict:
    # Shots that all came out the same to the digit have no spread to judge by.
    if difference is None or half is None or not are_enough or half == 0:
        return "too few balls"
    if abs(difference) + half < margin:
        return "no difference you could use"
    if abs(difference) > half and abs(difference) >= margin:
        return "real difference"
    return "too few balls"


def _more_balls(
    n_a: int,
    n_b: int,
    difference: float | None,
    pooled_sd: float | None,
    margin: float,
    alpha: float,
    least_balls: int,
) -> int | None:
    """Return about how many more balls with each club a verdict takes, or None for hundreds.

    As many as bring the interval's half width down to the difference, or to the margin where that
    is larger; once it is there, down to what is left between difference and margin.
    """
    at_least = max(least_balls - min(n_a, n_b), 1)
    if difference is None or pooled_sd is None:
        return at_least
    wanted = max(abs(difference), margin)
    if _half_width(n_a, n_b, pooled_sd, alpha) <= wanted and abs(difference) < margin:
        wanted = margin - abs(difference)
    for more in range(at_least, 200):
        if _half_width(n_a + more, n_b + more, pooled_sd, alpha) <= wanted:
            return more
    return None


def _half_width(n_a: int, n_b: int, pooled_sd: float, alpha: float) -> float:
    return always_valid_t(n_a, n_b, alpha) * pooled_sd * math.sqrt(1 / n_a + 1 / n_b)


def _advice(verdict: Verdict, more: int | None) -> str:
    if verdict == "real difference":
        return "The difference is real."
    if verdict == "no difference you could use":
        return "Choose by turf, look and feel."
    if more is None:
        return "Not today: choose by turf, look and feel."
    return f"About {more} more {'ball' if more == 1 else 'balls'} with each club."
