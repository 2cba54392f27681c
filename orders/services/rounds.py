"""What was played with clubs since they were handed over, as the player tells it."""

from __future__ import annotations

from datetime import date, datetime
from uuid import UUID, uuid4

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused
from fitshop.services.audit import audit_record
from orders.models import BuildOrder, RoundsReport
from orders.policy import ORDER_POLICY, OrderAction
from orders.selectors.grooves import handed_over_on
from orders.services.moves import locked_order

MOST_ROUNDS = 2000


@transaction.atomic
def rounds_report(
    *,
    order: BuildOrder,
    rounds: int,
    played_until: date | None = None,
    report_id: UUID | None = None,
    by: Actor,
    at: datetime,
) -> RoundsReport:
    """Write down how many rounds were played with the clubs, from the hand-over up to a day.

    Without a day it is today. `report_id` is made with the form: the same form again is one
    report. What was told before stays; the last word for a day counts.
    Raises Refused, StateRefused, FieldsRefused. Writes RoundsReport, AuditEntry.
    """
    row = locked_order(order)
    known = row.rounds_reports.filter(pk=report_id).first() if report_id is not None else None
    if known is not None and by.at_location(row.location_id):
        return known
    ORDER_POLICY.require(
        by, OrderAction.ROUNDS_REPORT, location_id=row.location_id, state=row.state
    )
    today = at.astimezone(row.location.zone_info).date()
    until = played_until or today
    _refuse_unbelievable(row, rounds, until, today)

    report = RoundsReport.objects.create(
        id=report_id or uuid4(),
        order=row,
        played_until=until,
        rounds=rounds,
        reported_at=at,
        reported_by=by.name,
    )
    audit_record(
        action="orders.rounds.reported",
        subject=row,
        after={"rounds": rounds, "played_until": until.isoformat()},
        by=by,
        at=at,
    )
    return report


def _refuse_unbelievable(row: BuildOrder, rounds: int, until: date, today: date) -> None:
    wrong = {}
    since = handed_over_on(row)
    if not 0 <= rounds <= MOST_ROUNDS:
        wrong["rounds"] = f"Rounds since the hand-over: 0 to {MOST_ROUNDS}."
    if until > today:
        wrong["played_until"] = "That day is still to come."
    elif since is not None and until < since:
        wrong["played_until"] = f"The clubs were handed over on {since:%d %B %Y}: not before that."
    if not wrong:
        wrong = _against_other_days(row, rounds, until)
    if wrong:
        raise FieldsRefused(wrong)


def _against_other_days(row: BuildOrder, rounds: int, until: date) -> dict[str, str]:
    """Rounds since the hand-over never grow fewer; the last word for each day is what was told."""
    told = {
        report.played_until: report.rounds
        for report in row.rounds_reports.order_by("reported_at")
        if report.played_until != until
    }
    before = max((n for day, n in told.items() if day < until), default=0)
    after = min((n for day, n in told.items() if day > until), default=MOST_ROUNDS)
    if rounds < before:
        return {
            "rounds": f"{before} were told for an earlier day: these are all rounds since the "
            "hand-over, not since then."
        }
    if rounds > after:
        return {"rounds": f"Only {after} were told for a later day."}
    return {}
