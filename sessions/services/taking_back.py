"""Taking back the last thing that was done in the bay. What was recorded stays; a fact is added."""

from __future__ import annotations

from datetime import datetime
from uuid import UUID

from django.db import transaction
from django.db.models import Exists, OuterRef

from fitshop.actor import Actor
from fitshop.refusals import StateRefused
from fitshop.services.audit import audit_record
from sessions.flow import TrialState, can_move
from sessions.models import Rating, Shot, ShotExclusion, TakenBack, Trial, Visit
from sessions.models.words import NO_BALL
from sessions.services.capture import visit_locked
from sessions.services.equipment import shots_count
from sessions.services.visits import sequence_take


@transaction.atomic
def exclusion_take_back(
    *, exclusion: ShotExclusion, row_id: UUID, by: Actor, at: datetime
) -> TakenBack:
    """Let a shot count again that was left out. A second time changes nothing.

    Raises Refused, StateRefused. Writes TakenBack, Visit, TrialHead, TrialShaft, Adapter,
    AuditEntry.
    """
    trial = exclusion.shot.block.trial
    visit = visit_locked(trial.visit, by=by)
    known = TakenBack.objects.filter(exclusion=exclusion).first()
    if known is not None:
        return known

    row = TakenBack.objects.create(
        id=row_id,
        visit=visit,
        sequence=sequence_take(visit),
        exclusion=exclusion,
        taken_back_at=at,
        taken_back_by=by.name,
    )
    if exclusion.reason in NO_BALL:
        shots_count(trial, 1)
    audit_record(
        action="fitting.shot.counted_again",
        subject=exclusion.shot,
        before={"reason": exclusion.reason},
        by=by,
        at=at,
    )
    return row


@transaction.atomic
def rating_take_back(*, rating: Rating, row_id: UUID, by: Actor, at: datetime) -> TakenBack:
    """Let a rating count no more; the one before it counts again. A second time changes nothing.

    Raises Refused, StateRefused. Writes TakenBack, Visit, AuditEntry.
    """
    visit = visit_locked(rating.visit, by=by)
    known = TakenBack.objects.filter(rating=rating).first()
    if known is not None:
        return known

    row = TakenBack.objects.create(
        id=row_id,
        visit=visit,
        sequence=sequence_take(visit),
        rating=rating,
        taken_back_at=at,
        taken_back_by=by.name,
    )
    audit_record(
        action="fitting.rating.taken_back",
        subject=rating,
        before={"about": rating.about, "score": rating.score},
        by=by,
        at=at,
    )
    return row


@transaction.atomic
def hand_over_take_back(*, trial: Trial, by: Actor, at: datetime) -> Trial:
    """Take back that a club was handed over, while no ball of it counts.

    The club before it is in the hand again, where it was this hand-over that ended it. The row
    stays, and a ball that another tablet had with it brings it back.

    Raises Refused, StateRefused. Writes Trial, AuditEntry.
    """
    visit = visit_locked(trial.visit, by=by)
    trial = Trial.objects.select_for_update().get(pk=trial.pk)
    if trial.state == TrialState.TAKEN_BACK:
        return trial
    _refuse_hand_over(trial)

    before = _club_before(visit, trial)
    trial.state = TrialState.TAKEN_BACK
    trial.finished_at = at
    trial.save(update_fields=["state", "finished_at"])
    if before is not None:
        before.state = TrialState.OPEN
        before.finished_at = None
        before.save(update_fields=["state", "finished_at"])
    audit_record(
        action="fitting.trial.taken_back",
        subject=trial,
        after={"in_hand": None if before is None else str(before.pk)},
        by=by,
        at=at,
    )
    return trial


def _refuse_hand_over(trial: Trial) -> None:
    if not can_move(TrialState(trial.state), TrialState.TAKEN_BACK):
        raise StateRefused(
            "This club is not in the hand any more: its hand-over can't be taken back.",
            code="trial.not_in_hand",
        )
    no_ball = ShotExclusion.objects.standing().filter(shot=OuterRef("pk"), reason__in=NO_BALL)
    if Shot.objects.filter(block__trial=trial).exclude(Exists(no_ball)).exists():
        raise StateRefused(
            "Balls of this club count. Take those back first, or hand over the next club.",
            code="trial.was_hit",
        )
    if trial.ratings.standing().exists() or trial.arms.exists():
        raise StateRefused(
            "Something was said of this club. Hand over the next one instead.",
            code="trial.was_judged",
        )


def _club_before(visit: Visit, trial: Trial) -> Trial | None:
    """The club that this hand-over ended; none where it had left the hand before.

    One with a part that was withdrawn never comes back into the hand by itself.
    """
    rows = visit.trials.standing().select_related("trial_head", "trial_shaft", "adapter")
    before = rows.filter(sequence__lt=trial.sequence).last()
    if before is None or before.finished_at != trial.started_at:
        return None
    parts = (before.trial_head, before.trial_shaft, before.adapter)
    is_withdrawn = any(part is not None and part.withdrawn_at is not None for part in parts)
    return None if is_withdrawn else before
