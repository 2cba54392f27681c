"""The decision's page: what was hit on one side, one tap and a reason on the other."""

import re

import pytest
from django.urls import reverse

from sessions.models import Decision
from tests.fixtures_decide import Room

pytestmark = pytest.mark.django_db


@pytest.fixture
def room(client):
    room = Room()
    room.signed_in(client)
    return room


def page(room):
    return reverse("decision", args=[room.visit.pk]) + "?slot=2"


def tried(room):
    club = room.club("wedge", "56", "56")
    room.hit(room.block(room.own_trial(club, slot=2)), 84)
    trial = room.head_trial(room.head("54"), slot=2)
    room.hit(room.block(trial), 85)
    return club, trial


def test_with_nothing_tried_it_leads_to_the_plan(room, client):
    assert "Nothing to decide yet" in client.get(page(room)).content.decode()


def test_building_on_two_balls_asks_why_and_keeps_what_was_tapped(room, client):
    room.answer("fix", ["sand"])
    club, trial = tried(room)
    values = {"outcome": f"build:{trial.pk}", "wanted_0": "fixed", "leaves": f"club:{club.pk}"}
    answer = client.post(page(room), values)
    assert answer.status_code == 422
    assert "No measured difference speaks for building it" in answer.content.decode()
    client.post(page(room), values | {"reason": "Feel and sound"})
    row = Decision.objects.get()
    assert (row.outcome, row.reason, row.leaves_bag) == ("build", "Feel and sound", club)
    assert row.keep_fix[0]["answer"] == "fixed"
    assert "Build: " in client.get(page(room)).content.decode()


def test_keeping_the_club_played_now_is_one_tap(room, client):
    club, _ = tried(room)
    client.post(page(room), {"outcome": f"keep:{club.pk}"})
    assert Decision.objects.get().kept_club == club


def test_an_outcome_that_is_not_on_the_page_is_refused(room, client):
    tried(room)
    assert client.post(page(room), {"outcome": "keep:nobody"}).status_code == 422
    assert not Decision.objects.exists()


def pitches(room):
    """Twelve pitches at 30 yards each: the own 56 all over the place, the 54 beside the hole."""
    club = room.club("wedge", "56", "56")
    own = room.own_trial(club, slot=2)
    wide = room.block(own, swing="pitch", target_m=30 * 0.9144)
    room.hit(wide, 22, 38, 23, 37, 21, 39, 22, 38, 24, 36, 21, 39, side_yd=0)
    trial = room.head_trial(room.head("54"), slot=2)
    near = room.block(trial, swing="pitch", target_m=30 * 0.9144)
    room.hit(near, 29, 31, 30, 29, 31, 30, 30, 29, 31, 30, 29, 31, side_yd=0)
    return club, trial


def test_the_sheet_answers_what_was_wanted_with_the_numbers_behind_it(room, client):
    room.answer("keep", ["chip"])
    room.answer("fix", ["pitch"])
    pitches(room)
    text = client.get(page(room)).content.decode()
    sheet = text[text.index("Decision sheet, slot 2") : text.index("<h2>What was hit")]
    own, new = sheet[sheet.index("<tbody>") :].split("</tr>")[:2]
    assert "played now" in own
    assert "12 balls" in new
    answers = sheet[sheet.index("The player wants") :]
    chip, pitch = re.findall(r"<tr><th.*?</tr>", answers)
    assert re.findall(r">([\w ]+)</span>", chip) == ["Kept", "Not shown"]
    assert re.findall(r">([\w ]+)</span>", pitch) == ["Not fixed", "Fixed"]
    assert "nearer than" in answers
    # Nobody chipped with both: said, not guessed.
    assert "Not hit with both clubs in the same situation." in answers


def test_nothing_tapped_stores_what_the_shots_show_and_a_tap_stands_beside_it(room, client):
    room.answer("fix", ["pitch"])
    _, trial = pitches(room)
    build = {"outcome": f"build:{trial.pk}"}
    client.post(page(room), build)
    (fixed,) = Decision.objects.get(is_current=True).keep_fix
    assert (fixed["answer"], fixed["shown"]) == ("fixed", "fixed")
    assert "nearer than" in fixed["because"][0]
    client.post(page(room), build | {"wanted_0": "not_fixed", "reason": "Feel and sound"})
    (otherwise,) = Decision.objects.get(is_current=True).keep_fix
    assert (otherwise["answer"], otherwise["shown"]) == ("not_fixed", "fixed")
    assert "the shots say: fixed" in client.get(page(room)).content.decode()
