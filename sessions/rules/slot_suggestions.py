"""What is suggested of one slot, as values: what to begin with, why, and how much it weighs.

Trade rules of thumb: common practice throughout, so the figures that a shop may see otherwise are
its settings. The sole stands here; lies are in `slot_lies`, shafts in `slot_shafts`, what a slot
is for in `slot_jobs`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from fitshop.setting import Value
from sessions.rules.facts import PlayerKind, Role
from sessions.rules.judgements import SWITCHED_OFF
from sessions.rules.sole_advice import Band, Job, SoleAdvice, SoleLimits, sole_limits_from

# Who is never given a heavier shaft: common practice.
SPARED_KINDS = frozenset({PlayerKind.JUNIOR, PlayerKind.SENIOR})
SORE_HANDS = ("a_little", "yes")
NOTHING_YET = "not suggested yet"


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
    """What is suggested: of one slot, or (the last two) of the set."""

    SOLE = "sole"
    LIE = "lie"
    SHAFT = "shaft"
    WEDGES = "wedges"
    TRY_FIRST = "try_first"

    @property
    def label(self) -> str:
        return {
            "sole": "Bounce and sole",
            "lie": "Lie",
            "shaft": "Shaft",
            "wedges": "How many wedges",
            "try_first": "Try first",
        }[self.value]


@dataclass(frozen=True, slots=True)
class FirstClubLimits:
    """The shop's figures [degrees, grams, metres]: settings `interview.*`, and those
    of `spec.*` that a spec judges by too."""

    sole: SoleLimits
    lob_from_deg: Decimal
    touch_flatter_deg: Decimal
    lob_flatter_deg: Decimal
    iron_lie_asked_deg: Decimal
    shaft_heavier_g: Decimal
    light_shaft_g: Decimal
    short_carry_m: Decimal
    usual_step_deg: Decimal
    usual_most_lofted_deg: Decimal
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
class SlotHeard:
    """One slot of the plan, the player, and the answers by question key."""

    answers: Mapping[str, object]
    player: PlayerHeard
    slot: PlannedSlot


@dataclass(frozen=True, slots=True)
class Suggestion:
    """One thing to begin with. `low` and `high` are its figures, None where it has none.

    Bounce in degrees; lie in degrees from the head's stock lie, flat negative; shaft in grams;
    wedges as a count. `rule_id` is the judgement's, "" where none speaks.
    """

    topic: Topic
    words: str
    why: str
    weight: Weight
    low: Decimal | None = None
    high: Decimal | None = None
    rule_id: str = ""


@dataclass(frozen=True, slots=True)
class SlotSuggestions:
    """What to begin with for one slot: sole, lie, shaft, in this order."""

    slot: PlannedSlot
    job: str
    suggestions: tuple[Suggestion, ...]

    def of(self, topic: Topic) -> Suggestion:
        return next(one for one in self.suggestions if one.topic is topic)


def sole_to_begin(jobs: tuple[Job, ...], soles: SoleAdvice, limits: SoleLimits) -> Suggestion:
    """The first job's sole leads; a second one that asks otherwise is a conflict, said apart.

    The answers agree where every job asks for the same bounce and no conflict touches one.
    """
    known = [soles.suggestion(job) for job in jobs if soles.suggestion(job).band is not None]
    if not known:
        why = " ".join(dict.fromkeys(soles.suggestion(job).why for job in jobs))
        return Suggestion(Topic.SOLE, NOTHING_YET, why or SWITCHED_OFF, Weight.OPEN)
    lead = soles.leading(jobs)
    assert lead is not None
    assert lead.band is not None
    low, high = _bounce(lead.band, limits)
    words = limits.words(lead.band) + (f", {lead.sole}" if lead.sole else "")
    agreed = len({one.band for one in known}) == 1 and len(known) == len(jobs)
    is_pulled = bool(soles.pulled & set(jobs))
    weight = Weight.CLEAR if agreed and not is_pulled else Weight.LEANING
    return Suggestion(Topic.SOLE, words, lead.why, weight, low, high, lead.rule_id)


def _bounce(band: Band, limits: SoleLimits) -> tuple[Decimal, Decimal | None]:
    match band:
        case Band.LOW:
            return limits.bounce_low_from_deg, limits.bounce_low_to_deg
        case Band.MID:
            return limits.bounce_mid_from_deg, limits.bounce_mid_to_deg
        case Band.HIGH:
            return limits.bounce_high_from_deg, None


def is_spared(answers: Mapping[str, object], player: PlayerHeard) -> bool:
    """Whether weight must never be pushed: a child, a senior, hands that hurt."""
    return player.kind in SPARED_KINDS or answers.get("hands") in SORE_HANDS
