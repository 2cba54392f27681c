"""Neighbours of a set judged together: before the glue, at the check, and accepted by name."""

import json
from decimal import Decimal

import pytest

from fitshop.models import OutgoingMessage
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.services.shop_settings import settings_change
from orders.documents import as_built, ticket
from orders.models import Check, OrderClub, SetConcession
from orders.models.bench import Measure
from orders.selectors.as_built import as_built_values
from orders.selectors.figures import figures_of, settings_of
from orders.selectors.neighbours import open_steps, steps_of
from orders.selectors.ticket import ticket_values
from orders.services.checks import check_sign
from orders.services.hand_over import order_hand_over, order_ready
from orders.services.neighbours import set_concession_sign
from sessions.models import SpecClub
from tests.letters import words_of
from tests.order_room import AT, CURED, Workshop
from tests.spec_room import shop

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    """1 Sand, stamped 56 for 55; 2 Gap, stamped 50 for 49: a step of 6 is planned."""
    shop()
    return Workshop(clubs=2)


def built(room, *, sand="55", gap="49", lengths=("895.35", "895.35")):
    order = room.released()
    for slot, received in ((2, "50"), (1, "56")):
        room.glued(room.club(order, slot), loft=received)
    for slot, loft, length in ((2, gap, lengths[1]), (1, sand, lengths[0])):
        room.measured(room.club(order, slot), loft=loft, length=length)
    order.refresh_from_db()
    return order


def found(order):
    revision = order.revisions.get(is_current=True)
    return open_steps(revision, settings_of(revision).values)


def accept(room, order, measure="loft", slots=(2, 1), **more):
    values = {"reason": "ZQX the last head we have", "by": room.fitter, "at": CURED} | more
    return set_concession_sign(order=order, measure=measure, slots=slots, **values)


def test_a_step_that_is_off_stops_the_check_until_it_is_accepted(room):
    """Gap 49.5 and Sand 54.5, each within 0.5: a step of 5 where 6 was planned."""
    order = built(room, sand="54.5", gap="49.5")
    settings = settings_of(order.revisions.get()).values
    for club in OrderClub.objects.all():
        assert all(figure.may_pass for figure in figures_of(club, settings))
    with pytest.raises(StateRefused) as refusal:
        check_sign(order=order, result="passed", by=room.second, at=CURED)
    assert refusal.value.code == "checks.neighbours"
    assert not Check.objects.exists()
    (step,) = found(order)
    assert (step.judged.rule, step.judged.slots) == ("bench.loft_step", (2, 1))
    assert (step.judged.planned, step.judged.came) == (Decimal(6), Decimal(5))
    accepted = accept(room, order)
    assert (accepted.planned, accepted.accepted_value) == (Decimal(6), Decimal(5))
    assert accept(room, order).pk == accepted.pk  # twice is once
    check_sign(order=order, result="passed", by=room.second, at=CURED)
    assert Check.objects.get().result == "passed"


def test_off_the_same_way_both_pass(room):
    order = built(room, sand="55.5", gap="49.5")
    check_sign(order=order, result="passed", by=room.second, at=CURED)
    assert Check.objects.get().result == "passed"


def test_a_club_sent_back_is_judged_by_its_new_reading_and_the_acceptance_with_it(room):
    order = built(room, sand="54.5", gap="49.5")
    accept(room, order)
    check_sign(order=order, result="rework", cause="scratch", slots=[1], by=room.second, at=CURED)
    sand = room.club(order, 1)
    again = CURED.replace(hour=CURED.hour + 1)

    def read(loft):
        room.read(sand, "as_built", "loft", loft, at=again)

    read("54.6")  # 5.1: no further from 6 than the 5 that was accepted
    assert found(order) == []
    sand.readings.filter(value="54.6").update(struck_out_at=again)
    OrderClub.objects.filter(pk=sand.pk).update(as_built_loft_deg=None)
    read("54.4")  # 4.9: further
    assert [step.judged.came for step in found(order)] == [Decimal("4.9")]


def test_the_shop_sets_how_far_a_step_may_be_off(room):
    settings_change(typed={"tolerance.loft_step_deg": "1"}, by=room.manager, at=AT)
    order = built(room, sand="54.5", gap="49.5")
    check_sign(order=order, result="passed", by=room.second, at=CURED)


def test_a_kept_club_of_the_spec_is_a_neighbour_with_its_measured_loft(room):
    """Meant as a 52 and read 52.4; the Sand came out 54.6 of 55: 2.2 where 3 was planned."""
    SpecClub.objects.create(
        spec=room.spec, slot=3, name="Own 52", role="full_shot", source="own_kept",
        hand=room.player.hand, club=room.fifty, stamped_loft_deg=Decimal(52),
        as_received_loft_deg=Decimal("52.4"), target_loft_deg=Decimal(52), stamping="none",
    )  # fmt: skip
    order = built(room, sand="54.6")
    # Above it, from 49, 3.4 of 3 is within 0.75.
    (step,) = found(order)
    assert step.judged.slots == (3, 1)
    assert (step.judged.planned, step.judged.came) == (Decimal(3), Decimal("2.2"))
    with pytest.raises(StateRefused) as refusal:
        check_sign(order=order, result="passed", by=room.second, at=CURED)
    assert refusal.value.code == "checks.neighbours"


def test_a_kept_club_without_a_measured_loft_is_judged_with_nobody(room):
    SpecClub.objects.create(
        spec=room.spec, slot=3, name="Own 52", role="full_shot", source="own_kept",
        hand=room.player.hand, club=room.fifty, stamped_loft_deg=Decimal(52), stamping="none",
    )  # fmt: skip
    order = built(room, sand="54.5", gap="49.5")
    assert found(order) == []


def test_what_would_be_glued_a_wrong_step_from_its_neighbour_is_refused(room):
    """The Sand came 54.1 and its head bends no way: 54.1 - 49 = 5.1 of 6, said before the glue.

    A bend of 0.9 is made after the cure, so nothing else would stop it here.
    """
    order = room.released()
    OrderClub.objects.filter(slot=1).update(limit_weak_deg=0)
    sand = room.club(order, 1)
    with pytest.raises(StateRefused) as refusal:
        room.glued(sand, loft="54.1", lie="63")
    assert refusal.value.code == "bench.neighbours"
    (step,) = found(order)
    assert (step.judged.is_foreseen, step.judged.came) == (True, Decimal("5.1"))
    assert room.club(order, 1).cure_until is None
    accept(room, order)
    room.step(sand, "epoxy", temperature_c=Decimal(21))
    assert room.club(order, 1).state == "curing"


def test_what_is_still_to_be_bent_counts_as_its_target(room):
    """The Sand came 56 and is bent 1 strong after the cure: 55 - 49 = 6 of 6."""
    order = room.released()
    room.glued(room.club(order, 1), loft="56")
    revision = order.revisions.get()
    (step,) = [
        each
        for each in steps_of(revision, settings_of(revision).values)
        if each.measure == Measure.LOFT
    ]
    assert (step.judged.is_foreseen, step.judged.came) == (True, Decimal(6))


def test_lengths_each_within_a_sixteenth_can_be_an_eighth_apart_side_by_side(room):
    """893.8 and 896.9, 1.55 mm each from 895.35: 3.1 mm apart; 3/32 in, 2.38, is allowed."""
    order = built(room, lengths=("893.8", "896.9"))
    (step,) = found(order)
    assert (step.judged.rule, step.measure) == ("bench.length_step", Measure.LENGTH)
    assert (step.judged.planned, step.judged.came) == (Decimal(0), Decimal("-3.1"))
    accept(room, order, measure="length")
    check_sign(order=order, result="passed", by=room.second, at=CURED)


def test_one_reading_each_that_the_gauge_can_not_tell_from_the_limit_is_read_again(room):
    order = built(room, sand="54.6", gap="49.5")
    # 5.1 of 6: 0.15 past the limit. With a gauge that repeats within 0.25 one reading can't tell.
    OrderClub.objects.get(slot=1).readings.filter(measure="loft").update(
        gauge=room.gauge("loft", "0.25")
    )
    with pytest.raises(StateRefused) as refusal:
        accept(room, order)
    assert refusal.value.code == "neighbours.read_twice"
    with pytest.raises(StateRefused) as refusal:
        check_sign(order=order, result="passed", by=room.second, at=CURED)
    assert refusal.value.code == "checks.neighbours"


def test_a_step_is_accepted_with_a_reason_by_a_fitter_and_only_where_it_is_off(room):
    order = built(room, sand="54.5", gap="49.5")
    with pytest.raises(FieldsRefused) as fields:
        accept(room, order, reason=" ")
    assert fields.value.code == "neighbours.reason_missing"
    with pytest.raises(Refused):
        accept(room, order, by=room.builder)
    for measure, slots in (("length", (2, 1)), ("loft", (1, 2)), ("loft", (1, 7))):
        with pytest.raises(StateRefused) as refusal:
            accept(room, order, measure=measure, slots=slots)
        assert refusal.value.code == "neighbours.nothing_to_accept"
    assert not SetConcession.objects.exists()


def test_the_ticket_says_a_step_that_is_off_and_then_who_accepted_it(room):
    order = built(room, sand="54.5", gap="49.5")
    revision = order.revisions.get()
    assert len(ticket_values(revision, printed_at=CURED)["beside"]) == 1
    accept(room, order)
    values = ticket_values(revision, printed_at=CURED)
    assert values["beside"] == []
    assert "ZQX" in ticket.html(values)


@pytest.mark.parametrize("player_words", ["", "Your gap is a degree smaller."])
def test_the_shop_s_reason_for_a_step_is_in_no_byte_that_reaches_the_player(room, player_words):
    room.agree_to_mail()
    order = built(room, sand="54.5", gap="49.5")
    accept(room, order, player_words=player_words)
    check_sign(order=order, result="passed", by=room.second, at=CURED)
    order_ready(order=order, by=room.desk, at=CURED)
    order_hand_over(order=order, how="collected", by=room.desk, at=CURED)
    values = as_built_values(order)
    (said,) = values["steps_accepted"]
    assert said == player_words or "5° instead of 6°" in said
    letter = OutgoingMessage.objects.get(kind="order_as_built")
    contents = [
        json.dumps(list(OutgoingMessage.objects.values()), default=str),
        as_built.html(values),
        words_of(as_built.pdf(letter.attachments[0]["values"])),
    ]
    assert said in contents[1]
    assert said in contents[2]
    assert said in letter.body_text
    assert not [content for content in contents if "ZQX" in content]


def test_steps_of_own_clubs_alone_are_nobody_s_at_the_bench(room):
    for slot, loft in ((3, "44"), (4, "47")):
        SpecClub.objects.create(
            spec=room.spec, slot=slot, name=f"Own {loft}", role="full_shot", source="own_kept",
            hand=room.player.hand, club=room.fifty, stamped_loft_deg=Decimal(loft),
            as_received_loft_deg=Decimal(loft), stamping="none",
        )  # fmt: skip
    order = room.released()
    revision = order.revisions.get()
    seen = steps_of(revision, settings_of(revision).values)
    assert [step.judged.slots for step in seen] == [(4, 2), (2, 1)]
