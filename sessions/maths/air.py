"""The air a ball flies through: its density from what a fitter can read off or look up.

Pressure is the pressure **at the place** (station pressure). A weather report's is brought to sea
level and would be wrong by a seventh at 1,200 m: ``pressure_at_place_hpa`` takes that back.

Altitude is what a map says, geometric metres above mean sea level. The standard atmosphere is
defined in geopotential metres; the two differ by 0.5 m at 1,800 m and are converted here.

Moist air: the CIPM-2007 equation (key ``cipm-2007``), good to 1e-4 against CoolProp from 5 to 40
degrees C; below freezing the vapour is taken over water. Standard atmosphere: ISO 2533, the same as
the US Standard Atmosphere 1976 (key ``us-standard-1976``) up to 11 km.
"""

import math
from dataclasses import dataclass

from sessions.maths.errors import AirRefused

KELVIN_0C = 273.15
# CIPM-2007, with the usual 400 ppm of carbon dioxide.
GAS_CONSTANT = 8.314472
MOLAR_MASS_DRY = 28.96546e-3
MOLAR_MASS_WATER = 18.01528e-3
VAPOUR_PRESSURE = (1.2378847e-5, -1.9121316e-2, 33.93711047, -6.3431645e3)
ENHANCEMENT = (1.00062, 3.14e-8, 5.6e-7)
COMPRESSIBILITY_A = (1.58123e-6, -2.9331e-8, 1.1043e-10)
COMPRESSIBILITY_B = (5.707e-6, -2.051e-8)
COMPRESSIBILITY_C = (1.9898e-4, -2.376e-6)
COMPRESSIBILITY_D = 1.83e-11
COMPRESSIBILITY_E = -0.765e-8
# The standard atmosphere's troposphere.
STANDARD_TEMPERATURE_K = 288.15
STANDARD_PRESSURE_HPA = 1013.25
LAPSE_K_PER_M = 0.0065
GAS_CONSTANT_AIR = 287.05287
STANDARD_GRAVITY = 9.80665
EARTH_RADIUS_M = 6_356_766.0
STANDARD_EXPONENT = STANDARD_GRAVITY / (GAS_CONSTANT_AIR * LAPSE_K_PER_M)
# Not measured: half saturated. From dry to saturated is 0.9 % of density at 20 degrees C.
USUAL_HUMIDITY_PCT = 50.0

TEMPERATURES_C = (-20.0, 50.0)
PRESSURES_HPA = (500.0, 1100.0)
SEA_LEVEL_PRESSURES_HPA = (850.0, 1100.0)
HUMIDITIES_PCT = (0.0, 100.0)
ALTITUDES_M = (-430.0, 5000.0)


@dataclass(frozen=True)
class Air:
    """The air at one place and time: temperature [degrees C], pressure there [hPa], humidity [%].

    Raises:
        AirRefused: a figure is no number or not believable where golf is played.
    """

    temperature_c: float
    pressure_hpa: float
    humidity_pct: float = USUAL_HUMIDITY_PCT

    def __post_init__(self) -> None:
        _within("temperature", self.temperature_c, TEMPERATURES_C, "degrees C")
        _within("pressure", self.pressure_hpa, PRESSURES_HPA, "hPa")
        _within("humidity", self.humidity_pct, HUMIDITIES_PCT, "%")

    @property
    def density_kg_m3(self) -> float:
        """Density [kg/m3] by CIPM-2007."""
        return moist_air_density(self.temperature_c, self.pressure_hpa, self.humidity_pct)


def air_of(
    temperature_c: float | None,
    *,
    pressure_hpa: float | None = None,
    altitude_m: float | None = None,
    humidity_pct: float | None = None,
) -> Air:
    """Return the air from what was noted: a pressure at the place, else the altitude's standard.

    A humidity that was not measured is taken as half. A day's weather moves the pressure at a
    given altitude by 2 % or so; that is the doubt of an altitude in the place of a gauge.

    Raises:
        AirRefused: no temperature, neither pressure nor altitude, or a figure not believable.
    """
    if temperature_c is None:
        raise AirRefused("The air needs a temperature.")
    if pressure_hpa is None:
        if altitude_m is None:
            raise AirRefused("The air needs a pressure, or the altitude in its place.")
        pressure_hpa = standard_pressure_hpa(altitude_m)
    humidity = USUAL_HUMIDITY_PCT if humidity_pct is None else humidity_pct
    return Air(temperature_c, pressure_hpa, humidity)


def air_elsewhere(here: Air, climb_m: float, altitude_m: float) -> Air:
    """Return the air of the same sort of day at another altitude, ``climb_m`` above (or below).

    The temperature falls by the standard atmosphere's 6.5 degrees a kilometre; the pressure is
    the standard one at ``altitude_m``; the humidity stays. What the weather is really like there
    is not known: this is the ordinary difference between two places on one day.

    Raises:
        AirRefused: the altitude is not believable, or the climb leads to air that is not.
    """
    pressure = standard_pressure_hpa(altitude_m)
    _within("climb", climb_m, (-5430.0, 5430.0), "m")
    return Air(here.temperature_c - LAPSE_K_PER_M * climb_m, pressure, here.humidity_pct)


def standard_air(altitude_m: float) -> Air:
    """Return the standard atmosphere at an altitude on the map, as dry air.

    Its density by CIPM-2007 is 0.04 % above ISO 2533's own, which treats air as an ideal gas.
    """
    return Air(standard_temperature_c(altitude_m), standard_pressure_hpa(altitude_m), 0.0)


def moist_air_density(temperature_c: float, pressure_hpa: float, humidity_pct: float) -> float:
    """Return the density of moist air [kg/m3], CIPM-2007 (key ``cipm-2007``).

    Args:
        temperature_c: -20 to 50 degrees C.
        pressure_hpa: at the place, 500 to 1,100 hPa (the equation is stated from 600).
        humidity_pct: relative, 0 to 100.

    Raises:
        AirRefused: a figure is no number or outside these limits.
    """
    t = _within("temperature", temperature_c, TEMPERATURES_C, "degrees C")
    p = _within("pressure", pressure_hpa, PRESSURES_HPA, "hPa") * 100
    humidity = _within("humidity", humidity_pct, HUMIDITIES_PCT, "%") / 100
    kelvin = t + KELVIN_0C
    vapour = humidity * _enhancement(t, p) * _saturation_pressure_pa(kelvin) / p
    z = _compressibility(t, p, kelvin, vapour)
    dry_share = 1 - vapour * (1 - MOLAR_MASS_WATER / MOLAR_MASS_DRY)
    return p * MOLAR_MASS_DRY / (z * GAS_CONSTANT * kelvin) * dry_share


def standard_temperature_c(altitude_m: float) -> float:
    """Return the standard atmosphere's temperature [degrees C] at an altitude on the map [m]."""
    return STANDARD_TEMPERATURE_K - LAPSE_K_PER_M * geopotential_m(altitude_m) - KELVIN_0C


def standard_pressure_hpa(altitude_m: float) -> float:
    """Return the standard atmosphere's pressure [hPa] at an altitude on the map [m]."""
    return STANDARD_PRESSURE_HPA * math.pow(_standard_share(altitude_m), STANDARD_EXPONENT)


def standard_density_kg_m3(altitude_m: float) -> float:
    """Return ISO 2533's own density [kg/m3] at an altitude on the map [m]: air as an ideal gas."""
    kelvin = standard_temperature_c(altitude_m) + KELVIN_0C
    return standard_pressure_hpa(altitude_m) * 100 / (GAS_CONSTANT_AIR * kelvin)


def standard_altitude_m(pressure_hpa: float) -> float:
    """Return the altitude on the map [m] at which the standard atmosphere has a pressure [hPa].

    Within 150 m or so of the place's own on most days.
    """
    _within("pressure", pressure_hpa, PRESSURES_HPA, "hPa")
    share = math.pow(pressure_hpa / STANDARD_PRESSURE_HPA, 1 / STANDARD_EXPONENT)
    height = STANDARD_TEMPERATURE_K / LAPSE_K_PER_M * (1 - share)
    return height * EARTH_RADIUS_M / (EARTH_RADIUS_M - height)


def pressure_at_place_hpa(sea_level_pressure_hpa: float, altitude_m: float) -> float:
    """Return the pressure at the place [hPa] from a weather report's, brought to sea level.

    By the standard atmosphere's ratio, as an altimeter setting is made. A weather service uses the
    day's temperature as well, so at 1,800 m the two may differ by about 1 %.
    """
    _within("sea-level pressure", sea_level_pressure_hpa, SEA_LEVEL_PRESSURES_HPA, "hPa")
    return sea_level_pressure_hpa * standard_pressure_hpa(altitude_m) / STANDARD_PRESSURE_HPA


def geopotential_m(altitude_m: float) -> float:
    """Return the geopotential altitude [m] of an altitude on the map [m, geometric]."""
    _within("altitude", altitude_m, ALTITUDES_M, "m")
    return EARTH_RADIUS_M * altitude_m / (EARTH_RADIUS_M + altitude_m)


def _standard_share(altitude_m: float) -> float:
    """The standard temperature there as a share of that at sea level."""
    return 1 - LAPSE_K_PER_M * geopotential_m(altitude_m) / STANDARD_TEMPERATURE_K


def _saturation_pressure_pa(kelvin: float) -> float:
    a, b, c, d = VAPOUR_PRESSURE
    return math.exp((a * kelvin + b) * kelvin + c + d / kelvin)


def _enhancement(t: float, p: float) -> float:
    alpha, beta, gamma = ENHANCEMENT
    return alpha + beta * p + gamma * t**2


def _compressibility(t: float, p: float, kelvin: float, vapour: float) -> float:
    a0, a1, a2 = COMPRESSIBILITY_A
    b0, b1 = COMPRESSIBILITY_B
    c0, c1 = COMPRESSIBILITY_C
    first = a0 + a1 * t + a2 * t**2 + (b0 + b1 * t) * vapour + (c0 + c1 * t) * vapour**2
    second = COMPRESSIBILITY_D + COMPRESSIBILITY_E * vapour**2
    return 1 - p / kelvin * first + (p / kelvin) ** 2 * second


def _within(name: str, value: float, limits: tuple[float, float], unit: str) -> float:
    low, high = limits
    if not math.isfinite(value):
        raise AirRefused(f"The {name} is not a number.")
    if not low <= value <= high:
        raise AirRefused(
            f"The {name} of {value:g} {unit} is not believable; {low:g} to {high:g} {unit} are."
        )
    return value
