"""What to try first, from the interview: for every slot of the plan a sole, a lie and a shaft.

A place to begin, each with its why and how much it weighs; the fitter overrules with a reason.
What pulls two ways is shown (`conflicts`), what nobody said is said (`missing`), and what this
visit can't settle stands apart (`not_today`). Each is a registered judgement with an id of its
own (`judgements`); a shop may switch one off, and then it says nothing. What is suggested of one
slot stands in `slot_suggestions` and beside it, what is said around the slots in `set_advice`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sessions.rules.interview import is_answered
from sessions.rules.interview_questions import BY_KEY
from sessions.rules.judgements import ALL_ON, Off, Said, sentences
from sessions.rules.set_advice import (
    FIRST,
    JOB_OF_SHOT,
    KEPT,
    NORMAL,
    NOT_TODAY,
    ORDER,
    SLOT_CONFLICTS,
    WEDGES,
    SetHeard,
    wedges_to_begin,
)
from sessions.rules.slot_jobs import jobs_of
from sessions.rules.slot_lies import lie_to_begin
from sessions.rules.slot_shafts import shaft_to_begin
from sessions.rules.slot_suggestions import (
    FirstClubLimits,
    PlannedSlot,
    PlayerHeard,
    SlotHeard,
    SlotSuggestions,
    Suggestion,
    Topic,
    Weight,
    sole_to_begin,
)
from sessions.rules.sole_advice import sole_advice
from sessions.rules.sole_heard import Job, SoleSuggestion
from sessions.rules.wording import listed

__all__ = ["JOB_OF_SHOT", "WEDGES", "FirstClubs", "first_clubs", "jobs_of"]

# Suggestions of the set as a whole stand under this slot.
OF_THE_SET = 0


@dataclass(frozen=True, slots=True)
class FirstClubs:
    """All that the interview says before a candidate is hit.

    `soles` are by job, whether there are slots or not; `first` is what is tried first as one
    suggestion, which may be set aside like any other.
    """

    slots: tuple[SlotSuggestions, ...]
    soles: tuple[SoleSuggestion, ...]
    count: Suggestion
    keep: tuple[Said, ...]
    try_first: tuple[Said, ...]
    order: tuple[Said, ...]
    not_today: tuple[Said, ...]
    normal_here: tuple[Said, ...]
    conflicts: tuple[Said, ...]
    missing: tuple[str, ...]

    @property
    def wedges(self) -> int | None:
        return None if self.count.low is None else int(self.count.low)

    @property
    def wedges_why(self) -> str:
        return self.count.why

    @property
    def first(self) -> Suggestion | None:
        if not self.try_first:
            return None
        return Suggestion(Topic.TRY_FIRST, " ".join(self.try_first), "", Weight.LEANING)


def first_clubs(
    answers: Mapping[str, object],
    player: PlayerHeard,
    slots: Sequence[PlannedSlot],
    limits: FirstClubLimits,
    *,
    surfaces: frozenset[str] = frozenset(),
    off: Off = ALL_ON,
) -> FirstClubs:
    """Suggest from answers by question key. Never raises for odd answers.

    `slots` are the plan's, in order of loft; `surfaces` what shots were hit from so far, in the
    stored words; `off` the ids that the shop has switched off.
    """
    soles = sole_advice(answers, limits.sole, off)
    jobs = jobs_of(answers, slots)
    found = tuple(
        SlotSuggestions(
            slot,
            listed([job.label.lower() for job in jobs[slot.slot]]),
            (
                sole_to_begin(jobs[slot.slot], soles, limits.sole),
                lie_to_begin(SlotHeard(answers, player, slot), limits, off),
                shaft_to_begin(SlotHeard(answers, player, slot), limits, off),
            ),
        )
        for slot in slots
    )
    heard = SetHeard(
        answers=answers,
        player=player,
        slots=slots,
        jobs=jobs,
        bands={job: soles.suggestion(job).band for job in Job if job not in soles.unproved},
        found=found,
        surfaces=surfaces,
    )
    return FirstClubs(
        slots=found,
        soles=soles.suggestions,
        count=wedges_to_begin(heard, limits, off),
        keep=sentences(KEPT, heard, limits, off),
        try_first=sentences(FIRST, heard, limits, off),
        order=sentences(ORDER, heard, limits, off),
        not_today=sentences(NOT_TODAY, heard, limits, off),
        normal_here=sentences(NORMAL, heard, limits, off),
        conflicts=(*soles.conflicts, *sentences(SLOT_CONFLICTS, heard, limits, off)),
        missing=(*soles.missing, *_missing(answers)),
    )


_NEEDED = ("iron_lie_deg", "iron_shaft_g", "iron_shaft_material", "keep", "fix")


def _missing(answers: Mapping[str, object]) -> tuple[str, ...]:
    return tuple(BY_KEY[key].label for key in _NEEDED if not is_answered(answers.get(key)))
