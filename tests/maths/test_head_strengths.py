"""Strengths of heads: finite, centred, ordinal, and less sure with fewer rounds."""

import pytest

from sessions.maths.errors import NotAFigure
from sessions.maths.head_strengths import head_strengths, preferences


def test_a_head_that_won_every_time_has_a_finite_strength() -> None:
    found = head_strengths(("a", "b"), [("a", "b")] * 6)
    assert found.heads[0].head_id == "a"
    assert 0.5 < found.heads[0].strength < 2
    assert (found.heads[0].wins, found.heads[0].rounds) == (6, 6)
    assert 0.7 < found.chance("a", "b") < 0.95


def test_nothing_told_leaves_all_alike_and_unsure() -> None:
    found = head_strengths(("a", "b", "c"), [])
    assert {head.strength for head in found.heads} == {0.0}
    assert found.chance("a", "c") == pytest.approx(0.5)


def test_more_rounds_make_surer() -> None:
    few = head_strengths(("a", "b"), [("a", "b"), ("b", "a")])
    many = head_strengths(("a", "b"), [("a", "b"), ("b", "a")] * 10)
    assert many.heads[0].sd < few.heads[0].sd


@pytest.mark.parametrize(
    ("won", "lost", "either"), [(1, 0, True), (4, 0, True), (6, 0, False), (12, 6, True)]
)
def test_few_rounds_could_go_either_way(won: int, lost: int, either: bool) -> None:
    # The difference and its doubt: 0.67 +- 1.18, 1.48 +- 0.95, 1.76 +- 0.89 and 0.62 +- 0.47.
    found = head_strengths(("a", "b"), [("a", "b")] * won + [("b", "a")] * lost)
    assert found.could_be_either("a", "b") is either
    assert found.could_be_either("b", "a") is either


def test_strengths_are_against_the_mean_of_all() -> None:
    found = head_strengths(("a", "b", "c"), [("a", "b"), ("a", "c"), ("b", "c")])
    assert sum(head.strength for head in found.heads) == pytest.approx(0.0)
    assert [head.head_id for head in found.heads] == ["a", "b", "c"]


def test_scores_of_a_round_count_by_their_order_and_never_across_rounds() -> None:
    small = preferences([{"a": 4, "b": 3, "c": 3}])
    large = preferences([{"a": 5, "b": 1, "c": 1}])
    assert small == large == (("a", "b"), ("a", "c"))
    # Two people who each rate all their own heads alike prefer none, whatever their levels.
    assert preferences([{"a": 5, "b": 5}, {"a": 1, "b": 1}]) == ()


def test_what_makes_no_sense_is_refused() -> None:
    for heads, told in ((("a",), []), (("a", "a"), []), (("a", "b"), [("a", "c")]),
                        (("a", "b"), [("a", "a")])):  # fmt: skip
        with pytest.raises(NotAFigure):
            head_strengths(heads, told)
    with pytest.raises(NotAFigure):
        head_strengths(("a", "b"), [], prior_sd=0.0)
