"""What is said of the club to hand over next."""

from decimal import Decimal
from uuid import uuid4

from sessions.maths.block_context import BlockContext
from sessions.maths.dispersion import ShotFigures, block_figures
from sessions.rules.club_evidence import ClubEvidence, Margins, Situation, SituationFigures
from sessions.rules.evidence import SlotEvidence
from sessions.rules.next_club import next_club

MARGINS = Margins(carry_m=2.7, side_m=2.7, least_balls=5, most_more_balls=12)


def club(name, *carries, is_own=False, is_hidden=False, distances=(), **context):
    shots = tuple(ShotFigures(carry_m=carry) for carry in carries)
    swing = "pitch" if distances else "full"
    there = SituationFigures(
        situation=Situation(swing, swing, "fairway", "fairway", 30.0 if distances else None),
        context=BlockContext(**context),
        figures=block_figures(shots),
        shots=shots,
        carries_m=tuple(carries),
        sides_m=(),
        turf={},
        distances_m=tuple(distances),
    )
    return ClubEvidence(
        key=name, trial_ids=(uuid4(),), name=name, is_own=is_own, is_hidden=is_hidden,
        loft_deg=Decimal(54), situations=(there,) if carries else (),
    )  # fmt: skip


def said(*candidates, own=None, planned=100.0, left=40):
    there = SlotEvidence(1, tuple(candidates), own, (), planned_carry_m=planned)
    found = next_club(there, MARGINS, left, "m")
    return None if found is None else found.sentence


def test_a_club_that_was_not_hit_comes_first():
    sentence = said(club("Sedge", 99.0, 101.0, 100.0), own=club("your 56", is_own=True))
    assert sentence == "Next: your 56, 3 balls: none was hit with it yet."


def test_balls_hit_otherwise_are_not_held_against_the_others():
    dry, wet = {"wet": "dry"}, {"wet": "wet"}
    sentence = said(
        club("Sedge", 99.0, 101.0, 100.0, 100.5, **dry),
        club("Marram", 98.0, 99.0, 97.5, **dry),
        club("Rush", 80.0, 81.0, 79.5, 80.5, 80.0, **wet),
    )
    assert sentence == ("Next: Rush, 3 balls: none was hit with it in the same conditions yet.")


def test_worn_grooves_do_not_keep_a_club_out():
    sentence = said(
        club("Sedge", 99.0, 101.0, 100.0, 100.5, grooves="fresh"),
        club("Rush", 80.0, 81.0, 79.5, grooves="worn"),
    )
    assert sentence.startswith("Enough balls")


def test_three_each_to_begin_with():
    sentence = said(club("Sedge", 99.0, 101.0, 100.0), club("Rush", 90.0))
    assert sentence == "Next: Rush, 2 balls: three each to begin with."


def test_the_closest_behind_is_handed_over_with_its_reason():
    sentence = said(
        club("Sedge", 99.0, 104.0, 96.0, 101.0, 100.0, 97.0), club("Rush", 98.0, 104.0, 94.0)
    )
    assert sentence == (
        "Next: Rush, 3 balls: it is closest behind Sedge, which carries nearest to the plan; "
        "that is where a ball tells most."
    )


def test_enough_is_said_with_how_near():
    sentence = said(club("Sedge", 99.0, 101.0, 100.0, 100.5), club("Rush", 80.0, 81.0, 79.5))
    assert sentence == (
        "Enough balls to choose by: no other club carries nearer to the plan than Sedge "
        "by more than 3 m. Turf, look and feel decide among the nearest."
    )


def test_with_no_ball_left_it_says_decide():
    sentence = said(club("Sedge", 99.0, 104.0, 96.0), club("Rush", 98.0, 104.0, 94.0), left=-3)
    assert sentence == "The balls of this visit are hit: decide with what there is, or come back."


def test_at_a_target_the_nearest_leads():
    sentence = said(
        club("Sedge", 30.0, 31.0, 29.0, distances=(1.0, 1.2, 0.8)),
        club("Rush", 36.0, 37.0, 35.0, distances=(6.0, 6.4, 5.8)),
        planned=None,
    )
    assert sentence == (
        "Enough balls to choose by: no other club ends nearer to the target than Sedge "
        "by more than 1 m. Turf, look and feel decide among the nearest."
    )


def test_without_a_plan_or_a_target_with_one_club_or_under_numbers_nothing_is_said():
    two = club("Sedge", 99.0, 104.0, 96.0), club("Rush", 98.0, 104.0, 94.0)
    assert said(*two, planned=None) is None
    assert said(two[0]) is None
    assert said(two[0], club("Number 42", 98.0, 104.0, 94.0, is_hidden=True)) is None
