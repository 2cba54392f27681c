"""What a bend does besides: worked by hand."""

from decimal import Decimal as D

import pytest

from sessions.rules.bend_does import bend_does


@pytest.mark.common_practice
def test_weak_takes_offset_away_and_strong_adds_it() -> None:
    assert bend_does(D(1), None, D(54)) == "less offset"
    assert bend_does(D("-0.5"), D(0), D(54)) == "more offset"


def test_both_bends_count_together_on_one_hosel() -> None:
    # The root of 2 x 2 + 1 x 1 is 2.236.
    assert bend_does(D(2), D(-1), D(56)) == "less offset, 2.2° together"


@pytest.mark.parametrize("lie", [D(3), D(-3)])
def test_a_lie_bend_says_the_loft_it_takes_from_a_tenth_of_a_degree(lie: D) -> None:
    # sin(loft) = sin 60 x cos 3 = 0.8660254 x 0.9986295 = 0.8648386: 59.864, so 0.136 less.
    assert bend_does(None, lie, D(60)) == "the lie bend takes 0.1° of loft"


def test_what_no_gauge_reads_is_not_said() -> None:
    # sin 56 x cos 2 = 0.8290376 x 0.9993908 = 0.8285325: 55.948, so 0.052 less.
    assert bend_does(D(0), D(2), D(56)) == ""
    assert bend_does(None, None, D(56)) == ""
