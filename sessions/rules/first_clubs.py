"""What to try first, from the interview: for every slot of the plan a sole, a lie and a shaft.

A place to begin, each with its why and how much it weighs; the fitter overrules with a reason.
What pulls two ways is shown (`conflicts`), what nobody said is said (`missing`), and what this
visit can't settle stands apart (`not_today`). Trade rules of thumb: common practice throughout,
so the figures that a shop may see otherwise are its settings. What is suggested of one slot
stands in `slot_suggestions`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from sessions.rules.facts import PlayerKind, Role
from sessions.rules.interview import is_answered, number_from
from sessions.rules.interview_questions import BY_KEY
from sessions.rules.slot_suggestions import (
    FirstClubLimits,
    PlannedSlot,
    PlayerHeard,
    SlotSuggestions,
    Topic,
    Weight,
    is_spared,
    lie_to_begin,
    lie_words,
    shaft_to_begin,
    sole_to_begin,
)
from sessions.rules.sole_advice import Job, SoleAdvice, sole_advice
from sessions.rules.wording import figure, listed

WEDGES = {"one": 1, "two": 2, "three": 3, "four": 4}
# Where most sets of wedges end; only for reckoning how many there may be.
USUAL_MOST_LOFTED_DEG = Decimal(60)
# A figure in a sentence that can only be a wedge's loft.
LOFT_IN_WORDS = re.compile(r"\b(4[4-9]|5\d|6[0-4])\b")
# The order of trials that proves most. Advice: nothing enforces it. Common practice.
ORDER_OF_TRIALS = (
    "Loft, for the gap.",
    "Length and shaft, where they are in question.",
    "Lie, roughly right.",
    "Then the sole, on turf and in sand: never on a mat.",
    "Lie again, to confirm it.",
    "Grip and swing weight last.",
)


@dataclass(frozen=True, slots=True)
class FirstClubs:
    """All that the interview says before a candidate is hit."""

    slots: tuple[SlotSuggestions, ...]
    wedges: int | None
    wedges_why: str
    keep: tuple[str, ...]
    try_first: tuple[str, ...]
    not_today: tuple[str, ...]
    normal_here: tuple[str, ...]
    conflicts: tuple[str, ...]
    missing: tuple[str, ...]


def first_clubs(
    answers: Mapping[str, object],
    player: PlayerHeard,
    slots: Sequence[PlannedSlot],
    limits: FirstClubLimits,
    *,
    surfaces: frozenset[str] = frozenset(),
) -> FirstClubs:
    """Suggest from answers by question key. Never raises for odd answers.

    `slots` are the plan's, in order of loft; `surfaces` what shots were hit from so far, in the
    stored words.
    """
    soles = sole_advice(answers, limits.sole)
    jobs = jobs_of(answers, slots)
    found = tuple(
        SlotSuggestions(
            slot,
            listed([job.label.lower() for job in jobs[slot.slot]]),
            (
                sole_to_begin(jobs[slot.slot], soles, limits.sole),
                lie_to_begin(answers, slot, limits),
                shaft_to_begin(answers, player, slot, limits),
            ),
        )
        for slot in slots
    )
    wedges, wedges_why = _wedges(answers, player, limits)
    return FirstClubs(
        slots=found,
        wedges=wedges,
        wedges_why=wedges_why,
        keep=_keep(answers),
        try_first=tuple(_try_first(answers, found, jobs)),
        not_today=tuple(_not_today(answers, player, limits, surfaces)),
        normal_here=tuple(_normal_here(answers, player, limits)),
        conflicts=(
            *soles.conflicts,
            *_two_jobs(jobs, soles, slots),
            *_lie_out_of_reach(answers, limits),
        ),
        missing=(*soles.missing, *_missing(answers)),
    )


# --- which slot does which job --------------------------------------------------------------


def jobs_of(
    answers: Mapping[str, object], slots: Sequence[PlannedSlot]
) -> dict[int, tuple[Job, ...]]:
    """The jobs of each slot. One touch club has both; of several, the sand club is the one that
    the player names, else the one with least loft, and the most lofted is the one opened."""
    touch = [slot for slot in slots if slot.role is Role.TOUCH]
    jobs: dict[int, tuple[Job, ...]] = {slot.slot: (Job.FULL_SHOTS,) for slot in slots}
    if len(touch) == 1:
        jobs[touch[0].slot] = (Job.SAND, Job.OPENED_FACE)
    elif touch:
        sand = _sand_slot(answers, touch)
        jobs[sand.slot] = (Job.SAND,)
        opened = next(slot for slot in reversed(touch) if slot is not sand)
        jobs[opened.slot] = (Job.OPENED_FACE,)
    return jobs


def _sand_slot(answers: Mapping[str, object], touch: Sequence[PlannedSlot]) -> PlannedSlot:
    said = LOFT_IN_WORDS.search(str(answers.get("club_sand") or ""))
    if said is None:
        return touch[0]
    named = Decimal(said.group())
    return min(touch, key=lambda slot: (abs(slot.loft_deg - named), slot.loft_deg))


def _two_jobs(
    jobs: Mapping[int, tuple[Job, ...]], soles: SoleAdvice, slots: Sequence[PlannedSlot]
) -> Iterator[str]:
    for slot in slots:
        bands = {soles.suggestion(job).band for job in jobs[slot.slot]} - {None}
        if len(bands) > 1:
            yield (
                f"Slot {slot.slot}, {figure(slot.loft_deg)}°, has two jobs that ask for two "
                "soles: sand and short shots from turf. Try it at both, or plan a club for each."
            )


def _lie_out_of_reach(answers: Mapping[str, object], limits: FirstClubLimits) -> Iterator[str]:
    """Irons so far from stock that no head of a stock lie is bent to them."""
    irons = number_from(answers.get("iron_lie_deg"))
    most = limits.bend_forged_low_carbon_deg
    if irons is not None and abs(irons) > most:
        yield (
            f"The irons' lie, {lie_words(irons)}, is out of reach: even a forged head of a stock "
            f"lie bends {figure(most)} at most. A head that is made "
            f"{'flatter' if irons < 0 else 'more upright'}, or ask its maker."
        )


# --- around the slots --------------------------------------------------------------------------


def _wedges(
    answers: Mapping[str, object], player: PlayerHeard, limits: FirstClubLimits
) -> tuple[int | None, str]:
    """How many wedges, and why: the player's wish first, a short carry or a child next."""
    wished = WEDGES.get(str(answers.get("wedges_wanted")))
    if wished is not None:
        return wished, "As the player wishes."
    if player.kind is PlayerKind.JUNIOR:
        return 2, "A child: two are enough, and they are grown out of."
    if player.carry_m is not None and player.carry_m < limits.short_carry_m:
        return 2, "At this carry more clubs would lie too close together."
    if player.baseline_loft_deg is None:
        return None, "The pitching wedge's loft is not known."
    span = USUAL_MOST_LOFTED_DEG - player.baseline_loft_deg
    count = min(max(round(span / limits.usual_step_deg), 1), 4)
    return count, (
        f"From {figure(player.baseline_loft_deg)} to about {USUAL_MOST_LOFTED_DEG} degrees in "
        f"steps of about {figure(limits.usual_step_deg)}."
    )


def _labels(answers: Mapping[str, object], key: str) -> list[str]:
    said = answers.get(key)
    words = said if isinstance(said, (list, tuple)) else []
    return [choice.label.lower() for choice in BY_KEY[key].choices if choice.value in words]


def _keep(answers: Mapping[str, object]) -> tuple[str, ...]:
    return tuple(
        f"{shot.capitalize()} works already: hit it with every finalist, so that it is kept."
        for shot in _labels(answers, "keep")
    )


# Which job a shot named in the interview belongs to.
JOB_OF_SHOT = {
    "full": Job.FULL_SHOTS,
    "three-quarter": Job.FULL_SHOTS,
    "half": Job.FULL_SHOTS,
    "chip": Job.OPENED_FACE,
    "pitch": Job.OPENED_FACE,
    "flop": Job.OPENED_FACE,
    "sand": Job.SAND,
}


def _try_first(
    answers: Mapping[str, object],
    found: Sequence[SlotSuggestions],
    jobs: Mapping[int, tuple[Job, ...]],
) -> Iterator[str]:
    """The loft always comes first; then the slot whose job is to be mended."""
    if found:
        yield "Loft for the gap first: a sole that wins at the wrong loft proves nothing."
    full = next((one for one in found if one.slot.role is Role.FULL_SHOT), None)
    if full is not None:
        yield (
            f"Slot {full.slot.slot}, {figure(full.slot.loft_deg)}°, is a full-shot club: "
            "the irons' own matched wedge belongs beside it, with the irons' shaft and lie."
        )
    for shot in _labels(answers, "fix"):
        job = JOB_OF_SHOT[shot]
        slot = next((one for one in found if job in jobs[one.slot.slot]), None)
        if slot is None:
            continue
        sole = slot.of(Topic.SOLE)
        begin = "" if sole.weight is Weight.OPEN else f", beginning with {sole.words}"
        place = "out of sand" if job is Job.SAND else "from turf"
        yield (
            f"To mend {shot} shots: slot {slot.slot.slot}, "
            f"{figure(slot.slot.loft_deg)}°, {place}{begin}."
        )


def _not_today(
    answers: Mapping[str, object],
    player: PlayerHeard,
    limits: FirstClubLimits,
    surfaces: frozenset[str],
) -> Iterator[str]:
    if surfaces and surfaces <= {"mat", "tee"}:
        yield "The sole: everything so far was hit from a mat or a tee, and mats forgive."
    if answers.get("irons_changing") in ("yes", "perhaps"):
        yield (
            "Length, lie and shaft of the full-shot clubs, and the gap below the pitching wedge: "
            "the irons may change, and these follow the irons. Wait until the new pitching wedge "
            "is measured and hit, and ask whether the new set has a gap wedge of its own."
        )
    if player.kind is PlayerKind.JUNIOR:
        yield (
            "Length for good: the player is growing. Check again after "
            f"{limits.junior_check_months} months or "
            f"{figure(limits.junior_check_growth_mm / 10)} cm."
        )
    if is_answered(answers.get("pain")):
        yield "Anything that hurts: stop there. A doctor or physiotherapist decides."


def _normal_here(
    answers: Mapping[str, object], player: PlayerHeard, limits: FirstClubLimits
) -> Iterator[str]:
    irons = number_from(answers.get("iron_shaft_g"))
    is_light = irons is not None and irons <= limits.light_shaft_g
    if is_light or is_spared(answers, player):
        yield "With a light shaft a swing weight of C5 to D0 is normal; no weight is pushed."
    if player.carry_m is not None and player.carry_m < limits.short_carry_m:
        yield "Gaps are judged in proportion: at this carry fewer yards apart is right."


_NEEDED = ("iron_lie_deg", "iron_shaft_g", "iron_shaft_material", "keep", "fix")


def _missing(answers: Mapping[str, object]) -> tuple[str, ...]:
    return tuple(BY_KEY[key].label for key in _NEEDED if not is_answered(answers.get(key)))
