"""Home figures on the loft plan's page: a band beside the measured carry, or what is missing."""

import html
import re
from uuid import uuid4

import pytest
from django.urls import reverse

from fitshop.models import AuditEntry
from sessions.models import Block, FiguresAnswer
from sessions.services.conditions import conditions_record
from sessions.services.players import player_change
from tests.fixtures_decide import Room

pytestmark = pytest.mark.django_db

BAND = re.compile(r"about \d+ to \d+ yd")


@pytest.fixture
def room(client):
    """A scratch player who lives at 1,800 m, hit 140 yards at sea level; heads for a plan."""
    room = Room()
    room.signed_in(client)
    for loft in ("50", "52", "54", "56", "58", "60"):
        room.head(loft)
    return room


def lives_at(room, altitude_m=1800.0, place="A plateau course"):
    values = {"given_name": "Imke", "family_name": "Brandvold", "hand": "right", "kind": "man",
              "carry_unit": "yd", "home_place": place, "home_altitude_m": altitude_m}  # fmt: skip
    player_change(player=room.player, values=values, by=room.by, at=room.at)


def air(room, **values):
    conditions_record(
        visit=room.visit, conditions_id=uuid4(), values=values, by=room.by, at=room.at
    )


def hit_the_wedge(room, **block):
    club = room.club("pitching_wedge", "pitching wedge", "47")
    trial = room.own_trial(club, "baseline")
    launch = {"ball_speed_ms": 46.0, "launch_deg": 25.0, "spin_rpm": 9800}
    room.hit(room.block(trial, **block), 138, 140, 142, 139, 141, **launch)


def page(room, client):
    answer = client.get(reverse("plan", args=[room.visit.pk]))
    assert answer.status_code == 200
    return re.sub(r"\s+", " ", html.unescape(answer.content.decode()))


def test_a_player_from_1800_m_sees_a_band_at_home_and_wider_gaps(room, client):
    lives_at(room)
    air(room, temperature_c=15, altitude_m=0)
    hit_the_wedge(room)
    text = page(room, client)
    assert "<b>140 yd</b> (5 balls" in text
    said = re.search(r"At home \(A plateau course, 1,800 m\): about (\d+) to (\d+) yd\.", text)
    # A good fitter expects about 153 to 157.
    assert 151 <= int(said[1]) <= 154
    assert 156 <= int(said[2]) <= 158
    assert "Worked out from the air, not measured" in text
    slots = re.findall(r"At home about \d+ to \d+ yd, gap about \d+", text)
    assert len(slots) >= 3
    # Nothing of home stands without "about": it can't be read as measured.
    for said in re.findall(r"At home ([^<]+)", text):
        assert said.startswith(("about ", "(A plateau course, 1,800 m): about "))


def test_without_the_answer_no_figure_only_the_question(room, client):
    lives_at(room)
    air(room, temperature_c=15, altitude_m=0)
    hit_the_wedge(room, as_flown="unanswered")
    text = page(room, client)
    assert "Were these as flown, or did the device normalise them?" in text
    assert "Home figures wait for that answer." in text
    assert not BAND.search(text)


def test_normalised_figures_are_not_corrected_twice(room, client):
    lives_at(room)
    air(room, temperature_c=15, pressure_hpa=1013)
    hit_the_wedge(room, as_flown="normalised")
    text = page(room, client)
    assert "would correct them twice" in text
    assert not BAND.search(text)


def test_one_block_without_the_answer_is_enough_to_wait(room, client):
    lives_at(room)
    air(room, temperature_c=15, altitude_m=0)
    hit_the_wedge(room)
    trial = room.head_trial(room.heads["Sedge 54"])
    room.hit(room.block(trial, as_flown="unanswered"), 110, 112)
    assert not BAND.search(page(room, client))


def test_a_home_without_altitude_and_a_visit_without_air_say_so(room, client):
    lives_at(room, altitude_m=None)
    hit_the_wedge(room)
    text = page(room, client)
    assert "how high A plateau course lies" in text
    assert "Note the air of the visit" in text
    assert not BAND.search(text)


def test_the_location_s_altitude_stands_in_and_a_later_note_of_the_air_counts(room, client):
    lives_at(room)
    room.location.altitude_m = 900
    room.location.save()
    air(room, temperature_c=35)
    air(room, temperature_c=15)
    hit_the_wedge(room)
    text = page(room, client)
    assert "15 °C here, 9 °C there" in text
    said = re.search(r"At home \(A plateau course, 1,800 m\): about (\d+) to (\d+) yd", text)
    # Half the climb: about half of it.
    assert 145 <= int(said[1]) < int(said[2]) <= 150


def test_a_chosen_plan_has_a_column_at_home(room, client):
    lives_at(room)
    air(room, temperature_c=15, altitude_m=0)
    hit_the_wedge(room)
    key = re.search(r'name="plan" value="(\w+)"', page(room, client))[1]
    client.post(reverse("plan", args=[room.visit.pk]), {"plan": key, "action": "choose"})
    cells = re.findall(r'<td data-label="At home">([^<]+)</td>', page(room, client))
    assert len(cells) == 3
    assert all(BAND.fullmatch(cell) for cell in cells)


def test_a_player_whose_home_nobody_asked_for_hears_one_line_and_the_way(room, client):
    hit_the_wedge(room, as_flown="unanswered")
    text = page(room, client)
    assert "No home figures. Write on the player's page where he or she plays" in text
    assert reverse("player_edit", args=[room.player.pk]) in text
    assert "normalise" not in text


def test_the_answer_can_be_given_afterwards_and_the_last_one_counts(room, client):
    lives_at(room)
    air(room, temperature_c=15, altitude_m=0)
    hit_the_wedge(room, as_flown="unanswered")
    say = {"action": "figures"}
    client.post(reverse("plan", args=[room.visit.pk]), say | {"answer": "normalised"})
    text = page(room, client)
    assert "would correct them twice" in text
    assert not BAND.search(text)
    client.post(reverse("plan", args=[room.visit.pk]), say | {"answer": "as_flown"})
    text = page(room, client)
    assert BAND.search(text)
    assert "was said afterwards of some blocks" in text
    # The block itself stays as it was recorded.
    assert set(Block.objects.values_list("as_flown", flat=True)) == {"unanswered"}
    assert AuditEntry.objects.filter(action="fitting.figures.answered").count() == 2


def test_no_other_answer_is_taken(room, client):
    hit_the_wedge(room, as_flown="unanswered")
    answer = client.post(
        reverse("plan", args=[room.visit.pk]),
        {"action": "figures", "answer": "unanswered"},
        follow=True,
    )
    assert "Say as flown, or normalised" in answer.content.decode()
    assert not FiguresAnswer.objects.exists()
