"""What people type into a figure, and what they are told."""

from collections.abc import Callable
from decimal import ROUND_HALF_UP
from decimal import Decimal as D

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.maths import units
from sessions.maths.bending import bend_words
from sessions.maths.errors import NotAFigure, UnitRefused
from sessions.maths.shown import show_percent

Reader = Callable[[str], D | float | int]


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        ('35 1/2"', "901.7"),
        ("35.5 in", "901.7"),
        ("35,5", "901.7"),
        ("35½", "901.7"),
        ("35-1/2 in", "901.7"),
        ("35 7/16", "900.1125"),
        ("90,2 cm", "902"),
        ("902 mm", "902"),
        ("  35  ", "889"),
    ],
)
def test_a_length_is_read_as_people_type_it(typed: str, mm: str) -> None:
    assert units.parse_length(typed) == D(mm)


def test_a_bare_number_takes_the_unit_of_the_field() -> None:
    assert units.parse_length("902", unit="mm") == D("902")
    assert units.parse_distance("100", unit="yd") == pytest.approx(91.44, abs=1e-12)
    assert units.parse_distance("100", unit="m") == 100.0


def test_a_unit_that_was_typed_beats_the_unit_of_the_field() -> None:
    assert units.parse_distance("112 m", unit="yd") == 112.0
    assert units.parse_distance("123 yd", unit="m") == pytest.approx(112.4712, abs=1e-12)


@pytest.mark.parametrize(
    "typed",
    ["", " ", "abc", "NaN", "inf", "1e3", "12.5.1", "1,234.5", "9" * 60, "98 kg"],
)
def test_what_is_no_carry_is_refused_with_the_unit_and_an_example(typed: str) -> None:
    with pytest.raises(UnitRefused, match=r"^Type a carry in yards, for example 98\.$"):
        units.parse_distance(typed)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("0", "A carry of 0 yd is not believable: 5 to 350."),
        ("4,9", "A carry of 4,9 yd is not believable: 5 to 350."),
        ("500 yd", "A carry of 500 yd is not believable: 5 to 350."),
        ("-20", "A carry of -20 yd is not believable: 5 to 350."),
        ("500 m", "A carry of 500 m is not believable: 5 to 350 yd."),
    ],
)
def test_an_unbelievable_carry_is_refused_with_the_range(typed: str, said: str) -> None:
    with pytest.raises(UnitRefused) as refused:
        units.parse_distance(typed)
    assert str(refused.value) == said


@pytest.mark.parametrize("typed", ["5", "350", "5.0 yd"])
def test_both_ends_of_the_range_are_believed(typed: str) -> None:
    assert 4.5 < units.parse_distance(typed) < 321


@pytest.mark.parametrize(("typed", "deg"), [("54", "54"), ("54.5", "54.5"), ("54,5°", "54.5")])
def test_a_loft_is_read(typed: str, deg: str) -> None:
    assert units.parse_loft(typed) == D(deg)


@pytest.mark.parametrize("typed", ["5", "90", "14.9", "75.1"])
def test_an_absurd_loft_is_refused(typed: str) -> None:
    with pytest.raises(UnitRefused, match=r"not believable: 15 to 75\.$"):
        units.parse_loft(typed)


def test_each_angle_is_refused_with_its_own_example() -> None:
    with pytest.raises(UnitRefused, match=r"^Type a bounce in degrees, for example 10\.$"):
        units.parse_bounce("ten")
    with pytest.raises(UnitRefused, match=r"^Type a lie in degrees, for example 63\.5\.$"):
        units.parse_lie("flat")


@pytest.mark.parametrize(
    ("typed", "metres"),
    [
        ("4 left", -3.6576),
        ("L4", -3.6576),
        ("3 yd right", 2.7432),
        ("2 m left", -2.0),
        ("-4", -3.6576),
        ("0", 0.0),
    ],
)
def test_left_is_negative_and_right_positive(typed: str, metres: float) -> None:
    assert units.parse_side(typed) == pytest.approx(metres, abs=1e-12)


@pytest.mark.parametrize("typed", ["left", "-2 left", "left 2 right", "sideways", ""])
def test_a_side_that_does_not_say_where_is_refused(typed: str) -> None:
    with pytest.raises(UnitRefused, match="for example 4 left"):
        units.parse_side(typed)


@pytest.mark.common_practice
@pytest.mark.parametrize(
    ("typed", "axis", "deg"),
    [
        ("1 weak", "loft", "1"),
        ("0,5 strong", "loft", "-0.5"),
        ("none", "loft", "0"),
        ("2 upright", "lie", "2"),
        ("1 flat", "lie", "-1"),
    ],
)
def test_a_bend_is_read_in_the_words_of_the_trade(
    typed: str, axis: units.BendAxis, deg: str
) -> None:
    assert units.parse_bend(typed, axis=axis) == D(deg)


@pytest.mark.parametrize("typed", ["1", "+1", "2 upright", "weak", ""])
def test_a_loft_bend_without_its_way_is_refused(typed: str) -> None:
    with pytest.raises(UnitRefused, match=r"1 weak, 0\.5 strong or none"):
        units.parse_bend(typed)


def test_a_bend_of_nine_degrees_is_not_believed() -> None:
    with pytest.raises(UnitRefused, match="A loft bend of 9 weak is not believable: -6 to 6"):
        units.parse_bend("9 weak")


@pytest.mark.parametrize(
    ("typed", "points"),
    [("D0", "0"), ("D2", "2"), ("d2,5", "2.5"), ("C5", "-5"), ("E0", "10"), ("A0", "-30")],
)
def test_a_swing_weight_counts_from_d0(typed: str, points: str) -> None:
    assert units.parse_swing_weight(typed) == D(points)


@pytest.mark.parametrize("typed", ["D10", "H1", "2", "", "D", "DD2"])
def test_what_is_no_swing_weight_is_refused(typed: str) -> None:
    with pytest.raises(UnitRefused, match=r"for example D2\.5"):
        units.parse_swing_weight(typed)


@pytest.mark.parametrize("typed", ["9,300", "9300.5", "-1", "lots", ""])
def test_a_spin_is_a_whole_number_without_a_comma(typed: str) -> None:
    with pytest.raises(UnitRefused, match="whole number without a comma, for example 9300"):
        units.parse_spin(typed)


def test_a_spin_may_name_its_unit() -> None:
    assert units.parse_spin("9300 rpm") == 9300


def test_a_mass_is_read_in_grams_or_ounces() -> None:
    limits = units.HEAD_MASS_LIMITS_G
    assert units.parse_mass("302,5", name="head mass", limits=limits) == D("302.5")
    assert units.parse_mass("10 oz", name="head mass", limits=limits) == D("283.50")


@pytest.mark.parametrize(
    ("mm", "shown"),
    [
        ("900.1125", "35 7/16 in"),
        ("889", "35 in"),
        ("901.7", "35 1/2 in"),
        ("12.7", "1/2 in"),
        ("0", "0 in"),
        ("-12.7", "-1/2 in"),
        ("0.7", "0 in"),
        ("0.8", "1/16 in"),
    ],
)
def test_inches_are_shown_in_sixteenths(mm: str, shown: str) -> None:
    assert units.show_inches(D(mm)) == shown


@pytest.mark.parametrize(
    ("deg", "shown"), [("54", "54"), ("54.50", "54.5"), ("54.25", "54.3"), ("-0.04", "0")]
)
def test_degrees_are_shown_with_at_most_one_decimal(deg: str, shown: str) -> None:
    assert units.show_degrees(D(deg)) == shown


def test_a_side_is_shown_in_words() -> None:
    assert units.show_side(-3.66, "yd") == "4 yd left"
    assert units.show_side(2.0, "m") == "2 m right"
    assert units.show_side(-0.2, "yd") == "straight"


@pytest.mark.parametrize(
    ("points", "shown"),
    [("2", "D2"), ("2.5", "D2.5"), ("-5", "C5"), ("-0.5", "C9.5"), ("9.96", "E0"), ("-30", "A0")],
)
def test_a_swing_weight_is_shown_as_letter_and_points(points: str, shown: str) -> None:
    assert units.show_swing_weight(D(points)) == shown


def test_a_swing_weight_off_the_scale_is_refused() -> None:
    with pytest.raises(NotAFigure, match="off the scale"):
        units.show_swing_weight(D("-30.1"))


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_what_is_no_number_is_never_shown(value: float) -> None:
    with pytest.raises(NotAFigure):
        units.show_distance(value, "yd")


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_with_a_sentence(text: str) -> None:
    readers = (
        units.parse_length,
        units.parse_distance,
        units.parse_side,
        units.parse_loft,
        units.parse_bend,
        units.parse_swing_weight,
        units.parse_spin,
        units.parse_speed,
    )
    for read in readers:
        try:
            read(text)
        except UnitRefused as refused:
            said = str(refused)
        else:
            said = "read."
        assert said.endswith(".")


@given(st.integers(min_value=18 * 16, max_value=48 * 16))
def test_sixteenths_of_an_inch_survive_showing_and_reading(sixteenths: int) -> None:
    length_mm = D(sixteenths) * D("25.4") / 16
    assert units.parse_length(units.show_inches(length_mm)) == length_mm


@given(st.integers(min_value=-60, max_value=79))
def test_half_points_of_swing_weight_survive_showing_and_reading(halves: int) -> None:
    points = D(halves) / 2
    assert units.parse_swing_weight(units.show_swing_weight(points)) == points


@pytest.mark.parametrize(
    ("read", "typed", "metric"),
    [
        (units.parse_length, '35 1/2"', D("901.7")),
        (units.parse_length, "35.5 in", D("901.7")),
        (units.parse_length, "90,2 cm", D("902")),
        (units.parse_distance, "123 yd", 112.4712),
        (units.parse_distance, "112 m", 112.0),
        (units.parse_bend, "1 weak", D(1)),
        (units.parse_swing_weight, "D2", D(2)),
        (units.parse_speed, "102 mph", 45.59808),
    ],
)
def test_what_people_type_most_is_read(read: Reader, typed: str, metric: D | float) -> None:
    assert float(read(typed)) == pytest.approx(float(metric), abs=1e-12)


@pytest.mark.parametrize(
    ("refused", "said"),
    [
        (lambda: units.parse_length("x", unit="mm"), "in millimetres, for example 902."),
        (lambda: units.parse_length("x", unit="cm"), "in centimetres, for example 90.2."),
        (lambda: units.parse_length("x"), "in inches, for example 35 1/2."),
        (lambda: units.parse_length("20 cm", unit="mm"),
         "20 cm is not believable: 458 to 1219 mm."),
        (lambda: units.parse_length("60"), "60 in is not believable: 18 to 48."),
        (lambda: units.parse_distance("x", unit="m"), "in metres, for example 90."),
        (lambda: units.parse_distance("2 ft", unit="m"), "2 ft is not believable: 5 to 320 m."),
        (lambda: units.parse_side("200", unit="m"), "200 m is not believable: -91 to 91."),
        (lambda: units.parse_loft("x"), "in degrees, for example 54.5."),
        (lambda: units.parse_lie("90"), "90 degrees is not believable: 40 to 80."),
        (lambda: units.parse_speed("x", unit="km/h"), "in kilometres per hour, for example 132."),
        (lambda: units.parse_speed("300 mph", unit="m/s"),
         "300 mph is not believable: 5 to 102 m/s."),
        (lambda: units.parse_mass("x", name="head mass", limits=units.HEAD_MASS_LIMITS_G),
         "in grams, for example 302.5."),
        (lambda: units.parse_mass("50", name="head mass", limits=units.HEAD_MASS_LIMITS_G),
         "50 g is not believable: 200 to 400."),
        (lambda: units.parse_spin("x"),
         "in rpm as a whole number without a comma, for example 9300."),
        (lambda: units.parse_spin("99000"), "99000 rpm is not believable: 0 to 16000."),
    ],
)  # fmt: skip
def test_a_refusal_names_the_unit_of_its_field(refused: Callable[[], object], said: str) -> None:
    with pytest.raises(UnitRefused) as error:
        refused()
    assert str(error.value).endswith(said)


@given(st.integers(6, 320), st.sampled_from(["yd", "m"]))
def test_a_whole_carry_survives_showing_and_reading(carry: int, unit: units.DistanceUnit) -> None:
    read = units.parse_distance(f"{carry}", unit=unit)
    assert units.show_distance(read, unit) == f"{carry} {unit}"
    assert units.parse_distance(units.show_distance(read, unit)) == pytest.approx(read)


@given(st.integers(-90, 90), st.sampled_from(["yd", "m"]))
def test_a_side_survives_showing_and_reading(side: int, unit: units.DistanceUnit) -> None:
    shown = units.show_side(units.parse_side(f"{side}", unit=unit), unit)
    if side == 0:
        assert shown == "straight"
    else:
        assert units.parse_side(shown, unit=unit) == pytest.approx(
            units.parse_side(f"{side}", unit=unit)
        )


@given(st.integers(-60, 60), st.sampled_from(["loft", "lie"]))
def test_a_bend_survives_being_said_and_read(tenths: int, axis: units.BendAxis) -> None:
    bend = D(tenths) / 10
    assert units.parse_bend(bend_words(bend, axis), axis=axis) == bend


@given(st.integers(150, 750))
def test_an_angle_survives_showing_and_reading(tenths: int) -> None:
    assert units.parse_loft(units.show_degrees(D(tenths) / 10)) == D(tenths) / 10


@given(st.integers(2000, 4000))
def test_a_mass_survives_showing_and_reading(tenths: int) -> None:
    mass = D(tenths) / 10
    read = units.parse_mass(
        units.show_mass(mass), name="head mass", limits=units.HEAD_MASS_LIMITS_G
    )
    assert read == mass


@given(st.integers(20, 200), st.sampled_from(["mph", "km/h"]))
def test_a_speed_survives_showing_and_reading(speed: int, unit: units.SpeedUnit) -> None:
    read = units.parse_speed(f"{speed}", unit=unit)
    assert units.show_speed(read, unit) == f"{speed} {unit}"
    assert units.parse_speed(units.show_speed(read, unit)) == pytest.approx(read)


@given(st.decimals(D("457.2"), D("1219.2"), places=1))
def test_millimetres_survive_showing_and_reading(length_mm: D) -> None:
    assert units.parse_length(f"{length_mm} mm") == length_mm
    assert units.parse_length(f"{length_mm / 10} cm") == length_mm
    whole = length_mm.to_integral_value(ROUND_HALF_UP)
    if 458 <= whole <= 1219:
        assert units.parse_length(units.show_length(length_mm, "mm"), unit="in") == whole


@pytest.mark.parametrize(("share", "shown"), [(10.5, "11"), (10.499999999, "11"), (8.4, "8")])
def test_a_share_is_rounded_half_up_whatever_the_float(share: float, shown: str) -> None:
    assert show_percent(share) == shown
