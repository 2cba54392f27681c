"""What made a club's comparisons unfair counts on whichever side of the pair it stands."""

from dataclasses import replace
from decimal import Decimal
from uuid import uuid4

import pytest

from sessions.maths.block_context import BlockContext
from sessions.maths.comparison import difference_of_clubs
from sessions.maths.dispersion import ShotFigures, block_figures
from sessions.rules.club_evidence import ClubEvidence, Margins, Situation, SituationFigures
from sessions.rules.evidence import VisitEvidence

MARGINS = Margins(carry_m=2.7, side_m=2.7, least_balls=5, most_more_balls=12)
UNFAIR = "The balls differ: range against premium."


def hit_with(ball, swing="full"):
    shots = tuple(ShotFigures(carry_m=carry) for carry in (99.0, 101.0, 100.0))
    return SituationFigures(
        situation=Situation(swing, swing, "fairway", "fairway", None),
        context=BlockContext(swing=swing, ball=ball),
        figures=block_figures(shots),
        shots=shots,
        carries_m=(99.0, 101.0, 100.0),
        sides_m=(),
        turf={},
    )


def club(name, *situations, is_own=False):
    return ClubEvidence(
        key=name, trial_ids=(uuid4(),), name=name, is_own=is_own,
        club_id=uuid4() if is_own else None, slot=1, situations=situations,
    )  # fmt: skip


def fairness(name, *clubs):
    there = VisitEvidence(clubs=clubs, margins=MARGINS).slot(1)
    return there.fairness(next(one for one in clubs if one.key == name))


def test_the_leader_of_an_unfair_comparison_was_compared_unfairly_too():
    """The own club was not hit: the first that was leads, and the others are held against it."""
    clubs = (club("Sedge", hit_with("premium")), club("Rush", hit_with("range")))
    assert fairness("Rush", *clubs) == ((UNFAIR,), ())
    assert fairness("Sedge", *clubs) == ((UNFAIR,), ())


def test_a_fair_pair_leaves_what_was_unfair_about_another_as_a_caution():
    clubs = (
        club("Sedge", hit_with("premium")),
        club("Rush", hit_with("range")),
        club("Fen", hit_with("premium")),
    )
    assert fairness("Sedge", *clubs) == ((), (f"Not against Rush: {UNFAIR}",))
    assert fairness("Fen", *clubs) == ((), ())
    assert fairness("Rush", *clubs) == ((UNFAIR,), ())


def test_one_fair_swing_leaves_the_unfair_one_as_a_caution():
    clubs = (
        club("Sedge", hit_with("premium"), hit_with("premium", "pitch")),
        club("Rush", hit_with("premium"), hit_with("range", "pitch")),
    )
    said = ((), (f"Not against Sedge: {UNFAIR}",))
    assert fairness("Rush", *clubs) == said


def test_the_club_played_now_is_what_all_are_held_against():
    own = club("your 52", hit_with("range"), is_own=True)
    clubs = (own, club("Sedge", hit_with("premium")), club("Rush", hit_with("range")))
    assert fairness("Sedge", *clubs) == (("The balls differ: premium against range.",), ())
    assert fairness("Rush", *clubs) == ((), ())


def test_the_slots_of_a_visit_share_one_chance_of_a_false_call():
    """Six balls each, one comparison a slot: alone at 10 %, beside another slot's at 5 %."""

    def six(name, slot, mean, is_own=False):
        carries = tuple(mean + miss for miss in (-3.0, -1.0, 0.0, 0.5, 1.5, 2.0))
        shots = tuple(ShotFigures(carry_m=carry) for carry in carries)
        there = replace(
            hit_with("premium"), carries_m=carries, shots=shots, figures=block_figures(shots)
        )
        found = club(name, there, is_own=is_own)
        return replace(found, slot=slot, loft_deg=Decimal(50 + 4 * slot))

    one = (six("your 54", 1, 100.0, is_own=True), six("Sedge", 1, 103.0))
    two = (six("your 58", 2, 90.0, is_own=True), six("Rush", 2, 93.0))
    alone = VisitEvidence(clubs=one, margins=MARGINS).slot(1).pairs[0].carry
    beside = VisitEvidence(clubs=(*one, *two), margins=MARGINS).slot(1).pairs[0].carry
    values = [[ball.carry_m for ball in each.situations[0].shots] for each in one]
    shared = difference_of_clubs(values[1], values[0], margin=2.7, family=2)
    assert beside.low < alone.low
    assert beside.high - beside.difference == pytest.approx(
        shared.high - shared.difference, rel=0.2
    )


def test_what_was_hit_alone_was_compared_with_nothing():
    assert fairness("Sedge", club("Sedge", hit_with("range"))) == ((), ())
