"""What the player wants kept and fixed, answered by the shots of the club that is weighed.

The tool proposes the answer with the numbers behind it; the fitter may say otherwise. A wish is
asked in the slots whose job the named shot is, and looked for among the situations that the club
and the one played until now were both hit in; where nobody hit it, nothing is shown. How far a
ball flies is no better or worse by itself (the gaps judge that), so only measures with a good
side answer: direction, spread, distance from the target and strikes. Common practice.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Literal

from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.club_evidence import ClubEvidence
from sessions.rules.evidence import SlotEvidence
from sessions.rules.first_clubs import JOB_OF_SHOT
from sessions.rules.judgements import (
    ALL_ON,
    SWITCHED_OFF,
    JudgementBook,
    Off,
    Said,
    sentences,
)
from sessions.rules.sole_advice import Job
from sessions.rules.verdict_words import kind_of, verdict_sentence
from sessions.rules.verdicts import HAVE_A_GOOD_SIDE, Pair, VerdictKind, is_better
from sessions.rules.wording import listed

# The interview's shot words against the swings that a block is hit with.
SWINGS_OF: Mapping[str, frozenset[str]] = {
    "full": frozenset({"full", "flat_out"}),
    "three_quarter": frozenset({"three_quarter"}),
    "half": frozenset({"half"}),
    "chip": frozenset({"chip"}),
    "pitch": frozenset({"pitch"}),
    "flop": frozenset({"flop"}),
    "sand": frozenset({"sand"}),
}


@dataclass(frozen=True, slots=True)
class WantedThing:
    """One thing to keep or to fix, as the player named it."""

    kind: Literal["keep", "fix"]
    what: str
    label: str

    @property
    def words(self) -> str:
        """`Keep chip`."""
        return f"{self.kind.capitalize()} {self.label.lower()}"

    @property
    def job(self) -> Job | None:
        return JOB_OF_SHOT.get(self.label.lower())


class WantedAnswer(StrEnum):
    """What became of a thing to keep or to fix. The values are stored with the decision."""

    KEPT = "kept"
    LOST = "lost"
    FIXED = "fixed"
    NOT_FIXED = "not_fixed"
    NOT_SHOWN = "not_shown"

    @property
    def label(self) -> str:
        return self.value.replace("_", " ").capitalize()


@dataclass(frozen=True, slots=True)
class Seen:
    """One verdict on the weighed club against the one played until now, in one situation.

    `is_better` is None where the measure has no good side or no difference is called.
    """

    swing: str
    kind: VerdictKind
    is_better: bool | None
    sentence: str


# Why an answer is "not shown".
NOT_HIT = "Not hit."
NOT_BOTH = "Not hit with both clubs in the same situation."
NOT_ITS_JOB = "Not this slot's job."
# Beside an answer from what was told.
FEW_FOR_THE_REST = "Too few balls for the rest."


@dataclass(frozen=True, slots=True)
class WishIn:
    """A wish, and a slot among the slots with their jobs."""

    thing: WantedThing
    slot: int
    jobs: Mapping[int, Collection[Job]]


# DEC-A02 said that what is no slot's job is asked in every slot: so it is wherever A01 is silent.
ASKED_IN: JudgementBook[WishIn, None, str] = JudgementBook(
    "DEC-A", "Where a wish is asked", retired=frozenset({"DEC-A02"})
)


@ASKED_IN.judgement(
    "DEC-A01",
    about="A shot to keep or to fix that is another slot's job, and not this one's, is not asked "
    "here.",
)
def is_another_slots_job(wish: WishIn, limits: None) -> Iterable[str]:
    job = wish.thing.job
    if job not in wish.jobs.get(wish.slot, ()) and any(job in jobs for jobs in wish.jobs.values()):
        yield NOT_ITS_JOB


def wishes_in(
    slot: int,
    wanted: Sequence[WantedThing],
    jobs: Mapping[int, Collection[Job]],
    off: Off = ALL_ON,
) -> tuple[WantedThing, ...]:
    """The wishes that are asked in a slot: what is its job, and what is no slot's job at all."""
    return tuple(
        thing for thing in wanted if not sentences(ASKED_IN, WishIn(thing, slot, jobs), None, off)
    )


def not_asked_words(asked: Collection[WantedThing], wanted: Sequence[WantedThing]) -> Said:
    """`Not this slot's job: keep chip and fix sand.`; "" where everything wanted is asked."""
    others = [thing.words for thing in wanted if thing not in asked]
    if not others:
        return Said("")
    return Said(f"{NOT_ITS_JOB.rstrip('.')}: {listed(others)}.", "DEC-A01")


def wanted_of(
    club: ClubEvidence,
    there: SlotEvidence,
    kind: Literal["keep", "fix"],
    what: str,
    unit: DistanceUnit,
) -> WantedShown:
    """What becomes of one thing wanted if this club takes the slot.

    The club played until now keeps what it was hit for and mends nothing.
    """
    swings = SWINGS_OF.get(what, frozenset())
    own = None if there.own is None else there.own.key
    pairs = [
        pair for pair in there.pairs if (pair.candidate.key, pair.against.key) == (club.key, own)
    ]
    return _answered(
        WishSeen(
            kind,
            _in_swings(swings, (one for pair in pairs for one in seen_in(pair, unit))),
            is_hit=any(
                each.figures.shots and each.situation.swing in swings for each in club.situations
            ),
            stays=club.key == own,
        ),
        there.off,
    )


def seen_in(pair: Pair, unit: DistanceUnit) -> tuple[Seen, ...]:
    """The verdicts of a pair that have a good side, in words."""
    return tuple(
        Seen(
            pair.one.situation.swing,
            kind_of(each.found),
            is_better(each),
            f"{pair.one.situation.words(unit)}: {verdict_sentence(each, pair, unit)}",
        )
        for each in pair.judged
        if each.key in HAVE_A_GOOD_SIDE
    )


@dataclass(frozen=True, slots=True)
class WantedShown:
    """The proposed answer, the sentences with the numbers behind it, and whose judgement it is."""

    answer: WantedAnswer
    because: tuple[str, ...]
    rule_id: str = ""


def wanted_shown(
    kind: Literal["keep", "fix"], what: str, seen: Iterable[Seen], off: Off = ALL_ON
) -> WantedShown:
    """Answer one thing wanted from the verdicts of the situations that show it.

    Worse in any measure is lost (or not fixed), better in one and worse in none is fixed (or
    kept); no difference is kept (or not fixed); anything less shows nothing.
    """
    return _answered(WishSeen(kind, _in_swings(SWINGS_OF.get(what, frozenset()), seen)), off)


def _in_swings(swings: Collection[str], seen: Iterable[Seen]) -> tuple[Seen, ...]:
    return tuple(one for one in seen if one.swing in swings)


@dataclass(frozen=True, slots=True)
class WishSeen:
    """What was seen of one thing to keep or to fix with one club, in the swings that show it.

    `stays`: it is the club played now.
    """

    kind: Literal["keep", "fix"]
    shown: tuple[Seen, ...]
    is_hit: bool = True
    stays: bool = False

    @property
    def is_to_be_judged(self) -> bool:
        return self.is_hit and not self.stays and bool(self.shown)

    @property
    def worse(self) -> tuple[Seen, ...]:
        return tuple(one for one in self.shown if one.is_better is False)

    @property
    def better(self) -> tuple[Seen, ...]:
        return tuple(one for one in self.shown if one.is_better)

    @property
    def same(self) -> tuple[Seen, ...]:
        return tuple(one for one in self.shown if one.kind == "none")

    @property
    def few(self) -> tuple[Seen, ...]:
        return tuple(one for one in self.shown if one.kind == "few")

    @property
    def good(self) -> WantedAnswer:
        return WantedAnswer.KEPT if self.kind == "keep" else WantedAnswer.FIXED

    @property
    def bad(self) -> WantedAnswer:
        return WantedAnswer.LOST if self.kind == "keep" else WantedAnswer.NOT_FIXED

    @property
    def unchanged(self) -> WantedAnswer:
        return WantedAnswer.KEPT if self.kind == "keep" else WantedAnswer.NOT_FIXED


# Of one wish exactly one judgement speaks. Those that say that nothing is shown are fixed, since
# nothing may be guessed in their place; where another is switched off, nothing is shown either.
WISHES: JudgementBook[WishSeen, None, WantedShown] = JudgementBook("DEC-W", "Keep and fix")


def _answered(seen: WishSeen, off: Off) -> WantedShown:
    """The answer with its id; where the shop has switched it off, its numbers alone."""
    ((rule_id, shown),) = WISHES.heard(seen, None)
    if WISHES.is_silenced(seen, None, off):
        return WantedShown(WantedAnswer.NOT_SHOWN, (SWITCHED_OFF, *shown.because), rule_id)
    return replace(shown, rule_id=rule_id)


@WISHES.judgement("DEC-W01", about="Not hit with the club: not shown.", is_fixed=True)
def not_hit(seen: WishSeen, limits: None) -> Iterable[WantedShown]:
    if not seen.is_hit:
        yield WantedShown(WantedAnswer.NOT_SHOWN, (NOT_HIT,))


@WISHES.judgement(
    "DEC-W02",
    about="The club played now, hit in that swing, keeps everything and mends nothing.",
)
def stays_as_it_is(seen: WishSeen, limits: None) -> Iterable[WantedShown]:
    if seen.is_hit and seen.stays:
        yield WantedShown(seen.unchanged, ("The club played now stays.",))


@WISHES.judgement(
    "DEC-W03",
    about="Not hit with both clubs in the same situation: not shown.",
    is_fixed=True,
)
def not_hit_with_both(seen: WishSeen, limits: None) -> Iterable[WantedShown]:
    if seen.is_hit and not seen.stays and not seen.shown:
        yield WantedShown(WantedAnswer.NOT_SHOWN, (NOT_BOTH,))


@WISHES.judgement(
    "DEC-W04",
    about="Worse in any measure with a good side: lost, or not fixed; better in another does not "
    "pay for it.",
)
def is_worse(seen: WishSeen, limits: None) -> Iterable[WantedShown]:
    if seen.is_to_be_judged and seen.worse:
        yield WantedShown(seen.bad, _sentences([*seen.worse, *seen.better]))


@WISHES.judgement("DEC-W05", about="Better in one and worse in none: kept, or fixed.")
def is_better_in_one(seen: WishSeen, limits: None) -> Iterable[WantedShown]:
    if seen.is_to_be_judged and seen.better and not seen.worse:
        yield WantedShown(seen.good, _sentences(seen.better))


@WISHES.judgement(
    "DEC-W06",
    about="No difference of use, neither better nor worse: kept, or not fixed.",
)
def is_the_same(seen: WishSeen, limits: None) -> Iterable[WantedShown]:
    if seen.is_to_be_judged and seen.same and not seen.worse and not seen.better:
        rest = (FEW_FOR_THE_REST,) if seen.few else ()
        yield WantedShown(seen.unchanged, (*_sentences(seen.same), *rest))


@WISHES.judgement(
    "DEC-W07",
    about="Too few balls, or only differences without a good side: not shown.",
    is_fixed=True,
)
def shows_nothing(seen: WishSeen, limits: None) -> Iterable[WantedShown]:
    if seen.is_to_be_judged and not (seen.worse or seen.better or seen.same):
        called = [one for one in seen.shown if one.kind != "few"]
        yield WantedShown(WantedAnswer.NOT_SHOWN, _sentences(called or seen.shown))


def _sentences(seen: Sequence[Seen]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one.sentence for one in seen))
