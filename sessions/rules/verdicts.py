"""What the shots say of two clubs, in one of three ways.

Two clubs are compared only in the same swing at the same target; where more than the club
differs, no verdict is given and it is said why. The comparisons of one measure in one situation
share the chance of a false "real difference"; how each is said is in `verdict_words`, against
which choice they speak in `against_choice`.
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
    nearer_to,
)
from sessions.maths.comparison_boundary import LEAST_FOR_INTERVAL
from sessions.maths.comparison_counts import ratings_weighed, shares_weighed
from sessions.maths.comparison_spread import spreads_weighed
from sessions.rules.club_evidence import Asked, ClubEvidence, Margins, SituationFigures
from sessions.rules.fairness import TwoClubs, cautions_between, unfair_between
from sessions.rules.judgements import ALL_ON, Off, Said
from sessions.rules.measures import MEANS, SPREAD, STRIKES
from sessions.rules.scatter import Scatter

SAME_TARGET_WITHIN_M = 0.5
LINE_OF_AIM = 0.0
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
    unfair: tuple[Said, ...] = ()
    cautions: tuple[Said, ...] = ()
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
    off: Off = ALL_ON,
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
        off: the ids of the judgements that the shop has switched off.
    """
    pairs = [
        _paired(club, against, one, other, off)
        for club in candidates
        if club.key != against.key
        for one in club.situations
        if one.figures.shots and (other := _same_situation(one, against)) is not None
    ]
    scatter = Scatter(everyone)
    weighed: dict[tuple[int, str], list[tuple[int, Weighed]]] = {}
    rated: dict[str, set[Asked]] = {}
    for place, pair in enumerate(pairs):
        if pair.unfair:
            continue
        for key, each in _weighed(pair, margins, scatter):
            weighed.setdefault((id(pair.other), key), []).append((place, each))
        done = rated.setdefault(pair.candidate.key, set())
        asked = [each for each in _rated_here(pair) if each not in done]
        done.update(asked)
        for key, each in _ratings(pair, asked, margins):
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
            least_balls=1 if key.startswith(RATING) else _least_balls(margins),
        )
        for (place, _), difference in zip(family, judged, strict=True):
            found.setdefault(place, []).append(Judged(key, difference))
    return tuple(
        replace(pair, judged=tuple(found.get(place, ()))) for place, pair in enumerate(pairs)
    )


def _least_balls(margins: Margins) -> int:
    """The shop's, but never fewer than a spread can be told from."""
    return max(margins.least_balls, LEAST_FOR_INTERVAL)


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


def _weighed(pair: Pair, margins: Margins, scatter: Scatter) -> list[tuple[str, Weighed]]:
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
                    others=scatter.besides(one, measure, {pair.candidate.key, pair.against.key}),
                    first_look=_least_balls(margins),
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


def _rated_here(pair: Pair) -> list[Asked]:
    """What was asked of both clubs in this pair's situation, or in one that isn't known."""
    theirs = pair.against.ratings
    return [
        asked
        for asked in pair.candidate.ratings
        if asked in theirs and asked.situation in (None, pair.one.situation)
    ]


def _ratings(pair: Pair, both: Sequence[Asked], margins: Margins) -> list[tuple[str, Weighed]]:
    """What one player said of both in the same rounds, question by question."""
    mine, theirs = pair.candidate.ratings, pair.against.ratings
    return [
        (
            f"{RATING}{about}",
            ratings_weighed(
                [mine[asked] for asked in both if asked.about == about],
                [theirs[asked] for asked in both if asked.about == about],
                margin=margins.ratings_share,
            ),
        )
        for about in dict.fromkeys(asked.about for asked in both)
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
    club: ClubEvidence,
    against: ClubEvidence,
    one: SituationFigures,
    other: SituationFigures,
    off: Off,
) -> Pair:
    unfair = unfair_between(one, other)
    cautions = cautions_between(TwoClubs(club.name, against.name, one, other), off)
    return Pair(club, against, one, other, unfair=unfair, cautions=cautions)


def is_nearer(found: Difference | None, aim: float) -> bool | None:
    """Whether the candidate's mean lies nearer to the aim; None where that is not told."""
    nearness = None if found is None else nearer_to(found, aim)
    return None if nearness is None else nearness > 0


def is_better(each: Judged) -> bool | None:
    """Whether a real difference is to the candidate's good.

    None where none is called, the measure has no good side, or two clubs that differ in direction
    may lie as far from the line of aim, one to each side.
    """
    found = each.found
    if not is_real(found) or found.difference is None:
        return None
    if each.key == "side":
        return is_nearer(found, LINE_OF_AIM)
    if each.key.startswith(RATING):
        return found.difference > found.neutral
    return found.difference < found.neutral if each.key in LESS_IS_BETTER else None


def has_real_difference(pairs: Iterable[Pair]) -> bool:
    return any(is_real(each.found) for pair in pairs for each in pair.judged)


def is_real(found: Difference | None) -> bool:
    return found is not None and found.verdict == "real difference"


def is_more(found: Difference) -> bool:
    """The candidate has more of it than the club it is held against."""
    return found.difference is not None and found.difference > found.neutral
