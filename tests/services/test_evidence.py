"""What the evidence compares, against which club, and what is said beside a verdict."""

from uuid import uuid4

import pytest

from sessions.rules.verdict_words import undecided, verdict_boxes
from sessions.selectors.evidence import visit_evidence
from sessions.services.comparisons import comparison_open, comparison_rate, comparison_reveal
from sessions.services.figures import figures_answer
from sessions.services.plans import WantedSlot, plan_choose
from sessions.services.shots import shot_exclude
from tests.fixtures_decide import AT, Room

pytestmark = pytest.mark.django_db
EIGHT = (95, 96, 97, 96, 95, 97, 96, 96)


@pytest.fixture
def room():
    return Room()


def planned(room, *lofts, clubs=None):
    from decimal import Decimal

    room.baseline()
    slots = [WantedSlot("full_shot", Decimal(loft), club=(clubs or {}).get(loft)) for loft in lofts]
    plan_choose(visit=room.visit, slots=slots, is_own=True, why="x", by=room.by, at=AT)


def test_played_now_is_the_wedge_nearest_in_loft_even_where_another_was_hit_for_the_slot(room):
    fifty = room.club("wedge", "50", "50")
    room.club("wedge", "56", "56")
    planned(room, "50", "56")
    room.hit(room.block(room.own_trial(fifty, slot=2)), *EIGHT)
    room.hit(room.block(room.head_trial(room.head("56"), slot=2)), *EIGHT)
    there = visit_evidence(room.visit).slot(2)
    assert there.own is not None
    assert (there.own.name, there.own.shots) == ("your 56", 0)
    assert "Nothing was hit with your 56" in there.own_was_not_hit
    assert there.pairs == ()


def test_the_plan_s_kept_club_is_played_now_whatever_lies_nearer(room):
    kept, _ = room.club("wedge", "old 52", "52"), room.club("wedge", "old 54", "54")
    planned(room, "54", clubs={"54": kept})
    there = visit_evidence(room.visit).slot(1)
    assert there.own is not None
    assert there.own.name == "your old 52"


def test_without_a_club_played_now_the_one_nearest_to_the_plan_leads(room):
    planned(room, "54")
    for model, carries in (("Sedge", (88, 89, 90, 89, 88)), ("Rush", (103, 104, 104, 103, 105))):
        room.hit(room.block(room.head_trial(room.head("54", model=model), slot=1)), *carries)
    there = visit_evidence(room.visit).slot(1)
    assert there.against is not None
    # Planned: 128 less 9 x 2.1 % of 128, about 104 yards.
    assert "Rush" in there.against.name
    assert [pair.candidate.name for pair in there.pairs] == ["Orrin Vale Sedge 54°"]


def test_balls_hit_one_club_after_the_other_are_compared_and_said(room):
    club = room.club("wedge", "56", "56")
    own = room.own_trial(club, slot=2)
    room.hit(room.block(own), *EIGHT)
    new = room.head_trial(room.head("56"), slot=2)
    room.hit(room.block(new), *EIGHT)
    (pair,) = visit_evidence(room.visit).slot(2).pairs
    assert pair.carry is not None
    assert any("hit a few with your 56 again" in said for said in pair.cautions)
    room.hit(room.block(room.own_trial(club, slot=2)), 96, 95)
    (pair,) = visit_evidence(room.visit).slot(2).pairs
    assert not any("again" in said for said in pair.cautions)


def test_balls_left_out_unequally_are_said(room):
    club = room.club("wedge", "56", "56")
    room.hit(room.block(room.own_trial(club, slot=2)), *EIGHT)
    block = room.block(room.head_trial(room.head("56"), slot=2))
    room.hit(block, *EIGHT)
    (shot,) = room.hit(block, 40)
    shot_exclude(shot=shot, exclusion_id=uuid4(), reason="misread", by=room.by, at=AT)
    (pair,) = visit_evidence(room.visit).slot(2).pairs
    assert any("1 of 9 with Orrin Vale Sedge 56°, 0 of 8 with your 56" in s for s in pair.cautions)


def test_carries_got_in_different_ways_are_not_compared(room):
    club = room.club("wedge", "56", "56")
    room.hit(room.block(room.own_trial(club, slot=2)), *EIGHT)
    block = room.block(room.head_trial(room.head("56"), slot=2), carry_got="calculated")
    room.hit(block, *EIGHT)
    (pair,) = visit_evidence(room.visit).slot(2).pairs
    assert pair.judged == ()
    assert pair.unfair == ("The carries were not got the same way: calculated against tracked.",)


def test_every_measure_with_figures_is_judged_and_the_undecided_stand_in_a_line(room):
    club = room.club("wedge", "56", "56")
    more = {"launch_deg": 30.0, "spin_rpm": 9000.0, "landing_deg": 48.0}
    where = {"swing": "pitch", "target_m": 90.0, "spin_got": "measured"}
    room.hit(room.block(room.own_trial(club, slot=2), **where), *EIGHT, **more, strike="fat")
    room.hit(
        room.block(room.head_trial(room.head("56"), slot=2), **where), *EIGHT,
        **more | {"spin_rpm": 9900.0}, strike="clean",
    )  # fmt: skip
    (pair,) = visit_evidence(room.visit).slot(2).pairs
    assert [each.key for each in pair.judged] == [
        "carry", "side", "proximity", "launch", "spin", "landing", "spread", "strikes",
    ]  # fmt: skip
    strikes = next(box for box in verdict_boxes(pair, "yd") if box.what == "Strikes")
    assert strikes.kind == "real"
    assert strikes.sentence.startswith("0 of 8 struck badly, 8 of 8 with your 56")
    assert "spread of carry (1.0 times as wide)" in undecided(pair, "yd")
    assert "not today" in undecided(pair, "yd")


def test_spin_that_was_estimated_is_not_held_against_spin_that_was_measured(room):
    club = room.club("wedge", "56", "56")
    for trial, got in (
        (room.own_trial(club, slot=2), "measured"),
        (room.head_trial(room.head("56"), slot=2), "estimated"),
    ):
        room.hit(room.block(trial, spin_got=got), *EIGHT, spin_rpm=9000.0)
    (pair,) = visit_evidence(room.visit).slot(2).pairs
    assert pair.found("spin") is None
    assert "Spin is not compared: estimated against measured." in pair.cautions


def test_ratings_count_by_round_once_they_are_revealed(room):
    trials = [room.head_trial(room.head("56", model=model), slot=2) for model in ("Sedge", "Rush")]
    for trial in trials:
        room.hit(room.block(trial), *EIGHT)
    drawn = comparison_open(
        visit=room.visit, comparison_id=uuid4(), slot=2, trials=trials, covered=False, seed=3,
        by=room.by, at=AT,
    )  # fmt: skip
    for arm in drawn.arms.all():
        score = 4 if arm.trial_id == trials[0].pk else 3
        comparison_rate(comparison=drawn, rating_id=uuid4(), code=arm.code, about="feel",
                        score=score, by=room.by, at=AT)  # fmt: skip

    def rated():
        (pair,) = visit_evidence(room.visit).slot(2).pairs
        return pair.found("rating: feel")

    assert rated() is None
    comparison_reveal(comparison=drawn, by=room.by, at=AT)
    found = rated()
    assert found is not None
    assert (found.balls_a, found.verdict) == (1, "too few balls")


def test_the_drift_of_the_hour_is_told_over_all_clubs(room):
    club = room.club("wedge", "56", "56")
    room.hit(room.block(room.own_trial(club, slot=2)), *[96 - n * 0.5 for n in range(10)])
    room.hit(room.block(room.head_trial(room.head("54"), slot=2)), *[91 - n / 2 for n in range(8)])
    drift = visit_evidence(room.visit).drift
    assert drift is not None
    assert drift.per_ten == pytest.approx(-5 * 0.9144)
    assert drift.is_sure


def test_a_late_answer_makes_blocks_with_and_without_one_comparable(room):
    """One club's figures said to be as flown, the other's only afterwards."""
    fifty, sand = room.club("wedge", "50", "50"), room.club("wedge", "56", "56")
    room.hit(room.block(room.own_trial(fifty), as_flown="as_flown"), *EIGHT)
    room.hit(room.block(room.own_trial(sand), as_flown="unanswered"), *EIGHT)
    before = visit_evidence(room.visit).clubs
    assert {c.situations[0].context.figures for c in before} == {"as flown", None}
    figures_answer(visit=room.visit, answer="normalised", by=room.by, at=AT)
    figures_answer(visit=room.visit, answer="as_flown", by=room.by, at=AT)
    after = visit_evidence(room.visit).clubs
    assert {c.situations[0].context.figures for c in after} == {"as flown"}
    assert [c.situations[0].is_figures_answered_later for c in after].count(True) == 1


def test_flat_out_balls_an_open_face_and_a_wet_face_leave_the_line_as_it_is(room):
    room.baseline()
    club = room.club("wedge", "56", "56")
    alone = visit_evidence(room.visit).line
    trial = room.own_trial(club)
    room.hit(room.block(trial, swing="flat_out"), *[105] * 6)
    room.hit(room.block(trial, face="wide_open"), *[80] * 6)
    room.hit(room.block(trial, wetness="wet"), *[110] * 6)
    evidence = visit_evidence(room.visit)
    assert alone is not None
    assert evidence.line is not None
    assert evidence.line.at(56.0).carry_m == alone.at(56.0).carry_m
    assert evidence.line.shots == alone.shots
    (said,) = evidence.left_out_of_line
    assert "6 full balls stay out of the carries by loft" in said
    assert "wet" in said
    room.hit(room.block(trial), *[90] * 6)
    assert (
        visit_evidence(room.visit).line.at(56.0, club=str(club.pk)).carry_m
        != alone.at(56.0).carry_m
    )


def test_a_wedge_that_was_never_hit_is_as_unsure_as_any_and_hears_what_the_player_says(room):
    room.baseline()
    silent = visit_evidence(room.visit).line
    club = room.club("wedge", "60", "60", stock_carry_m=70.0)
    line = visit_evidence(room.visit).line
    assert silent is not None
    assert line is not None
    there = line.at(60.0, club=str(club.pk))
    # Told less than the plain line expects: drawn towards it, by one ball's weight.
    assert 70.0 < there.carry_m < silent.at(60.0).carry_m
    # 90 % of a club's own offset alone is about 2.9 m of a 117 m pitching wedge.
    assert there.high_m - there.carry_m > 2.9


def test_a_club_that_was_hit_is_predicted_with_its_own_offset(room):
    room.baseline()
    club = room.club("wedge", "56", "56")
    room.hit(room.block(room.own_trial(club)), *[90] * 4, 91, 89, 90, 90)
    line = visit_evidence(room.visit).line
    assert line is not None
    own, other = line.at(56.0, club=str(club.pk)), line.at(56.0)
    assert own.high_m - own.low_m < other.high_m - other.low_m
    assert abs(own.carry_m - 90 * 0.9144) < abs(other.carry_m - 90 * 0.9144)
