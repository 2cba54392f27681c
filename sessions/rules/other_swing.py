"""Whether a ball's carry fits another swing far better than the one that it was recorded in.

A chip that is recorded among full swings moves their mean by yards, and nobody sees why. So it is
asked about; it is never moved by itself. Pure: counts, means and spreads.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import fmean, stdev
from typing import Final

FULL: Final = ("full", "flat_out", "three_quarter")
CHIP: Final = "chip"


@dataclass(frozen=True, slots=True)
class OtherSwingLimits:
    """`far` and `near` in spreads of one ball, `least` balls, the others as shares of a carry.

    `spread_least`: no swing is taken to be hit more evenly than this share of its mean.
    """

    far: float
    near: float
    least: int
    spread_least: float
    chip_most: float


@dataclass(frozen=True, slots=True)
class Carries:
    """The balls of one swing that a ball is held against."""

    mean_m: float
    spread_m: float

    def away(self, carry_m: float) -> float:
        """How many spreads a carry is off the mean."""
        off = abs(carry_m - self.mean_m)
        return off / self.spread_m if self.spread_m else (math.inf if off else 0.0)


def carries(carries_m: Sequence[float], limits: OtherSwingLimits) -> Carries | None:
    """Mean and spread of enough balls; None of fewer."""
    if len(carries_m) < max(2, limits.least):
        return None
    mean = fmean(carries_m)
    return Carries(mean, max(stdev(carries_m), limits.spread_least * mean))


def fits_better(
    carry_m: float,
    swing: str,
    hit_m: Mapping[str, Sequence[float]],
    limits: OtherSwingLimits,
) -> str | None:
    """The swing that a carry fits far better, or None.

    `hit_m`: the other balls by swing, its own swing among them. Where no chip was hit yet, a ball
    that went no farther than `chip_most` of a full swing is taken for one.
    """
    here = carries(hit_m.get(swing, ()), limits)
    if here is None or here.away(carry_m) < limits.far:
        return None
    others = {
        other: there
        for other, each in hit_m.items()
        if other != swing and (there := carries(each, limits)) is not None
    }
    near = {other: there.away(carry_m) for other, there in others.items()}
    best = min(near, key=near.__getitem__, default=None)
    if best is not None and near[best] <= limits.near:
        return best
    is_chip = swing in FULL and CHIP not in others and carry_m <= limits.chip_most * here.mean_m
    return CHIP if is_chip else None
