"""First clubs: what the interview suggests stands per slot, conflicts show, a person overrules."""

import re

import pytest
from django.urls import reverse

from fitshop.actor import Role
from fitshop.models import AuditEntry
from fitshop.refusals import FieldsRefused
from fitshop.services.shop_settings import settings_change
from sessions.models import Overruling
from sessions.selectors.first_clubs import visit_first_clubs
from sessions.services.interviews import suggestion_overrule
from tests.fixtures_decide import AT, Room
from tests.spec_room import staff_actor

pytestmark = pytest.mark.django_db


@pytest.fixture
def room(client):
    room = Room()
    room.signed_in(client)
    for loft in ("48", "50", "52", "54", "56", "58", "60"):
        room.head(loft)
    room.baseline(126, 128, 130)
    return room


def page(room):
    return reverse("first_clubs", args=[room.visit.pk])


def say(room, **answers):
    for question, value in answers.items():
        room.answer(question, value)


def test_before_anything_is_asked_the_page_says_so_and_guesses_nothing(room, client):
    text = client.get(page(room)).content.decode()
    assert "none is chosen yet" in text
    assert "Not suggested yet" in text
    assert "Weight of the shaft in your irons" in text
    # The trade's order of trials stands there as advice.
    assert text.index("Loft, for the gap.") < text.index("Then the sole, on turf and in sand")


def test_two_answers_that_pull_two_ways_stand_first(room, client):
    say(room, attack_deg="-2.5", ground_summer="normal", ground_winter="normal",
        sand=["fluffy"], face_opened="often", iron_lie_deg="-1", iron_shaft_g="120")  # fmt: skip
    text = client.get(page(room)).content.decode()
    assert "Two answers pull two ways." in text
    assert "Shallow from turf but soft or fluffy sand" in text
    assert "120 to 130 g" in text
    assert text.index("Two answers pull") < text.index("Slot 1")


def test_a_suggestion_is_overruled_with_a_reason_and_stays_in_sight(room, client):
    say(room, iron_lie_deg="-1")
    answer = client.post(
        page(room),
        {
            "which": "s1-lie",
            "s1-lie-instead": "stock lie",
            "s1-lie-reason_words": "Irons go back to 0",
        },
    )
    assert answer.status_code == 302
    text = client.get(page(room)).content.decode()
    assert "<b>stock lie</b>" in text
    assert "Irons go back to 0" in text
    assert "Suggested was: 1 flat." in text
    entry = AuditEntry.objects.get(action="fitting.suggestion.overruled")
    assert entry.after["reason"] == "Irons go back to 0"


def test_without_a_reason_nothing_is_set_aside_and_what_was_typed_stays(room, client):
    say(room, iron_lie_deg="-1")
    answer = client.post(page(room), {"which": "s1-lie", "s1-lie-instead": "2 upright"})
    assert answer.status_code == 422
    text = answer.content.decode()
    assert "Say why: whoever reads it later" in text
    assert 'value="2 upright"' in text
    assert not Overruling.objects.exists()


def test_an_overruling_ends_when_the_suggestion_changes_or_is_taken_back(room, client):
    say(room, iron_lie_deg="-1")
    aside = {
        "which": "s1-lie",
        "s1-lie-instead": "stock lie",
        "s1-lie-reason_words": "They hang low",
    }
    client.post(page(room), aside)
    say(room, iron_lie_deg="1")
    assert "<b>stock lie</b>" not in client.get(page(room)).content.decode()
    say(room, iron_lie_deg="-1")
    assert "<b>stock lie</b>" in client.get(page(room)).content.decode()
    client.post(page(room), aside | {"s1-lie-instead": ""})
    assert "<b>stock lie</b>" not in client.get(page(room)).content.decode()
    assert Overruling.objects.count() == 2


def test_a_suggestion_of_a_slot_that_is_gone_is_said(room, client):
    answer = client.post(page(room), {"which": "s9-lie", "s9-lie-reason_words": "why"}, follow=True)
    assert "The plan changed meanwhile." in answer.content.decode()
    assert not Overruling.objects.exists()


def test_each_why_bears_the_id_of_its_judgement(room, client):
    say(room, attack="shallow", ground_summer="soft", ground_winter="soft", iron_lie_deg="0",
        iron_shaft_g="120", keep=["chip"], fix=["sand"], irons_changing="yes")  # fmt: skip
    text = client.get(page(room)).content.decode()
    for rule_id in ("B06", "C03", "L01", "S03", "W04", "K01", "F01", "F02", "E01", "T02"):
        assert f'<small class="why-id">TRY-{rule_id}</small>' in text


def test_what_the_shop_switched_off_is_not_said(room, client):
    say(room, attack="shallow", ground_summer="soft", ground_winter="soft")
    assert "Shallow on soft ground" in client.get(page(room)).content.decode()
    manager = staff_actor(room.location, "Una Frost", Role.MANAGER)
    off = {"judgements.TRY-C03": "off", "judgements.TRY-B06": "off"}
    settings_change(typed=off, by=manager, at=AT)
    text = client.get(page(room)).content.decode()
    assert "Shallow on soft ground" not in text
    assert "The shop has switched off what would be said here." in text


def test_before_there_are_slots_the_soles_stand_by_job(client):
    room = Room()
    room.signed_in(client)
    say(room, attack="steep", ground_summer="soft", ground_winter="soft", sand=["fluffy"])
    text = client.get(page(room)).content.decode()
    assert "No slots yet" in text
    soles = text.split("Soles by job")[1].split("</section>")[0]
    assert "High bounce (11 and more)</b>" in soles
    assert "High bounce (11 and more), wide sole</b>" in soles
    assert "How often the face is opened is not known." in soles


def test_a_chip_is_a_reason_and_own_words_come_before_it(room, client):
    say(room, iron_lie_deg="-1")
    aside = {"which": "s1-lie", "s1-lie-instead": "0", "s1-lie-reason": "Seen or measured today"}
    assert client.post(page(room), aside).status_code == 302
    assert Overruling.objects.last().reason == "Seen or measured today"
    client.post(page(room), aside | {"s1-lie-reason_words": "Her feet were above the ball"})
    assert Overruling.objects.last().reason == "Her feet were above the ball"
    assert client.post(page(room), aside | {"s1-lie-reason": "no chip"}).status_code == 422


@pytest.mark.parametrize(
    ("topic", "instead"), [("wedges", "2"), ("try_first", "The 60 out of sand")]
)
def test_the_number_of_wedges_and_what_is_tried_first_can_be_set_aside(
    room, client, topic, instead
):
    say(room, wedges_wanted="three")
    which = f"s0-{topic}"
    answer = client.post(
        page(room),
        {"which": which, f"{which}-instead": instead, f"{which}-reason": "The player wants it so"},
    )
    assert answer.status_code == 302
    text = client.get(page(room)).content.decode()
    assert f"<b>{instead}</b>" in text
    assert "Suggested was: " in text
    assert Overruling.objects.get().slot == 0


def test_the_plan_begins_with_the_number_of_wedges_that_first_clubs_says(room, client):
    plan = reverse("plan", args=[room.visit.pk])
    text = client.get(plan).content.decode()
    # From 45 degrees to 60 in steps of five: three.
    assert "3 wedges to begin with." in text
    assert "TRY-W04" in text
    assert re.search(r'value="3"[^>]*checked', text)
    two = {"which": "s0-wedges", "s0-wedges-instead": "2",
           "s0-wedges-reason_words": "The hybrid stays"}  # fmt: skip
    client.post(page(room), two)
    text = client.get(plan).content.decode()
    assert "2 wedges to begin with. Overruled on First clubs by mara: The hybrid stays." in text
    assert re.search(r'value="2"[^>]*checked', text)
    assert text.count('<ol class="plan-slots"') == text.count("Plan without this head") / 2
    # Another number that is asked for on the plan's own page goes before.
    assert re.search(r'value="3"[^>]*checked', client.get(plan + "?wedges=3").content.decode())
    # The number in force is the one that is marked; another reason alone doesn't take it back.
    assert re.search(r'name="s0-wedges-instead" value="2"[^>]*checked', _text(client, page(room)))
    answer = client.post(page(room), two | {"s0-wedges-instead": ""}, follow=True)
    assert "The suggestion counts again." in answer.content.decode()
    assert "3 wedges to begin with." in client.get(plan).content.decode()
    assert "Suggested was:" not in _text(client, page(room))


def _text(client, address):
    return client.get(address).content.decode()


def test_a_number_of_wedges_that_no_plan_has_is_refused_beside_its_field(room, client):
    five = {"which": "s0-wedges", "s0-wedges-instead": "5", "s0-wedges-reason_words": "Wants five"}
    answer = client.post(page(room), five)
    assert answer.status_code == 422
    assert not Overruling.objects.exists()
    suggestion = visit_first_clubs(room.visit).found.count
    with pytest.raises(FieldsRefused, match=r"Say how many wedges: 1 to 4\."):
        suggestion_overrule(
            visit=room.visit, slot=0, suggestion=suggestion, instead="a few", reason="Feel",
            by=room.by, at=AT,
        )  # fmt: skip


def test_a_suggested_bounce_is_said_as_it_is_delivered(room, client):
    """Mid, 7 to 10: leaned 5 it is 2 to 5; beside a measured attack 4.5 down, 11.5 to 14.5."""
    say(room, attack_deg="-4.5", ground_summer="normal", ground_winter="normal", sand=["firm"])
    text = client.get(page(room)).content.decode()
    assert "leaned 5°, 2 to 5°; opened 20°, 15 to 18°; square, to the path" in text
