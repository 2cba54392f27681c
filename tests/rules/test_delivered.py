"""What a lie, a length, a lean and an open face do, in words. Figures worked by hand."""

from decimal import Decimal as D

import pytest

from sessions.rules.delivered import (
    degree_of_lie_words,
    delivered_bounce_words,
    face_of_lie_words,
    lie_of_length_words,
)


def test_a_degree_of_lie_says_the_face_and_how_far_aside_at_most() -> None:
    # tan(face) = tan 56 x sin 1 = 1.48256 x 0.0174524 = 0.0258743: 1.48 degrees.
    # 90 m = 98.4 yd; 98.425 x 0.0258743 = 2.547 yd.
    assert degree_of_lie_words(D(56), 90.0, "right", "yd") == (
        "A degree too upright points the face 1.5° left, at 98 yd about 2.5 yd aside at most; "
        "a degree too flat as much right."
    )


def test_a_left_hander_is_pointed_the_other_way_and_without_a_carry_only_the_face_is_said() -> None:
    assert degree_of_lie_words(D(56), None, "left", "m") == (
        "A degree too upright points the face 1.5° right; a degree too flat as much left."
    )


@pytest.mark.parametrize(("loft", "hand"), [(None, "right"), (D(56), ""), (D(95), "right")])
def test_without_a_loft_or_a_hand_nothing_is_said_of_the_lie(loft: D | None, hand: str) -> None:
    assert degree_of_lie_words(loft, 90.0, hand, "yd") == ""


def test_two_degrees_too_flat_point_a_right_handers_face_right() -> None:
    # tan 60 x sin 2 = 1.73205 x 0.0348995 = 0.0604477: 3.46 degrees.
    assert face_of_lie_words(D(60), D(-2), "right") == "3.5° right"


def test_a_longer_club_plays_level_flatter_beside_the_trades_rule() -> None:
    # sin(new) = 35.5 / 36 x sin 64 = 0.986111 x 0.898794 = 0.886311: 62.41, so 1.6 flatter.
    # The trade's rule: half an inch is a degree.
    said = lie_of_length_words(
        D(36) * D("25.4"),
        of="The trial club",
        known_length_mm=D("35.5") * D("25.4"),
        known_lie_deg=D(64),
        unit="in",
    )
    assert said == (
        "The trial club has 64° at 35 1/2 in: at 36 in, the hands as high, 62.4° plays as level "
        "(1.6 flatter; by the trade's rule 1, since half is often taken up by how one stands)."
    )


@pytest.mark.parametrize(
    ("length", "known_length", "known_lie"),
    [
        (None, D(900), D(64)),
        (D(900), None, D(64)),
        (D(900), D(890), None),
        (D(900), D(899), D(64)),
        (D(100), D(900), D(64)),
    ],
)
def test_of_the_same_length_or_an_unknown_one_nothing_is_said(
    length: D | None, known_length: D | None, known_lie: D | None
) -> None:
    said = lie_of_length_words(
        length, of="X", known_length_mm=known_length, known_lie_deg=known_lie, unit="mm"
    )
    assert said == ""


def test_a_suggested_bounce_is_said_as_it_is_delivered() -> None:
    # Leaned 5: 7 - 5 = 2, 10 - 5 = 5. Opened 20 about a shaft at 64 (axis 0, 0.43837, 0.89879):
    # of 10 the sole's normal (0.17365, 0, -0.98481) turns to x 0.31082, z -0.94736: 18.2 degrees;
    # of 7, (0.12187, 0, -0.99255) turns to x 0.26333, z -0.96276: 15.3.
    assert delivered_bounce_words(D(56), D(7), D(10)) == (
        "Bounce as it meets the ground: leaned 5°, 2 to 5°; opened 20°, 15 to 18°."
    )


def test_a_low_bounce_leaned_may_be_less_than_none_and_a_high_one_has_no_end() -> None:
    # 4 - 5 = -1. Of 11: (0.19081, 0, -0.98163) turns to x 0.32647, z -0.94158: 19.1.
    assert "leaned 5°, \N{MINUS SIGN}1 to 1°;" in delivered_bounce_words(D(60), D(4), D(6))
    assert delivered_bounce_words(D(56), D(11), None) == (
        "Bounce as it meets the ground: leaned 5°, 6° and more; opened 20°, 19° and more."
    )


def test_a_measured_attack_says_how_the_sole_stands_to_its_path() -> None:
    # 7 + 6 = 13, 10 + 6 = 16.
    said = delivered_bounce_words(D(56), D(7), D(10), D(-6))
    assert said.endswith("; square, to the path of the measured attack, 13 to 16°.")


def test_without_a_bounce_nothing_is_said_of_it() -> None:
    assert delivered_bounce_words(D(56), None, None) == ""
