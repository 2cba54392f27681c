"""Recalls: the clubs that a gauge found off has read, the owners and tickets of a head."""

from datetime import timedelta
from decimal import Decimal
from uuid import uuid4

import pytest
from django.urls import reverse

from orders.forms import RecallForm
from orders.models import Gauge, GaugeCheck
from orders.selectors.recalls import clubs_read_with, owners_of, tickets_with
from orders.services.gauges import gauge_check
from sessions.models import Club
from tests.order_room import AT, CURED, MIXED, Workshop
from tests.spec_room import a_head, shop, signed_in

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    shop()
    return Workshop(clubs=2)


def test_a_gauge_found_off_lists_the_clubs_read_since_its_last_good_check(room):
    order = room.released()
    gauge, other = room.gauge("loft"), room.gauge("lie")
    gauge_check(gauge=gauge, found="good", by=room.builder, at=AT)
    before = AT - timedelta(days=3)
    first, second = room.club(order, 1), room.club(order, 2)
    room.read(first, "as_received", "loft", "56", gauge=gauge, at=before)
    room.read(second, "as_received", "loft", "50", gauge=gauge, as_typed="50")
    room.read(first, "as_received", "lie", "64", gauge=other)
    found = clubs_read_with(gauge, room.builder)
    assert [(row.club.pk, row.readings) for row in found] == [(second.pk, ["50°"])]
    off = MIXED + timedelta(days=1)
    gauge_check(gauge=gauge, found="off", off_by=Decimal("0.5"), by=room.builder, at=off)
    # Found good again, the clubs that it read while off are still to be looked at.
    gauge_check(gauge=gauge, found="good", by=room.builder, at=off + timedelta(hours=1))
    room.read(first, "as_received", "loft", "56", gauge=gauge, at=off + timedelta(hours=2))
    found = clubs_read_with(gauge, room.builder)
    assert [(row.club.pk, row.put_right) for row in found] == [(second.pk, [Decimal("49.5")])]
    GaugeCheck.objects.all().delete()
    assert [row.club.slot for row in clubs_read_with(gauge, room.builder)] == [1, 2]


def test_a_reading_put_right_by_the_error_found_shows_its_verdict_and_stays_as_read(room):
    """Read 55 for a target of 55, by a gauge that reads 1.5 over: 53.5, out by 1.5 - tolerance."""
    order = room.released()
    gauge, club = room.gauge("loft"), room.club(order)
    room.glued(club)
    room.measured(club)
    reading = club.readings.get(stage="as_built", measure="loft")
    reading.gauge = gauge
    reading.save()
    assert club.target_loft_deg == 55
    gauge_check(gauge=gauge, found="off", off_by=Decimal("1.5"), by=room.builder, at=CURED)
    (row,) = clubs_read_with(gauge, room.builder)
    (figure,) = row.figures
    assert (row.put_right, figure.verdict.mean) == ([Decimal("53.5")], Decimal("53.5"))
    assert (figure.verdict.verdict, figure.verdict.off) == ("out", Decimal("-1.5"))
    reading.refresh_from_db()
    assert reading.value == 55


def test_a_recalled_head_lists_its_owners_and_its_open_tickets(room):
    order = room.released()
    owned = Club.objects.create(
        player=room.player, kind="wedge", label="Sand", hand="right", head=room.head,
        created_at=AT, created_by="Mara Quill",
    )  # fmt: skip
    assert [club.pk for club in owners_of(room.head)] == [owned.pk]
    assert [club.pk for club in tickets_with(room.head, room.desk)] == [room.club(order, 1).pk]
    never_built = a_head("58", "6")
    assert (owners_of(never_built), tickets_with(never_built, room.desk)) == ([], [])


def test_the_page_gives_owners_with_telephone_and_says_where_there_is_nobody(client, room):
    room.player.phone = "+353861234567"
    room.player.save()
    Club.objects.create(
        player=room.player, kind="wedge", label="Sand", hand="right", head=room.head,
        created_at=AT, created_by="Mara Quill",
    )  # fmt: skip
    order = room.released()
    gauge = room.gauge("loft")
    room.read(room.club(order), "as_received", "loft", "56", gauge=gauge, at=MIXED)
    client.force_login(signed_in(room.location, username="odo", role="builder"))
    url = reverse("recalls")
    text = client.get(url, {"head": room.head.pk, "gauge": gauge.pk}).content.decode()
    assert "+353861234567" in text
    assert text.count(reverse("order", args=[order.number])) == 2
    empty = client.get(url, {"head": a_head("58", "6").pk}).content.decode()
    assert "No player has one." in empty
    assert "No open ticket has one." in empty
    assert client.get(url, {"head": uuid4()}).status_code == 422


def test_heads_of_one_loft_are_told_apart_by_their_bounce(room):
    twins = [a_head("58", "6"), a_head("58", "10")]
    choices = dict(RecallForm(gauges=Gauge.objects.none()).fields["head"].choices)
    assert len({choices[head.pk] for head in twins}) == len(twins)
