"""Moist air against CoolProp's own equation of state; the standard atmosphere against its law."""

import pytest
from CoolProp.HumidAirProp import HAPropsSI
from scipy.integrate import solve_ivp

from sessions.maths.air import (
    moist_air_density,
    standard_density_kg_m3,
    standard_pressure_hpa,
)


@pytest.mark.independent(library="CoolProp", call="HAPropsSI('Vha', 'T', ..., 'P', ..., 'R', ...)")
@pytest.mark.parametrize("humidity", [0, 50, 100])
@pytest.mark.parametrize("pressure", [800, 900, 1013.25, 1030])
@pytest.mark.parametrize("temperature", [5, 10, 15, 20, 25, 30, 35, 40])
def test_moist_air_on_a_grid(temperature: float, pressure: float, humidity: float) -> None:
    kelvin, pascal, relative = temperature + 273.15, pressure * 100, humidity / 100
    volume = HAPropsSI("Vha", "T", kelvin, "P", pascal, "R", relative)  # m3 of humid air
    ours = moist_air_density(temperature, pressure, humidity)
    assert ours == pytest.approx(1 / volume, rel=1e-4)


@pytest.mark.independent(library="SciPy", call="solve_ivp of dp/dz = -rho g(z), metres on the map")
def test_the_standard_atmosphere_is_air_at_rest() -> None:
    # Ideal gas of 28.9644 g/mol, 15 degrees C at sea level, 6.5 K less for each geopotential
    # kilometre; gravity falls with the square of the distance from the earth's middle.
    gas, radius = 8314.32 / 28.9644, 6_356_766.0

    def kelvin(z: float) -> float:
        return 288.15 - 0.0065 * radius * z / (radius + z)

    def falls(z: float, p: list[float]) -> list[float]:
        return [-p[0] / (gas * kelvin(z)) * 9.80665 * (radius / (radius + z)) ** 2]

    for up in (-430.0, 500.0, 1000.0, 1800.0, 5000.0):
        pascal = solve_ivp(falls, (0, up), [101_325.0], rtol=1e-11, atol=1e-6).y[0, -1]
        assert standard_pressure_hpa(up) == pytest.approx(pascal / 100, rel=1e-6)
        assert standard_density_kg_m3(up) == pytest.approx(pascal / (gas * kelvin(up)), rel=1e-6)
