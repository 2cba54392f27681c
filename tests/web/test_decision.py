"""The decision's page: what was hit on one side, one tap and a reason on the other."""

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
