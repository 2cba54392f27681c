"""An order that waits for a part: for what, until when, and back to where the bench had left it."""

from datetime import date, timedelta
from uuid import uuid4

import pytest

from fitshop.models import AuditEntry, Location
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from orders.models import BuildOrder, PartsWait
from orders.services.build_orders import order_cancel
from orders.services.checks import check_sign
from orders.services.parts import order_parts_arrived, order_wait_for_parts
from tests.order_room import AT, CURED, MIXED, Workshop
from tests.spec_room import staff_actor

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    return Workshop()


def waits(room, order, missing="head, Sedge 56 right", *, at=MIXED, by=None, **more):
    return order_wait_for_parts(order=order, missing=missing, by=by or room.builder, at=at, **more)


def arrives(room, order, *, at=MIXED, by=None, **more):
    return order_parts_arrived(order=order, by=by or room.desk, at=at, **more)


def state(order) -> str:
    return BuildOrder.objects.get(pk=order.pk).state


def test_an_order_waits_and_says_for_what_and_until_when(room):
    order = room.released()
    wait = waits(room, order, expected_on=date(2027, 5, 12))
    assert state(order) == "waiting_for_parts"
    assert (wait.missing, wait.expected_on) == ("head, Sedge 56 right", date(2027, 5, 12))
    entry = AuditEntry.objects.get(action="orders.order.waiting")
    assert (entry.before["state"], entry.after["state"]) == ("released", "waiting_for_parts")
    assert entry.after["missing"] == "head, Sedge 56 right"


@pytest.mark.parametrize("day", [date(2027, 5, 6), None])
def test_what_is_missing_must_be_said_and_no_past_day_is_promised(room, day):
    with pytest.raises(FieldsRefused) as refusal:
        waits(room, room.released(), missing=" ", expected_on=day)
    assert ("expected_on" in refusal.value.errors) == (day is not None)
    assert "missing" in refusal.value.errors


def test_what_came_sends_it_back_to_where_it_was(room):
    """Not begun, in build, in rework: each order goes back to its own."""
    order = room.released()
    waits(room, order)
    assert arrives(room, order).state == "released"

    room.step(room.club(order), "picked", hand="right")
    waits(room, order, "shaft")
    assert arrives(room, order).state == "in_build"
    wait = PartsWait.objects.get(missing="shaft")
    assert (wait.arrived_at, wait.arrived_by) == (MIXED, "Pia Holm")


def test_a_rework_that_waited_is_a_rework_again(room):
    order = room.built(loft="56")
    check_sign(order=order, result="rework", cause="scratch", by=room.second, at=CURED)
    waits(room, order, at=CURED)
    assert arrives(room, order, at=CURED).state == "rework"


def test_what_can_be_done_meanwhile_is_done_and_it_waits_on():
    """Two clubs, one head missing: the other club is built, and the order waits all the same."""
    room = Workshop(clubs=2)
    order = room.released()
    waits(room, order)
    room.step(room.club(order, 2), "picked", hand="right")
    assert state(order) == "waiting_for_parts"
    assert arrives(room, order).state == "in_build"


def test_built_while_it_waited_it_goes_to_its_check(room):
    order = room.released()
    waits(room, order)
    room.glued(room.club(order))
    room.measured(room.club(order))
    assert state(order) == "waiting_for_parts"
    assert arrives(room, order, at=CURED).state == "to_check"


def test_the_same_form_twice_is_one_wait_however_late(room):
    order, form = room.released(), uuid4()
    waits(room, order, wait_id=form)
    waits(room, order, wait_id=form)
    arrives(room, order, wait_id=form)
    waits(room, order, wait_id=form, at=CURED)
    assert state(order) == "released"
    assert PartsWait.objects.count() == 1
    assert AuditEntry.objects.filter(action="orders.order.waiting").count() == 1


def test_said_twice_that_it_came_is_said_once_and_ends_no_later_wait(room):
    order, first = room.released(), uuid4()
    waits(room, order, wait_id=first)
    arrives(room, order, wait_id=first)
    assert arrives(room, order, wait_id=first).state == "released"
    waits(room, order, "grip", wait_id=uuid4())
    arrives(room, order, wait_id=first)
    assert state(order) == "waiting_for_parts"
    assert PartsWait.objects.filter(arrived_at=None).get().missing == "grip"


def test_a_day_that_moved_is_put_right_under_the_same_wait(room):
    order, form = room.released(), uuid4()
    waits(room, order, wait_id=form, expected_on=date(2027, 5, 12))
    waits(room, order, wait_id=form, expected_on=date(2027, 5, 20), by=room.desk)
    assert PartsWait.objects.get().expected_on == date(2027, 5, 20)
    last = AuditEntry.objects.filter(action="orders.order.waiting").order_by("-pk").first()
    assert last.before["expected_on"] == "2027-05-12"


def test_a_second_person_does_not_write_over_the_first(room):
    order = room.released()
    waits(room, order, wait_id=uuid4())
    with pytest.raises(StateRefused, match="It waits already for head, Sedge 56 right, said Odo"):
        waits(room, order, "grip", wait_id=uuid4(), by=room.desk)


def test_only_what_is_being_built_waits(room):
    order = room.ordered()
    with pytest.raises(Refused, match="Only what is being built"):
        waits(room, order)
    order_cancel(order=order, why="moved away", by=room.manager, at=AT)
    with pytest.raises(Refused, match="Only what is being built"):
        waits(room, order)


@pytest.mark.parametrize("made", ["to_check", "ready", "handed_over"])
def test_what_is_built_waits_for_nothing(room, made):
    order = room.released()
    BuildOrder.objects.filter(pk=order.pk).update(state=made, handed_over_at=AT)
    with pytest.raises(Refused, match="Only what is being built"):
        waits(room, order)


def test_nothing_arrives_where_nothing_is_waited_for(room):
    with pytest.raises(Refused, match="waits for no part"):
        arrives(room, room.released())


def test_a_fitter_and_another_location_may_not(room):
    order = room.released()
    with pytest.raises(Refused):
        waits(room, order, by=room.fitter)
    elsewhere = Location.objects.create(name="High Meadow", zone="Europe/Dublin")
    with pytest.raises(Refused, match="where you don't work"):
        waits(room, order, by=staff_actor(elsewhere, "Jo Ash", *room.desk.roles))


def test_a_cancelled_order_keeps_its_wait_and_ends_it_no_more(room):
    order = room.released()
    waits(room, order)
    order_cancel(order=order, why="moved away", by=room.manager, at=AT + timedelta(days=1))
    with pytest.raises(Refused, match="waits for no part"):
        arrives(room, order)
