"""Balance of three worked clubs, and units by pint.

The worked clubs and their results stand in the project's reference values, worked by moment
balance with SciPy and pint; D0 = 213.5 in-oz and 1.75 in-oz a point are trade usage.
"""

import numpy as np
import pint
import pytest
from scipy.integrate import quad

from sessions.maths.balance import (
    Part,
    balance,
    balance_of_whole_club,
    mass_needed,
    moment_of_swing_weight,
    rod_inertia_kg_cm2,
)
from sessions.maths.balance_changes import (
    butt_cut,
    changes_beside_rules,
    grams_per_point,
    head_nearer,
    lengthened,
    without_adapter,
)
from sessions.maths.shown import show_swing_weight

UREG = pint.UnitRegistry()


def rod(mass_g: float, length_in: float) -> float:
    """Return a rod's own moment of inertia about its centre [kg cm2]."""
    return mass_g / 1000 * (length_in * 2.54) ** 2 / 12


def club(
    length: float, head: float, shaft: tuple[float, float], grip: float, tape: float, ferrule: float
) -> list[Part]:
    mass, centre = shaft
    return [
        Part("head", head, length - 0.06),
        # The raw shaft: the club's length less the cap and 1.5 in at the head.
        Part("shaft", mass, centre, rod(mass, length - 0.1875 - 1.5)),
        Part("grip", grip, 4.25, rod(grip, 10.5)),
        Part("tape", tape, 5.0),
        Part("epoxy and ferrule", 3.0, ferrule),
    ]


ONE = club(35.5, 300.0, (120.0, 16.755625), 50.0, 2.0, 32.75)
TWO = club(35.25, 300.0, (85.0, 16.633125), 52.0, 2.0, 32.5)
THREE = club(35.0, 305.0, (128.0, 16.510625), 60.0, 5.0, 32.25)


@pytest.mark.worked_by_hand(how="sum of m (x - 14)")
@pytest.mark.parametrize(
    ("parts", "mass", "point", "moment", "shown", "inertia"),
    [
        (ONE, 475, 27.291, 222.700, "D5.3", 2751.9),
        (TWO, 442, 27.827, 215.570, "D1.2", 2629.9),
        (THREE, 501, 26.241, 216.329, "D1.6", 2735.2),
    ],
)
def test_three_worked_clubs(
    parts: list[Part], mass: float, point: float, moment: float, shown: str, inertia: float
) -> None:
    found = balance(parts)
    assert found.mass_g == pytest.approx(mass)
    assert found.balance_point_in == pytest.approx(point, abs=5e-4)
    assert found.moment_in_oz == pytest.approx(moment, abs=5e-4)
    assert show_swing_weight(found.swing_weight_points) == shown
    assert found.inertia_about_butt_kg_cm2 == pytest.approx(inertia, abs=0.05)


@pytest.mark.worked_by_hand(how="the same balance solved for the head")
@pytest.mark.parametrize(
    ("points", "grams"), [(2, 292.464), (3, 294.778), (4, 297.092), (5, 299.406)]
)
def test_the_head_for_a_wanted_swing_weight(points: float, grams: float) -> None:
    assert mass_needed(ONE, "head", points) == pytest.approx(grams, abs=5e-4)


@pytest.mark.worked_by_hand(how="W (balance point - 14)")
@pytest.mark.parametrize(
    ("mass", "point", "moment", "shown"),
    [
        (475, 27.2, 221.1677, "D4.4"),
        (460, 27.75, 223.1078, "D5.5"),
        (330, 31.0, 197.8869, "C1.1"),
    ],
)
def test_a_whole_club_on_an_edge(mass: float, point: float, moment: float, shown: str) -> None:
    found, points = balance_of_whole_club(mass, point)
    assert found == pytest.approx(moment, abs=5e-5)
    assert show_swing_weight(points) == shown


@pytest.mark.independent(library="pint", call="Quantity(1.75, 'inch * ounce').to('gram * inch')")
def test_a_point_in_gram_inches() -> None:
    point = moment_of_swing_weight(1) - moment_of_swing_weight(0)
    grams = UREG.Quantity(point, "inch * ounce").to("gram * inch").magnitude
    assert grams == pytest.approx(49.611665, abs=5e-7)
    moment, _ = balance_of_whole_club(UREG.Quantity(16, "ounce").to("gram").magnitude, 27.0)
    assert moment == pytest.approx(16 * 13, rel=1e-12)


@pytest.mark.worked_by_hand(how="M14 + 2 W")
@pytest.mark.parametrize(("parts", "moment"), [(ONE, 256.210), (TWO, 246.752), (THREE, 251.673)])
def test_the_older_scale_with_its_fulcrum_at_12_in(parts: list[Part], moment: float) -> None:
    assert balance(parts).moment_about_12_in_oz == pytest.approx(moment, abs=5e-4)
    # And by its own definition: the sum of m (x - 12).
    by_parts = sum(part.mass_g * (part.from_butt_in - 12) for part in parts)
    ounces = UREG.Quantity(by_parts, "gram * inch").to("ounce * inch").magnitude
    assert balance(parts).moment_about_12_in_oz == pytest.approx(ounces, rel=1e-12)


@pytest.mark.independent(library="scipy", call="integrate.quad(density(x) * x**2) along the club")
def test_inertia_by_adding_up_slices_of_shaft_and_grip() -> None:
    """The parallel-axis sum against the club cut into thin slices."""
    length, shaft_g, grip_g = 35.5, 120.0, 50.0
    raw = length - 0.1875 - 1.5

    def slices(mass: float, centre: float, long: float, power: int) -> float:
        per_in = mass / long
        ends = (centre - long / 2, centre + long / 2)
        return float(quad(lambda x: per_in * (x - 0) ** power, *ends)[0])

    points = [(300.0, 35.44), (2.0, 5.0), (3.0, 32.75)]
    inertia = sum(mass * place**2 for mass, place in points)
    inertia += slices(shaft_g, 16.755625, raw, 2) + slices(grip_g, 4.25, 10.5, 2)
    found = balance(ONE)
    assert found.inertia_about_butt_kg_cm2 == pytest.approx(inertia * 2.54**2 / 1000, rel=1e-9)
    about_14 = sum(mass * (place - 14) for mass, place in points)
    about_14 += slices(shaft_g, 16.755625, raw, 1) - 14 * shaft_g
    about_14 += slices(grip_g, 4.25, 10.5, 1) - 14 * grip_g
    assert found.moment_in_oz == pytest.approx(about_14 / 28.349523125, rel=1e-9)


@pytest.mark.worked_by_hand(how="a pendulum: I = m g d T^2 / (4 pi^2), T 1.83427 s")
def test_inertia_agrees_with_the_swing_of_the_club_hung_by_its_butt() -> None:
    found = balance(ONE)
    metres = found.balance_point_in * 0.0254
    inertia = found.mass_g / 1000 * 9.80665 * metres * 1.83427**2 / (4 * np.pi**2)
    assert found.inertia_about_butt_kg_cm2 == pytest.approx(inertia * 1e4, rel=1e-5)


@pytest.mark.worked_by_hand(how="own inertia plus m x^2: one gram")
def test_a_gram_of_head_adds_so_much_inertia() -> None:
    heavier = [Part("head", 301.0, 35.44), *ONE[1:]]
    more = balance(heavier).inertia_about_butt_kg_cm2 - balance(ONE).inertia_about_butt_kg_cm2
    assert more == pytest.approx(8.103, abs=5e-4)


@pytest.mark.independent(library="scipy", call="integrate.quad of x^2 over the rod's slices")
@pytest.mark.parametrize(("mass", "long"), [(120.0, 33.8), (50.0, 10.5), (0.0, 10.0), (2.0, 0.0)])
def test_a_rod_about_its_own_centre(mass: float, long: float) -> None:
    per_in = mass / long if long else 0.0
    found = quad(lambda x: per_in * x**2, -long / 2, long / 2)[0] * 2.54**2 / 1000
    assert rod_inertia_kg_cm2(mass, long) == pytest.approx(found)


# 2 points are 3.5 in-oz or 99.2233 g in: the head of 300 g 0.330744 in nearer, the balance point of
# 475 g 0.20889 in. 35.44 in less that is 35.109256; 0.3 kg x (1255.9936 - 1232.6599) x 6.4516.
@pytest.mark.worked_by_hand(how="m x = M before and after; m (x1^2 - x2^2)")
def test_a_head_that_lies_nearer_takes_so_much_off() -> None:
    less = head_nearer(ONE, 2)
    assert less.balance_point_in == pytest.approx(0.20889, abs=5e-6)
    assert less.inertia_about_butt_kg_cm2 == pytest.approx(45.1622, abs=5e-4)
    nearer = balance([Part("head", 300.0, 35.44 - 0.330744), *ONE[1:]])
    assert nearer.swing_weight_points == pytest.approx(balance(ONE).swing_weight_points - 2)


# The exact column beside the trade's, worked for the project's reference values.
@pytest.mark.worked_by_hand(how="49.6117 g in / (x - 14)")
@pytest.mark.parametrize(
    ("from_butt", "grams"),
    [(32, 2.756), (33, 2.611), (34, 2.481), (35, 2.362), (36, 2.255), (38, 2.067), (44, 1.654),
     (35.44, 2.314), (16.755625, 18.0), (4.25, -5.09), (0.75, -3.74)],
)  # fmt: skip
def test_the_grams_of_a_point_by_place(from_butt: float, grams: float) -> None:
    digits = 0.05 if abs(grams) > 10 else 0.005 if grams < 0 else 0.0005
    assert grams_per_point(from_butt) == pytest.approx(grams, abs=digits)


@pytest.mark.worked_by_hand(how="the worked club, 35.5 in")
def test_each_rule_of_thumb_beside_what_it_really_does() -> None:
    head, shaft, grip, length = changes_beside_rules(ONE, shaft_g_per_in=120 / 33.8125)
    assert (head.change, head.rule_points) == ("2 g more head", 1.0)
    assert head.for_a_point == pytest.approx(2.314, abs=5e-4)
    assert head.exact_points == pytest.approx(2 / 2.314, abs=5e-4)
    assert shaft.for_a_point == pytest.approx(18.0, abs=0.05)
    assert shaft.exact_points == pytest.approx(0.5, abs=5e-3)
    assert grip.for_a_point == pytest.approx(5.09, abs=5e-3)
    assert grip.exact_points == pytest.approx(-5 / 5.09, abs=5e-3)
    assert (length.change, length.rule_points) == ("half an inch longer", 3.0)
    assert length.exact_points == pytest.approx(3.75, abs=5e-3)


@pytest.mark.worked_by_hand(how="the worked club half an inch on")
def test_half_an_inch_of_length_three_ways() -> None:
    now = balance(ONE).swing_weight_points

    def moved(parts: tuple[Part, ...]) -> float:
        return balance(parts).swing_weight_points - now

    assert moved(lengthened(ONE, 0.5, shaft_g_per_in=0)) == pytest.approx(3.65, abs=5e-3)
    assert moved(lengthened(ONE, 0.5, shaft_g_per_in=120 / 33.8125)) == pytest.approx(
        3.75, abs=5e-3
    )
    # 1.7 g come off with the half inch.
    cut = butt_cut(ONE, 0.5, shaft_g_per_in=3.4, cap_in=0.1875)
    assert moved(cut) == pytest.approx(-3.78, abs=5e-3)
    # A sixteenth and an eighth of an inch, same masses.
    assert moved(lengthened(ONE, 1 / 16, shaft_g_per_in=0)) == pytest.approx(0.456, abs=5e-4)
    assert moved(lengthened(ONE, 1 / 8, shaft_g_per_in=0)) == pytest.approx(0.912, abs=5e-4)


@pytest.mark.independent(library="scipy", call="integrate.quad over what is left of the shaft")
def test_a_cut_shaft_by_adding_up_what_is_left_of_it() -> None:
    per_in = 120 / 33.8125
    even = [Part("shaft", 120.0, 0.1875 + 33.8125 / 2)]
    (left,) = butt_cut(even, 2.0, shaft_g_per_in=per_in, cap_in=0.1875)
    # What is left begins under the cap again and is two inches shorter.
    mass = quad(lambda x: per_in, 0.1875, 0.1875 + 31.8125)[0]
    moment = quad(lambda x: per_in * x, 0.1875, 0.1875 + 31.8125)[0]
    assert left.mass_g == pytest.approx(mass)
    assert left.from_butt_in == pytest.approx(moment / mass)


@pytest.mark.worked_by_hand(how="the club put together without it: balance(parts)")
@pytest.mark.parametrize(("grams", "place"), [(8.0, 34.2), (12.0, 33.5), (0.0, 34.0)])
def test_an_adapter_is_taken_out(grams: float, place: float) -> None:
    bare = balance(ONE)
    fitted = balance([*ONE, Part("adapter", grams, place)])
    found = without_adapter(
        mass_g=fitted.mass_g,
        swing_weight_points=fitted.swing_weight_points,
        adapter_g=grams,
        adapter_from_butt_in=place,
    )
    assert found.mass_g == pytest.approx(bare.mass_g)
    assert found.swing_weight_points == pytest.approx(bare.swing_weight_points)
    assert found.balance_point_in == pytest.approx(bare.balance_point_in)
