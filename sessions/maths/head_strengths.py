"""How strong heads are in one player's own comparisons, and how sure that is.

Bradley-Terry: the chance that head A is preferred to head B is logistic in the difference of
their strengths (key ``bradley-terry``). Only which of two was preferred counts, never by how
much: ratings are ordinal, and they are never averaged over people. A head that won or lost every
time has no finite strength without a belief: before any round all strengths are normal about the
same nought with standard deviation ``PRIOR_SD``. At 1.0 the better of two heads is expected to be
preferred about 73 times in a hundred (common practice: differences between good soles are small).

The doubt is the curvature at the top (Laplace): strengths against the mean of all heads.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import special

from sessions.maths.errors import NotAFigure

PRIOR_SD = 1.0
# Wider than that it is no belief, and strengths that were never told apart have no finite value.
WIDEST_BELIEF = 1000
# Half of a normal's 90 % range, in standard deviations.
NORMAL_90 = 1.6449
_STEPS = 50
_CLOSE = 1e-10


@dataclass(frozen=True)
class HeadStrength:
    """A head's strength against the mean of all, its standard deviation, wins and rounds told."""

    head_id: str
    strength: float
    sd: float
    wins: int
    rounds: int


@dataclass(frozen=True)
class HeadStrengths:
    """All heads, strongest first; ``covariance`` is in the order they were given in."""

    heads: tuple[HeadStrength, ...]
    given: tuple[str, ...]
    covariance: NDArray[np.float64]

    def chance(self, head_id: str, other_id: str) -> float:
        """Return the chance that the first is preferred to the second, the doubt taken in.

        The logistic of a normal difference, by the usual approximation (MacKay's, from memory).
        """
        apart, variance = self._apart(head_id, other_id)
        return float(special.expit(apart / math.sqrt(1 + math.pi * variance / 8)))

    def could_be_either(self, head_id: str, other_id: str) -> bool:
        """Return True while the 90 % range of the difference of two strengths holds nought."""
        apart, variance = self._apart(head_id, other_id)
        return abs(apart) <= NORMAL_90 * math.sqrt(variance)

    def _apart(self, head_id: str, other_id: str) -> tuple[float, float]:
        """The difference of two strengths and its variance."""
        strengths = {head.head_id: head.strength for head in self.heads}
        one, other = self.given.index(head_id), self.given.index(other_id)
        variance = float(
            self.covariance[one, one]
            + self.covariance[other, other]
            - 2 * self.covariance[one, other]
        )
        return strengths[head_id] - strengths[other_id], max(variance, 0.0)


def preferences(scores: Sequence[dict[str, int]]) -> tuple[tuple[str, str], ...]:
    """Return (preferred, other) for each two heads rated differently in one round.

    Args:
        scores: a round each: one person's score of one question, by head. Scores of different
            people or questions belong in different rounds.
    """
    return tuple(
        (one, other)
        for round_ in scores
        for one in round_
        for other in round_
        if round_[one] > round_[other]
    )


def head_strengths(
    head_ids: Sequence[str], told: Sequence[tuple[str, str]], *, prior_sd: float = PRIOR_SD
) -> HeadStrengths:
    """Return the strengths of heads from which was preferred to which.

    Args:
        head_ids: two or more different heads.
        told: (preferred, other), any number of times, in any order.
        prior_sd: of the belief in each strength, above nought.

    Raises:
        NotAFigure: fewer than two heads, one named twice or not at all, or a belief that is none.
    """
    n = len(head_ids)
    if n < 2 or len(set(head_ids)) != n:
        raise NotAFigure("Strengths are told of two or more different heads.")
    if not 0 < prior_sd <= WIDEST_BELIEF:
        raise NotAFigure(f"The belief in a strength needs a spread above 0, up to {WIDEST_BELIEF}.")
    places = {head: place for place, head in enumerate(head_ids)}
    if any(head not in places for pair in told for head in pair):
        raise NotAFigure("A head was compared that is not among the heads.")
    wins = np.zeros((n, n))
    for preferred, other in told:
        if preferred == other:
            raise NotAFigure("A head is not compared with itself.")
        wins[places[preferred], places[other]] += 1
    strengths, hessian = _strongest(wins, prior_sd)
    centre = np.eye(n) - 1 / n
    covariance = centre @ np.linalg.inv(hessian) @ centre
    shown = centre @ strengths
    heads = tuple(
        HeadStrength(
            head,
            float(shown[place]),
            math.sqrt(max(float(covariance[place, place]), 0.0)),
            int(wins[place].sum()),
            int(wins[place].sum() + wins[:, place].sum()),
        )
        for head, place in places.items()
    )
    return HeadStrengths(
        tuple(sorted(heads, key=lambda head: (-head.strength, head.head_id))),
        tuple(head_ids),
        covariance,
    )


def _strongest(
    wins: NDArray[np.float64], prior_sd: float
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Newton's method: the likeliest strengths under the belief, and the curvature there."""
    n = len(wins)
    rounds = wins + wins.T
    strengths = np.zeros(n)
    hessian = np.eye(n)
    for _ in range(_STEPS):
        chances = special.expit(strengths[:, None] - strengths[None, :])
        slope = (wins - rounds * chances).sum(axis=1) - strengths / prior_sd**2
        weights = rounds * chances * (1 - chances)
        hessian = np.diag(weights.sum(axis=1) + 1 / prior_sd**2) - weights
        step = np.linalg.solve(hessian, slope)
        strengths = strengths + step
        if float(np.abs(step).max()) < _CLOSE:
            break
    return strengths, hessian
