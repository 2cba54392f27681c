"""Spreads, strikes and ratings: told apart when they are, and rarely when they are not."""

import numpy as np
import pytest

from sessions.maths.comparison import judged_together
from sessions.maths.comparison_counts import ratings_weighed, shares_weighed
from sessions.maths.comparison_spread import spreads_weighed
from sessions.maths.errors import NotAFigure


def test_equal_spreads_watched_after_every_shot_are_rarely_called_different() -> None:
    rng = np.random.default_rng(20261124)
    tries, false = 150, 0
    for _ in range(tries):
        a, b = rng.normal(100, 4, 30).tolist(), rng.normal(92, 4, 30).tolist()
        for balls in range(5, 31):
            (found,) = judged_together([spreads_weighed(a[:balls], b[:balls], margin=0.01)])
            if found.verdict == "real difference":
                false += 1
                break
    assert false / tries <= 0.10


def test_equal_shares_of_bad_strikes_are_rarely_called_different() -> None:
    rng = np.random.default_rng(20261124)
    tries, false = 200, 0
    for _ in range(tries):
        a, b = rng.random(30) < 0.25, rng.random(30) < 0.25
        for balls in range(5, 31):
            counts = (int(a[:balls].sum()), int(b[:balls].sum()))
            (found,) = judged_together([shares_weighed(counts, (balls, balls), margin=0.01)])
            if found.verdict == "real difference":
                false += 1
                break
    assert false / tries <= 0.10


def test_three_times_the_spread_is_told_and_the_ratio_is_a_over_b() -> None:
    wild = [85.0, 115.0, 92.0, 108.0, 100.0, 88.0, 112.0, 97.0, 103.0, 118.0]
    tame = [99.0, 101.0, 98.0, 102.0, 100.0, 97.0, 103.0, 100.0, 101.0, 99.0]
    (found,) = judged_together([spreads_weighed(wild, tame, margin=0.25)])
    (turned,) = judged_together([spreads_weighed(tame, wild, margin=0.25)])
    assert found.verdict == turned.verdict == "real difference"
    assert found.difference is not None
    assert turned.difference == pytest.approx(1 / found.difference)
    assert found.low is not None
    assert turned.high == pytest.approx(1 / found.low)
    assert found.neutral == 1.0


def test_a_quarter_of_the_spread_is_not_for_today() -> None:
    a = [96.0, 100.0, 104.0, 98.0, 102.0, 101.0]
    (found,) = judged_together([spreads_weighed(a, a, margin=0.25)])
    assert (found.verdict, found.more_balls) == ("too few balls", None)


def test_six_bad_strikes_of_eight_against_none_are_real_and_two_are_not() -> None:
    bad, some = (
        judged_together([shares_weighed(counts, (8, 8), margin=0.15)])[0]
        for counts in ((6, 0), (2, 0))
    )
    assert bad.verdict == "real difference"
    assert some.verdict == "too few balls"
    assert bad.difference == 0.75


def test_rated_higher_in_six_rounds_of_six_is_real_and_in_four_is_not() -> None:
    six, four = (
        judged_together([ratings_weighed([4] * n, [3] * n, margin=0.2)], least_balls=2)[0]
        for n in (6, 4)
    )
    assert six.verdict == "real difference"
    assert four.verdict == "too few balls"


def test_a_rating_counts_by_its_order_never_by_its_size() -> None:
    small = ratings_weighed([4, 4, 4], [3, 3, 3], margin=0.2)
    large = ratings_weighed([5, 5, 5], [1, 1, 1], margin=0.2)
    assert small == large
    assert ratings_weighed([3, 3], [3, 3], margin=0.2).difference is None


def test_a_larger_chance_of_a_false_call_narrows_the_ratios() -> None:
    wild = [85.0, 115.0, 92.0, 108.0, 100.0, 88.0, 112.0, 97.0, 103.0, 118.0]
    tame = [99.0, 101.0, 98.0, 102.0, 100.0, 97.0, 103.0, 100.0, 101.0, 99.0]
    weighed = spreads_weighed(wild, tame, margin=0.25)
    wide, narrow = weighed.always_valid(0.05), weighed.always_valid(0.20)
    assert wide is not None
    assert narrow is not None
    assert wide[0] < narrow[0] < weighed.difference < narrow[1] < wide[1]  # type: ignore[operator]


@pytest.mark.parametrize("wild", ["one ball in ten 20 m short", "heavy tails"])
def test_bad_strikes_with_both_are_no_difference_in_spread(wild: str) -> None:
    rng = np.random.default_rng(20261125)
    tries, false = 100, 0

    def club() -> list[float]:
        if wild == "heavy tails":
            return list(4 * rng.standard_t(5, 30))
        return list(rng.normal(0, 4, 30) - 20 * (rng.random(30) < 0.1))

    for _ in range(tries):
        a, b = club(), club()
        for balls in range(5, 31):
            (found,) = judged_together([spreads_weighed(a[:balls], b[:balls], margin=0.01)])
            if found.verdict == "real difference":
                false += 1
                break
    assert false / tries <= 0.10


def test_clubs_that_do_not_scatter_at_all_are_not_judged_by_it() -> None:
    same, apart = [100.0] * 6, [100.0, 101.0, 99.0, 102.0, 98.0, 100.0]
    for a, b in ((same, same), (same, apart), (apart, same)):
        (found,) = judged_together([spreads_weighed(a, b, margin=0.25)])
        assert (found.verdict, found.low, found.high) == ("too few balls", None, None)


def test_what_makes_no_sense_is_refused() -> None:
    with pytest.raises(NotAFigure):
        spreads_weighed([1.0], [1.0], margin=1.0)
    with pytest.raises(NotAFigure):
        shares_weighed((9, 0), (8, 8), margin=0.1)
    with pytest.raises(NotAFigure):
        ratings_weighed([1], [1, 2], margin=0.1)
    with pytest.raises(NotAFigure):
        judged_together([shares_weighed((1, 0), (8, 8), margin=0.1)] * 2, family=1)
