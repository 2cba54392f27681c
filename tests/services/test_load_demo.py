"""The demo shop: whole after one run, untouched by a second, never mixed into a real shop."""

from datetime import UTC, datetime

import pytest
from django.core.management import CommandError
from django.utils import timezone

from fitshop.actor import system_actor
from fitshop.models import AuditEntry, Shop, Staff
from fitshop.services.staff import shop_set_up
from orders.demo.people import ACCOUNTS, PASSWORD
from orders.models import BuildOrder, Gauge
from sessions.models import (
    Adapter,
    Consent,
    Grip,
    Head,
    MeasuringDevice,
    Player,
    Shaft,
    Shot,
    TrialHead,
    TrialShaft,
    Visit,
)
from tests.demo_shop import load

pytestmark = pytest.mark.django_db
NOON = datetime(2027, 5, 7, 11, 10, tzinfo=UTC)  # 12:10 in the demo's zone
TABLES = (
    Staff, Head, Shaft, Grip, TrialHead, TrialShaft, Adapter, MeasuringDevice, Gauge, Player,
    Consent, Visit, Shot, BuildOrder, AuditEntry,
)  # fmt: skip


@pytest.fixture
def clock(monkeypatch):
    """Say what time it is for the command."""

    def say(moment: datetime) -> None:
        monkeypatch.setattr(timezone, "now", lambda: moment)

    say(NOON)
    return say


def counts() -> dict[str, int]:
    return {table.__name__: table.objects.count() for table in TABLES}


def test_it_tells_the_four_accounts_and_their_password(clock):
    told = load()
    assert PASSWORD in told
    for name in ("fitter", "builder", "desk", "manager"):
        assert name in told
        assert Staff.objects.get(username=name).check_password("wedges and sand")
    assert ACCOUNTS == ("fitter", "builder", "desk", "manager")


def test_a_second_run_on_the_same_day_changes_nothing(clock):
    load()
    before = counts()
    moved = Visit.objects.order_by("starts_at").first()
    clock(datetime(2027, 5, 7, 16, 40, tzinfo=UTC))
    load()
    assert counts() == before
    assert Visit.objects.get(pk=moved.pk).starts_at == moved.starts_at


def test_another_day_gets_visits_of_its_own_and_nothing_else(clock):
    load()
    before = counts()
    clock(datetime(2027, 5, 10, 8, 0, tzinfo=UTC))
    load()
    after = counts()
    assert {name for name in after if after[name] != before[name]} == {"Visit", "AuditEntry"}
    assert after["Visit"] == before["Visit"] + 6


def test_the_next_day_does_not_book_twice_what_was_booked_for_tomorrow(clock):
    load()
    clock(datetime(2027, 5, 8, 8, 0, tzinfo=UTC))
    load()
    clock(datetime(2027, 5, 9, 8, 0, tzinfo=UTC))
    load()
    booked = [(visit.bay_id, visit.starts_at) for visit in Visit.objects.all()]
    assert len(booked) == len(set(booked))
    assert len(booked) > 7


@pytest.mark.parametrize(
    "moment",
    [
        datetime(2027, 5, 7, 3, 1, tzinfo=UTC),
        datetime(2027, 5, 7, 22, 50, tzinfo=UTC),
        datetime(2027, 12, 31, 23, 59, tzinfo=UTC),
    ],
)
def test_it_loads_at_any_hour_and_books_the_walk_through_for_today(clock, moment):
    clock(moment)
    load()
    first = Visit.objects.filter(state="booked").order_by("starts_at").first()
    zone = first.location.zone_info
    assert first.starts_at.astimezone(zone).date() == moment.astimezone(zone).date()
    assert (first.bay.name, first.state, str(first.player)) == ("Bay 1", "booked", "Lorcan Tiernan")


def test_a_real_shop_is_refused_and_keeps_what_it_has(clock):
    shop_set_up(
        shop_name="A real one",
        location_name="Here",
        zone="Europe/Dublin",
        length_unit="in",
        carry_unit="yd",
        paper="A4",
        username="owner",
        display_name="The owner",
        password="a long real password",
        by=system_actor("first start"),
        at=NOON,
    )
    before = counts()
    with pytest.raises(CommandError, match="A real one"):
        load()
    assert counts() == before


def test_a_database_with_staff_and_no_shop_is_refused(clock):
    Staff.objects.create_user(username="someone", password="a long real password")
    with pytest.raises(CommandError):
        load()
    assert not Shop.objects.exists()


def test_a_demo_shop_that_was_renamed_is_still_the_demo(clock):
    load()
    Shop.objects.update(name="Renamed by the manager")
    load()
    assert Shop.objects.get().name == "Renamed by the manager"
