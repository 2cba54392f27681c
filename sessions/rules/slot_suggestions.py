"""A sole, a lie and a shaft to begin with for one slot of the plan, each with its why and weight.

Trade rules of thumb: common practice throughout, so the figures that a shop may see otherwise are
its settings. What a slot is for, and what is said around the slots, is in `first_clubs`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from fitshop.setting import Value
from sessions.rules.facts import PlayerKind, Role
from sessions.rules.interview import is_answered, number_from
from sessions.rules.sole_advice import Band, Job, SoleAdvice, SoleLimits, sole_limits_from
from sessions.rules.wording import figure


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
    """The shop's figures [degrees, grams, metres]: settings `interview.*`, and those
    of `spec.*` that a spec judges by too."""

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
    bend_forged_low_carbon_deg: Decimal


def first_club_limits_from(settings: Mapping[str, Value]) -> FirstClubLimits:
    """Build the limits from the shop's settings. Raises KeyError for a missing one."""

    def figure_set(name: str) -> Decimal:
        building = "spec" if name.startswith(("junior_", "bend_")) else "interview"
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


def sole_to_begin(jobs: tuple[Job, ...], soles: SoleAdvice, limits: SoleLimits) -> Suggestion:
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


def lie_to_begin(
    answers: Mapping[str, object], slot: PlannedSlot, limits: FirstClubLimits
) -> Suggestion:
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


def is_spared(answers: Mapping[str, object], player: PlayerHeard) -> bool:
    """Whether weight must never be pushed: a child, a senior, hands that hurt."""
    return player.kind in {PlayerKind.JUNIOR, PlayerKind.SENIOR} or answers.get("hands") in (
        "a_little",
        "yes",
    )


def shaft_to_begin(
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
    if is_spared(answers, player):
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
