"""A ball is asked about where its carry fits another swing far better than its own."""

import math

import pytest

from sessions.declared import SETTINGS
from sessions.rules.other_swing import OtherSwingLimits, carries, fits_better

LIMITS = OtherSwingLimits(far=4, near=2, least=3, spread_least=0.10, chip_most=0.40)
# Mean 84, standard deviation 2: two of them 2 off, so sqrt((4 + 0 + 4) / 2) = 2.
FULL = [82.0, 84.0, 86.0]
# Mean 26, standard deviation 2.
CHIPS = [24.0, 26.0, 28.0]


def test_mean_and_spread_are_those_of_the_sample_but_no_smaller_than_the_share():
    told = carries([80.0, 100.0, 120.0], LIMITS)
    assert told is not None
    # (400 + 0 + 400) / 2 = 400, whose root is 20; a tenth of the mean is only 10.
    assert (told.mean_m, told.spread_m) == (100.0, 20.0)
    even = carries(FULL, LIMITS)
    assert even is not None
    assert even.spread_m == pytest.approx(8.4)
    assert carries(FULL[:2], LIMITS) is None


def test_twenty_seven_among_full_swings_is_a_chip():
    # (84 - 27) / 8.4 = 6.8 spreads off the full swings, (27 - 26) / 2.6 = 0.4 off the chips.
    assert fits_better(27.0, "full", {"full": FULL, "chip": CHIPS}, LIMITS) == "chip"


def test_a_full_swing_among_chips_is_a_full_swing():
    assert fits_better(84.0, "chip", {"full": FULL, "chip": CHIPS}, LIMITS) == "full"


def test_a_short_full_swing_is_not_asked_about():
    # 84 - 4 x 8.4 = 50.4: the first carry that lies less than four spreads off is 50.5.
    assert fits_better(50.5, "full", {"full": FULL, "chip": [48.0, 50.0, 52.0]}, LIMITS) is None
    assert fits_better(50.3, "full", {"full": FULL, "chip": [48.0, 50.0, 52.0]}, LIMITS) == "chip"


def test_a_ball_that_fits_no_other_swing_either_stays_without_a_question():
    # Chips reach to 26 + 2 x 2.6 = 31.2.
    assert fits_better(31.3, "full", {"full": FULL, "chip": CHIPS}, LIMITS) is None
    assert fits_better(31.1, "full", {"full": FULL, "chip": CHIPS}, LIMITS) == "chip"


def test_without_a_chip_yet_a_ball_of_a_third_of_the_full_swing_may_be_one():
    # 0.40 x 84 = 33.6.
    assert fits_better(33.5, "full", {"full": FULL}, LIMITS) == "chip"
    assert fits_better(33.7, "full", {"full": FULL}, LIMITS) is None
    assert fits_better(33.5, "half", {"half": FULL}, LIMITS) is None


def test_nothing_is_asked_before_its_own_swing_has_enough_balls():
    assert fits_better(27.0, "full", {"full": FULL[:2], "chip": CHIPS}, LIMITS) is None


def test_balls_that_all_went_alike_divide_by_nothing():
    limits = OtherSwingLimits(far=4, near=2, least=3, spread_least=0.0, chip_most=0.4)
    same = carries([84.0, 84.0, 84.0], limits)
    assert same is not None
    assert (same.away(84.0), same.away(83.0)) == (0.0, math.inf)


def test_the_shop_sets_what_is_far():
    defaults = {one.key: one.default for one in SETTINGS}
    assert (defaults["visit.other_swing_far"], defaults["visit.other_swing_near"]) == (4, 2)
