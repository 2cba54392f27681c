"""Numbers that give nothing away, and orders that favour no head."""

from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.maths.errors import OrderRefused
from sessions.maths.hidden_order import hidden_order, williams_rows

HEADS = ("high, wide", "mid", "low, narrow", "softened", "full", "cut heel", "flat", "round")


@given(st.integers(2, 8), st.integers(0, 2**64 - 1))
def test_numbers_are_two_digits_and_differ(n: int, seed: int) -> None:
    numbers = [head.number for head in hidden_order(HEADS[:n], seed=seed).heads]
    assert all(10 <= number <= 99 for number in numbers)
    assert len(set(numbers)) == n


@given(st.integers(3, 8), st.integers(0, 2**64 - 1))
def test_numbers_never_rise_in_the_order_the_heads_were_given(n: int, seed: int) -> None:
    numbers = [head.number for head in hidden_order(HEADS[:n], seed=seed).heads]
    assert numbers != sorted(numbers)


def test_of_two_heads_either_may_have_the_higher_number() -> None:
    first_is_higher = 0
    for seed in range(200):
        first, second = hidden_order(HEADS[:2], seed=seed).heads
        first_is_higher += first.number > second.number
    assert 70 < first_is_higher < 130


def test_every_order_of_three_numbers_but_the_rising_one_is_drawn() -> None:
    seen = set()
    for seed in range(300):
        numbers = [head.number for head in hidden_order(HEADS[:3], seed=seed).heads]
        seen.add(tuple(sorted(range(3), key=numbers.__getitem__)))
    assert len(seen) == 5


@given(st.integers(2, 8), st.integers(0, 2**32), st.integers(1, 20))
def test_each_round_holds_every_head_once(n: int, seed: int, rounds: int) -> None:
    order = hidden_order(HEADS[:n], seed=seed, rounds=rounds)
    assert len(order.rounds) == rounds
    for row in order.rounds:
        assert {order.head_of(number) for number in row} == set(HEADS[:n])


@given(st.integers(0, 2**32))
def test_the_same_seed_gives_the_same_draw(seed: int) -> None:
    assert hidden_order(HEADS[:4], seed=seed, rounds=3) == hidden_order(
        HEADS[:4], seed=seed, rounds=3
    )


def test_different_seeds_give_different_draws() -> None:
    assert len({hidden_order(HEADS[:4], seed=seed).rounds for seed in range(50)}) > 45


@pytest.mark.parametrize("n", [2, 3, 4, 5, 6, 7, 8, 9])
def test_a_design_is_balanced_for_position_and_for_what_went_before(n: int) -> None:
    rows = williams_rows(n)
    times = 1 if n % 2 == 0 else 2
    assert len(rows) == times * n
    pairs = Counter(pair for row in rows for pair in pairwise(row))
    assert pairs == {(a, b): times for a in range(n) for b in range(n) if a != b}
    positions = Counter((place, head) for row in rows for place, head in enumerate(row))
    assert positions == {(place, head): times for place in range(n) for head in range(n)}


def test_a_whole_design_of_rounds_is_balanced_too() -> None:
    order = hidden_order(HEADS[:4], seed=7, rounds=4)
    pairs = Counter(pair for row in order.rounds for pair in pairwise(row))
    assert len(pairs) == 12
    assert set(pairs.values()) == {1}


@pytest.mark.parametrize("heads", [(), ("mid",), tuple("abcdefghi"), ("mid", "mid")])
def test_a_draw_that_makes_no_sense_is_refused(heads: tuple[str, ...]) -> None:
    with pytest.raises(OrderRefused):
        hidden_order(heads, seed=1)


def test_no_round_and_an_unknown_number_are_refused() -> None:
    with pytest.raises(OrderRefused):
        hidden_order(HEADS[:2], seed=1, rounds=0)
    with pytest.raises(OrderRefused, match="goes by 9"):
        hidden_order(HEADS[:2], seed=1).head_of(9)
