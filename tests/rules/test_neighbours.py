"""Clubs of a set beside each other: the steps worked out by hand."""

from decimal import Decimal as D

import pytest

from orders.rules.neighbours import Neighbour, steps_judged, still_accepted


def judged(*clubs, tolerance="0.75"):
    return steps_judged("bench.loft_step", clubs, tolerance=D(tolerance))


def club(slot, planned, now, **more):
    return Neighbour(slot, D(planned), None if now is None else D(now), **more)


def test_two_clubs_each_within_half_a_degree_can_leave_a_step_of_three():
    """52 half a degree weak, 56 half a degree strong: 55.5 - 52.5 = 3 of 4."""
    (step,) = judged(club(1, "52", "52.5"), club(2, "56", "55.5"))
    assert (step.planned, step.came, step.off, step.is_out) == (D(4), D(3), D(-1), True)
    assert step.rule == "bench.loft_step"


def test_off_the_same_way_the_step_is_as_planned():
    (step,) = judged(club(1, "52", "52.5"), club(2, "56", "56.5"))
    assert (step.off, step.is_out) == (D(0), False)


@pytest.mark.parametrize(("now", "is_out"), [("55.25", False), ("55.24", True), ("56.75", False),
                                             ("56.76", True)])  # fmt: skip
def test_the_limit_itself_is_still_in_on_either_side(now, is_out):
    (step,) = judged(club(1, "52", "52"), club(2, "56", now))
    assert step.is_out is is_out


def test_a_club_that_nobody_measured_has_no_step_and_joins_none():
    steps = judged(club(1, "46", "46"), club(2, "50", None), club(3, "54", "56"))
    assert steps == ()


def test_a_set_has_one_step_less_than_clubs_each_between_its_own_two():
    steps = judged(club(3, "46", "46.5"), club(1, "50", "50"), club(2, "56", "56"))
    assert [(step.slots, step.off) for step in steps] == [((3, 1), D("-0.5")), ((1, 2), D(0))]


def test_past_the_limit_by_less_than_a_single_reading_is_off_it_is_read_again():
    """3.2 of 4 is 0.05 past the limit; the gauge repeats within 0.25."""
    doubt = {"doubt": D("0.25")}
    (step,) = judged(club(1, "52", "52.5", **doubt), club(2, "56", "55.7"))
    assert (step.is_out, step.wants_second_reading) == (True, True)
    (step,) = judged(club(1, "52", "52.5", **doubt), club(2, "56", "55.5"))
    assert (step.is_out, step.wants_second_reading) == (True, False)
    (step,) = judged(club(1, "52", "52.5"), club(2, "56", "55.7"))
    assert not step.wants_second_reading


@pytest.mark.parametrize(
    ("came", "holds"), [("3", True), ("3.4", True), ("4", True), ("2.99", False), ("4.01", False)]
)
def test_an_acceptance_holds_while_the_step_gets_no_further_from_its_plan(came, holds):
    assert still_accepted(planned=D(4), accepted=D(3), came=D(came)) is holds
