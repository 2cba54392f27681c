"""A reading as the bench sees it again: as it was typed, with the unit that it was taken in."""

from __future__ import annotations

import re
from decimal import Decimal

from orders.models import Reading
from orders.models.bench import Measure
from orders.selectors.lengths import BY
from sessions.maths.errors import UnitRefused
from sessions.maths.units import parse_length

ONLY_A_NUMBER = re.compile(r"[\d\s.,/+-]+")
LENGTHS = (Measure.LENGTH, Measure.GRIP_DIAMETER, Measure.SOLE_POINT)
MASSES = (Measure.HEAD_MASS, Measure.TOTAL_MASS)
ANY_LENGTH_MM = (Decimal(0), Decimal(2000))


def unit_beside(measure: str, length_unit: str) -> str:
    """What stands beside the field: the unit of a number alone. A swing weight shows its form."""
    if measure in LENGTHS:
        return "mm" if length_unit == "mm" else "in"
    if measure in MASSES:
        return "g"
    return "as D2" if measure == Measure.SWING_WEIGHT else "°"


def read_by_words(reading: Reading) -> str:
    """By which gauge, and for a length by which method: `Bench ruler, along the shaft, Odo Lark`"""
    method = BY.get(reading.length_method, "")
    gauge = reading.gauge.name if reading.gauge is not None else ""
    return ", ".join(word for word in (gauge, method, reading.read_by) if word)


def reading_words(reading: Reading) -> str:
    """`55.2°`, `35 1/4 in`, `D4`: nothing is added to what was typed with its unit already."""
    typed = reading.as_typed.strip()
    measure = reading.measure
    if not typed:
        typed = f"{Decimal(reading.value).normalize():f}"
        return f"{typed}{_suffix(measure, 'mm')}"
    if ONLY_A_NUMBER.fullmatch(typed) is None:
        return typed
    return f"{typed}{_suffix(measure, _length_unit_typed(typed, reading.value))}"


def _suffix(measure: str, length_unit: str) -> str:
    if measure == Measure.SWING_WEIGHT:
        return " points"
    unit = unit_beside(measure, length_unit)
    return unit if unit == "°" else f" {unit}"


def _length_unit_typed(typed: str, value_mm: Decimal) -> str:
    """The unit the shop had when a length was typed: the one in which it comes to what is kept."""
    try:
        as_mm = parse_length(typed, unit="mm", limits=ANY_LENGTH_MM)
    except UnitRefused:
        return "in"
    return "mm" if abs(as_mm - value_mm) < Decimal("0.01") else "in"
