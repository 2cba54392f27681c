"""Build orders: made from a signed spec, released to the bench, revised, cancelled."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, timedelta
from string import ascii_uppercase
from uuid import uuid4

from django.db import transaction
from django.db.models import Max

from fitshop.actor import Actor
from fitshop.models import Shop
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.selectors import settings_in_force
from fitshop.services.audit import audit_record
from orders.flow import ClubState, OrderState
from orders.models import (
    BenchStep,
    BuildOrder,
    Concession,
    OrderClub,
    OrderRevision,
    Reading,
)
from orders.policy import ORDER_POLICY, OrderAction
from orders.services.copying import (
    accepted_sentences,
    club_changes,
    clubs_to_build,
    order_club_from,
)
from orders.services.holding import work_that_holds
from orders.services.letters import ready_letters_withdraw
from orders.services.moves import current_revision, locked_order, order_move
from orders.services.tellings import refuse_unknown_way
from sessions.flow import SpecState
from sessions.models import FinalSpec, SpecClub, Visit
from sessions.rules.facts import limits_from
from sessions.rules.wording import listed
from sessions.services.visits import visit_lock

FIRST_NUMBER = 2001


@transaction.atomic
def order_create(
    *,
    spec: FinalSpec,
    due_on: date | None = None,
    note: str = "",
    tell_by: str = "",
    by: Actor,
    at: datetime,
) -> BuildOrder:
    """Make a draft order, revision A, from a signed spec; the same spec again: the same order.

    `due_on` None: the shop's usual number of days from now. `tell_by`: how the player wants to
    hear that it is ready.
    Raises Refused, StateRefused, FieldsRefused.
    Writes BuildOrder, OrderRevision, OrderClub, AuditEntry.
    """
    visit = Visit.objects.select_for_update(of=("self",)).get(pk=spec.visit_id)
    ORDER_POLICY.require(by, OrderAction.ORDER_CREATE, location_id=visit.location_id)
    standing = visit.build_orders.exclude(state=OrderState.CANCELLED).first()
    if standing is not None:
        return _same_order(standing, spec)
    refuse_unknown_way(tell_by)
    clubs = _signed_clubs(spec)
    today = at.astimezone(visit.location.zone_info).date()
    due = due_on or today + timedelta(days=int(settings_in_force()["order.lead_days"]))
    if due < today:
        raise FieldsRefused({"due_on": "This day is past. Choose today or later."})

    # The shop's one row is the lock on the numbers.
    Shop.objects.select_for_update().first()
    newest = BuildOrder.objects.aggregate(newest=Max("number"))["newest"]
    order = BuildOrder.objects.create(
        number=FIRST_NUMBER if newest is None else newest + 1,
        visit=visit,
        location=visit.location,
        due_on=due,
        note=note.strip(),
        tell_by=tell_by,
        created_at=at,
        created_by=by.name,
    )
    _revision_made(order, spec, clubs, letter="A", why="", by=by, at=at)
    audit_record(
        action="orders.order.created",
        subject=order,
        after={"number": order.number, "due_on": due, "spec": spec.pk, "clubs": len(clubs)},
        by=by,
        at=at,
    )
    return order


@transaction.atomic
def order_release(*, order: BuildOrder, by: Actor, at: datetime) -> BuildOrder:
    """Give a draft to the bench; the visit's record is locked from then on.

    Released twice is released once. Raises Refused, StateRefused.
    Writes BuildOrder, Visit, AuditEntry.
    """
    row = locked_order(order)
    if row.state == OrderState.RELEASED and by.at_location(row.location_id):
        return row
    ORDER_POLICY.require(
        by, OrderAction.ORDER_RELEASE, location_id=row.location_id, state=row.state
    )
    before = order_move(row, OrderState.RELEASED)

    row.released_at = at
    row.save(update_fields=["state", "released_at"])
    visit_lock(visit=row.visit, by=by, at=at)
    _record("released", row, before=before, by=by, at=at)
    return row


@transaction.atomic
def order_revise(
    *, order: BuildOrder, spec: FinalSpec, why: str, by: Actor, at: datetime
) -> OrderRevision:
    """Make the next letter of a ticket from a newly signed spec of the same visit.

    Clubs that stay as they were keep what the bench did on them. The spec in force again gives
    its own letter again. Raises Refused, StateRefused, FieldsRefused.
    Writes OrderRevision, OrderClub, BenchStep, Reading, Concession, BuildOrder, AuditEntry.
    """
    row = locked_order(order)
    ORDER_POLICY.require(by, OrderAction.ORDER_REVISE, location_id=row.location_id, state=row.state)
    old = current_revision(row)
    if old.spec_id == spec.pk:
        return old
    if not why.strip():
        raise FieldsRefused({"why": "Say why: the reason stands on the ticket."})
    if spec.visit_id != row.visit_id:
        raise StateRefused("This spec belongs to another visit.")
    clubs = _signed_clubs(spec)
    if old.letter == ascii_uppercase[-1]:
        raise StateRefused("This ticket has used up its letters. Cancel it and order anew.")

    letter = ascii_uppercase[ascii_uppercase.index(old.letter) + 1]
    OrderRevision.objects.filter(pk=old.pk).update(is_current=False)
    new = _revision_made(row, spec, clubs, letter=letter, why=why.strip(), by=by, at=at)
    new.changes = _carried_over(old, new)
    new.save(update_fields=["changes"])
    _put_back(row, new)
    audit_record(
        action="orders.order.revised",
        subject=row,
        before={"letter": old.letter, "spec": old.spec_id},
        after={"letter": letter, "spec": spec.pk, "why": why.strip(), "changes": new.changes},
        by=by,
        at=at,
    )
    return new


@transaction.atomic
def order_cancel(*, order: BuildOrder, why: str, by: Actor, at: datetime) -> BuildOrder:
    """Cancel an order, with the reason; a letter "ready" that has not left is stopped.

    Raises Refused, StateRefused, FieldsRefused. Writes BuildOrder, OutgoingMessage, AuditEntry.
    """
    row = locked_order(order)
    if row.state == OrderState.CANCELLED and by.at_location(row.location_id):
        return row
    ORDER_POLICY.require(by, OrderAction.ORDER_CANCEL, location_id=row.location_id, state=row.state)
    if not why.strip():
        raise FieldsRefused({"why": "Say why it is cancelled."})
    before = order_move(row, OrderState.CANCELLED)

    row.cancelled_why = why.strip()
    row.save(update_fields=["state", "cancelled_why"])
    ready_letters_withdraw(row, by=by, at=at)
    _record("cancelled", row, before=before, by=by, at=at)
    return row


def _same_order(standing: BuildOrder, spec: FinalSpec) -> BuildOrder:
    """A form sent twice orders once; another spec of the visit is a revision, not an order."""
    if standing.revisions.filter(spec=spec).exists():
        return standing
    raise StateRefused(
        f"Order {standing.number} stands for this visit. Revise it, or cancel it first."
    )


def _signed_clubs(spec: FinalSpec) -> list[SpecClub]:
    spec.refresh_from_db()
    if spec.state != SpecState.SIGNED:
        raise StateRefused("Only a signed spec can be ordered. Check and sign the spec first.")
    clubs = clubs_to_build(spec)
    if not clubs:
        raise StateRefused("There is nothing to build: every club of this spec is kept as it is.")
    return clubs


def _revision_made(
    order: BuildOrder,
    spec: FinalSpec,
    clubs: Sequence[SpecClub],
    *,
    letter: str,
    why: str,
    by: Actor,
    at: datetime,
) -> OrderRevision:
    in_force = settings_in_force()
    player = order.visit.player
    revision = OrderRevision.objects.create(
        order=order,
        letter=letter,
        spec=spec,
        why=why,
        accepted=accepted_sentences(spec),
        player_name=str(player),
        hand=player.hand,
        rule_set=spec.rule_set,
        settings_version=in_force.version,
        made_at=at,
        made_by=by.name,
    )
    limits = limits_from(in_force.values)
    OrderClub.objects.bulk_create(order_club_from(revision, club, limits) for club in clubs)
    return revision


def _carried_over(old: OrderRevision, new: OrderRevision) -> list[str]:
    """Say what changed, and take over the bench's work on clubs that did not."""
    before = {club.slot: club for club in old.clubs.all()}
    sentences: list[str] = []
    for club in new.clubs.all():
        known = before.pop(club.slot, None)
        changes = club_changes(known, club)
        sentences += changes
        if known is None:
            continue
        if not changes:
            _work_taken_over(known, club)
        else:
            work_that_holds(known, club, at=new.made_at)
        if changes and (done := [step.get_step_display().lower() for step in known.steps.all()]):
            sentences.append(f"Slot {club.slot}: done on {old.letter} already: {listed(done)}.")
    sentences += [f"Slot {slot} is no longer built." for slot in before]
    return sentences or ["Nothing the bench sees has changed."]


def _work_taken_over(old: OrderClub, new: OrderClub) -> None:
    new.state, new.cure_until, new.reworked_at = old.state, old.cure_until, old.reworked_at
    new.head_number, new.shaft_number = old.head_number, old.shaft_number
    for name in ("as_received_loft_deg", "as_received_lie_deg", "as_received_mass_g"):
        setattr(new, name, getattr(old, name))
    for name in ("loft_deg", "lie_deg", "bounce_deg", "length_mm", "swing_weight_points", "mass_g"):
        setattr(new, f"as_built_{name}", getattr(old, f"as_built_{name}"))
    new.save()
    steps = list(old.steps.all())
    for step in steps:
        step.pk, step.club = uuid4(), new
    BenchStep.objects.bulk_create(steps)
    readings = list(old.readings.all())
    for reading in readings:
        reading.pk, reading.club = uuid4(), new
    Reading.objects.bulk_create(readings)
    concessions = list(old.concessions.all())
    for concession in concessions:
        concession.pk, concession.club = uuid4(), new
    Concession.objects.bulk_create(concessions)


def _put_back(order: BuildOrder, revision: OrderRevision) -> None:
    """What waited for its check goes back to the bench where a club has to be built anew."""
    is_open = revision.clubs.exclude(state=ClubState.TO_CHECK).exists()
    if order.state == OrderState.TO_CHECK and is_open:
        order_move(order, OrderState.REWORK)
        order.save(update_fields=["state"])


def _record(deed: str, order: BuildOrder, *, before: str, by: Actor, at: datetime) -> None:
    audit_record(
        action=f"orders.order.{deed}",
        subject=order,
        before={"state": before},
        after={"state": order.state, "number": order.number, "why": order.cancelled_why},
        by=by,
        at=at,
    )
