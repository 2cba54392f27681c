"""Rules on what stands behind a new club: shots, turf, situations, and what was not asked."""

from __future__ import annotations

from collections.abc import Iterator

from sessions.rules.facts import ClubFacts, ClubSource, SpecFacts, SpecLimits
from sessions.rules.findings import Hit, Severity
from sessions.rules.spec_book import COMMON_PRACTICE, SPEC_BOOK
from sessions.rules.wording import club_words, listed

# What a device's figures are, as the evidence has it.
AS_FLOWN, NORMALISED = "as flown", "normalised"


def _new(facts: SpecFacts) -> Iterator[ClubFacts]:
    return (club for club in facts.clubs if club.source is ClubSource.NEW)


@SPEC_BOOK.rule(
    "SPEC-W030",
    Severity.LOOK,
    about="A new club rests on few shots.",
    source=COMMON_PRACTICE,
    thresholds=("shots_for_a_build",),
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
    "SPEC-W033",
    Severity.LOOK,
    about="A new club was compared where more than the club differed, so nothing was shown.",
    source=COMMON_PRACTICE,
)
def comparison_unfair(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        unfair = club.evidence.unfair
        if unfair:
            yield Hit(
                fields=(club.field("evidence"),),
                sentence=f"{club_words(club)}: it was compared where more than the club differed. "
                + " ".join(_sentence(reason) for reason in unfair),
                hint="Hit both again from the same place with the same ball, or say why it is "
                "right anyway.",
                numbers=(("differed", "; ".join(unfair)),),
            )


def _sentence(reason: str) -> str:
    return reason if reason.endswith(".") else f"{reason}."


@SPEC_BOOK.rule(
    "SPEC-W034",
    Severity.LOOK,
    about="The trial club's loft was not measured: what was hit may not be what is stamped.",
    source=COMMON_PRACTICE,
)
def trial_club_not_measured(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        if club.evidence.is_loft_measured is False:
            yield Hit(
                fields=(club.field("evidence"),),
                sentence=f"{club_words(club)}: the trial head's loft was never measured, only read "
                "from its stamp.",
                hint="Measure the trial head; the target may have to move with it.",
            )


@SPEC_BOOK.rule(
    "SPEC-W035",
    Severity.LOOK,
    about="The trial head was overdue for its check, or never had one.",
    source=COMMON_PRACTICE,
    thresholds=("check_days",),
)
def trial_club_check_overdue(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        if club.evidence.is_loft_measured is None:
            continue  # no trial head was played
        days = club.evidence.days_since_check
        if days is None or days > limits.check_days:
            since = "had never been checked" if days is None else f"was checked {days} days before"
            yield Hit(
                fields=(club.field("evidence"),),
                sentence=f"{club_words(club)}: the trial head {since}; a check is due every "
                f"{limits.check_days} days.",
                hint="Check its loft and lie now: heads drift.",
                numbers=(("days", days), ("due", limits.check_days)),
            )


@SPEC_BOOK.rule(
    "SPEC-W036",
    Severity.LOOK,
    about="A new club's carries were normalised by the device, so they are not what was flown; or "
    "the pitching wedge's were and its own were not, so the gaps mix the two.",
    source=COMMON_PRACTICE,
)
def carries_normalised(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    pitching = facts.baseline_figures
    for club in _new(facts):
        figures = club.evidence.figures
        if not figures or NORMALISED not in figures | pitching:
            continue
        if NORMALISED in figures:
            some = "some of its" if len(figures) > 1 else "its"
            said = f"{some} carries were normalised by the device; they are not what was flown here"
            if pitching == {AS_FLOWN}:
                said += ", and the pitching wedge's are"
        else:
            some = "some of the" if len(pitching) > 1 else "the"
            own = "its own were not" if figures == {AS_FLOWN} else "nobody said what its own are"
            said = f"{some} pitching wedge's carries were normalised by the device; {own}"
        numbers = [("figures", ", ".join(sorted(figures)))]
        if pitching:
            numbers.append(("pitching wedge", ", ".join(sorted(pitching))))
        yield Hit(
            fields=(club.field("evidence"),),
            sentence=f"{club_words(club)}: {said}.",
            hint="Gaps hold only where every club was measured so. Never correct them again "
            "for the air at home.",
            numbers=tuple(numbers),
        )


@SPEC_BOOK.rule(
    "SPEC-N031",
    Severity.NOTE,
    about="Nobody said whether a new club's carries are as flown or normalised.",
    source=COMMON_PRACTICE,
)
def figures_unanswered(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    silent = [club for club in _new(facts) if "unanswered" in club.evidence.figures]
    if silent:
        yield Hit(
            fields=(silent[0].field("evidence"),),
            sentence=f"{listed([f'Slot {club.slot}' for club in silent])}: nobody said whether the "
            "device gave figures as flown or normalised.",
            hint="It is a setting of the device: look, and answer it with the block.",
            numbers=(("clubs", len(silent)),),
        )


@SPEC_BOOK.rule(
    "SPEC-N032",
    Severity.NOTE,
    about="What to bear in mind of a new club's comparison: grooves in another state, the order of "
    "the balls, drift.",
    source=COMMON_PRACTICE,
)
def comparison_cautions(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        if club.evidence.cautions:
            yield Hit(
                fields=(club.field("evidence"),),
                sentence=f"{club_words(club)}: "
                + " ".join(_sentence(caution) for caution in club.evidence.cautions),
                hint="It says how much the comparison can carry; it is no fault of the club.",
                numbers=(("said", "; ".join(club.evidence.cautions)),),
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
