"""Booking, moving and opening as the desk does it, in the location's own time."""

import datetime as dt
import re
import uuid

import pytest
from django.urls import reverse

from fitshop.models import Staff, StaffLocation
from sessions.forms.visits import moment_at
from sessions.models import Visit
from sessions.services.visits import visit_cancel, visit_open
from tests.fixtures_desk import AT, CLOCKWORK, TEN, a_desk, a_player, elsewhere

pytestmark = pytest.mark.django_db


@pytest.fixture
def desk(settings):
    settings.DEMO = True  # no second factor
    return a_desk()


@pytest.fixture(autouse=True)
def clock(monkeypatch):
    """The desk works on 2 March 2027: what is past or far ahead is judged from there."""
    monkeypatch.setattr("sessions.views.visits.timezone.now", lambda: AT)


@pytest.fixture
def browser(client, desk):
    client.force_login(Staff.objects.get(username="mara"))
    return client


@pytest.fixture
def player(desk):
    return a_player()


def typed_visit(desk, **changes):
    return {
        "id": str(uuid.uuid4()),
        "day": "2027-07-06",
        "time": "10:00",
        "minutes": "60",
        "bay": str(desk.bay.pk),
        "fitter": str(desk.odo.pk),
        "kind": "wedges",
        "note": "",
    } | changes


def test_a_visit_is_booked_in_the_locations_time_and_only_once(browser, desk, player):
    address = reverse("visit_new") + f"?player={player.pk}"
    typed = typed_visit(desk)
    first = browser.post(address, typed)
    again = browser.post(address, typed)
    visit = Visit.objects.get()
    assert first["Location"] == again["Location"] == reverse("visit", args=[visit.pk])
    # Dublin is an hour ahead of UTC in July.
    assert visit.starts_at == dt.datetime(2027, 7, 6, 9, 0, tzinfo=dt.UTC)
    assert "Tue 6 Jul 2027 10:00" in browser.get(first["Location"]).text


def test_a_taken_bay_is_said_beside_the_bay_and_what_was_typed_stays(browser, desk, player):
    address = reverse("visit_new") + f"?player={player.pk}"
    browser.post(address, typed_visit(desk))
    answer = browser.post(
        address, typed_visit(desk, time="10:30", fitter="", note="Brings her own balls")
    )
    assert answer.status_code == 422
    assert "Bay 1 is taken: Imke Brandvold, 10:00 to 11:00." in answer.text
    assert 'id="id_bay_error"' in answer.text
    assert "Brings her own balls" in answer.text
    assert 'value="10:30"' in answer.text
    assert Visit.objects.count() == 1


@pytest.mark.parametrize("name", ["day", "time", "minutes"])
def test_what_is_missing_is_said_beside_its_field(browser, desk, player, name):
    answer = browser.post(
        reverse("visit_new") + f"?player={player.pk}", typed_visit(desk, **{name: ""})
    )
    assert answer.status_code == 422
    assert f'id="id_{name}_error"' in answer.text
    assert not Visit.objects.exists()


def test_a_walk_in_is_open_at_once(browser, desk, player):
    typed = typed_visit(desk)
    del typed["day"], typed["time"]
    browser.post(reverse("visit_new") + f"?player={player.pk}&walk_in=1", typed)
    visit = Visit.objects.get()
    assert (visit.state, visit.is_walk_in) == ("open", True)
    assert visit.starts_at <= visit.opened_at


# Ireland: the last Sunday of March at 01:00 UTC, and of October (Directive 2000/84/EC, art. 2, 3).
DUBLIN = "Europe/Dublin"


@pytest.mark.parametrize(
    ("day", "time", "moment"),
    [
        ("2027-03-28", "00:59", "2027-03-28T00:59+00:00"),
        ("2027-03-28", "01:00", None),
        ("2027-03-28", "01:59", None),
        ("2027-03-28", "02:00", "2027-03-28T01:00+00:00"),
        ("2027-10-31", "01:30", "2027-10-31T00:30+00:00"),
        ("2027-10-31", "02:00", "2027-10-31T02:00+00:00"),
    ],
)
def test_the_hours_when_the_clocks_change(day, time, moment):
    from zoneinfo import ZoneInfo

    got = moment_at(dt.date.fromisoformat(day), dt.time.fromisoformat(time), ZoneInfo(DUBLIN))
    assert got == (dt.datetime.fromisoformat(moment) if moment else None)


def test_the_skipped_hour_is_refused_beside_the_time(browser, desk, player):
    answer = browser.post(
        reverse("visit_new") + f"?player={player.pk}",
        typed_visit(desk, day="2027-03-28", time="01:30"),
    )
    assert answer.status_code == 422
    assert "this time does not exist" in answer.text


def test_whom_comes_first_and_keeps_the_chosen_day_and_bay(browser, desk, player):
    answer = browser.get(
        reverse("visit_new"), {"day": "2027-07-06", "bay": str(desk.strip.pk), "q": "imke"}
    )
    assert answer.status_code == 200
    assert f"?day=2027-07-06&amp;bay={desk.strip.pk}&amp;player={player.pk}" in answer.text
    form = browser.get(
        reverse("visit_new"),
        {"day": "2027-07-06", "bay": str(desk.strip.pk), "player": str(player.pk)},
    )
    assert 'value="2027-07-06"' in form.text
    assert f'<option value="{desk.strip.pk}" selected>' in form.text


def test_a_visit_is_moved(browser, desk, player):
    visit = desk.book(player)
    move = reverse("visit_move", args=[visit.pk])
    assert 'value="10:00"' in browser.get(move).text
    typed = {"day": "2027-03-03", "time": "14:15", "minutes": "90", "bay": "", "fitter": ""}
    assert browser.post(move, typed).status_code == 302
    visit.refresh_from_db()
    assert visit.starts_at == dt.datetime(2027, 3, 3, 14, 15, tzinfo=dt.UTC)
    assert (visit.minutes, visit.bay) == (90, None)


def test_a_booked_visit_offers_what_can_come_next(browser, desk, player):
    visit = desk.book(player)
    text = browser.get(reverse("visit", args=[visit.pk])).text
    for name in ("visit_open", "visit_move", "visit_cancel"):
        assert reverse(name, args=[visit.pk]) in text


def test_cancelled_is_the_end_and_the_page_says_so(browser, desk, player):
    visit = desk.book(player)
    browser.post(reverse("visit_cancel", args=[visit.pk]))
    visit.refresh_from_db()
    assert visit.state == "cancelled"
    text = browser.get(reverse("visit", args=[visit.pk])).text
    assert "Cancelled" in text
    assert reverse("visit_open", args=[visit.pk]) not in text
    refused = browser.post(reverse("visit_open", args=[visit.pk]))
    assert refused.status_code == 409
    assert "cancelled" in refused.text


def test_did_not_come_is_said_after_the_time_only(browser, desk, player):
    future = desk.book(player, starts_at=dt.datetime(2127, 3, 2, 10, 0, tzinfo=dt.UTC))
    past = desk.book(player, starts_at=dt.datetime(2020, 3, 2, 10, 0, tzinfo=dt.UTC))
    no_show = reverse("visit_no_show", args=[future.pk])
    assert no_show not in browser.get(reverse("visit", args=[future.pk])).text
    assert browser.post(no_show).status_code == 409
    assert browser.post(reverse("visit_no_show", args=[past.pk])).status_code == 302
    past.refresh_from_db()
    assert past.state == "no_show"


def test_an_open_visit_leads_the_fitter_to_its_first_step(client, desk, player):
    visit = visit_open(visit=desk.book(player), by=CLOCKWORK, at=AT)
    client.force_login(desk.odo)
    answer = client.get(reverse("visit", args=[visit.pk]))
    assert (answer.status_code, answer["Location"]) == (
        302,
        reverse("room", args=[visit.pk, "interview"]),
    )
    record = client.get(reverse("visit", args=[visit.pk]), {"stay": "1"})
    assert "The record" in record.text


def test_a_visit_elsewhere_is_not_found_and_not_changed(client, desk, player):
    other = elsewhere()
    visit = desk.book(player, location=other, bay=None)
    client.force_login(desk.odo)
    assert client.get(reverse("visit", args=[visit.pk])).status_code == 404
    assert client.post(reverse("visit_cancel", args=[visit.pk])).status_code == 404
    visit.refresh_from_db()
    assert visit.state == "booked"


def test_the_day_shows_every_bay_in_order_with_its_states(browser, desk, player):
    desk.book(player, starts_at=TEN)
    gone = desk.book(a_player("Tuva", "Lindqvist"), starts_at=TEN + dt.timedelta(hours=2))
    visit_cancel(visit=gone, by=CLOCKWORK, at=AT)
    text = browser.get(reverse("fitting_today_panel"), {"day": "2027-03-02"}).text
    assert text.index("Imke Brandvold") < text.index("Tuva Lindqvist")
    assert "Grass strip" in text
    assert "Cancelled" in text
    assert (
        "Imke Brandvold"
        not in browser.get(reverse("fitting_today_panel"), {"day": "2027-03-03"}).text
    )


def a_child():
    return a_player("Kofi", "Byrne", kind="junior", guardian_name="Efua Asamoah")


WORDS = "The shop may keep the record of my fittings"


def test_a_childs_visit_opens_only_with_the_guardians_consent_to_the_record(browser, desk):
    visit = desk.book(a_child())
    page = browser.get(reverse("visit", args=[visit.pk])).text
    assert WORDS in page
    assert "Efua Asamoah agrees" in page
    opened = reverse("visit_open", args=[visit.pk])
    answer = browser.post(opened)
    assert answer.status_code == 422
    assert "Ask Efua Asamoah first: a child&#x27;s fitting is recorded only" in answer.text
    visit.refresh_from_db()
    assert visit.state == "booked"
    assert browser.post(opened, {"guardian_agrees": "on"}).status_code == 302
    visit.refresh_from_db()
    assert visit.state == "open"
    consent = visit.player.consents.get()
    assert (consent.about, consent.given_by, consent.text_version) == (
        "record",
        "guardian",
        "record-1",
    )


def test_a_guardian_who_agreed_before_is_not_asked_again(browser, desk):
    child = a_child()
    browser.post(
        reverse("player_consent", args=[child.pk]), {"about": "record", "given_by": "guardian"}
    )
    visit = desk.book(child)
    assert WORDS not in browser.get(reverse("visit", args=[visit.pk])).text
    assert browser.post(reverse("visit_open", args=[visit.pk])).status_code == 302


def test_a_child_who_walks_in_needs_the_guardian_too(browser, desk):
    child = a_child()
    address = reverse("visit_new") + f"?player={child.pk}&walk_in=1"
    page = browser.get(address).text
    assert WORDS in page
    typed = {"id": str(uuid.uuid4()), "minutes": "60", "kind": "wedges", "bay": "", "fitter": "",
             "note": "left in a hurry"}  # fmt: skip
    answer = browser.post(address, typed)
    assert answer.status_code == 422
    assert "Ask Efua Asamoah first" in answer.text
    assert "left in a hurry" in answer.text
    assert not child.visits.exists()
    assert browser.post(address, typed | {"guardian_agrees": "on"}).status_code == 302
    assert child.visits.get().state == "open"
    assert child.consents.get().given_by == "guardian"


def test_a_grown_player_is_asked_nothing_of_the_kind(browser, desk, player):
    visit = desk.book(player)
    assert WORDS not in browser.get(reverse("visit", args=[visit.pk])).text
    assert WORDS not in browser.get(reverse("visit_new") + f"?player={player.pk}&walk_in=1").text


@pytest.mark.parametrize("more_locations", [False, True])
@pytest.mark.parametrize("walk_in", [False, True])
def test_the_day_beside_a_booking_listens_only_to_fields_that_are_there(
    browser, player, more_locations, walk_in
):
    if more_locations:
        mara = Staff.objects.get(username="mara")
        StaffLocation.objects.create(staff=mara, location=elsewhere())
    query = f"?player={player.pk}" + ("&walk_in=1" if walk_in else "")
    page = browser.get(reverse("visit_new") + query).text
    panel = page[page.index('aria-label="That day"') :].split(">")[0]
    named = set(re.findall(r"#(id_\w+)", panel))
    assert named == {name for name in ("id_day", "id_location") if f'id="{name}"' in page}
    assert ("hx-include" in panel) == bool(named)


ENDS = [
    ("9999-12-31", "10:00", "Europe/Dublin"),
    ("9999-12-31", "23:30", "America/Denver"),
    ("0001-01-01", "00:10", "Asia/Tokyo"),
]


@pytest.mark.parametrize(("day", "time", "zone"), ENDS)
def test_a_day_at_the_end_of_the_calendar_is_refused_beside_the_day(
    browser, desk, player, day, time, zone
):
    desk.location.zone = zone
    desk.location.save()
    visit = desk.book(player, starts_at=TEN + dt.timedelta(hours=3))
    for address in (
        reverse("visit_new") + f"?player={player.pk}",
        reverse("visit_move", args=[visit.pk]),
    ):
        answer = browser.post(address, typed_visit(desk, day=day, time=time, bay="", fitter=""))
        assert answer.status_code == 422
        assert answer.context["form"].has_error("day", "day.out_of_range")
        assert f'value="{day}"' in answer.text
    assert Visit.objects.count() == 1


@pytest.mark.parametrize("day", ["9999-12-31", "0001-01-01"])
def test_the_days_panel_says_which_days_there_are(browser, desk, player, day):
    for plain in ({}, {"plain": "1"}):
        answer = browser.get(reverse("fitting_today_panel"), {"day": day} | plain)
        assert answer.status_code == 200
        assert answer.context["day_refused"]
    # The booking page opens on a day that there is.
    opened = browser.get(reverse("visit_new"), {"player": str(player.pk), "day": day})
    assert opened.context["form"].initial["day"] == AT.date()


@pytest.mark.parametrize(
    ("day", "time", "asked", "field"),
    [
        ("2020-07-06", "10:00", "past:2020-07-06", "day"),
        ("2029-07-06", "10:00", "ahead:2029-07-06", "day"),
        ("2027-07-06", "03:00", "hour:03:00", "time"),
    ],
)
def test_an_unlikely_time_is_asked_about_once_and_booked_with_one_tap(
    browser, desk, player, day, time, asked, field
):
    address = reverse("visit_new") + f"?player={player.pk}"
    typed = typed_visit(desk, day=day, time=time, note="from the paper book")
    answer = browser.post(address, typed)
    form = answer.context["form"]
    assert (answer.status_code, form.doubts) == (422, asked)
    assert form.has_error(field, "visits.asked_once")
    assert f'name="sure_of" value="{asked}"' in answer.text
    assert not Visit.objects.exists()
    assert browser.post(address, typed | {"sure_of": form.doubts}).status_code == 302
    assert Visit.objects.get().note == "from the paper book"


@pytest.mark.parametrize(("day", "time"), [("2027-03-02", "06:00"), ("2028-03-01", "21:55")])
def test_a_usual_time_is_not_asked_about(browser, desk, player, day, time):
    """Today, and 365 days ahead; the first hour of a day and the last minutes."""
    address = reverse("visit_new") + f"?player={player.pk}"
    assert browser.post(address, typed_visit(desk, day=day, time=time)).status_code == 302


def test_an_answer_counts_for_what_was_asked_only(browser, desk, player):
    address = reverse("visit_new") + f"?player={player.pk}"
    typed = typed_visit(desk, day="2019-07-06", sure_of="past:2020-07-06")
    answer = browser.post(address, typed)
    assert (answer.status_code, answer.context["form"].doubts) == (422, "past:2019-07-06")


def test_the_same_player_twice_at_one_time_is_asked_about_also_at_the_counter(
    browser, desk, player
):
    there = desk.book(player, starts_at=AT, bay=None)
    typed = typed_visit(desk, bay="", fitter="")
    walks_in = reverse("visit_new") + f"?player={player.pk}&walk_in=1"
    answer = browser.post(walks_in, typed)
    assert (answer.status_code, answer.context["form"].doubts) == (422, f"twice:{there.pk}")
    assert browser.post(walks_in, typed | {"sure_of": f"twice:{there.pk}"}).status_code == 302
    assert Visit.objects.filter(player=player).count() == 2


def test_a_move_asks_about_the_new_time_and_never_about_the_old(browser, desk, player):
    visit = desk.book(player, starts_at=dt.datetime(2020, 3, 2, 3, 0, tzinfo=dt.UTC))
    move = reverse("visit_move", args=[visit.pk])
    typed = {"day": "2020-03-02", "time": "03:00", "minutes": "60", "bay": "", "fitter": ""}
    assert browser.post(move, typed).status_code == 302
    answer = browser.post(move, typed | {"day": "2021-03-02"})
    assert answer.context["form"].doubts == "past:2021-03-02 hour:03:00"
    sure = typed | {"day": "2021-03-02", "sure_of": answer.context["form"].doubts}
    assert browser.post(move, sure).status_code == 302
    visit.refresh_from_db()
    assert visit.starts_at == dt.datetime(2021, 3, 2, 3, 0, tzinfo=dt.UTC)
