"""Parts: what can be tried, withdrawn at once, and checked before it comes back."""

from datetime import timedelta
from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from fitshop.models import AuditEntry, Location, Staff
from sessions.models import Adapter, Head, Shaft, TrialHead, TrialShaft
from tests.demo_shop import demo_loaded

pytestmark = [pytest.mark.usefixtures("demo"), pytest.mark.django_db]


@pytest.fixture(scope="module")
def demo(django_db_setup, django_db_blocker):
    with demo_loaded(django_db_blocker):
        yield


@pytest.fixture
def fitter(client):
    client.force_login(Staff.objects.get(username="fitter"))
    return client


def page(client, **query) -> str:
    response = client.get(reverse("parts"), query)
    assert response.status_code == 200
    return response.content.decode()


def withdraw_url(kind, item) -> str:
    return reverse("equipment_withdraw", args=[kind, item.pk])


def check_url(kind, item) -> str:
    return reverse("equipment_check", args=[kind, item.pk])


def test_trial_equipment_comes_first_with_what_is_withdrawn_on_top(fitter):
    text = page(fitter)
    assert "Adapter thread worn: it turned on the shaft by hand." in text
    assert text.index("Elm 5") < text.index("Elm 6") < text.index("Oak 1")
    assert "Check overdue" in text
    for mark in ("Shaft 1", "Adapter 3", "Yew 2"):
        assert mark in text
    assert "Measured: loft 51.7°, lie 63.9°, bounce 7.7°, 297.2 g" in text


def test_a_withdrawn_head_offers_no_second_withdrawal(fitter):
    withdrawn = TrialHead.objects.get(mark="Elm 5")
    assert withdraw_url("head", withdrawn) not in page(fitter)
    assert check_url("head", withdrawn) in page(fitter)


@pytest.mark.parametrize(
    ("query", "heads"),
    [
        ({}, 38),
        ({"hand": "left"}, 8),
        ({"hand": "right"}, 30),
        ({"loft": "58-62"}, 11),
        ({"hand": "left", "loft": "44-49"}, 1),
        ({"hand": "both", "loft": "all"}, 38),
    ],
)
def test_heads_are_filtered_by_hand_and_loft(fitter, query, heads):
    assert f"{heads} heads in" in page(fitter, show="heads", **query).replace(
        "1 head in", "1 heads in"
    )


def test_a_head_says_its_sole_its_making_and_its_limits_in_words(fitter):
    text = page(fitter, show="heads", loft="50-53")
    assert "not to be bent" in text
    assert "forged low-carbon steel" in text
    assert "19 mm wide, medium camber, heel and trailing edge slightly relieved" in text
    assert "3 weak, 2 strong, 2 upright, 2 flat" in text
    assert "Discontinued" in text


def test_shafts_and_grips_are_listed_by_tip_and_core(fitter):
    shafts = page(fitter, show="shafts")
    assert "10 shafts" in shafts
    assert "0.355 taper" in shafts
    assert "0.370 parallel" in shafts
    grips = page(fitter, show="grips")
    assert "6 grips" in grips
    for core in ("0.580 in", "0.600 in", "0.620 in"):
        assert core in grips


def test_an_unknown_list_shows_the_trial_equipment(fitter):
    assert "Elm 5" in page(fitter, show="nothing")


@pytest.mark.parametrize(("kind", "model"), [("head", TrialHead), ("shaft", TrialShaft),
                                             ("adapter", Adapter)])  # fmt: skip
def test_one_tap_withdraws_a_thing_with_its_reason(fitter, kind, model):
    item = model.objects.filter(withdrawn_at__isnull=True).first()
    response = fitter.post(
        withdraw_url(kind, item), {"why": "Head loose", "other": ""}, follow=True
    )
    item.refresh_from_db()
    assert (item.withdrawn_why, item.withdrawn_at is not None) == ("Head loose", True)
    assert f"{item.mark} is withdrawn on every tablet: Head loose" in response.content.decode()
    trace = AuditEntry.objects.filter(action="fitting.equipment.withdrawn").latest("pk")
    assert (trace.object_id, trace.actor_name) == (str(item.pk), "Tadhg Sweetman")


def test_a_reason_can_be_typed_and_must_be_given(fitter):
    item = TrialHead.objects.get(mark="Oak 1")
    response = fitter.post(withdraw_url("head", item), {"other": "  "}, follow=True)
    assert "Oak 1: Say why" in response.content.decode()
    item.refresh_from_db()
    assert item.withdrawn_at is None
    fitter.post(withdraw_url("head", item), {"other": "Rattles"})
    item.refresh_from_db()
    assert item.withdrawn_why == "Rattles"


def test_withdrawing_twice_keeps_the_first_reason(fitter):
    item = TrialHead.objects.get(mark="Oak 1")
    fitter.post(withdraw_url("head", item), {"why": "Head loose"})
    fitter.post(withdraw_url("head", item), {"why": "Lost"})
    item.refresh_from_db()
    assert item.withdrawn_why == "Head loose"


def test_withdrawing_is_never_a_get(fitter):
    item = TrialHead.objects.get(mark="Oak 1")
    assert fitter.get(withdraw_url("head", item)).status_code == 405


def test_a_check_writes_what_was_measured_and_puts_the_head_back(fitter):
    item = TrialHead.objects.get(mark="Elm 5")
    response = fitter.post(
        check_url("head", item),
        {
            "measured_loft_deg": "56,25",
            "measured_lie_deg": "63.9",
            "measured_bounce_deg": "",
            "measured_mass_g": "10.7 oz",
            "back_in_use": "on",
        },
    )
    assert response.status_code == 302
    item.refresh_from_db()
    assert item.measured_loft_deg == Decimal("56.25")
    assert item.measured_lie_deg == Decimal("63.90")
    assert item.measured_bounce_deg == Decimal("13.80")
    # 10.7 oz by the avoirdupois ounce of 28.349523125 g (NIST SP 811, appendix B.8)
    assert item.measured_mass_g == Decimal("303.34")
    assert item.checked_on == timezone.localdate()
    assert (item.withdrawn_at, item.withdrawn_why) == (None, "")


def test_a_check_without_the_tick_leaves_it_withdrawn(fitter):
    item = TrialHead.objects.get(mark="Elm 5")
    fitter.post(check_url("head", item), {"measured_loft_deg": "56"})
    item.refresh_from_db()
    assert item.withdrawn_at is not None
    assert item.measured_loft_deg == Decimal("56.00")


@pytest.mark.parametrize("typed", ["five", "5", "90", "56 g"])
def test_a_loft_that_is_none_is_refused_beside_its_field_and_stays_typed(fitter, typed):
    item = TrialHead.objects.get(mark="Oak 1")
    response = fitter.post(
        check_url("head", item), {"measured_loft_deg": typed, "measured_lie_deg": "64"}
    )
    text = response.content.decode()
    assert response.status_code == 422
    assert "id_measured_loft_deg_error" in text
    assert f'value="{typed}"' in text
    item.refresh_from_db()
    assert item.measured_loft_deg == Decimal("48.20")


def test_a_shaft_is_checked_by_its_length_and_an_adapter_by_its_next_inspection(fitter):
    shaft, adapter = TrialShaft.objects.get(mark="Shaft 1"), Adapter.objects.get(mark="Adapter 3")
    fitter.post(check_url("shaft", shaft), {"playing_length_mm": "35 1/2"})
    shaft.refresh_from_db()
    assert shaft.playing_length_mm == Decimal("901.7000")
    fitter.post(check_url("adapter", adapter), {"inspect_by": "2030-02-01"})
    adapter.refresh_from_db()
    assert f"{adapter.inspect_by}" == "2030-02-01"


@pytest.mark.parametrize("day", ["9999-12-31", "0001-01-01"])
def test_an_inspection_at_the_end_of_the_calendar_is_refused_beside_its_field(fitter, day):
    adapter = Adapter.objects.get(mark="Adapter 3")
    answer = fitter.post(check_url("adapter", adapter), {"inspect_by": day})
    assert answer.status_code == 422
    assert answer.context["form"].has_error("inspect_by", "day.out_of_range")


def test_an_adapter_past_its_inspection_says_so(fitter):
    yesterday = timezone.localdate() - timedelta(days=2)
    Adapter.objects.filter(mark="Adapter 3").update(inspect_by=yesterday)
    assert "Inspection overdue" in page(fitter)


def test_the_equipment_of_another_location_is_not_found(fitter):
    elsewhere = Location.objects.create(name="Elsewhere", zone="Europe/Dublin")
    item = TrialHead.objects.create(mark="Far 1", head=Head.objects.first(), location=elsewhere)
    assert "Far 1" not in page(fitter)
    assert fitter.get(check_url("head", item)).status_code == 404
    assert fitter.post(withdraw_url("head", item), {"why": "Lost"}).status_code == 404
    assert fitter.get(reverse("equipment_check", args=["driver", item.pk])).status_code == 404


def test_the_desk_sees_no_parts(client, settings):
    settings.DEMO = True  # the desk needs no second factor on the demo's machine
    client.force_login(Staff.objects.get(username="desk"))
    assert client.get(reverse("parts")).status_code == 403
    item = TrialHead.objects.get(mark="Oak 1")
    assert client.post(withdraw_url("head", item), {"why": "Lost"}).status_code == 403
    item.refresh_from_db()
    assert item.withdrawn_at is None


@pytest.mark.parametrize("show", ["trial", "heads", "shafts"])
def test_more_rows_take_no_more_queries(fitter, django_assert_num_queries, show):
    page(fitter, show=show)  # the first request of a sign-in notes when it was used
    with CaptureQueriesContext(connection) as few:
        page(fitter, show=show)
    location = Location.objects.get()
    for number in range(20):
        head = Head.objects.get(maker="Skerrow", model="Linnet")
        head.pk, head._state.adding, head.model = None, True, f"Linnet {number}"
        head.save()
        shaft = Shaft.objects.first()
        shaft.pk, shaft._state.adding, shaft.model = None, True, f"More {number}"
        shaft.save()
        TrialHead.objects.create(mark=f"More {number}", head=head, location=location)
    with django_assert_num_queries(len(few)):
        page(fitter, show=show)
