"""Three verdicts, and how rarely a difference is called that isn't there."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from sessions.maths.comparison import (
    BlockContext,
    Difference,
    always_valid_t,
    difference_of_clubs,
    unfairness,
)
from sessions.maths.errors import NotAFigure

VALUES = st.lists(st.floats(50, 130), max_size=25)


def looks_until_thirty(
    a: np.ndarray, b: np.ndarray, margin: float, judged_together: int = 1
) -> set[str]:
    """Look after every shot, the clubs in turn, up to thirty a side; return what was ever said."""
    said = set()
    for balls in range(4, 30):
        for n_a, n_b in ((balls + 1, balls), (balls + 1, balls + 1)):
            found = difference_of_clubs(
                a[:n_a].tolist(), b[:n_b].tolist(), margin=margin, judged_together=judged_together
            )
            said.add(found.verdict)
    return said


@pytest.mark.parametrize(("sd_a", "sd_b"), [(4.0, 4.0), (3.0, 6.0)])
def test_equal_clubs_watched_after_every_shot_are_rarely_called_different(
    sd_a: float, sd_b: float
) -> None:
    rng = np.random.default_rng(20261124)
    tries = 400
    # Next to no margin: only the interval stands between chance and a false call.
    false = sum(
        "real difference"
        in looks_until_thirty(rng.normal(100, sd_a, 30), rng.normal(100, sd_b, 30), margin=0.01)
        for _ in range(tries)
    )
    # At most 10 %; with a standard error of 0.015 a true 10 % would show 0.055 to 0.145.
    assert false / tries <= 0.10


def test_an_ordinary_interval_watched_the_same_way_would_fail() -> None:
    # That the check above can fail: the fixed-sample 90 % t interval, on the same kind of shots.
    rng = np.random.default_rng(20261124)
    false = 0
    for _ in range(100):
        a, b = rng.normal(100, 4, 30), rng.normal(100, 4, 30)
        false += any(stats.ttest_ind(a[:balls], b[:balls]).pvalue < 0.10 for balls in range(5, 31))
    assert false / 100 > 0.20


def test_a_large_difference_is_found_within_thirty_balls() -> None:
    rng = np.random.default_rng(7)
    found = sum(
        "real difference"
        in looks_until_thirty(rng.normal(106, 4, 30), rng.normal(100, 4, 30), margin=2.0)
        for _ in range(50)
    )
    assert found >= 45


def test_clubs_that_are_alike_to_a_hair_have_no_difference_you_could_use() -> None:
    a = [100.0 + (i % 2) * 0.2 for i in range(12)]
    found = difference_of_clubs(a, a, margin=2.0)
    assert found.verdict == "no difference you could use"
    assert found.advice == "Choose by turf, look and feel."
    assert found.low is not None
    assert found.high is not None
    assert -2.0 < found.low < found.high < 2.0


def test_a_real_difference_smaller_than_the_margin_is_not_called_real() -> None:
    a = [101.0 + (i % 2) * 0.2 for i in range(12)]
    b = [100.0 + (i % 2) * 0.2 for i in range(12)]
    assert difference_of_clubs(a, b, margin=2.0).verdict == "no difference you could use"
    assert difference_of_clubs(a, b, margin=0.5).verdict == "real difference"
    assert difference_of_clubs(a, b, margin=1.02).verdict == "too few balls"


def test_four_balls_are_never_enough_and_five_may_be() -> None:
    near, far = [100.0, 100.2, 100.1, 100.3, 100.2], [120.0, 120.2, 120.1, 120.3, 120.2]
    four = difference_of_clubs(near[:4], far, margin=2.0)
    assert (four.verdict, four.more_balls) == ("too few balls", 1)
    assert difference_of_clubs(near, far, margin=2.0).verdict == "real difference"


def test_the_difference_is_a_minus_b() -> None:
    found = difference_of_clubs([90.0, 91.0, 92.0], [95.0, 96.0, 97.0], margin=2.0)
    assert found.difference == -5.0


@pytest.mark.common_practice
def test_two_yards_at_a_spread_of_four_is_not_for_today() -> None:
    rng = np.random.default_rng(3)
    a = (rng.normal(0, 1, 10) * 4).tolist()
    found = difference_of_clubs(a, [value + 0.1 for value in a], margin=2.0)
    assert found.verdict == "too few balls"
    assert found.more_balls is None
    assert found.advice == "Not today: choose by turf, look and feel."


def test_a_few_more_balls_are_said_when_a_few_would_do() -> None:
    a, b = [98.0, 102.0, 100.0, 101.0, 99.0], [97.0, 94.0, 99.0, 95.0, 98.5]
    found = difference_of_clubs(a, b, margin=2.0)
    assert found.verdict == "too few balls"
    assert found.more_balls is not None
    assert 1 <= found.more_balls <= 12
    assert found.advice == f"About {found.more_balls} more balls with each club."


@pytest.mark.parametrize(("a", "b"), [([], []), ([100.0], []), ([100.0], [101.0]), ([1.0] * 9, [])])
def test_next_to_no_shots_have_no_interval_and_say_how_many_more(
    a: list[float], b: list[float]
) -> None:
    found = difference_of_clubs(a, b, margin=2.0)
    assert found.verdict == "too few balls"
    assert (found.low, found.high) == (None, None)
    assert found.more_balls == 5 - min(len(a), len(b))


def test_shots_without_any_spread_are_not_judged() -> None:
    assert difference_of_clubs([90.0] * 8, [99.0] * 8, margin=2.0).verdict == "too few balls"


@pytest.mark.parametrize("margin", [0.0, -1.0, math.nan, math.inf])
def test_a_margin_that_is_none_is_refused(margin: float) -> None:
    with pytest.raises(NotAFigure):
        difference_of_clubs([1.0], [2.0], margin=margin)


def test_what_is_no_figure_is_refused() -> None:
    with pytest.raises(NotAFigure):
        difference_of_clubs([math.nan], [1.0], margin=1.0)
    with pytest.raises(NotAFigure):
        difference_of_clubs([1.0], [1.0], margin=1.0, judged_together=0)


@given(VALUES, VALUES)
def test_swapping_the_clubs_only_turns_the_sign(a: list[float], b: list[float]) -> None:
    one, other = (
        difference_of_clubs(a, b, margin=2.0),
        difference_of_clubs(b, a, margin=2.0),
    )
    assert one.verdict == other.verdict
    assert one.more_balls == other.more_balls
    if one.difference is not None:
        assert other.difference == -one.difference


@given(VALUES, VALUES, st.integers(2, 10))
def test_judging_more_at_once_never_makes_a_call_easier(
    a: list[float], b: list[float], together: int
) -> None:
    def width(found: Difference) -> float:
        return math.inf if found.high is None or found.low is None else found.high - found.low

    alone = difference_of_clubs(a, b, margin=2.0)
    shared = difference_of_clubs(a, b, margin=2.0, judged_together=together)
    assert width(shared) >= width(alone)


@given(st.integers(3, 60), st.integers(3, 60))
def test_watching_costs_more_than_looking_once(n_a: int, n_b: int) -> None:
    assert always_valid_t(n_a, n_b) > float(stats.t.ppf(0.95, n_a + n_b - 2))


SAME = BlockContext(
    swing="full stock",
    surface="fairway",
    ground="firm",
    wet="dry",
    face="square",
    ball="premium",
    device="bay 1",
    figures="as flown",
    grooves="fresh",
    visit="today",
)


def test_two_blocks_alike_are_fair() -> None:
    assert unfairness(SAME, SAME) == ()
    assert unfairness(BlockContext(), BlockContext()) == ()


@pytest.mark.parametrize(
    ("field", "other", "said"),
    [
        ("swing", "half", "The swings differ: full stock against half."),
        ("surface", "mat", "The shots were hit from different surfaces: fairway against mat."),
        ("ground", "soft", "The ground was not the same: firm against soft."),
        ("wet", "wet", "A wet face can halve the spin: dry against wet."),
        ("face", "wide open", "The face was not held the same way: square against wide open."),
        ("ball", "range", "The balls differ: premium against range."),
        ("device", "bay 2", "The figures come from different devices: bay 1 against bay 2."),
        ("figures", "normalised", "The figures don't mean the same: as flown against normalised."),
        (
            "grooves",
            "worn",
            "Fresh grooves beat worn ones on spin, whatever the sole: fresh against worn.",
        ),
        ("visit", "in May", "The shots are from two visits: today against in May."),
    ],
)
def test_each_thing_that_differs_is_said(field: str, other: str, said: str) -> None:
    assert unfairness(SAME, replace(SAME, **{field: other})) == (said,)


def test_what_only_one_block_notes_is_a_doubt() -> None:
    assert unfairness(SAME, replace(SAME, figures=None)) == (
        "Only one of the two notes as flown or normalised (as flown).",
    )
