"""The players' pages as a browser sees them: status, what stays typed, what is written once."""

import re
import uuid

import pytest
from django.urls import reverse

from sessions.forms.people import PlayerForm
from sessions.models import Consent, Player
from tests.fixtures_desk import AT, a_desk, a_player, typed_player

pytestmark = pytest.mark.django_db


@pytest.fixture
def desk(settings):
    settings.DEMO = True  # no second factor
    return a_desk()


@pytest.fixture
def browser(client, desk):
    """Signed in as the manager, who has every role."""
    from fitshop.models import Staff

    client.force_login(Staff.objects.get(username="mara"))
    return client


@pytest.fixture
def fitter(client, desk):
    client.force_login(desk.odo)
    return client


def test_a_player_is_registered_once_however_often_the_form_is_sent(browser):
    typed = typed_player(phone="086 123 4567", height_mm="5 ft 11")
    first = browser.post(reverse("player_new"), typed)
    again = browser.post(reverse("player_new"), typed)
    player = Player.objects.get()
    page = reverse("player", args=[player.pk])
    assert (first.status_code, first["Location"]) == (302, page)
    assert (again.status_code, again["Location"]) == (302, page)
    # 71 inches of 25.4 mm (the inch of the international yard, 1959): 1803.4 mm
    assert str(player.height_mm) == "1803.4000"
    assert player.as_typed == {"height_mm": "5 ft 11"}
    assert "5 ft 11" in browser.get(page).text


@pytest.mark.parametrize(
    ("typed", "stored"),
    [
        ("180 cm", "1800.0000"),
        ("71", "1803.4000"),
        ("5'11\"", "1803.4000"),
        ("6 ft", "1828.8000"),
        ("5ft 10,5", "1790.7000"),
        ("1,8 m", None),
        ("tall", None),
        ("5 ft 99 in", None),
    ],
)
def test_a_height_is_read_as_people_say_it(desk, typed, stored):
    form = PlayerForm(typed_player(height_mm=typed), length_unit="in")
    assert form.is_valid() is (stored is not None), form.errors
    if stored:
        assert str(form.values().height_mm) == stored


def test_errors_stand_beside_the_fields_and_what_was_typed_stays(browser):
    answer = browser.post(
        reverse("player_new"), typed_player(hand="", phone="12", height_mm="tall", notes="Kind")
    )
    assert answer.status_code == 422
    assert not Player.objects.exists()
    for text in ('value="12"', 'value="tall"', ">\nKind</textarea>", "This is no telephone number"):
        assert text in answer.text
    assert 'id="id_height_mm_error"' in answer.text
    assert "Right or left" in answer.text


def test_a_child_without_a_guardian_is_refused_beside_that_field(browser):
    answer = browser.post(reverse("player_new"), typed_player(kind="junior"))
    assert answer.status_code == 422
    assert "A child needs a guardian&#x27;s name." in answer.text
    assert 'id="id_guardian_name_error"' in answer.text


def test_someone_alike_is_shown_before_a_second_record_is_made(browser):
    known = a_player(phone="086 123 4567")
    typed = typed_player(given_name="Imka", phone="+353 86 123 4567")
    asked = browser.post(reverse("player_new"), typed)
    assert asked.status_code == 422
    assert reverse("player", args=[known.pk]) in asked.text
    assert Player.objects.count() == 1
    done = browser.post(reverse("player_new"), typed | {"anyway": "1"})
    assert done.status_code == 302
    assert Player.objects.count() == 2


def test_the_list_is_searched_by_any_part(browser):
    a_player("Séan", "Ó Brádaigh", phone="01 496 0123")
    a_player("Tuva", "Lindqvist")
    text = browser.get(reverse("players"), {"q": "brad"}).text
    assert "Ó Brádaigh" in text
    assert "Lindqvist" not in text
    assert "Nobody found" in browser.get(reverse("players"), {"q": "zzz"}).text


def test_the_list_costs_the_same_with_one_player_and_with_fifty(
    browser,
):
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    a_player()
    browser.get(reverse("players"))  # the first request of a sign-in notes when it was used
    with CaptureQueriesContext(connection) as one:
        browser.get(reverse("players"))
    for number in range(49):
        a_player(f"P{number}", "Marsh")
    with CaptureQueriesContext(connection) as fifty:
        browser.get(reverse("players"))
    assert len(fifty) == len(one)


def test_a_change_keeps_what_was_typed_and_shows_it_again(browser):
    player = a_player()
    edit = reverse("player_edit", args=[player.pk])
    answer = browser.post(edit, typed_player(id=str(player.pk), wrist_to_floor_mm="34 1/2"))
    assert answer.status_code == 302
    player.refresh_from_db()
    assert str(player.wrist_to_floor_mm) == "876.3000"  # 34.5 x 25.4
    assert 'value="34 1/2"' in browser.get(edit).text


def test_consent_is_given_and_taken_back(browser):
    player = a_player(email="imke@larkhill.example")
    page = reverse("player", args=[player.pk])
    browser.post(
        reverse("player_consent", args=[player.pk]), {"about": "email", "given_by": "player"}
    )
    consent = Consent.objects.get()
    assert (consent.text_version, consent.withdrawn_at) == ("email-1", None)
    assert "Agreed" in browser.get(page).text
    browser.post(reverse("player_consent_withdraw", args=[player.pk, consent.pk]))
    consent.refresh_from_db()
    assert consent.withdrawn_at is not None
    assert "Taken back" in browser.get(page).text


def test_a_consent_that_has_no_address_says_so(browser):
    player = a_player()
    answer = browser.post(
        reverse("player_consent", args=[player.pk]),
        {"about": "email", "given_by": "player"},
        follow=True,
    )
    assert "e-mail address first" in answer.text
    assert not Consent.objects.exists()


def test_two_records_become_one_and_the_old_address_leads_to_it(browser):
    keep, duplicate = a_player(phone="086 123 4567"), a_player("Imka", "Brandvold")
    merge = reverse("player_merge", args=[duplicate.pk])
    assert "Keep this one" in browser.get(merge, {"with": str(keep.pk)}).text
    answer = browser.post(merge, {"with": str(keep.pk), "keep": str(keep.pk)})
    assert answer["Location"] == reverse("player", args=[keep.pk])
    duplicate.refresh_from_db()
    assert duplicate.merged_into_id == keep.pk
    old = browser.get(reverse("player", args=[duplicate.pk]))
    assert (old.status_code, old["Location"]) == (302, reverse("player", args=[keep.pk]))


def test_a_fitter_may_not_merge_and_reads_why(fitter):
    answer = fitter.get(reverse("player_merge", args=[a_player().pk]))
    assert answer.status_code == 403
    assert "can&#x27;t merge players" in answer.text


def test_an_unknown_player_is_not_found(browser):
    assert browser.get(reverse("player", args=[uuid.uuid4()])).status_code == 404


def test_more_players_than_a_page_holds_are_reached_in_turn(browser):
    """Two of the same name stand at the border of two pages: both are shown, once."""
    names = [("Ada", f"Holm {number:03}") for number in range(49)]
    names += [("Ada", "Holm 049"), ("Ada", "Holm 049"), ("Bo", "Holm 049"), ("Ada", "Lund")]
    Player.objects.bulk_create(
        Player(given_name=given, family_name=family, hand="right", kind="man", carry_unit="yd",
               search_text=f"{given} {family}".casefold(), created_at=AT)
        for given, family in names
    )  # fmt: skip
    seen, address, pages = [], reverse("players") + "?q=ada", 0
    while address:
        page = browser.get(address).text
        seen += re.findall(r'href="/players/([0-9a-f-]{36})"', page)
        link = re.search(r'href="(\?[^"]*after=[^"]*)"', page)
        address = reverse("players") + link[1].replace("&amp;", "&") if link else ""
        pages += 1
    assert pages == 2
    assert len(seen) == 52
    assert len(set(seen)) == 52
    assert "From the beginning" in page


def test_a_page_behind_the_last_player_leads_back(browser):
    last = a_player("Zita", "Zwart")
    page = browser.get(reverse("players"), {"after": str(last.pk)}).text
    assert "No more players." in page
    assert browser.get(reverse("players"), {"after": "nonsense"}).status_code == 200
