"""The lie to begin with in one slot: as the irons, touch clubs a little flatter.

Of one slot exactly one judgement speaks. Where chips are hit on the toe nothing is flatter.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from sessions.rules.facts import Role
from sessions.rules.interview import is_answered, number_from
from sessions.rules.judgements import ALL_ON, SWITCHED_OFF, JudgementBook, Off
from sessions.rules.slot_suggestions import (
    NOTHING_YET,
    FirstClubLimits,
    SlotHeard,
    Suggestion,
    Topic,
    Weight,
)
from sessions.rules.wording import figure


@dataclass(frozen=True, slots=True)
class Flatter:
    """How much flatter than the irons, at most and at least [degrees], and why."""

    most_deg: Decimal
    least_deg: Decimal
    why: str


FOUND = Iterable[Flatter]
LIES: JudgementBook[SlotHeard, FirstClubLimits, Flatter] = JudgementBook(
    "TRY-L", "Lie against the irons"
)
AS_IRONS = Decimal(0)
LOB = "interview.lob_from_deg"
TOUCH_FLATTER = "interview.touch_flatter_deg"
LOB_FLATTER = "interview.lob_flatter_deg"


def lie_to_begin(heard: SlotHeard, limits: FirstClubLimits, off: Off = ALL_ON) -> Suggestion:
    """A lie in words and degrees from stock; nothing where the irons' lie is not known."""
    irons = number_from(heard.answers.get("iron_lie_deg"))
    if irons is None:
        why = "Wedge lies follow the irons', and the irons' lie is not known."
        return Suggestion(Topic.LIE, NOTHING_YET, why, Weight.OPEN)
    for rule_id, one in LIES.heard(heard, limits, off):
        low, high = irons - one.most_deg, irons - one.least_deg
        words = lie_words(high) if low == high else f"{lie_words(high)} to {lie_words(low)}"
        return Suggestion(Topic.LIE, words, one.why, Weight.LEANING, low, high, rule_id)
    return Suggestion(Topic.LIE, NOTHING_YET, SWITCHED_OFF, Weight.OPEN)


def lie_words(lie_deg: Decimal) -> str:
    """`stock lie`, `1 flat`, `0.5 upright`."""
    if lie_deg == 0:
        return "stock lie"
    return f"{figure(abs(lie_deg))} {'flat' if lie_deg < 0 else 'upright'}"


def _is_full(heard: SlotHeard) -> bool:
    return heard.slot.role is Role.FULL_SHOT


def _is_on_the_toe(heard: SlotHeard) -> bool:
    return heard.answers.get("chips_on") == "on_the_toe"


def _is_touch(heard: SlotHeard, limits: FirstClubLimits, *, lob: bool) -> bool:
    """A touch club that goes flatter, lob club or not."""
    is_lob = heard.slot.loft_deg >= limits.lob_from_deg
    return not _is_full(heard) and not _is_on_the_toe(heard) and is_lob is lob


@LIES.judgement("TRY-L01", about="A full-shot club has the irons' lie.")
def full_shot(heard: SlotHeard, limits: FirstClubLimits) -> FOUND:
    if _is_full(heard):
        yield Flatter(AS_IRONS, AS_IRONS, "A full-shot club: as the irons.")


@LIES.judgement(
    "TRY-L02", about="Chips on the toe: a touch club has the irons' lie and goes no flatter."
)
def chips_on_the_toe(heard: SlotHeard, limits: FirstClubLimits) -> FOUND:
    if not _is_full(heard) and _is_on_the_toe(heard):
        why = "Chips on the toe: as the irons, not flatter; now and then more upright."
        yield Flatter(AS_IRONS, AS_IRONS, why)


@LIES.judgement(
    "TRY-L03",
    about="A touch club with less loft than a lob club: the irons' lie or a little flatter.",
    thresholds=(LOB, TOUCH_FLATTER),
)
def touch_club(heard: SlotHeard, limits: FirstClubLimits) -> FOUND:
    if _is_touch(heard, limits, lob=False) and heard.answers.get("hands_in_sand") != "high":
        why = "A touch club: as the irons or a little flatter."
        yield Flatter(limits.touch_flatter_deg, AS_IRONS, why)


@LIES.judgement(
    "TRY-L04",
    about="High hands in sand, in a touch club with less loft than a lob club: the irons' lie.",
    thresholds=(LOB,),
)
def touch_club_high_hands(heard: SlotHeard, limits: FirstClubLimits) -> FOUND:
    if _is_touch(heard, limits, lob=False) and heard.answers.get("hands_in_sand") == "high":
        yield Flatter(AS_IRONS, AS_IRONS, "A touch club, but high hands in sand: as the irons.")


@LIES.judgement(
    "TRY-L05",
    about="Low hands in sand: the lob club is the flattest.",
    thresholds=(LOB, LOB_FLATTER),
)
def lob_club_low_hands(heard: SlotHeard, limits: FirstClubLimits) -> FOUND:
    if _is_touch(heard, limits, lob=True) and heard.answers.get("hands_in_sand") == "low":
        why = "Low hands in sand: flattest in the most lofted club."
        yield Flatter(limits.lob_flatter_deg, limits.lob_flatter_deg, why)


@LIES.judgement(
    "TRY-L06",
    about="High hands in sand: the lob club is a little flatter than the irons, or not at all.",
    thresholds=(LOB, TOUCH_FLATTER),
)
def lob_club_high_hands(heard: SlotHeard, limits: FirstClubLimits) -> FOUND:
    if _is_touch(heard, limits, lob=True) and heard.answers.get("hands_in_sand") == "high":
        why = "High hands in sand: as the irons or a little flatter, no more."
        yield Flatter(limits.touch_flatter_deg, AS_IRONS, why)


@LIES.judgement(
    "TRY-L07",
    about="The lob club is flatter than the irons; where the hands in sand were not looked at, "
    "that is said.",
    thresholds=(LOB, TOUCH_FLATTER, LOB_FLATTER),
)
def lob_club(heard: SlotHeard, limits: FirstClubLimits) -> FOUND:
    hands = heard.answers.get("hands_in_sand")
    if _is_touch(heard, limits, lob=True) and hands not in ("low", "high"):
        said = "" if is_answered(hands) else " How the hands are held in sand is not known."
        why = f"The most lofted touch club: flatter than the irons.{said}"
        yield Flatter(limits.lob_flatter_deg, limits.touch_flatter_deg, why)
