"""The fragment of verdicts: numbers with their doubt, turf counted, no head named too soon."""

import re
from uuid import uuid4

import pytest
from django.urls import reverse

from sessions.services.comparisons import comparison_open
from tests.fixtures_decide import AT, Room

pytestmark = pytest.mark.django_db


@pytest.fixture
def room(client):
    room = Room()
    room.signed_in(client)
    return room


def fragment(room, client, slot="2"):
    return client.get(reverse("verdicts", args=[room.visit.pk]), {"slot": slot}).content.decode()


def test_before_the_first_ball_it_says_so(room, client):
    assert "after the first ball" in fragment(room, client)


def test_it_says_real_differences_turf_and_worn_grooves(room, client):
    club = room.club("wedge", "56", "56", grooves="worn")
    room.hit(room.block(room.own_trial(club, slot=2)), 83, 84, 85, 84, 83, 85, 84, 84)
    block = room.block(room.head_trial(room.head("54"), slot=2))
    room.hit(block, 95, 96, 97, 96, 95, 97, 96, 96, turf="clean")
    text = fragment(room, client)
    assert "Carry: real difference" in text
    assert "12 yd longer than your 56" in text
    assert "Turf: clean 8" in text
    assert "Fresh grooves beat worn ones" in text


def test_a_sole_on_a_mat_reads_not_tested_on_turf(room, client):
    room.hit(room.block(room.head_trial(room.head("54"), slot=2), hit_from="mat"), 96, 97)
    assert "Not tested on turf" in fragment(room, client)


def test_no_head_is_named_while_a_comparison_runs(room, client):
    trials = [room.head_trial(room.head("56", "8", "Sedge"), slot=2),
              room.head_trial(room.head("56", "12", "Rush"), slot=2)]  # fmt: skip
    room.hit(room.block(trials[0]), 84, 85)
    room.hit(room.block(trials[1]), 86, 85)
    comparison_open(visit=room.visit, comparison_id=uuid4(), slot=2, trials=trials, covered=True,
                    seed=3, by=room.by, at=AT)  # fmt: skip
    text = fragment(room, client)
    assert "Number " in text
    for secret in ("Sedge", "Rush", "Orrin Vale"):
        assert secret not in text


def test_the_club_in_hand_is_judged_first_and_gaps_are_between_slots(room, client):
    own = room.block(room.own_trial(room.club("wedge", "56", "56"), slot=2))
    room.hit(own, 83, 84, 85, 84, 83, 85, 84, 84)
    room.hit(room.block(room.head_trial(room.head("50"), slot=1)), 103, 104, 105)
    room.hit(room.block(room.head_trial(room.head("54", "8", "Sedge"), slot=2)), 92, 93, 94)
    trial = room.head_trial(room.head("54", "12", "Rush"), slot=2)
    block = room.block(trial)
    room.hit(block, 90, 91, 92, turf="digs")
    text = client.get(
        reverse("verdicts", args=[room.visit.pk]),
        {"slot": "2", "trial": str(trial.pk), "block": str(block.pk)},
    ).content.decode()
    first, rest = text.split("Full swings: carry and gaps", 1)
    assert "against your 56" in first
    assert "Turf: <b>digs 3</b>" in first
    assert "Sedge" not in first
    # 104 of slot 1 to 91 in the hand; the rivals of slot 2 carry 93 and 84.
    assert re.findall(r"gap (\d+)", rest.split("</svg>")[0]) == ["13"]
    assert rest.count("(instead)") >= 2
