"""The dry swing weight of a club from its parts, and the weight that its hosel wants.

A forecast from stated masses; the scale decides. Assumptions, common practice: the head's centre
lies at the club's length along the shaft; a shaft loses mass with its length evenly; a grip's
centre is at two fifths of its length. Epoxy, ferrule and tape are left out.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from sessions.maths.balance import AddedWeight, Part, balance, weight_to_add
from sessions.maths.errors import MathsError

MM_PER_INCH = 25.4
GRIP_CENTRE = 0.4


@dataclass(frozen=True, slots=True)
class DryParts:
    """One club's parts [mm and g]; None where a figure isn't known."""

    length_mm: Decimal
    head_g: Decimal | None
    bore_to_ground_mm: Decimal | None
    shaft_g: Decimal | None
    shaft_raw_mm: Decimal | None
    shaft_balance_mm: Decimal | None
    tip_trim_mm: Decimal
    grip_g: Decimal | None
    grip_length_mm: Decimal | None
    cap_mm: Decimal | None


@dataclass(frozen=True, slots=True)
class DryWeight:
    """What the parts come to [points above D0], and what is to be added for the target."""

    points: float
    added: AddedWeight | None


def dry_weight(
    parts: DryParts, *, target_points: Decimal | None, most_added_g: Decimal
) -> DryWeight | None:
    """Return the forecast, or None where one of the parts' figures isn't known."""
    found = dry_club(parts)
    if found is None or parts.bore_to_ground_mm is None:
        return None
    try:
        points = balance(found).swing_weight_points
        added = (
            weight_to_add(
                found,
                float(target_points),
                at_in=float(parts.length_mm - parts.bore_to_ground_mm) / MM_PER_INCH,
                most_allowed_g=float(most_added_g),
            )
            if target_points is not None
            else None
        )
    except MathsError:
        return None
    return DryWeight(points, added)


def dry_club(parts: DryParts) -> list[Part] | None:
    """Return head, shaft as cut, and grip with their places, or None where a figure isn't known
    or the shaft is too short for the club."""
    known = (
        parts.head_g,
        parts.shaft_g,
        parts.shaft_raw_mm,
        parts.shaft_balance_mm,
        parts.grip_g,
        parts.grip_length_mm,
        parts.cap_mm,
        parts.bore_to_ground_mm,
    )
    if any(figure is None for figure in known):
        return None
    head, shaft, raw, centre, grip, grip_length, cap, to_ground = (
        float(figure) for figure in known if figure is not None
    )
    length = float(parts.length_mm)
    tip = float(parts.tip_trim_mm)
    cut = length - cap - to_ground
    butt = raw - tip - cut
    if cut <= 0 or butt < 0 or not shaft > 0:
        return None
    density = shaft / raw
    left = density * cut
    moment = shaft * centre - density * butt * butt / 2 - density * tip * (raw - tip / 2)
    from_butt = moment / left - butt + cap
    return [
        Part("head", head, length / MM_PER_INCH),
        Part("shaft", left, from_butt / MM_PER_INCH),
        Part("grip", grip, grip_length * GRIP_CENTRE / MM_PER_INCH),
    ]
