"""One club's length as each ruler has it: what stands beside the field, what a reading means."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import Literal

from orders.models import OrderClub, Reading
from orders.rules.lengths import (
    ALONG_THE_SHAFT,
    BY_THE_RULES,
    HOW,
    METHODS,
    MISSING_WORDS,
    Missing,
    Stance,
    length_as,
)
from sessions.maths.shown import show_length
from sessions.maths.unit_factors import MM_PER_INCH

Unit = Literal["in", "mm"]
# The method in two words, beside a figure that was read by it.
BY = {BY_THE_RULES: "by the 60° stop", ALONG_THE_SHAFT: "along the shaft"}


@dataclass(frozen=True, slots=True)
class RulerTarget:
    """The target as one method reads it, or why that can't be said."""

    method: str
    reads: str
    missing: str

    @property
    def how(self) -> str:
        """From where to where it is read."""
        return HOW[self.method]

    @property
    def label(self) -> str:
        """For a choice of rulers: `along the shaft, target 35 5/8 in`."""
        return f"{BY[self.method]}, {f'target {self.reads}' if self.reads else 'not for this head'}"


def stance_of(club: OrderClub) -> Stance:
    """How it stands for a ruler: at its lie as built, as it is to be until then."""
    lie, point = club.as_built_lie_deg, club.as_received_sole_point_mm
    return Stance(
        club.target_lie_deg if lie is None else lie, club.sole_point_mm if point is None else point
    )


def in_targets_method(club: OrderClub, reading: Reading) -> Decimal | Missing:
    """A length read, as the club's target is meant [mm]."""
    return length_as(
        reading.value,
        read_by=reading.length_method or club.length_method,
        wanted=club.length_method,
        stance=stance_of(club),
    )


def ruler_targets(club: OrderClub, unit: Unit) -> dict[str, RulerTarget]:
    """What each method reads when the length is right, by method."""
    found = {}
    for method in METHODS:
        length = length_as(
            club.target_length_mm,
            read_by=club.length_method,
            wanted=method,
            stance=stance_of(club),
        )
        found[method] = (
            RulerTarget(method, "", MISSING_WORDS[length])
            if isinstance(length, Missing)
            else RulerTarget(method, show_length(length, unit), "")
        )
    return found


def other_ruler(club: OrderClub, unit: Unit) -> RulerTarget:
    """The target by the method that the spec does not speak in."""
    other = ALONG_THE_SHAFT if club.length_method == BY_THE_RULES else BY_THE_RULES
    return ruler_targets(club, unit)[other]


def turned_words(club: OrderClub, readings: Sequence[Reading], unit: str) -> list[str]:
    """Each length that was read by another method than the target's, in both.

    `35 5/8 in along the shaft is 35.498 in by the 60° stop`.
    """
    said = []
    for reading in readings:
        method = reading.length_method
        if method in ("", club.length_method):
            continue
        length = in_targets_method(club, reading)
        read = f"{show_length(reading.value, 'mm' if unit == 'mm' else 'in')} {BY[method]}"
        said.append(
            f"{read} can't be turned into this target: {MISSING_WORDS[length]}"
            if isinstance(length, Missing)
            else f"{read} is {_exactly(length, unit)} {BY[club.length_method]}"
        )
    return said


def _exactly(length_mm: Decimal, unit: str) -> str:
    if unit == "mm":
        return f"{length_mm.quantize(Decimal('0.1'), ROUND_HALF_UP)} mm"
    return f"{(length_mm / MM_PER_INCH).quantize(Decimal('0.001'), ROUND_HALF_UP)} in"
