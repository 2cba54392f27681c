"""The clubs of a spec by their carries: what nobody can believe is not known."""

from decimal import Decimal

import pytest

from sessions.maths.carry_line import carry_line
from sessions.rules.carried import Carried, gap_between

LINE = carry_line(46.0, 110.0)


def at(loft, carry_m):
    return Carried("a club", Decimal(loft), carry_m, None, "carry")


def test_a_gap_is_known_where_both_carries_are():
    assert gap_between(LINE, at("50", 100.0), at("55", 88.0)).mean_m == 12.0


@pytest.mark.parametrize(
    ("further", "nearer"),
    [
        (at("50", None), at("55", 88.0)),
        (at("50", 600.0), at("55", 88.0)),  # a gap of over 500 m
        (at("950", 100.0), at("55", 88.0)),
    ],
)
def test_there_is_none_where_one_is_not_known_or_not_believable(further, nearer):
    assert gap_between(LINE, further, nearer) is None
