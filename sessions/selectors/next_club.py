"""The club to hand over next in a slot, within the balls that the visit still has."""

from __future__ import annotations

from collections.abc import Sequence

from fitshop.selectors import SettingsInForce, settings_in_force
from sessions.maths.unit_factors import DistanceUnit
from sessions.models import Answer, Trial, Visit
from sessions.models.words import PlayerKind, Swing
from sessions.rules.evidence import SlotEvidence, VisitEvidence
from sessions.rules.interview import is_in_pain
from sessions.rules.next_club import next_club

FULL_SWINGS = (Swing.FULL, Swing.FLAT_OUT)


def next_club_said(
    visit: Visit,
    evidence: VisitEvidence,
    there: SlotEvidence,
    unit: DistanceUnit,
    settings: SettingsInForce | None = None,
) -> str:
    """The sentence with its reason; empty where there is nothing to choose. One or two queries."""
    if not any(club.shots for club in there.played):
        return ""
    found = next_club(there, evidence.margins, balls_left(visit, evidence, settings), unit)
    return "" if found is None else found.sentence


def next_trial_words(
    visit: Visit,
    trials: Sequence[Trial],
    evidence: VisitEvidence | None,
    unit: DistanceUnit,
    settings: SettingsInForce,
) -> str:
    """The sentence for the slot of the last club tried; nothing before one was handed over.

    `evidence` of the visit, None where nobody hits any more.
    """
    slots = [t.slot for t in trials if t.purpose == Trial.Purpose.CANDIDATE]
    if not slots or evidence is None:
        return ""
    return next_club_said(visit, evidence, evidence.slot(slots[-1]), unit, settings)


def balls_left(
    visit: Visit, evidence: VisitEvidence, settings: SettingsInForce | None = None
) -> int:
    """Full swings left of the visit's limit, which is lower for seniors and where it hurts."""
    pain = Answer.objects.filter(interview__visit=visit, question="pain").order_by("-sequence")
    hurts = is_in_pain(pain.values_list("value", flat=True).first())
    is_spared = visit.player.kind == PlayerKind.SENIOR or hurts
    most = (settings or settings_in_force())[f"visit.balls_most{'_spared' if is_spared else ''}"]
    hit = sum(
        there.figures.shots + there.figures.misreads
        for club in evidence.clubs
        for there in club.situations
        if there.situation.swing in FULL_SWINGS
    )
    assert isinstance(most, int)
    return most - hit
