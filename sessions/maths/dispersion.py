"""What a block of shots says: mean, spread, strikes, the area of the next shot, proximity.

A misread is left out of everything. A fat, thin, toe or heel strike is always counted; it may be
left out of the mean, never out of the tally. Not measured is None and is counted as such.
Sideways is positive to the player's right. Which club, which ball and which turf the shots were
hit with is the caller's business.
"""

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

import numpy as np
from scipy import special

from sessions.maths.errors import NotAFigure

LEAST_FOR_INTERVAL = 3
LEAST_FOR_ELLIPSE = 5
NEXT_SHOT_SHARE = 0.80
MEAN_LEVEL = 0.95
LEAST_FOR_OUTLIERS = 5
# Modified z score: 0.6745 times the distance from the median over the median distance.
FAR_OFF = 3.5
_NORMAL_QUARTILE = 0.6745
_NO_MEASUREMENT_IS_LARGER = 1e12


@dataclass(frozen=True)
class ShotFigures:
    """One shot as it counts here; ``strike`` is a word such as fat, or empty for none noted.

    ``strike_up_mm`` and ``strike_toe_mm`` are from the middle of the face.
    """

    carry_m: float | None = None
    side_m: float | None = None
    strike: str = ""
    misread: bool = False
    counted_in_mean: bool = True
    strike_up_mm: float | None = None
    strike_toe_mm: float | None = None


@dataclass(frozen=True)
class Spread:
    """Mean, standard deviation, median and interval of the mean of ``n`` values, in their unit.

    ``sd`` is None for one value; ``low`` and ``high`` are None below three. ``mad`` is the median
    distance from the median: what the spread would be without the odd shot, times 0.6745.
    """

    n: int
    mean: float
    sd: float | None
    median: float
    low: float | None
    high: float | None
    level: float
    mad: float = 0.0


@dataclass(frozen=True)
class Ellipse:
    """Where the next shot lands with probability ``share``, if shots scatter normally.

    The angle is that of the major axis from the sideways axis (to the right), towards the
    target [deg, above -90 up to 90]; the semi-axes are in metres.
    """

    n: int
    share: float
    centre_side_m: float
    centre_carry_m: float
    semi_major_m: float
    semi_minor_m: float
    angle_deg: float


@dataclass(frozen=True)
class Proximity:
    """How far shots end from a target: mean distance, and mean long (+) and right (+) of it.

    The spreads along and across are about those means, None for a single shot.
    """

    n: int
    mean_distance_m: float
    along_m: float
    across_m: float
    along_sd_m: float | None = None
    across_sd_m: float | None = None


@dataclass(frozen=True)
class BlockFigures:
    """What is shown of a block. Counts are of shots hit; ``strikes`` counts every one noted."""

    shots: int
    misreads: int
    left_out_of_mean: int
    carry_not_measured: int
    side_not_measured: int
    strikes: Mapping[str, int]
    carry: Spread | None
    side: Spread | None
    ellipse: Ellipse | None
    # Carries far off the others that no bad strike explains: flagged, never dropped.
    far_off_m: tuple[float, ...] = ()
    strike_up: Spread | None = None
    strike_toe: Spread | None = None


def mean_and_sd(values: Sequence[float]) -> tuple[float | None, float | None]:
    """Return mean and standard deviation; None for what no value, or a single one, can say.

    Two passes, the deviations summed exactly, so that a large common part costs no digits.

    Raises:
        NotAFigure: a value is not a finite number.
    """
    # A page asks again and again for the same blocks, and keeps them as tuples.
    return _mean_and_sd(values) if isinstance(values, tuple) else _mean_and_sd(tuple(values))


@lru_cache(maxsize=4096)
def _mean_and_sd(values: tuple[float, ...]) -> tuple[float | None, float | None]:
    _refuse_no_figure(values)
    n = len(values)
    if n == 0:
        return None, None
    mean = math.fsum(values) / n
    if n == 1:
        return mean, None
    return mean, math.sqrt(math.fsum([(value - mean) ** 2 for value in values]) / (n - 1))


def spread(values: Sequence[float], level: float = MEAN_LEVEL) -> Spread | None:
    """Return mean, spread and interval of the mean, or None for no values.

    The interval is Student's t.

    Args:
        values: one unit, any number of them.
        level: of the interval of the mean, between 0 and 1.

    Raises:
        NotAFigure: a value is not a finite number.
    """
    if not 0 < level < 1:
        raise NotAFigure("The level of an interval lies between 0 and 1.")
    mean, sd = mean_and_sd(values)
    if mean is None:
        return None
    n = len(values)
    median = _median(values)
    low: float | None = None
    high: float | None = None
    if sd is not None and n >= LEAST_FOR_INTERVAL:
        half = _t_quantile(level, n - 1) * sd / math.sqrt(n)
        low, high = mean - half, mean + half
    mad = _median([abs(value - median) for value in values])
    return Spread(n=n, mean=mean, sd=sd, median=median, low=low, high=high, level=level, mad=mad)


def far_off(values: Sequence[float]) -> tuple[float, ...]:
    """Return the values far off the others, in their order; none below five.

    Modified z score above 3.5 (key ``iglewicz-hoaglin``). A shot far off may be a misread or may
    be what the club does: it is flagged for the fitter's eye and dropped by nobody else.

    Raises:
        NotAFigure: a value is not a finite number.
    """
    _refuse_no_figure(values)
    if len(values) < LEAST_FOR_OUTLIERS:
        return ()
    median = _median(values)
    mad = _median([abs(value - median) for value in values])
    if mad == 0:
        return ()
    return tuple(v for v in values if _NORMAL_QUARTILE * abs(v - median) / mad > FAR_OFF)


def next_shot_ellipse(
    points: Sequence[tuple[float, float]], share: float = NEXT_SHOT_SHARE
) -> Ellipse | None:
    """Return the ellipse that holds the next shot with probability ``share``; None below five.

    Mean and covariance are estimated from the same few shots, so the ellipse is wider than the
    one of a known covariance: squared scale 2(n-1)(n+1)/(n(n-2)) times the F quantile (key
    ``chew-1966``).

    Args:
        points: (sideways to the right, carry) of each shot [m].
        share: probability that the next shot falls inside, between 0 and 1.
    """
    for point in points:
        _refuse_no_figure(point)
    if not 0 < share < 1:
        raise NotAFigure("The share of shots inside an ellipse lies between 0 and 1.")
    n = len(points)
    if n < LEAST_FOR_ELLIPSE:
        return None
    cloud = np.asarray(points, dtype=float)
    centre = cloud.mean(axis=0)
    covariance = (cloud - centre).T @ (cloud - centre) / (n - 1)
    variances, axes = np.linalg.eigh(covariance)
    scale2 = 2 * (n - 1) * (n + 1) / (n * (n - 2)) * _f_quantile(share, n - 2)
    minor, major = (math.sqrt(max(float(v), 0.0) * scale2) for v in variances)
    angle = math.degrees(math.atan2(float(axes[1, 1]), float(axes[0, 1])))
    return Ellipse(
        n=n,
        share=share,
        centre_side_m=float(centre[0]),
        centre_carry_m=float(centre[1]),
        semi_major_m=major,
        semi_minor_m=minor,
        angle_deg=90 - (90 - angle) % 180,
    )


def proximity(
    points: Sequence[tuple[float, float]], target_m: float, target_side_m: float = 0.0
) -> Proximity | None:
    """Return how far shots end from a target, or None for no shots.

    Args:
        points: (sideways to the right, carry) of each shot [m].
        target_m: how far the target is [m].
        target_side_m: how far right of the line it stands [m].
    """
    _refuse_no_figure([target_m, target_side_m])
    for point in points:
        _refuse_no_figure(point)
    n = len(points)
    if n == 0:
        return None
    misses = [(side - target_side_m, carry - target_m) for side, carry in points]
    _, across_sd = mean_and_sd([across for across, _ in misses])
    _, along_sd = mean_and_sd([along for _, along in misses])
    return Proximity(
        n=n,
        mean_distance_m=math.fsum(math.hypot(*miss) for miss in misses) / n,
        along_m=math.fsum(along for _, along in misses) / n,
        across_m=math.fsum(across for across, _ in misses) / n,
        along_sd_m=along_sd,
        across_sd_m=across_sd,
    )


def mean_points(shots: Sequence[ShotFigures]) -> tuple[tuple[float, float], ...]:
    """Return (sideways, carry) [m] of the shots that count in the mean and have both.

    Raises:
        NotAFigure: a figure is not a finite number.
    """
    points = tuple(
        (shot.side_m, shot.carry_m)
        for shot in shots
        if _is_in_mean(shot) and shot.side_m is not None and shot.carry_m is not None
    )
    _refuse_no_figure([figure for point in points for figure in point])
    return points


def block_figures(shots: Sequence[ShotFigures]) -> BlockFigures:
    """Return everything shown of a block of shots; an empty block is all zero and None.

    Raises:
        NotAFigure: a measured figure is not a finite number (of a misread too).
    """
    hit = [shot for shot in shots if not shot.misread]
    in_mean = [shot for shot in hit if _is_in_mean(shot)]
    for shot in shots:
        _refuse_no_figure([v for v in (shot.carry_m, shot.side_m) if v is not None])
    return BlockFigures(
        shots=len(hit),
        misreads=len(shots) - len(hit),
        left_out_of_mean=len(hit) - len(in_mean),
        carry_not_measured=sum(1 for shot in hit if shot.carry_m is None),
        side_not_measured=sum(1 for shot in hit if shot.side_m is None),
        strikes=MappingProxyType(dict(Counter(shot.strike for shot in hit if shot.strike))),
        carry=spread([shot.carry_m for shot in in_mean if shot.carry_m is not None]),
        side=spread([shot.side_m for shot in in_mean if shot.side_m is not None]),
        ellipse=next_shot_ellipse(mean_points(shots)),
        far_off_m=_unexplained(in_mean),
        # Where the ball met the face is told of every strike, good or bad.
        strike_up=spread([s.strike_up_mm for s in hit if s.strike_up_mm is not None]),
        strike_toe=spread([s.strike_toe_mm for s in hit if s.strike_toe_mm is not None]),
    )


def _unexplained(in_mean: Sequence[ShotFigures]) -> tuple[float, ...]:
    """The carries far off the others of shots that nobody noted as badly struck."""
    off = set(far_off([shot.carry_m for shot in in_mean if shot.carry_m is not None]))
    return tuple(
        shot.carry_m
        for shot in in_mean
        if shot.carry_m is not None and shot.carry_m in off and not shot.strike
    )


def _median(values: Sequence[float]) -> float:
    ordered, n = sorted(values), len(values)
    return (ordered[(n - 1) // 2] + ordered[n // 2]) / 2


def _is_in_mean(shot: ShotFigures) -> bool:
    return shot.counted_in_mean and not shot.misread


def _refuse_no_figure(values: Sequence[float]) -> None:
    if not all(abs(value) < _NO_MEASUREMENT_IS_LARGER for value in values):
        raise NotAFigure("A shot has a figure that is not a number: correct it or leave it out.")


@lru_cache(maxsize=1024)
def _t_quantile(level: float, freedom: int) -> float:
    return float(special.stdtrit(freedom, (1 + level) / 2))


@lru_cache(maxsize=1024)
def _f_quantile(share: float, freedom: int) -> float:
    return float(special.fdtri(2, freedom, share))
