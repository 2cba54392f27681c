"""How far a player's wedges carry at each loft, from few shots and a plain expectation.

Full stock swings only. The line is anchored at the pitching wedge: before any other club is hit,
each degree of loft is expected to take about 2.1 % of the pitching wedge's carry (common
practice); every shot pulls the line towards what this player does. Conjugate normal linear
regression with unknown variance (key ``bayesian-data-analysis``).

Two clubs of one loft don't carry alike: each club has its own offset from the line, about 1.5 %
of the pitching wedge's carry either way (common practice). A club that was hit is predicted with
its own offset, a new one with the doubt of any; ten more balls with one club never make the line
surer than that. What a player says that a club carries counts as one ball with it.

Assumptions: carry falls straight with loft between 40 and 64 degrees; shots scatter normally, by
the same amount at each loft. What is predicted is a club's mean carry, not the next shot's.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray
from scipy.special import stdtrit

from sessions.maths.errors import NotAFigure

# The expectation before the player hits a shot, in shares of the pitching wedge's carry.
EXPECTED_SLOPE = -0.021
SLOPE_DOUBT = 0.004
CARRY_DOUBT = 0.05
# Where the pitching wedge's carry is the mean of its own shots, they alone say how sure it is.
CARRY_DOUBT_IF_HIT = 0.25
CLUB_DOUBT = 0.015
EXPECTED_SPREAD = 0.04
# As much as this many shots' worth of belief in the expected spread.
SPREAD_BELIEF = 4.0
FARTHEST_FROM_A_HIT_CLUB_DEG = 4.0
LEVEL = 0.90
ONE_SD_LEVEL = 0.6827


@dataclass(frozen=True)
class LoftCarry:
    """One full stock shot: the measured loft of the club [deg] and its carry [m].

    ``club`` tells two clubs of one loft apart; without it a loft is a club.
    """

    loft_deg: float
    carry_m: float
    club: str = ""

    @property
    def club_key(self) -> str:
        return self.club or f"{self.loft_deg:g} degrees"


@dataclass(frozen=True)
class LinePrior:
    """What is believed of intercept and slope before the shots: means, doubts (sd), spread.

    ``spread_belief`` is the degrees of freedom of the belief in ``spread``; ``club_doubt`` how far
    a club is off the line, 0 for never.
    """

    intercept: float
    slope: float
    intercept_doubt: float
    slope_doubt: float
    spread: float
    spread_belief: float
    club_doubt: float = 0.0


@dataclass(frozen=True)
class Prediction:
    """Mean carry at a loft [m] with its interval; flagged when far from every club hit."""

    loft_deg: float
    carry_m: float
    low_m: float
    high_m: float
    level: float
    is_extrapolated: bool


@dataclass(frozen=True)
class ClubOffset:
    """How far a club that was hit carries off the line [m], and what is shared with the line.

    ``covariance`` is with intercept, slope and itself, in units of the variance of one shot.
    """

    offset_m: float
    covariance: tuple[float, float, float]


@dataclass(frozen=True)
class CarryLine:
    """A player's carry against loft, measured from the pitching wedge's loft.

    ``covariance`` is of intercept [m] and slope [m/deg] in units of the variance of one shot, and
    so is ``club_variance``, the doubt of a club that was not hit.
    """

    baseline_loft_deg: float
    baseline_carry_m: float
    shots: int
    intercept_m: float
    slope_m_per_deg: float
    shot_sd_m: float
    degrees_of_freedom: float
    covariance: tuple[tuple[float, float], tuple[float, float]]
    hit_lofts_deg: tuple[float, ...]
    club_variance: float = 0.0
    clubs: Mapping[str, ClubOffset] = field(default_factory=dict, hash=False)

    def at(self, loft_deg: float, level: float = LEVEL, club: str = "") -> Prediction:
        """Return the predicted mean carry of a club at a loft, and its interval.

        Args:
            loft_deg: its measured loft.
            level: of the interval.
            club: the key of a club that was hit; any other is a new one.

        Raises:
            NotAFigure: the loft is no number, or the level not between 0 and 1.
        """
        if not math.isfinite(loft_deg):
            raise NotAFigure("A carry can be predicted only at a loft that is a number.")
        if not 0 < level < 1:
            raise NotAFigure("The level of an interval lies between 0 and 1.")
        degrees = loft_deg - self.baseline_loft_deg
        (v_aa, v_ab), (_, v_bb) = self.covariance
        variance = v_aa + 2 * degrees * v_ab + degrees**2 * v_bb
        carry = self.intercept_m + self.slope_m_per_deg * degrees
        known = self.clubs.get(club)
        if known is None:
            variance += self.club_variance
        else:
            v_ac, v_bc, v_cc = known.covariance
            variance += 2 * v_ac + 2 * degrees * v_bc + v_cc
            carry += known.offset_m
        half = (
            float(stdtrit(self.degrees_of_freedom, (1 + level) / 2))
            * self.shot_sd_m
            * math.sqrt(max(variance, 0.0))
        )
        nearest = min(abs(loft_deg - hit) for hit in self.hit_lofts_deg)
        return Prediction(
            loft_deg=loft_deg,
            carry_m=carry,
            low_m=carry - half,
            high_m=carry + half,
            level=level,
            is_extrapolated=nearest > FARTHEST_FROM_A_HIT_CLUB_DEG,
        )


def carry_line(
    baseline_loft_deg: float,
    baseline_carry_m: float,
    shots: Sequence[LoftCarry] = (),
    *,
    stated: Sequence[LoftCarry] = (),
    is_baseline_hit: bool = False,
) -> CarryLine:
    """Return the player's line of carry against loft.

    Args:
        baseline_loft_deg: measured loft of the pitching wedge that stays.
        baseline_carry_m: its stock carry, measured or as the player said.
        shots: full stock shots of any club, the pitching wedge's included.
        stated: stock carries that the player says of clubs that were not hit, one each.
        is_baseline_hit: the baseline carry is the mean of shots that are among ``shots``.

    Raises:
        NotAFigure: a figure is no number, or the baseline carry is not above nought.
    """
    if not (math.isfinite(baseline_loft_deg) and math.isfinite(baseline_carry_m)):
        raise NotAFigure("The pitching wedge needs a measured loft and a carry.")
    if baseline_carry_m <= 0:
        raise NotAFigure("The pitching wedge's carry must be above 0.")
    carry = baseline_carry_m
    prior = LinePrior(
        intercept=carry,
        slope=EXPECTED_SLOPE * carry,
        intercept_doubt=(CARRY_DOUBT_IF_HIT if is_baseline_hit else CARRY_DOUBT) * carry,
        slope_doubt=SLOPE_DOUBT * carry,
        spread=EXPECTED_SPREAD * carry,
        spread_belief=SPREAD_BELIEF,
        club_doubt=CLUB_DOUBT * carry,
    )
    return posterior_line(baseline_loft_deg, baseline_carry_m, shots, prior, stated=stated)


def posterior_line(
    baseline_loft_deg: float,
    baseline_carry_m: float,
    shots: Sequence[LoftCarry],
    prior: LinePrior,
    *,
    stated: Sequence[LoftCarry] = (),
) -> CarryLine:
    """Return the line after the shots, from a stated belief before them.

    Precision of the belief plus precision of the shots; the belief's doubts are in units of its
    own spread, as the conjugate form has it. Each club's offset is one more coefficient, believed
    to be nought.
    """
    seen = [*shots, *stated]
    figures = [figure for shot in seen for figure in (shot.loft_deg, shot.carry_m)]
    if not all(math.isfinite(figure) for figure in figures):
        raise NotAFigure("A shot has a loft or a carry that is not a number.")
    beliefs = (prior.intercept, prior.slope, prior.club_doubt, prior.spread_belief)
    doubts_of = (prior.intercept_doubt, prior.slope_doubt, prior.spread)
    if not all(math.isfinite(figure) for figure in (baseline_loft_deg, baseline_carry_m, *beliefs)):
        raise NotAFigure("The line begins at a loft, a carry and beliefs that are numbers.")
    if prior.club_doubt < 0 or not all(math.isfinite(one) and one > 0 for one in doubts_of):
        raise NotAFigure("What is believed of a line has doubts that are numbers above 0.")
    if prior.spread_belief + len(seen) <= 0:
        raise NotAFigure("Without a belief in the spread a line needs more shots.")
    club_variance = (prior.club_doubt / prior.spread) ** 2
    keys = list(dict.fromkeys(shot.club_key for shot in seen)) if club_variance else []
    design = _design(seen, baseline_loft_deg, keys)
    carries = np.array([shot.carry_m for shot in seen], dtype=float)
    believed = np.array([prior.intercept, prior.slope, *([0.0] * len(keys))])
    doubts = np.array([prior.intercept_doubt, prior.slope_doubt, *([prior.club_doubt] * len(keys))])
    before = np.diag((prior.spread / doubts) ** 2)
    covariance = np.linalg.inv(before + design.T @ design)
    line = covariance @ (before @ believed + design.T @ carries)
    missed = carries - design @ line
    moved = line - believed
    freedom = prior.spread_belief + len(seen)
    squares = (
        prior.spread_belief * prior.spread**2
        + float(missed @ missed)
        + float(moved @ before @ moved)
    )
    offsets = {
        key: ClubOffset(
            float(line[place]),
            (
                float(covariance[0, place]),
                float(covariance[1, place]),
                float(covariance[place, place]),
            ),
        )
        for place, key in enumerate(keys, start=2)
    }
    return CarryLine(
        baseline_loft_deg=baseline_loft_deg,
        baseline_carry_m=baseline_carry_m,
        shots=len(shots),
        intercept_m=float(line[0]),
        slope_m_per_deg=float(line[1]),
        shot_sd_m=math.sqrt(squares / freedom),
        degrees_of_freedom=freedom,
        covariance=(
            (float(covariance[0, 0]), float(covariance[0, 1])),
            (float(covariance[1, 0]), float(covariance[1, 1])),
        ),
        hit_lofts_deg=tuple(sorted({baseline_loft_deg, *(shot.loft_deg for shot in shots)})),
        club_variance=club_variance,
        clubs=MappingProxyType(offsets),
    )


def _design(
    seen: Sequence[LoftCarry], baseline_loft_deg: float, keys: Sequence[str]
) -> NDArray[np.float64]:
    """A row for each shot: one, degrees below the pitching wedge, and which club it was."""
    design = np.zeros((len(seen), 2 + len(keys)))
    places = {key: place for place, key in enumerate(keys, start=2)}
    for row, shot in enumerate(seen):
        design[row, :2] = 1.0, shot.loft_deg - baseline_loft_deg
        if places:
            design[row, places[shot.club_key]] = 1.0
    return design
