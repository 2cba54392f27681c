"""Figures as the capture pages are told them: once rounded, in the player's and shop's units."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from sessions.maths.shown import (
    distance_in,
    show_inches,
    show_length,
    show_swing_weight,
)
from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.wording import figure
from sessions.selectors.equipment import (
    LengthUnit,
)

Document = dict[str, Any]


def as_text(value: Any) -> str | None:
    """A figure or an id as text; None stays None."""
    if value is None:
        return None
    return str(value) if isinstance(value, UUID) else figure(value)


def distance_shown(distance_m: float | None, unit: DistanceUnit, decimals: int = 1) -> Any:
    """A distance as a number of `unit`; None where it was not measured."""
    if distance_m is None:
        return None
    rounded = round(distance_in(distance_m, unit), decimals)
    return int(rounded) if rounded == int(rounded) else rounded


def length_shown(length_mm: Any, unit: LengthUnit) -> str:
    if length_mm is None:
        return ""
    return show_inches(length_mm) if unit == "in" else show_length(length_mm, unit)


def swing_weight_shown(points: Any) -> str:
    return "" if points is None else show_swing_weight(points)
