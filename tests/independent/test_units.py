"""Unit factors against pint, which the code does not use."""

from decimal import Decimal

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.maths import units

UREG = pint.UnitRegistry()
# With decimals, so that exact factors can be told from nearly exact ones.
UREG_EXACT = pint.UnitRegistry(non_int_type=Decimal)


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


@pytest.mark.independent(library="pint", call="Quantity(1, unit).to(metric)")
@pytest.mark.parametrize(
    ("factor", "unit", "metric"),
    [
        (units.MM_PER_INCH, "inch", "millimetre"),
        (units.MM_PER_CM, "centimetre", "millimetre"),
        (units.M_PER_YARD, "yard", "metre"),
        (units.M_PER_FOOT, "foot", "metre"),
        (units.MPS_PER_MPH, "mile/hour", "metre/second"),
        (1 / units.KMH_PER_MPS, "kilometre/hour", "metre/second"),
        (units.G_PER_OUNCE, "ounce", "gram"),
    ],
)
def test_every_factor(factor: Decimal, unit: str, metric: str) -> None:
    exact = UREG_EXACT.Quantity(Decimal(1), unit).to(metric).magnitude
    assert abs(factor - exact) < Decimal("1e-20")


@pytest.mark.independent(library="pint", call="Quantity(Decimal(typed), unit).to('millimetre')")
@given(st.decimals(18, 48, places=4))
def test_any_length_in_inches(inches: Decimal) -> None:
    exact = UREG_EXACT.Quantity(inches, "inch").to("millimetre").magnitude
    # Four decimals are kept: half of the fourth is tolerated.
    assert abs(units.parse_length(f"{inches:f} in") - exact) <= Decimal("0.00005")
