"""What was heard of a visit's player: the answers of the interview, and the baseline."""

from __future__ import annotations

from sessions.models import Answer, Visit
from sessions.rules.evidence import VisitEvidence
from sessions.rules.facts import PlayerKind
from sessions.rules.slot_suggestions import PlayerHeard


def answers_of(visit: Visit) -> dict[str, object]:
    """The last answer to each question; put off before it was ever answered is None."""
    rows = Answer.objects.filter(interview__visit=visit).order_by("sequence")
    return {row.question: row.value for row in rows}


def player_heard(visit: Visit, evidence: VisitEvidence) -> PlayerHeard:
    baseline = evidence.baseline
    return PlayerHeard(
        kind=PlayerKind(visit.player.kind),
        carry_m=None if baseline is None else baseline.carry_m,
        baseline_loft_deg=None if baseline is None else baseline.loft_deg,
    )
