"""A pressure as it is noted, held against how high the place lies.

A weather report's pressure is brought to sea level: taken for the place's own at 1,600 m it is a
fifth too much, and home figures turn round.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from sessions.maths.air import pressure_at_place_hpa, standard_pressure_hpa
from sessions.maths.errors import AirRefused

# A day's weather moves the pressure at a place by 2 % or so; twice that is no weather.
# Common practice.
FARTHEST_FROM_STANDARD: Final = 0.04
NO_ALTITUDE = "Type the altitude too: a weather report's pressure is brought to sea level."


@dataclass(frozen=True, slots=True)
class PressureNoted:
    """The pressure at the place [hPa], or the sentence that says why it is not taken."""

    pressure_hpa: float | None = None
    refusal: str = ""


def pressure_noted(
    pressure_hpa: float | None, altitude_m: float | None, *, is_from_report: bool = False
) -> PressureNoted:
    """The pressure at the place from what was typed; a report's is taken down from sea level."""
    if pressure_hpa is None:
        return PressureNoted()
    if is_from_report:
        return _of_report(pressure_hpa, altitude_m)
    doubt = pressure_doubt(pressure_hpa, altitude_m)
    return PressureNoted(refusal=doubt) if doubt else PressureNoted(pressure_hpa)


def pressure_doubt(pressure_hpa: float, altitude_m: float | None) -> str:
    """Why a pressure can't be the one at a place so high; "" where it can, or nothing is known."""
    if altitude_m is None:
        return ""
    try:
        usual = standard_pressure_hpa(altitude_m)
    except AirRefused:
        return ""
    apart = pressure_hpa / usual - 1
    if abs(apart) <= FARTHEST_FROM_STANDARD:
        return ""
    place = f"at this place, {altitude_m:,.0f} m up, it is about {usual:.0f} hPa"
    if apart > 0 and altitude_m > 0:
        return (
            f"{pressure_hpa:g} hPa is a sea-level figure: {place}. "
            f"From a weather report, type: {pressure_hpa:g} sea level."
        )
    return f"{pressure_hpa:g} hPa does not fit: {place}. Look at both figures again."


def _of_report(pressure_hpa: float, altitude_m: float | None) -> PressureNoted:
    if altitude_m is None:
        return PressureNoted(refusal=NO_ALTITUDE)
    try:
        return PressureNoted(pressure_at_place_hpa(pressure_hpa, altitude_m))
    except AirRefused as refused:
        return PressureNoted(refusal=str(refused))
