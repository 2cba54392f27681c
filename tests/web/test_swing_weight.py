"""What a change does and what was felt as tried, on the pages of the fitter and the builder."""

import re
from decimal import Decimal
from html import unescape

import pytest
from django.urls import reverse

from orders.documents.ticket import html
from orders.selectors.ticket import ticket_values
from sessions.models import Adapter, FinalSpec, Head, Shaft
from tests.order_room import CURED, Workshop
from tests.spec_room import Room, shop, signed_in

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def the_shop():
    shop()


def known_parts() -> None:
    Head.objects.update(bore_to_ground_mm=Decimal(31), sole_point_mm=Decimal(33))
    Shaft.objects.update(balance_mm=Decimal(450))


def words_of(answer) -> str:
    assert answer.status_code == 200
    bare = re.sub(r"<[^>]+>", " ", answer.content.decode())
    return re.sub(r"\s+", " ", unescape(bare))


def bench_words(client, room) -> str:
    client.force_login(signed_in(room.location, username="odo", role="builder"))
    return words_of(client.get(reverse("bench_club", args=[2001, 1])))


def spec_words(client, room) -> str:
    client.force_login(signed_in(room.location))
    client.post(reverse("spec_draft", args=[room.visit.pk]))
    return words_of(client.get(reverse("spec", args=[room.visit.pk])))


def test_the_bench_shows_what_a_change_does_beside_the_rule_of_thumb(client):
    """Head at 35.25 in: 49.612 / 21.25 = 2.33 g a point, so 2 g are 0.86."""
    room = Workshop()
    known_parts()
    room.released()
    text = bench_words(client, room)
    assert "2 g more head up 0.9 points 2.3 g for a point up 1 point" in text
    assert "Half an inch longer up" in text
    assert "go by this club's" in text


def test_the_bench_says_what_is_missing_rather_than_an_empty_table(client):
    room = Workshop()
    room.released()
    text = bench_words(client, room)
    assert (
        "What a change does: Not worked out: the head's bore to the ground and the shaft's "
        "balance point are not known."
    ) in text
    assert "Rule of thumb" not in text


def test_the_change_table_stands_at_the_dry_swing_weight_and_once(client):
    room = Workshop()
    known_parts()
    order = room.released()
    club = room.club(order)
    room.step(club, "picked", hand="right")
    for measure, value in (("loft", "56"), ("lie", "64"), ("head_mass", "305")):
        room.read(club, "as_received", measure, value)
    for step in ("bare_head", "stamped", "hosel", "tip", "butt_cut"):
        room.step(club, step)
    client.force_login(signed_in(room.location, username="odo", role="builder"))
    page = client.get(reverse("bench_club", args=[2001, 1])).content.decode()
    here = page[page.index('id="next"') :]
    here = here[: here.index("</section>")]
    assert "read the dry swing weight" in here
    assert "<caption>What a change does</caption>" in here
    # Below the form: it pushes nothing down.
    assert here.index("</form>") < here.index("What a change does")
    assert page.count("<caption>What a change does</caption>") == 1


def test_the_bench_and_the_ticket_show_the_length_by_the_ruler_beside_the_rules(client):
    """35 1/4 in at a lie of 63, the sole 33 mm from the shaft: 2.238 mm more, 35 5/16 in."""
    room = Workshop()
    known_parts()
    order = room.released()
    text = bench_words(client, room)
    assert "35 1/4 in by the Rules: sole on a 60° plane" in text
    assert "a bench ruler along the shaft reads 35 5/16 in" in text
    revision = order.revisions.get()
    ticket = html(ticket_values(revision, printed_at=CURED))
    assert 'length <b>35 1/4 in</b> <span class="small">ruler 35 5/16 in</span>' in ticket


def test_where_the_sole_touches_is_copied_with_the_order(client):
    room = Workshop()
    known_parts()
    order = room.released()
    Head.objects.update(sole_point_mm=Decimal(20))
    assert room.club(order).sole_point_mm == 33


def test_a_head_not_gauged_is_said_at_the_bench_and_left_off_the_ticket(client):
    room = Workshop()
    order = room.released()
    text = bench_words(client, room)
    assert (
        "what a bench ruler reads can't be said: how far from the shaft its sole touches is not "
        "gauged"
    ) in text
    assert "ruler" not in html(ticket_values(order.revisions.get(), printed_at=CURED))


def test_the_spec_says_what_was_felt_with_the_adapter_and_what_it_is_without(client):
    """The bore's end is not gauged, so 30 mm above the ground: 34.07 in, 20.07 below the fulcrum;
    9 g there are 180.6 / 49.612 = 3.64 points. D4 less that is 0.36, about D0.5."""
    room = Room()
    adapter = Adapter.objects.create(mark="A1", location=room.location, mass_g=Decimal(9))
    room.trial.adapter, room.trial.mass_g = adapter, Decimal(471)
    room.trial.save()
    text = spec_words(client, room)
    assert "As tried, with its 9 g adapter: D4 and 471 g. Without it about D0.5 and 462 g." in text
    assert "The target stays what was felt" in text
    assert FinalSpec.objects.get().clubs.get(slot=2).target_swing_weight_points == 4


def test_the_spec_shows_the_table_where_the_parts_are_known_and_what_is_missing_else(client):
    room = Room()
    text = spec_words(client, room)
    assert "No adapter was written down with this trial club" in text
    assert "the head's bore to the ground and the shaft's balance point are not known." in text
    known_parts()
    text = words_of(client.get(reverse("spec", args=[room.visit.pk])))
    assert "2 g more head up 0.9 points 2.3 g for a point up 1 point" in text
    # The own club that is kept has no part to change.
    assert text.count("Rule of thumb") == 1
