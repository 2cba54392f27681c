"""The gauges' pages: entered with its method, refused beside the field, named once."""

from datetime import timedelta
from decimal import Decimal
from uuid import uuid4

import pytest
from django.urls import reverse
from django.utils import timezone

from fitshop.models import AuditEntry
from orders.models import Gauge, GaugeCheck, Reading
from tests.order_room import AT, Workshop
from tests.spec_room import shop, signed_in

pytestmark = pytest.mark.django_db


@pytest.fixture
def builder(client):
    shop()
    room = Workshop()
    client.force_login(signed_in(room.location, username="odo", role="builder"))
    client.location = room.location
    client.room = room
    return client


def typed(builder, **changes):
    return {
        "gauge_id": uuid4(), "name": "Long ruler", "measure": "length", "length_method": "ruler",
        "repeatability": "0.5", "checked_on": "2026-05-01", "location": builder.location.pk,
    } | changes  # fmt: skip


def test_a_ruler_is_entered_with_its_method_and_stands_in_the_list(builder):
    data = typed(builder)
    for _ in range(2):  # sent twice it is one gauge
        assert builder.post(reverse("gauge_new"), data).status_code == 302
    assert Gauge.objects.get().length_method == "ruler"
    assert GaugeCheck.objects.get().is_good
    text = builder.get(reverse("gauges")).content.decode()
    assert "Long ruler" in text
    assert "bench ruler along the shaft" in text


@pytest.mark.parametrize(
    ("field", "changes"),
    [
        ("length_method", {"length_method": ""}),
        ("length_method", {"measure": "loft"}),
        ("measure", {"measure": "colour"}),
        ("repeatability", {"repeatability": "-1"}),
        ("repeatability", {"repeatability": "near"}),
        ("checked_on", {"checked_on": "9999-12-31"}),
        ("checked_on", {"checked_on": str(timezone.localdate() + timedelta(days=2))}),
        ("name", {"name": " "}),
        ("location", {"location": uuid4()}),
    ],
)
def test_a_gauge_that_makes_no_sense_is_refused_beside_its_field_and_stays_typed(
    builder, field, changes
):
    answer = builder.post(reverse("gauge_new"), typed(builder, **changes))
    assert answer.status_code == 422
    text = answer.content.decode()
    assert f'id="id_{field}_error"' in text
    if field != "name":
        assert 'value="Long ruler"' in text
    assert not Gauge.objects.exists()


def test_a_gauge_is_put_right_and_away_and_old_readings_stay(builder):
    gauge = builder.room.gauge("length", "0.2", "ruler")
    club = builder.room.club(builder.room.released())
    Reading.objects.create(
        club=club, stage="as_built", measure="length", value=900, length_method="ruler",
        gauge=gauge, read_at=AT, read_by="Odo Lark",
    )  # fmt: skip
    url = reverse("gauge_edit", args=[gauge.pk])
    data = {"name": "Stop ruler", "length_method": "rules", "repeatability": "0.4"}
    assert builder.post(url, data | {"put_away": "1"}).status_code == 302
    gauge.refresh_from_db()
    assert (gauge.name, gauge.length_method, gauge.in_use) == ("Stop ruler", "rules", False)
    reading = club.readings.get(measure="length")
    assert (reading.value, reading.length_method) == (900, "ruler")
    entry = AuditEntry.objects.get(action="orders.gauge.changed")
    assert (entry.before["length_method"], entry.after["in_use"]) == ("ruler", False)
    assert builder.post(url, data | {"length_method": ""}).status_code == 422


def test_a_check_sent_twice_is_one_and_the_bench_asks_about_a_gauge_found_off(builder):
    room = builder.room
    gauge, order = room.gauge("loft"), room.released()
    url = reverse("gauge_edit", args=[gauge.pk])
    data = {"check_id": uuid4(), "found": "off", "off_by": "-0.5", "note": "by the master"}
    for _ in range(2):
        assert builder.post(url, data).status_code == 302
    check = GaugeCheck.objects.get()
    assert (check.off_by, check.note, check.is_good) == (Decimal("-0.5"), "by the master", False)

    def asked() -> bool:
        page = builder.get(reverse("bench_club", args=[order.number, 1]))
        return f"<b>{gauge.name}</b>" in page.content.decode()

    assert asked()
    builder.post(url, {"check_id": uuid4(), "found": "good"})
    assert not asked()


@pytest.mark.parametrize(
    ("field", "changes"),
    [
        ("off_by", {"off_by": ""}),
        ("off_by", {"off_by": "0"}),
        ("off_by", {"off_by": "near"}),
        ("off_by", {"off_by": "101"}),
        ("off_by", {"found": "good"}),
        ("found", {"found": "lost"}),
    ],
)
def test_a_check_that_makes_no_sense_is_refused_beside_its_field(builder, field, changes):
    gauge = builder.room.gauge("loft")
    data = {"check_id": uuid4(), "found": "off", "off_by": "0.5", "note": "kept"} | changes
    answer = builder.post(reverse("gauge_edit", args=[gauge.pk]), data)
    assert answer.status_code == 422
    text = answer.content.decode()
    assert f'id="id_{field}_error"' in text
    assert 'value="kept"' in text
    assert not GaugeCheck.objects.exists()
