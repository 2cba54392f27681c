"""How a verdict is said: the range with it, and never more than the balls tell."""

from dataclasses import replace

from sessions.maths.comparison import Difference
from sessions.rules.verdict_words import PROMISE, difference_sentence

WORDS = ("longer than", "shorter than", "as long as")
REAL = Difference(
    balls_a=8, balls_b=7, mean_a=100.0, mean_b=96.0, difference=4.0, low=3.2, high=4.8,
    pooled_sd=1.0, margin=2.7, verdict="real difference", more_balls=None,
    advice="The difference is real.",
)  # fmt: skip


def said(found: Difference, unit="m", kind="distance", words=WORDS) -> str:
    return difference_sentence(found, words, "your 56", unit, kind)


def test_a_difference_is_said_with_its_range_and_its_balls():
    assert said(REAL) == "4 m longer than your 56 (3 to 5), 8 and 7 balls."


def test_a_shorter_one_turns_the_range_round():
    found = replace(REAL, difference=-4.0, low=-4.8, high=-3.2)
    assert said(found) == "4 m shorter than your 56 (3 to 5), 8 and 7 balls."


def test_a_real_difference_whose_range_reaches_below_the_margin_is_said_to_be_perhaps_too_small():
    found = replace(REAL, low=0.3, high=7.7)
    assert said(found) == (
        "4 m longer than your 56 (0 to 8), 8 and 7 balls. Real, but it may be too small to use."
    )


def test_what_is_alike_to_the_unit_is_said_so():
    found = replace(
        REAL, difference=0.2, low=-1.2, high=1.6, verdict="no difference you could use",
        advice="Choose by turf, look and feel.",
    )  # fmt: skip
    assert said(found) == (
        "As long as your 56 (\N{MINUS SIGN}1 to 2), 8 and 7 balls. Choose by turf, look and feel."
    )


def test_degrees_are_said_to_the_tenth_and_spin_to_the_ten():
    launch = replace(REAL, difference=1.26, low=0.9, high=1.6, margin=0.5)
    higher = ("higher than", "lower than", "as high as")
    assert said(launch, kind="degrees", words=higher).startswith(
        "1.3 degrees higher than your 56 (0.9 to 1.6)"
    )
    spin = replace(REAL, difference=1234.0, low=906.0, high=1562.0, margin=600.0)
    more = ("more than", "less than", "as much as")
    assert said(spin, kind="rpm", words=more).startswith(
        "1,230 rpm more than your 56 (910 to 1,560)"
    )


def test_nothing_measured_is_nothing_to_compare():
    found = replace(
        REAL, difference=None, low=None, high=None, balls_b=0, verdict="too few balls",
        advice="About 5 more balls with each club.",
    )  # fmt: skip
    assert said(found) == (
        "8 and 0 balls: nothing to compare yet. About 5 more balls with each club."
    )


def test_the_page_says_what_the_range_is_and_what_is_shared():
    assert "at most one visit in ten" in PROMISE
    assert "90 %" in PROMISE
