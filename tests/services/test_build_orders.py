"""Orders: made from a signed spec only, numbered, released, revised, cancelled."""

from decimal import Decimal

import pytest

from fitshop.models import AuditEntry, Location
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from orders.models import BuildOrder
from orders.selectors.figures import bend_now, settings_of, standing_steps, work_of
from orders.selectors.metal import facts_of
from orders.services.build_orders import (
    order_cancel,
    order_create,
    order_release,
    order_revise,
)
from sessions.models import Acceptance, FinalSpec, SpecClub, SpecFinding
from tests.order_room import AT, CURED, MIXED, Workshop, a_head
from tests.spec_room import staff_actor

pytestmark = pytest.mark.django_db


def test_an_unsigned_spec_cannot_be_ordered():
    room = Workshop()
    FinalSpec.objects.update(state="checked")
    with pytest.raises(StateRefused, match="Only a signed spec can be ordered"):
        room.ordered()
    assert not BuildOrder.objects.exists()


def test_the_first_ticket_is_2001_and_the_next_2002():
    room = Workshop()
    first = room.ordered()
    order_cancel(order=first, why="wrong day", by=room.manager, at=AT)
    second = order_create(spec=room.spec, by=room.fitter, at=AT)
    assert (first.number, second.number) == (2001, 2002)


def test_ordering_twice_is_ordering_once():
    room = Workshop()
    assert room.ordered().pk == room.ordered().pk
    assert BuildOrder.objects.count() == 1


def test_a_new_order_is_due_after_the_shops_lead_time():
    """Ordered on 7 May in Dublin, ten days."""
    assert str(Workshop().ordered().due_on) == "2027-05-17"


def test_a_past_due_day_is_refused_beside_its_field():
    room = Workshop()
    with pytest.raises(FieldsRefused) as refusal:
        order_create(spec=room.spec, due_on=AT.date().replace(day=1), by=room.fitter, at=AT)
    assert list(refusal.value.errors) == ["due_on"]


def test_everything_the_bench_needs_is_copied():
    room = Workshop()
    club = room.club(room.ordered())
    assert club.head_name == "Orrin Vale Sedge 56"
    assert club.sole_words == "21 mm wide, medium camber, heel clearly relieved"
    # forged low-carbon steel bends 3 degrees each way (common practice); the maker is silent
    assert (club.limit_weak_deg, club.limit_flat_deg) == (Decimal(3), Decimal(3))
    assert (club.shaft_name, club.tip_kind) == ("Ravensworth Steel 125, 125 g, firm", "taper")
    assert club.target_length_mm == Decimal("895.35")
    assert club.grip_extra_wraps == 2


def test_the_makers_own_limit_wins_over_the_making():
    room = Workshop()
    room.head.limit_strong_deg = Decimal(1)
    room.head.save()
    club = room.club(room.ordered())
    assert (club.limit_strong_deg, club.limit_weak_deg) == (Decimal(1), Decimal(3))


def test_a_later_change_of_the_catalogue_moves_nothing_that_was_ordered():
    room = Workshop()
    order = room.ordered()
    room.head.mass_g, room.head.model = Decimal(299), "Other"
    room.head.save()
    assert room.club(order).head_name == "Orrin Vale Sedge 56"
    assert room.club(order).head_mass_g == Decimal(305)


def test_an_own_club_that_is_bent_brings_its_earlier_bends():
    room = Workshop()
    room.fifty.bends = [["-1", "0"]]
    room.fifty.save()
    SpecClub.objects.create(
        spec=room.spec, slot=2, name="Gap", role="full_shot", source="own_adjusted", hand="right",
        club=room.fifty, stamped_loft_deg=50, as_received_loft_deg=Decimal("50.5"),
        target_loft_deg=Decimal(50),
    )  # fmt: skip
    club = room.club(room.ordered(), slot=2)
    assert club.earlier_bends == [["-1", "0"]]
    assert club.target_lie_deg == Decimal("63.5")  # as it was read in the bag
    assert club.target_length_mm == Decimal("901.7")


def test_kept_clubs_are_not_built_and_a_spec_of_them_alone_is_no_order():
    room = Workshop()
    SpecClub.objects.update(source="own_kept")
    with pytest.raises(StateRefused, match="nothing to build"):
        room.ordered()


def test_a_pulled_shaft_is_called_so_at_the_bench():
    room = Workshop()
    SpecClub.objects.filter(source="new").update(shaft_is_pulled=True)
    assert room.club(room.ordered(), slot=1).shaft_name.endswith(", out of an older club")


def test_what_was_accepted_stands_on_the_ticket_as_a_sentence():
    room = Workshop()
    shared = {"spec": room.spec, "rule": "SPEC-W001", "fields": ["club.1.target_loft_deg"]}
    sentence = "The gap is 9 yd."
    SpecFinding.objects.create(severity="look at this", sentence=sentence, found_at=AT, **shared)
    Acceptance.objects.create(
        sentence=sentence, reason="the player likes it", accepted_at=AT,
        accepted_by="Mara Quill", **shared,
    )  # fmt: skip
    revision = room.ordered().revisions.get()
    assert revision.accepted == [
        "The gap is 9 yd. Accepted by Mara Quill: the player likes it (7 May 2027 at 10:30)"
    ]


def test_release_locks_the_visit_and_twice_is_once():
    room = Workshop()
    order = room.released()
    again = order_release(order=order, by=room.fitter, at=MIXED)
    room.visit.refresh_from_db()
    assert (again.state, again.released_at, room.visit.locked_at) == ("released", AT, AT)
    assert AuditEntry.objects.filter(action="orders.order.released").count() == 1


def test_a_builder_may_not_order_and_elsewhere_is_not_theirs():
    room = Workshop()
    with pytest.raises(Refused):
        order_create(spec=room.spec, by=room.builder, at=AT)
    elsewhere = Location.objects.create(name="High Meadow", zone="Europe/Dublin")
    with pytest.raises(Refused, match="where you don't work"):
        order_create(spec=room.spec, by=staff_actor(elsewhere), at=AT)


def test_a_revision_says_what_changed_and_keeps_the_number():
    room = Workshop()
    order = room.released()
    spec = room.signed_spec(2, target_loft_deg=Decimal(54))
    revision = order_revise(order=order, spec=spec, why="gap too small", by=room.fitter, at=AT)
    assert (revision.letter, revision.order.number) == ("B", 2001)
    assert revision.changes == ["Slot 1: loft 54°, was 55°."]
    assert not order.revisions.get(letter="A").is_current


def test_a_revision_after_the_butt_is_cut_says_so():
    room = Workshop()
    order = room.released()
    room.glued(room.club(order))
    spec = room.signed_spec(2, target_length_mm=Decimal("901.7"))
    revision = order_revise(order=order, spec=spec, why="longer", by=room.fitter, at=MIXED)
    assert revision.changes[0] == "Slot 1: length 35 1/2 in, was 35 1/4 in."
    assert "done on A already" in revision.changes[1]
    assert "butt cut" in revision.changes[1]
    club = room.club(order)
    # It stays the club that is glued and cures; only its length is to be settled.
    assert club.state == "curing"
    assert {"stamped", "butt_cut", "glued"} <= {fact.kind for fact in facts_of(club)}
    settings = settings_of(club.revision).values
    assert work_of(club, settings).next_step(standing_steps(club, settings)) == "butt_cut"
    with pytest.raises(StateRefused) as refusal:
        room.step(club, "butt_cut", at=MIXED)
    assert refusal.value.code == "bench.cut_and_glued"
    # The length that the shaft was cut for, again: the fitter's way out.
    spec = room.signed_spec(3)
    order_revise(order=order, spec=spec, why="as it was", by=room.fitter, at=MIXED)
    room.step(room.club(order), "butt_cut", at=MIXED)
    club = room.club(order)
    assert work_of(club, settings).next_step(standing_steps(club, settings)) == "cured"


def test_a_shaft_cut_for_a_shorter_club_is_not_taken_for_a_longer_one():
    room = Workshop()
    order = room.released()
    room.ready_for("dry_weight", room.club(order))
    spec = room.signed_spec(2, target_length_mm=Decimal("901.7"))
    order_revise(order=order, spec=spec, why="longer", by=room.fitter, at=MIXED)
    with pytest.raises(StateRefused) as refusal:
        room.step(room.club(order), "butt_cut", at=MIXED)
    assert refusal.value.code == "bench.cut_too_short"
    # A shorter one is cut from it.
    spec = room.signed_spec(3, target_length_mm=Decimal("889"))
    order_revise(order=order, spec=spec, why="shorter", by=room.fitter, at=MIXED)
    room.step(room.club(order), "butt_cut", at=MIXED)


def test_a_stamped_head_is_not_stamped_over_after_a_revision():
    room = Workshop()
    order = room.released()
    room.glued(room.club(order))
    stamped = next(fact.stamping for fact in facts_of(room.club(order)) if fact.stamping)
    spec = room.signed_spec(2, stamping="Q Z")
    order_revise(order=order, spec=spec, why="initials", by=room.fitter, at=MIXED)
    club = room.club(order)
    with pytest.raises(StateRefused) as refusal:
        room.step(club, "stamped", at=MIXED)
    assert refusal.value.code == "bench.stamped_already"
    assert [fact.stamping for fact in facts_of(club) if fact.stamping] == [stamped]


def test_a_bend_made_before_a_revision_counts_after_it():
    """57 bent to 55, 2 strong of 3; target now 53.5: 1.5 more is too far, and it is refused."""
    room = Workshop()
    order = room.released()
    room.glued(room.club(order), loft="57", lie="63")
    spec = room.signed_spec(2, target_loft_deg=Decimal("53.5"))
    order_revise(order=order, spec=spec, why="stronger", by=room.fitter, at=MIXED)
    club = room.club(order)
    assert club.as_received_loft_deg == Decimal(57)
    bend = bend_now(club, settings_of(club.revision).values)
    assert bend.loft_deg == Decimal("-1.5")
    assert bend.refusals
    room.step(club, "cured", at=CURED)
    with pytest.raises(StateRefused) as refusal:
        room.step(room.club(order), "bent_built", at=CURED)
    assert refusal.value.code == "bench.bend_too_far"


def test_another_head_begins_without_the_facts_of_the_one_before():
    room = Workshop()
    order = room.released()
    room.glued(room.club(order), loft="57", lie="63")
    other = a_head("56", "10", model="Rush")
    spec = room.signed_spec(2, head=other)
    order_revise(order=order, spec=spec, why="another sole", by=room.fitter, at=MIXED)
    club = room.club(order)
    assert (club.head_number, club.shaft_number) == (2, 1)
    assert {fact.kind for fact in facts_of(club)} == {"butt_cut"}
    assert club.as_received_loft_deg is None
    assert club.state == "to_pick"


def test_clubs_that_stay_keep_what_the_bench_did():
    room = Workshop(clubs=2)
    order = room.released()
    room.glued(room.club(order, 2), loft="50")
    spec = room.signed_spec(2, target_loft_deg=Decimal(54))
    order_revise(order=order, spec=spec, why="gap too small", by=room.fitter, at=MIXED)
    kept = room.club(order, 2)
    assert kept.state == "curing"
    assert kept.steps.filter(step="epoxy").exists()
    assert kept.as_received_loft_deg == Decimal(50)


def test_a_revision_without_its_reason_is_refused():
    room = Workshop()
    order = room.released()
    spec = room.signed_spec(2)
    with pytest.raises(FieldsRefused):
        order_revise(order=order, spec=spec, why=" ", by=room.fitter, at=AT)


def test_cancelling_wants_a_reason():
    room = Workshop()
    order = room.ordered()
    with pytest.raises(FieldsRefused):
        order_cancel(order=order, why="", by=room.manager, at=AT)
    assert order_cancel(order=order, why="moved away", by=room.manager, at=AT).state == "cancelled"
