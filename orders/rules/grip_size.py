"""The diameters a grip is to measure: 2 in under the cap, and 6 in under it for the lower hand.

A forecast; the calliper decides. Assumptions, common practice: butt and core stay even down to
6 in, a layer of tape is as thick as the shop's setting says, and the rubber keeps its section.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from sessions.maths.cutting import grip_fit
from sessions.maths.errors import MathsError


@dataclass(frozen=True, slots=True)
class GripOnButt:
    """A grip, what it goes on and its tape [mm and layers]; None where a figure isn't known.

    `outside_mm` and `lower_outside_mm` are as made, 2 in and 6 in under the cap.
    """

    butt_mm: Decimal | None
    core_mm: Decimal | None
    outside_mm: Decimal | None
    lower_outside_mm: Decimal | None
    extra_layers: int
    lower_extra_layers: int


@dataclass(frozen=True, slots=True)
class GripDiameters:
    """What to measure [mm] at 2 in and at 6 in; None where it can't be told."""

    at_2_in_mm: Decimal | None
    at_6_in_mm: Decimal | None


def grip_diameters(grip: GripOnButt, *, tape_mm: Decimal, base_layers: int) -> GripDiameters:
    """Return the diameters to measure. The lower hand's extra comes on top of the other extra."""

    def over_tape(outside_mm: Decimal | None, layers: int) -> Decimal | None:
        if grip.butt_mm is None or grip.core_mm is None or outside_mm is None:
            return None
        try:
            return grip_fit(
                butt_mm=grip.butt_mm,
                core_mm=grip.core_mm,
                grip_outside_mm=outside_mm,
                base_layers=base_layers,
                extra_layers=layers,
                tape_mm=tape_mm,
            ).outside_mm
        except MathsError:
            return None

    return GripDiameters(
        over_tape(grip.outside_mm, grip.extra_layers),
        over_tape(grip.lower_outside_mm, grip.extra_layers + grip.lower_extra_layers),
    )
