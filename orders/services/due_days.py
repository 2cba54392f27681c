"""The promised day: moved with its reason, and the player called when it moved."""

from __future__ import annotations

from datetime import date, datetime

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.services.audit import audit_record
from orders.models import BuildOrder
from orders.policy import ORDER_POLICY, OrderAction
from orders.services.moves import locked_order


@transaction.atomic
def order_due_move(
    *, order: BuildOrder, due_on: date, why: str, by: Actor, at: datetime
) -> BuildOrder:
    """Promise another day, with the reason; somebody is to call the player.

    The same day again changes nothing. Raises Refused, FieldsRefused.
    Writes BuildOrder, AuditEntry.
    """
    row = locked_order(order)
    ORDER_POLICY.require(by, OrderAction.DUE_MOVE, location_id=row.location_id, state=row.state)
    if row.due_on == due_on:
        return row
    if due_on < at.astimezone(row.location.zone_info).date():
        raise FieldsRefused(
            {"due_on": "This day is past. Choose today or later."}, code="orders.due_day_past"
        )
    if not why.strip():
        raise FieldsRefused({"why": "Say why: the player will ask."}, code="orders.due_day_no_why")
    before = {"due_on": row.due_on}
    promise_moved(row, at=at)
    row.due_on = due_on
    row.save(update_fields=["due_on", "promised_on", "call_since"])
    audit_record(
        action="orders.order.due_moved",
        subject=row,
        before=before,
        after={"due_on": due_on, "why": why.strip()},
        by=by,
        at=at,
    )
    return row


@transaction.atomic
def order_call_done(*, order: BuildOrder, by: Actor, at: datetime) -> BuildOrder:
    """Write down that the player was called about the promised day. Called twice is called once.

    Raises Refused, StateRefused. Writes BuildOrder, AuditEntry.
    """
    row = locked_order(order)
    ORDER_POLICY.require(by, OrderAction.CALL_DONE, location_id=row.location_id, state=row.state)
    if row.call_since is None:
        raise StateRefused("The promised day stands.", code="orders.day_not_moved")
    if not row.wants_call:
        return row
    row.called_at = at
    row.save(update_fields=["called_at"])
    audit_record(action="orders.order.called", subject=row, after={"at": at}, by=by, at=at)
    return row


def promise_moved(order: BuildOrder, *, at: datetime) -> None:
    """Keep the day first promised and begin the task of calling. Saves nothing."""
    order.promised_on = order.promised_on or order.due_on
    order.call_since = at


def refuse_unasked(order: BuildOrder, day_moved: bool | None, at: datetime) -> None:
    """Ready after its day: somebody says whether the promise moved. Raises FieldsRefused."""
    if day_moved is None and order.is_late_on(at):
        raise FieldsRefused(
            {"day_moved": "It is past its day. Was the player promised another?"},
            code="orders.day_moved_unasked",
        )
