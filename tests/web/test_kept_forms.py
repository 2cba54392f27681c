"""A form that comes after its session ended: kept, not stored, and shown to nobody else."""

import datetime as dt
import html
import re
import uuid

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitshop.actor import Role
from fitshop.models import Staff
from fitshop.services.staff import staff_enter
from fitshop.views import kept
from sessions.models import Player
from tests.fixtures_desk import AT, CLOCKWORK, PASSWORD, a_desk, typed_player

pytestmark = pytest.mark.django_db


@pytest.fixture
def desk(settings):
    settings.DEMO = True  # no second factor
    desk = a_desk()
    staff_enter(
        username="runa", display_name="Runa Holm", email="", password=PASSWORD,
        roles=[Role.FITTER], locations=[desk.location], by=CLOCKWORK, at=AT,
    )  # fmt: skip
    return desk


@pytest.fixture
def tablet(desk):
    """A browser that sends its token, as real ones do; Odo is signed in."""
    browser = Client(enforce_csrf_checks=True)
    sign_in(browser, "odo")
    return browser


def sign_in(browser, username, to="/"):
    page = browser.get(reverse("account_login"), {"next": to})
    return browser.post(
        reverse("account_login"),
        {"login": username, "password": PASSWORD, "next": to, **hidden(page.text)},
    )


def hidden(page):
    """The hidden fields of a page's last form."""
    last = page[page.rindex("<form") :]
    return {
        name: html.unescape(value)
        for name, value in re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', last)
    }


def main_form(page):
    return hidden(page[: page.index("</form>", page.index("<main"))])


def session_ends(browser):
    """The session is gone on the server; the browser still holds its cookies."""
    browser.session.flush()


def next_of(answer):
    page = html.unescape(answer.text)
    return re.search(r'name="next" value="([^"]*)"', page)[1]


def sent_too_late(browser, **typed):
    """A player's form is opened, the session ends, and the form is sent."""
    token = main_form(browser.get("/players/new").text)
    session_ends(browser)
    return browser.post("/players/new", token | typed_player(**typed), follow=True)


def value_of(page, name):
    return re.search(rf'<input[^>]*name="{name}"[^>]*>', page)[0]


def test_the_sign_in_page_says_whose_form_waits(tablet):
    answer = sent_too_late(tablet)
    assert answer.request["PATH_INFO"] == "/account/login/"
    assert "sign in again as Odo Lark" in answer.text
    assert "Brandvold" not in answer.text
    assert not Player.objects.exists()


def test_nothing_typed_stands_in_an_address(tablet):
    answer = sent_too_late(tablet, notes="a private note")
    for url, _status in answer.redirect_chain:
        assert "private" not in url
        assert "Brandvold" not in url


def test_the_same_person_finds_the_form_as_it_was_typed(tablet):
    typed = {"family_name": 'O"Dún & <Sons>', "notes": "<b>left</b>\nsecond line", "kind": "junior"}
    answer = sent_too_late(tablet, **typed, phone="not a number", height_mm="5 ft 11")
    answer = sign_in(tablet, "odo", next_of(answer))
    assert answer["Location"] == "/players/new#kept-form"
    page = tablet.get("/players/new").text
    assert 'value="O&quot;Dún &amp; &lt;Sons&gt;"' in value_of(page, "family_name")
    assert 'value="not a number"' in value_of(page, "phone")
    assert "\n&lt;b&gt;left&lt;/b&gt;\nsecond line</textarea>" in page
    assert re.search(r'<input[^>]*value="junior"[^>]*checked', page)
    assert "<details" in page
    assert re.search(r'<details class="panel more"[^>]* open', page)
    assert "You were signed out. <b>Nothing has been saved yet:</b>" in page
    assert "press <b>Register</b> again" in page
    assert not Player.objects.exists()


def test_pressing_again_stores_it_once_and_the_next_form_is_empty(tablet):
    given = str(uuid.uuid4())
    answer = sent_too_late(tablet, id=given, given_name="Signe")
    sign_in(tablet, "odo", next_of(answer))
    page = tablet.get("/players/new").text
    assert f'value="{given}"' in value_of(page, "id")
    answer = tablet.post(
        "/players/new", main_form(page) | typed_player(id=given, given_name="Signe")
    )
    assert answer.status_code == 302
    assert Player.objects.get().given_name == "Signe"
    tablet.get(answer["Location"])
    page = tablet.get("/players/new").text
    assert "Signe" not in page
    assert "signed out" not in page


def test_loading_the_page_twice_keeps_it(tablet):
    answer = sent_too_late(tablet, given_name="Signe")
    sign_in(tablet, "odo", next_of(answer))
    assert "Signe" in tablet.get("/players/new").text
    assert "Signe" in tablet.get("/players/new").text


def test_someone_else_is_not_shown_it_and_it_is_let_go(tablet):
    answer = sent_too_late(tablet, given_name="Signe")
    sign_in(tablet, "runa", next_of(answer))
    page = tablet.get("/players/new").text
    assert "Signe" not in page
    assert "It is not shown to you, and it is let go" in page
    assert "Signe" not in str(dict(tablet.session))
    tablet.logout()
    sign_in(tablet, "odo")
    assert "Signe" not in tablet.get("/players/new").text


def test_it_is_let_go_on_request(tablet):
    answer = sent_too_late(tablet, given_name="Signe")
    sign_in(tablet, "odo", next_of(answer))
    page = tablet.get("/players/new").text
    let_go = page[page.index('id="kept-let-go"') - 10 :]
    answer = tablet.post("/kept/let-go", hidden(let_go[: let_go.index("</form>")]))
    assert (answer.status_code, answer["Location"]) == (302, "/players/new")
    assert "Signe" not in tablet.get("/players/new").text


def test_it_waits_for_half_an_hour(tablet, monkeypatch):
    answer = sent_too_late(tablet, given_name="Signe")
    sign_in(tablet, "odo", next_of(answer))
    later = timezone.now() + dt.timedelta(minutes=31)
    monkeypatch.setattr(kept.timezone, "now", lambda: later)
    assert "Signe" not in tablet.get("/players/new").text


def test_without_the_seal_nothing_is_kept(tablet):
    token = main_form(tablet.get("/players/new").text)
    session_ends(tablet)
    for seal in ({}, {"typed_by": token["typed_by"][:-1] + "x"}):
        sent = typed_player() | {"csrfmiddlewaretoken": token["csrfmiddlewaretoken"]} | seal
        answer = tablet.post("/players/new", sent)
        assert answer["Location"] == "/account/login/?next=/players/new"
    assert kept.IN_SESSION not in tablet.session


def test_a_form_that_was_refused_before_comes_back_on_its_own_page(tablet):
    """The refused form stands at the address it was sent to; its seal names the page it was on."""
    page = tablet.get("/players/new").text
    page = tablet.post("/players/new", typed_player(hand="") | main_form(page)).text
    session_ends(tablet)
    answer = tablet.post(
        "/players/new", typed_player(given_name="Signe") | main_form(page), follow=True
    )
    sign_in(tablet, "odo", next_of(answer))
    assert "Signe" in tablet.get("/players/new").text


def test_a_token_of_an_earlier_sign_in_loses_nothing(tablet):
    """The same person signed out and in again in another tab of the browser."""
    token = main_form(tablet.get("/players/new").text)
    tablet.logout()
    sign_in(tablet, "odo")
    answer = tablet.post("/players/new", typed_player(given_name="Signe") | token)
    assert (answer.status_code, answer["Location"]) == (302, "/players/new#kept-form")
    page = tablet.get("/players/new").text
    assert 'value="Signe"' in value_of(page, "given_name")
    assert "You signed in again while this page was open. <b>Nothing has been saved" in page
    assert not Player.objects.exists()


def test_a_form_of_someone_else_is_neither_saved_nor_shown(tablet):
    token = main_form(tablet.get("/players/new").text)
    tablet.logout()
    sign_in(tablet, "runa")
    answer = tablet.post("/players/new", typed_player(given_name="Signe") | token)
    assert answer.status_code == 403
    assert "Someone else was signed in when it was opened" in answer.text
    assert "Signe" not in tablet.get("/players/new").text
    assert not Player.objects.exists()


def test_a_form_from_another_site_is_not_kept(tablet):
    token = main_form(tablet.get("/players/new").text)
    answer = tablet.post(
        "/players/new", typed_player() | token, headers={"Origin": "https://elsewhere.example"}
    )
    assert answer.status_code == 403
    assert kept.IN_SESSION not in tablet.session


def test_a_fragment_sends_the_whole_page_to_the_sign_in(tablet):
    session_ends(tablet)
    answer = tablet.get(
        "/panels/fitting/today",
        headers={"HX-Request": "true", "HX-Current-URL": "http://testserver/?day=2027-03-02"},
    )
    assert answer.status_code == 401
    assert answer["HX-Redirect"] == "/account/login/?next=/%3Fday%3D2027-03-02"


def test_a_form_sent_as_a_fragment_is_kept_for_the_page_around_it(tablet):
    token = main_form(tablet.get("/players/new").text)
    session_ends(tablet)
    answer = tablet.post(
        "/players/new",
        typed_player(given_name="Signe") | token,
        headers={"HX-Request": "true", "HX-Current-URL": "http://testserver/players/new"},
    )
    assert answer.status_code == 401
    assert answer["HX-Redirect"] == "/account/login/?next=/players/new%23kept-form"
    sign_in(tablet, "odo", "/players/new")
    assert "Signe" in tablet.get("/players/new").text


def test_passwords_are_not_kept_and_that_is_said(desk):
    browser = Client(enforce_csrf_checks=True)
    sign_in(browser, "mara")
    token = main_form(browser.get("/set-up/staff").text)
    session_ends(browser)
    typed = {"display_name": "Tove Lind", "username": "tove", "password": "under the fifth tee",
             "roles": ["fitter"], "locations": [str(desk.location.pk)]}  # fmt: skip
    answer = browser.post("/set-up/staff", typed | token, follow=True)
    assert "fifth tee" not in str(dict(browser.session))
    sign_in(browser, "mara", next_of(answer))
    page = browser.get("/set-up/staff").text
    assert 'value="Tove Lind"' in page
    assert "Not kept: passwords." in page
    assert "fifth tee" not in page
    assert not Staff.objects.filter(username="tove").exists()


def test_a_file_is_not_kept_and_that_is_said(tablet, desk):
    from tests.fixtures_desk import a_player

    visit = desk.book(a_player())
    type(visit).objects.filter(pk=visit.pk).update(state="open", opened_at=AT)
    url = reverse("shot_files", args=[visit.pk])
    token = main_form(tablet.get(url).text)
    session_ends(tablet)
    upload = SimpleUploadedFile("range.csv", b"Carry (yd)\n98\n")
    answer = tablet.post(url, {"file": upload} | token, follow=True)
    sign_in(tablet, "odo", next_of(answer))
    assert "Not kept: files." in tablet.get(url).text


def test_what_no_longer_has_its_form_is_listed_once(tablet):
    answer = sent_too_late(tablet, given_name="Signe")
    to = next_of(answer)
    sign_in(tablet, "odo", to)
    session = tablet.session
    session[kept.IN_SESSION][0]["action"] = "/players/gone"
    session.save()
    page = tablet.get("/players/new").text
    assert "This was not saved" in page
    assert '<dt>Given name</dt><dd class="breaks">Signe</dd>' in page
    assert "Signe" not in tablet.get("/players/new").text
