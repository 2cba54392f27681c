"""Letters about an order, queued with everything they say frozen in them. Never sent here."""

from __future__ import annotations

from datetime import datetime

from django.template.loader import render_to_string

from fitshop.actor import Actor
from fitshop.models import OutgoingMessage
from fitshop.selectors import the_shop
from fitshop.services.messages import message_queue, messages_withdraw
from orders.models import BuildOrder
from orders.selectors.as_built import as_built_values
from sessions.selectors.people import addressee_of, greeting_of

READY, AS_BUILT = "ready", "as_built"
SUBJECTS = {READY: "Your clubs are ready", AS_BUILT: "Your clubs as they were built"}


def letter_queue(
    order: BuildOrder, kind: str, occasion: str, *, by: Actor, at: datetime
) -> OutgoingMessage | None:
    """Queue one letter about an order; None if no address may be written to."""
    addressee = addressee_of(order.visit.player)
    if addressee is None:
        return None
    shop = the_shop()
    values = {
        "greeting": greeting_of(order.visit.player),
        "given_name": order.visit.player.given_name,
        "is_guardian": addressee.name != str(order.visit.player),
        "number": order.number,
        "location": order.location.name,
        "address": order.location.address,
        "promised": _promised(order, at),
        "shop_name": shop.name if shop else "",
        "shop_phone": shop.phone if shop else "",
    }
    attachments = []
    if kind == AS_BUILT:
        sheet = as_built_values(order)
        values |= {"clubs": sheet["clubs"], "steps_accepted": sheet["steps_accepted"]}
        attachments = [
            {"name": f"as-built-{order.number}.pdf", "document": "as_built", "values": sheet}
        ]
    return message_queue(
        kind=f"order_{kind}",
        subject_type="order",
        subject_id=str(order.pk),
        occasion=occasion,
        recipient_email=addressee.email,
        recipient_name=addressee.name,
        mail_subject=SUBJECTS[kind],
        body_text=render_to_string(f"messages/{kind}.txt", values),
        body_html=render_to_string(f"messages/{kind}.html", values),
        attachments=attachments,
        by=by,
        at=at,
    )


def _promised(order: BuildOrder, at: datetime) -> str:
    """The day first promised, where it is over and moved; nothing where the promise stood."""
    day = order.promised_on
    if day is None or at.astimezone(order.location.zone_info).date() <= day:
        return ""
    return f"{day:%A} {day.day} {day:%B}"


def ready_letters_withdraw(order: BuildOrder, *, by: Actor, at: datetime) -> None:
    """Stop the letters that say the clubs wait on the shelf, as far as they have not left."""
    messages_withdraw(
        kind=f"order_{READY}", subject_type="order", subject_id=str(order.pk), by=by, at=at
    )
