"""The loft plan's page: the baseline said with its doubt, one tap to choose, a reason for own."""

import re

import pytest
from django.urls import reverse

from sessions.models import LoftPlan
from tests.fixtures_decide import Room

pytestmark = pytest.mark.django_db


@pytest.fixture
def room(client):
    room = Room()
    room.signed_in(client)
    return room


def page(room):
    return reverse("plan", args=[room.visit.pk])


def test_without_a_baseline_the_page_says_what_to_do(room, client):
    text = client.get(page(room)).content.decode()
    assert "No baseline yet" in text
    assert "full stock swings with the pitching wedge" in text


def test_the_baseline_stands_with_balls_and_spread_and_one_tap_chooses(room, client):
    for loft in ("48", "50", "52", "54", "56", "58", "60"):
        room.head(loft)
    room.baseline(126, 128, 130)
    text = client.get(page(room)).content.decode()
    assert "<b>128 yd</b> (3 balls, spread 2 yd), 45°, measured" in text
    key = re.search(r'name="plan" value="(\w+)"', text)[1]
    answer = client.post(page(room), {"plan": key, "action": "choose"})
    assert answer.status_code == 302
    plan = LoftPlan.objects.get()
    assert plan.is_own is False
    assert plan.slots.count() == 3
    assert "Chosen by" in client.get(page(room)).content.decode()


def test_the_chosen_plan_stands_once_on_the_page(room, client):
    for loft in ("48", "50", "52", "54", "56", "58", "60"):
        room.head(loft)
    room.baseline(126, 128, 130)
    before = [one["key"] for one in client.get(page(room)).context["plans"]]
    client.post(page(room), {"plan": before[1], "action": "choose"})
    shown = client.get(page(room)).context
    assert [one["key"] for one in shown["plans"]] == [before[0], *before[2:]]
    assert shown["proposed"]["key"] == before[1]


def test_a_planned_carry_reads_the_same_before_and_after_it_is_chosen(room, client):
    for loft in ("48", "50", "52", "54", "56", "58", "60"):
        room.head(loft)
    room.baseline(126, 128, 130)
    proposed = client.get(page(room)).content.decode()
    key = re.search(r'name="plan" value="(\w+)"', proposed)[1]
    said = re.findall(r"<b>(\d+ yd)</b> \((\d+ to \d+ yd)", proposed)[:3]
    client.post(page(room), {"plan": key, "action": "choose"})
    chosen = client.get(page(room)).content.decode().split("Chosen by")[1]
    assert len(said) == 3
    assert [f"{carry} ({between})" in chosen for carry, between in said] == [True, True, True]


def test_a_plan_that_is_no_longer_suggested_is_not_taken(room, client):
    room.head("50")
    room.baseline()
    client.post(page(room), {"plan": "0" * 16, "action": "choose"})
    assert not LoftPlan.objects.exists()


def test_own_lofts_ask_for_a_reason(room, client):
    room.baseline()
    answer = client.post(page(room), {"action": "own", "loft_1": "51"})
    assert answer.status_code == 422
    assert "Say why in one tap" in answer.content.decode()
    client.post(page(room), {"action": "own", "loft_1": "51", "why_words": "He has a 51 at home"})
    assert LoftPlan.objects.get().is_own is True


def test_what_cannot_be_planned_is_said_in_a_sentence(room, client):
    room.head("58")
    room.baseline()
    assert "No plan fits" in client.get(page(room) + "?wedges=1").content.decode()


def test_a_visit_of_another_location_is_not_found(room, client):
    from fitshop.models import Location, StaffLocation

    elsewhere = Location.objects.create(name="High Links", zone="Europe/Dublin")
    StaffLocation.objects.update(location=elsewhere)
    assert client.get(page(room)).status_code == 404


def test_an_own_club_that_nobody_measured_is_said_by_its_stamp(room, client):
    room.baseline()
    room.club("wedge", "sand wedge", None, "56")
    room.club("wedge", "gap wedge", "50.6", "50")
    text = client.get(page(room) + "?wedges=2").content.decode()
    assert "<h3>56° (as stamped, not measured)</h3>" in text
    assert "<h3>50.6° (measured)</h3>" in text
    assert "Your own club stays, by its stamp, not measured: 5.4 degrees" in text


def test_a_head_can_be_left_out_and_taken_back(room, client):
    kept_out = room.head("50").head
    room.head("51")
    room.baseline()
    link = f"?wedges=1&amp;without={kept_out.pk}"
    assert link in client.get(page(room) + "?wedges=1").content.decode()
    text = client.get(f"{page(room)}?wedges=1&without={kept_out.pk}").content.decode()
    assert f"Planned without {kept_out}" in text
    assert "<h3>50°</h3>" not in text
    assert "<h3>50° (stamped 51, bent 1 strong)</h3>" in text
    assert '<a href="?wedges=1">Take it back' in text


def test_the_roles_are_the_fitter_s_to_say(room, client):
    for loft in ("50", "56"):
        room.head(loft)
    room.baseline()
    text = client.get(page(room) + "?wedges=2&full_shots=2&step_high=6").content.decode()
    assert "Touch club</p>" not in text
    key = re.search(r'name="plan" value="(\w+)"', text)[1]
    client.post(page(room) + "?wedges=2&full_shots=2&step_high=6", {"plan": key})
    assert {slot.role for slot in LoftPlan.objects.get().slots.all()} == {"full_shot"}


def test_few_wedges_below_a_strong_pitching_wedge_are_offered_wider_steps(room, client):
    for loft in ("48", "50", "52", "54", "56"):
        room.head(loft)
    room.baseline(78, loft="43")
    text = client.get(page(room) + "?wedges=2").content.decode()
    assert "Plan 4: 50° / 56°" in text
    assert "Wider steps than usual, up to 7 degrees" in text
    # A fitter who set the steps is not offered others.
    text = client.get(page(room) + "?wedges=2&step_high=6").content.decode()
    assert "Wider steps" not in text
