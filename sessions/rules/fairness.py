"""Whether two clubs in one situation may be compared at all, and what clouds it where they may.

Where more than the club differs no verdict is given. Common practice throughout. What is no fair
comparison can't be switched off, since every verdict stands on it, nor can the sentence that says
which figures were left out; the other cautions can.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from sessions.maths.block_context import BlockContext, unfairness
from sessions.rules.club_evidence import SituationFigures
from sessions.rules.judgements import ALL_ON, JudgementBook, Off, Said, sentences

TwoContexts = tuple[BlockContext, BlockContext]
FAIRNESS: JudgementBook[TwoContexts, None, str] = JudgementBook(
    "DEC-F", "What is no fair comparison"
)

# Id, what of a block has to be the same, its line in the rule book. Grooves are left to the
# cautions: they move spin, not aim.
_SAME = (
    ("DEC-F01", "swing", "Two swings are not compared."),
    ("DEC-F02", "surface", "Balls hit from two surfaces are not compared."),
    ("DEC-F03", "ground", "Firm and soft ground are not compared."),
    ("DEC-F04", "wet", "Dry and wet are not compared: a wet face can halve the spin."),
    ("DEC-F05", "face", "Two ways of holding the face are not compared."),
    ("DEC-F06", "ball", "Two kinds of ball are not compared."),
    ("DEC-F07", "device", "Figures of two devices are not compared."),
    ("DEC-F08", "figures", "Figures as flown and normalised ones are not compared."),
    ("DEC-F09", "carry_got", "Carries that were got in two ways are not compared."),
    ("DEC-F10", "visit", "Balls of two visits are not compared."),
)


def _of(field: str) -> Callable[[TwoContexts, None], Iterable[str]]:
    def judge(contexts: TwoContexts, limits: None) -> Iterable[str]:
        one, other = (getattr(each, field) for each in contexts)
        if one == other:
            return ()
        return unfairness(BlockContext(**{field: one}), BlockContext(**{field: other}))

    return judge


for _id, _field, _about in _SAME:
    FAIRNESS.judgement(_id, about=_about, is_fixed=True)(_of(_field))


def unfair_between(one: SituationFigures, other: SituationFigures) -> tuple[Said, ...]:
    """What differs besides the club, a sentence each: then nothing is judged."""
    if all(getattr(one.context, field) == getattr(other.context, field) for _, field, _ in _SAME):
        return ()
    return sentences(FAIRNESS, (one.context, other.context), None)


@dataclass(frozen=True, slots=True)
class TwoClubs:
    """Two clubs by name, and what was hit with each in one situation."""

    club: str
    against: str
    one: SituationFigures
    other: SituationFigures

    @property
    def is_fair(self) -> bool:
        return not unfair_between(self.one, self.other)


CLOUDS: JudgementBook[TwoClubs, None, str] = JudgementBook("DEC-C", "What clouds a comparison")


def cautions_between(clubs: TwoClubs, off: Off = ALL_ON) -> tuple[Said, ...]:
    """What is to be known of a comparison, a sentence each; grooves even where it is unfair."""
    return sentences(CLOUDS, clubs, None, off)


@CLOUDS.judgement(
    "DEC-C01",
    about="Fresh grooves against worn ones: they move spin, whatever the sole.",
)
def grooves_apart(clubs: TwoClubs, limits: None) -> Iterable[str]:
    one, other = (
        replace(BlockContext(), grooves=each.context.grooves) for each in (clubs.one, clubs.other)
    )
    return unfairness(one, other)


@CLOUDS.judgement(
    "DEC-C02",
    about="All balls with one club before all with the other: the hour may have told.",
)
def one_after_the_other(clubs: TwoClubs, limits: None) -> Iterable[str]:
    mine, theirs = clubs.one.order, clubs.other.order
    if not (clubs.is_fair and mine and theirs):
        return
    if max(theirs) < min(mine):
        first, then = clubs.against, clubs.club
    elif max(mine) < min(theirs):
        first, then = clubs.club, clubs.against
    else:
        return
    yield (
        f"All balls with {then} came after those with {first}: "
        f"hit a few with {first} again, to see whether the hour told."
    )


@CLOUDS.judgement(
    "DEC-C03",
    about="More balls were left out of one club's means than of the other's.",
)
def removed_unequally(clubs: TwoClubs, limits: None) -> Iterable[str]:
    one, other = clubs.one, clubs.other
    if clubs.is_fair and one.removed != other.removed:
        yield (
            f"Left out of the means: {one.removed} of {one.figures.shots + one.figures.misreads} "
            f"with {clubs.club}, {other.removed} of "
            f"{other.figures.shots + other.figures.misreads} with {clubs.against}."
        )


@CLOUDS.judgement(
    "DEC-C04",
    about="Spin that was measured and spin that was estimated are not compared.",
    is_fixed=True,
)
def spin_got_otherwise(clubs: TwoClubs, limits: None) -> Iterable[str]:
    one, other = clubs.one, clubs.other
    if clubs.is_fair and one.spins_rpm and other.spins_rpm and one.spin_got != other.spin_got:
        yield f"Spin is not compared: {one.spin_got} against {other.spin_got}."


@CLOUDS.judgement("DEC-C05", about="Spin of both clubs is estimated by the device.")
def spin_estimated(clubs: TwoClubs, limits: None) -> Iterable[str]:
    one, other = clubs.one, clubs.other
    has_spin = clubs.is_fair and one.spins_rpm and other.spins_rpm
    if has_spin and one.spin_got == other.spin_got == "estimated":
        yield "Spin is estimated by the device, not measured."
