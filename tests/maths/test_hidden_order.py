"""Numbers that give nothing away, and orders that favour no head."""

from collections import Counter
from collections.abc import Callable, Sequence
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.maths.errors import OrderRefused
from sessions.maths.hidden_order import (
    HiddenOrder,
    OrdersUsed,
    all_against_all,
    head_to_head,
    meetings,
    orders_used,
    square_orders,
    williams_rows,
)

HEADS = ("high, wide", "mid", "low, narrow", "softened", "full", "cut heel", "flat", "round")
SEEDS = st.integers(0, 2**64 - 1)
Draw = Callable[..., HiddenOrder]
KINDS = pytest.mark.parametrize("draw", [all_against_all, head_to_head])


def heads_in_turn(drawn: HiddenOrder) -> tuple[str, ...]:
    return tuple(drawn.head_of(number) for number in drawn.order)


def one_after_another(
    draw: Draw, heads: Sequence[str], seeds: Sequence[int]
) -> list[tuple[str, ...]]:
    """The heads in their orders, each draw knowing of those before it."""
    used: list[tuple[str, ...]] = []
    for seed in seeds:
        used.append(heads_in_turn(draw(heads, seed=seed, used=used)))
    return used


@given(st.integers(2, 8), st.integers(0, 2**64 - 1))
def test_numbers_are_two_digits_and_differ(n: int, seed: int) -> None:
    numbers = [head.number for head in all_against_all(HEADS[:n], seed=seed).heads]
    assert all(10 <= number <= 99 for number in numbers)
    assert len(set(numbers)) == n


@given(st.integers(3, 8), st.integers(0, 2**64 - 1))
def test_numbers_never_rise_in_the_order_the_heads_were_given(n: int, seed: int) -> None:
    numbers = [head.number for head in all_against_all(HEADS[:n], seed=seed).heads]
    assert numbers != sorted(numbers)


def test_of_two_heads_either_may_have_the_higher_number() -> None:
    first_is_higher = 0
    for seed in range(200):
        first, second = all_against_all(HEADS[:2], seed=seed).heads
        first_is_higher += first.number > second.number
    assert 70 < first_is_higher < 130


def test_every_order_of_three_numbers_but_the_rising_one_is_drawn() -> None:
    seen = set()
    for seed in range(300):
        numbers = [head.number for head in all_against_all(HEADS[:3], seed=seed).heads]
        seen.add(tuple(sorted(range(3), key=numbers.__getitem__)))
    assert len(seen) == 5


@given(st.integers(2, 8), SEEDS)
def test_all_against_all_holds_every_head_once(n: int, seed: int) -> None:
    drawn = all_against_all(HEADS[:n], seed=seed)
    assert sorted(heads_in_turn(drawn)) == sorted(HEADS[:n])
    assert heads_in_turn(drawn) == square_orders(HEADS[:n])[drawn.row]


@given(st.integers(2, 8), SEEDS)
def test_head_to_head_two_of_the_heads_meet_and_only_they_are_numbered(n: int, seed: int) -> None:
    drawn = head_to_head(HEADS[:n], seed=seed)
    first, second = heads_in_turn(drawn)
    assert first != second
    assert {head.head_id for head in drawn.heads} == {first, second}
    assert (first, second) == meetings(HEADS[:n])[drawn.row]


@KINDS
@given(seed=SEEDS)
def test_the_same_seed_after_the_same_orders_gives_the_same_draw(draw: Draw, seed: int) -> None:
    used = [heads_in_turn(draw(HEADS[:4], seed=seed))]
    assert draw(HEADS[:4], seed=seed, used=used) == draw(HEADS[:4], seed=seed, used=used)


@KINDS
def test_different_seeds_give_different_draws(draw: Draw) -> None:
    drawn = [draw(HEADS[:4], seed=seed) for seed in range(100)]
    assert len({one.order for one in drawn}) > 90
    # Whichever is drawn, every row comes about: 4 of the square, 12 meetings.
    assert len({one.row for one in drawn}) == {all_against_all: 4, head_to_head: 12}[draw]


@given(st.permutations(HEADS[:5]))
def test_the_design_is_the_same_however_the_heads_are_named(named: list[str]) -> None:
    assert square_orders(named) == square_orders(HEADS[:5])
    assert meetings(named) == meetings(HEADS[:5])


def test_in_a_head_to_head_either_of_two_may_come_first() -> None:
    first = Counter(heads_in_turn(head_to_head(HEADS[:2], seed=seed))[0] for seed in range(200))
    assert 70 < first["mid"] < 130


@given(st.integers(2, 6), st.data())
def test_every_pair_meets_once_before_any_meets_again(n: int, data: st.DataObject) -> None:
    pairs = n * (n - 1) // 2
    seeds = data.draw(st.lists(SEEDS, min_size=2 * pairs, max_size=2 * pairs))
    met = one_after_another(head_to_head, HEADS[:n], seeds)
    assert len({frozenset(one) for one in met[:pairs]}) == pairs
    assert len({frozenset(one) for one in met[pairs:]}) == pairs
    # The second time the other way round: each stands first once against each other.
    assert sorted(met) == sorted((a, b) for a in HEADS[:n] for b in HEADS[:n] if a != b)


@given(st.integers(2, 8), st.data())
def test_rows_come_without_repetition_until_the_square_is_full(n: int, data: st.DataObject) -> None:
    rows = n if n % 2 == 0 else 2 * n
    seeds = data.draw(st.lists(SEEDS, min_size=rows, max_size=rows))
    drawn = one_after_another(all_against_all, HEADS[:n], seeds)
    assert len(set(drawn)) == rows
    # Full, it is balanced: each stands in each position, and right after each other, as often.
    times = rows // n
    assert Counter(pair for order in drawn for pair in pairwise(order)) == {
        (a, b): times for a in HEADS[:n] for b in HEADS[:n] if a != b
    }
    assert Counter((place, head) for order in drawn for place, head in enumerate(order)) == {
        (place, head): times for place in range(n) for head in HEADS[:n]
    }


def test_after_a_full_square_the_next_begins() -> None:
    drawn = one_after_another(all_against_all, HEADS[:4], range(8))
    assert set(drawn[:4]) == set(drawn[4:])


def test_a_pair_that_met_under_another_choice_waits_for_the_others() -> None:
    used = [("mid", "full"), ("full", "mid"), ("nobody", "mid")]
    for seed in range(40):
        met = heads_in_turn(head_to_head(("mid", "full", "flat"), seed=seed, used=used))
        assert "flat" in met


def test_orders_of_other_heads_use_up_nothing() -> None:
    others = one_after_another(all_against_all, HEADS[4:8], range(4))
    assert all_against_all(HEADS[:4], seed=3, used=others) == all_against_all(HEADS[:4], seed=3)


@pytest.mark.parametrize(
    ("drawn", "told"),
    [
        (0, OrdersUsed(used=0, of=4, passes=0)),
        (2, OrdersUsed(used=2, of=4, passes=0)),
        (4, OrdersUsed(used=0, of=4, passes=1)),
        (5, OrdersUsed(used=1, of=4, passes=1)),
    ],
)
def test_how_far_the_square_is_filled_and_balanced_only_when_full(
    drawn: int, told: OrdersUsed
) -> None:
    used = one_after_another(all_against_all, HEADS[:4], range(drawn))
    assert orders_used(square_orders(HEADS[:4]), used) == told
    assert told.is_balanced == (drawn == 4)


@pytest.mark.parametrize("n", [2, 3, 4, 5, 6, 7, 8, 9])
def test_a_design_is_balanced_for_position_and_for_what_went_before(n: int) -> None:
    rows = williams_rows(n)
    times = 1 if n % 2 == 0 else 2
    assert len(rows) == times * n
    pairs = Counter(pair for row in rows for pair in pairwise(row))
    assert pairs == {(a, b): times for a in range(n) for b in range(n) if a != b}
    positions = Counter((place, head) for row in rows for place, head in enumerate(row))
    assert positions == {(place, head): times for place in range(n) for head in range(n)}


@KINDS
@pytest.mark.parametrize("heads", [(), ("mid",), tuple("abcdefghi"), ("mid", "mid")])
def test_a_draw_that_makes_no_sense_is_refused(draw: Draw, heads: tuple[str, ...]) -> None:
    with pytest.raises(OrderRefused):
        draw(heads, seed=1)


def test_an_unknown_number_and_no_design_are_refused() -> None:
    with pytest.raises(OrderRefused, match="goes by 9"):
        all_against_all(HEADS[:2], seed=1).head_of(9)
    with pytest.raises(OrderRefused):
        orders_used((), [])
