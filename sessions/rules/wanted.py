"""What the player wants kept and fixed, answered by the shots of the club that is weighed.

The tool proposes the answer with the numbers behind it; the fitter may say otherwise. A wish is
asked in the slots whose job the named shot is, and looked for among the situations that the club
and the one played until now were both hit in; where nobody hit it, nothing is shown. How far a
ball flies is no better or worse by itself (the gaps judge that), so only measures with a good
side answer: direction, spread, distance from the target and strikes. Common practice.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.club_evidence import ClubEvidence
from sessions.rules.evidence import SlotEvidence
from sessions.rules.first_clubs import JOB_OF_SHOT
from sessions.rules.sole_advice import Job
from sessions.rules.verdict_words import kind_of, verdict_sentence
from sessions.rules.verdicts import HAVE_A_GOOD_SIDE, Pair, VerdictKind, is_better

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


def wishes_in(
    slot: int, wanted: Sequence[WantedThing], jobs: Mapping[int, Collection[Job]]
) -> tuple[WantedThing, ...]:
    """The wishes that are asked in a slot: what is its job, and what is no slot's job at all."""
    known = {job for each in jobs.values() for job in each}
    return tuple(
        thing for thing in wanted if thing.job in jobs.get(slot, ()) or thing.job not in known
    )


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
    if not any(each.figures.shots and each.situation.swing in swings for each in club.situations):
        return WantedShown(WantedAnswer.NOT_SHOWN, (NOT_HIT,))
    if there.own is not None and club.key == there.own.key:
        answer = WantedAnswer.KEPT if kind == "keep" else WantedAnswer.NOT_FIXED
        return WantedShown(answer, ("The club played now stays.",))
    own = None if there.own is None else there.own.key
    pairs = [
        pair for pair in there.pairs if (pair.candidate.key, pair.against.key) == (club.key, own)
    ]
    return wanted_shown(kind, what, (one for pair in pairs for one in seen_in(pair, unit)))


def seen_in(pair: Pair, unit: DistanceUnit) -> tuple[Seen, ...]:
    """The verdicts of a pair that have a good side, in words."""
    return tuple(
        Seen(
            pair.one.situation.swing,
            kind_of(each.found),
            is_better(pair, each),
            f"{pair.one.situation.words(unit)}: {verdict_sentence(each, pair, unit)}",
        )
        for each in pair.judged
        if each.key in HAVE_A_GOOD_SIDE
    )


@dataclass(frozen=True, slots=True)
class WantedShown:
    """The proposed answer, and the sentences with the numbers behind it."""

    answer: WantedAnswer
    because: tuple[str, ...]


def wanted_shown(kind: Literal["keep", "fix"], what: str, seen: Iterable[Seen]) -> WantedShown:
    """Answer one thing wanted from the verdicts of the situations that show it.

    Worse in any measure is lost (or not fixed), better in one and worse in none is fixed (or
    kept); no difference is kept (or not fixed); anything less shows nothing.
    """
    swings = SWINGS_OF.get(what, frozenset())
    shown = [one for one in seen if one.swing in swings]
    if not shown:
        return WantedShown(
            WantedAnswer.NOT_SHOWN,
            (NOT_BOTH,),
        )
    called = [one for one in shown if one.kind != "few"]
    if not called:
        return WantedShown(WantedAnswer.NOT_SHOWN, _sentences(shown))
    worse = [one for one in called if one.is_better is False]
    better = [one for one in called if one.is_better]
    if worse:
        bad = WantedAnswer.LOST if kind == "keep" else WantedAnswer.NOT_FIXED
        return WantedShown(bad, _sentences([*worse, *better]))
    if better:
        good = WantedAnswer.KEPT if kind == "keep" else WantedAnswer.FIXED
        return WantedShown(good, _sentences(better))
    same = [one for one in called if one.kind == "none"]
    if not same:
        return WantedShown(WantedAnswer.NOT_SHOWN, _sentences(called))
    unchanged = WantedAnswer.KEPT if kind == "keep" else WantedAnswer.NOT_FIXED
    return WantedShown(unchanged, _sentences(same))


def _sentences(seen: Sequence[Seen]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one.sentence for one in seen))
