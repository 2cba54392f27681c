"""Reminders that fall due: have the grooves looked at. Queued once an order, never sent here."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime

from django.db import transaction
from django.template.loader import render_to_string

from fitshop.actor import Actor
from fitshop.models import OutgoingMessage
from fitshop.selectors import settings_in_force, the_shop
from fitshop.services.audit import audit_record
from fitshop.services.messages import message_queue
from fitshop.setting import Value
from orders.flow import OrderState
from orders.models import BuildOrder
from orders.policy import ORDER_POLICY, OrderAction
from orders.selectors.grooves import forecast_of
from sessions.models import Club
from sessions.selectors.people import addressee_of, greeting_of

KIND = "groove_check"
# One check after a hand-over; what comes later counts from the check itself.
OCCASION = "first groove check"


@transaction.atomic
def reminders_queue_due(*, by: Actor, at: datetime) -> list[OutgoingMessage]:
    """Queue a groove check for each order whose rounds have come round; asked again: none twice.

    Where nobody was asked for rounds a year, or nobody may be written to, nothing is queued.
    Raises Refused. Writes OutgoingMessage, AuditEntry.
    """
    ORDER_POLICY.require(by, OrderAction.REMINDERS_QUEUE)
    reminded = OutgoingMessage.objects.filter(kind=KIND, occasion=OCCASION)
    told = set(reminded.values_list("subject_id", flat=True))
    orders = (
        BuildOrder.objects.filter(state=OrderState.HANDED_OVER)
        .select_related("visit__player", "location")
        .prefetch_related("rounds_reports")
    )
    settings = settings_in_force().values

    queued = []
    for order in orders:
        if str(order.pk) in told or not _is_due(order, settings, at):
            continue
        letter = _reminder_queued(order, by=by, at=at)
        if letter is not None:
            queued.append(letter)
    return queued


def _is_due(order: BuildOrder, settings: Mapping[str, Value], at: datetime) -> bool:
    forecast = forecast_of(order, settings)
    if forecast is None or forecast.due_on is None:
        return False
    today: date = at.astimezone(order.location.zone_info).date()
    return today >= forecast.due_on and _still_played(order)


def _still_played(order: BuildOrder) -> bool:
    return Club.objects.filter(source_order_id=order.pk, left_bag_at__isnull=True).exists()


def _reminder_queued(order: BuildOrder, *, by: Actor, at: datetime) -> OutgoingMessage | None:
    addressee = addressee_of(order.visit.player)
    if addressee is None:
        return None
    shop = the_shop()
    values = {
        "greeting": greeting_of(order.visit.player),
        "given_name": order.visit.player.given_name,
        "is_guardian": addressee.name != str(order.visit.player),
        "since": order.handed_over_at,
        "shop_name": shop.name if shop else "",
        "shop_phone": shop.phone if shop else "",
    }
    letter = message_queue(
        kind=KIND,
        subject_type="order",
        subject_id=str(order.pk),
        occasion=OCCASION,
        recipient_email=addressee.email,
        recipient_name=addressee.name,
        mail_subject="Time to have your grooves looked at",
        body_text=render_to_string("messages/groove_check.txt", values),
        body_html=render_to_string("messages/groove_check.html", values),
        by=by,
        at=at,
    )
    audit_record(
        action="orders.reminder.queued",
        subject=order,
        after={"message": letter.pk, "occasion": OCCASION},
        by=by,
        at=at,
    )
    return letter
