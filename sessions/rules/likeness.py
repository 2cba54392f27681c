"""What of two clubs is the same and what is not: how much a verdict between them can prove.

One change at a time proves most. Where two clubs differ in several things, a real difference is
still real, but it can't be put down to one of them. Common practice.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sessions.rules.judgements import ALL_ON, JudgementBook, Off, Said, sentences
from sessions.rules.wording import listed

# From so many differences on nothing can be put down to one of them.
SEVERAL = 2


@dataclass(frozen=True, slots=True)
class Aspect:
    """One thing two clubs are held against each other in, in words as it is read on each.

    `is_alike` is None where it is not known of one of them.
    """

    name: str
    mine: str
    theirs: str
    is_alike: bool | None


@dataclass(frozen=True, slots=True)
class Likeness:
    """Loft, length, shaft, lie, sole and grip of one club against those of another.

    `off` are the ids of the judgements that the shop has switched off.
    """

    against: str
    aspects: tuple[Aspect, ...]
    off: Off = ALL_ON

    @property
    def apart(self) -> tuple[Aspect, ...]:
        return tuple(each for each in self.aspects if each.is_alike is False)

    @property
    def words(self) -> str:
        """`Alike: length and shaft. Not alike: loft and sole. Not known: grip.`"""
        return _said(
            ("Alike", self._names(True)),
            ("Not alike", self._names(False)),
            ("Not known", self._names(None)),
        )

    @property
    def detail(self) -> str:
        """The same with what each reads: `Not alike: loft 50° against 53°`."""
        apart = [f"{each.name} {each.mine} against {each.theirs}" for each in self.apart]
        return _said(
            ("Alike", self._names(True)),
            ("Not alike", apart),
            ("Not known", self._names(None)),
        )

    @property
    def caution(self) -> Said:
        """Said where several things differ; "" where one change was made, or none."""
        return next(iter(sentences(LIKENESS, self, None, self.off)), Said(""))

    def _names(self, is_alike: bool | None) -> list[str]:
        return [each.name for each in self.aspects if each.is_alike is is_alike]


LIKENESS: JudgementBook[Likeness, None, str] = JudgementBook("DEC-L", "One change at a time")


@LIKENESS.judgement(
    "DEC-L01",
    about="Two clubs that differ in two or more of loft, length, shaft, lie, sole and grip: a "
    "difference can't be put down to one of them.",
)
def several_differ(two: Likeness, limits: None) -> Iterable[str]:
    if (count := len(two.apart)) >= SEVERAL:
        yield f"{count} things differ: there is no telling which of them did it."


def held_words(pairs: Sequence[Likeness]) -> str:
    """What a comparison of several clubs held the same in all of them, and what it did not.

    Each club against the first; what is not known of one is neither held nor not.
    """
    names = [each.name for each in pairs[0].aspects] if pairs else []
    seen = {
        name: {each.is_alike for pair in pairs for each in pair.aspects if each.name == name}
        for name in names
    }
    return _said(
        ("Held the same", [name for name in names if seen[name] == {True}]),
        ("Not the same", [name for name in names if False in seen[name]]),
    )


def _said(*groups: tuple[str, list[str]]) -> str:
    return " ".join(f"{title}: {listed(names)}." for title, names in groups if names)
