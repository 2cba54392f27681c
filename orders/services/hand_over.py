"""The end of the work: on the shelf, the player told, the clubs handed over and on record."""

from __future__ import annotations

from datetime import datetime

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.services.audit import audit_record
from orders.flow import ClubState, OrderState
from orders.models import BuildOrder, Check, OrderClub, OrderRevision
from orders.policy import ORDER_POLICY, OrderAction
from orders.selectors.metal import bends_at_bench
from orders.services.bench_refusals import refuse_while_curing
from orders.services.due_days import promise_moved, refuse_unasked
from orders.services.letters import AS_BUILT, letter_queue, ready_letters_withdraw
from orders.services.moves import club_move, current_revision, locked_order, order_move
from orders.services.tellings import ready_letter_queue
from sessions.models import Club
from sessions.models.words import ClubSource
from sessions.services.leaving import clubs_leave

HANDED_OVER_HOW = {"collected": "collected in the shop", "posted": "posted"}


@transaction.atomic
def order_ready(
    *, order: BuildOrder, day_moved: bool | None = None, by: Actor, at: datetime
) -> BuildOrder:
    """Put a checked order on the shelf; a letter says so if the player agreed to e-mail.

    None is queued if the order asks for a call or a text. Twice on the shelf is once.
    `day_moved`: asked after the promised day; True has the player called too.
    Raises Refused, StateRefused, FieldsRefused.
    Writes BuildOrder, OrderClub, OutgoingMessage, Telling, AuditEntry.
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
    refuse_unasked(row, day_moved, at)
    before = order_move(row, OrderState.READY)

    for club in clubs:
        club_move(club, ClubState.READY)
        club.save(update_fields=["state"])
    row.ready_at = at
    if day_moved:
        promise_moved(row, at=at)
    row.save(update_fields=["state", "ready_at", "promised_on", "call_since"])
    telling = None
    if row.tell_by == BuildOrder.TellBy.USUAL:
        telling = ready_letter_queue(row, by=by, at=at)
    audit_record(
        action="orders.order.readied",
        subject=row,
        before={"state": before},
        after={"state": row.state, "letter": telling.letter_id if telling else None}
        | ({"day_moved": True} if day_moved else {}),
        by=by,
        at=at,
    )
    return row


@transaction.atomic
def order_hand_over(*, order: BuildOrder, how: str, by: Actor, at: datetime) -> BuildOrder:
    """Give the clubs to the player: collected or posted. As built becomes the clubs' record.

    What the fitting decided to leave the bag leaves it now. The as-built sheet is queued if the
    player agreed to e-mail; a letter "ready" that has not left is stopped. Handed over twice is
    once.
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
    ready_letters_withdraw(row, by=by, at=at)
    letter_queue(row, AS_BUILT, f"{row.number} handed over", by=by, at=at)
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
    own.bends = [*own.bends, *_bends_made(club)]
    own.source_order_id, own.source_slot = order.pk, club.slot
    own.save()
    return own


def _bends_made(club: OrderClub) -> list[list[str]]:
    """Every bend of its head in this order: [[loft, lie], ...] in degrees as text."""
    return [
        [str(bend.loft_deg), str(bend.lie_deg)]
        for bend in bends_at_bench(club)
        if bend.loft_deg or bend.lie_deg
    ]
