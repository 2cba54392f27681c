"""What to try first, from the interview: for every slot of the plan a sole, a lie and a shaft.

A place to begin, each with its why and how much it weighs; the fitter overrules with a reason.
What pulls two ways is shown (`conflicts`), what nobody said is said (`missing`), and what this
visit can't settle stands apart (`not_today`). Trade rules of thumb: common practice throughout,
so the figures that a shop may see otherwise are its settings.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from fitshop.setting import Value
from sessions.rules.facts import PlayerKind, Role
from sessions.rules.interview import is_answered, number_from
from sessions.rules.interview_questions import BY_KEY
from sessions.rules.sole_advice import (
    Band,
    Job,
    SoleAdvice,
    SoleLimits,
    sole_advice,
    sole_limits_from,
)
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


class Weight(StrEnum):
    """How much stands behind a suggestion."""

    CLEAR = "clear"
    LEANING = "leaning"
    OPEN = "open"

    @property
    def label(self) -> str:
        return {
            "clear": "the answers agree",
            "leaning": "a place to begin",
            "open": "not known yet",
        }[self.value]


class Topic(StrEnum):
    """What is suggested of one slot."""

    SOLE = "sole"
    LIE = "lie"
    SHAFT = "shaft"

    @property
    def label(self) -> str:
        return {"sole": "Bounce and sole", "lie": "Lie", "shaft": "Shaft"}[self.value]


@dataclass(frozen=True, slots=True)
class FirstClubLimits:
    """The shop's figures [degrees, grams, metres]: settings `interview.*`, `spec.junior_*`."""

    sole: SoleLimits
    lob_from_deg: Decimal
    touch_flatter_deg: Decimal
    lob_flatter_deg: Decimal
    shaft_heavier_g: Decimal
    light_shaft_g: Decimal
    short_carry_m: Decimal
    usual_step_deg: Decimal
    junior_check_months: Decimal
    junior_check_growth_mm: Decimal


def first_club_limits_from(settings: Mapping[str, Value]) -> FirstClubLimits:
    """Build the limits from the shop's settings. Raises KeyError for a missing one."""

    def figure_set(name: str) -> Decimal:
        building = "spec" if name.startswith("junior_") else "interview"
        return Decimal(str(settings[f"{building}.{name}"]))

    names = [name for name in FirstClubLimits.__dataclass_fields__ if name != "sole"]
    return FirstClubLimits(
        sole=sole_limits_from(settings), **{name: figure_set(name) for name in names}
    )


@dataclass(frozen=True, slots=True)
class PlayerHeard:
    """Who was asked. `carry_m` is the baseline's, None before it is hit."""

    kind: PlayerKind = PlayerKind.ADULT
    carry_m: float | None = None
    baseline_loft_deg: Decimal | None = None


@dataclass(frozen=True, slots=True)
class PlannedSlot:
    """A slot of the loft plan: its loft and what it is for."""

    slot: int
    loft_deg: Decimal
    role: Role


@dataclass(frozen=True, slots=True)
class Suggestion:
    """One thing to begin with. `low` and `high` are its figures, None where it has none.

    Bounce in degrees; lie in degrees from the head's stock lie, flat negative; shaft in grams.
    """

    topic: Topic
    words: str
    why: str
    weight: Weight
    low: Decimal | None = None
    high: Decimal | None = None


@dataclass(frozen=True, slots=True)
class SlotSuggestions:
    """What to begin with for one slot: sole, lie, shaft, in this order."""

    slot: PlannedSlot
    job: str
    suggestions: tuple[Suggestion, ...]

    def of(self, topic: Topic) -> Suggestion:
        return next(one for one in self.suggestions if one.topic is topic)


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
    jobs = _jobs(answers, slots)
    found = tuple(
        SlotSuggestions(
            slot,
            listed([job.label.lower() for job in jobs[slot.slot]]),
            (
                _sole(jobs[slot.slot], soles, limits.sole),
                _lie(answers, slot, limits),
                _shaft(answers, player, slot, limits),
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
        conflicts=(*soles.conflicts, *_two_jobs(jobs, soles, slots)),
        missing=(*soles.missing, *_missing(answers)),
    )


# --- which slot does which job --------------------------------------------------------------


def _jobs(
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


# --- sole --------------------------------------------------------------------------------------


def _sole(jobs: tuple[Job, ...], soles: SoleAdvice, limits: SoleLimits) -> Suggestion:
    """The first job's sole leads; a second one that asks otherwise is a conflict, said apart."""
    known = [soles.suggestion(job) for job in jobs if soles.suggestion(job).band is not None]
    if not known:
        why = " ".join(dict.fromkeys(soles.suggestion(job).why for job in jobs))
        return Suggestion(Topic.SOLE, "not suggested yet", why, Weight.OPEN)
    lead = known[0]
    assert lead.band is not None
    low, high = _bounce(lead.band, limits)
    words = limits.words(lead.band) + (f", {lead.sole}" if lead.sole else "")
    agreed = len({one.band for one in known}) == 1 and len(known) == len(jobs)
    is_pulled = bool(soles.conflicts)
    weight = Weight.CLEAR if agreed and not is_pulled else Weight.LEANING
    return Suggestion(Topic.SOLE, words, lead.why, weight, low, high)


def _bounce(band: Band, limits: SoleLimits) -> tuple[Decimal, Decimal | None]:
    match band:
        case Band.LOW:
            return limits.bounce_low_from_deg, limits.bounce_low_to_deg
        case Band.MID:
            return limits.bounce_mid_from_deg, limits.bounce_mid_to_deg
        case Band.HIGH:
            return limits.bounce_high_from_deg, None


# --- lie ---------------------------------------------------------------------------------------


def _lie(answers: Mapping[str, object], slot: PlannedSlot, limits: FirstClubLimits) -> Suggestion:
    """As the irons; touch clubs a little flatter, the lob club flattest for low hands."""
    irons = number_from(answers.get("iron_lie_deg"))
    if irons is None:
        return Suggestion(
            Topic.LIE,
            "not suggested yet",
            "Wedge lies follow the irons', and the irons' lie is not known.",
            Weight.OPEN,
        )
    flattest, upright = _flatter(answers, slot, limits)
    low, high = irons - flattest, irons - upright
    words = lie_words(high) if low == high else f"{lie_words(high)} to {lie_words(low)}"
    return Suggestion(Topic.LIE, words, _lie_why(answers, slot, limits), Weight.LEANING, low, high)


def lie_words(lie_deg: Decimal) -> str:
    """`stock lie`, `1 flat`, `0.5 upright`."""
    if lie_deg == 0:
        return "stock lie"
    return f"{figure(abs(lie_deg))} {'flat' if lie_deg < 0 else 'upright'}"


def _flatter(
    answers: Mapping[str, object], slot: PlannedSlot, limits: FirstClubLimits
) -> tuple[Decimal, Decimal]:
    """How much flatter than the irons at most and at least [degrees]."""
    none = Decimal(0)
    if slot.role is Role.FULL_SHOT or answers.get("chips_on") == "on_the_toe":
        return none, none
    hands = answers.get("hands_in_sand")
    if slot.loft_deg < limits.lob_from_deg:
        return (none, none) if hands == "high" else (limits.touch_flatter_deg, none)
    if hands == "high":
        return limits.touch_flatter_deg, none
    low = limits.lob_flatter_deg
    return (low, low) if hands == "low" else (low, limits.touch_flatter_deg)


def _lie_why(answers: Mapping[str, object], slot: PlannedSlot, limits: FirstClubLimits) -> str:
    if slot.role is Role.FULL_SHOT:
        return "A full-shot club: as the irons."
    if answers.get("chips_on") == "on_the_toe":
        return "Chips on the toe: as the irons, not flatter; now and then more upright."
    hands = answers.get("hands_in_sand")
    if slot.loft_deg < limits.lob_from_deg:
        return "A touch club: as the irons or a little flatter."
    if hands == "low":
        return "Low hands in sand: flattest in the most lofted club."
    said = "" if is_answered(hands) else " How the hands are held in sand is not known."
    return f"The most lofted touch club: flatter than the irons.{said}"


# --- shaft -------------------------------------------------------------------------------------


def _is_spared(answers: Mapping[str, object], player: PlayerHeard) -> bool:
    """Whether weight must never be pushed: a child, a senior, hands that hurt."""
    return player.kind in {PlayerKind.JUNIOR, PlayerKind.SENIOR} or answers.get("hands") in (
        "a_little",
        "yes",
    )


def _shaft(
    answers: Mapping[str, object],
    player: PlayerHeard,
    slot: PlannedSlot,
    limits: FirstClubLimits,
) -> Suggestion:
    """As heavy as the irons' or a little heavier, never for those who are spared."""
    irons = number_from(answers.get("iron_shaft_g"))
    kind = answers.get("iron_shaft_material")
    material = f"{kind}, " if kind in ("steel", "graphite") else ""
    firm = (
        "as firm as the irons'"
        if slot.role is Role.FULL_SHOT
        else "no softer than the irons' for the part swings"
    )
    if irons is None:
        return Suggestion(
            Topic.SHAFT,
            f"{material}as the irons', {firm}",
            "How heavy the irons' shafts are is not known.",
            Weight.OPEN,
        )
    if _is_spared(answers, player):
        return Suggestion(
            Topic.SHAFT,
            f"{material}{figure(irons)} g as the irons', never heavier; {firm}",
            "Weight is never pushed on a child, a senior or hands that hurt.",
            Weight.CLEAR,
            irons,
            irons,
        )
    high = irons + limits.shaft_heavier_g
    return Suggestion(
        Topic.SHAFT,
        f"{material}{figure(irons)} to {figure(high)} g, {firm}",
        "On part swings a lighter, softer shaft is hard to control, even where it wins at full "
        "swing.",
        Weight.CLEAR,
        irons,
        high,
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
_SHOT_JOBS = {
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
        job = _SHOT_JOBS[shot]
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
            "Length, lie and shaft of the full-shot clubs: the irons may change, "
            "and these follow the irons."
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
    if is_light or _is_spared(answers, player):
        yield "With a light shaft a swing weight of C5 to D0 is normal; no weight is pushed."
    if player.carry_m is not None and player.carry_m < limits.short_carry_m:
        yield "Gaps are judged in proportion: at this carry fewer yards apart is right."


_NEEDED = ("iron_lie_deg", "iron_shaft_g", "iron_shaft_material", "keep", "fix")


def _missing(answers: Mapping[str, object]) -> tuple[str, ...]:
    return tuple(BY_KEY[key].label for key in _NEEDED if not is_answered(answers.get(key)))
