"""Which way the face points, for both hands."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.maths.delivery import Delivered, leaned, lie_error, opened_face
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
