"""Rounds played since the hand-over, as the player tells them at the desk."""

from datetime import timedelta
from uuid import uuid4

import pytest

from fitshop.models import AuditEntry
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused
from orders.models import RoundsReport
from orders.services.hand_over import order_hand_over, order_ready
from orders.services.rounds import rounds_report
from tests.order_room import CURED, Workshop

pytestmark = pytest.mark.django_db

LATER = CURED + timedelta(days=90)


@pytest.fixture
def room():
    return Workshop()


@pytest.fixture
def order(room):
    ready = order_ready(order=room.passed(), by=room.desk, at=CURED)
    return order_hand_over(order=ready, how="collected", by=room.desk, at=CURED)


def told(order, room, rounds, **more):
    return rounds_report(
        **({"order": order, "rounds": rounds, "by": room.desk, "at": LATER} | more)
    )


def test_rounds_are_written_down_with_who_and_when(room, order):
    report = told(order, room, 21)
    assert (report.rounds, report.played_until) == (21, LATER.date())
    assert report.reported_by == room.desk.name
    entry = AuditEntry.objects.get(action="orders.rounds.reported")
    assert entry.after["rounds"] == 21


def test_the_same_form_twice_is_one_report(room, order):
    report_id = uuid4()
    first = told(order, room, 21, report_id=report_id)
    assert told(order, room, 21, report_id=report_id) == first
    assert RoundsReport.objects.count() == 1


def test_before_the_hand_over_there_are_no_rounds(room):
    ready = order_ready(order=room.passed(), by=room.desk, at=CURED)
    with pytest.raises(Refused, match="counted from the hand-over"):
        told(ready, room, 3)


def test_the_bench_writes_no_rounds(room, order):
    with pytest.raises(Refused):
        told(order, room, 3, by=room.builder)


@pytest.mark.parametrize(
    ("rounds", "days", "field"),
    [
        (-1, 0, "rounds"),
        (2001, 0, "rounds"),
        (5, 1, "played_until"),
        (5, -91, "played_until"),
    ],
)
def test_what_can_not_be_is_refused_beside_its_field(room, order, rounds, days, field):
    until = (LATER + timedelta(days=days)).date()
    with pytest.raises(FieldsRefused) as refused:
        told(order, room, rounds, played_until=until)
    assert set(refused.value.errors) == {field}
    assert not RoundsReport.objects.exists()


def test_the_day_of_the_hand_over_and_the_most_rounds_pass(room, order):
    assert told(order, room, 0, played_until=CURED.date()).rounds == 0
    assert told(order, room, 2000).rounds == 2000


def test_rounds_since_the_hand_over_never_grow_fewer(room, order):
    told(order, room, 21, played_until=(LATER - timedelta(days=30)).date())
    with pytest.raises(FieldsRefused) as refused:
        told(order, room, 20)
    assert "21 were told for an earlier day" in refused.value.errors["rounds"]
    assert told(order, room, 21).rounds == 21
    with pytest.raises(FieldsRefused):
        told(order, room, 22, played_until=(LATER - timedelta(days=10)).date())


def test_a_mistyped_report_is_told_again_for_the_same_day(room, order):
    told(order, room, 210)
    later = LATER + timedelta(hours=1)
    told(order, room, 21, at=later)
    assert told(order, room, 25, at=later + timedelta(days=9)).rounds == 25
