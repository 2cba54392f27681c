"""Which club to hand over next in a slot, for how many balls, and why, in one sentence.

Full swings are judged by how near their mean carry comes to the plan; where none is planned, balls
at a target by how near they end to it. Anything else gets no advice: longer is not better.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from sessions.maths.next_trial import NextTrial, Tried, next_trial
from sessions.maths.shown import show_distance
from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.club_evidence import ClubEvidence, Margins
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

    values: Callable[[ClubEvidence], tuple[float, ...]]
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
    found = next_trial(
        [Tried(club.key, by.values(club)) for club in clubs],
        margin=by.margin_m,
        balls_left=max(balls_left, 0),
        aim=by.aim,
    )
    names = {club.key: club.name for club in clubs}
    tried = {club.key: len(by.values(club)) for club in clubs}
    return NextClub(_sentence(found, names, tried, by, unit), found.key, found.balls)


def _by(there: SlotEvidence, margins: Margins) -> _By | None:
    if there.planned_carry_m is not None and any(club.full_stock() for club in there.played):
        return _By(
            _full_carries,
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

    def nearness(club: ClubEvidence) -> tuple[float, ...]:
        return tuple(
            -distance
            for each in club.situations
            if (each.situation.swing, each.situation.target_m) == (swing, target_m)
            for distance in each.distances_m
        )

    return _By(
        nearness,
        None,
        margins.proximity_m,
        "ends nearest to the target",
        "ends nearer to the target",
    )


def _full_carries(club: ClubEvidence) -> tuple[float, ...]:
    full = club.full_stock()
    return () if full is None else full.carries_m


def _sentence(
    found: NextTrial,
    names: dict[str, str],
    tried: dict[str, int],
    by: _By,
    unit: DistanceUnit,
) -> str:
    leader = names.get(found.leader or "", "")
    if found.is_decided:
        within = show_distance(by.margin_m, unit)
        return (
            f"Enough balls to choose by: no other club {by.better} than {leader} "
            f"by more than {within}."
        )
    if found.key is None:
        return "The balls of this visit are hit: decide with what there is, or come back."
    name, balls = names[found.key], f"{found.balls} {'ball' if found.balls == 1 else 'balls'}"
    if found.leader is None:
        why = "none was hit with it yet" if not tried[found.key] else "three each to begin with"
        return f"Next: {name}, {balls}: {why}."
    rival = names.get(found.rival or "", "")
    if found.key == found.leader:
        why = f"it {by.best} and {rival} is close behind"
    elif found.key == found.rival:
        why = f"it is closest behind {leader}, which {by.best}"
    else:
        why = f"it may still pass {leader}, which {by.best}"
    return f"Next: {name}, {balls}: {why}; that is where a ball tells most."
