"""The cure on the bench's pages: what is asked, refused, put right and listed."""

from datetime import timedelta
from importlib import import_module
from uuid import uuid4

import pytest
from django.apps import apps
from django.urls import reverse
from django.utils import timezone

from fitshop.services.shop_settings import settings_change
from orders.models import Resin
from orders.selectors.cures import epoxy_step, last_glued
from tests.order_room import AT, Workshop
from tests.spec_room import shop, signed_in

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    shop()
    return Workshop()


@pytest.fixture
def builder(client, room):
    client.force_login(signed_in(room.location, username="odo", role="builder"))
    return client


@pytest.fixture
def club(room):
    """Everything done up to the epoxy."""
    row = room.club(room.released())
    room.glued(row)
    row.steps.filter(step="epoxy").delete()
    row.state, row.cure_until = "to_build", None
    row.save()
    return row


def tin(room, **changes):
    return {
        "resin": str(room.resin().pk),
        "temperature_c": "21",
        "batch": "H 117",
        "expires_on": str(timezone.localdate()),
        "hours": "",
    } | changes


def typed(prefix, values):
    return {f"{prefix}-{name}": value for name, value in values.items()}


GLUE = ("bench_step", [2001, 1, "epoxy"])
CORRECT = ("cure_correction", [2001, 1])


def post(browser, door, data):
    name, arguments = door
    return browser.post(reverse(name, args=arguments), data)


@pytest.mark.parametrize(
    ("field", "value", "code"),
    [
        ("hours", "0.5", "cure.below_sheet"),
        ("temperature_c", "9", "cure.too_cold"),
        ("expires_on", "2020-01-31", "cure.expired"),
        ("expires_on", "9999-12-31", "day.out_of_range"),
        ("resin", "", "required"),
        ("resin", "0b9f6a52-6f0e-4a1c-9d7e-5a3f1c2b4d60", "invalid_choice"),
        ("batch", "", "required"),
        ("temperature_c", "warm", "invalid"),
    ],
)
def test_what_a_cure_can_not_begin_with_is_refused_beside_its_field(
    builder, room, club, field, value, code
):
    answer = post(builder, GLUE, typed("epoxy", tin(room, **{field: value})))
    assert answer.status_code == 422
    form = answer.context["next"]["form"]
    assert form.has_error(field, code)
    assert f"id_epoxy-{field}_error" in answer.text
    assert form["batch"].value() == ("" if field == "batch" else "H 117")
    club.refresh_from_db()
    assert (club.state, club.cure_until) == ("to_build", None)


def test_the_next_club_is_offered_the_tin_in_the_hand(builder, room, club):
    assert post(builder, GLUE, typed("epoxy", tin(room))).status_code == 302
    assert last_glued(room.builder) == {
        "resin": str(room.resin().pk), "batch": "H 117", "expires_on": timezone.localdate(),
    }  # fmt: skip


def test_a_temperature_and_a_correction_are_typed_on_the_clubs_page(builder, room, club):
    assert post(builder, GLUE, typed("epoxy", tin(room, temperature_c="12"))).status_code == 302
    page = builder.get(reverse("bench_club", args=[2001, 1])).text
    assert reverse("cure_temperature", args=[2001, 1]) in page
    club.refresh_from_db()
    mixed = epoxy_step(club).done_at
    wrong = post(builder, ("cure_temperature", [2001, 1]), {"cure-celsius": "hot"})
    assert wrong.status_code == 422
    assert wrong.context["cure"]["temperature_form"].has_error("celsius", "invalid")
    assert post(
        builder, ("cure_temperature", [2001, 1]), {"cure-celsius": "18"}
    ).status_code == 302  # fmt: skip
    low = tin(room, hours="0.5", temperature_1="18", why="mistyped")
    refused = post(builder, CORRECT, typed("correct", low))
    assert refused.status_code == 422
    assert refused.context["cure"]["correct_form"].has_error("hours", "cure.below_sheet")
    assert 'value="0.5"' in refused.text
    right = tin(room, temperature_1="20", why="12 was 21, 18 was 20")
    assert post(builder, CORRECT, typed("correct", right)).status_code == 302
    club.refresh_from_db()
    assert club.cure_until == mixed + timedelta(hours=24)
    assert "12 was 21, 18 was 20" in builder.get(reverse("bench_club", args=[2001, 1])).text


def test_a_glued_head_offers_no_reading_as_received(builder, room, club):
    page = builder.get(reverse("bench_club", args=[2001, 1]))
    assert page.context["may_read_received"]
    post(builder, GLUE, typed("epoxy", tin(room)))
    page = builder.get(reverse("bench_club", args=[2001, 1]))
    assert not page.context["may_read_received"]
    late = {"reading_id": str(uuid4()), "stage": "as_received", "measure": "loft", "value": "57"}
    assert post(builder, ("bench_reading", [2001, 1]), late).status_code == 422
    assert club.readings.filter(measure="loft").count() == 1


SHEET = {
    "name": "Tarn Quick", "speed": "quick", "hours": "6", "least_hours": "4",
    "full_speed_c": "20", "double_at_c": "15", "least_c": "15",
}  # fmt: skip


def test_a_resin_is_entered_once_changed_and_put_away(builder, room):
    form = SHEET | {"resin_id": str(uuid4())}
    for _ in range(2):
        assert builder.post(reverse("resin_new"), form).status_code == 302
    row = Resin.objects.get(name="Tarn Quick")
    bad = builder.post(reverse("resin_edit", args=[row.pk]), SHEET | {"hours": "3"})
    assert bad.status_code == 422
    assert bad.context["form"].has_error("hours", "resins.figures")
    assert builder.post(
        reverse("resin_edit", args=[row.pk]), SHEET | {"put_away": "1"}
    ).status_code == 302  # fmt: skip
    row.refresh_from_db()
    assert not row.in_use
    assert "Tarn Quick" in builder.get(reverse("resins")).text


def test_the_clubs_of_a_batch_are_listed_with_whom_to_call(builder, room, club):
    post(builder, GLUE, typed("epoxy", tin(room)))
    page = builder.get(reverse("resins"), {"batch": "h 117"})
    assert [each.club.pk for each in page.context["glued"]] == [club.pk]
    assert builder.get(reverse("resins"), {"batch": "H 1"}).context["glued"] == []


def test_a_shops_settings_become_its_first_resin(room):
    """What the shop set before resins were kept: 30 hours, none below 12 degrees."""
    settings_change(typed={"cure.hours": "30", "cure.least_c": "12"}, by=room.manager, at=AT)
    import_module("orders.migrations.0011_resins").the_shops_epoxy(apps, None)
    row = Resin.objects.get()
    figures = (row.hours, row.least_hours, row.full_speed_c, row.double_at_c, row.least_c)
    assert figures == (30, 30, 20, 15, 12)
    assert row.speed == "slow"


def test_a_cure_that_stands_still_for_cold_is_said_cured_nowhere(builder, room, club):
    assert post(builder, GLUE, typed("epoxy", tin(room, temperature_c="21"))).status_code == 302
    assert post(
        builder, ("cure_temperature", [2001, 1]), {"cure-celsius": "5"}
    ).status_code == 302  # fmt: skip
    club.refresh_from_db()
    club.cure_until = AT.replace(year=2001)
    club.save()
    page = builder.get(reverse("bench_club", args=[2001, 1]))
    assert page.context["is_curing"]
    assert page.context["is_too_cold"]
    assert reverse("bench_step", args=[2001, 1, "cured"]) not in page.text
    for text in (page.text, builder.get(reverse("order", args=[2001])).text):
        assert "Too cold to cure" in text
        assert "Cured, to be tested" not in text
