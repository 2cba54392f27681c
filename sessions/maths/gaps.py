"""The gap between two clubs on a player's carry line: its interval, and how often it turns round.

Assumptions: those of `carry_line`. The two ends share the line, and perhaps a head or a shaft, so a
gap has the doubt of what they don't share. The next balls of two clubs scatter by themselves, each
by the line's spread.
"""

import math
from dataclasses import dataclass

from scipy.special import stdtr, stdtrit

from sessions.maths.carry_line import FARTHEST_CARRY_M, CarryLine, ClubKey, refuse_no_loft
from sessions.maths.errors import NotAFigure

LEVEL = 0.90
ONE_SD_LEVEL = 0.6827


@dataclass(frozen=True)
class Gap:
    """What the stronger club carries farther [m], and its interval at ``level``.

    ``doubt_m`` is half of an interval that holds one standard deviation each side. ``overlap`` is
    the chance that the next ball of the stronger club falls shorter than the next of the weaker.
    """

    mean_m: float
    low_m: float
    high_m: float
    level: float
    doubt_m: float
    overlap: float


def gap_on_line(
    line: CarryLine,
    strong_loft_deg: float,
    weak_loft_deg: float,
    *,
    clubs: tuple[ClubKey, ClubKey] = ("", ""),
    mean_m: float | None = None,
    level: float = LEVEL,
) -> Gap:
    """Return the gap between two lofts on a carry line.

    The mean carry falls along the line and moves by the clubs' offsets; its doubt is Student's t
    with the line's degrees of freedom. The difference of two further balls has the variance of
    both on top (key ``bayesian-data-analysis``, the predictive distribution).

    Args:
        line: the player's carries.
        strong_loft_deg: the loft of the club that should carry farther.
        weak_loft_deg: the loft of the other one.
        clubs: what the line knows the two by; any other name is a club that was not hit.
        mean_m: the gap where it is known otherwise (a pitching wedge's measured mean, say); else
            it is taken from the line.
        level: of the interval.

    Raises:
        NotAFigure: a loft is no number between 0 and 90, the gap no number or over 500 m, or the
            level not between 0 and 1.
    """
    known = 0.0 if mean_m is None else mean_m
    if not all(math.isfinite(figure) for figure in (strong_loft_deg, weak_loft_deg, known)):
        raise NotAFigure("A gap lies between two lofts that are numbers.")
    refuse_no_loft(strong_loft_deg, weak_loft_deg)
    if abs(known) > FARTHEST_CARRY_M:
        raise NotAFigure(f"A gap is not over {FARTHEST_CARRY_M:.0f} m.")
    if not 0 < level < 1:
        raise NotAFigure("The level of an interval lies between 0 and 1.")
    strong, weak = clubs
    mean = mean_m
    if mean is None:
        mean = line.carry_m(strong_loft_deg, strong) - line.carry_m(weak_loft_deg, weak)
    variance = line.variance_between(strong_loft_deg, weak_loft_deg, clubs)
    error = line.shot_sd_m * math.sqrt(variance)
    both = line.shot_sd_m * math.sqrt(2 + variance)
    freedom = line.degrees_of_freedom
    half = float(stdtrit(freedom, (1 + level) / 2)) * error
    return Gap(
        mean_m=mean,
        low_m=mean - half,
        high_m=mean + half,
        level=level,
        doubt_m=float(stdtrit(freedom, (1 + ONE_SD_LEVEL) / 2)) * error,
        overlap=float(stdtr(freedom, -mean / both)) if both > 0 else float(mean < 0),
    )
