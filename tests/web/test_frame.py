"""What every answer carries, and who gets past the door at all."""

import pytest
from django.template.loader import render_to_string
from django.urls import reverse

from fitshop.models import Location, Shop, Staff, StaffLocation, StaffRole

pytestmark = pytest.mark.django_db

PASSWORD = "turf under the nails"


@pytest.fixture
def shop():
    Shop.objects.create(name="Larkhill")
    return Location.objects.create(name="Larkhill range", zone="Europe/Dublin")


def person(location, username, *roles):
    staff = Staff.objects.create_user(username=username, password=PASSWORD, display_name=username)
    StaffLocation.objects.create(staff=staff, location=location)
    for role in roles:
        StaffRole.objects.create(staff=staff, role=role)
    return staff


def test_a_stranger_is_sent_to_sign_in_and_comes_back_to_where_he_was(client, shop):
    person(shop, "odo", "fitter")
    answer = client.get(reverse("messages"))
    assert answer.status_code == 302
    assert answer["Location"] == "/account/login/?next=/messages"
    answer = client.post(answer["Location"], {"login": "odo", "password": PASSWORD})
    assert (answer.status_code, answer["Location"]) == (302, "/messages")


def test_a_wrong_password_says_so_and_keeps_the_name(client, shop):
    person(shop, "odo", "fitter")
    answer = client.post(reverse("account_login"), {"login": "odo", "password": "nope"})
    assert answer.status_code == 200
    assert 'value="odo"' in answer.text
    assert "not correct" in answer.text


def test_nobody_signs_himself_up(client, shop):
    assert Staff.objects.count() == 0
    client.post(
        reverse("account_signup"),
        {"username": "eve", "password1": PASSWORD, "password2": PASSWORD},
    )
    assert Staff.objects.count() == 0


@pytest.mark.parametrize("role", ["manager", "desk"])
def test_manager_and_desk_set_up_a_second_factor_before_anything_else(client, shop, role):
    client.force_login(person(shop, "mara", role))
    answer = client.get(reverse("today"))
    assert (answer.status_code, answer["Location"]) == (302, reverse("mfa_activate_totp"))


def test_a_fitter_needs_no_second_factor(client, shop):
    client.force_login(person(shop, "odo", "fitter"))
    assert client.get(reverse("today")).status_code == 200


def test_the_demo_does_without_a_second_factor_and_says_that_it_is_one(client, shop, settings):
    settings.DEMO = True
    client.force_login(person(shop, "mara", "manager"))
    answer = client.get(reverse("today"))
    assert answer.status_code == 200
    assert "DEMO" in answer.text


def test_every_answer_is_fenced_in(client, shop):
    client.force_login(person(shop, "odo", "fitter"))
    answer = client.get(reverse("today"))
    policy = answer["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "script-src 'self'" in policy
    assert "frame-ancestors 'none'" in policy
    assert "unsafe" not in policy
    assert answer["Cache-Control"] == "no-store"
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert len(answer["X-Request-Id"]) == 32


def test_a_given_request_id_is_kept_unless_it_is_strange(client, shop):
    assert client.get("/livez", headers={"X-Request-Id": "till-4-0001"})["X-Request-Id"] == (
        "till-4-0001"
    )
    assert client.get("/livez", headers={"X-Request-Id": "a\nb"})["X-Request-Id"] != "a\nb"


def test_the_frame_shows_only_the_places_one_may_go_to(client, shop):
    client.force_login(person(shop, "odo", "fitter"))
    page = client.get(reverse("today")).text
    assert ">Messages</a>" in page
    assert ">Shop set-up</a>" not in page


def test_a_fitter_asking_for_the_set_up_is_told_who_can(client, shop):
    client.force_login(person(shop, "odo", "fitter"))
    answer = client.get(reverse("set_up"))
    assert answer.status_code == 403
    assert "see the shop&#x27;s settings. Ask a manager." in answer.text


def test_ready_means_migrated_and_degraded_means_no_heartbeat(client, shop):
    answer = client.get("/readyz")
    assert answer.status_code == 200
    assert answer.json()["ready"] is True
    assert answer.json()["degraded"] is True
    assert answer.json()["last_sweep_s"] is None


def test_livez_asks_the_database_nothing(client, django_assert_num_queries):
    with django_assert_num_queries(0):
        assert client.get("/livez").text == "ok\n"


def test_the_demo_s_sign_in_page_names_its_accounts_and_no_other_shop_s_does(
    client, shop, settings
):
    plain = client.get(reverse("account_login")).text
    assert "wedges and sand" not in plain
    assert "demo shop" not in plain
    settings.DEMO = True
    page = client.get(reverse("account_login")).text
    for said in ("fitter", "builder", "desk", "manager", "wedges and sand"):
        assert f">{said}</b>" in page


def test_the_reports_promise_only_what_stands_below(client, shop, settings):
    settings.DEMO = True  # no second factor
    client.force_login(person(shop, "mara", "manager"))
    assert "gauge" not in client.get(reverse("reports")).text


@pytest.mark.parametrize(
    ("state", "said"), [("done", "<span>All steps</span>"), ("now", 'class="unseen">All steps')]
)
def test_the_button_of_the_steps_has_words_where_no_step_is_at_hand(state, said):
    steps = [{"label": "Bag", "url": "/bag", "state": state}]
    assert said in render_to_string("fitshop/parts/steps.html", {"steps": steps})
