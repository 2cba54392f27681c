"""The end of the work: on the shelf, the player told, the clubs handed over and on record."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal

from django.db import transaction
from django.template.loader import render_to_string

from fitshop.actor import Actor
from fitshop.models import OutgoingMessage
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.selectors import the_shop
from fitshop.services.audit import audit_record
from fitshop.services.messages import message_queue
from orders.flow import ClubState, OrderState
from orders.models import BuildOrder, Check, OrderClub, OrderRevision
from orders.policy import ORDER_POLICY, OrderAction
from orders.selectors.as_built import as_built_values
from orders.services.bench_refusals import refuse_while_curing
from orders.services.moves import club_move, current_revision, locked_order, order_move
from sessions.models import Club
from sessions.models.words import ClubSource
from sessions.selectors.people import addressee_of, greeting_of
from sessions.services.leaving import clubs_leave

HANDED_OVER_HOW = {"collected": "collected in the shop", "posted": "posted"}
TOLD_HOW = {"e-mail": "e-mail", "telephone": "telephone", "text": "text message", "here": "here"}


@transaction.atomic
def order_ready(*, order: BuildOrder, by: Actor, at: datetime) -> BuildOrder:
    """Put a checked order on the shelf; a letter says so where the player agreed to e-mail.

    Twice on the shelf is once. Raises Refused, StateRefused.
    Writes BuildOrder, OrderClub, OutgoingMessage, AuditEntry.
    """
    row = locked_order(order)
    if row.state == OrderState.READY and by.at_location(row.location_id):
        return row
    ORDER_POLICY.require(by, OrderAction.ORDER_READY, location_id=row.location_id, state=row.state)
    revision = current_revision(row)
    check = revision.checks.first()
    if check is None or check.result != Check.Result.PASSED:
        raise StateRefused("The check is not signed yet.")
    clubs = _cured_clubs(revision, row, at)
    before = order_move(row, OrderState.READY)

    for club in clubs:
        club_move(club, ClubState.READY)
        club.save(update_fields=["state"])
    row.ready_at = at
    letter = _letter_queued(row, "ready", f"{row.number} ready", by=by, at=at)
    if letter is not None:
        row.told_at, row.told_how = at, "e-mail"
    row.save(update_fields=["state", "ready_at", "told_at", "told_how"])
    audit_record(
        action="orders.order.readied",
        subject=row,
        before={"state": before},
        after={"state": row.state, "told_how": row.told_how},
        by=by,
        at=at,
    )
    return row


@transaction.atomic
def order_tell(*, order: BuildOrder, how: str, by: Actor, at: datetime) -> BuildOrder:
    """Write down that the player was told, and how. Raises Refused, FieldsRefused.

    Writes BuildOrder, AuditEntry.
    """
    row = locked_order(order)
    ORDER_POLICY.require(by, OrderAction.HAND_OVER, location_id=row.location_id, state=row.state)
    if how not in TOLD_HOW:
        raise FieldsRefused({"told_how": "Choose how the player was told."})
    before = {"told_how": row.told_how, "told_at": row.told_at}
    row.told_at, row.told_how = at, how
    row.save(update_fields=["told_at", "told_how"])
    audit_record(
        action="orders.order.told", subject=row, before=before, after={"how": how}, by=by, at=at
    )
    return row


@transaction.atomic
def order_hand_over(*, order: BuildOrder, how: str, by: Actor, at: datetime) -> BuildOrder:
    """Give the clubs to the player: collected or posted. As built becomes the clubs' record.

    What the fitting decided to leave the bag leaves it now. The as-built sheet is queued where the
    player agreed to e-mail. Handed over twice is once.
    Raises Refused, StateRefused, FieldsRefused.
    Writes BuildOrder, OrderClub, Club, OutgoingMessage, AuditEntry.
    """
    row = locked_order(order)
    if row.state == OrderState.HANDED_OVER and by.at_location(row.location_id):
        return row
    ORDER_POLICY.require(by, OrderAction.HAND_OVER, location_id=row.location_id, state=row.state)
    if how not in HANDED_OVER_HOW:
        raise FieldsRefused({"how": "Choose: collected, or posted."})
    revision = current_revision(row)
    clubs = _cured_clubs(revision, row, at)
    before = order_move(row, OrderState.HANDED_OVER)

    row.handed_over_at, row.handed_over_how = at, how
    row.save(update_fields=["state", "handed_over_at", "handed_over_how"])
    for club in clubs:
        club_move(club, ClubState.COLLECTED)
        club.save(update_fields=["state"])
        _club_on_record(row, club, by=by, at=at)
    clubs_leave(visit=row.visit, by=by, at=at)
    _letter_queued(row, "as_built", f"{row.number} handed over", by=by, at=at)
    audit_record(
        action="orders.order.handed_over",
        subject=row,
        before={"state": before},
        after={"state": row.state, "how": how},
        by=by,
        at=at,
    )
    return row


def _cured_clubs(revision: OrderRevision, order: BuildOrder, at: datetime) -> list[OrderClub]:
    clubs = list(revision.clubs.select_for_update(of=("self",)))
    for club in clubs:
        refuse_while_curing(club, at=at, zone=order.location.zone_info)
    return clubs


def _club_on_record(order: BuildOrder, club: OrderClub, *, by: Actor, at: datetime) -> Club:
    """The player's own club from now on: a new row, or the adjusted one with its bend added."""
    spec_club = club.spec_club
    head = spec_club.head
    if club.source == ClubSource.OWN_ADJUSTED and spec_club.club is not None:
        own = Club.objects.select_for_update(of=("self",)).get(pk=spec_club.club.pk)
    else:
        own = Club(
            player=order.visit.player,
            kind=Club.Kind.WEDGE,
            label=club.name,
            maker=head.maker if head else "",
            model=head.model if head else "",
            hand=club.hand,
            stamped_loft_deg=club.stamped_loft_deg,
            stamped_bounce_deg=club.stamped_bounce_deg,
            making=club.making,
            head=head,
            in_use_since=at.astimezone(order.location.zone_info).date(),
            created_at=at,
            created_by=by.name,
        )
    own.shaft = (club.shaft_name or own.shaft)[:120]
    own.bends = [*own.bends, *_bend_made(club)]
    own.source_order_id, own.source_slot = order.pk, club.slot
    own.save()
    return own


def _bend_made(club: OrderClub) -> list[list[str]]:
    """As built less as received: [[loft, lie]] in degrees as text, or nothing."""
    built = (club.as_built_loft_deg, club.as_built_lie_deg)
    received = (club.as_received_loft_deg, club.as_received_lie_deg)
    bends = [
        Decimal(0) if now is None or then is None else now - then
        for now, then in zip(built, received, strict=True)
    ]
    return [[str(bend) for bend in bends]] if any(bend != 0 for bend in bends) else []


def _letter_queued(
    order: BuildOrder, kind: str, occasion: str, *, by: Actor, at: datetime
) -> OutgoingMessage | None:
    """Queue one letter about an order; None where no address may be written to."""
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
        "shop_name": shop.name if shop else "",
        "shop_phone": shop.phone if shop else "",
    }
    attachments = []
    if kind == "as_built":
        sheet = as_built_values(order)
        values |= {"clubs": sheet["clubs"]}
        attachments = [
            {"name": f"as-built-{order.number}.pdf", "document": "as_built", "values": sheet}
        ]
    subjects = {"ready": "Your clubs are ready", "as_built": "Your clubs as they were built"}
    return message_queue(
        kind=f"order_{kind}",
        subject_type="order",
        subject_id=str(order.pk),
        occasion=occasion,
        recipient_email=addressee.email,
        recipient_name=addressee.name,
        mail_subject=subjects[kind],
        body_text=render_to_string(f"messages/{kind}.txt", values),
        body_html=render_to_string(f"messages/{kind}.html", values),
        attachments=attachments,
        by=by,
        at=at,
    )
