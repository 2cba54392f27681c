"""What is said around the slots: how many wedges, what is kept, what is tried first, what this
visit can't settle, what is normal for this player, and slots that pull two ways.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from sessions.maths.loft_binding import MOST_WEDGES
from sessions.rules.club_evidence import NO_TURF
from sessions.rules.facts import PlayerKind, Role
from sessions.rules.interview import is_in_pain, number_from
from sessions.rules.interview_questions import BY_KEY
from sessions.rules.judgements import ALL_ON, SWITCHED_OFF, JudgementBook, Off
from sessions.rules.slot_lies import lie_words
from sessions.rules.slot_suggestions import (
    NOTHING_YET,
    SORE_HANDS,
    FirstClubLimits,
    PlannedSlot,
    PlayerHeard,
    SlotSuggestions,
    Suggestion,
    Topic,
    Weight,
    is_spared,
)
from sessions.rules.sole_heard import Band, Job
from sessions.rules.wording import figure

WEDGES = {"one": 1, "two": 2, "three": 3, "four": 4}
# The order of trials that proves most. Advice: nothing enforces it.
ORDER_OF_TRIALS = (
    "Loft, for the gap.",
    "Length and shaft, where they are in question.",
    "Lie, roughly right.",
    "Then the sole, on turf and in sand: never on a mat.",
    "Lie again, to confirm it.",
    "Grip and swing weight last.",
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


@dataclass(frozen=True, slots=True)
class SetHeard:
    """The whole visit as far as the interview and the plan tell it.

    `found` is what is suggested slot by slot, `jobs` what each slot does, `bands` the bounce that
    each job asks for; `surfaces` what shots were hit from so far, in the stored words.
    """

    answers: Mapping[str, object] = field(default_factory=dict)
    player: PlayerHeard = field(default_factory=PlayerHeard)
    slots: Sequence[PlannedSlot] = ()
    jobs: Mapping[int, tuple[Job, ...]] = field(default_factory=dict)
    bands: Mapping[Job, Band | None] = field(default_factory=dict)
    found: Sequence[SlotSuggestions] = ()
    surfaces: frozenset[str] = frozenset()

    def shots(self, key: str) -> list[str]:
        """The shots that were chosen for a question, as they are said."""
        said = self.answers.get(key)
        words = said if isinstance(said, (list, tuple)) else []
        return [choice.label.lower() for choice in BY_KEY[key].choices if choice.value in words]


SetBook = JudgementBook[SetHeard, FirstClubLimits, str]
SENTENCES = Iterable[str]
SHORT_CARRY = "interview.short_carry_m"


def _is_short(heard: SetHeard, limits: FirstClubLimits) -> bool:
    carry = heard.player.carry_m
    return carry is not None and carry < float(limits.short_carry_m)


# --- slots that pull two ways ------------------------------------------------------------------

SLOT_CONFLICTS: SetBook = JudgementBook("TRY-D", "Slots and lies that pull two ways")


@SLOT_CONFLICTS.judgement(
    "TRY-D01", about="One slot has two jobs that ask for two soles: a conflict, never averaged."
)
def two_jobs(heard: SetHeard, limits: FirstClubLimits) -> SENTENCES:
    for slot in heard.slots:
        bands = {heard.bands.get(job) for job in heard.jobs.get(slot.slot, ())} - {None}
        if len(bands) > 1:
            yield (
                f"Slot {slot.slot}, {figure(slot.loft_deg)}°, has two jobs that ask for two "
                "soles: sand and short shots from turf. Try it at both, or plan a club for each."
            )


@SLOT_CONFLICTS.judgement(
    "TRY-D02",
    about="Irons so far from stock lie that no head of a stock lie is bent to them.",
    thresholds=("spec.bend_forged_low_carbon_deg",),
)
def lie_out_of_reach(heard: SetHeard, limits: FirstClubLimits) -> SENTENCES:
    irons = number_from(heard.answers.get("iron_lie_deg"))
    most = limits.bend_forged_low_carbon_deg
    if irons is not None and abs(irons) > most:
        yield (
            f"The irons' lie, {lie_words(irons)}, is out of reach: even a forged head of a stock "
            f"lie bends {figure(most)} at most. A head that is made "
            f"{'flatter' if irons < 0 else 'more upright'}, or ask its maker."
        )


@SLOT_CONFLICTS.judgement(
    "TRY-D03",
    about="Irons further from stock lie than a player who stands has them, and nobody said that "
    "this one plays seated or with one arm.",
    thresholds=("interview.iron_lie_asked_deg",),
)
def lie_of_another_posture(heard: SetHeard, limits: FirstClubLimits) -> SENTENCES:
    irons = number_from(heard.answers.get("iron_lie_deg"))
    is_known = heard.answers.get("posture") in ("seated", "one_arm")
    if irons is not None and abs(irons) >= limits.iron_lie_asked_deg and not is_known:
        yield (
            f"The irons' lie, {lie_words(irons)}: ask whether the player plays seated or with one "
            "arm. If not, read it again."
        )


# --- how many wedges -----------------------------------------------------------------------------

COUNTS: JudgementBook[SetHeard, FirstClubLimits, tuple[int, str]] = JudgementBook(
    "TRY-W", "How many wedges beside the pitching wedge"
)


def wedges_to_begin(heard: SetHeard, limits: FirstClubLimits, off: Off = ALL_ON) -> Suggestion:
    """How many wedges, and why: exactly one judgement speaks."""
    for rule_id, (count, why) in COUNTS.heard(heard, limits, off):
        figures = Decimal(count)
        return Suggestion(Topic.WEDGES, str(count), why, Weight.LEANING, figures, figures, rule_id)
    is_silenced = COUNTS.is_silenced(heard, limits, off)
    why = SWITCHED_OFF if is_silenced else "The pitching wedge's loft is not known."
    return Suggestion(Topic.WEDGES, NOTHING_YET, why, Weight.OPEN)


def _wished(heard: SetHeard) -> int | None:
    return WEDGES.get(str(heard.answers.get("wedges_wanted")))


def _is_child(heard: SetHeard) -> bool:
    return heard.player.kind is PlayerKind.JUNIOR


@COUNTS.judgement("TRY-W01", about="As many as the player wishes; the plan says what fits.")
def as_wished(heard: SetHeard, limits: FirstClubLimits) -> Iterable[tuple[int, str]]:
    wished = _wished(heard)
    if wished is not None:
        yield wished, "As the player wishes."


@COUNTS.judgement("TRY-W02", about="A child without a wish: two.")
def child(heard: SetHeard, limits: FirstClubLimits) -> Iterable[tuple[int, str]]:
    if _wished(heard) is None and _is_child(heard):
        yield 2, "A child: two are enough, and they are grown out of."


@COUNTS.judgement(
    "TRY-W03", about="A short carry with the pitching wedge: two.", thresholds=(SHORT_CARRY,)
)
def short_carry(heard: SetHeard, limits: FirstClubLimits) -> Iterable[tuple[int, str]]:
    if _wished(heard) is None and not _is_child(heard) and _is_short(heard, limits):
        yield 2, "At this carry more clubs would lie too close together."


@COUNTS.judgement(
    "TRY-W04",
    about="Else as many usual steps as lie between the pitching wedge and the loft where most "
    "sets end: one at least, four at most.",
    thresholds=(
        SHORT_CARRY,
        "interview.usual_step_deg",
        "interview.usual_most_lofted_deg",
    ),
)
def by_steps(heard: SetHeard, limits: FirstClubLimits) -> Iterable[tuple[int, str]]:
    begin = heard.player.baseline_loft_deg
    if begin is None or _wished(heard) is not None:
        return
    if _is_child(heard) or _is_short(heard, limits):
        return
    end, step = limits.usual_most_lofted_deg, limits.usual_step_deg
    count = min(max(round((end - begin) / step), 1), MOST_WEDGES)
    yield (
        count,
        f"From {figure(begin)} to about {figure(end)} degrees in steps of about {figure(step)}.",
    )


# --- what is kept, what is tried first -----------------------------------------------------------

KEPT: SetBook = JudgementBook("TRY-K", "What must be kept")
FIRST: SetBook = JudgementBook("TRY-F", "What is tried first")
ORDER: SetBook = JudgementBook("TRY-E", "The order that proves most")


@KEPT.judgement(
    "TRY-K01", about="A shot that works already is hit with every finalist, so that it is kept."
)
def kept(heard: SetHeard, limits: FirstClubLimits) -> SENTENCES:
    for shot in heard.shots("keep"):
        yield f"{shot.capitalize()} works already: hit it with every finalist, so that it is kept."


@FIRST.judgement("TRY-F01", about="The loft comes first, wherever there are slots.")
def loft_first(heard: SetHeard, limits: FirstClubLimits) -> SENTENCES:
    if heard.slots:
        yield "Loft for the gap first: a sole that wins at the wrong loft proves nothing."


@FIRST.judgement(
    "TRY-F02",
    about="Beside the first full-shot club the irons' own matched wedge is tried, with their "
    "shaft and lie.",
)
def matched_wedge(heard: SetHeard, limits: FirstClubLimits) -> SENTENCES:
    full = next((slot for slot in heard.slots if slot.role is Role.FULL_SHOT), None)
    if full is not None:
        yield (
            f"Slot {full.slot}, {figure(full.loft_deg)}°, is a full-shot club: "
            "the irons' own matched wedge belongs beside it, with the irons' shaft and lie."
        )


@FIRST.judgement(
    "TRY-F03",
    about="For each shot that the player would like to mend: the slot whose job it is, and the "
    "sole to begin with.",
)
def to_mend(heard: SetHeard, limits: FirstClubLimits) -> SENTENCES:
    for shot in heard.shots("fix"):
        job = JOB_OF_SHOT[shot]
        mends = (one for one in heard.found if job in heard.jobs.get(one.slot.slot, ()))
        slot = next(mends, None)
        if slot is None:
            continue
        sole = slot.of(Topic.SOLE)
        begin = "" if sole.weight is Weight.OPEN else f", beginning with {sole.words}"
        place = "out of sand" if job is Job.SAND else "from turf"
        yield (
            f"To mend {shot} shots: slot {slot.slot.slot}, "
            f"{figure(slot.slot.loft_deg)}°, {place}{begin}."
        )


@FIRST.judgement(
    "TRY-F04",
    about="Hands that hurt or are stiff, if only a little: a larger, softer grip, never a heavier "
    "one. A child's is soft, in a child's size. Common practice.",
)
def grip_for_sore_hands(heard: SetHeard, limits: FirstClubLimits) -> SENTENCES:
    if heard.answers.get("hands") not in SORE_HANDS:
        return
    size = "a child's size" if _is_child(heard) else "one size larger: midsize after standard"
    yield (
        f"Sore or stiff hands: a softer grip, {size}. No heavier than the grip now; "
        "read the swing weight again."
    )


@ORDER.judgement(
    "TRY-E01",
    about="Loft, then length and shaft, then lie roughly, then the sole on turf and in sand, then "
    "lie again, then grip and swing weight: one chosen change at a time.",
)
def order_of_trials(heard: SetHeard, limits: FirstClubLimits) -> SENTENCES:
    yield from ORDER_OF_TRIALS


# --- what this visit can't settle, what is normal here -------------------------------------------

NOT_TODAY: SetBook = JudgementBook("TRY-T", "What can't be settled today")
NORMAL: SetBook = JudgementBook("TRY-N", "Normal for this player")


@NOT_TODAY.judgement("TRY-T01", about="Only mat or tee so far: no sole is settled on them.")
def no_turf_yet(heard: SetHeard, limits: FirstClubLimits) -> SENTENCES:
    if heard.surfaces and heard.surfaces <= NO_TURF:
        yield "The sole: everything so far was hit from a mat or a tee, and mats forgive."


@NOT_TODAY.judgement(
    "TRY-T02",
    about="The irons change or may change: length, lie, shaft and the first gap follow them.",
)
def irons_may_change(heard: SetHeard, limits: FirstClubLimits) -> SENTENCES:
    if heard.answers.get("irons_changing") in ("yes", "perhaps"):
        yield (
            "Length, lie and shaft of the full-shot clubs, and the gap below the pitching wedge: "
            "the irons may change, and these follow the irons. Wait until the new pitching wedge "
            "is measured and hit, and ask whether the new set has a gap wedge of its own."
        )


@NOT_TODAY.judgement(
    "TRY-T03",
    about="A child grows: length is looked at again after some months or some growth.",
    thresholds=("spec.junior_check_months", "spec.junior_check_growth_mm"),
)
def child_grows(heard: SetHeard, limits: FirstClubLimits) -> SENTENCES:
    if _is_child(heard):
        yield (
            "Length for good: the player is growing. Check again after "
            f"{limits.junior_check_months} months or "
            f"{figure(limits.junior_check_growth_mm / 10)} cm."
        )


@NOT_TODAY.judgement(
    "TRY-T04",
    about="Where a swing hurts it stops: a doctor or physiotherapist decides.",
    is_fixed=True,
)
def it_hurts(heard: SetHeard, limits: FirstClubLimits) -> SENTENCES:
    if is_in_pain(heard.answers.get("pain")):
        yield "Anything that hurts: stop there. A doctor or physiotherapist decides."


@NORMAL.judgement(
    "TRY-N01",
    about="A light shaft in the irons, or a player who is spared: a light swing weight is normal.",
    thresholds=("interview.light_shaft_g",),
)
def light_club(heard: SetHeard, limits: FirstClubLimits) -> SENTENCES:
    irons = number_from(heard.answers.get("iron_shaft_g"))
    is_light = irons is not None and irons <= limits.light_shaft_g
    if is_light or is_spared(heard.answers, heard.player):
        yield "With a light shaft a swing weight of C5 to D0 is normal; no weight is pushed."


@NORMAL.judgement(
    "TRY-N02",
    about="A short carry: gaps are judged as a share of it, so fewer yards apart is right.",
    thresholds=(SHORT_CARRY,),
)
def gaps_in_proportion(heard: SetHeard, limits: FirstClubLimits) -> SENTENCES:
    if _is_short(heard, limits):
        yield "Gaps are judged in proportion: at this carry fewer yards apart is right."
