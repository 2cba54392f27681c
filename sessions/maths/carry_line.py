"""How far a player's wedges carry at each loft, from few shots and a plain expectation.

Full stock swings only. The line is anchored at the pitching wedge: before any other club is hit,
each degree of loft is expected to take about 2.1 % of the pitching wedge's carry (common
practice), as much at 46 as at 60 degrees, though it may bend a little either way; every shot pulls
the line towards what this player does. Conjugate normal linear regression with unknown variance
(key ``bayesian-data-analysis``).

Two clubs of one loft don't carry alike: each head has its own offset from the line, about 1.2 %
of the pitching wedge's carry either way, and each shaft about 0.9 %, so a whole club about 1.5 %
(common practice). One head tried on two shafts tells the two apart. A club that was hit is
predicted with its own offsets, a new one with the doubt of any; ten more balls with one club never
make the line surer than that. What a player says that a club carries counts as one ball with it.

Assumptions: carry falls with loft smoothly between 40 and 64 degrees; shots scatter normally, by
the same amount at each loft. `CarryLine.at` predicts a club's mean carry, `CarryLine.next_ball` a
single further shot.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray
from scipy.special import stdtrit

from sessions.maths.errors import NotAFigure

# The expectation before the player hits a shot, in shares of the pitching wedge's carry.
EXPECTED_SLOPE = -0.021
SLOPE_DOUBT = 0.004
# A share a degree squared: 14 degrees down, the slope may be 0.56 % a degree more or less.
CURVATURE_DOUBT = 0.0002
CARRY_DOUBT = 0.05
# Where the pitching wedge's carry is the mean of its own shots, they alone say how sure it is.
CARRY_DOUBT_IF_HIT = 0.25
HEAD_DOUBT = 0.012
SHAFT_DOUBT = 0.009
EXPECTED_SPREAD = 0.04
# As much as this many shots' worth of belief in the expected spread.
SPREAD_BELIEF = 4.0
FARTHEST_FROM_A_HIT_CLUB_DEG = 4.0
LEVEL = 0.90
ONE_SD_LEVEL = 0.6827
# No ball flies farther: a guard of ours against figures of another field.
FARTHEST_CARRY_M = 500.0
# Intercept, slope and curvature, before the heads and the shafts.
_LINE_TERMS = 3


@dataclass(frozen=True)
class ClubOnLine:
    """Whose offsets a club has: keys of its head and of its shaft, empty for any not named."""

    head: str = ""
    shaft: str = ""


# A name that the line knows a club by, or its head and shaft; an empty name is a new club.
ClubKey = str | ClubOnLine


@dataclass(frozen=True)
class LoftCarry:
    """One full stock shot: the measured loft of the club [deg] and its carry [m].

    ``club`` tells two clubs of one loft apart; without it a loft is a club. ``shaft`` names a
    shaft that other heads are hit on too; without it the shaft is the club's own.
    """

    loft_deg: float
    carry_m: float
    club: str = ""
    shaft: str = ""

    @property
    def on_line(self) -> ClubOnLine:
        club = self.club or f"{self.loft_deg:g} degrees"
        return ClubOnLine(club, self.shaft or club)


@dataclass(frozen=True)
class LinePrior:
    """What is believed of the line before the shots: means, doubts (sd), spread.

    ``spread_belief`` is the degrees of freedom of the belief in ``spread``. The curvature
    [m/deg^2] is believed to be nought give or take ``curvature_doubt``; ``head_doubt`` and
    ``shaft_doubt`` say how far either takes a club off the line. A doubt of 0 is never.
    """

    intercept: float
    slope: float
    intercept_doubt: float
    slope_doubt: float
    spread: float
    spread_belief: float
    curvature_doubt: float = 0.0
    head_doubt: float = 0.0
    shaft_doubt: float = 0.0


@dataclass(frozen=True)
class Prediction:
    """Carry at a loft [m] with its interval; flagged when far from every club hit."""

    loft_deg: float
    carry_m: float
    low_m: float
    high_m: float
    level: float
    is_extrapolated: bool


@dataclass(frozen=True)
class CarryLine:
    """A player's carry against loft, measured from the pitching wedge's loft.

    ``heads`` and ``shafts`` are how far each carries off the line [m]. ``covariance`` is of
    intercept [m], slope [m/deg], curvature [m/deg^2], then the heads and the shafts in their
    order, in units of the variance of one shot; so are ``head_variance`` and ``shaft_variance``,
    the doubt of one that was not hit. ``clubs`` are the names by which a club is asked for.
    """

    baseline_loft_deg: float
    baseline_carry_m: float
    shots: int
    intercept_m: float
    slope_m_per_deg: float
    shot_sd_m: float
    degrees_of_freedom: float
    covariance: tuple[tuple[float, ...], ...]
    hit_lofts_deg: tuple[float, ...]
    curvature_m_per_deg2: float = 0.0
    heads: Mapping[str, float] = field(default_factory=dict, hash=False)
    shafts: Mapping[str, float] = field(default_factory=dict, hash=False)
    head_variance: float = 0.0
    shaft_variance: float = 0.0
    clubs: Mapping[str, ClubOnLine] = field(default_factory=dict, hash=False)

    def carry_m(self, loft_deg: float, club: ClubKey = "") -> float:
        """Return the expected mean carry of a club at a loft [m], without its doubt."""
        degrees = loft_deg - self.baseline_loft_deg
        slope = self.slope_m_per_deg + self.curvature_m_per_deg2 * degrees
        carry = self.intercept_m + slope * degrees
        if not club:
            return carry
        parts = self.parts(club)
        return carry + self.heads.get(parts.head, 0.0) + self.shafts.get(parts.shaft, 0.0)

    def parts(self, club: ClubKey) -> ClubOnLine:
        """Return whose offsets a club has; a name that the line does not know is a new club."""
        return club if isinstance(club, ClubOnLine) else self.clubs.get(club, ClubOnLine())

    def at(self, loft_deg: float, level: float = LEVEL, club: ClubKey = "") -> Prediction:
        """Return the predicted mean carry of a club at a loft, and its interval.

        Args:
            loft_deg: its measured loft.
            level: of the interval.
            club: what the club is known by; a name that was not hit is a new club.

        Raises:
            NotAFigure: the loft is no number between 0 and 90, or the level not between 0 and 1.
        """
        return self._predicted(loft_deg, level, club, of_one_shot=0.0)

    def next_ball(self, loft_deg: float, level: float = LEVEL, club: ClubKey = "") -> Prediction:
        """Return where one further shot with a club falls: the line's doubt and a shot's scatter.

        Arguments and errors as `at`.
        """
        return self._predicted(loft_deg, level, club, of_one_shot=1.0)

    def _predicted(
        self, loft_deg: float, level: float, club: ClubKey, *, of_one_shot: float
    ) -> Prediction:
        if not math.isfinite(loft_deg):
            raise NotAFigure("A carry can be predicted only at a loft that is a number.")
        refuse_no_loft(loft_deg)
        if not 0 < level < 1:
            raise NotAFigure("The level of an interval lies between 0 and 1.")
        carry = self.carry_m(loft_deg, club)
        variance = self._variance(self._row(loft_deg, club)) + self._of_new_parts([club])
        half = (
            float(stdtrit(self.degrees_of_freedom, (1 + level) / 2))
            * self.shot_sd_m
            * math.sqrt(max(variance, 0.0) + of_one_shot)
        )
        nearest = min((abs(loft_deg - hit) for hit in self.hit_lofts_deg), default=math.inf)
        return Prediction(
            loft_deg=loft_deg,
            carry_m=carry,
            low_m=carry - half,
            high_m=carry + half,
            level=level,
            is_extrapolated=nearest > FARTHEST_FROM_A_HIT_CLUB_DEG,
        )

    def variance_between(
        self, strong_loft_deg: float, weak_loft_deg: float, clubs: tuple[ClubKey, ClubKey]
    ) -> float:
        """Return the variance of the gap between two clubs' means, in variances of one shot.

        What the two share, the line or a shaft, is no doubt of the gap.
        """
        strong, weak = clubs
        row = self._row(strong_loft_deg, strong) - self._row(weak_loft_deg, weak)
        return max(self._variance(row) + self._of_new_parts(clubs), 0.0)

    @cached_property
    def _covariance(self) -> NDArray[np.float64]:
        return np.array(self.covariance, dtype=float)

    @cached_property
    def _places(self) -> Mapping[tuple[str, str], int]:
        named = [*(("head", key) for key in self.heads), *(("shaft", key) for key in self.shafts)]
        return {part: place for place, part in enumerate(named, start=_LINE_TERMS)}

    def _row(self, loft_deg: float, club: ClubKey) -> NDArray[np.float64]:
        degrees = loft_deg - self.baseline_loft_deg
        row = np.zeros(len(self.covariance))
        row[:_LINE_TERMS] = 1.0, degrees, degrees**2
        for part in self._parts_named(club):
            if part in self._places:
                row[self._places[part]] = 1.0
        return row

    def _variance(self, row: NDArray[np.float64]) -> float:
        return float(row @ self._covariance @ row)

    def _of_new_parts(self, clubs: Sequence[ClubKey]) -> float:
        """What heads and shafts that were not hit add; one that two clubs share adds nothing."""
        new = [p for club in clubs for p in self._parts_named(club) if p not in self._places]
        doubt = {"head": self.head_variance, "shaft": self.shaft_variance}
        return sum(doubt[kind] for kind, key in new if not key or new.count((kind, key)) == 1)

    def _parts_named(self, club: ClubKey) -> tuple[tuple[str, str], tuple[str, str]]:
        parts = self.parts(club)
        return ("head", parts.head), ("shaft", parts.shaft)


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
        NotAFigure: a figure is no number, a loft not between 0 and 90 degrees, or a carry not
            above nought or over 500 m.
    """
    if not (math.isfinite(baseline_loft_deg) and math.isfinite(baseline_carry_m)):
        raise NotAFigure("The pitching wedge needs a measured loft and a carry.")
    if baseline_carry_m <= 0:
        raise NotAFigure("The pitching wedge's carry must be above 0.")
    hit = [*shots, *stated]
    carries = [shot.carry_m for shot in hit]
    refuse_no_loft(baseline_loft_deg, *(shot.loft_deg for shot in hit))
    if not all(0 < far <= FARTHEST_CARRY_M for far in (baseline_carry_m, *carries)):
        raise NotAFigure(f"A carry is above 0 and at most {FARTHEST_CARRY_M:.0f} m.")
    carry = baseline_carry_m
    prior = LinePrior(
        intercept=carry,
        slope=EXPECTED_SLOPE * carry,
        intercept_doubt=(CARRY_DOUBT_IF_HIT if is_baseline_hit else CARRY_DOUBT) * carry,
        slope_doubt=SLOPE_DOUBT * carry,
        spread=EXPECTED_SPREAD * carry,
        spread_belief=SPREAD_BELIEF,
        curvature_doubt=CURVATURE_DOUBT * carry,
        head_doubt=HEAD_DOUBT * carry,
        shaft_doubt=SHAFT_DOUBT * carry,
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
    own spread, as the conjugate form has it. Curvature and each head's and shaft's offset are
    coefficients like the others, believed to be nought. Solved in units of each doubt, so that a
    doubt of 0 leaves its coefficient where it is believed to be.

    Raises:
        NotAFigure: a figure or a belief is no number, or too little is known of the spread.
    """
    seen = [*shots, *stated]
    _refuse(baseline_loft_deg, baseline_carry_m, seen, prior)
    heads = list(dict.fromkeys(shot.on_line.head for shot in seen))
    shafts = list(dict.fromkeys(shot.on_line.shaft for shot in seen))
    design = _design(seen, baseline_loft_deg, heads, shafts)
    carries = np.array([shot.carry_m for shot in seen], dtype=float)
    offsets = len(heads) + len(shafts)
    believed = np.array([prior.intercept, prior.slope, 0.0, *[0.0] * offsets])
    doubts = np.array(
        [
            prior.intercept_doubt,
            prior.slope_doubt,
            prior.curvature_doubt,
            *[prior.head_doubt] * len(heads),
            *[prior.shaft_doubt] * len(shafts),
        ]
    )
    scale = doubts / prior.spread
    scaled = design * scale
    shrunk = np.linalg.inv(np.eye(len(scale)) + scaled.T @ scaled)
    moved = shrunk @ (scaled.T @ (carries - design @ believed))
    line = believed + scale * moved
    missed = carries - design @ line
    freedom = prior.spread_belief + len(seen)
    squares = prior.spread_belief * prior.spread**2 + float(missed @ missed) + float(moved @ moved)
    covariance = scale[:, None] * shrunk * scale
    _, _, _, *off = map(float, line)
    return CarryLine(
        baseline_loft_deg=baseline_loft_deg,
        baseline_carry_m=baseline_carry_m,
        shots=len(shots),
        intercept_m=float(line[0]),
        slope_m_per_deg=float(line[1]),
        shot_sd_m=math.sqrt(squares / freedom),
        degrees_of_freedom=freedom,
        covariance=tuple(tuple(map(float, row)) for row in covariance),
        hit_lofts_deg=tuple(sorted({shot.loft_deg for shot in shots})),
        curvature_m_per_deg2=float(line[2]),
        heads=MappingProxyType(dict(zip(heads, off, strict=False))),
        shafts=MappingProxyType(dict(zip(shafts, off[len(heads) :], strict=True))),
        head_variance=(prior.head_doubt / prior.spread) ** 2,
        shaft_variance=(prior.shaft_doubt / prior.spread) ** 2,
        clubs=MappingProxyType(_names(seen)),
    )


def refuse_no_loft(*lofts_deg: float) -> None:
    """Raise NotAFigure where a loft of a player's club is not between 0 and 90 degrees."""
    if not all(0 < loft < 90 for loft in lofts_deg):
        raise NotAFigure("A loft is an angle between 0 and 90 degrees.")


def _names(seen: Iterable[LoftCarry]) -> dict[str, ClubOnLine]:
    """Each head's key names the club as it was last hit."""
    return {shot.on_line.head: shot.on_line for shot in seen}


def _refuse(
    baseline_loft_deg: float, baseline_carry_m: float, seen: Sequence[LoftCarry], prior: LinePrior
) -> None:
    figures = [figure for shot in seen for figure in (shot.loft_deg, shot.carry_m)]
    if not all(math.isfinite(figure) for figure in figures):
        raise NotAFigure("A shot has a loft or a carry that is not a number.")
    beliefs = (prior.intercept, prior.slope, prior.spread_belief)
    if not all(math.isfinite(figure) for figure in (baseline_loft_deg, baseline_carry_m, *beliefs)):
        raise NotAFigure("The line begins at a loft, a carry and beliefs that are numbers.")
    wide = (prior.intercept_doubt, prior.slope_doubt, prior.spread)
    maybe_none = (prior.curvature_doubt, prior.head_doubt, prior.shaft_doubt)
    if not all(math.isfinite(one) and one > 0 for one in wide):
        raise NotAFigure("What is believed of a line has doubts that are numbers above 0.")
    if not all(math.isfinite(one) and one >= 0 for one in maybe_none):
        raise NotAFigure("How far a line bends or a club lies off it is a number, not below 0.")
    if prior.spread_belief + len(seen) <= 0:
        raise NotAFigure("Without a belief in the spread a line needs more shots.")


def _design(
    seen: Sequence[LoftCarry],
    baseline_loft_deg: float,
    heads: Sequence[str],
    shafts: Sequence[str],
) -> NDArray[np.float64]:
    """A row for each shot: one, degrees below the pitching wedge, their square, head and shaft."""
    design = np.zeros((len(seen), _LINE_TERMS + len(heads) + len(shafts)))
    at_head = {key: place for place, key in enumerate(heads, start=_LINE_TERMS)}
    at_shaft = {key: place for place, key in enumerate(shafts, start=_LINE_TERMS + len(heads))}
    for row, shot in enumerate(seen):
        degrees = shot.loft_deg - baseline_loft_deg
        design[row, :_LINE_TERMS] = 1.0, degrees, degrees**2
        design[row, at_head[shot.on_line.head]] = 1.0
        design[row, at_shaft[shot.on_line.shaft]] = 1.0
    return design
