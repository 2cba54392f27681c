"""Which way the face points, for both hands."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.maths.delivery import (
    Delivered,
    leaned,
    lie_error,
    lie_of_length,
    opened_face,
    sole_to_path,
)
from sessions.maths.errors import NotAFigure


@pytest.mark.common_practice
def test_too_upright_points_a_right_hander_left_and_a_left_hander_right() -> None:
    assert lie_error(56.0, 2.0, "right").face_deg < 0
    assert lie_error(56.0, 2.0, "left").face_deg > 0
    assert lie_error(56.0, -2.0, "right").face_deg > 0


@pytest.mark.common_practice
def test_a_lie_error_counts_more_with_more_loft() -> None:
    assert abs(lie_error(60.0, 1.0, "right").face_deg) > abs(lie_error(46.0, 1.0, "right").face_deg)


def test_lean_takes_loft_and_bounce_one_for_one_and_may_leave_no_bounce() -> None:
    assert leaned(56.0, 12.0, 6.0) == Delivered(50.0, 6.0)
    assert leaned(56.0, 4.0, 6.0).bounce_deg == -2.0


@pytest.mark.common_practice
def test_an_open_face_adds_bounce_and_points_right_for_a_right_hander() -> None:
    opened = opened_face(56.0, 10.0, 64.0, 10.0, "right")
    assert opened.bounce_deg > 10.0
    assert opened.loft_deg > 56.0
    assert opened.face_deg > 0
    assert opened_face(56.0, 10.0, 64.0, 10.0, "left").face_deg < 0


@given(st.floats(20, 75), st.floats(-8, 8))
def test_a_left_hander_is_the_mirror_image(loft: float, error: float) -> None:
    right, left = lie_error(loft, error, "right"), lie_error(loft, error, "left")
    assert right.face_deg == -left.face_deg
    assert right.loft_deg == left.loft_deg


@given(st.floats(20, 70), st.floats(-5, 20), st.floats(55, 70))
def test_a_square_face_is_left_as_it_is(loft: float, bounce: float, lie: float) -> None:
    square = opened_face(loft, bounce, lie, 0.0, "right")
    assert square.loft_deg == pytest.approx(loft)
    assert square.bounce_deg == pytest.approx(bounce)
    assert square.face_deg == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("loft", [0.0, 90.0, -5.0, math.nan, math.inf])
def test_a_loft_that_is_none_is_refused(loft: float) -> None:
    with pytest.raises(NotAFigure):
        lie_error(loft, 1.0, "right")
    with pytest.raises(NotAFigure):
        leaned(loft, 10.0, 2.0)
    with pytest.raises(NotAFigure):
        opened_face(loft, 10.0, 64.0, 10.0, "right")


def test_a_face_turned_too_far_and_a_lie_of_none_are_refused() -> None:
    with pytest.raises(NotAFigure, match="no longer a face"):
        opened_face(56.0, 10.0, 64.0, 60.0, "right")
    with pytest.raises(NotAFigure, match="A lie is an angle"):
        opened_face(56.0, 10.0, 0.0, 10.0, "right")


@given(st.floats(20, 75), st.floats(-8, 8), st.floats(0, 120))
def test_a_side_from_a_lie_error_is_mirrored_too(loft: float, error: float, far: float) -> None:
    right, left = lie_error(loft, error, "right"), lie_error(loft, error, "left")
    assert right.side_m(far) == -left.side_m(far)


@given(st.floats(20, 70), st.floats(0, 20), st.floats(55, 70), st.floats(-30, 30))
def test_an_opened_face_is_mirrored_too(
    loft: float, bounce: float, lie: float, opened_by: float
) -> None:
    right = opened_face(loft, bounce, lie, opened_by, "right")
    left = opened_face(loft, bounce, lie, opened_by, "left")
    assert right.face_deg == -left.face_deg
    assert (right.loft_deg, right.bounce_deg) == (left.loft_deg, left.bounce_deg)


def test_a_steeper_blow_meets_the_ground_with_more_sole() -> None:
    # 56 with 12, leaned 6, hit 5 down: 6 of bounce to the ground, 11 to its own path.
    delivered = leaned(56.0, 12.0, 6.0)
    assert sole_to_path(delivered.bounce_deg, -5.0) == 11.0
    assert sole_to_path(-2.0, -1.5) == -0.5
    assert sole_to_path(8.0, 2.0) == 6.0


@pytest.mark.common_practice
def test_half_an_inch_is_a_degree_by_the_rule_and_more_by_geometry() -> None:
    longer = lie_of_length(64.0, 35.25 * 25.4, 0.5 * 25.4)
    assert longer.rule_deg == pytest.approx(-1.0)
    assert longer.change_deg < longer.rule_deg
    shorter = lie_of_length(64.0, 35.25 * 25.4, -0.5 * 25.4)
    assert shorter.rule_deg == pytest.approx(1.0)
    assert shorter.change_deg > 0


@given(st.floats(55, 70), st.floats(800, 950), st.floats(-15, 15))
def test_length_there_and_back_leaves_the_lie(lie: float, length: float, longer: float) -> None:
    there = lie_of_length(lie, length, longer)
    back = lie_of_length(there.lie_deg, length + longer, -longer)
    assert back.lie_deg == pytest.approx(lie, abs=1e-9)
    assert there.change_deg * longer <= 1e-9


@pytest.mark.parametrize(
    ("lie", "length", "longer"),
    [
        (math.nan, 900, 10),
        (64, math.inf, 10),
        (64, 900, math.nan),
        (0, 900, 10),
        (90, 900, 10),
        (64, 0, 10),
        (64, 900, -900),
        (64, 900, -100),
    ],
)
def test_a_length_that_makes_no_lie_is_refused(lie: float, length: float, longer: float) -> None:
    with pytest.raises(NotAFigure):
        lie_of_length(lie, length, longer)


@pytest.mark.parametrize(("bounce", "attack"), [(math.nan, -4), (8, math.inf), (8, -90)])
def test_a_blow_that_is_none_is_refused(bounce: float, attack: float) -> None:
    with pytest.raises(NotAFigure):
        sole_to_path(bounce, attack)
