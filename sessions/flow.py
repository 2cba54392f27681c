"""The states of a visit, a trial, a comparison and a final spec, and the allowed moves.

Pure: no rows, no people, no clock. What else must be true before a move (a closed visit is
reopened only until an order is released, say) is the service's question.
`orders.flow` builds the order's states on the same base.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import TypeVar


class State(StrEnum):
    """Base of every state: a stored word, a label that a person reads, and the allowed moves.

    Subclasses give `noun`, `_labels` and `_moves` as static methods, since a plain attribute
    in an enumeration would become a member. Moves are never listed to the state itself.
    """

    @staticmethod
    def noun() -> str:
        """What is in this state, as a person says it: visit, trial, spec."""
        raise NotImplementedError

    @staticmethod
    def _labels() -> Mapping[str, str]:
        raise NotImplementedError

    @staticmethod
    def _moves() -> Mapping[str, tuple[str, ...]]:
        raise NotImplementedError

    @property
    def label(self) -> str:
        """The state in the words of the screens."""
        return self._labels()[self.value]

    @classmethod
    def choices(cls) -> list[tuple[str, str]]:
        """(stored word, label) pairs, in the order of the day, for a column's choices."""
        return [(state.value, state.label) for state in cls]

    @property
    def next_states(self) -> tuple[str, ...]:
        """The stored words of the states that may come next; empty for the last one."""
        return self._moves()[self.value]

    @property
    def is_last(self) -> bool:
        """True where nothing can come after."""
        return not self.next_states


class VisitState(State):
    """A visit, from the appointment to its close."""

    BOOKED = "booked"
    OPEN = "open"
    CLOSED = "closed"
    CANCELLED = "cancelled"
    NO_SHOW = "no_show"

    @staticmethod
    def noun() -> str:
        return "visit"

    @staticmethod
    def _labels() -> Mapping[str, str]:
        return {
            "booked": "Booked",
            "open": "Open",
            "closed": "Closed",
            "cancelled": "Cancelled",
            "no_show": "Did not come",
        }

    @staticmethod
    def _moves() -> Mapping[str, tuple[str, ...]]:
        return {
            "booked": ("open", "cancelled", "no_show"),
            "open": ("closed",),
            # Reopened only until an order is released: visit_open asks that.
            "closed": ("open",),
            "cancelled": (),
            # Came after all, later than the desk waited.
            "no_show": ("open",),
        }


class TrialState(State):
    """One trial club in the player's hand."""

    OPEN = "open"
    FINISHED = "finished"
    TAKEN_BACK = "taken_back"

    @staticmethod
    def noun() -> str:
        return "trial"

    @staticmethod
    def _labels() -> Mapping[str, str]:
        return {"open": "In hand", "finished": "Finished", "taken_back": "Taken back"}

    @staticmethod
    def _moves() -> Mapping[str, tuple[str, ...]]:
        # A trial's played values were copied when it started: a second look is a new trial.
        return {
            "open": ("finished", "taken_back"),
            # In the hand again where the hand-over after it is taken back.
            "finished": ("open",),
            # Another tablet had a ball with it.
            "taken_back": ("finished",),
        }


class ComparisonState(State):
    """A comparison in a drawn order."""

    DRAWN = "drawn"
    RUNNING = "running"
    REVEALED = "revealed"
    ABANDONED = "abandoned"

    @staticmethod
    def noun() -> str:
        return "comparison"

    @staticmethod
    def _labels() -> Mapping[str, str]:
        return {
            "drawn": "Order drawn",
            "running": "Running",
            "revealed": "Revealed",
            "abandoned": "Abandoned",
        }

    @staticmethod
    def _moves() -> Mapping[str, tuple[str, ...]]:
        return {
            "drawn": ("running", "abandoned"),
            "running": ("revealed", "abandoned"),
            "revealed": (),
            "abandoned": (),
        }


class SpecState(State):
    """One version of the final spec."""

    DRAFT = "draft"
    CHECKED = "checked"
    SIGNED = "signed"
    SUPERSEDED = "superseded"
    WITHDRAWN = "withdrawn"

    @staticmethod
    def noun() -> str:
        return "spec"

    @staticmethod
    def _labels() -> Mapping[str, str]:
        return {
            "draft": "Draft",
            "checked": "Checked",
            "signed": "Signed",
            "superseded": "Replaced by a later one",
            "withdrawn": "Withdrawn",
        }

    @staticmethod
    def _moves() -> Mapping[str, tuple[str, ...]]:
        return {
            "draft": ("checked", "withdrawn"),
            # Back to draft when anything is changed after the check.
            "checked": ("draft", "signed", "withdrawn"),
            "signed": ("superseded", "withdrawn"),
            "superseded": (),
            "withdrawn": (),
        }


S = TypeVar("S", bound=State)


def can_move(from_state: S, to_state: S) -> bool:
    """Tell whether the move is in the table. A move to the same state is not a move.

    States of two different things never follow each other, whatever their words.
    """
    return type(from_state) is type(to_state) and to_state.value in from_state.next_states


def refusal(from_state: State, to_state: State) -> str:
    """Say why a move is refused, for the person who asked for it.

    Meant for a pair that `can_move` refused; on an allowed pair it still reads as a refusal.
    """
    noun, now = from_state.noun(), from_state.label.lower()
    if from_state is to_state:
        return f"This {noun} is already in the state “{now}”."
    kind = type(from_state)
    following = [f"“{kind(word).label.lower()}”" for word in from_state.next_states]
    head = f"This {noun} is in the state “{now}” and can't go to “{to_state.label.lower()}”."
    if not following:
        return f"{head} Nothing comes after that state."
    return f"{head} What can come next: {', '.join(following)}."
