"""Unit factors against pint, which the code does not use."""

import pint
import pytest

from sessions.maths import units

UREG = pint.UnitRegistry()


@pytest.mark.independent(library="pint", call="Quantity(x, 'yard').to('metre')")
@pytest.mark.parametrize("yards", [5, 98, 123.5, 350])
def test_yards(yards: float) -> None:
    assert units.parse_distance(str(yards)) == pytest.approx(
        UREG.Quantity(yards, "yard").to("metre").magnitude, rel=1e-12
    )


@pytest.mark.independent(library="pint", call="Quantity(x, 'inch').to('millimetre')")
def test_inches() -> None:
    assert float(units.parse_length("35 7/16")) == pytest.approx(
        UREG.Quantity(35 + 7 / 16, "inch").to("millimetre").magnitude, rel=1e-12
    )


@pytest.mark.independent(library="pint", call="Quantity(x, unit).to('metre/second')")
@pytest.mark.parametrize(("typed", "unit"), [("82 mph", "mile/hour"), ("82 km/h", "km/hour")])
def test_speeds(typed: str, unit: str) -> None:
    assert units.parse_speed(typed) == pytest.approx(
        UREG.Quantity(82, unit).to("metre/second").magnitude, rel=1e-12
    )


@pytest.mark.independent(library="pint", call="Quantity(10.7, 'ounce').to('gram')")
def test_ounces() -> None:
    grams = units.parse_mass("10.7 oz", name="head mass", limits=units.HEAD_MASS_LIMITS_G)
    # Two decimals are kept: half of the second is tolerated.
    assert float(grams) == pytest.approx(
        UREG.Quantity(10.7, "ounce").to("gram").magnitude, abs=0.005
    )
