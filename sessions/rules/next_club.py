"""Which club to hand over next in a slot, for how many balls, and why, in one sentence.

Full swings are judged by how near their mean carry comes to the plan; where none is planned, balls
at a target by how near they end to it. Anything else gets no advice: longer is not better. Only
balls hit alike are held against each other: those of the conditions that most clubs were hit in.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from sessions.maths.block_context import BlockContext
from sessions.maths.next_trial import NextTrial, Tried, next_trial
from sessions.maths.shown import show_distance
from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.club_evidence import ClubEvidence, Margins, SituationFigures
from sessions.rules.evidence import SlotEvidence


@dataclass(frozen=True)
class NextClub:
    """The sentence to be said, and the club's key and balls where one is to be handed over."""

    sentence: str
    key: str | None = None
    balls: int = 0


@dataclass(frozen=True)
class _By:
    """What the choice in a slot is by."""

    situations: Callable[[ClubEvidence], Sequence[SituationFigures]]
    value: Callable[[SituationFigures], tuple[float, ...]]
    aim: float | None
    margin_m: float
    best: str
    better: str


def next_club(
    there: SlotEvidence, margins: Margins, balls_left: int, unit: DistanceUnit
) -> NextClub | None:
    """What to hand over next, or None where there is nothing to choose or nothing to judge it by.

    While clubs go by numbers the drawn order says what is next.
    """
    clubs = there.played
    if len(clubs) < 2 or any(club.is_hidden for club in clubs):
        return None
    by = _by(there, margins)
    if by is None:
        return None
    alike = _alike([there for club in clubs for there in by.situations(club)])
    values = {
        club.key: tuple(
            value
            for there in by.situations(club)
            if _conditions(there) == alike
            for value in by.value(there)
        )
        for club in clubs
    }
    found = next_trial(
        [Tried(club.key, values[club.key]) for club in clubs],
        margin=by.margin_m,
        balls_left=max(balls_left, 0),
        aim=by.aim,
    )
    names = {club.key: club.name for club in clubs}
    begun = {
        club.key: "three each to begin with"
        if values[club.key]
        else "none was hit with it in the same conditions yet"
        if any(by.value(there) for there in by.situations(club))
        else "none was hit with it yet"
        for club in clubs
    }
    return NextClub(_sentence(found, names, begun, by, unit), found.key, found.balls)


def _alike(every: Sequence[SituationFigures]) -> BlockContext | None:
    """The conditions in which most of all were hit, then most balls."""
    shared: dict[BlockContext, tuple[int, int]] = {}
    for there in every:
        clubs, balls = shared.get(_conditions(there), (0, 0))
        shared[_conditions(there)] = clubs + 1, balls + there.figures.shots
    return max(shared, key=lambda each: shared[each], default=None)


def _conditions(there: SituationFigures) -> BlockContext:
    """All but the grooves, which move spin and not the order of carries."""
    return replace(there.context, grooves=None)


def _by(there: SlotEvidence, margins: Margins) -> _By | None:
    if there.planned_carry_m is not None and any(club.full_stock() for club in there.played):
        return _By(
            _full,
            lambda there: there.carries_m,
            there.planned_carry_m,
            margins.carry_m,
            "carries nearest to the plan",
            "carries nearer to the plan",
        )
    targets = [
        each.situation for club in there.played for each in club.situations if each.distances_m
    ]
    if not targets:
        return None
    swing, target_m = targets[-1].swing, targets[-1].target_m

    def at_the_target(club: ClubEvidence) -> Sequence[SituationFigures]:
        return [
            each
            for each in club.situations
            if (each.situation.swing, each.situation.target_m) == (swing, target_m)
        ]

    return _By(
        at_the_target,
        lambda there: tuple(-distance for distance in there.distances_m),
        None,
        margins.proximity_m,
        "ends nearest to the target",
        "ends nearer to the target",
    )


def _full(club: ClubEvidence) -> Sequence[SituationFigures]:
    return [each for each in club.situations if each.situation.swing == "full"]


def _sentence(
    found: NextTrial,
    names: dict[str, str],
    begun: dict[str, str],
    by: _By,
    unit: DistanceUnit,
) -> str:
    leader = names.get(found.leader or "", "")
    if found.is_decided:
        within = show_distance(by.margin_m, unit)
        return (
            f"Enough balls to choose by: no other club {by.better} than {leader} "
            f"by more than {within}. Turf, look and feel decide among the nearest."
        )
    if found.key is None:
        return "The balls of this visit are hit: decide with what there is, or come back."
    name, balls = names[found.key], f"{found.balls} {'ball' if found.balls == 1 else 'balls'}"
    if found.leader is None:
        return f"Next: {name}, {balls}: {begun[found.key]}."
    rival = names.get(found.rival or "", "")
    if found.key == found.leader:
        why = f"it {by.best} and {rival} is close behind"
    elif found.key == found.rival:
        why = f"it is closest behind {leader}, which {by.best}"
    else:
        why = f"it may still pass {leader}, which {by.best}"
    return f"Next: {name}, {balls}: {why}; that is where a ball tells most."
