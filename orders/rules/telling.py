"""Whether a player knows that the clubs are ready: judged on what was tried, never on a wish."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum


class How(StrEnum):
    """How somebody tried to tell the player."""

    LETTER = "letter"
    TELEPHONE = "telephone"
    TEXT = "text"
    IN_PERSON = "in_person"


class Outcome(StrEnum):
    """What came of it. A queued letter has none of its own: the letter's row says it."""

    REACHED = "reached"
    NO_ANSWER = "no_answer"
    MESSAGE_LEFT = "message_left"


class Standing(StrEnum):
    """Where the telling of one order stands."""

    TOLD = "told"
    LETTER_WAITS = "letter_waits"
    LETTER_UNKNOWN = "letter_unknown"
    LETTER_FAILED = "letter_failed"
    LETTER_STOPPED = "letter_stopped"
    TRIED = "tried"
    NOT_TRIED = "not_tried"


# The states of a letter's row, as the shop's queue names them.
LEFT = "sent"
WAITS = frozenset({"pending", "sending"})
OF_A_LETTER = {
    "unknown": Standing.LETTER_UNKNOWN,
    "dead": Standing.LETTER_FAILED,
    "cancelled": Standing.LETTER_STOPPED,
}


@dataclass(frozen=True, slots=True)
class Attempt:
    """One telling: how, its outcome, and the state of its letter if it is one."""

    how: str
    outcome: str = ""
    letter: str | None = None

    def counts(self) -> bool:
        """Whether the player knows by this one.

        A letter counts once it left, a call once somebody reached the player. A text that was
        left counts as a letter does.
        """
        if self.letter is not None:
            return self.letter == LEFT
        if self.how == How.TEXT:
            return self.outcome in {Outcome.REACHED, Outcome.MESSAGE_LEFT}
        return self.outcome == Outcome.REACHED


def standing_of(attempts: Sequence[Attempt]) -> Standing:
    """Return where it stands after all attempts, oldest first."""
    if any(attempt.counts() for attempt in attempts):
        return Standing.TOLD
    letters = [attempt.letter for attempt in attempts if attempt.letter is not None]
    if any(letter in WAITS for letter in letters):
        return Standing.LETTER_WAITS
    if attempts and attempts[-1].letter is not None:
        return OF_A_LETTER[attempts[-1].letter]
    return Standing.TRIED if attempts else Standing.NOT_TRIED
