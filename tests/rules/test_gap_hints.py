"""What is advised about a gap of carry that is outside the usual."""

from dataclasses import replace

import pytest

from sessions.rules.spec import spec_findings
from tests.rules.spec_cases import carries
from tests.rules.spec_examples import LIMITS

CHECK = (
    "5 degrees apart and the same carry: check the loft of both first, one may have drifted or "
    "been bent. Then one of the two may do the work of both."
)
ONE_OF_BOTH = "One of the two may do the work of both."


@pytest.mark.parametrize(
    ("second", "hint"),
    [
        (89.8, CHECK),  # a gap of 0.2 % of 100 m
        (87.51, CHECK),
        (87.49, ONE_OF_BOTH),
        (82.1, ONE_OF_BOTH),
        (91.0, CHECK),  # the weaker club carries farther
        (76.0, "A larger gap can be right where fewer clubs are wanted."),
    ],
)
def test_the_same_carry_with_lofts_apart_asks_for_both_lofts_first(second, hint):
    """A pitching wedge of 100 m, then clubs of 50 and 55 degrees."""
    found = [f for f in spec_findings(carries(90.0, second), LIMITS) if f.id == "SPEC-W011"]
    assert [finding.hint for finding in found] == [hint]


def test_two_clubs_of_one_loft_are_not_sent_to_the_gauge():
    facts = carries(90.0, 89.8)
    first, second = facts.clubs
    alike = replace(second, target_loft_deg=first.target_loft_deg)
    found = spec_findings(replace(facts, clubs=(first, alike)), LIMITS)
    assert [f.hint for f in found if f.id == "SPEC-W011"] == [ONE_OF_BOTH]


def doubtful(second, sd_m):
    """The same clubs, each carry give or take so much: the gap by the root of both squares."""
    facts = carries(90.0, second)
    clubs = tuple(replace(club, predicted_carry_sd_m=sd_m) for club in facts.clubs)
    found = spec_findings(replace(facts, clubs=clubs), LIMITS)
    return [finding.hint for finding in found if finding.id == "SPEC-W011"]


def test_a_gap_that_is_out_by_less_than_its_doubt_asks_for_balls_first():
    # 7 % of 100 m is out by 1 %; 0.8 and 0.8 make 1.13, 0.7 and 0.7 make 0.99.
    (hint,) = doubtful(83.0, 0.8)
    assert hint == (
        "It is out by less than its doubt: hit a few more balls with both before a loft is changed."
    )
    assert doubtful(83.0, 0.7) == [ONE_OF_BOTH]
    # Too large by one, likewise.
    assert doubtful(76.0, 0.8) == [hint]
    assert doubtful(76.0, 0.7) == ["A larger gap can be right where fewer clubs are wanted."]
