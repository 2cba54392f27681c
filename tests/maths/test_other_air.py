"""A measured carry in other air: a band from ratios, never a modelled carry; refusals."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sessions.maths.air import Air, air_elsewhere, air_of
from sessions.maths.errors import CarryNotBrought, NotAFigure
from sessions.maths.other_air import (
    FlownCarry,
    carries_in_other_air,
    carry_in_other_air,
    gap_in_other_air,
)

YARD = 0.9144
SEA = air_of(15, altitude_m=0)
HOME = air_elsewhere(SEA, climb_m=1800, altitude_m=1800)
WEDGE = FlownCarry(140 * YARD, 47, ball_speed_ms=46.0, launch_deg=25.0, spin_rpm=9800)
few = settings(max_examples=25, deadline=None)


def yards(value_m: float) -> float:
    return value_m / YARD


@few
@given(
    st.floats(50, 150),
    st.floats(42, 62),
    st.builds(Air, st.floats(-5, 40), st.floats(750, 1050), st.floats(0, 100)),
)
def test_the_same_air_changes_nothing(carry: float, loft: float, air: Air) -> None:
    band = carry_in_other_air(FlownCarry(carry, loft), air, air, figures="as flown")
    for figure in (band.low_m, band.middle_m, band.high_m, *band.by_model_m):
        assert figure == pytest.approx(carry, rel=1e-12)


@few
@given(st.floats(70, 140), st.floats(42, 60), st.floats(0, 2800))
def test_thinner_air_carries_farther_and_the_way_back_brings_the_same(
    carry: float, loft: float, climb: float
) -> None:
    there = air_elsewhere(SEA, climb, climb)
    flown = FlownCarry(carry, loft, 20 + carry / 5, 27, 8500)
    band = carry_in_other_air(flown, SEA, there, figures="as flown")
    assert carry - 1e-9 <= band.low_m <= band.middle_m <= band.high_m
    # Model by model the ratio back is one over the ratio there.
    back = carry_in_other_air(flown, there, SEA, figures="as flown")
    for out, home in zip(band.by_model_m, back.by_model_m, strict=True):
        assert (out / carry) * (home / carry) == pytest.approx(1, rel=1e-9)


def test_a_good_player_at_1800_m_a_band_about_nine_to_twelve_per_cent_more() -> None:
    # Fitted at sea level, pitching wedge 47 degrees, 140 yards, 9,800 rpm: about 153 to 157.
    band = carry_in_other_air(WEDGE, SEA, HOME, figures="as flown")
    assert 151 < yards(band.low_m) < 154
    assert 154 < yards(band.middle_m) < 156
    assert 156 < yards(band.high_m) < 159
    assert not band.is_launch_supposed
    assert len(band.by_model_m) == 3


def test_his_gaps_grow_too() -> None:
    carries = ((140, 47), (127, 51.5), (115, 55.5), (102, 60))
    bands = carries_in_other_air(
        [FlownCarry(yd * YARD, loft) for yd, loft in carries], SEA, HOME, figures="as flown"
    )
    for (longer, _), (shorter, _), one, two in zip(
        carries, carries[1:], bands, bands[1:], strict=False
    ):
        least, most = gap_in_other_air(one, two)
        assert longer - shorter < yards(least) <= yards(most) < 1.25 * (longer - shorter)
        # The models err together: no wider than what the bands' ends would say.
        assert one.low_m - two.high_m < least <= most < one.high_m - two.low_m


def test_what_was_not_measured_widens_the_band() -> None:
    known = carry_in_other_air(WEDGE, SEA, HOME, figures="as flown")
    spin_only = replace(WEDGE, ball_speed_ms=None, launch_deg=None)
    supposed = carry_in_other_air(spin_only, SEA, HOME, figures="as flown")
    assert supposed.is_launch_supposed
    assert supposed.high_m - supposed.low_m > known.high_m - known.low_m
    assert supposed.middle_m == pytest.approx(known.middle_m, rel=0.01)


def test_cold_air_takes_carry_away() -> None:
    band = carry_in_other_air(WEDGE, Air(30, 1013), Air(5, 1013), figures="as flown")
    assert band.high_m < WEDGE.carry_m


@pytest.mark.parametrize(
    ("ratio", "density_hpa", "model"),
    # Worked out beforehand with SciPy's DOP853 by another program, 45 m/s, 28 degrees, 9,000 rpm,
    # density 1.1117 for 1.225: Smits and Smith 5.96 %, Bearman and Harvey's curves 6.85 %.
    [(1.0596, 1.1117, 0), (1.0685, 1.1117, 1)],
)
def test_worked_ratios(ratio: float, density_hpa: float, model: int) -> None:
    # Pressures that give those densities at 15 degrees, dry.
    here, there = Air(15, 1013.25 * 1.225 / 1.2255213, 0), Air(15, 919.2, 0)
    assert there.density_kg_m3 == pytest.approx(density_hpa, abs=0.0001)
    flown = FlownCarry(120, None, 45, 28, 9000)
    band = carry_in_other_air(flown, here, there, figures="as flown")
    assert band.by_model_m[model] / 120 == pytest.approx(ratio, abs=0.0001)


@pytest.mark.parametrize(
    ("flown", "figures", "said"),
    [
        (WEDGE, None, "as flown, or did the device normalise them"),
        (WEDGE, "normalised", "would correct them twice"),
        (FlownCarry(120), "as flown", "neither a measured launch nor the club's loft"),
        (FlownCarry(120, 12), "as flown", "lofts of 30 to 75 degrees"),
        (FlownCarry(5, 56), "as flown", "30 to 250 m"),
        (FlownCarry(400, 46), "as flown", "30 to 250 m"),
        (FlownCarry(32, 46), "as flown", "full swings only"),
        (FlownCarry(128, 46, 20, 24, 9000), "as flown", "not of the same shots"),
        (FlownCarry(128, 46, 46, -4, 9000), "as flown", "launch of -4 degrees"),
    ],
)
def test_what_can_not_be_brought_is_refused_in_a_sentence(flown, figures, said: str) -> None:
    with pytest.raises(CarryNotBrought, match=said):
        carry_in_other_air(flown, SEA, HOME, figures=figures)


def test_no_carry_and_no_number_are_refused() -> None:
    with pytest.raises(CarryNotBrought, match="no carry"):
        carries_in_other_air([], SEA, HOME, figures="as flown")
    for wrong in (FlownCarry(math.nan, 46), replace(WEDGE, spin_rpm=math.inf)):
        with pytest.raises(NotAFigure):
            carry_in_other_air(wrong, SEA, HOME, figures="as flown")
