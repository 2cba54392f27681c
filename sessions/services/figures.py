"""Whether the device's figures are as flown, answered when the balls are hit already."""

from __future__ import annotations

from datetime import datetime

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused
from fitshop.services.audit import audit_record
from sessions.models import FiguresAnswer, Visit
from sessions.models.words import AsFlown
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.services.visits import sequence_take


@transaction.atomic
def figures_answer(*, visit: Visit, answer: str, by: Actor, at: datetime) -> FiguresAnswer:
    """Say what the figures of this visit's unanswered blocks are: as flown, or normalised.

    The blocks stay as they were recorded; a later answer counts instead of an earlier one.
    Raises Refused, FieldsRefused. Writes FiguresAnswer, Visit, AuditEntry.
    """
    row = Visit.objects.select_for_update(of=("self",)).get(pk=visit.pk)
    FITTING_POLICY.require(by, FittingAction.CAPTURE, location_id=row.location_id, state=row.state)
    if answer not in (AsFlown.AS_FLOWN, AsFlown.NORMALISED):
        raise FieldsRefused({"answer": "Say as flown, or normalised by the device."})

    answered = FiguresAnswer.objects.create(
        visit=row, sequence=sequence_take(row), answer=answer, answered_at=at, answered_by=by.name
    )
    audit_record(
        action="fitting.figures.answered",
        subject=answered,
        after={"answer": answer},
        by=by,
        at=at,
    )
    return answered
