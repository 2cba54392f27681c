"""Readers of one kind of figure each, and what is believable in an entry of a tablet."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal, InvalidOperation
from typing import Any

from sessions.maths.errors import UnitRefused
from sessions.maths.units import (
    M_PER_FOOT,
    DistanceUnit,
    Limits,
    parse_angle,
    parse_count,
    parse_distance,
)

# A chip may carry a yard or two; the others are what the columns hold.
SHOT_CARRY_M: Limits = (Decimal(1), Decimal(320))
CLUB_CARRY_M: Limits = (Decimal(5), Decimal(320))
BALL_SPEED_MS: Limits = (Decimal(1), Decimal(100))
LAUNCH_DEG: Limits = (Decimal(-10), Decimal(80))
AXIS_DEG: Limits = (Decimal(-90), Decimal(90))
LANDING_DEG: Limits = (Decimal(0), Decimal(90))
LEAN_DEG: Limits = (Decimal(-40), Decimal(60))
TEMPERATURE_C: Limits = (Decimal(-20), Decimal(50))
PRESSURE_HPA: Limits = (Decimal(600), Decimal(1100))
ALTITUDE_M: Limits = (Decimal(-430), Decimal(5000))
HUMIDITY_PCT: Limits = (Decimal(0), Decimal(100))
WIND_MS: Limits = (Decimal(0), Decimal(40))
WIND_TO_DEG: Limits = (Decimal(-180), Decimal(360))


def carry_of(unit: DistanceUnit, limits: Limits, name: str = "carry") -> Callable[[str], float]:
    return lambda text: parse_distance(text, unit=unit, name=name, limits=limits)


def degrees_of(name: str, limits: Limits, example: str) -> Callable[[str], float]:
    return lambda text: float(parse_angle(text, name=name, limits=limits, example=example))


def plain_of(
    name: str, limits: Limits, suffixes: tuple[str, ...], example: str, unit: str
) -> Callable[[str], float]:
    """A figure in the one unit it has, with or without it; the unit stands in the refusal."""

    def parse(text: str) -> float:
        bare = text.strip().casefold()
        for suffix in suffixes:
            bare = bare.removesuffix(suffix).rstrip()
        try:
            figure = Decimal(bare.replace(",", "."))
        except InvalidOperation:
            figure = Decimal("NaN")
        article, (low, high) = ("an" if name[0] in "aeiou" else "a"), limits
        if not figure.is_finite():
            raise UnitRefused(f"Type {article} {name} in {unit}, for example {example}.")
        if not low <= figure <= high:
            raise UnitRefused(
                f"{article.capitalize()} {name} of {figure:f} {unit} is not believable: "
                f"{low} to {high}."
            )
        return float(figure)

    return parse


def temperature_of(text: str) -> float:
    """Degrees Celsius, or Fahrenheit where an F stands behind the figure."""
    bare = text.strip().casefold().replace("°", " ").rstrip()
    if not bare.endswith("f"):
        return plain_of("temperature", TEMPERATURE_C, ("c",), "18", "degrees C")(bare)
    fahrenheit: Limits = (Decimal(-4), Decimal(122))
    return (plain_of("temperature", fahrenheit, ("f",), "64", "degrees F")(bare) - 32) * 5 / 9


def altitude_of(text: str) -> float:
    """Metres, or feet where the figure says so."""
    bare = text.strip().casefold()
    if not bare.endswith(("ft", "feet")):
        return plain_of("altitude", ALTITUDE_M, ("m", "metres"), "120", "metres")(bare)
    low, high = (limit / M_PER_FOOT for limit in ALTITUDE_M)
    return plain_of("altitude", (low, high), ("ft", "feet"), "400", "feet")(bare) * float(
        M_PER_FOOT
    )


def slot_of(text: str) -> int:
    return parse_count(text, name="slot", limits=(Decimal(1), Decimal(14)), example="1")


def count_of(text: Any) -> int:
    if text in (None, ""):
        return 0
    return parse_count(str(text), name="count", limits=(Decimal(0), Decimal(14)), example="2")
