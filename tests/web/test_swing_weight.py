"""What a change does and what was felt as tried, on the pages of the fitter and the builder."""

import re
from decimal import Decimal
from html import unescape

import pytest
from django.urls import reverse

from fitshop.services.shop_settings import settings_change
from orders.documents.ticket import html
from orders.selectors.ticket import ticket_values
from sessions.models import Adapter, FinalSpec, Head, Shaft
from tests.order_room import AT, CURED, Workshop
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


def test_the_bench_says_what_is_counted_in_and_what_the_finished_club_comes_to(client):
    """Moments about 355.6 mm [g mm]: head 305 x 539.75, 114.30 g of shaft (its centre at 412.91 mm)
    x 57.31, grip 50 x -247.6, epoxy and ferrule 3 x 480.175, three layers of tape 6 x -220.6:
    158,911, or 220.687 oz in: D4.1. 478.3 g; 158,911 / 478.3 + 355.6 = 687.8 mm, 27 1/16 in.
    About the butt 2,445.0 + 194.9 + 70.3 + 5.8 + 3.0 + 21.0 + 1.1 = 2,741 kg cm2. The epoxy's 2 g
    are 960.35 / 1,260.14 = 0.76 points: D4 is D3.2 on the dry scale. The doubt's 2 points are
    2,520 g mm: / 478.3 = 5.27 mm, 3.3 sixteenths, said as 4."""
    room = Workshop()
    known_parts()
    room.released()
    text = bench_words(client, room)
    assert (
        "with 2 g of epoxy, a 1 g ferrule and 3 layers of tape (2 g each), as the shop's settings "
        "say"
    ) in text
    assert text.count("as the shop's settings say") == 1
    assert "Swing weight about D4.1 with nothing added Whole club about 478 g" in text
    assert (
        "Balance point about 27 1/16 in from the butt end Moment of inertia about 2,740 kg cm²"
    ) in text
    assert "up to 2 points, 1/4 in and 50 kg cm² less." in text


def begun(room):
    """An order at the bench up to its hosel."""
    known_parts()
    order = room.released()
    club = room.club(order)
    room.step(club, "picked", hand="right")
    for measure, value in (("loft", "56"), ("lie", "64"), ("head_mass", "305")):
        room.read(club, "as_received", measure, value)
    for step in ("bare_head", "stamped"):
        room.step(club, step)
    return order, club


def test_the_dry_scale_is_aimed_at_without_the_epoxy_at_the_bench_and_on_the_ticket(client):
    """D4 less 0.76; the parts come to D4.1 less 0.76."""
    room = Workshop()
    order, club = begun(room)
    for step in ("hosel", "tip", "butt_cut"):
        room.step(club, step)
    text = bench_words(client, room)
    assert "D3.2 dry is D4 when glued; the parts come to D3.3 dry" in text
    assert "Masses are as the makers state them, the head's as weighed." in text
    ticket = html(ticket_values(order.revisions.get(), printed_at=CURED))
    assert "for <b>D3.2</b>: read" in ticket
    assert "parts as weighed: D3.3" in ticket
    assert "most allowed 9 g; 2 g of epoxy counted in" in ticket
    scale = room.gauge("swing_weight")
    room.read(club, "dry", "swing_weight", "1", gauge=scale, as_typed="D1")
    # 4 - 1 - 0.7621 = 2.2379 points, each 1,260.1363 / (895.35 - 31 - 355.6) = 2.4769 g: 5.5 g.
    says = "Add 5.5 g: D4 when glued, allowed D3 to D5"
    text = words_of(client.get(reverse("bench_club", args=[2001, 1])))
    assert f"Reads D1. {says}." in text
    assert "In the hosel, 34 in from the butt end, at most 9 g." in text
    assert "The scale reads to 0.2 points." in text
    ticket = html(ticket_values(order.revisions.get(), printed_at=CURED))
    assert f'<b class="may-break">{says}</b>' in ticket
    assert "read <b>D1</b>" in ticket


def test_the_hosel_as_it_was_gauged_is_what_the_epoxy_stands_by(client):
    """Gauged 2 in deep instead of 1 1/8: 480.175 - 22.225 = 457.95 mm; D4 less 0.73."""
    room = Workshop()
    order, club = begun(room)
    room.step(club, "hosel", depth_mm=Decimal("50.8"))
    assert "for <b>D3.3</b>: read" in html(ticket_values(order.revisions.get(), printed_at=CURED))


def test_a_shop_that_counts_nothing_in_is_told_so(client):
    """The two layers and the hosel's 3 g gone: 158,794 g mm or 220.525 oz in, D4."""
    room = Workshop()
    known_parts()
    nothing = {"build.epoxy_g": "0", "build.ferrule_g": "0", "build.tape_g": "0"}
    settings_change(typed=nothing, by=room.manager, at=AT)
    order = room.released()
    text = bench_words(client, room)
    assert "with no epoxy, ferrule or tape counted in, as the shop's settings say" in text
    ticket = html(ticket_values(order.revisions.get(), printed_at=CURED))
    assert "for <b>D4</b>: read" in ticket
    assert "most allowed 9 g</small>" in ticket


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
    assert "35 1/4 in, by the Rules: sole on a 60° plane" in text
    assert "along the shaft 35 5/16 in" in text
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
    assert "how far from the shaft its sole touches is not gauged" in text
    assert "60° stop only" in html(ticket_values(order.revisions.get(), printed_at=CURED))
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


def test_the_spec_shows_the_finished_club_with_what_is_counted_in(client):
    """As at the bench, but with the base tape alone: 882.4 g mm more, 159,794 or 221.912 oz in,
    D4.8. 474.3 g; 159,794 / 474.3 + 355.6 = 692.5 mm, 27.26 in. 2,741.2 - 0.7 kg cm2."""
    room = Room()
    assert "Moment of inertia" not in spec_words(client, room)
    known_parts()
    text = words_of(client.get(reverse("spec", args=[room.visit.pk])))
    assert "Balance and lie: as tried, and what a change does" in text
    assert "Swing weight about D4.8 with nothing added Whole club about 474 g" in text
    assert (
        "Balance point about 27 1/4 in from the butt end Moment of inertia about 2,740 kg cm²"
    ) in text
    assert (
        "With 2 g of epoxy, a 1 g ferrule and one layer of tape (2 g), as the shop's settings say."
    ) in text
    assert "The moment of inertia says how hard a club is to set swinging" in text
    assert "Masses are as the makers state them." in text
    FinalSpec.objects.get().clubs.filter(slot=2).update(ferrule="None", grip_extra_wraps=1)
    text = words_of(client.get(reverse("spec", args=[room.visit.pk])))
    assert "With 2 g of epoxy and 2 layers of tape (2 g each), as the shop's settings say." in text
