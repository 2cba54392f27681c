"""Trial equipment: taken out of use at once, checked and put back."""

import datetime as dt
from decimal import Decimal

import pytest

from fitshop.actor import Role
from fitshop.models import AuditEntry
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused
from sessions.services.equipment import equipment_check, equipment_withdraw
from tests.fixtures_capture import AT, a_fitting, actor_for, staff

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    return a_fitting()


def test_withdrawing_says_when_and_why_and_the_first_time_stands(room):
    equipment_withdraw(item=room.head, why="loose head", by=room.fitter, at=AT)
    again = equipment_withdraw(
        item=room.head, why="found later", by=room.builder, at=AT + dt.timedelta(hours=1)
    )
    assert (again.withdrawn_at, again.withdrawn_why) == (AT, "loose head")
    assert again.withdrawn_by == "Odo"
    assert AuditEntry.objects.filter(action="fitting.equipment.withdrawn").count() == 1


def test_withdrawing_without_a_reason_is_refused(room):
    with pytest.raises(FieldsRefused) as refused:
        equipment_withdraw(item=room.head, why="  ", by=room.fitter, at=AT)
    assert refused.value.errors == {"why": "Say why, for example: loose head."}


def test_the_desk_may_not_withdraw(room):
    desk = actor_for(staff("desk", Role.DESK, at=room.location))
    with pytest.raises(Refused, match="can't withdraw equipment"):
        equipment_withdraw(item=room.head, why="loose", by=desk, at=AT)


def test_a_check_keeps_what_it_does_not_name_and_may_put_back_into_use(room):
    equipment_withdraw(item=room.head, why="loose head", by=room.fitter, at=AT)
    checked = equipment_check(
        item=room.head, measured={"measured_loft_deg": Decimal("53.5")}, back_in_use=True,
        by=room.builder, at=AT,
    )  # fmt: skip
    assert (checked.measured_loft_deg, checked.measured_lie_deg) == (
        Decimal("53.5"), Decimal("63.5"),
    )  # fmt: skip
    assert (checked.withdrawn_at, checked.checked_on) == (None, dt.date(2027, 3, 2))
    assert checked.withdrawn_by == ""


def test_a_check_does_not_put_back_into_use_by_itself(room):
    equipment_withdraw(item=room.adapter, why="thread worn", by=room.fitter, at=AT)
    checked = equipment_check(
        item=room.adapter, measured={}, inspect_by=dt.date(2027, 9, 1), by=room.builder, at=AT
    )
    assert (checked.withdrawn_at, checked.inspect_by) == (AT, dt.date(2027, 9, 1))


def test_the_day_of_a_check_is_the_locations_own(room):
    room.location.zone = "Pacific/Auckland"
    room.location.save()
    late = dt.datetime(2027, 3, 2, 12, 0, tzinfo=dt.UTC)
    checked = equipment_check(item=room.head, measured={}, by=room.builder, at=late)
    assert checked.checked_on == dt.date(2027, 3, 3)


def test_what_is_not_measured_on_a_thing_is_refused(room):
    with pytest.raises(FieldsRefused, match="This is not measured on it"):
        equipment_check(
            item=room.adapter, measured={"measured_loft_deg": Decimal(50)}, by=room.builder, at=AT
        )
