"""What a fitter concludes from an interview, one registered judgement for each conclusion.

A judgement takes values and yields what it says: a sole, a lie, a sentence. It never raises, and
its condition is its own: no two that speak of the same thing speak at once, so one that is
switched off leaves its place empty and nothing less thought of takes it. Ids are permanent, as
those of the spec's rules are (`sessions.rules.findings`); each has its line in the rule book.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Generic, Protocol, Self, TypeVar

COMMON_PRACTICE = "common practice"

# The ids that a shop has switched off.
Off = frozenset[str]
ALL_ON: Off = frozenset()
SWITCHED_OFF = "The shop has switched off what would be said here."

F = TypeVar("F")
L = TypeVar("L")
S = TypeVar("S")


class Said(str):
    """A sentence that knows which judgement says it: `rule_id`, "" where none does."""

    rule_id: str

    def __new__(cls, sentence: str, rule_id: str = "") -> Self:
        said = super().__new__(cls, sentence)
        said.rule_id = rule_id
        return said


@dataclass(frozen=True, slots=True)
class Judgement(Generic[F, L, S]):
    """One registered judgement over facts F and limits L that says S.

    `thresholds` are the keys of the settings that it reads. One that `is_fixed` can't be switched
    off, since what stands on it could not be done without.
    """

    id: str
    about: str
    source: str
    judge: Callable[[F, L], Iterable[S]]
    thresholds: tuple[str, ...] = ()
    is_fixed: bool = False

    def says(self, facts: F, limits: L) -> tuple[S, ...]:
        """What it says of these facts, nothing where its condition is not met."""
        return tuple(self.judge(facts, limits))


class Printed(Protocol):
    """What the rule book prints of a judgement, whatever it judges."""

    @property
    def id(self) -> str: ...
    @property
    def about(self) -> str: ...
    @property
    def source(self) -> str: ...
    @property
    def thresholds(self) -> tuple[str, ...]: ...
    @property
    def is_fixed(self) -> bool: ...


class PrintedBook(Protocol):
    """A section of the rule book: its title and its judgements by id."""

    @property
    def title(self) -> str: ...
    @property
    def printed(self) -> tuple[Printed, ...]: ...


class JudgementBook(Generic[F, L, S]):
    """Judgements of one kind, registered by decorator under ids that are never given twice.

    >>> book: JudgementBook[int, int, str] = JudgementBook("SHOP-A", "Amounts")
    >>> @book.judgement("SHOP-A01", about="Too many.")
    ... def too_many(count: int, most: int) -> Iterable[str]:
    ...     if count > most:
    ...         yield f"{count} is more than {most}."
    >>> list(book.heard(3, 2))
    [('SHOP-A01', '3 is more than 2.')]
    >>> list(book.heard(3, 2, off=frozenset({"SHOP-A01"})))
    []
    """

    def __init__(self, prefix: str, title: str, retired: frozenset[str] = frozenset()) -> None:
        self.prefix = prefix
        self.title = title
        self.retired = retired
        self._judgements: dict[str, Judgement[F, L, S]] = {}

    def judgement(
        self,
        rule_id: str,
        *,
        about: str,
        source: str = COMMON_PRACTICE,
        thresholds: tuple[str, ...] = (),
        is_fixed: bool = False,
    ) -> Callable[[Callable[[F, L], Iterable[S]]], Callable[[F, L], Iterable[S]]]:
        """Register the decorated function. Raises ValueError for an id that can't be used."""
        if not re.fullmatch(rf"{re.escape(self.prefix)}\d\d", rule_id):
            raise ValueError(f"{rule_id} should read {self.prefix} and two digits.")
        if rule_id in self._judgements or rule_id in self.retired:
            raise ValueError(f"{rule_id} is taken or was; ids are never used again.")

        def registered(judge: Callable[[F, L], Iterable[S]]) -> Callable[[F, L], Iterable[S]]:
            self._judgements[rule_id] = Judgement(
                rule_id, about, source, judge, thresholds, is_fixed
            )
            return judge

        return registered

    @property
    def judgements(self) -> tuple[Judgement[F, L, S], ...]:
        """Those registered so far, by id."""
        return tuple(self._judgements[key] for key in sorted(self._judgements))

    @property
    def printed(self) -> tuple[Printed, ...]:
        return self.judgements

    def heard(self, facts: F, limits: L, off: Off = ALL_ON) -> Iterator[tuple[str, S]]:
        """What those that are on say, each with the id of the one that says it, by id."""
        for one in self.judgements:
            if one.is_fixed or one.id not in off:
                yield from ((one.id, said) for said in one.says(facts, limits))

    def is_silenced(self, facts: F, limits: L, off: Off) -> bool:
        """Whether something would be said here, had the shop not switched it off."""
        return not list(self.heard(facts, limits, off)) and bool(list(self.heard(facts, limits)))


def sentences(
    book: JudgementBook[F, L, str], facts: F, limits: L, off: Off = ALL_ON
) -> tuple[Said, ...]:
    """All that a book of sentences says, each with its id."""
    return tuple(Said(text, rule_id) for rule_id, text in book.heard(facts, limits, off))
