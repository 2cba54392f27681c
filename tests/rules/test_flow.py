"""The allowed moves, every pair of states by hand, and what a refusal says."""

from itertools import product

import pytest

from orders.flow import ClubState, OrderState
from sessions.flow import (
    ComparisonState,
    SpecState,
    State,
    TrialState,
    VisitState,
    can_move,
    refusal,
)

# Read: from -> to to to. Whatever is not here is refused.
ALLOWED: dict[type[State], str] = {
    VisitState: """
        booked -> open cancelled no_show
        open -> closed
        closed -> open
        cancelled ->
        no_show -> open
    """,
    TrialState: """
        open -> finished taken_back
        finished -> open
        taken_back -> finished
    """,
    ComparisonState: """
        drawn -> running abandoned
        running -> revealed abandoned
        revealed ->
        abandoned ->
    """,
    SpecState: """
        draft -> checked withdrawn
        checked -> draft signed withdrawn
        signed -> superseded withdrawn
        superseded ->
        withdrawn ->
    """,
    OrderState: """
        draft -> released cancelled
        released -> waiting_for_parts in_build cancelled
        waiting_for_parts -> released in_build rework cancelled
        in_build -> waiting_for_parts to_check cancelled
        to_check -> rework ready cancelled
        rework -> waiting_for_parts to_check cancelled
        ready -> handed_over rework cancelled
        handed_over ->
        cancelled ->
    """,
    ClubState: """
        to_pick -> to_build
        to_build -> to_pick curing to_check
        curing -> to_build to_check rework
        to_check -> rework ready
        rework -> to_pick curing to_check
        ready -> collected rework
        collected ->
    """,
}


def allowed_pairs(kind: type[State]) -> set[tuple[str, str]]:
    pairs = set()
    for line in ALLOWED[kind].strip().splitlines():
        start, _, ends = line.strip().partition(" ->")
        pairs |= {(start, end) for end in ends.split()}
    return pairs


@pytest.mark.parametrize("kind", ALLOWED, ids=lambda kind: kind.__name__)
def test_the_moves_are_these_and_no_others(kind: type[State]) -> None:
    moves = {(a.value, b.value) for a, b in product(kind, kind) if can_move(a, b)}
    assert moves == allowed_pairs(kind)


@pytest.mark.parametrize("kind", ALLOWED, ids=lambda kind: kind.__name__)
def test_every_state_is_on_the_way_from_the_first(kind: type[State]) -> None:
    first = next(iter(kind))
    reached, todo = {first}, [first]
    while todo:
        for word in todo.pop().next_states:
            state = kind(word)
            if state not in reached:
                reached.add(state)
                todo.append(state)
    assert reached == set(kind)


@pytest.mark.parametrize("kind", ALLOWED, ids=lambda kind: kind.__name__)
def test_every_state_has_words_a_person_reads(kind: type[State]) -> None:
    labels = [label for _, label in kind.choices()]
    assert len(set(labels)) == len(kind)
    assert not [label for label in labels if "_" in label or not label[0].isupper()]


def test_states_of_two_things_never_follow_each_other() -> None:
    assert TrialState.OPEN == "open" == VisitState.OPEN
    assert can_move(VisitState.OPEN, VisitState.CLOSED)
    assert not can_move(TrialState.OPEN, VisitState.CLOSED)  # type: ignore[misc]


def test_a_closed_visit_may_be_opened_again() -> None:
    assert can_move(VisitState.CLOSED, VisitState.OPEN)


def test_a_handed_over_order_stays_as_it_was() -> None:
    assert OrderState.HANDED_OVER.is_last
    assert not OrderState.READY.is_last


def test_nothing_is_ready_without_a_check() -> None:
    before = {state for state in OrderState if can_move(state, OrderState.READY)}
    assert before == {OrderState.TO_CHECK}


def test_a_refusal_says_what_can_come_next() -> None:
    assert refusal(VisitState.CLOSED, VisitState.CANCELLED) == (
        "This visit is in the state “closed” and can't go to “cancelled”. "
        "What can come next: “open”."
    )


def test_a_refusal_says_where_nothing_comes_next() -> None:
    assert refusal(OrderState.HANDED_OVER, OrderState.REWORK) == (
        "This order is in the state “handed over” and can't go to “rework”. "
        "Nothing comes after that state."
    )


def test_asking_twice_is_told_from_asking_wrongly() -> None:
    assert refusal(SpecState.SIGNED, SpecState.SIGNED) == (
        "This spec is already in the state “signed”."
    )
