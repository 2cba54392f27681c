"""What leaves the bag leaves it when what replaces it is the player's, and is on record then."""

from datetime import timedelta
from decimal import Decimal
from uuid import uuid4

import pytest

from fitshop.models import AuditEntry, Location
from fitshop.policy import Refused
from fitshop.refusals import StateRefused
from orders.services.build_orders import order_cancel, order_create, order_release
from orders.services.hand_over import order_hand_over, order_ready
from sessions.models import Decision, FinalSpec, SpecClub, Visit
from sessions.selectors.capture_bag import bag_document
from sessions.selectors.capture_trials import hidden_in
from sessions.selectors.evidence import last_bag_entries
from sessions.selectors.spec_facts import other_clubs
from sessions.services.bag import bag_club_record
from sessions.services.leaving import clubs_leave
from sessions.services.visits import visit_close, visit_open
from tests.order_room import AT, CURED, Workshop
from tests.spec_room import Room, staff_actor

pytestmark = pytest.mark.django_db

LATER = AT + timedelta(hours=1)


def left_at(club):
    club.refresh_from_db()
    return club.left_bag_at


def kept_instead(room) -> None:
    """Both slots keep an own club; the old 56 still leaves: nothing is to be built."""
    Decision.objects.filter(slot=2).update(
        outcome="keep", kept_club=room.pitching, chosen_trial=None
    )


def close(room, at=AT):
    return visit_close(visit=room.visit, by=room.fitter, at=at)


def decided(room) -> None:
    """In a workshop's room: the old 56 leaves for the new club."""
    Decision.objects.create(
        visit=room.visit, slot=2, role="touch", outcome="build", chosen_trial=room.trial,
        leaves_bag=room.old, reason="cleaner", code_version="test", decided_at=AT,
        decided_by="Mara Quill",
    )  # fmt: skip


def test_while_the_new_club_is_built_the_old_one_stays_in_the_bag():
    room = Room()
    close(room)
    assert left_at(room.old) is None


def test_the_hand_over_takes_it_out_of_the_bag_and_leaves_a_trace():
    room = Workshop()
    decided(room)
    close(room)
    order = order_ready(order=room.passed(), by=room.desk, at=CURED)
    assert left_at(room.old) is None
    order_hand_over(order=order, how="collected", by=room.desk, at=CURED)
    assert left_at(room.old) == CURED
    assert (left_at(room.fifty), left_at(room.pitching)) == (None, None)
    trace = AuditEntry.objects.get(action="fitting.club.left_bag")
    assert (trace.object_id, trace.actor_name) == (str(room.old.pk), "Pia Holm")
    assert trace.after["visit"] == str(room.visit.pk)
    order_hand_over(order=order, how="collected", by=room.desk, at=CURED + timedelta(days=1))
    assert left_at(room.old) == CURED


def test_a_decision_that_was_replaced_takes_nothing_out():
    room = Workshop()
    decided(room)
    Decision.objects.filter(slot=2).update(is_current=False)
    order = order_ready(order=room.passed(), by=room.desk, at=CURED)
    order_hand_over(order=order, how="collected", by=room.desk, at=CURED)
    assert left_at(room.old) is None


def test_a_cancelled_order_takes_nothing_out():
    room = Workshop()
    decided(room)
    close(room)
    order = order_release(
        order=order_create(spec=room.spec, by=room.fitter, at=AT), by=room.fitter, at=AT
    )
    order_cancel(order=order, why="he moved away", by=room.manager, at=LATER)
    assert left_at(room.old) is None


def test_where_nothing_is_built_it_leaves_with_the_close():
    room = Room()
    kept_instead(room)
    close(room)
    assert left_at(room.old) == AT


def test_a_signed_spec_that_bends_an_own_club_waits_for_the_bench():
    room = Room()
    kept_instead(room)
    spec = FinalSpec.objects.create(
        visit=room.visit, version=1, state="signed", drafted_at=AT, drafted_by="Mara Quill",
        signed_at=AT, signed_by="Mara Quill",
    )  # fmt: skip
    club = SpecClub.objects.create(
        spec=spec, slot=1, role="full_shot", source="own_adjusted", hand="right", club=room.fifty
    )
    close(room)
    assert left_at(room.old) is None
    visit_open(visit=room.visit, by=room.fitter, at=LATER)
    club.source = "own_kept"
    club.save()
    close(room, LATER)
    assert left_at(room.old) == LATER


def test_a_reopened_visit_puts_back_what_left_with_its_close_and_nothing_else():
    room = Room()
    kept_instead(room)
    room.fifty.left_bag_at = AT - timedelta(days=300)
    room.fifty.save()
    close(room)
    visit_open(visit=room.visit, by=room.fitter, at=LATER)
    assert left_at(room.old) is None
    assert left_at(room.fifty) == AT - timedelta(days=300)
    trace = AuditEntry.objects.get(action="fitting.club.returned")
    assert trace.object_id == str(room.old.pk)
    Decision.objects.filter(slot=2).update(leaves_bag=None)
    close(room, LATER)
    assert left_at(room.old) is None


def test_elsewhere_nobody_takes_it_out():
    room = Room()
    far = Location.objects.create(name="Far", zone="UTC")
    with pytest.raises(Refused):
        clubs_leave(visit=room.visit, by=staff_actor(far), at=AT)


def test_the_bag_of_the_day_counts_alike_before_and_after_it_left():
    """Driver, 2 woods, 6 irons, putter: 10; own pitching wedge, 50 and 56: 13 with none in it."""
    room = Room()
    kept_instead(room)
    assert other_clubs(room.visit, []) == 13
    close(room)
    assert other_clubs(room.visit, []) == 13


def test_at_the_next_visit_it_is_gone_and_back_once_it_is_read_again():
    room = Room()
    kept_instead(room)
    close(room)
    with pytest.raises(StateRefused):
        bag_again(room)
    room.visit = Visit.objects.create(
        player=room.player, location=room.location, starts_at=LATER, state="open",
        opened_at=LATER, created_at=LATER,
    )  # fmt: skip
    assert "56" not in labels(room)
    bag_again(room)
    assert left_at(room.old) is None
    assert "56" in labels(room)


def bag_again(room):
    return bag_club_record(
        visit=room.visit, entry_id=uuid4(), club_id=room.old.pk,
        values={"kind": "wedge", "label": "56"}, by=room.fitter, at=LATER,
    )  # fmt: skip


def labels(room):
    entries = last_bag_entries(room.visit)
    shown = bag_document(room.visit, entries, hidden_in([]), "yd", "in", Decimal(1))
    return [club["label"] for club in shown["clubs"]]
