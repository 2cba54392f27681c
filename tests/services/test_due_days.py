"""The promised day: moved with a reason, asked about when it is over, and the player called."""

from datetime import date, timedelta

import pytest

from fitshop.models import AuditEntry, OutgoingMessage
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from orders.services.due_days import order_call_done, order_due_move
from orders.services.hand_over import order_ready
from orders.services.tellings import order_tell
from sessions.services.players import consent_record
from tests.order_room import AT, CURED, Workshop

pytestmark = pytest.mark.django_db

# Ordered on 7 May 2027 with ten days of lead: promised for 17 May.
PROMISED = date(2027, 5, 17)
LATE = AT + timedelta(days=11)


@pytest.fixture
def room():
    return Workshop()


def code_of(call):
    with pytest.raises((FieldsRefused, StateRefused)) as refusal:
        call()
    return refusal.value.code


def test_a_day_moves_with_its_reason_and_the_desk_calls(room):
    order = room.released()
    assert order.due_on == PROMISED
    moved = order_due_move(
        order=order, due_on=date(2027, 5, 20), why="no grips", by=room.builder, at=AT
    )
    assert (moved.due_on, moved.promised_on, moved.wants_call) == (
        date(2027, 5, 20), PROMISED, True
    )  # fmt: skip
    entry = AuditEntry.objects.get(action="orders.order.due_moved")
    assert (entry.before["due_on"], entry.after["why"]) == ("2027-05-17", "no grips")
    with pytest.raises(Refused):
        order_call_done(order=order, by=room.builder, at=AT)
    called = order_call_done(order=order, by=room.desk, at=AT + timedelta(hours=1))
    assert not called.wants_call
    again = order_due_move(
        order=order, due_on=date(2027, 5, 24), why="still none", by=room.desk, at=LATE
    )
    assert (again.promised_on, again.wants_call) == (PROMISED, True)


@pytest.mark.parametrize(
    ("day", "why", "code"),
    [
        (date(2027, 5, 6), "x", "orders.due_day_past"),
        (date(2027, 5, 20), " ", "orders.due_day_no_why"),
    ],
)
def test_a_day_that_is_past_or_without_a_reason_is_refused(room, day, why, code):
    order = room.released()
    move = lambda: order_due_move(order=order, due_on=day, why=why, by=room.desk, at=AT)  # noqa: E731
    assert code_of(move) == code
    order.refresh_from_db()
    assert (order.due_on, order.wants_call) == (PROMISED, False)


def test_nobody_calls_about_a_day_that_stands(room):
    order = room.released()
    call = lambda: order_call_done(order=order, by=room.desk, at=AT)  # noqa: E731
    assert code_of(call) == "orders.day_not_moved"


def test_in_time_nothing_is_asked(room):
    order = order_ready(order=room.passed(), by=room.desk, at=CURED)
    assert (order.wants_call, order.promised_on) == (False, None)


@pytest.mark.parametrize("day_moved", [True, False])
def test_ready_after_its_day_asks_and_yes_is_a_call_and_a_letter_worded_for_it(room, day_moved):
    room.player.email = "ivo@players.invalid"
    room.player.save()
    consent_record(
        player=room.player, about="email", text_version="email-1", given_by="player",
        by=room.desk, at=AT,
    )  # fmt: skip
    order = room.passed()
    late = lambda: order_ready(order=order, by=room.desk, at=LATE)  # noqa: E731
    assert code_of(late) == "orders.day_moved_unasked"
    order.refresh_from_db()
    assert order.state == "to_check"
    ready = order_ready(order=order, day_moved=day_moved, by=room.desk, at=LATE)
    assert ready.wants_call is day_moved
    letter = OutgoingMessage.objects.get(kind="order_ready")
    for body in (letter.body_text, letter.body_html):
        assert ("Monday 17 May" in body) is day_moved
    # Who reaches the player about the clubs has said the day too.
    order_tell(order=ready, how="telephone", outcome="reached", by=room.desk, at=LATE)
    ready.refresh_from_db()
    assert not ready.wants_call
