"""Groove checks: due by the rounds, once an order, never to one who did not agree."""

from datetime import timedelta

import pytest

from fitshop.actor import system_actor
from fitshop.models import OutgoingMessage
from orders.services.hand_over import order_hand_over, order_ready
from orders.services.reminders import reminders_queue_due
from sessions.models import Answer, Club, Interview
from tests.order_room import AT, CURED, Workshop

pytestmark = pytest.mark.django_db

CLOCKWORK = system_actor("reminders")


def handed_over(room, **answers):
    interview = Interview.objects.create(visit=room.visit, started_at=AT)
    for number, (question, value) in enumerate(answers.items(), start=1):
        Answer.objects.create(
            interview=interview, sequence=number, question=question, value=value, said_at=AT,
            recorded_by="Mara Quill",
        )  # fmt: skip
    order = order_ready(order=room.passed(), by=room.desk, at=CURED)
    return order_hand_over(order=order, how="collected", by=room.desk, at=CURED)


def queued(days):
    return reminders_queue_due(by=CLOCKWORK, at=CURED + timedelta(days=days))


def test_a_check_is_due_after_the_shops_rounds():
    """70 rounds at 70 a year: a year, 366 days by the calendar's 365.25."""
    room = Workshop()
    room.agree_to_mail()
    handed_over(room, rounds_a_year="70")
    assert queued(364) == []
    assert len(queued(366)) == 1
    assert "grooves" in OutgoingMessage.objects.get(kind="groove_check").body_text


def test_asked_every_hour_it_is_queued_once():
    room = Workshop()
    room.agree_to_mail()
    handed_over(room, rounds_a_year="70")
    assert len(queued(366)) == 1
    assert queued(367) == []
    assert OutgoingMessage.objects.filter(kind="groove_check").count() == 1


def test_mats_and_sand_bring_it_forward():
    """70 rounds at 70 x 1.25 x 1.25 = 109.375 a year: 233.76 days."""
    room = Workshop()
    room.agree_to_mail()
    handed_over(room, rounds_a_year="70", mats="mostly_on_mats", sand_practice="often")
    assert queued(233) == []
    assert len(queued(234)) == 1


def test_nobody_who_did_not_agree_is_written_to():
    room = Workshop()
    handed_over(room, rounds_a_year="70")
    assert queued(400) == []


def test_without_rounds_nothing_is_guessed():
    room = Workshop()
    room.agree_to_mail()
    handed_over(room)
    assert queued(4000) == []


def test_clubs_that_left_the_bag_want_no_check():
    room = Workshop()
    room.agree_to_mail()
    order = handed_over(room, rounds_a_year="70")
    Club.objects.filter(source_order_id=order.pk).update(left_bag_at=CURED)
    assert queued(400) == []
