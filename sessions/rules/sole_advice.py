"""A first suggestion of bounce and sole for each job, from the interview, with its why.

Simple on purpose: a place to begin the trials, overruled with one tap. Where two answers pull
two ways the conflict is shown and never averaged away; what was not asked is said. All of it is
common practice (trade rules of thumb without a published source). The judgements themselves
stand in `sole_bounce` and `sole_conflicts`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from sessions.rules.interview import is_answered
from sessions.rules.interview_questions import BY_KEY, NEEDED_FOR_A_SOLE
from sessions.rules.judgements import ALL_ON, SWITCHED_OFF, Off, Said
from sessions.rules.sole_bounce import BOUNCE, RELIEF
from sessions.rules.sole_conflicts import SOLE_CONFLICTS
from sessions.rules.sole_heard import (
    Band,
    Job,
    SoleHeard,
    SoleLimits,
    SoleSuggestion,
    sole_heard,
    sole_limits_from,
)

__all__ = [
    "Band",
    "Job",
    "SoleAdvice",
    "SoleLimits",
    "SoleSuggestion",
    "sole_advice",
    "sole_limits_from",
]


@dataclass(frozen=True, slots=True)
class SoleAdvice:
    """Suggestions by job, the conflicts among the answers, and the questions still open.

    `pulled` are the jobs whose suggestion a conflict touches, `unproved` those that rest on a
    missing divot alone: enough to begin with, too little to pull against anything.
    """

    suggestions: tuple[SoleSuggestion, ...]
    conflicts: tuple[Said, ...]
    missing: tuple[str, ...]
    pulled: frozenset[Job] = frozenset()
    unproved: frozenset[Job] = frozenset()

    def suggestion(self, job: Job) -> SoleSuggestion:
        """The suggestion of a job: there is always one."""
        return next(one for one in self.suggestions if one.job is job)

    def leading(self, jobs: Sequence[Job]) -> SoleSuggestion | None:
        """The sole of a club that does these jobs: the first job's that is known.

        Relief that a later job asks for comes with it: relief goes with any sole.
        """
        known = [one for job in jobs if (one := self.suggestion(job)).band is not None]
        if not known:
            return None
        lead = known[0]
        wants_relief = any(RELIEF in one.sole for one in known[1:]) and RELIEF not in lead.sole
        sole = ", ".join(filter(None, (lead.sole, RELIEF if wants_relief else "")))
        return replace(lead, sole=sole)


def sole_advice(answers: Mapping[str, object], limits: SoleLimits, off: Off = ALL_ON) -> SoleAdvice:
    """Suggest a sole for each job from answers by question key. Never raises for odd answers."""
    heard = sole_heard(answers, limits)
    full = _of_job(Job.FULL_SHOTS, heard, limits, off)
    heard = replace(heard, full_shots=None if full.band is None else full)
    found = list(SOLE_CONFLICTS.heard(heard, limits, off))
    return SoleAdvice(
        suggestions=(
            full,
            _of_job(Job.SAND, heard, limits, off),
            _of_job(Job.OPENED_FACE, heard, limits, off),
        ),
        conflicts=tuple(Said(one.sentence, rule_id) for rule_id, one in found),
        missing=_missing(answers, heard),
        pulled=frozenset(job for _, one in found for job in one.jobs),
        unproved=frozenset(heard.turf_jobs) if heard.rests_on_no_divot else frozenset(),
    )


_NOT_KNOWN = {
    Job.FULL_SHOTS: "Attack and ground at home are not both known.",
    Job.SAND: "The sand at home is not known.",
    Job.OPENED_FACE: "How often the face is opened is not known.",
}


def _of_job(job: Job, heard: SoleHeard, limits: SoleLimits, off: Off) -> SoleSuggestion:
    """What is suggested for a job, or why nothing is."""
    book = BOUNCE[job]
    for rule_id, one in book.heard(heard, limits, off):
        if job is Job.FULL_SHOTS and heard.is_wide_too_much:
            why = f"{one.why} A sole of usual width: more acts like more bounce."
            return replace(one, rule_id=rule_id, why=why, is_usual_width=True)
        return replace(one, rule_id=rule_id)
    if book.is_silenced(heard, limits, off):
        return SoleSuggestion(job, None, "", SWITCHED_OFF)
    if job is Job.OPENED_FACE and heard.opened == "never":
        return SoleSuggestion(job, None, "", "Never opened, so as for full shots: not known yet.")
    return SoleSuggestion(job, None, "", _NOT_KNOWN[job])


def _missing(answers: Mapping[str, object], heard: SoleHeard) -> tuple[str, ...]:
    """Labels of the questions that this rests on and nobody answered."""
    open_keys = [
        key
        for key in NEEDED_FOR_A_SOLE
        if not is_answered(answers.get(key)) and not (key == "attack" and heard.attack is not None)
    ]
    return tuple(BY_KEY[key].label for key in open_keys)
