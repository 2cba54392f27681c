"""What the shots say of two clubs, in one of three ways, and against which choice they speak.

Two clubs are compared only in the same swing at the same target; where more than the club
differs, no verdict is given and it is said why. The comparisons of one measure in one situation
share the chance of a false "real difference"; how each is said is in `verdict_words`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from sessions.maths.comparison import (
    Difference,
    Weighed,
    judged_together,
    means_weighed,
)
from sessions.maths.comparison_counts import ratings_weighed, shares_weighed
from sessions.maths.comparison_error import OtherBlocks
from sessions.maths.comparison_spread import spreads_weighed
from sessions.maths.dispersion import Spread
from sessions.maths.shown import show_distance
from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.club_evidence import ClubEvidence, Margins, SituationFigures
from sessions.rules.fairness import TwoClubs, cautions_between, unfair_between
from sessions.rules.judgements import JudgementBook
from sessions.rules.measures import MEANS, SPREAD, STRIKES

SAME_TARGET_WITHIN_M = 0.5
RATING = "rating: "
# Less of these is better; how far a ball flies has no good side.
LESS_IS_BETTER = frozenset({SPREAD, STRIKES, "proximity"})
HAVE_A_GOOD_SIDE = LESS_IS_BETTER | {"side"}
# A swing and its target [m].
Shot = tuple[str, float | None]
VerdictKind = Literal["real", "none", "few"]


@dataclass(frozen=True)
class Judged:
    """One measure of a pair: its key in `sessions.rules.measures`, and what was found."""

    key: str
    found: Difference


@dataclass(frozen=True)
class Pair:
    """Two clubs in one situation. `unfair` sentences: then nothing is judged, and they say why."""

    candidate: ClubEvidence
    against: ClubEvidence
    one: SituationFigures
    other: SituationFigures
    unfair: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    judged: tuple[Judged, ...] = ()

    def found(self, key: str) -> Difference | None:
        return next((each.found for each in self.judged if each.key == key), None)

    @property
    def carry(self) -> Difference | None:
        return self.found("carry")

    @property
    def side(self) -> Difference | None:
        return self.found("side")


def compared(
    candidates: Sequence[ClubEvidence],
    against: ClubEvidence,
    margins: Margins,
    *,
    everyone: Sequence[ClubEvidence] = (),
    is_leader: bool = False,
    elsewhere: Mapping[Shot, int] | None = None,
) -> tuple[Pair, ...]:
    """Compare each candidate with one club in every situation that both were hit in.

    Args:
        candidates: the clubs tried; `against` among them is passed over.
        against: the club played now, or the leader.
        margins: the shop's.
        everyone: all clubs of the visit; how the player scatters with them counts as well.
        is_leader: `against` was picked because it leads: then every pair of clubs might have
            been shown, and shares the chance of a false call.
        elsewhere: how many comparisons of a shot the visit's other slots show: they share the
            chance of a false call with these.
    """
    pairs = [
        _paired(club, against, one, other)
        for club in candidates
        if club.key != against.key
        for one in club.situations
        if one.figures.shots and (other := _same_situation(one, against)) is not None
    ]
    scatter = _Scatter(everyone)
    weighed: dict[tuple[int, str], list[tuple[int, Weighed]]] = {}
    rated: set[str] = set()
    for place, pair in enumerate(pairs):
        if pair.unfair:
            continue
        for key, each in _weighed(pair, margins, scatter):
            weighed.setdefault((id(pair.other), key), []).append((place, each))
        if pair.candidate.key not in rated:
            rated.add(pair.candidate.key)
            for key, each in _ratings(pair, margins):
                weighed.setdefault((0, key), []).append((place, each))
    found: dict[int, list[Judged]] = {}
    for (_, key), family in weighed.items():
        sharing = len(family)
        # What the player says of a club is asked slot by slot.
        shot = shot_of(pairs[family[0][0]].other)
        also = 0 if key.startswith(RATING) else (elsewhere or {}).get(shot, 0)
        judged = judged_together(
            [each for _, each in family],
            family=shown_of(sharing, is_leader=is_leader) + also,
            most_more_balls=margins.most_more_balls,
            least_balls=1 if key.startswith(RATING) else margins.least_balls,
        )
        for (place, _), difference in zip(family, judged, strict=True):
            found.setdefault(place, []).append(Judged(key, difference))
    return tuple(
        replace(pair, judged=tuple(found.get(place, ()))) for place, pair in enumerate(pairs)
    )


def shot_of(there: SituationFigures) -> Shot:
    """The swing and its target: what two clubs must have in common to be compared at all."""
    return there.situation.swing, there.situation.target_m


def shown_of(comparisons: int, *, is_leader: bool) -> int:
    """How many comparisons could have been shown: against a leader, every pair of clubs."""
    return comparisons * (comparisons + 1) // 2 if is_leader else comparisons


def comparisons_of(candidates: Sequence[ClubEvidence], against: ClubEvidence) -> Counter[Shot]:
    """How many clubs are held against one, shot by shot."""
    return Counter(
        shot_of(other)
        for club in candidates
        if club.key != against.key
        for one in club.situations
        if one.figures.shots and (other := _same_situation(one, against)) is not None
    )


class _Scatter:
    """How the player scatters in each swing, block by block, to be pooled with a pair's own."""

    def __init__(self, clubs: Sequence[ClubEvidence]) -> None:
        self.clubs = clubs
        self.known: dict[tuple[object, ...], list[tuple[str, OtherBlocks]]] = {}

    def besides(self, pair: Pair, key: str) -> OtherBlocks:
        here = pair.one
        alike = (here.situation.swing, here.situation.target_m, here.context.device,
                 here.context.figures, key)  # fmt: skip
        if alike not in self.known:
            self.known[alike] = [
                (club.key, OtherBlocks.of([values]))
                for club in self.clubs
                for there in club.situations
                if (there.situation.swing, there.situation.target_m, there.context.device,
                    there.context.figures) == alike[:4]
                and (values := next(m.values for m in MEANS if m.key == key)(there))
            ]  # fmt: skip
        others = [
            blocks
            for club_key, blocks in self.known[alike]
            if club_key not in (pair.candidate.key, pair.against.key)
        ]
        return OtherBlocks(
            sum(blocks.squares for blocks in others), sum(blocks.freedom for blocks in others)
        )


def _weighed(pair: Pair, margins: Margins, scatter: _Scatter) -> list[tuple[str, Weighed]]:
    """Every measure that either club has a figure for."""
    one, other = pair.one, pair.other
    found: list[tuple[str, Weighed]] = []
    for measure in MEANS:
        a, b = measure.values(one), measure.values(other)
        if measure.key == "spin" and one.spin_got != other.spin_got:
            continue
        if not (a or b):
            continue
        found.append(
            (
                measure.key,
                means_weighed(
                    a,
                    b,
                    margin=measure.margin(margins),
                    others=scatter.besides(pair, measure.key),
                    first_look=margins.least_balls,
                ),
            )
        )
    if one.carries_m and other.carries_m:
        spread = spreads_weighed(one.carries_m, other.carries_m, margin=margins.spread_share)
        found.append((SPREAD, spread))
    if one.bad_strikes or other.bad_strikes:
        found.append(
            (
                STRIKES,
                shares_weighed(
                    (one.bad_strikes, other.bad_strikes),
                    (one.figures.shots, other.figures.shots),
                    margin=margins.strikes_share,
                ),
            )
        )
    return found


def _ratings(pair: Pair, margins: Margins) -> list[tuple[str, Weighed]]:
    """What one player said of both in the same rounds, question by question."""
    mine, theirs = pair.candidate.ratings, pair.against.ratings
    both = [asked for asked in mine if asked in theirs]
    return [
        (
            f"{RATING}{about}",
            ratings_weighed(
                [mine[asked] for asked in both if asked[0] == about],
                [theirs[asked] for asked in both if asked[0] == about],
                margin=margins.ratings_share,
            ),
        )
        for about in dict.fromkeys(asked[0] for asked in both)
    ]


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
        key=lambda other: (len(unfair_between(one, other)), -other.figures.shots),
        default=None,
    )


def _is_same_target(a: float | None, b: float | None) -> bool:
    if a is None or b is None:
        return a is b
    return abs(a - b) <= SAME_TARGET_WITHIN_M


def _paired(
    club: ClubEvidence, against: ClubEvidence, one: SituationFigures, other: SituationFigures
) -> Pair:
    unfair = unfair_between(one, other)
    cautions = cautions_between(TwoClubs(club.name, against.name, one, other))
    return Pair(club, against, one, other, unfair=unfair, cautions=cautions)


def evidence_against(
    chosen: ClubEvidence | None,
    other: ClubEvidence | None,
    pairs: Iterable[Pair],
    planned_carry_m: float | None,
    unit: DistanceUnit,
) -> tuple[str, ...]:
    """Say where a real difference speaks for `other` and against `chosen`.

    Carry speaks for the club that comes nearer to the carry planned for the slot; without a plan
    it speaks for neither, since longer is not better. Direction speaks for the straighter club,
    and less scatter, balls nearer to the target and fewer bad strikes speak for themselves.
    Launch, spin and landing speak for neither: what is wanted of them is the fitter's to say.
    """
    if chosen is None or other is None:
        return ()
    return tuple(
        sentence
        for pair in pairs
        if {pair.candidate.key, pair.against.key} == {chosen.key, other.key}
        for _, sentence in AGAINST.heard(
            ChosenIn(pair, pair.candidate.key != chosen.key, other.name, unit), planned_carry_m
        )
    )


@dataclass(frozen=True, slots=True)
class ChosenIn:
    """A pair seen from the chosen club; `is_turned` where it is the one held against."""

    pair: Pair
    is_turned: bool
    other: str
    unit: DistanceUnit

    @property
    def mine(self) -> SituationFigures:
        return self.pair.other if self.is_turned else self.pair.one

    @property
    def theirs(self) -> SituationFigures:
        return self.pair.one if self.is_turned else self.pair.other

    @property
    def where(self) -> str:
        return self.pair.one.situation.words(self.unit)

    def is_worse_in(self, key: str) -> bool:
        """The chosen club has more of what less is better of, and the difference is real."""
        found = self.pair.found(key)
        return found is not None and _is_real(found) and _is_more(found) != self.is_turned


AGAINST: JudgementBook[ChosenIn, float | None, str] = JudgementBook(
    "DEC-E", "What speaks against a choice"
)


@AGAINST.judgement(
    "DEC-E01",
    about="Full swings with the other club carry nearer to the carry planned, and it is real.",
    is_fixed=True,
)
def carries_nearer(seen: ChosenIn, planned_carry_m: float | None) -> Iterable[str]:
    if (
        seen.mine.situation.swing == "full"
        and planned_carry_m is not None
        and _is_real(seen.pair.carry)
        and _is_farther(seen.mine.figures.carry, seen.theirs.figures.carry, planned_carry_m)
    ):
        yield (
            f"{seen.where}: {seen.other} carries nearer to the "
            f"{show_distance(planned_carry_m, seen.unit)} planned for this slot, "
            "and the difference is real."
        )


@AGAINST.judgement(
    "DEC-E02", about="The other club flies straighter, and it is real.", is_fixed=True
)
def flies_straighter(seen: ChosenIn, planned_carry_m: float | None) -> Iterable[str]:
    if _is_real(seen.pair.side) and _is_farther(
        seen.mine.figures.side, seen.theirs.figures.side, 0.0
    ):
        yield f"{seen.where}: {seen.other} flies straighter, and the difference is real."


@AGAINST.judgement("DEC-E03", about="The other club scatters less, and it is real.", is_fixed=True)
def scatters_less(seen: ChosenIn, planned_carry_m: float | None) -> Iterable[str]:
    if seen.is_worse_in(SPREAD):
        yield f"{seen.where}: {seen.other} scatters less, and the difference is real."


@AGAINST.judgement(
    "DEC-E04",
    about="Balls with the other club end nearer to the target, and it is real.",
    is_fixed=True,
)
def ends_nearer(seen: ChosenIn, planned_carry_m: float | None) -> Iterable[str]:
    if seen.is_worse_in("proximity"):
        yield f"{seen.where}: {seen.other} ends nearer to the target, and the difference is real."


@AGAINST.judgement(
    "DEC-E05", about="The other club is struck badly less often, and it is real.", is_fixed=True
)
def struck_better(seen: ChosenIn, planned_carry_m: float | None) -> Iterable[str]:
    if seen.is_worse_in(STRIKES):
        yield f"{seen.where}: {seen.other} is struck badly less often, and the difference is real."


def is_nearer_to_line(pair: Pair) -> bool | None:
    """Whether the candidate's mean lies nearer to the line of aim; None where one is not known."""
    mine, theirs = pair.one.figures.side, pair.other.figures.side
    if mine is None or theirs is None:
        return None
    return _is_farther(theirs, mine, 0.0)


def is_better(pair: Pair, each: Judged) -> bool | None:
    """Whether a real difference is to the candidate's good.

    None where none is called or the measure has no good side.
    """
    found = each.found
    if not _is_real(found) or found.difference is None:
        return None
    if each.key == "side":
        return is_nearer_to_line(pair)
    if each.key.startswith(RATING):
        return found.difference > found.neutral
    return found.difference < found.neutral if each.key in LESS_IS_BETTER else None


def has_real_difference(pairs: Iterable[Pair]) -> bool:
    return any(_is_real(each.found) for pair in pairs for each in pair.judged)


def _is_real(found: Difference | None) -> bool:
    return found is not None and found.verdict == "real difference"


def _is_more(found: Difference) -> bool:
    """The candidate has more of it than the club it is held against."""
    return found.difference is not None and found.difference > found.neutral


def _is_farther(mine: Spread | None, theirs: Spread | None, aim: float) -> bool:
    if mine is None or theirs is None:
        return False
    return abs(mine.mean - aim) > abs(theirs.mean - aim)
