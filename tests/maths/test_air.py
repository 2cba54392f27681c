"""The air: denser when cold, dry, low; refused where it is not believable."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.maths.air import (
    Air,
    air_elsewhere,
    air_of,
    geopotential_m,
    moist_air_density,
    pressure_at_place_hpa,
    standard_air,
    standard_altitude_m,
    standard_density_kg_m3,
    standard_pressure_hpa,
)
from sessions.maths.errors import AirRefused

temperatures = st.floats(-20, 50)
pressures = st.floats(600, 1100)
humidities = st.floats(0, 100)
altitudes = st.floats(-430, 5000)


@given(temperatures, pressures, humidities)
def test_air_is_lighter_when_it_is_warmer_damper_or_thinner(t: float, p: float, h: float) -> None:
    density = moist_air_density(t, p, h)
    assert 0.5 < density < 1.6
    if t < 49:
        assert moist_air_density(t + 1, p, h) < density
    if h < 99:
        assert moist_air_density(t, p, h + 1) < density
    if p < 1099:
        assert moist_air_density(t, p + 1, h) > density


@pytest.mark.parametrize(
    ("t", "p", "h", "density"),
    # Worked out beforehand by another implementation of the same equation.
    [
        (20, 1013.25, 50, 1.1993139),
        (20, 1000, 50, 1.1835566),
        (15, 1013.25, 0, 1.2255213),
        (25, 1013.25, 0, 1.1843007),
        (23, 990, 40, 1.1599618),
        (20, 1013.25, 100, 1.1940872),
        (40, 800, 100, 0.85923),
    ],
)
def test_worked_values_of_moist_air(t: float, p: float, h: float, density: float) -> None:
    assert moist_air_density(t, p, h) == pytest.approx(density, rel=1e-5)


def test_humidity_hardly_counts() -> None:
    dry, damp = moist_air_density(20, 1013.25, 0), moist_air_density(20, 1013.25, 100)
    assert damp / dry - 1 == pytest.approx(-0.00869, abs=0.00001)


def test_the_altitude_on_the_map_is_not_the_geopotential_one() -> None:
    # They part in the fifth digit of the density: 1.167273 on the map, 1.167269 in geopotential.
    assert geopotential_m(500) == pytest.approx(499.9607, abs=0.0001)
    assert standard_density_kg_m3(500) == pytest.approx(1.167273, abs=1e-6)
    assert geopotential_m(1800) == pytest.approx(1799.4905, abs=0.0001)


def test_sea_level_of_the_standard_atmosphere_is_not_the_moist_equations_dry_air() -> None:
    assert standard_density_kg_m3(0) == pytest.approx(1.2250, abs=1e-6)
    assert standard_air(0).density_kg_m3 == pytest.approx(1.22552, abs=1e-5)


@given(altitudes)
def test_pressure_and_altitude_undo_each_other(altitude: float) -> None:
    assert standard_altitude_m(standard_pressure_hpa(altitude)) == pytest.approx(altitude, abs=1e-6)


@given(st.floats(950, 1050), altitudes)
def test_a_weather_reports_pressure_is_taken_to_the_place(report: float, altitude: float) -> None:
    there = pressure_at_place_hpa(report, altitude)
    assert there / standard_pressure_hpa(altitude) == pytest.approx(report / 1013.25)


def test_a_report_of_sea_level_read_as_the_places_own_is_a_fifth_wrong_at_1800_m() -> None:
    assert pressure_at_place_hpa(1018, 1800) == pytest.approx(818.8, abs=0.1)


def test_what_was_noted_makes_the_air_and_a_gauge_goes_before_an_altitude() -> None:
    assert air_of(17, pressure_hpa=1016, altitude_m=900, humidity_pct=71) == Air(17, 1016, 71)
    assert air_of(17, altitude_m=0) == Air(17, 1013.25, 50)
    # Zero is a figure, not a gap.
    assert air_of(0, pressure_hpa=1000, humidity_pct=0) == Air(0, 1000, 0)


def test_the_same_sort_of_day_elsewhere_is_cooler_higher_up() -> None:
    home = air_elsewhere(Air(20, 1016, 60), climb_m=1800, altitude_m=1800)
    assert home.temperature_c == pytest.approx(8.3)
    assert home.pressure_hpa == pytest.approx(814.9, abs=0.1)
    assert home.humidity_pct == 60


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: air_of(None, pressure_hpa=1000), "needs a temperature"),
        (lambda: air_of(15), "needs a pressure, or the altitude"),
        (lambda: air_of(math.nan, pressure_hpa=1000), "temperature is not a number"),
        (lambda: Air(51, 1000), "temperature of 51 degrees C is not believable"),
        (lambda: Air(15, 101_325), "pressure of 101325 hPa is not believable"),
        (lambda: Air(15, 0), "pressure of 0 hPa"),
        (lambda: Air(15, 1000, 101), "humidity of 101 %"),
        (lambda: Air(15, math.inf, 50), "pressure is not a number"),
        (lambda: standard_air(9000), "altitude of 9000 m"),
        (lambda: geopotential_m(math.nan), "altitude is not a number"),
        (lambda: air_elsewhere(Air(-15, 1000), 3000, 3000), "temperature of -34.5"),
        (lambda: pressure_at_place_hpa(800, 100), "sea-level pressure of 800 hPa"),
    ],
)
def test_air_that_is_not_believable_is_refused_in_a_sentence(call, said: str) -> None:
    with pytest.raises(AirRefused, match=said):
        call()
