"""Rules on what stands behind a new club: shots, turf, situations, and what was not asked."""

from __future__ import annotations

from collections.abc import Iterator

from sessions.rules.facts import ClubFacts, ClubSource, SpecFacts, SpecLimits
from sessions.rules.findings import Hit, Severity
from sessions.rules.spec_book import COMMON_PRACTICE, SPEC_BOOK
from sessions.rules.wording import club_words, listed


def _new(facts: SpecFacts) -> Iterator[ClubFacts]:
    return (club for club in facts.clubs if club.source is ClubSource.NEW)


@SPEC_BOOK.rule(
    "SPEC-W030",
    Severity.LOOK,
    about="A new club rests on few shots.",
    source=COMMON_PRACTICE,
)
def evidence_thin(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        shots = club.evidence.shots
        if shots < limits.shots_for_a_build:
            said = {0: "no shot was", 1: "1 shot was"}.get(shots, f"{shots} shots were")
            yield Hit(
                fields=(club.field("evidence"),),
                sentence=f"{club_words(club)}: {said} hit with it; "
                f"{limits.shots_for_a_build} are the least for a club that is built.",
                hint="Three shots are an anecdote. A few more, or say why it is right anyway.",
                numbers=(("shots", shots), ("least", limits.shots_for_a_build)),
            )


@SPEC_BOOK.rule(
    "SPEC-W031",
    Severity.LOOK,
    about="A sole was not tested on turf: mats forgive.",
    source=COMMON_PRACTICE,
)
def sole_not_on_turf(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        if club.evidence.tested_on_turf is not True:
            why = (
                "nobody wrote down what it was hit from"
                if club.evidence.tested_on_turf is None
                else "mats forgive what turf does not"
            )
            yield Hit(
                fields=(club.field("evidence"),),
                sentence=f"{club_words(club)}: its sole was not tested on turf; {why}.",
                hint="A few shots from grass, or “come back on grass”.",
                numbers=(("on turf", club.evidence.tested_on_turf),),
            )


@SPEC_BOOK.rule(
    "SPEC-W032",
    Severity.LOOK,
    about="A new club was tried in no recorded situation.",
    source=COMMON_PRACTICE,
)
def no_situation(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        if not club.evidence.situations:
            yield Hit(
                fields=(club.field("evidence"),),
                sentence=f"{club_words(club)}: no situation is recorded in which it was tried, "
                "so nothing says what it does better.",
                hint="To keep the old club is a good result too.",
            )


@SPEC_BOOK.rule(
    "SPEC-N030",
    Severity.NOTE,
    about="Questions of the interview are still open.",
    source=COMMON_PRACTICE,
)
def interview_open(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    open_ones = facts.player.unanswered
    if open_ones:
        yield Hit(
            fields=("player.interview",),
            sentence=f"Not asked yet: {listed(list(open_ones))}.",
            hint="What isn't known can't have been taken into account.",
            numbers=(("open", len(open_ones)),),
        )
