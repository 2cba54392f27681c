"""Delivery by turning vectors with SciPy's Rotation, and by figures worked by hand."""

import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.spatial.transform import Rotation

from sessions.maths.delivery import lie_error, lie_of_length, opened_face, sole_to_path


@pytest.mark.independent(library="scipy", call="Rotation.from_euler('x', error).apply(normal)")
@pytest.mark.parametrize("loft", [46.0, 52.0, 56.0, 60.0])
@pytest.mark.parametrize("error", [-3.0, 1.0, 4.0])
def test_a_lie_error_turns_the_face(loft: float, error: float) -> None:
    normal = [np.cos(np.radians(loft)), 0.0, np.sin(np.radians(loft))]
    # A toe that is up turns the normal towards the heel, +y: about the target line by -error.
    turned = Rotation.from_euler("x", -error, degrees=True).apply(normal)
    found = lie_error(loft, error, "right")
    left = np.degrees(np.arctan2(turned[1], turned[0]))
    assert found.face_deg == pytest.approx(-left, abs=1e-9)
    assert found.loft_deg == pytest.approx(np.degrees(np.arcsin(turned[2])), abs=1e-9)


# Worked by hand from tan(face) = tan(loft) sin(error), kept with the project's reference values.
@pytest.mark.worked_by_hand(how="atan(tan L sin d), 100 yd away")
@pytest.mark.parametrize(
    ("loft", "error", "deg", "yards"),
    [
        (46, 1, 1.0354, 1.807),
        (46, 4, 4.1316, 7.223),
        (52, 2, 2.5577, 4.467),
        (56, 3, 4.4368, 7.759),
        (60, 1, 1.7314, 3.023),
        (60, 4, 6.8892, 12.082),
    ],
)
def test_the_table_of_lie_errors(loft: float, error: float, deg: float, yards: float) -> None:
    found = lie_error(loft, error, "left")
    assert found.face_deg == pytest.approx(deg, abs=5e-5)
    assert found.side_m(100) == pytest.approx(yards, abs=5e-4)


@pytest.mark.independent(library="scipy", call="Rotation.from_rotvec(shaft axis * angle)")
@pytest.mark.parametrize("opened_by", [-10.0, 5.0, 30.0])
@pytest.mark.parametrize(("loft", "bounce", "lie"), [(56, 10, 64), (60, 8, 63), (48, 6, 64.5)])
def test_opening_turns_the_club_about_its_shaft(
    loft: float, bounce: float, lie: float, opened_by: float
) -> None:
    lie_rad = np.radians(lie)
    shaft = np.array([0.0, np.cos(lie_rad), np.sin(lie_rad)])
    turn = Rotation.from_rotvec(shaft * np.radians(-opened_by))
    face = turn.apply([np.cos(np.radians(loft)), 0.0, np.sin(np.radians(loft))])
    found = opened_face(loft, bounce, lie, opened_by, "right")
    assert found.face_deg == pytest.approx(-np.degrees(np.arctan2(face[1], face[0])), abs=1e-9)
    assert found.loft_deg == pytest.approx(np.degrees(np.arcsin(face[2])), abs=1e-9)
    # The sole's trace in the vertical plane of the target line, from two directions in the sole.
    along = turn.apply([np.cos(np.radians(bounce)), 0.0, np.sin(np.radians(bounce))])
    heel = turn.apply([0.0, 1.0, 0.0])
    trace = along - heel * along[1] / heel[1]
    assert found.bounce_deg == pytest.approx(np.degrees(np.arctan2(trace[2], trace[0])), abs=1e-9)


# Worked with vectors for the project's reference values.
@pytest.mark.worked_by_hand(how="worked example: lie 64, face turned about the shaft")
@pytest.mark.parametrize(
    ("loft", "bounce", "opened_by", "face", "loft_after", "bounce_after", "across"),
    [
        (56, 10, 5, 4.63, 58.19, 12.16, 12.19),
        (56, 10, 10, 9.58, 60.36, 14.25, 14.37),
        (56, 10, 30, 34.45, 68.48, 21.68, 22.71),
        (60, 8, 30, 36.35, 72.42, 19.87, 20.71),
    ],
)
def test_the_table_of_opened_faces(
    loft: float,
    bounce: float,
    opened_by: float,
    face: float,
    loft_after: float,
    bounce_after: float,
    across: float,
) -> None:
    found = opened_face(loft, bounce, 64.0, opened_by, "right")
    assert found.face_deg == pytest.approx(face, abs=0.005)
    assert found.loft_deg == pytest.approx(loft_after, abs=0.005)
    assert found.bounce_deg == pytest.approx(bounce_after, abs=0.005)
    assert found.bounce_across_edge_deg == pytest.approx(across, abs=0.005)


# Worked by hand for the project's reference values: asin(35.25 sin 64 / 35.75) = 62.40.
@pytest.mark.worked_by_hand(how="asin(L sin lie / (L + dL))")
def test_half_an_inch_longer_at_the_same_hand_height() -> None:
    found = lie_of_length(64.0, 35.25 * 25.4, 0.5 * 25.4)
    assert found.lie_deg == pytest.approx(62.40, abs=0.005)
    assert found.change_deg == pytest.approx(-1.60, abs=0.005)


@pytest.mark.independent(library="scipy", call="optimize.brentq(hand height - as before)")
@pytest.mark.parametrize("longer", [-12.7, -6.35, 6.35, 25.4])
def test_the_hands_stay_as_high(longer: float) -> None:
    length, lie = 35.5 * 25.4, 63.5
    height = length * np.sin(np.radians(lie))
    level = brentq(lambda deg: (length + longer) * np.sin(np.radians(deg)) - height, 1, 90)
    assert lie_of_length(lie, length, longer).lie_deg == pytest.approx(level, abs=1e-9)


@pytest.mark.independent(
    library="numpy",
    call="angle between the sole's line and the velocity",
    though="the function adds two angles: here two directions are laid out",
)
@pytest.mark.parametrize(("bounce", "attack"), [(10.0, -4.0), (6.0, -9.5), (-1.0, -3.0), (8, 2)])
def test_the_sole_meets_its_own_path(bounce: float, attack: float) -> None:
    # x to the target, z up: the sole rises forwards by the bounce, the head comes down.
    sole = np.array([np.cos(np.radians(bounce)), np.sin(np.radians(bounce))])
    path = np.array([np.cos(np.radians(attack)), np.sin(np.radians(attack))])
    signed = np.degrees(np.arctan2(path[0] * sole[1] - path[1] * sole[0], path @ sole))
    assert sole_to_path(bounce, attack) == pytest.approx(signed, abs=1e-9)
