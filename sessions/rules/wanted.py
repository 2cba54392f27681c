"""What the player wants kept and fixed, answered by the shots of the club that is weighed.

The tool proposes the answer with the numbers behind it; the fitter may say otherwise. A shot
named in the interview is looked for among the situations that the club and the one played until
now were both hit in. How far a ball flies is no better or worse by itself (the gaps judge
that), so only measures with a good side answer: direction, spread, distance from the target and
strikes. Common practice.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from sessions.maths.comparison import Difference
from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.club_evidence import ClubEvidence
from sessions.rules.evidence import SlotEvidence
from sessions.rules.measures import SPREAD, STRIKES
from sessions.rules.verdict_words import kind_of, verdict_sentence
from sessions.rules.verdicts import Pair, VerdictKind, is_nearer_to_line

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


# Less of these is better.
LESS_IS_BETTER = frozenset({SPREAD, STRIKES, "proximity"})


def wanted_of(
    club: ClubEvidence,
    there: SlotEvidence,
    kind: Literal["keep", "fix"],
    what: str,
    unit: DistanceUnit,
) -> WantedShown:
    """What becomes of one thing wanted if this club takes the slot.

    The club played until now keeps everything and mends nothing.
    """
    if there.own is not None and club.key == there.own.key:
        answer = WantedAnswer.KEPT if kind == "keep" else WantedAnswer.NOT_FIXED
        return WantedShown(answer, ("The club played now stays.",))
    pairs = [
        pair for pair in there.pairs_of(club) if there.own and pair.against.key == there.own.key
    ]
    return wanted_shown(kind, what, (one for pair in pairs for one in seen_in(pair, unit)))


def seen_in(pair: Pair, unit: DistanceUnit) -> tuple[Seen, ...]:
    """The verdicts of a pair that have a good side, in words."""
    return tuple(
        Seen(
            pair.one.situation.swing,
            kind_of(each.found),
            _is_better(pair, each.key, each.found),
            f"{pair.one.situation.words(unit)}: {verdict_sentence(each, pair, unit)}",
        )
        for each in pair.judged
        if each.key in LESS_IS_BETTER or each.key == "side"
    )


def _is_better(pair: Pair, key: str, found: Difference) -> bool | None:
    if found.verdict != "real difference" or found.difference is None:
        return None
    if key == "side":
        return is_nearer_to_line(pair)
    return found.difference < found.neutral


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
            ("Not hit with both clubs in the same situation.",),
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
