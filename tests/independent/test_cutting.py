"""Cuts and grips worked by hand, and the grip against the volume of its rubber.

The worked figures stand in the project's reference values; core and butt sizes are trade usage.
"""

from decimal import Decimal as D

import pytest
from scipy import optimize

from sessions.maths.cutting import grip_fit, shaft_cut
from sessions.maths.shown import show_inches

INCH = D("25.4")


@pytest.mark.independent(library="none: worked by hand", call="37 - 1 - (35.25 - 0.1875 - 1.125)")
def test_the_worked_cut() -> None:
    found = shaft_cut(
        club_length_mm=D("35.25") * INCH,
        raw_length_mm=37 * INCH,
        bore_bottom_to_ground_mm=D("1.125") * INCH,
        cap_mm=D("0.1875") * INCH,
        tip_kind="parallel",
        tip_trim_mm=1 * INCH,
    )
    assert found.cut_length_mm == D("33.9375") * INCH
    assert found.butt_cut_mm == D("2.0625") * INCH
    assert show_inches(found.butt_cut_mm) == "2 1/16 in"


@pytest.mark.independent(library="none: worked by hand", call="sqrt(0.9^2 + Ds^2 - Dc^2) - 0.9")
@pytest.mark.parametrize(
    ("butt", "core", "wider"),
    [("0.600", "0.580", 0.0130), ("0.620", "0.580", 0.0263), ("0.580", "0.600", -0.0132)],
)
def test_a_core_that_does_not_match_the_butt(butt: str, core: str, wider: float) -> None:
    found = grip_fit(
        butt_mm=D(butt) * INCH,
        core_mm=D(core) * INCH,
        grip_outside_mm=D("0.9") * INCH,
        base_layers=0,
        tape_mm=D("0.127"),
    )
    assert float(found.wider_by_mm / INCH) == pytest.approx(wider, abs=5e-5)


@pytest.mark.independent(library="scipy", call="optimize.brentq on the area of the rubber")
@pytest.mark.parametrize("layers", [0, 1, 4])
def test_the_rubber_keeps_its_area(layers: int) -> None:
    found = grip_fit(
        butt_mm=D("14.9"),
        core_mm=D("15.24"),
        grip_outside_mm=D("22.9"),
        base_layers=1,
        extra_layers=layers,
        tape_mm=D("0.127"),
    )
    under = 14.9 + 2 * 0.127 * (1 + layers)
    area = 22.9**2 - 15.24**2
    outside = optimize.brentq(lambda d: d**2 - under**2 - area, under, 40)
    assert float(found.outside_mm) == pytest.approx(outside, rel=1e-10)
