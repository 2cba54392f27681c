"""Where two answers ask for two different soles: said side by side and never averaged.

Each says of which jobs it makes the suggestion doubtful; the others keep their weight.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sessions.rules.judgements import JudgementBook
from sessions.rules.sole_heard import Attack, Job, SoleHeard, SoleLimits


@dataclass(frozen=True, slots=True)
class Conflict:
    """Two answers that pull two ways, in a sentence, and the jobs whose sole they pull at."""

    sentence: str
    jobs: tuple[Job, ...]


CONFLICTS = Iterable[Conflict]
SOLE_CONFLICTS: JudgementBook[SoleHeard, SoleLimits, Conflict] = JudgementBook(
    "TRY-C", "Answers that pull two ways"
)


def _of_attack(heard: SoleHeard) -> tuple[Job, ...]:
    """The jobs whose sole goes by the attack: turf, and sand that is firm."""
    return (*heard.turf_jobs, Job.SAND) if heard.is_only_firm_sand else heard.turf_jobs


@SOLE_CONFLICTS.judgement(
    "TRY-C01",
    about="Steep on firm ground: steepness asks for bounce, firm ground for less.",
    thresholds=("interview.steep_deg",),
)
def steep_on_firm(heard: SoleHeard, limits: SoleLimits) -> CONFLICTS:
    if heard.attack is Attack.STEEP and "firm" in heard.ground:
        yield Conflict(
            "Steep on firm ground: steepness asks for bounce, firm ground bounces it off. "
            "Mid bounce with a softened leading edge, not high.",
            heard.turf_jobs,
        )


@SOLE_CONFLICTS.judgement(
    "TRY-C02",
    about="Shallow from turf but soft or fluffy sand: two soles for two jobs.",
    thresholds=("interview.shallow_deg",),
)
def shallow_but_soft_sand(heard: SoleHeard, limits: SoleLimits) -> CONFLICTS:
    if heard.is_seen_shallow and heard.is_soft_sand:
        yield Conflict(
            "Shallow from turf but soft or fluffy sand: one bounce can't serve both. "
            "Two soles for two jobs: a wide one with high bounce for the sand, less on the rest.",
            (Job.SAND,),
        )


@SOLE_CONFLICTS.judgement(
    "TRY-C03",
    about="Shallow on ground that is soft in some season: little bounce against more.",
    thresholds=("interview.shallow_deg",),
)
def shallow_on_soft(heard: SoleHeard, limits: SoleLimits) -> CONFLICTS:
    if heard.is_seen_shallow and "soft" in heard.ground:
        yield Conflict(
            "Shallow on soft ground: shallowness asks for little bounce, soft ground for more. "
            "Try both sides of mid from the player's own kind of turf.",
            heard.turf_jobs,
        )


@SOLE_CONFLICTS.judgement(
    "TRY-C04", about="Firm in one season and soft in the other: no sole is best in both."
)
def firm_and_soft(heard: SoleHeard, limits: SoleLimits) -> CONFLICTS:
    if {"firm", "soft"} <= heard.ground:
        yield Conflict(
            "Firm in one season and soft in the other: no sole is best in both. "
            "Ask when most of the rounds are played.",
            heard.turf_jobs,
        )


@SOLE_CONFLICTS.judgement(
    "TRY-C05",
    about="Opened often and soft or fluffy sand: no high bounce on the one that is opened.",
)
def opened_but_soft_sand(heard: SoleHeard, limits: SoleLimits) -> CONFLICTS:
    if heard.opened == "often" and heard.is_soft_sand:
        yield Conflict(
            "Opened often and soft or fluffy sand: the club that is opened on turf wants low "
            "bounce, the sand wants high. Two soles for two jobs; no high bounce on the one "
            "that is opened.",
            (Job.SAND, Job.OPENED_FACE),
        )


@SOLE_CONFLICTS.judgement("TRY-C06", about="Soft bunkers and firm ones: no sole is best in both.")
def soft_and_firm_sand(heard: SoleHeard, limits: SoleLimits) -> CONFLICTS:
    if heard.is_soft_sand and heard.is_firm_sand:
        yield Conflict(
            "Soft bunkers and firm ones: no sole is best in both. Ask which are met most.",
            (Job.SAND,),
        )


@SOLE_CONFLICTS.judgement(
    "TRY-C07",
    about="The attack as measured is shallow where it looked steep, or the other way round.",
    thresholds=("interview.steep_deg", "interview.shallow_deg"),
)
def figure_against_eye(heard: SoleHeard, limits: SoleLimits) -> CONFLICTS:
    if heard.measured is not None and heard.measured.is_opposite_of(heard.seen):
        yield Conflict(
            f"Attack measured at {heard.measured_deg} degrees, which is {heard.measured}, but "
            f"{heard.seen} by eye. The figure counts here. Measure once more on full swings, "
            "with a wedge.",
            _of_attack(heard),
        )


@SOLE_CONFLICTS.judgement(
    "TRY-C08",
    about="The divots say steep where the attack is shallow, or the other way round.",
    thresholds=("interview.steep_deg", "interview.shallow_deg"),
)
def divot_against_attack(heard: SoleHeard, limits: SoleLimits) -> CONFLICTS:
    if heard.attack is not None and heard.attack.is_opposite_of(heard.divot):
        divots = "deep divots" if heard.divot is Attack.STEEP else "no divots"
        yield Conflict(
            f"{heard.attack_from[:1].upper()}{heard.attack_from[1:]}, but {divots}: one says "
            f"{heard.attack}, the other {heard.divot}. Look at the ball's place in the stance "
            "and at the turf before the bounce is settled.",
            _of_attack(heard),
        )
