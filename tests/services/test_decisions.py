"""Evidence pair by pair, and decisions with their numbers frozen."""

from decimal import Decimal

import pytest

from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.services.shop_settings import settings_change
from sessions.models import Decision, Shot
from sessions.rules.verdict_words import verdict_boxes
from sessions.rules.verdicts import compared
from sessions.selectors.evidence import visit_evidence
from sessions.services.decisions import decision_record
from sessions.services.plans import WantedSlot, plan_choose
from sessions.services.shots import shot_exclude
from tests.fixtures_decide import AT, Room

pytestmark = pytest.mark.django_db
TIGHT_96 = (95, 96, 97, 96, 95, 97, 96, 96)
TIGHT_84 = (83, 84, 85, 84, 83, 85, 84, 84)


@pytest.fixture
def room():
    return Room()


def duel(room, own=TIGHT_84, new=TIGHT_96, own_more=None, new_more=None, slot=2):
    club = room.club("wedge", "56", "56")
    own_trial = room.own_trial(club, slot=slot)
    room.hit(room.block(own_trial, **(own_more or {})), *own)
    new_trial = room.head_trial(room.head("54"), slot=slot)
    room.hit(room.block(new_trial, **(new_more or {})), *new)
    return club, own_trial, new_trial


def decide(room, outcome="build", trial=None, against=None, club=None, reason="", **more):
    values = {"leaves_bag": None, "leaves_bag_words": "", "keep_fix": [], "slot": 2} | more
    return decision_record(
        visit=room.visit, role="touch", outcome=outcome, chosen_trial=trial,
        against_trial=against, kept_club=club, reason=reason, by=room.by, at=AT, **values,
    )  # fmt: skip


def plan_at(room, loft):
    room.baseline()
    slots = [WantedSlot("full_shot", Decimal("50")), WantedSlot("touch", Decimal(loft))]
    plan_choose(visit=room.visit, slots=slots, is_own=True, why="x", by=room.by, at=AT)


def only_pair(room, slot=2):
    (pair,) = visit_evidence(room.visit).slot(slot).pairs
    return pair


def test_a_clear_difference_is_real_and_said_with_its_numbers(room):
    duel(room)
    carry, direction = verdict_boxes(only_pair(room), "yd")
    assert (carry.what, carry.kind) == ("Carry", "real")
    assert carry.sentence.startswith("12 yd longer than your 56 (")  # 96 against 84, by hand
    assert carry.sentence.endswith(", 8 and 8 balls.")
    assert direction.kind in {"none", "few"}


def test_few_balls_are_said_with_how_many_more(room):
    duel(room, own=(84, 90), new=(93, 96))
    box = verdict_boxes(only_pair(room), "yd")[0]
    assert box.kind == "few"
    assert "2 and 2 balls" in box.sentence
    assert "more balls with each club" in box.sentence


@pytest.mark.parametrize(
    ("more", "sentence"),
    [({"wetness": "wet"}, "A wet face can halve the spin"), ({"hit_from": "mat"}, "surfaces"),
     ({"ball": "range"}, "The balls differ"), ({"as_flown": "normalised"}, "figures")],
)  # fmt: skip
def test_what_differs_in_more_than_the_club_gets_no_verdict(room, more, sentence):
    duel(room, new_more=more)
    pair = only_pair(room)
    assert pair.carry is None
    assert verdict_boxes(pair, "yd") == ()
    assert any(sentence in said for said in pair.unfair)


def test_other_swings_and_other_targets_are_not_paired(room):
    duel(room, new_more={"swing": "pitch", "target_m": 30.0})
    assert visit_evidence(room.visit).slot(2).pairs == ()


def test_fresh_grooves_against_worn_are_a_caution_not_a_bar(room):
    club = room.club("wedge", "56", "56", grooves="worn")
    room.hit(room.block(room.own_trial(club, slot=2)), *TIGHT_84)
    room.hit(room.block(room.head_trial(room.head("54"), slot=2)), *TIGHT_96)
    pair = only_pair(room)
    assert pair.carry is not None
    assert any("grooves" in said.lower() for said in pair.cautions)


def test_a_misread_counts_in_nothing_and_a_fat_shot_is_always_counted(room):
    trial = room.head_trial(room.head("54"), slot=2)
    block = room.block(trial)
    room.hit(block, 96, 97)
    (misread,) = room.hit(block, 300)
    room.hit(block, 60, strike="fat", in_mean=False)
    shot_exclude(shot=misread, exclusion_id=Shot().pk, reason="misread", by=room.by, at=AT)
    (club,) = visit_evidence(room.visit).clubs
    figures = club.situations[0].figures
    assert (figures.shots, figures.misreads, figures.left_out_of_mean) == (3, 1, 1)
    assert figures.carry.n == 2
    assert club.strikes == {"fat": 1}


def test_a_sole_hit_from_a_mat_only_is_not_tested_on_turf(room):
    trial = room.head_trial(room.head("54"), slot=2)
    room.hit(room.block(trial, hit_from="mat"), 96)
    assert visit_evidence(room.visit).clubs[0].is_tested_on_turf is False
    room.hit(room.block(trial), 96)
    assert visit_evidence(room.visit).clubs[0].is_tested_on_turf is True


def test_a_build_with_the_numbers_behind_it_needs_no_reason_and_freezes_them(room):
    plan_at(room, "54")
    club, own, new = duel(room)
    decision = decide(room, trial=new, against=own, leaves_bag=club)
    assert decision.reason == "As the numbers show."
    assert decision.against_evidence is False
    frozen = next(c for c in decision.numbers["clubs"] if not c["is_own"])
    assert frozen["situations"][0]["carry"]["n"] == 8
    assert decision.numbers["verdicts"][0]["said"][0]["kind"] == "real"
    assert decision.code_version == "0.1.0"
    room.hit(room.block(new, swing="half"), 50)
    decision.refresh_from_db()
    assert len(next(c for c in decision.numbers["clubs"] if not c["is_own"])["situations"]) == 1


def test_against_the_evidence_a_reason_is_asked_and_kept(room):
    plan_at(room, "56")  # planned to carry about 98 yards: the new club's 96 is nearer
    club, _, new = duel(room)
    with pytest.raises(FieldsRefused) as refused:
        decide(room, "keep", club=club, against=new)
    assert "carries nearer" in refused.value.errors["reason"]
    decision = decide(room, "keep", club=club, against=new, reason="The look at address")
    assert decision.against_evidence is True
    assert decision.reason == "The look at address"


def test_what_the_shop_does_not_hold_against_a_choice_asks_for_no_reason(room):
    plan_at(room, "56")
    club, _, new = duel(room)
    named = decide(room, "keep", club=club, against=new, reason="The look at address")
    assert named.numbers["speaks_against_rules"] == ["DEC-E01"]
    settings_change(typed={"judgements.DEC-E01": "off"}, by=room.by, at=AT)
    decision = decide(room, "keep", club=club, against=new)
    assert decision.against_evidence is False
    assert decision.numbers["speaks_against"] == []


def test_a_reason_that_nobody_gave_is_none(room):
    plan_at(room, "56")
    club, _, new = duel(room)
    with pytest.raises(FieldsRefused, match="carries nearer"):
        decide(room, "keep", club=club, against=new, reason="As the numbers show.")


def test_a_club_is_not_kept_against_itself(room):
    club, own, _ = duel(room)
    with pytest.raises(FieldsRefused) as refused:
        decide(room, "keep", club=club, against=own, reason="Its sole")
    assert refused.value.errors == {"against": "A club can't be kept against itself."}


def test_the_carry_that_was_planned_stays_the_one_that_is_held_against(room):
    plan_at(room, "54")
    slot = room.visit.loft_plans.get().slots.get(slot=2)
    # The own club's balls bend the line; the plan was chosen before them.
    club = room.club("wedge", "54", "54")
    room.hit(room.block(room.own_trial(club, slot=2)), *TIGHT_84)
    evidence = visit_evidence(room.visit)
    assert evidence.line.at(54.0).carry_m != pytest.approx(slot.predicted_carry_m, abs=1)
    assert evidence.slot(2).planned_carry_m == slot.predicted_carry_m


def test_two_clubs_that_the_page_does_not_compare_share_the_chance_of_all_its_pairs(room):
    _, _, one = duel(room)
    rush = room.head_trial(room.head("54", model="Rush"), slot=2)
    room.hit(room.block(rush), *TIGHT_84)
    evidence = visit_evidence(room.visit)
    first, second = evidence.club_of(one.pk), evidence.club_of(rush.pk)
    (pair,) = evidence.between(2, first, second)
    (alone,) = compared([first], second, evidence.margins, everyone=evidence.clubs)
    assert pair.carry.high - pair.carry.low > alone.carry.high - alone.carry.low
    assert {pair.candidate.key, pair.against.key} == {first.key, second.key}


def test_what_is_switched_off_is_in_no_pair_of_two_candidates(room):
    _, _, one = duel(room)
    rush = room.head_trial(room.head("54", model="Rush"), slot=2)
    room.hit(room.block(rush), *TIGHT_84)

    def cautions():
        decision = decide(room, trial=one, against=rush, reason="Feel")
        (pair,) = [p for p in decision.numbers["verdicts"] if "Rush" in p["against"]]
        return pair["cautions"]

    assert any("came after those with" in said for said in cautions())
    settings_change(typed={"judgements.DEC-C02": "off"}, by=room.by, at=AT)
    assert cautions() == []


def test_building_without_a_measured_difference_asks_why(room):
    _, own, new = duel(room, own=(84,), new=(85,))
    with pytest.raises(FieldsRefused, match="No measured difference"):
        decide(room, trial=new, against=own)
    assert decide(room, trial=new, against=own, reason="Feel").against_evidence is False


def test_keep_and_fix_are_answered_and_what_nobody_answered_is_not_shown(room):
    room.answer("keep", ["chip"])
    room.answer("fix", ["sand", "flop"])
    answered = [{"kind": "keep", "what": "chip", "answer": "kept"},
                {"kind": "fix", "what": "sand", "answer": "fixed"}]  # fmt: skip
    decision = decide(room, "come_back", keep_fix=answered)
    assert [(r["label"], r["answer"]) for r in decision.keep_fix] == [
        ("Chip", "kept"), ("Sand", "fixed"), ("Flop", "not_shown")
    ]  # fmt: skip
    with pytest.raises(FieldsRefused):
        decide(room, "come_back", keep_fix=[{"kind": "keep", "what": "chip", "answer": "fixed"}])


def test_a_wish_that_is_another_slots_job_is_not_answered_here(room):
    plan_at(room, "56")
    room.answer("keep", ["full", "sand"])
    club, _, _ = duel(room)
    decision = decide(room, "keep", club=club, against=None, reason="Its sole")
    # Full shots are slot 1's; nobody hit sand with the club that stays.
    assert [(r["what"], r["answer"], r["because"]) for r in decision.keep_fix] == [
        ("full", "not_shown", ["Not this slot's job."]), ("sand", "not_shown", ["Not hit."]),
    ]  # fmt: skip
    assert [row["rule"] for row in decision.keep_fix] == ["DEC-A01", "DEC-W01"]
    settings_change(typed={"judgements.DEC-A01": "off"}, by=room.by, at=AT)
    asked = decide(room, "keep", club=club, against=None, reason="Its sole").keep_fix
    # The own club was hit at full swing, so it keeps it.
    assert (asked[0]["rule"], asked[0]["answer"]) == ("DEC-W02", "kept")


def test_only_a_sets_own_wedge_is_come_back_for(room):
    head = room.head("52").head
    with pytest.raises(FieldsRefused, match="not a set's own wedge"):
        decide(room, "come_back", to_try=head)
    own = room.head("48", model="Tern", is_matched_set=True).head
    with pytest.raises(FieldsRefused, match="neither built nor kept"):
        decide(room, "none_shown", to_try=own)
    assert decide(room, "come_back", to_try=own).numbers["to_try"] == "Orrin Vale Tern 48"


def test_a_later_decision_replaces_the_earlier_one_in_its_slot(room):
    decide(room, "none_shown")
    decide(room, "come_back")
    assert [d.outcome for d in Decision.objects.filter(is_current=True)] == ["come_back"]
    assert Decision.objects.count() == 2


@pytest.mark.parametrize("outcome", ["build", "keep", "toss"])
def test_an_outcome_without_its_club_is_refused(room, outcome):
    with pytest.raises(FieldsRefused) as refused:
        decide(room, outcome)
    assert "outcome" in refused.value.errors


def test_a_closed_visit_takes_no_decision(room):
    room.visit.__class__.objects.filter(pk=room.visit.pk).update(state="closed", closed_at=AT)
    with pytest.raises(StateRefused):
        decide(room, "none_shown")


def test_the_evidence_costs_the_same_queries_for_one_shot_and_for_fifty(
    room, django_assert_num_queries
):
    trial = room.head_trial(room.head("54"), slot=2)
    block = room.block(trial)
    room.hit(block, 96)
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    with CaptureQueriesContext(connection) as once:
        visit_evidence(room.visit)
    room.hit(block, *([96] * 49))
    with django_assert_num_queries(len(once)):
        visit_evidence(room.visit)


def test_better_than_another_candidate_mends_nothing_of_the_club_played_now(room):
    room.answer("fix", ["full"])
    room.club("wedge", "54", "54")  # played now, and not hit
    wild = room.head_trial(room.head("54"), slot=2)
    room.hit(room.block(wild), 80, 110, 82, 108, 79, 111, 81, 109)
    steady = room.head_trial(room.head("54", model="Rush"), slot=2)
    room.hit(room.block(steady), *TIGHT_96)
    decision = decide(room, trial=steady, against=wild, reason="It scatters less")
    (row,) = decision.keep_fix
    assert (row["answer"], row["rule"]) == ("not_shown", "DEC-W03")
