"""The interview's questions as data, and whether an answer can be stored.

Half of it is asked while the player warms up, so nothing here blocks: every question may be
answered "ask later", in any order. The questions themselves stand in `interview_questions`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from enum import StrEnum
from typing import Literal

# Stored as the answer where the fitter chose to come back to a question.
ASK_LATER = "ask_later"

LONGEST_TEXT = 1000


class Group(StrEnum):
    """The parts of the interview, in the order in which a fitter usually asks."""

    REASON = "reason"
    GAME = "game"
    SWING = "swing"
    GROUND = "ground"
    PRACTICE = "practice"
    CLUBS = "clubs"
    BODY = "body"

    @property
    def label(self) -> str:
        return {
            "reason": "What brings you",
            "game": "Your wedge play",
            "swing": "Swing and strike",
            "ground": "Ground and sand at home",
            "practice": "How much you play",
            "clubs": "Your clubs",
            "body": "Hands, back and stance",
        }[self.value]


@dataclass(frozen=True, slots=True)
class Choice:
    """One chip: the stored word and what stands on it."""

    value: str
    label: str


@dataclass(frozen=True, slots=True)
class Question:
    """One question.

    `kind` chips takes one of `choices`, several any number of them, number a figure within
    `low` and `high` in `unit`, text a line. `askable_at_home` puts it on the player's link.
    """

    key: str
    label: str
    kind: Literal["chips", "several", "number", "text"]
    group: Group
    choices: tuple[Choice, ...] = ()
    askable_at_home: bool = True
    help: str = ""
    unit: str = ""
    low: Decimal | None = None
    high: Decimal | None = None


def is_answered(answer: object) -> bool:
    """True where something was said: not missing, not put off, not an empty line or list.

    Nought is an answer.
    """
    if answer is None or answer == ASK_LATER:
        return False
    if isinstance(answer, str):
        return bool(answer.strip())
    if isinstance(answer, (list, tuple)):
        return len(answer) > 0
    return True


# What the player may say where nothing hurts.
NO_PAIN = ("", "no", "none", "nothing", "nowhere", "not at all", "-")


def is_in_pain(said: object) -> bool:
    """Whether the answer to "Does anything hurt?" names something; put off names nothing."""
    return is_answered(said) and str(said).strip(" .!").casefold() not in NO_PAIN


def answer_refusal(question: Question, value: object) -> str | None:
    """Say why an answer can't be stored, in a sentence for the field; None where it can.

    `value` is what the door received: a text, a list of texts for kind several, a number or its
    text (comma or point) for kind number. "Ask later" suits every question. An empty answer
    takes an earlier one back and is not refused.
    """
    if value is None or value == ASK_LATER:
        return None
    match question.kind:
        case "chips":
            return _chips_refusal(question, [value])
        case "several":
            if not isinstance(value, (list, tuple)):
                return "Choose from the list; more than one is fine."
            return _chips_refusal(question, list(value))
        case "number":
            return _number_refusal(question, value)
        case "text":
            return _text_refusal(value)


def _chips_refusal(question: Question, values: list[object]) -> str | None:
    known = {choice.value for choice in question.choices}
    if all(isinstance(value, str) and (value in known or value == "") for value in values):
        return None
    return f"Choose one of: {', '.join(choice.label for choice in question.choices)}."


def _number_refusal(question: Question, value: object) -> str | None:
    if isinstance(value, str) and not value.strip():
        return None
    number = number_from(value)
    unit = f" {question.unit}" if question.unit else ""
    if number is None:
        return f"Type a number{' of' if unit else ''}{unit}, or ask later."
    if question.low is not None and number < question.low:
        return f"At least {question.low}{unit}: {number} can't be right."
    if question.high is not None and number > question.high:
        return f"At most {question.high}{unit}: {number} can't be right."
    return None


def number_from(value: object) -> Decimal | None:
    """Read an answer of kind number; None where it is none. A comma is a decimal mark."""
    if isinstance(value, bool) or not isinstance(value, (str, int, float, Decimal)):
        return None
    try:
        number = Decimal(str(value).strip().replace(",", "."))
    except InvalidOperation:
        return None
    return number if number.is_finite() else None


def _text_refusal(value: object) -> str | None:
    if not isinstance(value, str):
        return "Type it in words."
    if "\x00" in value:
        return "There is a character in it that can't be stored."
    if len(value) > LONGEST_TEXT:
        return f"That is {len(value)} characters; at most {LONGEST_TEXT} fit."
    return None


def answer_words(question: Question, value: object) -> str:
    """An answer as a person reads it: the chips' labels, the number with its unit, the text."""
    if value == ASK_LATER:
        return "Ask later"
    if not is_answered(value):
        return "Not asked yet"
    labels = {choice.value: choice.label for choice in question.choices}
    if isinstance(value, (list, tuple)):
        return ", ".join(labels.get(str(one), str(one)) for one in value)
    shown = labels.get(str(value), str(value))
    return f"{shown} {question.unit}" if question.kind == "number" and question.unit else shown


def unanswered(questions: tuple[Question, ...], answers: Mapping[str, object]) -> tuple[str, ...]:
    """The keys of the questions that nobody has answered yet, in their order."""
    return tuple(q.key for q in questions if not is_answered(answers.get(q.key)))
