"""Lengths by the 60-degree stop and along the shaft, each held as the other has it: by hand."""

from decimal import Decimal as D

import pytest

from orders.rules.lengths import Missing, Stance, length_as
from sessions.maths.errors import NotAFigure
from sessions.maths.shown import show_length
from sessions.models.words import LengthMethod


def test_the_methods_are_those_that_are_stored():
    assert {"rules", "ruler"} == set(LengthMethod.values)


@pytest.mark.parametrize(
    ("lie", "reads"),
    [
        # 33 mm x (cot 60 - cot lie), from a table of cotangents: 0.57735.
        ("64", "35 3/8 in"),  # cot 0.48773: 2.957 mm more, 898.307 mm, 565.9 sixteenths
        ("63", "35 5/16 in"),  # cot 0.50953: 2.238 mm more, 897.588 mm, 565.4 sixteenths
        ("60", "35 1/4 in"),
        ("58", "35 3/16 in"),  # cot 0.62487: 1.568 mm less, 893.782 mm, 563.0 sixteenths
    ],
)
def test_a_ruler_along_the_shaft_reads_more_for_a_more_upright_club(lie, reads):
    stance = Stance(D(lie), D(33))
    found = length_as(D("895.35"), read_by="rules", wanted="ruler", stance=stance)
    assert show_length(found, "in") == reads
    back = length_as(found, read_by="ruler", wanted="rules", stance=stance)
    assert abs(back - D("895.35")) <= D("0.0001")


@pytest.mark.parametrize(("read_by", "wanted"), [("rules", "ruler"), ("ruler", "rules")])
@pytest.mark.parametrize(
    ("lie", "point", "missing"),
    [
        ("64", None, Missing.SOLE_POINT),
        (None, "33", Missing.LIE),
        ("81", "33", Missing.LIE),
        ("44.9", "33", Missing.LIE),
    ],
)
def test_what_is_missing_to_turn_one_into_the_other_is_named(read_by, wanted, lie, point, missing):
    stance = Stance(lie and D(lie), point and D(point))
    assert length_as(D(900), read_by=read_by, wanted=wanted, stance=stance) is missing


def test_a_length_in_its_targets_own_method_needs_nothing():
    assert length_as(D(900), read_by="ruler", wanted="ruler", stance=Stance(None, None)) == 900


def test_a_length_that_is_none_is_refused():
    with pytest.raises(NotAFigure):
        length_as(D(-1), read_by="ruler", wanted="rules", stance=Stance(D(64), D(33)))
