"""The shop's own pages: first start, settings, staff, messages, and how a refusal reads."""

import pytest
from django.urls import reverse

from fitshop.models import Location, Shop, Staff
from fitshop.selectors import settings_in_force
from fitshop.services.messages import message_queue
from tests.fixtures_desk import AT, CLOCKWORK, PASSWORD, a_desk

pytestmark = pytest.mark.django_db

FIRST = {
    "shop_name": "Larkhill",
    "location_name": "Larkhill range",
    "zone": "Europe/Dublin",
    "length_unit": "in",
    "carry_unit": "yd",
    "paper": "A4",
    "display_name": "Mara Quill",
    "username": "mara",
    "password": PASSWORD,
}


@pytest.fixture
def desk(settings):
    settings.DEMO = True  # no second factor
    return a_desk()


@pytest.fixture
def browser(client, desk):
    client.force_login(Staff.objects.get(username="mara"))
    return client


def a_letter(**changes):
    values = {
        "kind": "summary",
        "subject_type": "visit",
        "subject_id": "1",
        "occasion": "closed",
        "recipient_email": "imke@larkhill.example",
        "recipient_name": "Imke Brandvold",
        "mail_subject": "Your fitting",
        "body_text": "What was found.\n\nAnd why.",
    }
    return message_queue(**(values | changes), by=CLOCKWORK, at=AT)


def test_a_new_shop_is_led_to_its_first_start_and_set_up_once(client):
    assert client.get("/")["Location"] == reverse("first_start")
    assert client.get(reverse("first_start")).status_code == 200
    answer = client.post(reverse("first_start"), FIRST)
    assert (answer.status_code, answer["Location"]) == (302, reverse("account_login"))
    assert (Shop.objects.get().name, Location.objects.get().zone) == ("Larkhill", "Europe/Dublin")
    assert client.post(reverse("first_start"), FIRST | {"username": "eve"}).status_code == 302
    assert Staff.objects.count() == 1


@pytest.mark.parametrize(
    ("name", "typed"), [("zone", "Dublin"), ("password", "short"), ("shop_name", "")]
)
def test_a_first_start_that_does_not_fit_is_refused_beside_the_field(client, name, typed):
    answer = client.post(reverse("first_start"), FIRST | {name: typed})
    assert answer.status_code == 422
    assert f'id="id_{name}_error"' in answer.text
    assert 'value="Larkhill range"' in answer.text
    assert PASSWORD not in answer.text
    assert not Shop.objects.exists()


def test_a_setting_is_changed_and_the_page_shows_it(browser):
    answer = browser.post(reverse("set_up"), {"visit.minutes": "75"}, follow=True)
    assert "Saved as version 1." in answer.text
    assert 'value="75"' in answer.text
    assert settings_in_force()["visit.minutes"] == 75


def test_a_value_that_does_not_fit_is_kept_and_said_beside_it(browser):
    answer = browser.post(reverse("set_up"), {"visit.minutes": "soon", "visit.warm_up_balls": "8"})
    assert answer.status_code == 422
    assert 'value="soon"' in answer.text
    assert 'id="visit.minutes_error"' in answer.text
    assert 'value="8"' in answer.text
    assert settings_in_force().version == 0


def test_someone_is_entered_and_a_taken_name_is_refused(browser, desk):
    typed = {
        "display_name": "Nell Ardagh",
        "username": "nell",
        "password": PASSWORD,
        "roles": ["builder"],
        "locations": [str(desk.location.pk)],
    }
    assert browser.post(reverse("staff"), typed).status_code == 302
    assert "Nell Ardagh" in browser.get(reverse("staff")).text
    again = browser.post(reverse("staff"), typed)
    assert again.status_code == 422
    assert "signs in under this name already" in again.text


def test_a_fitter_is_refused_the_settings_with_the_policys_sentence(client, desk):
    client.force_login(desk.odo)
    answer = client.get(reverse("set_up"))
    assert answer.status_code == 403
    assert "can&#x27;t see the shop&#x27;s settings" in answer.text


def test_messages_are_listed_and_read(browser, desk):
    letter = a_letter()
    assert "Your fitting" in browser.get(reverse("messages")).text
    page = browser.get(reverse("message", args=[letter.pk])).text
    assert "And why." in page
    assert "imke@larkhill.example" in page
    assert reverse("message_decide", args=[letter.pk]) not in page


def test_a_letter_whose_fate_is_unknown_asks_for_a_decision(browser, desk):
    letter = a_letter()
    letter.status = "unknown"
    letter.save()
    assert "1 message wants" in browser.get(reverse("today")).text
    assert "Send again" in browser.get(reverse("message", args=[letter.pk])).text
    browser.post(reverse("message_decide", args=[letter.pk]), {"decision": "cancel"})
    letter.refresh_from_db()
    assert letter.status == "cancelled"


def test_what_is_not_there_is_said_in_the_shops_own_page(browser):
    answer = browser.get("/nowhere")
    assert answer.status_code == 404
    assert "There is nothing at this address" in answer.text


def test_a_fault_has_a_page_that_needs_no_database():
    from django.template.loader import render_to_string

    assert "A fault on our side" in render_to_string("500.html")
