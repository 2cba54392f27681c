"""Loft plans: the baseline they hang on, what is suggested, what is taken over."""

from decimal import Decimal

import pytest

from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.selectors import settings_in_force
from sessions.models import LoftPlan, PlanSlot, SpecClub
from sessions.models.words import ClubSource
from sessions.selectors.capture_bag import bag_document
from sessions.selectors.capture_trials import hidden_in
from sessions.selectors.evidence import last_bag_entries, visit_evidence
from sessions.selectors.plans import drift_limit, plan_choices, plan_pieces, wish_of
from sessions.selectors.spec_page import drifted
from sessions.services.plans import WantedSlot, plan_choose
from tests.fixtures_decide import AT, YARD, Room

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    return Room()


def choices(room, **wish):
    evidence = visit_evidence(room.visit)
    pieces = plan_pieces(room.visit, evidence, settings_in_force())
    return plan_choices(evidence, pieces, wish_of(room.visit, pieces, **wish)), pieces


def choose(room, *lofts, is_own=True, why="The player wants these lofts"):
    return plan_choose(
        visit=room.visit,
        slots=[WantedSlot("full_shot", Decimal(loft)) for loft in lofts],
        is_own=is_own, why=why, by=room.by, at=AT,
    )  # fmt: skip


def test_the_baseline_is_the_mean_of_the_full_swings_with_the_pitching_wedge(room):
    room.baseline(126, 128, 130)
    baseline = visit_evidence(room.visit).baseline
    assert baseline.balls == 3
    assert baseline.carry_m == pytest.approx(128 * YARD)
    assert baseline.carry.sd == pytest.approx(2 * YARD)  # of 126, 128, 130: by hand, 2
    assert baseline.loft_deg == Decimal("45.00")


def test_warm_up_flat_out_and_misread_balls_are_no_baseline(room):
    club = room.club("pitching_wedge", "pitching wedge", "45")
    trial = room.own_trial(club, "baseline")
    room.hit(room.block(trial, is_warm_up=True), 90, 95)
    room.hit(room.block(trial, swing="flat_out"), 140)
    assert visit_evidence(room.visit).baseline is None
    room.hit(room.block(trial), 128)
    assert visit_evidence(room.visit).baseline.carry_m == pytest.approx(128 * YARD)


def test_a_carry_only_said_serves_with_no_ball_counted(room):
    room.club("pitching_wedge", "pitching wedge", "46", stock_carry_m=110.0)
    baseline = visit_evidence(room.visit).baseline
    assert (baseline.carry_m, baseline.balls, baseline.carry) == (110.0, 0, None)


def test_without_a_baseline_it_is_said_what_to_do(room):
    found, _ = choices(room)
    assert found.plans == ()
    assert found.impossible.startswith("Hit full stock swings with the pitching wedge")
    with pytest.raises(StateRefused, match="pitching wedge"):
        choose(room, "50")


def test_three_wedges_below_a_45_are_suggested_with_gaps_in_proportion(room):
    """The band 50 / 54-55 / 59-60 is a fitter's expectation (common practice)."""
    for loft in ("48", "50", "52", "54", "56", "58", "60"):
        room.head(loft)
    room.baseline()
    found, _ = choices(room, wedges=3)
    lofts = [[float(x) for x in plan.target_lofts_deg] for plan in found.plans]
    assert any(49 <= a <= 51 and 54 <= b <= 55.5 and 58.5 <= c <= 60.5 for a, b, c in lofts)
    assert all(8 <= slot.gap_percent <= 13 for plan in found.plans for slot in plan.slots)


def test_a_head_of_the_other_hand_is_never_suggested(room):
    room.head("50", hand="left")
    room.baseline()
    found, _ = choices(room, wedges=1)
    assert found.plans == ()
    assert found.impossible.startswith("No plan fits")


def test_twin_lofts_holes_and_the_fifteenth_club_are_named(room):
    room.baseline()
    room.club("wedge", "50", "51.0", "50")
    room.club("wedge", "52", "51.3", "52")
    room.club("wedge", "60", "60")
    room.others(driver=(1, 0), fairway=(2, 0), hybrid=(2, 1), long_iron=(5, 0), putter=(1, 0))
    _, pieces = choices(room)
    assert "50 and 52 are 0.3 degrees apart" in pieces.notes[0]
    assert any("hole of 8.7 degrees" in note for note in pieces.notes)
    # 11 others, the pitching wedge and three wedges are fifteen.
    assert pieces.bag.words(3) == (
        "With this plan 15 clubs are in the bag; 14 is the limit (Rule 4.1b): 1 must come out. "
        "Hardly ever hit: 1 of the hybrids."
    )


def test_a_plan_is_numbered_from_the_strongest_with_its_predicted_carries(room):
    room.baseline()
    plan = choose(room, "56", "50")
    slots = list(plan.slots.all())
    assert [(s.slot, s.target_loft_deg) for s in slots] == [(1, 50), (2, 56)]
    # 2.1 % of the pitching wedge's carry a degree (common practice): 5 degrees are 10.5 %.
    assert slots[0].predicted_carry_m == pytest.approx(128 * YARD * 0.895, rel=0.01)
    assert 0 < slots[0].predicted_sd_m < slots[1].predicted_sd_m


def test_bounce_follows_the_bend_from_the_stamp(room):
    room.baseline()
    head = room.head("56", "10").head
    plan = plan_choose(
        visit=room.visit, slots=[WantedSlot("touch", Decimal("55"), head=head)], is_own=True,
        why="stock", by=room.by, at=AT,
    )  # fmt: skip
    assert plan.slots.get().bounce_after_deg == Decimal("9.00")  # bent 1 strong takes one


def test_a_later_choice_replaces_the_plan_and_keeps_the_earlier_one(room):
    room.baseline()
    choose(room, "50")
    choose(room, "51")
    assert LoftPlan.objects.count() == 2
    assert PlanSlot.objects.get(plan__is_current=True).target_loft_deg == 51


@pytest.mark.parametrize(
    ("lofts", "why", "field"),
    [(("50",), " ", "why"), (("50", "50"), "x", "loft_2"), (("29",), "x", "loft_1"),
     (("44",), "x", "loft_1"), ((), "x", "loft_1")],
)  # fmt: skip
def test_what_does_not_fit_is_refused_beside_its_field(room, lofts, why, field):
    room.baseline()
    with pytest.raises(FieldsRefused) as refused:
        choose(room, *lofts, why=why)
    assert field in refused.value.errors
    assert not LoftPlan.objects.exists()


def test_the_set_s_own_wedge_is_offered_where_it_reaches_the_first_gap(room):
    room.baseline(143, loft="40.4")
    for loft in ("44", "48"):
        room.head(loft, model="Tern", is_matched_set=True, making="cast 304 or 431 stainless")
    _, pieces = choices(room)
    # 44 bent 2 weak is 46; 48 bent 2 strong is 46, a step of 5.6.
    assert pieces.offers[0].endswith("Orrin Vale Tern 44 and Orrin Vale Tern 48, if the irons "
                                     "are of that set.")  # fmt: skip


@pytest.mark.parametrize(
    ("measured", "said"), [("54.8", True), ("57", True), ("55.1", False), (None, False)]
)
def test_a_club_that_measures_off_its_stamp_is_said_as_drift_where_it_is_read(room, measured, said):
    club = room.club("wedge", "Old 56", measured, stamped="56")
    settings = settings_in_force()
    notes = plan_pieces(room.visit, visit_evidence(room.visit), settings).notes
    assert [one.rule_id for one in notes].count("PLAN-D01") == said

    entries = last_bag_entries(room.visit)
    bag = bag_document(room.visit, entries, hidden_in([]), "yd", "in", drift_limit(settings))
    (in_bag,) = [one for one in bag["clubs"] if one["id"] == str(club.pk)]
    assert bool(in_bag["drift"]) is said

    kept = SpecClub(
        source=ClubSource.OWN_KEPT, club=club, stamped_loft_deg=Decimal(56),
        as_received_loft_deg=measured and Decimal(measured),
    )  # fmt: skip
    assert drifted(kept, settings) == in_bag["drift"]
    # A new head that is bent on purpose has not drifted.
    kept.source = ClubSource.NEW
    assert drifted(kept, settings) == ""
