"""The shop's own pages: first start, settings, staff, messages, and how a refusal reads."""

import re
from decimal import Decimal
from html import unescape

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from fitshop.models import Location, SettingsVersion, Shop, Staff
from fitshop.selectors import first_start_code, settings_in_force
from fitshop.services.messages import message_queue
from fitshop.templatetags.shop import day
from sessions.maths.references import BIBLIOGRAPHY
from sessions.rules.rule_chapters import CHAPTERS
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
    answer = client.post(reverse("first_start"), FIRST | {"code": first_start_code()})
    assert (answer.status_code, answer["Location"]) == (302, reverse("account_login"))
    assert (Shop.objects.get().name, Location.objects.get().zone) == ("Larkhill", "Europe/Dublin")
    assert client.post(reverse("first_start"), FIRST | {"username": "eve"}).status_code == 302
    assert Staff.objects.count() == 1


@pytest.mark.parametrize(
    ("name", "typed"),
    [
        ("zone", "Dublin"),
        ("password", "short"),
        ("shop_name", ""),
        ("code", ""),
        ("code", "0000-0000-0000"),
    ],
)
def test_a_first_start_that_does_not_fit_is_refused_beside_the_field(client, name, typed):
    answer = client.post(
        reverse("first_start"), FIRST | {"code": first_start_code()} | {name: typed}
    )
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


@pytest.mark.parametrize(
    ("typed", "stored"),
    [
        ("https://Fitting.Lark.example", "https://fitting.lark.example"),
        (" http://lark:8080/ ", "http://lark:8080"),
        ("http://192.168.10.20", "http://192.168.10.20"),
        ("http://[fd00::20]:8080", "http://[fd00::20]:8080"),
        ("", ""),
    ],
)
def test_the_shops_public_address_is_kept_as_an_origin(browser, typed, stored):
    browser.post(reverse("set_up"), {"shop.public_address": "https://before.example"})
    assert browser.post(reverse("set_up"), {"shop.public_address": typed}).status_code == 302
    assert settings_in_force()["shop.public_address"] == stored


@pytest.mark.parametrize(
    "typed",
    [
        "lark.example", "ftp://lark.example", "https://", "https://lark.example/shop",
        "https://lark.example?x", "https://lark.example#x", "https://me:pw@lark.example",
        "https://lark example", "https://lark.example:0", "https://lark.example:99999",
        "https://lark.example:x", "https://la_rk", "https://[fd00", "http://localhost:8000",
        "http://127.0.0.1", "http://[::1]", "http://0.0.0.0", "javascript:alert(1)",
        "https://lark..example", "https://-lark.example", "https://lärk.example",
    ],
)  # fmt: skip
def test_what_no_telephone_could_open_is_no_public_address(browser, typed):
    answer = browser.post(reverse("set_up"), {"shop.public_address": typed})
    assert answer.status_code == 422
    assert 'id="shop.public_address_error"' in answer.text
    assert settings_in_force()["shop.public_address"] == ""


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


def test_someone_is_stopped_in_a_second_step_and_comes_back(browser, desk):
    def does(person, deed):
        address = reverse("staff_help", args=[person.pk, deed])
        return browser.post(address, {f"{deed}-own_password": PASSWORD})

    mara = Staff.objects.get(username="mara")
    assert does(desk.odo, "stop").status_code == 302
    page = browser.get(reverse("staff_person", args=[desk.odo.pk]))
    assert [deed["name"] for deed in page.context["deeds"]][-1] == "return"
    assert does(desk.odo, "return").status_code == 302
    assert Staff.objects.get(pk=desk.odo.pk).is_active
    assert does(mara, "stop").status_code == 422
    assert Staff.objects.get(pk=mara.pk).is_active


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


# --- how the settings read ----------------------------------------------------------------


def field_of(page, key):
    """From the label of one setting to the next: what stands with it."""
    start = page.index(f'<label for="{key}">')
    end = page.find("<label for=", start + 1)
    return " ".join(page[start:end].split())


def queries_of_the_page(browser):
    with CaptureQueriesContext(connection) as asked:
        browser.get(reverse("set_up"))
    return len(asked.captured_queries)


def test_lengths_read_in_the_shop_s_inches_and_take_fractions(browser):
    page = browser.get(reverse("set_up")).text
    assert 'value="35 3/4"' in field_of(page, "spec.length_man_high_mm")
    assert "<span>in</span>" in field_of(page, "spec.length_man_high_mm")
    assert 'value="1/16"' in field_of(page, "spec.length_run_longer_mm")
    assert "908.050" not in page
    assert "927.10" not in page
    browser.post(reverse("set_up"), {"spec.length_man_high_mm": "36 1/4 in"})
    assert settings_in_force()["spec.length_man_high_mm"] == Decimal("920.75")
    browser.post(reverse("set_up"), {"spec.length_man_high_mm": "36"})
    assert settings_in_force()["spec.length_man_high_mm"] == Decimal("914.4")
    answer = browser.post(reverse("set_up"), {"spec.length_man_high_mm": "60"})
    assert "At most 48 in." in answer.text


def test_a_page_that_is_saved_as_it_stands_changes_nothing(browser):
    browser.post(reverse("set_up"), {"spec.length_man_high_mm": "900 mm"})
    page = browser.get(reverse("set_up"))
    assert 'value="900 mm"' in page.text  # no sixteenth of an inch: rounded it would move
    typed = {row.setting.key: row.text for group in page.context["groups"] for row in group.rows}
    assert "Nothing changed." in browser.post(reverse("set_up"), typed, follow=True).text


def test_a_shop_that_measures_in_millimetres_reads_them_and_may_type_inches(browser):
    Shop.objects.update(length_unit="mm")
    field = field_of(browser.get(reverse("set_up")).text, "spec.length_man_high_mm")
    assert 'value="908.05"' in field
    assert "<span>mm</span>" in field
    browser.post(reverse("set_up"), {"spec.length_man_high_mm": "35 in"})
    assert settings_in_force()["spec.length_man_high_mm"] == 889


def test_what_differs_from_how_it_was_born_says_who_changed_it_and_when(browser):
    browser.post(reverse("set_up"), {"visit.minutes": "75"})
    browser.post(reverse("set_up"), {"visit.minutes": "80", "visit.warm_up_balls": "8"})
    browser.post(reverse("set_up"), {"visit.warm_up_balls": "10"})  # as it was born
    page = browser.get(reverse("set_up"))
    at = SettingsVersion.objects.get(number=2).made_at
    assert f"changed by Mara Quill, {day(at)}" in field_of(page.text, "visit.minutes")
    assert "Default 90 minutes." in field_of(page.text, "visit.minutes")
    assert "changed by" not in field_of(page.text, "visit.warm_up_balls")
    changed = {group.name: group.changed for group in page.context["groups"]}
    assert changed["visit"] == 1
    assert sum(changed.values()) == 1
    assert "<b>1 changed</b>" in page.text


def test_more_changes_make_no_more_queries(browser):
    browser.post(reverse("set_up"), {"visit.minutes": "75"})
    few = queries_of_the_page(browser)
    for minutes, balls in (("80", "8"), ("85", "9")):
        browser.post(reverse("set_up"), {"visit.minutes": minutes, "visit.warm_up_balls": balls})
    assert queries_of_the_page(browser) == few > 0


def test_the_judgements_stand_under_the_rule_book_s_heads_and_name_their_limit(browser):
    page = " ".join(unescape(browser.get(reverse("set_up")).text).split())
    assert "One that is switched off says nothing; nothing else takes its place." in page
    assert f'<a href="{reverse("rule_book")}">the rule book</a>' in page
    for chapter in CHAPTERS:
        assert page.count(f">{chapter.title}</h3>") == 1
        for book in chapter.books:
            if any(not one.is_fixed for one in book.printed):
                assert f"<h4>{book.title}</h4>" in page
    assert "PLAN-T01. From the set width on" in page
    points_at_nothing = re.compile(r"\b(from|up to|than|below|above) this\b|this apart", re.I)
    limited = [one for chapter in CHAPTERS for one in chapter.judgements if one.thresholds]
    assert not [one.about for one in limited if points_at_nothing.search(one.about)]


def test_sources_and_countries_are_words_and_no_keys(browser):
    page = browser.get(reverse("set_up"))
    rows = [row for group in page.context["groups"] for row in group.rows]
    assert not [row.source for row in rows if row.source in BIBLIOGRAPHY]
    assert [row for row in rows if row.setting.source in BIBLIOGRAPHY]
    assert '<option value="IE" selected>Ireland</option>' in page.text
