"""The rule book prints what is judged before a spec too, with what the shop has switched off."""

from html import unescape

import pytest
from django.urls import reverse

from fitshop.actor import Role
from fitshop.services.shop_settings import settings_change
from sessions.rules.rule_chapters import CHAPTERS
from sessions.rules.spec import rule_set_name
from tests.spec_room import AT, Room, shop, signed_in, staff_actor

pytestmark = pytest.mark.django_db


@pytest.fixture
def room(client):
    shop()
    room = Room()
    client.force_login(signed_in(room.location))
    return room


def book(client, query=""):
    return " ".join(unescape(client.get(reverse("rule_book") + query).content.decode()).split())


def test_every_judgement_of_an_interview_and_a_plan_is_printed_from_the_code(client, room):
    text = book(client)
    for chapter in CHAPTERS:
        assert f">{chapter.title}</h2>" in text
        for one in chapter.judgements:
            assert f'<li id="{one.id}" class="rule">' in text
            assert one.about in text
    for said in (
        "<b>-6 degrees</b> An angle of attack on a full wedge swing below this is steep.",
        "<b>54 degrees</b> From this loft on a wedge is suggested as a touch club",
        "Always on",
    ):
        assert said in text


def test_a_judgement_is_switched_off_and_the_spec_s_rule_set_keeps_its_name(client, room):
    manager = staff_actor(room.location, "Una Frost", Role.MANAGER)
    settings_change(typed={"judgements.TRY-C02": "off"}, by=manager, at=AT)
    now = book(client)
    assert '<li id="TRY-C02" class="rule is-off">' in now
    assert f"rule set {rule_set_name(0)}, settings 1" in now
    assert "is-off" not in book(client, "?settings=0")
