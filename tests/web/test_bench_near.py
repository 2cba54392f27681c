"""A reading near its limit, one that was accepted, and readings seen with their units.

Tolerances are the trade's (loft 0.5 degrees); a gauge's repeatability of 0.3 is typed here.
"""

from decimal import Decimal

import pytest
from django.urls import reverse

from fitshop.refusals import StateRefused
from orders.models import OrderClub, Reading
from orders.selectors.figures import figures_of, settings_of
from orders.selectors.reading_words import reading_words, unit_beside
from orders.services.checks import check_sign, concession_sign
from tests.order_room import AT, CURED, Workshop
from tests.spec_room import shop, signed_in

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    shop()
    return Workshop()


@pytest.fixture
def builder(client, room):
    client.force_login(signed_in(room.location, username="odo", role="builder"))
    return client


def near(room, loft):
    """Target 55, built with one reading of a gauge that repeats to 0.3."""
    order = room.built(loft="55")
    gauge = room.gauge("loft", "0.3")
    Reading.objects.filter(stage="as_built", measure="loft").update(
        value=Decimal(loft), gauge=gauge, as_typed=loft
    )
    OrderClub.objects.update(as_built_loft_deg=Decimal(loft), cure_until=AT.replace(year=2001))
    return order


def page_of(client):
    return client.get(reverse("bench_club", args=[2001, 1])).content.decode()


def test_one_reading_just_past_the_limit_is_amber_and_read_again(builder, room):
    near(room, "55.7")
    text = page_of(builder)
    assert '<div class="finding look">' in text
    assert "Read it once more; the mean decides. The check can't pass it before." in text
    assert "Read it once more before you bend." in text
    assert "Rework it, or ask" not in text
    assert "finding stops" not in text


def test_the_check_names_the_second_reading_as_the_remedy_and_nothing_else(room):
    order = near(room, "55.7")
    with pytest.raises(StateRefused) as refused:
        check_sign(order=order, result="passed", by=room.second, at=CURED)
    assert str(refused.value) == "Slot 1, loft: read it a second time first."


def test_the_mean_of_two_decides_either_way(room):
    order = near(room, "55.7")
    room.read(room.club(order), "as_built", "loft", "55.2", at=CURED)
    check_sign(order=order, result="passed", by=room.second, at=CURED)


def test_two_that_are_out_are_reworked_or_accepted(room):
    order = near(room, "55.7")
    room.read(room.club(order), "as_built", "loft", "55.6", at=CURED)
    with pytest.raises(StateRefused, match="Send it to rework, or have it accepted"):
        check_sign(order=order, result="passed", by=room.second, at=CURED)


def test_one_reading_near_the_limit_and_not_past_it_passes_with_a_word(builder, room):
    order = near(room, "55.4")
    text = page_of(builder)
    assert '<div class="finding look">' in text
    assert "Read it once more; the mean decides." in text
    assert "The check can" not in text
    check_sign(order=order, result="passed", by=room.second, at=CURED)


def test_a_figure_that_wants_a_second_reading_is_not_accepted_yet(room):
    order = near(room, "55.7")
    with pytest.raises(StateRefused, match="Read it a second time first"):
        concession_sign(
            club=room.club(order), measure="loft", reason="plays well", by=room.fitter, at=CURED
        )


def test_the_order_s_page_names_what_is_to_be_read_again(builder, room):
    near(room, "55.7")
    text = builder.get(reverse("order", args=[2001])).content.decode()
    assert "Loft: Measure twice: 0.7 degrees over" in text


def test_an_accepted_bend_is_no_bend_to_make(builder, room):
    order = room.built(loft="56")
    OrderClub.objects.update(cure_until=AT.replace(year=2001))
    assert "Loft <b>1 strong</b>" in page_of(builder)
    concession_sign(
        club=room.club(order), measure="loft", reason="plays well", by=room.fitter, at=CURED
    )
    text = page_of(builder)
    assert f"Loft 56: accepted as it is by {room.fitter.name}." in text
    assert "Bend no more." in text
    assert "1 strong</b>" not in text


def test_the_other_bend_still_stands_where_only_one_was_accepted(builder, room):
    order = room.built(loft="56", lie="64")
    OrderClub.objects.update(cure_until=AT.replace(year=2001))
    concession_sign(
        club=room.club(order), measure="loft", reason="plays well", by=room.fitter, at=CURED
    )
    text = page_of(builder)
    assert f"Loft 56: accepted as it is by {room.fitter.name}." in text
    assert "Lie <b>1 flat</b>" in text
    assert "Bend no more." not in text


def test_what_is_on_target_says_so_without_in(room):
    order = room.built()
    club = room.club(order)
    said = [each.sentence for each in figures_of(club, settings_of(club.revision).values)]
    assert "on target." in said
    assert not [sentence for sentence in said if "In (on target" in sentence]


def test_a_reading_stands_with_its_unit_and_its_buttons_say_what_they_do(builder, room):
    order = room.released()
    room.gauge("loft")
    room.read(room.club(order), "as_received", "loft", "56.5")
    text = page_of(builder)
    assert "<b>Loft 56.5°</b>" in text
    assert "<summary>Strike out<" in text
    assert "Wrong" not in text
    assert ">Record<span" in text
    assert "<span>°</span>" in text
    assert "<span>g</span>" in text
    assert 'Gauge<span class="unseen"> for loft</span>' in text


@pytest.mark.parametrize(
    ("measure", "typed", "value", "said"),
    [
        ("loft", "55,2", "55.2", "55,2°"),
        ("loft", "64 deg", "64", "64 deg"),
        ("length", "35 1/4", "895.35", "35 1/4 in"),
        ("length", "895.35", "895.35", "895.35 mm"),
        ("length", "", "895.35", "895.35 mm"),
        ("grip_diameter", "0.900", "22.86", "0.900 in"),
        ("swing_weight", "D4", "4", "D4"),
        ("swing_weight", "", "4", "4 points"),
        ("head_mass", "304", "304", "304 g"),
    ],
)
def test_a_reading_is_said_as_typed_with_the_unit_it_was_taken_in(measure, typed, value, said):
    reading = Reading(measure=measure, as_typed=typed, value=Decimal(value))
    assert reading_words(reading) == said


@pytest.mark.parametrize(
    ("measure", "unit", "beside"),
    [("loft", "in", "°"), ("length", "in", "in"), ("length", "mm", "mm"), ("head_mass", "in", "g"),
     ("swing_weight", "in", "as D2")],
)  # fmt: skip
def test_the_unit_of_a_number_alone_stands_beside_its_field(measure, unit, beside):
    assert unit_beside(measure, unit) == beside
