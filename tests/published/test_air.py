"""Constants and printed values of moist air and of the standard atmosphere."""

import pytest

from sessions.maths import air


@pytest.mark.published(
    key="cipm-2007",
    locator="constants of the vapour pressure, the enhancement and Z; Ma, Mv, R",
    value="R 8.314472, Ma 28.96546 E-03, Mv 18.01528 E-03 and 14 coefficients",
)
def test_the_constants_of_moist_air_as_printed() -> None:
    # Each by itself: some copies in circulation carry a slip in one of them, too small for a
    # comparison of densities to see.
    assert air.GAS_CONSTANT == 8.314472
    assert air.MOLAR_MASS_DRY == 28.96546e-3
    assert air.MOLAR_MASS_WATER == 18.01528e-3
    assert air.VAPOUR_PRESSURE == (1.2378847e-5, -1.9121316e-2, 33.93711047, -6.3431645e3)
    assert air.ENHANCEMENT == (1.00062, 3.14e-8, 5.6e-7)
    assert air.COMPRESSIBILITY_A == (1.58123e-6, -2.9331e-8, 1.1043e-10)
    assert air.COMPRESSIBILITY_B == (5.707e-6, -2.051e-8)
    assert air.COMPRESSIBILITY_C == (1.9898e-4, -2.376e-6)
    assert air.COMPRESSIBILITY_D == 1.83e-11
    assert air.COMPRESSIBILITY_E == -0.765e-8


@pytest.mark.published(
    key="us-standard-1976",
    locator="sea level: T0, P0, rho0",
    value="15 C, 1013.25 hPa, 1.225 kg/m3",
)
def test_the_standard_sea_level() -> None:
    assert air.standard_temperature_c(0) == pytest.approx(15, abs=1e-9)
    assert air.standard_pressure_hpa(0) == pytest.approx(1013.25, abs=1e-9)
    assert air.standard_density_kg_m3(0) == pytest.approx(1.225, abs=0.0005)


@pytest.mark.published(
    key="atmosisa",
    locator="example: height 1000, T, P, rho",
    value="281.6500 K, 8.9875 E+04 Pa, 1.1116 kg/m3",
)
def test_the_standard_atmosphere_at_a_thousand_geopotential_metres() -> None:
    # The example counts in geopotential metres: on the map that is R H / (R - H).
    on_the_map = 6_356_766 * 1000 / (6_356_766 - 1000)
    assert air.standard_temperature_c(on_the_map) + 273.15 == pytest.approx(281.6500, abs=5e-5)
    assert air.standard_pressure_hpa(on_the_map) * 100 == pytest.approx(8.9875e4, abs=0.5)
    assert air.standard_density_kg_m3(on_the_map) == pytest.approx(1.1116, abs=5e-5)
