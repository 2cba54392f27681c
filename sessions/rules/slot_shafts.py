"""The shaft to begin with in one slot: as heavy as the irons' or a little heavier, never for those
who are spared.

Of one slot exactly one judgement speaks. Where one about the spared is switched off nothing is
suggested: no other makes their shaft heavier.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal

from sessions.rules.facts import Role
from sessions.rules.interview import number_from
from sessions.rules.judgements import ALL_ON, SWITCHED_OFF, JudgementBook, Off
from sessions.rules.slot_suggestions import (
    NOTHING_YET,
    SORE_HANDS,
    SPARED_KINDS,
    FirstClubLimits,
    SlotHeard,
    Suggestion,
    Topic,
    Weight,
    is_spared,
)
from sessions.rules.wording import figure

SUGGESTED = Iterable[Suggestion]
SHAFTS: JudgementBook[SlotHeard, FirstClubLimits, Suggestion] = JudgementBook(
    "TRY-S", "Weight and firmness of the shaft"
)
AS_FIRM = "as firm as the irons'"
NO_SOFTER = "no softer than the irons' for the part swings"


def shaft_to_begin(heard: SlotHeard, limits: FirstClubLimits, off: Off = ALL_ON) -> Suggestion:
    """A shaft in words and grams, steel or graphite where the irons' is known."""
    kind = heard.answers.get("iron_shaft_material")
    material = f"{kind}, " if kind in ("steel", "graphite") else ""
    for rule_id, one in SHAFTS.heard(heard, limits, off):
        return replace(one, words=f"{material}{one.words}", rule_id=rule_id)
    return Suggestion(Topic.SHAFT, NOTHING_YET, SWITCHED_OFF, Weight.OPEN)


def _irons_g(heard: SlotHeard) -> Decimal | None:
    return number_from(heard.answers.get("iron_shaft_g"))


def _firm(heard: SlotHeard) -> str:
    return AS_FIRM if heard.slot.role is Role.FULL_SHOT else NO_SOFTER


def _never_heavier(heard: SlotHeard, irons_g: Decimal, why: str) -> Suggestion:
    words = f"{figure(irons_g)} g as the irons', never heavier; {_firm(heard)}"
    return Suggestion(Topic.SHAFT, words, why, Weight.CLEAR, irons_g, irons_g)


def _a_little_heavier(heard: SlotHeard, limits: FirstClubLimits, role: Role) -> SUGGESTED:
    irons = _irons_g(heard)
    if irons is None or is_spared(heard.answers, heard.player) or heard.slot.role is not role:
        return
    high = irons + limits.shaft_heavier_g
    why = "On part swings a lighter, softer shaft is hard to control, even where it wins at full "
    yield Suggestion(
        Topic.SHAFT,
        f"{figure(irons)} to {figure(high)} g, {_firm(heard)}",
        f"{why}swing.",
        Weight.CLEAR,
        irons,
        high,
    )


@SHAFTS.judgement("TRY-S01", about="A child or a senior: the irons' weight, never heavier.")
def child_or_senior(heard: SlotHeard, limits: FirstClubLimits) -> SUGGESTED:
    irons = _irons_g(heard)
    if irons is not None and heard.player.kind in SPARED_KINDS:
        why = "Weight is never pushed on a child, a senior or hands that hurt."
        yield _never_heavier(heard, irons, why)


@SHAFTS.judgement(
    "TRY-S02",
    about="Hands that hurt or are stiff, if only a little: the irons' weight, never heavier.",
)
def sore_hands(heard: SlotHeard, limits: FirstClubLimits) -> SUGGESTED:
    irons = _irons_g(heard)
    is_sore = heard.answers.get("hands") in SORE_HANDS
    if irons is not None and is_sore and heard.player.kind not in SPARED_KINDS:
        why = "Weight is never pushed on a child, a senior or hands that hurt."
        yield _never_heavier(heard, irons, why)


@SHAFTS.judgement(
    "TRY-S03",
    about="A full-shot club: the irons' weight or a little heavier, as firm as the irons'.",
    thresholds=("interview.shaft_heavier_g",),
)
def full_shot(heard: SlotHeard, limits: FirstClubLimits) -> SUGGESTED:
    return _a_little_heavier(heard, limits, Role.FULL_SHOT)


@SHAFTS.judgement(
    "TRY-S04",
    about="A touch club: the irons' weight or a little heavier, no softer than the irons'.",
    thresholds=("interview.shaft_heavier_g",),
)
def touch(heard: SlotHeard, limits: FirstClubLimits) -> SUGGESTED:
    return _a_little_heavier(heard, limits, Role.TOUCH)


@SHAFTS.judgement(
    "TRY-S05",
    about="The irons' weight is not known: their kind and firmness, without a figure.",
)
def weight_not_known(heard: SlotHeard, limits: FirstClubLimits) -> SUGGESTED:
    if _irons_g(heard) is None:
        why = "How heavy the irons' shafts are is not known."
        yield Suggestion(Topic.SHAFT, f"as the irons', {_firm(heard)}", why, Weight.OPEN)
