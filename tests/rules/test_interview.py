"""The interview's questions, and which answers are refused with which sentence."""

from decimal import Decimal as D

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sessions.rules.interview import (
    ASK_LATER,
    Question,
    answer_refusal,
    answer_words,
    is_answered,
    number_from,
    unanswered,
)
from sessions.rules.interview_questions import BY_KEY, NEEDED_FOR_A_SOLE, QUESTIONS


def test_keys_are_given_once() -> None:
    assert len(BY_KEY) == len(QUESTIONS)


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question.key)
def test_every_question_can_be_asked_later(question: Question) -> None:
    assert answer_refusal(question, ASK_LATER) is None
    assert answer_words(question, ASK_LATER) == "Ask later"
    assert not is_answered(ASK_LATER)


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question.key)
def test_every_question_is_built_to_be_answered(question: Question) -> None:
    has_choices = question.kind in {"chips", "several"}
    assert bool(question.choices) == has_choices
    values = [choice.value for choice in question.choices]
    assert len(set(values)) == len(values)
    assert all(value.isascii() and value.islower() for value in values)
    if question.kind == "number":
        assert question.low is not None
        assert question.high is not None
        assert question.unit


@pytest.mark.parametrize(
    "key",
    [
        "reason",
        "keep",
        "fix",
        "club_full",
        "club_three_quarter",
        "club_half",
        "club_chip",
        "club_pitch",
        "club_flop",
        "club_sand",
        "flight",
        "miss",
        "attack",
        "divot",
        "ground_summer",
        "ground_winter",
        "grass",
        "sand",
        "ball",
        "rounds_a_year",
        "balls_a_week",
        "mats",
        "sand_practice",
        "wedge_age",
        "groove_rule",
        "iron_shaft",
        "iron_length",
        "iron_lie",
        "iron_shaft_material",
        "iron_shaft_g",
        "iron_lie_deg",
        "hands_in_sand",
        "chips_on",
        "wedges_wanted",
        "irons_changing",
        "grip_down",
        "glove",
        "hands",
        "posture",
        "pain",
        "look_disliked",
        "face_opened",
    ],
)
def test_what_a_fitter_asks_is_asked(key: str) -> None:
    assert key in BY_KEY


def test_what_needs_an_eye_on_the_swing_is_not_asked_at_home() -> None:
    not_at_home = {question.key for question in QUESTIONS if not question.askable_at_home}
    assert not_at_home == {
        "attack",
        "attack_deg",
        "hands_in_sand",
        "chips_on",
        "iron_shaft_g",
        "iron_lie_deg",
    }


def test_a_soles_questions_exist() -> None:
    assert set(NEEDED_FOR_A_SOLE) <= set(BY_KEY)


@pytest.mark.parametrize(
    ("key", "value", "refusal"),
    [
        ("attack", "steep", None),
        ("attack", "", None),
        ("attack", "very", "Choose one of: Steep, Medium, Shallow."),
        ("attack", 3, "Choose one of: Steep, Medium, Shallow."),
        ("attack", ["steep"], "Choose one of: Steep, Medium, Shallow."),
        ("sand", ["fluffy", "wet"], None),
        ("sand", [], None),
        ("sand", "fluffy", "Choose from the list; more than one is fine."),
        ("grass", "green", "Choose one of: Fine, Coarse."),
        ("rounds_a_year", "0", None),
        ("rounds_a_year", 0, None),
        ("rounds_a_year", "500", None),
        ("rounds_a_year", "501", "At most 500 rounds: 501 can't be right."),
        ("rounds_a_year", "-1", "At least 0 rounds: -1 can't be right."),
        ("rounds_a_year", "often", "Type a number of rounds, or ask later."),
        ("rounds_a_year", "nan", "Type a number of rounds, or ask later."),
        ("rounds_a_year", True, "Type a number of rounds, or ask later."),
        ("attack_deg", "-4,5", None),
        ("attack_deg", "-20", None),
        ("attack_deg", "-20.1", "At least -20 degrees: -20.1 can't be right."),
        ("reason", "My sand shots", None),
        ("reason", "", None),
        ("reason", "x" * 1000, None),
        ("reason", "x" * 1001, "That is 1001 characters; at most 1000 fit."),
        ("reason", 5, "Type it in words."),
        ("reason", "a\x00b", "There is a character in it that can't be stored."),
    ],
)
def test_an_answer_is_taken_or_refused_with_a_sentence(
    key: str, value: object, refusal: str | None
) -> None:
    assert answer_refusal(BY_KEY[key], value) == refusal


def test_nought_is_an_answer_and_nothing_is_not() -> None:
    assert is_answered(0)
    assert is_answered("0")
    assert not is_answered(None)
    assert not is_answered("  ")
    assert not is_answered([])


@pytest.mark.parametrize(
    ("value", "number"),
    [("4,5", D("4.5")), ("-3", D("-3")), (2, D(2)), (2.5, D("2.5")), ("x", None), (None, None)],
)
def test_a_number_is_read_with_comma_or_point(value: object, number: D | None) -> None:
    assert number_from(value) == number


def test_an_answer_is_shown_in_words() -> None:
    assert answer_words(BY_KEY["sand"], ["thin_over_base", "wet"]) == "Thin over base, Wet"
    assert answer_words(BY_KEY["rounds_a_year"], 0) == "0 rounds"
    assert answer_words(BY_KEY["grass"], "fine") == "Fine"
    assert answer_words(BY_KEY["grass"], None) == "Not asked yet"


def test_what_is_open_is_told() -> None:
    answers = {question.key: "x" for question in QUESTIONS}
    assert unanswered(QUESTIONS, answers) == ()
    assert unanswered(QUESTIONS, {**answers, "sand": [], "attack": ASK_LATER}) == ("attack", "sand")


@settings(max_examples=200, deadline=None, derandomize=True)
@given(
    st.sampled_from(QUESTIONS),
    st.none()
    | st.booleans()
    | st.floats()
    | st.integers()
    | st.text()
    | st.lists(st.text() | st.integers(), max_size=3)
    | st.dictionaries(st.text(), st.text(), max_size=1),
)
def test_no_answer_makes_it_raise(question: Question, value: object) -> None:
    refusal = answer_refusal(question, value)
    assert refusal is None or refusal.endswith(".")
    answer_words(question, value)
