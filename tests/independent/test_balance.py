"""Balance of three worked clubs, and units by pint.

The worked clubs and their results stand in the project's reference values, worked by moment
balance with SciPy and pint; D0 = 213.5 in-oz and 1.75 in-oz a point are trade usage.
"""

import pint
import pytest

from sessions.maths.balance import (
    Part,
    balance,
    balance_of_whole_club,
    mass_needed,
    moment_of_swing_weight,
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


@pytest.mark.independent(library="none: worked by hand", call="sum of m (x - 14)")
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


@pytest.mark.independent(
    library="none: worked by hand", call="the same balance solved for the head"
)
@pytest.mark.parametrize(
    ("points", "grams"), [(2, 292.464), (3, 294.778), (4, 297.092), (5, 299.406)]
)
def test_the_head_for_a_wanted_swing_weight(points: float, grams: float) -> None:
    assert mass_needed(ONE, "head", points) == pytest.approx(grams, abs=5e-4)


@pytest.mark.independent(library="none: worked by hand", call="W (balance point - 14)")
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
