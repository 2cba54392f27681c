"""Appointments and visits: booked, moved, opened and closed."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import datetime, timedelta
from typing import Any
from uuid import UUID

from django.db import connection, transaction
from django.db.models import Q

from fitshop.actor import Actor
from fitshop.models import Bay, Location, Staff
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.selectors import settings_in_force
from fitshop.services.audit import audit_record
from sessions.flow import VisitState, can_move, refusal
from sessions.models import Consent, Player, Visit
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.rules.booking import Doubt, booking_doubts
from sessions.rules.consent_texts import consent_text
from sessions.selectors.finish import is_anything_to_build
from sessions.selectors.people import awaits_guardian, consent_in_force
from sessions.selectors.spec_sheet import summary_refusal
from sessions.selectors.visits import overlapping_visits
from sessions.services.leaving import clubs_leave, clubs_return
from sessions.services.players import consent_record, consent_withdraw
from sessions.services.summaries import summary_queue

NEXT_SEQUENCE = """
update fitting_visit set last_sequence = last_sequence + 1 where id = %s returning last_sequence
"""


class BookingDoubted(FieldsRefused):
    """Something to be asked once. The same call with these `keys` in `sure_of` books."""

    def __init__(self, doubts: Collection[Doubt]) -> None:
        errors: dict[str, str] = {}
        for doubt in doubts:
            errors[doubt.field] = " ".join([errors.get(doubt.field, ""), doubt.sentence]).strip()
        super().__init__(errors, code="visits.asked_once")
        self.keys = [doubt.key for doubt in doubts]


def sequence_take(visit: Visit) -> int:
    """The visit's next number in the server's order. Call inside a transaction: it locks the row.

    One statement, since every ball takes two numbers. Writes Visit.
    """
    visit_id = Visit._meta.pk.get_db_prep_value(visit.pk, connection)
    with connection.cursor() as line:
        line.execute(NEXT_SEQUENCE, [visit_id])
        [(number,)] = line.fetchall()
    visit.last_sequence = int(number)
    return visit.last_sequence


@transaction.atomic
def visit_book(
    *,
    visit_id: UUID | None = None,
    player: Player,
    location: Location,
    bay: Bay | None,
    fitter: Staff | None,
    starts_at: datetime,
    minutes: int,
    kind: str = Visit.Kind.WEDGES,
    is_walk_in: bool = False,
    note: str = "",
    guardian_agrees: bool = False,
    sure_of: Collection[str] | None = None,
    by: Actor,
    at: datetime,
) -> Visit:
    """Book an appointment; a walk-in is open at once. The same `visit_id` again: the same row.

    A child's walk-in asks for the guardian's consent to the record, as `visit_open` does.
    `sure_of`: the keys of doubts that were answered; None asks nothing.
    Raises Refused, FieldsRefused, BookingDoubted. Writes Visit, Consent, AuditEntry.
    """
    FITTING_POLICY.require(by, FittingAction.VISIT_BOOK, location_id=location.pk)
    known = Visit.objects.filter(pk=visit_id).first() if visit_id else None
    if known is not None:
        return _same_booking(known, player, by)
    if player.merged_into_id is not None:
        raise FieldsRefused({"player": "This record was merged into another. Book for that one."})
    _refuse_booking(
        location=location, bay=bay, fitter=fitter, starts_at=starts_at, minutes=minutes, but=None
    )
    _ask_once(player, location, starts_at, minutes, sure_of, is_now=is_walk_in, but=None, at=at)

    if is_walk_in:
        _guardian_asked(player, guardian_agrees, by=by, at=at)
    visit = Visit(
        player=player,
        location=location,
        bay=bay,
        fitter=fitter,
        kind=kind,
        starts_at=starts_at,
        minutes=minutes,
        is_walk_in=is_walk_in,
        note=note.strip(),
        state=VisitState.OPEN if is_walk_in else VisitState.BOOKED,
        opened_at=at if is_walk_in else None,
        created_at=at,
        created_by=by.name,
    )
    if visit_id:
        visit.id = visit_id
    visit.save(force_insert=True)
    _record("booked", visit, after=_as_booked(visit) | {"state": visit.state}, by=by, at=at)
    return visit


@transaction.atomic
def visit_move(
    *,
    visit: Visit,
    starts_at: datetime,
    minutes: int,
    bay: Bay | None,
    fitter: Staff | None,
    sure_of: Collection[str] | None = None,
    by: Actor,
    at: datetime,
) -> Visit:
    """Move a booked visit to another time, length, bay or fitter; `sure_of` as in `visit_book`.

    Raises Refused, FieldsRefused, BookingDoubted. Writes Visit, AuditEntry.
    """
    row = _locked(visit)
    FITTING_POLICY.require(
        by, FittingAction.VISIT_MOVE, location_id=row.location_id, state=row.state
    )
    _refuse_booking(
        location=row.location, bay=bay, fitter=fitter, starts_at=starts_at, minutes=minutes, but=row
    )
    is_same_time = (row.starts_at, row.minutes) == (starts_at, minutes)
    _ask_once(
        row.player, row.location, starts_at, minutes, sure_of, is_now=is_same_time, but=row, at=at
    )

    before = _as_booked(row)
    row.starts_at, row.minutes, row.bay, row.fitter = starts_at, minutes, bay, fitter
    row.save(update_fields=["starts_at", "minutes", "bay", "fitter"])
    _record("moved", row, before=before, after=_as_booked(row), by=by, at=at)
    return row


@transaction.atomic
def visit_open(*, visit: Visit, guardian_agrees: bool = False, by: Actor, at: datetime) -> Visit:
    """Open a booked visit, or reopen a closed one until an order from it is released.

    An open visit stays open. What left the bag with the close is back in it. A child's is opened
    only with the guardian's consent to the record; `guardian_agrees` writes it down now.
    Raises Refused, StateRefused, FieldsRefused. Writes Visit, Club, Consent, AuditEntry.
    """
    row = _locked(visit)
    FITTING_POLICY.require(by, FittingAction.VISIT_OPEN, location_id=row.location_id)
    if row.state == VisitState.OPEN:
        return row
    if row.locked_at is not None:
        raise StateRefused(
            "An order from this visit is in the workshop, so its record stays as it is. "
            "Book a new visit for what comes next."
        )
    before = _move(row, VisitState.OPEN)
    _guardian_asked(row.player, guardian_agrees, by=by, at=at)

    clubs_return(visit=row, by=by, at=at)
    row.opened_at = row.opened_at or at
    row.closed_at = None
    row.save(update_fields=["state", "opened_at", "closed_at"])
    _record("opened", row, before={"state": before}, after={"state": row.state}, by=by, at=at)
    return row


@transaction.atomic
def visit_close(*, visit: Visit, by: Actor, at: datetime) -> Visit:
    """Close an open visit. Where a spec is signed and e-mail agreed to, its summary falls due.

    Where nothing is to be built, what was decided to leave the bag leaves it now; otherwise the
    player plays it until the hand-over. Raises Refused. Writes Visit, OutgoingMessage, Club,
    AuditEntry.
    """
    row = _locked(visit)
    FITTING_POLICY.require(
        by, FittingAction.VISIT_CLOSE, location_id=row.location_id, state=row.state
    )
    before = _move(row, VisitState.CLOSED)

    row.closed_at = at
    row.save(update_fields=["state", "closed_at"])
    _record("closed", row, before={"state": before}, after={"state": row.state}, by=by, at=at)
    if not is_anything_to_build(row):
        clubs_leave(visit=row, by=by, at=at)
    if summary_refusal(row) is None:
        summary_queue(visit=row, by=by, at=at)
    return row


@transaction.atomic
def visit_cancel(*, visit: Visit, by: Actor, at: datetime) -> Visit:
    """Cancel a booked visit. Raises Refused, StateRefused. Writes Visit, AuditEntry."""
    return _called_off(visit, VisitState.CANCELLED, "cancelled", by=by, at=at)


@transaction.atomic
def visit_no_show(*, visit: Visit, by: Actor, at: datetime) -> Visit:
    """Say that the player did not come; `visit_open` takes it back if he does after all.

    Raises Refused, StateRefused. Writes Visit, AuditEntry.
    """
    if visit.starts_at > at:
        raise StateRefused("This appointment has not begun yet. Cancel it instead.")
    return _called_off(visit, VisitState.NO_SHOW, "no_show", by=by, at=at)


@transaction.atomic
def visit_lock(*, visit: Visit, by: Actor, at: datetime) -> Visit:
    """Keep the record as it is from now on, since an order from it was released.

    Who may release an order is the workshop's policy; here only the location is asked.
    Locking twice is locking once. Raises Refused. Writes Visit, AuditEntry.
    """
    row = _locked(visit)
    if not by.at_location(row.location_id):
        raise Refused("This belongs to a location where you don't work.")
    if row.locked_at is not None:
        return row
    row.locked_at = at
    row.save(update_fields=["locked_at"])
    _record("locked", row, after={"locked_at": at}, by=by, at=at)
    return row


def _guardian_asked(player: Player, agrees: bool, *, by: Actor, at: datetime) -> None:
    """Refuse a child's visit to which no guardian agreed; write the consent down where one does."""
    if not awaits_guardian(player):
        return
    if not agrees:
        raise FieldsRefused(
            {
                "guardian_agrees": f"Ask {player.guardian_name or 'the guardian'} first: a child's "
                "fitting is recorded only where the guardian agrees to the record."
            }
        )
    about = Consent.About.RECORD
    given_by_the_child = consent_in_force(player, about)
    if given_by_the_child is not None:
        consent_withdraw(consent=given_by_the_child, by=by, at=at)
    consent_record(
        player=player,
        about=about,
        text_version=consent_text(about).version,
        given_by=Consent.GivenBy.GUARDIAN,
        by=by,
        at=at,
    )


def _locked(visit: Visit) -> Visit:
    return Visit.objects.select_for_update(of=("self",)).get(pk=visit.pk)


def _same_booking(known: Visit, player: Player, by: Actor) -> Visit:
    """A form sent twice books once; an id that means another visit is not answered with it."""
    if known.player_id != player.pk or not by.at_location(known.location_id):
        raise FieldsRefused({"player": "This form was used already. Load the page again."})
    return known


def _refuse_booking(
    *,
    location: Location,
    bay: Bay | None,
    fitter: Staff | None,
    starts_at: datetime,
    minutes: int,
    but: Visit | None,
) -> None:
    """Refuse a length out of range, a bay or fitter of elsewhere, and a bay or fitter taken."""
    errors: dict[str, str] = {}
    shop = settings_in_force()
    least, most = shop["visit.minutes_least"], shop["visit.minutes_most"]
    if not int(least) <= minutes <= int(most):
        errors["minutes"] = f"An appointment lasts {least} to {most} minutes."
    ends_at = starts_at + timedelta(minutes=minutes)
    if bay is not None:
        # The bay's row is the lock: two desks can't book the same hour.
        Bay.objects.select_for_update().get(pk=bay.pk)
        errors |= _bay_refusal(location, bay, starts_at, ends_at, but)
    if fitter is not None:
        errors |= _fitter_refusal(location, fitter, starts_at, ends_at, but)
    if errors:
        raise FieldsRefused(errors)


def _ask_once(
    player: Player,
    location: Location,
    starts_at: datetime,
    minutes: int,
    sure_of: Collection[str] | None,
    *,
    is_now: bool,
    but: Visit | None,
    at: datetime,
) -> None:
    """Ask about a day, a time or a second visit at one time. Raises BookingDoubted.

    `is_now`: nobody has typed a time.
    """
    if sure_of is None:
        return
    zone = location.zone_info
    today = at.astimezone(zone).date()
    settings = settings_in_force().values
    doubts = (
        []
        if is_now
        else [*booking_doubts(starts_at.astimezone(zone), today=today, settings=settings)]
    )
    ends_at = starts_at + timedelta(minutes=minutes)
    doubts += [
        Doubt(f"twice:{other.pk}", "time", f"Already there then: {_who_and_when(other)}.")
        for other in overlapping_visits(Q(player=player), starts_at, ends_at, but=but)
    ]
    if any(doubt.key not in sure_of for doubt in doubts):
        raise BookingDoubted(doubts)


def _bay_refusal(
    location: Location, bay: Bay, starts_at: datetime, ends_at: datetime, but: Visit | None
) -> dict[str, str]:
    if bay.location_id != location.pk:
        return {"bay": f"{bay.name} is not at {location.name}."}
    taken = overlapping_visits(Q(bay=bay), starts_at, ends_at, but=but)
    return {"bay": f"{bay.name} is taken: {_who_and_when(taken[0])}."} if taken else {}


def _fitter_refusal(
    location: Location, fitter: Staff, starts_at: datetime, ends_at: datetime, but: Visit | None
) -> dict[str, str]:
    if not fitter.location_rows.filter(location=location).exists():
        return {"fitter": f"{fitter} does not work at {location.name}."}
    taken = overlapping_visits(Q(fitter=fitter), starts_at, ends_at, but=but)
    return {"fitter": f"{fitter} is with {_who_and_when(taken[0])}."} if taken else {}


def _who_and_when(visit: Visit) -> str:
    zone = visit.location.zone_info
    begins = visit.starts_at.astimezone(zone)
    ends = begins + timedelta(minutes=visit.minutes)
    return f"{visit.player}, {begins:%H:%M} to {ends:%H:%M}"


def _called_off(visit: Visit, to: VisitState, deed: str, *, by: Actor, at: datetime) -> Visit:
    row = _locked(visit)
    FITTING_POLICY.require(by, FittingAction.VISIT_BOOK, location_id=row.location_id)
    if row.state == to:
        return row
    before = _move(row, to)
    row.save(update_fields=["state"])
    _record(deed, row, before={"state": before}, after={"state": row.state}, by=by, at=at)
    return row


def _move(visit: Visit, to: VisitState) -> str:
    """Change the state in memory; answer the word it had. Raises StateRefused."""
    now = VisitState(visit.state)
    if not can_move(now, to):
        raise StateRefused(refusal(now, to))
    visit.state = to
    return now.value


def _as_booked(visit: Visit) -> dict[str, Any]:
    return {
        "player": visit.player_id,
        "starts_at": visit.starts_at,
        "minutes": visit.minutes,
        "bay": visit.bay_id,
        "fitter": visit.fitter_id,
    }


def _record(
    deed: str,
    visit: Visit,
    *,
    before: Mapping[str, Any] | None = None,
    after: Mapping[str, Any],
    by: Actor,
    at: datetime,
) -> None:
    audit_record(
        action=f"fitting.visit.{deed}", subject=visit, before=before, after=after, by=by, at=at
    )
