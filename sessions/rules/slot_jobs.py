"""Which slot of the plan does which job, so that each gets the sole of its own work.

Of one slot exactly one judgement speaks, and none can be switched off: every sole, and what is
tried first, hangs on it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from sessions.rules.facts import Role
from sessions.rules.judgements import JudgementBook
from sessions.rules.slot_suggestions import PlannedSlot
from sessions.rules.sole_heard import Job

# A figure in a sentence that can only be a wedge's loft.
LOFT_IN_WORDS = re.compile(r"\b(4[4-9]|5\d|6[0-4])\b")


@dataclass(frozen=True, slots=True)
class SlotsHeard:
    """The plan's slots in order of loft, and the answers by question key."""

    answers: Mapping[str, object]
    slots: Sequence[PlannedSlot]

    @property
    def touch(self) -> tuple[PlannedSlot, ...]:
        return tuple(slot for slot in self.slots if slot.role is Role.TOUCH)

    @property
    def named_deg(self) -> Decimal | None:
        """The loft of the club that the player takes out of the sand, where one is named."""
        said = LOFT_IN_WORDS.search(str(self.answers.get("club_sand") or ""))
        return None if said is None else Decimal(said.group())

    @property
    def sand(self) -> PlannedSlot | None:
        """The sand club of several touch clubs: the one named, else the one with least loft."""
        if len(self.touch) < 2:
            return None
        named = self.named_deg
        if named is None:
            return self.touch[0]
        return min(self.touch, key=lambda slot: (abs(slot.loft_deg - named), slot.loft_deg))

    @property
    def opened(self) -> PlannedSlot | None:
        """The most lofted of several touch clubs that is not the sand club."""
        sand = self.sand
        return next((slot for slot in reversed(self.touch) if sand and slot is not sand), None)


def jobs_of(
    answers: Mapping[str, object], slots: Sequence[PlannedSlot]
) -> dict[int, tuple[Job, ...]]:
    """The jobs of each slot, by its number, the one that leads first."""
    return dict(jobs for _, jobs in JOBS.heard(SlotsHeard(answers, slots), None))


SlotJobs = tuple[int, tuple[Job, ...]]
JOBS: JudgementBook[SlotsHeard, None, SlotJobs] = JudgementBook(
    "TRY-J", "Which slot does which job"
)


@JOBS.judgement("TRY-J01", about="A full-shot club is for full shots from turf.", is_fixed=True)
def full_shots(heard: SlotsHeard, limits: None) -> Iterable[SlotJobs]:
    for slot in heard.slots:
        if slot.role is Role.FULL_SHOT:
            yield slot.slot, (Job.FULL_SHOTS,)


@JOBS.judgement(
    "TRY-J02",
    about="One touch club alone does both: sand first, then short shots from turf.",
    is_fixed=True,
)
def one_touch_club(heard: SlotsHeard, limits: None) -> Iterable[SlotJobs]:
    if len(heard.touch) == 1:
        yield heard.touch[0].slot, (Job.SAND, Job.OPENED_FACE)


@JOBS.judgement(
    "TRY-J03",
    about="Of several touch clubs the sand club is the one nearest to the loft that the player "
    "names.",
    is_fixed=True,
)
def sand_club_as_named(heard: SlotsHeard, limits: None) -> Iterable[SlotJobs]:
    if heard.sand is not None and heard.named_deg is not None:
        yield heard.sand.slot, (Job.SAND,)


@JOBS.judgement(
    "TRY-J04",
    about="Where the player names none, the sand club is the touch club with least loft.",
    is_fixed=True,
)
def sand_club_by_loft(heard: SlotsHeard, limits: None) -> Iterable[SlotJobs]:
    if heard.sand is not None and heard.named_deg is None:
        yield heard.sand.slot, (Job.SAND,)


@JOBS.judgement(
    "TRY-J05",
    about="The most lofted of several touch clubs, beside the sand club, is the one that is "
    "opened.",
    is_fixed=True,
)
def opened_club(heard: SlotsHeard, limits: None) -> Iterable[SlotJobs]:
    if heard.opened is not None:
        yield heard.opened.slot, (Job.OPENED_FACE,)


@JOBS.judgement(
    "TRY-J06",
    about="A touch club that is neither the sand club nor the opened one: shots from turf.",
    is_fixed=True,
)
def touch_club_between(heard: SlotsHeard, limits: None) -> Iterable[SlotJobs]:
    if len(heard.touch) > 2:
        for slot in heard.touch:
            if slot not in (heard.sand, heard.opened):
                yield slot.slot, (Job.FULL_SHOTS,)
