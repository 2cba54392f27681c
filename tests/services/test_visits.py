"""Visits: one bay holds one at a time, and each state leads only where it may."""

import datetime as dt
import uuid

import pytest
from django.db import transaction

from fitshop.actor import Role
from fitshop.models import AuditEntry, OutgoingMessage
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from sessions.models import Conditions, FinalSpec, Visit
from sessions.selectors.visits import visit_for, visits_on
from sessions.services.conditions import conditions_record
from sessions.services.players import consent_record
from sessions.services.visits import (
    sequence_take,
    visit_book,
    visit_cancel,
    visit_close,
    visit_lock,
    visit_move,
    visit_no_show,
    visit_open,
)
from tests.fixtures_desk import AT, CLOCKWORK, TEN, a_desk, a_player, elsewhere

pytestmark = pytest.mark.django_db

HOUR = dt.timedelta(hours=1)
MINUTE = dt.timedelta(minutes=1)


@pytest.fixture
def desk():
    return a_desk()


@pytest.fixture
def player(desk):
    return a_player()


def test_a_booking_is_booked_and_a_walk_in_is_open_at_once(desk, player):
    booked = desk.book(player)
    here = desk.book(player, bay=desk.strip, starts_at=AT, is_walk_in=True)
    assert (booked.state, booked.opened_at) == ("booked", None)
    assert (here.state, here.opened_at, here.is_walk_in) == ("open", AT, True)
    assert AuditEntry.objects.filter(action="fitting.visit.booked").count() == 2


def test_the_same_id_again_is_the_same_visit(desk, player):
    one = uuid.uuid4()
    assert desk.book(player, visit_id=one) == desk.book(player, visit_id=one)
    assert Visit.objects.count() == 1
    with pytest.raises(FieldsRefused):
        desk.book(a_player("Tuva", "Lindqvist"), visit_id=one)


# The booked visit is 10:00 to 11:00; begins, minutes, whether the bay is free.
@pytest.mark.parametrize(
    ("begins", "minutes", "is_free"),
    [
        (TEN - HOUR, 60, True),
        (TEN - HOUR, 61, False),
        (TEN + HOUR, 30, True),
        (TEN + HOUR - MINUTE, 30, False),
        (TEN - HOUR, 180, False),
        (TEN + 15 * MINUTE, 30, False),
    ],
)
def test_a_bay_holds_one_visit_at_a_time(desk, player, begins, minutes, is_free):
    desk.book(player)
    other = a_player("Tuva", "Lindqvist")
    if is_free:
        desk.book(other, starts_at=begins, minutes=minutes)
        assert Visit.objects.count() == 2
    else:
        with pytest.raises(FieldsRefused) as refused:
            desk.book(other, starts_at=begins, minutes=minutes)
        assert refused.value.errors == {"bay": "Bay 1 is taken: Imke Brandvold, 10:00 to 11:00."}
        assert Visit.objects.count() == 1


def test_another_bay_is_free_and_a_cancelled_visit_frees_its_own(desk, player):
    first = desk.book(player)
    desk.book(a_player("Tuva", "Lindqvist"), bay=desk.strip)
    visit_cancel(visit=first, by=CLOCKWORK, at=AT)
    desk.book(a_player("Nell", "Ardagh"))
    assert Visit.objects.filter(state="booked").count() == 2


def test_a_fitter_is_with_one_player_at_a_time(desk, player):
    desk.book(player, fitter=desk.odo)
    with pytest.raises(FieldsRefused) as refused:
        desk.book(a_player("Tuva", "Lindqvist"), bay=desk.strip, fitter=desk.odo)
    assert refused.value.errors == {"fitter": "Odo Lark is with Imke Brandvold, 10:00 to 11:00."}


def test_the_sentence_has_the_locations_own_time(desk, player):
    in_summer = dt.datetime(2027, 7, 6, 9, 0, tzinfo=dt.UTC)  # 10:00 in Dublin
    desk.book(player, starts_at=in_summer)
    with pytest.raises(FieldsRefused, match="10:00 to 11:00"):
        desk.book(player, starts_at=in_summer)


@pytest.mark.parametrize("minutes", [29, 241])
def test_a_length_outside_the_shops_limits_is_refused(desk, player, minutes):
    with pytest.raises(FieldsRefused) as refused:
        desk.book(player, minutes=minutes)
    assert refused.value.errors == {"minutes": "An appointment lasts 30 to 240 minutes."}


@pytest.mark.parametrize("minutes", [30, 240])
def test_the_shops_shortest_and_longest_appointment_are_taken(desk, player, minutes):
    assert desk.book(player, minutes=minutes).minutes == minutes


def test_a_bay_or_fitter_of_another_location_is_refused(desk, player):
    other = elsewhere()
    with pytest.raises(FieldsRefused) as refused:
        desk.book(player, location=other, bay=desk.bay, fitter=desk.odo)
    assert refused.value.errors == {
        "bay": "Bay 1 is not at Fellside.",
        "fitter": "Odo Lark does not work at Fellside.",
    }


def test_nobody_books_where_he_does_not_work_or_sees_what_is_there(desk, player):
    other = elsewhere()
    stranger = desk.actor(Role.DESK, at=other)
    with pytest.raises(Refused):
        visit_book(
            player=player,
            location=desk.location,
            bay=None,
            fitter=None,
            starts_at=TEN,
            minutes=60,
            by=stranger,
            at=AT,
        )
    visit = desk.book(player)
    assert visit_for(stranger, visit.pk) is None
    assert visit_for(desk.actor(Role.DESK), visit.pk) == visit
    with pytest.raises(Refused):
        visit_cancel(visit=visit, by=stranger, at=AT)


def test_a_visit_is_moved_within_its_own_hour(desk, player):
    visit = desk.book(player)
    moved = visit_move(
        visit=visit,
        starts_at=TEN + 30 * MINUTE,
        minutes=90,
        bay=desk.bay,
        fitter=desk.odo,
        by=desk.actor(Role.DESK),
        at=AT,
    )
    assert (moved.starts_at, moved.minutes, moved.fitter) == (TEN + 30 * MINUTE, 90, desk.odo)
    entry = AuditEntry.objects.get(action="fitting.visit.moved")
    assert (entry.before["minutes"], entry.after["minutes"]) == (60, 90)


def test_an_open_visit_is_not_moved(desk, player):
    visit = visit_open(visit=desk.book(player), by=desk.actor(Role.FITTER), at=AT)
    with pytest.raises(Refused, match="Only a booked visit can be moved"):
        visit_move(
            visit=visit,
            starts_at=TEN,
            minutes=60,
            bay=None,
            fitter=None,
            by=desk.actor(Role.DESK),
            at=AT,
        )


def test_a_visit_is_opened_closed_and_opened_again(desk, player):
    fitter = desk.actor(Role.FITTER)
    visit = visit_open(visit=desk.book(player), by=fitter, at=AT)
    assert visit_open(visit=visit, by=fitter, at=AT + HOUR).opened_at == AT
    visit = visit_close(visit=visit, by=fitter, at=AT + HOUR)
    assert (visit.state, visit.closed_at) == ("closed", AT + HOUR)
    visit = visit_open(visit=visit, by=fitter, at=AT + 2 * HOUR)
    assert (visit.state, visit.opened_at, visit.closed_at) == ("open", AT, None)
    assert AuditEntry.objects.filter(action="fitting.visit.opened").count() == 2


def test_a_closed_visit_is_not_closed_again(desk, player):
    fitter = desk.actor(Role.FITTER)
    visit = visit_open(visit=desk.book(player), by=fitter, at=AT)
    visit_close(visit=visit, by=fitter, at=AT)
    with pytest.raises(Refused, match="not open"):
        visit_close(visit=visit, by=fitter, at=AT)


def test_once_an_order_is_released_the_record_stays_as_it_is(desk, player):
    fitter = desk.actor(Role.FITTER)
    visit = visit_open(visit=desk.book(player), by=fitter, at=AT)
    visit = visit_close(visit=visit, by=fitter, at=AT)
    visit_lock(visit=visit, by=desk.actor(Role.BUILDER), at=AT + HOUR)
    assert visit_lock(visit=visit, by=CLOCKWORK, at=AT + 2 * HOUR).locked_at == AT + HOUR
    with pytest.raises(StateRefused, match="in the workshop"):
        visit_open(visit=visit, by=fitter, at=AT + 2 * HOUR)
    assert AuditEntry.objects.filter(action="fitting.visit.locked").count() == 1


def test_a_cancelled_visit_stays_cancelled(desk, player):
    visit = visit_cancel(visit=desk.book(player), by=desk.actor(Role.DESK), at=AT)
    with pytest.raises(StateRefused):
        visit_open(visit=visit, by=desk.actor(Role.FITTER), at=AT)


def test_a_no_show_is_said_only_after_the_time_and_may_come_after_all(desk, player):
    visit = desk.book(player)
    with pytest.raises(StateRefused, match="not begun"):
        visit_no_show(visit=visit, by=desk.actor(Role.DESK), at=TEN - MINUTE)
    visit = visit_no_show(visit=visit, by=desk.actor(Role.DESK), at=TEN + HOUR)
    assert visit.state == "no_show"
    assert visit_open(visit=visit, by=desk.actor(Role.FITTER), at=TEN + HOUR).state == "open"


def test_the_desk_opens_no_visit(desk, player):
    with pytest.raises(Refused):
        visit_open(visit=desk.book(player), by=desk.actor(Role.DESK), at=AT)


def test_sequence_numbers_rise_by_one_whoever_holds_the_row(desk, player):
    visit = desk.book(player)
    stale = Visit.objects.get(pk=visit.pk)
    with transaction.atomic():
        assert [sequence_take(visit), sequence_take(stale), sequence_take(visit)] == [1, 2, 3]
    visit.refresh_from_db()
    assert visit.last_sequence == 3


def record_air(visit, conditions_id, **values):
    return conditions_record(
        visit=visit, conditions_id=conditions_id, values=values, by=CLOCKWORK, at=AT
    )


def test_the_air_is_recorded_once_and_what_was_not_measured_stays_empty(desk, player):
    visit = visit_open(visit=desk.book(player), by=CLOCKWORK, at=AT)
    one = uuid.uuid4()
    air = record_air(visit, one, temperature_c=0.0, as_typed={"temperature": "0"})
    assert record_air(visit, one, temperature_c=5.0) == air
    air = Conditions.objects.get()
    assert (air.temperature_c, air.pressure_hpa, air.sequence) == (0.0, None, 1)
    assert air.as_typed == {"temperature": "0"}


@pytest.mark.parametrize(
    ("name", "last_good", "first_bad"),
    [
        ("temperature_c", 50, 51),
        ("temperature_c", -20, -21),
        ("pressure_hpa", 600, 599),
        ("humidity_pct", 100, 101),
        ("wind_ms", 40, 41),
        ("altitude_m", 5000, 5001),
    ],
)
def test_unbelievable_air_is_refused(desk, player, name, last_good, first_bad):
    visit = visit_open(visit=desk.book(player), by=CLOCKWORK, at=AT)
    record_air(visit, uuid.uuid4(), **{name: last_good})
    with pytest.raises(FieldsRefused) as refused:
        record_air(visit, uuid.uuid4(), **{name: first_bad})
    assert list(refused.value.errors) == [name]


def test_air_is_recorded_only_while_the_visit_is_open(desk, player):
    with pytest.raises(Refused):
        record_air(desk.book(player), uuid.uuid4(), temperature_c=12)


def test_a_day_is_the_locations_own(desk, player):
    late = desk.book(player, starts_at=dt.datetime(2027, 7, 6, 22, 30, tzinfo=dt.UTC))  # 23:30
    early = desk.book(player, starts_at=dt.datetime(2027, 7, 6, 23, 30, tzinfo=dt.UTC))  # 00:30
    actor = desk.actor(Role.DESK)
    assert list(visits_on(actor, desk.location, dt.date(2027, 7, 6))) == [late]
    assert list(visits_on(actor, desk.location, dt.date(2027, 7, 7))) == [early]


def signed_and_open(desk, player):
    visit = visit_open(visit=desk.book(player), by=desk.actor(Role.FITTER), at=AT)
    FinalSpec.objects.create(
        visit=visit,
        version=1,
        state="signed",
        drafted_at=AT,
        drafted_by="Mara Quill",
        signed_at=AT,
        signed_by="Mara Quill",
    )
    return visit


def test_closing_makes_the_summary_due_once_however_often_it_is_closed(desk):
    player = a_player(email="imke@larkhill.example")
    consent_record(
        player=player, about="email", text_version="t-1", given_by="player", by=CLOCKWORK, at=AT
    )
    fitter = desk.actor(Role.FITTER)
    visit = signed_and_open(desk, player)
    visit_close(visit=visit, by=fitter, at=AT + HOUR)
    visit_open(visit=visit, by=fitter, at=AT + HOUR)
    visit_close(visit=visit, by=fitter, at=AT + 2 * HOUR)
    letter = OutgoingMessage.objects.get()
    assert (letter.kind, letter.recipient_email) == ("summary", "imke@larkhill.example")


def test_closing_writes_to_nobody_who_did_not_agree(desk):
    visit = signed_and_open(desk, a_player(email="imke@larkhill.example"))
    visit_close(visit=visit, by=desk.actor(Role.FITTER), at=AT + HOUR)
    assert not OutgoingMessage.objects.exists()


def test_closing_without_a_signed_spec_sends_nothing(desk):
    player = a_player(email="imke@larkhill.example")
    consent_record(
        player=player, about="email", text_version="t-1", given_by="player", by=CLOCKWORK, at=AT
    )
    visit = visit_open(visit=desk.book(player), by=CLOCKWORK, at=AT)
    assert visit_close(visit=visit, by=CLOCKWORK, at=AT + HOUR).state == "closed"
    assert not OutgoingMessage.objects.exists()
