"""What the shots say of two clubs, in one of three ways, and against which choice they speak.

Two clubs are compared only in the same swing at the same target; where more than the club
differs, no verdict is given and it is said why.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from sessions.maths.block_context import BlockContext, unfairness
from sessions.maths.comparison import Difference, difference_of_clubs
from sessions.maths.dispersion import Spread
from sessions.maths.shown import distance_in, show_distance
from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.club_evidence import ClubEvidence, Margins, SituationFigures

VerdictKind = Literal["real", "none", "few"]
SAME_TARGET_WITHIN_M = 0.5
_MEASURES_JUDGED = 2
_KINDS: Mapping[str, VerdictKind] = {
    "real difference": "real",
    "no difference you could use": "none",
    "too few balls": "few",
}


@dataclass(frozen=True)
class Pair:
    """Two clubs in one situation. `unfair` sentences: then nothing is judged, and they say why."""

    candidate: ClubEvidence
    against: ClubEvidence
    one: SituationFigures
    other: SituationFigures
    unfair: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    carry: Difference | None = None
    side: Difference | None = None


@dataclass(frozen=True)
class VerdictBox:
    """One verdict as it is read: what was measured, which of three kinds, and the numbers."""

    what: str
    kind: VerdictKind
    sentence: str


def compared(
    candidates: Sequence[ClubEvidence], against: ClubEvidence, margins: Margins
) -> tuple[Pair, ...]:
    """Compare each candidate with one club in every situation that both were hit in.

    All differences on the page share the chance of a false call.
    """
    pairs = [
        _paired(club, against, one, other)
        for club in candidates
        if club.key != against.key
        for one in club.situations
        if one.figures.shots and (other := _same_situation(one, against)) is not None
    ]
    together = max(1, _MEASURES_JUDGED * sum(1 for pair in pairs if not pair.unfair))
    return tuple(_judged(pair, margins, together) for pair in pairs)


def _same_situation(one: SituationFigures, club: ClubEvidence) -> SituationFigures | None:
    """The other club's shots with the same swing at the same target, as like as there are."""
    there = [
        other
        for other in club.situations
        if other.figures.shots
        and other.situation.swing == one.situation.swing
        and _is_same_target(other.situation.target_m, one.situation.target_m)
    ]
    return min(
        there,
        key=lambda other: (len(_unfair(one, other)), -other.figures.shots),
        default=None,
    )


def _is_same_target(a: float | None, b: float | None) -> bool:
    if a is None or b is None:
        return a is b
    return abs(a - b) <= SAME_TARGET_WITHIN_M


def _unfair(one: SituationFigures, other: SituationFigures) -> tuple[str, ...]:
    """What differs besides the club. Grooves are left to the cautions: they move spin, not aim."""
    return unfairness(replace(one.context, grooves=None), replace(other.context, grooves=None))


def _paired(
    club: ClubEvidence, against: ClubEvidence, one: SituationFigures, other: SituationFigures
) -> Pair:
    grooves = unfairness(
        BlockContext(grooves=one.context.grooves), BlockContext(grooves=other.context.grooves)
    )
    return Pair(club, against, one, other, unfair=_unfair(one, other), cautions=grooves)


def _judged(pair: Pair, margins: Margins, together: int) -> Pair:
    if pair.unfair:
        return pair

    def difference(a: Sequence[float], b: Sequence[float], margin: float) -> Difference:
        return difference_of_clubs(
            a,
            b,
            margin=margin,
            family=together,
            most_more_balls=margins.most_more_balls,
            least_balls=margins.least_balls,
        )

    return replace(
        pair,
        carry=difference(pair.one.carries_m, pair.other.carries_m, margins.carry_m),
        side=difference(pair.one.sides_m, pair.other.sides_m, margins.side_m),
    )


def verdict_boxes(pair: Pair, unit: DistanceUnit) -> tuple[VerdictBox, ...]:
    """The verdicts of a pair in words. Nothing where the comparison would be unfair.

    A measure that neither club has a figure for is not spoken of.
    """
    said = []
    for what, found, words in (
        ("Carry", pair.carry, ("longer than", "shorter than", "as long as")),
        ("Direction", pair.side, ("right of", "left of", "in line with")),
    ):
        if found is not None and (found.balls_a or found.balls_b):
            sentence = difference_sentence(found, words, pair.against.name, unit)
            said.append(VerdictBox(what, _KINDS[found.verdict], sentence))
    return tuple(said)


def difference_sentence(
    found: Difference, words: tuple[str, str, str], against: str, unit: DistanceUnit
) -> str:
    """`6 yd longer than Own 56 (3 to 9), 5 and 6 balls. The difference is real.`

    `words` are for more, for less and for the same to the unit. What was not measured is said.
    """
    balls = f"{found.balls_a} and {found.balls_b} balls"
    if found.difference is None:
        return f"{balls}: nothing to compare yet. {found.advice}"
    size = round(abs(distance_in(found.difference, unit)))
    more, less, same = words
    is_more = found.difference > 0
    said = f"{size} {unit} {more if is_more else less}" if size else same.capitalize()
    between = ""
    if found.low is not None and found.high is not None:
        ends = (found.low, found.high) if is_more else (-found.high, -found.low)
        low, high = (_whole(distance_in(end, unit)) for end in ends)
        between = f" ({low} to {high})"
    advice = "" if found.verdict == "real difference" else f" {found.advice}"
    return f"{said} {against}{between}, {balls}.{advice}"


def _whole(value: float) -> str:
    rounded = round(value)
    return f"\N{MINUS SIGN}{-rounded}" if rounded < 0 else str(rounded)


def evidence_against(
    chosen: ClubEvidence | None,
    other: ClubEvidence | None,
    pairs: Iterable[Pair],
    planned_carry_m: float | None,
    unit: DistanceUnit,
) -> tuple[str, ...]:
    """Say where a real difference speaks for `other` and against `chosen`.

    Carry speaks for the club that comes nearer to the carry planned for the slot; without a plan
    it speaks for neither, since longer is not better. Direction speaks for the straighter club.
    """
    if chosen is None or other is None:
        return ()
    said = []
    for pair in pairs:
        names = {pair.candidate.key, pair.against.key}
        if names != {chosen.key, other.key}:
            continue
        mine, theirs = pair.one, pair.other
        if pair.candidate.key != chosen.key:
            mine, theirs = theirs, mine
        where = pair.one.situation.words(unit)
        if (
            mine.situation.swing == "full"
            and planned_carry_m is not None
            and _is_real(pair.carry)
            and _is_farther(mine.figures.carry, theirs.figures.carry, planned_carry_m)
        ):
            said.append(
                f"{where}: {other.name} carries nearer to the "
                f"{show_distance(planned_carry_m, unit)} planned for this slot, "
                "and the difference is real."
            )
        if _is_real(pair.side) and _is_farther(mine.figures.side, theirs.figures.side, 0.0):
            said.append(f"{where}: {other.name} flies straighter, and the difference is real.")
    return tuple(said)


def has_real_difference(pairs: Iterable[Pair]) -> bool:
    return any(_is_real(pair.carry) or _is_real(pair.side) for pair in pairs)


def _is_real(found: Difference | None) -> bool:
    return found is not None and found.verdict == "real difference"


def _is_farther(mine: Spread | None, theirs: Spread | None, aim: float) -> bool:
    if mine is None or theirs is None:
        return False
    return abs(mine.mean - aim) > abs(theirs.mean - aim)
