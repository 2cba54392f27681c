"""Cuts, grips and sixteenths."""

from decimal import Decimal as D

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.maths.cutting import (
    grip_fit,
    length_by_ruler,
    length_by_rules,
    nearest_sixteenth,
    shaft_cut,
)
from sessions.maths.errors import BuildRefused, NotAFigure
from sessions.maths.shown import show_inches

INCH = D("25.4")
LENGTHS = st.integers(0, 100).map(lambda quarters: D(quarters) / 4)


def cut(
    length: str = "35.25",
    raw: str = "37",
    trim: str = "0",
    tip_kind: str = "parallel",
) -> D:
    return (
        shaft_cut(
            club_length_mm=D(length) * INCH,
            raw_length_mm=D(raw) * INCH,
            bore_bottom_to_ground_mm=D("1.125") * INCH,
            cap_mm=D("0.1875") * INCH,
            tip_kind=tip_kind,  # type: ignore[arg-type]
            tip_trim_mm=D(trim) * INCH,
        ).butt_cut_mm
        / INCH
    )


def test_what_the_tip_trim_leaves_comes_off_the_butt() -> None:
    assert cut(trim="0") - cut(trim="1") == 1


@pytest.mark.common_practice
def test_a_taper_tip_is_never_trimmed() -> None:
    assert cut(tip_kind="taper") == cut()
    with pytest.raises(BuildRefused, match="taper tip is never trimmed"):
        cut(tip_kind="taper", trim="0.5")


def test_a_shaft_too_short_is_refused_with_how_much() -> None:
    assert cut(raw="33.9375") == 0
    with pytest.raises(BuildRefused, match=r"too short by 0\.44 in"):
        cut(raw="33.5")


def standing(depth: str | None, insertion: str | None, least: str = "1") -> D:
    found = shaft_cut(
        club_length_mm=D("35.25") * INCH,
        raw_length_mm=D("37") * INCH,
        bore_bottom_to_ground_mm=D("1.125") * INCH,
        cap_mm=D("0.1875") * INCH,
        tip_kind="parallel",
        bore_depth_mm=None if depth is None else D(depth) * INCH,
        insertion_mm=None if insertion is None else D(insertion) * INCH,
        least_insertion_mm=D(least) * INCH,
    )
    return found.butt_cut_mm / INCH


def test_a_shaft_that_does_not_bottom_is_cut_shorter_by_what_it_stands_higher() -> None:
    # 35.25 - 0.1875 - 1.125 = 33.9375 is left, so 3.0625 comes off; standing 1.25 of 1.5 in, the
    # tip ends 0.25 higher and 3.3125 comes off.
    assert standing("1.5", None) == standing("1.5", "1.5") == standing(None, None) == D("3.0625")
    assert standing("1.5", "1.25") == D("3.3125")


def test_a_shaft_that_stands_less_deep_than_the_least_is_refused() -> None:
    assert standing("1", None) == D("3.0625")
    with pytest.raises(BuildRefused, match=r"stand 0\.94 in deep; 1\.00 in is the least"):
        standing("0.9375", None)
    with pytest.raises(BuildRefused, match=r"stand 0\.75 in deep"):
        standing("1.5", "0.75")
    with pytest.raises(BuildRefused, match=r"bore is 1\.25 in deep"):
        standing("1.25", "1.5")


def test_a_club_shorter_than_its_bore_is_refused() -> None:
    with pytest.raises(BuildRefused, match="check the lengths"):
        cut(length="1")


@pytest.mark.parametrize("bad", ["NaN", "Infinity", "-1"])
def test_lengths_that_are_none_are_refused(bad: str) -> None:
    with pytest.raises(NotAFigure):
        cut(raw=bad)
    with pytest.raises(NotAFigure):
        cut(trim=bad)


def grip(butt: str, core: str, extra: int = 0, tape: str = "0.005") -> D:
    return (
        grip_fit(
            butt_mm=D(butt) * INCH,
            core_mm=D(core) * INCH,
            grip_outside_mm=D("0.9") * INCH,
            base_layers=0,
            extra_layers=extra,
            tape_mm=D(tape) * INCH,
        ).wider_by_mm
        / INCH
    )


def test_a_grip_on_its_own_core_is_its_own_size() -> None:
    assert grip("0.600", "0.600") == 0


def test_the_base_tape_adds_as_the_extra_does() -> None:
    one = grip_fit(
        butt_mm=D(15), core_mm=D(15), grip_outside_mm=D(23), base_layers=1, tape_mm=D("0.12")
    )
    other = grip_fit(
        butt_mm=D(15),
        core_mm=D(15),
        grip_outside_mm=D(23),
        base_layers=0,
        extra_layers=1,
        tape_mm=D("0.12"),
    )
    assert one == other
    assert one.under_mm == D("15.24")


@pytest.mark.parametrize("bad", ["NaN", "0", "-0.6"])
def test_diameters_that_are_none_are_refused(bad: str) -> None:
    with pytest.raises(NotAFigure):
        grip(bad, "0.600")
    with pytest.raises(NotAFigure):
        grip("0.600", "0.600", tape=bad)


def test_layers_below_nought_and_a_grip_inside_out_are_refused() -> None:
    with pytest.raises(NotAFigure):
        grip("0.600", "0.600", extra=-1)
    with pytest.raises(NotAFigure, match="wider outside"):
        grip("0.600", "0.950")


@given(LENGTHS, LENGTHS, LENGTHS)
def test_the_pieces_add_up_to_the_raw_shaft(length: D, raw: D, trim: D) -> None:
    try:
        found = shaft_cut(
            club_length_mm=length * INCH,
            raw_length_mm=raw * INCH,
            bore_bottom_to_ground_mm=D("28.575"),
            cap_mm=D("4.7625"),
            tip_kind="parallel",
            tip_trim_mm=trim * INCH,
        )
    except BuildRefused:
        assert raw - trim < length - D("1.3125") or length <= D("1.3125")
    else:
        assert found.tip_trim_mm + found.cut_length_mm + found.butt_cut_mm == raw * INCH


@given(st.decimals(0, 1300, places=3))
def test_rounding_to_sixteenths_is_near_and_shows_the_same(length_mm: D) -> None:
    rounded = nearest_sixteenth(length_mm)
    assert abs(rounded - length_mm) <= D("25.4") / 32
    assert show_inches(rounded) == show_inches(length_mm)


def test_a_length_that_is_no_number_is_not_rounded() -> None:
    with pytest.raises(NotAFigure):
        nearest_sixteenth(D("NaN"))


def by_ruler(lie: str, point: str = "30", length: str = "900") -> D:
    return length_by_ruler(D(length), lie_deg=D(lie), sole_point_mm=D(point))


def test_at_a_lie_of_60_the_ruler_and_the_rules_agree() -> None:
    assert by_ruler("60") == D("900.0000")


def test_an_upright_wedge_is_longer_by_the_ruler_and_a_flat_one_shorter() -> None:
    # 30 (cot 60 - cot 64) = 30 (0.577350 - 0.487733) = 2.6885
    assert by_ruler("64") == D("902.6885")
    assert by_ruler("57") < D(900)


def test_a_sole_that_touches_at_the_shafts_back_makes_no_difference() -> None:
    assert by_ruler("64", point="0") == D("900.0000")


@pytest.mark.parametrize(
    ("lie", "point", "length"),
    [("44", "30", "900"), ("81", "30", "900"), ("64", "-1", "900"), ("NaN", "30", "900")],
)
def test_a_length_by_the_ruler_refuses_what_is_no_club(lie: str, point: str, length: str) -> None:
    with pytest.raises(NotAFigure):
        by_ruler(lie, point, length)


def test_35_5_8_along_the_shaft_is_35_1_2_by_the_rules() -> None:
    """By hand: the sole touches 36 mm from the back of the shaft, the lie is 64 degrees.

    36 (cot 60 - cot 64) = 36 (0.5773503 - 0.4877326) = 3.2262; 35 5/8 in is 904.875 mm, and
    904.875 - 3.2262 = 901.6488: 35.498 in, two thousandths under 35 1/2 in (901.7 mm).
    """
    found = length_by_rules(D("904.875"), lie_deg=D(64), sole_point_mm=D(36))
    assert abs(found - D("901.6488")) < D("0.0002")
    assert show_inches(found) == "35 1/2 in"


@given(st.decimals(50, 75, places=1), st.decimals(0, 50, places=1), st.decimals(800, 950, places=2))
def test_there_and_back_a_length_is_the_same(lie: D, point: D, length: D) -> None:
    ruled = length_by_ruler(length, lie_deg=lie, sole_point_mm=point)
    assert abs(length_by_rules(ruled, lie_deg=lie, sole_point_mm=point) - length) <= D("0.0001")


@pytest.mark.parametrize(
    ("lie", "point", "length"),
    [("44", "30", "900"), ("81", "30", "900"), ("64", "-1", "900"), ("64", "30", "Infinity")],
)
def test_a_length_by_the_rules_refuses_what_is_no_club(lie: str, point: str, length: str) -> None:
    with pytest.raises(NotAFigure):
        length_by_rules(D(length), lie_deg=D(lie), sole_point_mm=D(point))
