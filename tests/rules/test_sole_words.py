"""Soles are described in words and millimetres."""

from decimal import Decimal

import pytest

from sessions.models.words import Camber, Relief
from sessions.rules.sole_words import CAMBER_WORDS, RELIEF_WORDS, sole_words


def said(**changed) -> str:
    plain = {
        "width_mm": Decimal("19"),
        "camber": "medium",
        "heel": 0,
        "toe": 0,
        "leading": 0,
        "trailing": 0,
        "leading_softened": False,
    }
    return sole_words(**(plain | changed))


def test_a_plain_sole_says_that_it_has_no_relief():
    assert said() == "19 mm wide, medium camber, no relief"


def test_edges_of_one_grade_are_said_together():
    assert said(heel=2, trailing=2, leading_softened=True) == (
        "19 mm wide, medium camber, heel and trailing edge clearly relieved, leading edge softened"
    )


def test_the_strongest_relief_is_said_first():
    assert said(heel=1, toe=1, leading=1, trailing=3, camber="full", width_mm=Decimal("24.5")) == (
        "25 mm wide, full camber, trailing edge strongly relieved, "
        "heel, toe and leading edge slightly relieved"
    )


def test_a_softened_edge_is_said_without_any_relief():
    assert said(camber="flat", leading_softened=True) == (
        "19 mm wide, flat, no relief, leading edge softened"
    )


def test_every_camber_and_every_grade_that_is_stored_has_its_words():
    assert set(CAMBER_WORDS) == set(Camber.values)
    assert set(RELIEF_WORDS) == {grade for grade in Relief.values if grade != 0}


@pytest.mark.parametrize("unknown", [{"camber": "round"}, {"heel": 4}, {"toe": -1}])
def test_what_is_not_stored_is_refused_and_never_guessed(unknown):
    with pytest.raises(KeyError):
        said(**unknown)
