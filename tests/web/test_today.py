"""Today: the day, late visits, what was left open, and one search box."""

import datetime as dt

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from fitshop.actor import Role
from fitshop.models import Bay, Staff
from fitshop.services.staff import staff_enter
from sessions.services.visits import visit_open
from tests.fixtures_desk import AT, CLOCKWORK, PASSWORD, a_desk, a_player, elsewhere

pytestmark = pytest.mark.django_db


@pytest.fixture
def desk(settings):
    settings.DEMO = True  # no second factor
    return a_desk()


@pytest.fixture
def browser(client, desk):
    client.force_login(Staff.objects.get(username="mara"))
    return client


def test_today_fetches_its_panels_by_name(browser):
    text = browser.get(reverse("today")).text
    assert f'hx-get="{reverse("fitting_today_panel")}"' in text
    assert f'hx-get="{reverse("fitting_search_panel")}"' in text


def test_nothing_is_on_a_page_that_the_content_policy_would_refuse(browser):
    for name in ("today", "search", "players", "player_new", "set_up", "staff", "messages"):
        text = browser.get(reverse(name)).text
        assert "style=" not in text, name
        assert "<script>" not in text, name
        assert "onclick" not in text, name


def test_a_visit_past_its_time_is_late(browser, desk):
    now = timezone.now()
    desk.book(a_player(), starts_at=now - dt.timedelta(minutes=22, seconds=5))
    desk.book(a_player("Tuva", "L"), bay=desk.strip, starts_at=now - dt.timedelta(minutes=4))
    text = browser.get(
        reverse("fitting_today_panel"),
        {"day": (now - dt.timedelta(minutes=22)).astimezone(desk.location.zone_info).date()},
    ).text
    assert "Late 22 min" in text
    assert text.count("Late ") == 1


def test_what_was_left_open_is_said_today(browser, desk):
    visit = desk.book(a_player(), starts_at=dt.datetime(2020, 3, 2, 10, 0, tzinfo=dt.UTC))
    visit_open(visit=visit, by=CLOCKWORK, at=AT)
    text = browser.get(reverse("fitting_today_panel")).text
    assert "Still open since Mon 2 Mar 2020" in text


def test_the_day_costs_the_same_with_one_visit_and_with_twenty(browser, desk):
    day = {"day": "2027-03-02"}
    panel = reverse("fitting_today_panel")
    desk.book(a_player(), fitter=desk.odo)
    browser.get(panel, day)  # the first request of a sign-in notes when it was used
    with CaptureQueriesContext(connection) as one:
        browser.get(panel, day)
    for number in range(20):
        bay = Bay.objects.create(location=desk.location, name=f"Tee {number}")
        desk.book(a_player(f"P{number}", "Marsh"), bay=bay)
    with CaptureQueriesContext(connection) as twenty:
        browser.get(panel, day)
    assert len(twenty) == len(one)


def test_only_ones_own_location_is_shown(client, desk):
    other = elsewhere()
    desk.book(a_player(), location=other, bay=None)
    client.force_login(desk.odo)
    text = client.get(
        reverse("fitting_today_panel"), {"day": "2027-03-02", "location": str(other.pk)}
    ).text
    assert "Larkhill range" in text
    assert "Imke" not in text


def test_someone_who_works_nowhere_is_told_so(client, desk):
    nobody = staff_enter(
        username="nell",
        display_name="Nell Ardagh",
        email="",
        password=PASSWORD,
        roles=[Role.FITTER],
        locations=[],
        by=CLOCKWORK,
        at=AT,
    )
    client.force_login(nobody)
    assert "no location yet" in client.get(reverse("fitting_today_panel")).text


@pytest.mark.parametrize("day", ["2027-02-30", "yesterday", "0"])
def test_a_day_that_is_none_shows_today(browser, day):
    answer = browser.get(reverse("fitting_today_panel"), {"day": day})
    assert (answer.status_code, "Today, " in answer.text) == (200, True)


def test_the_search_panel_finds_players_and_nothing_for_nothing(browser, desk):
    a_player(phone="086 123 4567")
    panel = reverse("fitting_search_panel")
    assert "Imke Brandvold" in browser.get(panel, {"q": "123 45"}).text
    assert "Imke" not in browser.get(panel, {"q": ""}).text
    assert "No player with “zz”" in browser.get(panel, {"q": "zz"}).text


def test_a_script_typed_into_the_search_is_shown_as_text(browser, desk):
    for name in ("search", "fitting_search_panel", "players"):
        text = browser.get(reverse(name), {"q": "<script>alert(1)</script>"}).text
        assert "<script>alert" not in text, name
