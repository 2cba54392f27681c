"""What was done to the metal: bends counted as made, facts that outlive a revision."""

from datetime import timedelta
from decimal import Decimal

import pytest

from fitshop.refusals import StateRefused
from orders.models import PermanentFact
from orders.selectors.figures import bend_now, settings_of, standing_steps, work_of
from orders.selectors.metal import bends_at_bench, head_now
from orders.services.bench import reading_strike_out
from orders.services.checks import check_sign
from orders.services.hand_over import order_hand_over, order_ready
from sessions.maths.bending import total_travel
from tests.order_room import CURED, MIXED, Workshop

pytestmark = pytest.mark.django_db

AFTER = MIXED + timedelta(minutes=20)


@pytest.fixture
def room():
    """Cast soft carbon steel: 2 degrees each way (common practice)."""
    made = Workshop()
    made.head.making = "cast soft carbon steel"
    made.head.save()
    return made


def bare_head(room, club, loft="56.5", lie="63"):
    """Picked, measured and stamped. Target 55 and 63: 1.5 strong is to be bent."""
    room.step(club, "picked", hand="right")
    for measure, value in (("loft", loft), ("lie", lie), ("head_mass", "304")):
        room.read(club, "as_received", measure, value)
    for step in ("bare_head", "stamped"):
        room.step(club, step)


def read_bent(room, club, loft, lie="63"):
    room.read(club, "bent", "loft", loft, at=AFTER)
    room.read(club, "bent", "lie", lie, at=AFTER)


def bent_bare(room, club, loft="56.5"):
    bare_head(room, club, loft)
    room.step(club, "bent_bare")


def left(club):
    bend = bend_now(club, settings_of(club.revision).values)
    return bend.loft_deg, bend.lie_deg


def next_step(club):
    settings = settings_of(club.revision).values
    return work_of(club, settings).next_step(standing_steps(club, settings))


def test_the_head_is_read_after_its_bare_bend_before_the_next_step(room):
    club = room.club(room.released())
    bent_bare(room, club)
    with pytest.raises(StateRefused) as refusal:
        room.step(club, "hosel")
    assert refusal.value.code == "bench.step_before"
    with pytest.raises(StateRefused) as refusal:
        room.step(club, "read_bent")
    assert refusal.value.code == "bench.bend_unread"
    read_bent(room, club, "55.1")
    room.step(club, "read_bent")
    assert next_step(room.club(club.revision.order)) == "hosel"


def test_a_bend_that_was_made_is_not_ordered_again(room):
    """56.5 bent to 55: nothing is left, and no second bend of 1.5 is asked after the cure."""
    order = room.released()
    bent_bare(room, room.club(order))
    assert left(room.club(order)) == (0, 0)
    read_bent(room, room.club(order), "55")
    club = room.club(order)
    work = work_of(club, settings_of(club.revision).values)
    assert "bent_bare" in work.steps
    assert "bent_built" not in work.steps


def test_what_is_left_after_the_bare_bend_is_bent_after_the_cure(room):
    """56.5 read 55.7 after the bend: 0.7 of the 1.5 is left."""
    order = room.released()
    bent_bare(room, room.club(order))
    read_bent(room, room.club(order), "55.7")
    club = room.club(order)
    assert left(club) == (Decimal("-0.7"), 0)
    assert "bent_built" in work_of(club, settings_of(club.revision).values).steps


def test_a_second_bend_past_what_is_left_of_the_limit_is_refused(room):
    """Bent 1.5 strong of 2: read, another 1.5 is left to the target. 3.0 would crack it."""
    order = room.released()
    bent_bare(room, room.club(order))
    read_bent(room, room.club(order), "55")
    room.club(order).readings.filter(stage="bent").exists()
    revised = room.club(order)
    revised.target_loft_deg = Decimal("53.5")
    revised.save()
    assert left(room.club(order)) == (Decimal("-1.5"), 0)
    assert next_step(room.club(order)) == "bent_bare"
    with pytest.raises(StateRefused) as refusal:
        room.step(room.club(order), "bent_bare", at=AFTER)
    assert refusal.value.code == "bench.bend_too_far"


def test_a_bend_that_nobody_read_counts_as_it_was_meant(room):
    order = room.released()
    bent_bare(room, room.club(order))
    club = room.club(order)
    assert head_now(club) == (Decimal("55.00"), Decimal("63.00"))
    assert total_travel(bends_at_bench(club)).strong_deg == Decimal("1.5")
    read_bent(room, club, "55.4")
    assert total_travel(bends_at_bench(room.club(order))).strong_deg == Decimal("1.1")


def test_a_bend_made_once_more_is_counted_and_the_reading_before_it_counts_no_more(room):
    """1.5 meant, 1.1 made; 0.4 more: 1.5 in all, and the head wants reading again."""
    order = room.released()
    bent_bare(room, room.club(order))
    read_bent(room, room.club(order), "55.4")
    for _ in range(2):  # a form sent twice is one bend
        room.step(room.club(order), "bent_bare", at=AFTER + timedelta(minutes=5), again=True)
    club = room.club(order)
    assert PermanentFact.objects.filter(kind="bent").count() == 2
    assert total_travel(bends_at_bench(club)).strong_deg == Decimal("1.5")
    assert not club.readings.filter(stage="bent", struck_out_at=None).exists()
    assert next_step(club) == "read_bent"


def test_a_head_is_not_read_after_a_bend_that_was_not_made(room):
    club = room.club(room.released())
    bare_head(room, club)
    with pytest.raises(StateRefused) as refusal:
        room.read(club, "bent", "loft", "55")
    assert refusal.value.code == "bench.not_bent"


def test_a_reading_by_which_it_was_glued_is_not_struck_out(room):
    order = room.released()
    room.glued(room.club(order), loft="56.5", lie="63")
    reading = room.club(order).readings.get(stage="bent", measure="loft")
    with pytest.raises(StateRefused) as refusal:
        reading_strike_out(reading=reading, why="mistyped", by=room.builder, at=AFTER)
    assert refusal.value.code == "bench.glued_by_it"


def test_the_bends_of_earlier_visits_count_with_those_made_now(room):
    """1 strong at an earlier visit, 0.8 made now: 0.2 of 2 is left, and 0.7 too far."""
    order = room.released()
    club = room.club(order)
    club.earlier_bends = [["-1", "0"]]
    club.target_loft_deg = Decimal("55.5")  # 1 strong, of 56.5
    club.save()
    bare_head(room, club)
    club = room.club(order)
    assert bend_now(club, settings_of(club.revision).values).is_allowed
    club.target_loft_deg = Decimal("55.3")
    club.save()
    with pytest.raises(StateRefused) as refusal:
        room.step(room.club(order), "bent_bare")
    assert refusal.value.code == "bench.bend_too_far"


def test_the_hand_over_writes_every_bend_on_the_club_s_record(room):
    """Bare 56.5 to 55.7, built 55.7 to 55: two bends, 1.5 in all."""
    order = room.released()
    bent_bare(room, room.club(order))
    read_bent(room, room.club(order), "55.7")
    for step in ("read_bent", "hosel", "tip", "butt_cut"):
        room.step(room.club(order), step, at=AFTER)
    added = Decimal(room.read_dry(room.club(order), AFTER))
    room.step(room.club(order), "dry_weight", at=AFTER, added_g=added)
    room.step(room.club(order), "epoxy", at=AFTER, temperature_c=Decimal(21))
    room.measured(room.club(order))
    check_sign(order=order, result="passed", by=room.second, at=CURED)
    order_ready(order=order, by=room.desk, at=CURED)
    order_hand_over(order=order, how="collected", by=room.desk, at=CURED)
    (own,) = room.player.clubs.filter(source_order_id=order.pk)
    assert [[Decimal(axis) for axis in bend] for bend in own.bends] == [
        [Decimal("-0.8"), 0],
        [Decimal("-0.7"), 0],
    ]
