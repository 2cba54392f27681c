"""An order that waits for a part: what is missing, when it is expected, and that it has come."""

from __future__ import annotations

from datetime import date, datetime
from uuid import UUID, uuid4

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.services.audit import audit_record
from orders.flow import ClubState, OrderState
from orders.models import BenchStep, BuildOrder, OrderClub, PartsWait
from orders.policy import ORDER_POLICY, OrderAction
from orders.services.moves import locked_order, order_follows, order_move


@transaction.atomic
def order_wait_for_parts(
    *,
    order: BuildOrder,
    missing: str,
    expected_on: date | None = None,
    wait_id: UUID | None = None,
    by: Actor,
    at: datetime,
) -> PartsWait:
    """Let an order wait for a part; with the id of its wait, put right what for and until when.

    `wait_id` is made with the form: the same form again, however late, begins no second wait.
    Raises Refused, StateRefused, FieldsRefused. Writes PartsWait, BuildOrder, AuditEntry.
    """
    row = locked_order(order)
    known = row.waits.filter(pk=wait_id).first() if wait_id is not None else None
    told = {"missing": missing.strip()[:200], "expected_on": expected_on}
    is_old = known is not None and (known.arrived_at is not None or _told(known) == told)
    if known is not None and is_old and by.at_location(row.location_id):
        return known
    ORDER_POLICY.require(by, OrderAction.ORDER_WAIT, location_id=row.location_id, state=row.state)
    _refuse_untold(row, missing, expected_on, at)
    before = {"state": row.state} | (_told(known) if known is not None else {})
    wait = known or PartsWait(id=wait_id or uuid4(), order=row, began_at=at, began_by=by.name)
    if known is None:
        _refuse_a_second(row)
        order_move(row, OrderState.WAITING_FOR_PARTS)

    wait.missing, wait.expected_on = missing.strip()[:200], expected_on
    wait.save()
    row.save(update_fields=["state"])
    audit_record(
        action="orders.order.waiting",
        subject=row,
        before=before,
        after={"state": row.state} | _told(wait),
        by=by,
        at=at,
    )
    return wait


@transaction.atomic
def order_parts_arrived(
    *, order: BuildOrder, wait_id: UUID | None = None, by: Actor, at: datetime
) -> BuildOrder:
    """What was waited for is here: the order goes back to where the bench had left it.

    `wait_id` names the wait that the page showed: said twice is said once, and a late form does
    not end a later wait. Raises Refused, StateRefused. Writes PartsWait, BuildOrder, AuditEntry.
    """
    row = locked_order(order)
    named = row.waits.filter(pk=wait_id).first() if wait_id is not None else None
    if named is not None and named.arrived_at is not None and by.at_location(row.location_id):
        return row
    ORDER_POLICY.require(
        by, OrderAction.PARTS_ARRIVED, location_id=row.location_id, state=row.state
    )
    wait = row.waits.filter(arrived_at=None).first()
    if wait is None or (wait_id is not None and wait.pk != wait_id):
        raise StateRefused("This order waits for something else. Look at it again.")
    before = order_move(row, _where_it_was(row))

    wait.arrived_at, wait.arrived_by = at, by.name
    wait.save(update_fields=["arrived_at", "arrived_by"])
    row.save(update_fields=["state"])
    if row.state != OrderState.RELEASED:
        order_follows(row)
    audit_record(
        action="orders.order.parts_arrived",
        subject=row,
        before={"state": before} | _told(wait),
        after={"state": row.state},
        by=by,
        at=at,
    )
    return row


def _refuse_untold(order: BuildOrder, missing: str, expected_on: date | None, at: datetime) -> None:
    errors = {}
    if not missing.strip():
        errors["missing"] = "Say what is missing: the desk will be asked."
    today = at.astimezone(order.location.zone_info).date()
    if expected_on is not None and expected_on < today:
        errors["expected_on"] = "This day is past. Choose today or later, or leave it open."
    if errors:
        raise FieldsRefused(errors)


def _refuse_a_second(order: BuildOrder) -> None:
    standing = order.waits.filter(arrived_at=None).first()
    if standing is not None:
        raise StateRefused(
            f"It waits already for {standing.missing}, said {standing.began_by}. "
            "Put that right instead."
        )


def _where_it_was(order: BuildOrder) -> OrderState:
    """In rework, in build, or still to be picked, by what its clubs say."""
    clubs = OrderClub.objects.filter(revision__order=order, revision__is_current=True)
    if clubs.filter(state=ClubState.REWORK).exists() or (
        clubs.filter(reworked_at__isnull=False).exclude(state=ClubState.TO_CHECK).exists()
    ):
        return OrderState.REWORK
    if BenchStep.objects.filter(club__in=clubs).exists():
        return OrderState.IN_BUILD
    return OrderState.RELEASED


def _told(wait: PartsWait) -> dict[str, object]:
    return {"missing": wait.missing, "expected_on": wait.expected_on}
