"""Telling the player that the clubs are ready: every attempt is a row, none is edited."""

from __future__ import annotations

from datetime import datetime
from uuid import UUID, uuid4

from django.db import transaction

from fitshop.actor import Actor
from fitshop.models import MessageStatus
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.services.audit import audit_record
from orders.models import BuildOrder, Telling
from orders.policy import ORDER_POLICY, OrderAction
from orders.rules.telling import How, Outcome
from orders.selectors.tellings import letter_under_way
from orders.services.letters import READY, letter_queue, ready_letters_withdraw
from orders.services.moves import locked_order
from sessions.selectors.people import letter_refusal

BY_HAND = (How.TELEPHONE, How.TEXT, How.IN_PERSON)


@transaction.atomic
def order_tell(
    *,
    order: BuildOrder,
    how: str,
    outcome: str,
    said: str = "",
    telling_id: UUID | None = None,
    by: Actor,
    at: datetime,
) -> Telling:
    """Write down that somebody called, texted or spoke to the player, and what came of it.

    `telling_id` is made with the form: the same form again is one telling.
    Raises Refused, FieldsRefused. Writes Telling, BuildOrder, AuditEntry.
    """
    row = locked_order(order)
    known = row.tellings.filter(pk=telling_id).first() if telling_id is not None else None
    if known is not None and by.at_location(row.location_id):
        return known
    ORDER_POLICY.require(by, OrderAction.HAND_OVER, location_id=row.location_id, state=row.state)
    _refuse_unknown(how, outcome)
    telling = Telling.objects.create(
        id=telling_id or uuid4(),
        order=row,
        how=how,
        outcome=outcome,
        said=said.strip()[:300],
        at=at,
        by=by.name,
    )
    if outcome == Outcome.REACHED and row.wants_call:
        row.called_at = at
        row.save(update_fields=["called_at"])
    audit_record(
        action="orders.order.told",
        subject=row,
        after={"how": how, "outcome": outcome, "said": telling.said},
        by=by,
        at=at,
    )
    return telling


@transaction.atomic
def order_letter_send(
    *, order: BuildOrder, telling_id: UUID | None = None, by: Actor, at: datetime
) -> Telling:
    """Queue the letter that says the clubs are ready, because somebody chose to.

    The same form again is one letter. Raises Refused, StateRefused.
    Writes OutgoingMessage, Telling, AuditEntry.
    """
    row = locked_order(order)
    known = row.tellings.filter(pk=telling_id).first() if telling_id is not None else None
    if known is not None and by.at_location(row.location_id):
        return known
    ORDER_POLICY.require(by, OrderAction.HAND_OVER, location_id=row.location_id, state=row.state)
    _refuse_second_letter(row)
    telling = ready_letter_queue(row, telling_id=telling_id, by=by, at=at)
    if telling is None:
        sentence = letter_refusal(row.visit.player) or "No letter may go to this player."
        raise StateRefused(sentence, code="order.letter_not_allowed")
    audit_record(
        action="orders.order.letter_sent",
        subject=row,
        after={"letter": telling.letter_id},
        by=by,
        at=at,
    )
    return telling


@transaction.atomic
def order_tell_by_choose(*, order: BuildOrder, tell_by: str, by: Actor, at: datetime) -> BuildOrder:
    """Choose how the player wants to hear. Without a letter: one that has not left is stopped.

    Raises Refused, FieldsRefused. Writes BuildOrder, OutgoingMessage, AuditEntry.
    """
    row = locked_order(order)
    ORDER_POLICY.require(by, OrderAction.TELL_BY, location_id=row.location_id, state=row.state)
    refuse_unknown_way(tell_by)
    if row.tell_by == tell_by:
        return row
    before, row.tell_by = row.tell_by, tell_by
    row.save(update_fields=["tell_by"])
    if tell_by != BuildOrder.TellBy.USUAL:
        ready_letters_withdraw(row, by=by, at=at)
    audit_record(
        action="orders.order.tell_by_chosen",
        subject=row,
        before={"tell_by": before},
        after={"tell_by": tell_by},
        by=by,
        at=at,
    )
    return row


def ready_letter_queue(
    order: BuildOrder, *, telling_id: UUID | None = None, by: Actor, at: datetime
) -> Telling | None:
    """Queue the letter with its telling; None if no address may be written to."""
    earlier = order.tellings.filter(letter__isnull=False).count()
    occasion = f"{order.number} ready" + (f", letter {earlier + 1}" if earlier else "")
    letter = letter_queue(order, READY, occasion, by=by, at=at)
    if letter is None:
        return None
    return Telling.objects.create(
        id=telling_id or uuid4(), order=order, how=How.LETTER, letter=letter, at=at, by=by.name
    )


def refuse_unknown_way(tell_by: str) -> None:
    if tell_by not in BuildOrder.TellBy.values:
        raise FieldsRefused(
            {"tell_by": "Choose how to tell the player."}, code="order.tell_by_unknown"
        )


def _refuse_unknown(how: str, outcome: str) -> None:
    if how not in BY_HAND:
        raise FieldsRefused(
            {"told_how": "Choose how you told the player."}, code="order.telling_how_unknown"
        )
    if outcome not in set(Outcome):
        raise FieldsRefused(
            {"outcome": "Choose the outcome."}, code="order.telling_without_outcome"
        )
    if how == How.IN_PERSON and outcome != Outcome.REACHED:
        raise FieldsRefused(
            {"outcome": "In person: choose “Player told”, or another way."},
            code="order.telling_in_person_not_reached",
        )


def _refuse_second_letter(order: BuildOrder) -> None:
    """A letter that waits or may have left is not doubled."""
    under_way = letter_under_way(order)
    if under_way is None or under_way.letter is None:
        return
    if under_way.letter.status == MessageStatus.UNKNOWN:
        raise StateRefused(
            "A letter may have left. Decide about it on the Messages page, or telephone.",
            code="order.letter_unknown",
        )
    raise StateRefused("A letter is on its way already.", code="order.letter_under_way")
