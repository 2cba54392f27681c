"""Keep and fix, answered by verdicts typed by hand."""

import pytest

from sessions.models.words import Swing
from sessions.rules.interview_questions import BY_KEY
from sessions.rules.sole_advice import Job
from sessions.rules.wanted import (
    SWINGS_OF,
    Seen,
    WantedAnswer,
    WantedThing,
    wanted_shown,
    wishes_in,
)


def seen(kind="none", is_better=None, swing="flop", sentence="Flop: spread 3 yd against 3 yd."):
    return Seen(swing, kind, is_better, sentence)


@pytest.mark.parametrize(
    ("found", "keep", "fix"),
    [
        ([], "not_shown", "not_shown"),
        ([seen(swing="sand")], "not_shown", "not_shown"),
        ([seen("few")], "not_shown", "not_shown"),
        ([seen("few"), seen("few")], "not_shown", "not_shown"),
        ([seen("none")], "kept", "not_fixed"),
        ([seen("none"), seen("few")], "kept", "not_fixed"),
        ([seen("real", True)], "kept", "fixed"),
        ([seen("real", True), seen("none")], "kept", "fixed"),
        ([seen("real", False)], "lost", "not_fixed"),
        ([seen("real", False), seen("none")], "lost", "not_fixed"),
        # Better in one thing does not pay for worse in another.
        ([seen("real", False), seen("real", True)], "lost", "not_fixed"),
        # A difference without a good side (how far it flies) answers nothing.
        ([seen("real", None)], "not_shown", "not_shown"),
        ([seen("real", None), seen("none")], "kept", "not_fixed"),
    ],
)
def test_the_verdicts_answer_what_was_wanted(found, keep, fix):
    assert wanted_shown("keep", "flop", found).answer == keep
    assert wanted_shown("fix", "flop", found).answer == fix


def test_the_numbers_behind_an_answer_stand_beside_it():
    worse = seen("real", False, sentence="Flop: 7 yd from the target against 4 yd.")
    same = seen("none", sentence="Flop: strikes alike.")
    assert wanted_shown("keep", "flop", [worse, same]).because == (
        "Flop: 7 yd from the target against 4 yd.",
    )


def test_what_was_not_hit_says_so():
    assert wanted_shown("fix", "sand", []).because == (
        "Not hit with both clubs in the same situation.",
    )


def test_an_unknown_word_shows_nothing():
    assert wanted_shown("fix", "putts", [seen()]).answer is WantedAnswer.NOT_SHOWN


def test_full_swings_answer_for_full_shots_flat_out_too():
    assert SWINGS_OF["full"] == {"full", "flat_out"}
    assert wanted_shown("keep", "full", [seen("none", swing="flat_out")]).answer == "kept"


def test_every_shot_that_can_be_named_and_every_swing_that_can_be_hit_has_its_place():
    assert set(SWINGS_OF) == {choice.value for choice in BY_KEY["keep"].choices}
    assert set().union(*SWINGS_OF.values()) == set(Swing.values)


FULL, SAND, CHIP = (
    WantedThing("keep", what, what.capitalize()) for what in ("full", "sand", "chip")
)


@pytest.mark.parametrize(
    ("slot", "here"),
    [(1, (FULL,)), (2, (SAND,)), (3, (CHIP,))],
)
def test_a_wish_is_asked_where_it_is_the_slots_job(slot, here):
    jobs = {1: (Job.FULL_SHOTS,), 2: (Job.SAND,), 3: (Job.OPENED_FACE,)}
    assert wishes_in(slot, (FULL, SAND, CHIP), jobs) == here


def test_a_wish_that_is_no_slots_job_is_asked_in_each():
    jobs = {1: (Job.FULL_SHOTS,), 2: (Job.FULL_SHOTS,)}
    assert wishes_in(1, (FULL, SAND), jobs) == (FULL, SAND)
    assert wishes_in(2, (SAND,), jobs) == (SAND,)


def test_every_shot_that_can_be_named_is_some_slots_job():
    for choice in BY_KEY["keep"].choices:
        assert WantedThing("keep", choice.value, choice.label).job is not None
