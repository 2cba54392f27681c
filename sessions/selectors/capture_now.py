"""For the capture pages: the club played now in each slot, and the club in the hand against it.

Without evidence nothing is told: nobody hits any more, or a hidden comparison runs.
"""

from __future__ import annotations

from dataclasses import replace
from uuid import UUID

from fitshop.selectors import SettingsInForce
from sessions.flow import TrialState, VisitState
from sessions.models import Trial, Visit
from sessions.rules.club_evidence import ClubEvidence
from sessions.rules.evidence import VisitEvidence
from sessions.rules.played_now import beside_now
from sessions.selectors.capture_trials import compared_words
from sessions.selectors.capture_words import Document, as_text
from sessions.selectors.equipment import LengthUnit, Played, played_club
from sessions.selectors.evidence import visit_evidence
from sessions.selectors.likeness import likeness
from sessions.selectors.visit_rows import VisitRows


def evidence_in_the_bay(
    visit: Visit, settings: SettingsInForce, rows: VisitRows
) -> VisitEvidence | None:
    """The evidence while balls are hit; None where no slot was planned and no club tried yet."""
    is_tried = any(trial.purpose == Trial.Purpose.CANDIDATE for trial in rows.trials)
    if visit.state != VisitState.OPEN or not (is_tried or rows.plan):
        return None
    return visit_evidence(visit, settings, rows)


def played_now_documents(
    evidence: VisitEvidence | None, rows: VisitRows, unit: LengthUnit
) -> list[Document]:
    """The club played now for each slot, in the words that a club on the shelf has as well.

    With the figures behind them, so that the tablet can hold a club that is still on the shelf
    against it by the rule of `likeness`. Without a plan also for the clubs that are tried for no
    slot.
    """
    if evidence is None:
        return []
    slots = (*evidence.slots(), *(() if evidence.planned_lofts_deg else (None,)))
    return [
        {
            "slot": slot,
            "club_id": str(own.club_id),
            "name": own.name,
            "head_name": made.head_name,
            **compared_words(made, unit),
            "angles": {
                "loft": as_text(made.loft_deg),
                "lie": as_text(made.lie_deg),
                "bounce": as_text(made.bounce_deg),
            },
        }
        for slot in slots
        if (own := evidence.played_now(slot)) is not None
        and (made := _as_made(own, rows)) is not None
    ]


def beside_now_document(
    trial: Trial, evidence: VisitEvidence | None, rows: VisitRows, unit: LengthUnit
) -> Document | None:
    """What the trial club in the hand differs in from the one played now for its slot.

    None for an own club, and for one that has left the hand.
    """
    if evidence is None or trial.state != TrialState.OPEN:
        return None
    club = evidence.club_of(trial.pk)
    if club is None or club.is_own or trial.purpose == Trial.Purpose.BASELINE:
        return None
    own = evidence.played_now(evidence.slot_of(club))
    made = None if own is None else _as_made(own, rows)
    if own is None or made is None:
        return None
    said = beside_now(
        replace(likeness(trial, made, own.name, unit), off=evidence.off),
        was_last=_club_before(trial, rows) == own.club_id,
    )
    if said is None:
        return None
    return {
        "against": said.against,
        "found": said.found,
        "each": list(said.each),
        "caution": said.caution,
        "rule_id": said.caution.rule_id,
        "unknown": said.unknown,
    }


def _as_made(own: ClubEvidence, rows: VisitRows) -> Trial | Played | None:
    """An own club as it was in the hand last; one that wasn't, as the bag has it."""
    if own.trial_ids:
        return next((trial for trial in rows.trials if trial.pk == own.trial_id), None)
    entry = None if own.club_id is None else rows.entries.get(own.club_id)
    return None if entry is None else played_club(club=entry.club, entry=entry)


def _club_before(trial: Trial, rows: VisitRows) -> UUID | None:
    """The own club that was in the hand before this one, if it was one."""
    earlier = [one for one in rows.trials if one.sequence < trial.sequence]
    return earlier[-1].club_id if earlier else None
