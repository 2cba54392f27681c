"""Metric figures as people read them. Each is rounded once, here, half away from zero."""

import math
from decimal import ROUND_HALF_UP, Decimal
from typing import Literal

from sessions.maths.errors import NotAFigure
from sessions.maths.unit_factors import (
    KMH_PER_MPS,
    M_PER_YARD,
    MM_PER_INCH,
    MPS_PER_MPH,
    DistanceUnit,
    SpeedUnit,
)

# What differs further on is float noise: 86.49999999999 yd are 86.5.
NOISE, LARGE = Decimal("1e-9"), 15
SWING_WEIGHT_LETTERS = "ABCDEFG"
_YARDS_OR_METRES = {"yd": M_PER_YARD, "m": Decimal(1)}
_SPEEDS = {"mph": MPS_PER_MPH, "m/s": Decimal(1), "km/h": 1 / KMH_PER_MPS}


def show_inches(length_mm: Decimal) -> str:
    """Show a length in inches to the nearest sixteenth, `35 7/16 in`."""
    sixteenths = int((_figure(length_mm) / MM_PER_INCH * 16).quantize(Decimal(1), ROUND_HALF_UP))
    whole, rest = divmod(abs(sixteenths), 16)
    shared = math.gcd(rest, 16)
    parts = [str(whole)] if whole or not rest else []
    if rest:
        parts.append(f"{rest // shared}/{16 // shared}")
    return f"{'-' if sixteenths < 0 else ''}{' '.join(parts)} in"


def show_length(length_mm: Decimal, unit: Literal["in", "mm"]) -> str:
    """Show a length as the shop reads it: sixteenths of an inch, or millimetres."""
    return show_inches(length_mm) if unit == "in" else f"{_rounded(length_mm, 0)} mm"


def distance_in(distance_m: float, unit: DistanceUnit) -> float:
    """Return a distance in metres as a number of ``unit``, unrounded (for charts)."""
    return float(_figure(distance_m) / _YARDS_OR_METRES[unit])


def show_distance(distance_m: float, unit: DistanceUnit, decimals: int = 0) -> str:
    """Show a distance rounded once, `107 yd`."""
    return f"{_rounded(_figure(distance_m) / _YARDS_OR_METRES[unit], decimals)} {unit}"


def show_side(side_m: float, unit: DistanceUnit) -> str:
    """Show a sideways distance in words, `4 yd left`, or `straight`."""
    text = show_distance(abs(side_m), unit)
    if text.startswith("0 "):
        return "straight"
    return f"{text} {'right' if side_m > 0 else 'left'}"


def show_degrees(angle_deg: Decimal | float) -> str:
    """Show an angle as a number with at most one decimal, `54` or `54.5`."""
    return _rounded(angle_deg, 1).removesuffix(".0")


def show_mass(mass_g: Decimal | float) -> str:
    """Show a mass in grams with at most one decimal, `302.5 g`."""
    return f"{_rounded(mass_g, 1).removesuffix('.0')} g"


def show_speed(speed_mps: float, unit: SpeedUnit) -> str:
    """Show a speed rounded to a whole number (metres per second to one decimal)."""
    decimals = 1 if unit == "m/s" else 0
    return f"{_rounded(_figure(speed_mps) / _SPEEDS[unit], decimals)} {unit}"


def show_rounded(value: Decimal | float, decimals: int = 0) -> str:
    """Show a bare figure, for a unit that is said elsewhere."""
    return _rounded(value, decimals)


def show_percent(percent: float) -> str:
    """Show a share as a whole number, `11` for 10.5 (float noise below a millionth is not told)."""
    return _rounded(round(percent, 6), 0)


def show_swing_weight(points: Decimal | float) -> str:
    """Show points above D0 as a letter and points with at most one decimal, `D2.5`."""
    rounded = _figure(points).quantize(Decimal("0.1"), ROUND_HALF_UP)
    letter, rest = divmod(rounded + 30, 10)
    if rest < 0:  # Decimal's divmod cuts towards zero; the scale runs upwards.
        letter, rest = letter - 1, rest + 10
    if not 0 <= letter < len(SWING_WEIGHT_LETTERS):
        raise NotAFigure(f"A swing weight {rounded} points from D0 is off the scale A0 to G9.")
    return f"{SWING_WEIGHT_LETTERS[int(letter)]}{str(rest).removesuffix('.0')}"


def _figure(value: Decimal | float) -> Decimal:
    exact = value if isinstance(value, Decimal) else Decimal(repr(float(value)))
    if not exact.is_finite():
        raise NotAFigure("There is no figure to show here.")
    return exact


def _rounded(value: Decimal | float, decimals: int) -> str:
    exact = _figure(value)
    if exact.adjusted() < LARGE:
        exact = exact.quantize(NOISE, ROUND_HALF_UP)
    rounded = exact.quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP)
    return str(rounded if rounded else abs(rounded))
