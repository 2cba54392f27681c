"""Groove checks: due by the rounds, once an order, never to one who did not agree."""

from datetime import timedelta

import pytest

from fitshop.actor import system_actor
from fitshop.models import OutgoingMessage
from fitshop.selectors import settings_in_force
from orders.selectors.grooves import forecast_of
from orders.services.hand_over import order_hand_over, order_ready
from orders.services.reminders import reminders_queue_due
from orders.services.rounds import rounds_report
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


def test_rounds_told_since_count_instead_of_those_expected():
    """60 told after 100 days leave 10 at 70 a year: 52.18 days more."""
    room = Workshop()
    room.agree_to_mail()
    order = handed_over(room, rounds_a_year="70")
    told_at = CURED + timedelta(days=100)
    rounds_report(order=order, rounds=60, by=room.desk, at=told_at)
    assert queued(152) == []
    assert len(queued(153)) == 1


def test_who_played_less_than_expected_is_not_called_early():
    room = Workshop()
    room.agree_to_mail()
    order = handed_over(room, rounds_a_year="70")
    rounds_report(order=order, rounds=5, by=room.desk, at=CURED + timedelta(days=360))
    assert queued(366) == []
    # 65 rounds more at 70 a year: 339.16 days.
    assert queued(360 + 339) == []
    assert len(queued(360 + 340)) == 1


def test_who_plays_from_april_to_october_wears_nothing_in_winter():
    """70 rounds in a season of 214 days: due when so many of its days are gone."""
    room = Workshop()
    room.agree_to_mail()
    order = handed_over(room, rounds_a_year="70", season="april_to_october")
    forecast = forecast_of(order, settings_in_force().values)
    assert forecast is not None
    assert forecast.due_on is not None
    handed = CURED.date()
    in_season = [
        day for day in (handed + timedelta(days=n) for n in range(800)) if 4 <= day.month <= 10
    ]
    assert forecast.due_on == in_season[213] + timedelta(days=1)


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
