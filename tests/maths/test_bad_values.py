"""Every public function of the maths with one figure wrong: a typed refusal or a stated answer.

Never a warning, never a NaN in an answer, never another error than the maths' own. An answer of
None, or counted as not measured, is stated; what is merely odd (a carry of one ball) is answered.
"""

from __future__ import annotations

import warnings
from collections.abc import Callable
from datetime import date
from decimal import Decimal as D
from typing import Any

import numpy as np
import pytest

from sessions.maths import (
    air,
    balance,
    bending,
    carry_line,
    dispersion,
    drift,
    flight,
    loft_plan,
    next_trial,
    other_air,
    units,
    wear,
)
from sessions.maths.errors import MathsError
from tests.maths.bad_values import no_numbers_in, public_functions, spoiled

LINE = carry_line.carry_line(45.0, 117.0, [carry_line.LoftCarry(45.0, 117.0)])
PARTS = [
    balance.Part("head", 300.0, 35.44, 0.5),
    balance.Part("shaft", 120.0, 16.76, 90.0),
    balance.Part("grip", 50.0, 4.25, 3.0),
]
LIMITS = bending.BendLimits(D(2), D(2), D(2), D(2))
HEADS = [
    loft_plan.CandidateHead(f"{loft}", D(loft), D(10), D(2), D(2), "right")
    for loft in range(46, 64, 2)
]
KEPT = [loft_plan.KeptClub("own", D("50.4"), D(8), D(1), D(1), must_stay=False)]
WISH = loft_plan.PlanWish(
    3,
    "right",
    D(60),
    slots=(loft_plan.SlotWish("full_shot", (D(7), D(10))),) * 3,
    usual_end_deg=(D(56), D(60)),
    wider=loft_plan.WiderSteps(D(56), D(7), 15.0),
)
SHOTS = [
    dispersion.ShotFigures(100.0 + n, n / 2, "", strike_up_mm=1.0, strike_toe_mm=2.0)
    for n in range(6)
]
HABITS = wear.WearHabits(60.0, 1.5, 1.2, 1.1)
VALUES = [100.0, 103.0, 98.0, 101.0, 99.0, 104.0]

POINTS = [(1.0, 100.0), (-2.0, 103.0), (0.5, 98.0), (3.0, 101.0), (-1.0, 99.5), (2.0, 104.0)]
BALLS = [drift.BallInOrder(n, "ab"[n % 2], 100.0 + n % 5) for n in range(1, 16)]
HERE, THERE = air.Air(18.0, 1005.0, 60.0), air.Air(25.0, 850.0, 40.0)
FLOWN = other_air.FlownCarry(100.0, 52.0)

# A good call of each function that takes figures.
CALLS: dict[str, dict[str, Any]] = {
    "air.air_elsewhere": {"here": HERE, "climb_m": 300.0, "altitude_m": 500.0},
    "air.air_of": {
        "temperature_c": 18.0, "pressure_hpa": None, "altitude_m": 200.0, "humidity_pct": 60.0,
    },
    "air.geopotential_m": {"altitude_m": 500.0},
    "air.moist_air_density": {
        "temperature_c": 18.0, "pressure_hpa": 1005.0, "humidity_pct": 60.0,
    },
    "air.pressure_at_place_hpa": {"sea_level_pressure_hpa": 1013.0, "altitude_m": 500.0},
    "air.standard_air": {"altitude_m": 500.0},
    "air.standard_altitude_m": {"pressure_hpa": 955.0},
    "air.standard_density_kg_m3": {"altitude_m": 500.0},
    "air.standard_pressure_hpa": {"altitude_m": 500.0},
    "air.standard_temperature_c": {"altitude_m": 500.0},
    "comparison_boundary.balls_to_see": {"margin": 2.0, "spread": 4.0},
    "comparison_boundary.balls_to_call": {"spreads": 1.0, "alpha": 0.1},
    "comparison.difference_of_clubs": {"a": VALUES, "b": VALUES[::-1], "margin": 2.0},
    "comparison.means_weighed": {"a": VALUES, "b": VALUES[::-1], "margin": 2.0},
    "comparison_counts.ratings_weighed": {"a": [3, 4, 5], "b": [2, 4, 3], "margin": 0.1},
    "comparison_counts.shares_weighed": {"happened": (3, 5), "balls": (9, 8), "margin": 0.1},
    "comparison_spread.spreads_weighed": {"a": VALUES, "b": VALUES[::-1], "margin": 0.2},
    "dispersion.next_shot_ellipse": {"points": POINTS, "share": 0.8},
    "dispersion.proximity": {"points": POINTS, "target_m": 100.0},
    "drift.drift": {"balls": BALLS, "level": 0.95},
    "flight.flights": {
        "launch": flight.Launch(
            np.array([38.0, 39.0]), np.array([28.0, 29.0]), np.array([8500.0, 9000.0])
        ),
        "density_kg_m3": 1.2, "wind": flight.Wind(3.0, 45.0), "landing_m": 0.0,
    },
    "head_strengths.head_strengths": {
        "head_ids": ["a", "b"], "told": [("a", "b"), ("b", "a")], "prior_sd": 1.0,
    },
    "next_trial.next_trial": {
        "clubs": [next_trial.Tried("a", VALUES), next_trial.Tried("b", VALUES[:3])],
        "margin": 2.0, "balls_left": 20, "aim": 100.0,
    },
    "other_air.carries_in_other_air": {
        "flown": [FLOWN], "here": HERE, "there": THERE, "figures": "as flown",
    },
    "other_air.carry_in_other_air": {
        "flown": FLOWN, "here": HERE, "there": THERE, "figures": "as flown",
    },
    "balance.balance": {"parts": PARTS},
    "balance.balance_of_whole_club": {"mass_g": 475.0, "balance_point_in": 27.2},
    "balance.mass_needed": {"parts": PARTS, "name": "head", "wanted_points": 3.0},
    "balance.moment_of_swing_weight": {"points": 2.0},
    "balance.points_of_weight": {"mass_g": 4.0, "at_in": 33.0},
    "balance.weight_from_reading": {
        "points": 2.3, "wanted_points": 4.0, "at_in": 33.0, "most_allowed_g": 9.0,
    },
    "balance.rod_inertia_kg_cm2": {"mass_g": 120.0, "length_in": 33.8},
    "balance.swing_weight_of_moment": {"moment_in_oz": 217.0},
    "balance.weight_to_add": {
        "parts": PARTS, "wanted_points": 3.0, "at_in": 35.0, "most_allowed_g": 9.0,
    },
    "balance_changes.butt_cut": {
        "parts": PARTS, "cut_in": 0.5, "shaft_g_per_in": 3.5, "cap_in": 0.19,
    },
    "balance_changes.changes_beside_rules": {"parts": PARTS, "shaft_g_per_in": 3.5},
    "balance_changes.grams_per_point": {"from_butt_in": 35.4},
    "balance_changes.head_nearer": {"parts": PARTS, "points": 2.0},
    "balance_changes.lengthened": {"parts": PARTS, "longer_in": 0.5, "shaft_g_per_in": 3.5},
    "balance_changes.without_adapter": {
        "mass_g": 480.0, "swing_weight_points": 4.0, "adapter_g": 8.0,
        "adapter_from_butt_in": 34.0,
    },
    "bending.bend_judgement": {
        "bend": bending.Bend(D(1), D(1)), "limits": LIMITS, "earlier": [bending.Bend(D(1))],
    },
    "bending.bend_to_make": {"target_deg": D(55), "as_received_deg": D("55.5")},
    "bending.bend_words": {"bend_deg": D(1)},
    "bending.bounce_after": {"bounce_deg": D(10), "loft_bend_deg": D(1)},
    "bending.combined_bend": {"bend": bending.Bend(D(1), D(2))},
    "bending.loft_after_lie_bend": {"loft_deg": 56.0, "lie_bend_deg": 2.0},
    "bending.making_limits": {"making": "hollow", "maker_limits": LIMITS},
    "bending.offset_change": {"loft_bend_deg": D(1)},
    "bending.planned_bend": {"target_deg": D(55), "stamped_deg": D(54)},
    "bending.total_travel": {"bends": [bending.Bend(D(1)), bending.Bend(D(-1))]},
    "carry_line.carry_line": {
        "baseline_loft_deg": 45.0, "baseline_carry_m": 117.0,
        "shots": [carry_line.LoftCarry(50.0, 104.0), carry_line.LoftCarry(56.0, 90.0)],
    },
    "carry_line.CarryLine.at": {"loft_deg": 50.0, "level": 0.9},
    "carry_line.CarryLine.next_ball": {"loft_deg": 50.0, "level": 0.9},
    "carry_line.posterior_line": {
        "baseline_loft_deg": 45.0, "baseline_carry_m": 117.0,
        "shots": [carry_line.LoftCarry(50.0, 104.0)],
        "prior": carry_line.LinePrior(117.0, -2.5, 6.0, 0.5, 5.0, 4.0),
    },
    "cutting.grip_fit": {
        "butt_mm": D("15.24"), "core_mm": D("15.24"), "grip_outside_mm": D("22.86"),
        "tape_mm": D("0.127"), "base_layers": 1, "extra_layers": 1,
    },
    "cutting.length_by_rules": {
        "ruler_length_mm": D("904.4"),
        "lie_deg": D(64),
        "sole_point_mm": D(30),
    },
    "cutting.length_by_ruler": {
        "rules_length_mm": D("901.7"),
        "lie_deg": D(64),
        "sole_point_mm": D(30),
    },
    "cutting.nearest_sixteenth": {"length_mm": D("901.7")},
    "cutting.shaft_cut": {
        "club_length_mm": D("901.7"), "raw_length_mm": D(940),
        "bore_bottom_to_ground_mm": D("28.6"), "cap_mm": D("4.8"), "tip_kind": "parallel",
        "tip_trim_mm": D("12.7"),
    },
    "delivery.leaned": {"loft_deg": 56.0, "bounce_deg": 10.0, "forward_lean_deg": 6.0},
    "delivery.lie_error": {"delivered_loft_deg": 52.0, "too_upright_deg": 1.0, "hand": "left"},
    "delivery.lie_of_length": {"lie_deg": 64.0, "length_mm": 895.0, "longer_mm": 12.7},
    "delivery.opened_face": {
        "loft_deg": 56.0, "bounce_deg": 10.0, "lie_deg": 64.0, "open_deg": 10.0, "hand": "right",
    },
    "delivery.sole_to_path": {"delivered_bounce_deg": 8.0, "attack_deg": -5.0},
    "dispersion.block_figures": {"shots": SHOTS},
    "dispersion.far_off": {"values": VALUES},
    "dispersion.mean_and_sd": {"values": VALUES},
    "dispersion.mean_points": {"shots": SHOTS},
    "dispersion.spread": {"values": VALUES, "level": 0.95},
    "gaps.gap_on_line": {
        "line": LINE, "strong_loft_deg": 50.0, "weak_loft_deg": 55.0, "level": 0.9,
    },
    "hidden_order.all_against_all": {"head_ids": ["a", "b", "c"], "seed": 5},
    "hidden_order.head_to_head": {"head_ids": ["a", "b", "c"], "seed": 5},
    "hidden_order.meetings": {"head_ids": ["a", "b", "c"]},
    "hidden_order.orders_used": {"orders": [("a", "b"), ("b", "a")], "used": [("a", "b")]},
    "hidden_order.square_orders": {"head_ids": ["a", "b", "c"]},
    "hidden_order.williams_rows": {"n": 4},
    "loft_plan.loft_plans": {"line": LINE, "wish": WISH, "heads": HEADS, "kept": KEPT},
    "shown.distance_in": {"distance_m": 100.0, "unit": "yd"},
    "shown.show_degrees": {"angle_deg": 54.5},
    "shown.show_distance": {"distance_m": 100.0, "unit": "yd"},
    "shown.show_inches": {"length_mm": D("901.7")},
    "shown.show_length": {"length_mm": D("901.7"), "unit": "mm"},
    "shown.show_mass": {"mass_g": 302.5},
    "shown.show_percent": {"percent": 10.5},
    "shown.show_rounded": {"value": 86.5},
    "shown.show_side": {"side_m": -3.0, "unit": "yd"},
    "shown.show_speed": {"speed_mps": 36.7, "unit": "mph"},
    "shown.show_swing_weight": {"points": 2.5},
    "wear.groove_forecast": {
        "since": date(2026, 3, 1), "habits": HABITS, "rounds_due": 70.0, "rounds_worn": 120.0,
        "reported": [wear.RoundsReported(date(2026, 5, 1), 20.0)],
    },
    "wear.rounds_worth": {
        "since": date(2026, 3, 1), "on": date(2026, 9, 1), "habits": HABITS,
        "reported": [wear.RoundsReported(date(2026, 5, 1), 20.0)],
    },
}  # fmt: skip

# What a function refuses that is a number, but no angle, carry or hand of golf: typed by hand.
ABSURD: list[tuple[str, dict[str, Any]]] = [
    ("bending.bend_to_make", {"target_deg": D(55), "as_received_deg": D(-55)}),
    ("bending.bend_to_make", {"target_deg": D(0), "as_received_deg": D(55)}),
    ("bending.bend_words", {"bend_deg": D(500)}),
    ("bending.bounce_after", {"bounce_deg": D(10), "loft_bend_deg": D(-500)}),
    ("bending.bounce_after", {"bounce_deg": D(90), "loft_bend_deg": D(1)}),
    ("bending.loft_after_lie_bend", {"loft_deg": 500.0, "lie_bend_deg": 2.0}),
    ("bending.loft_after_lie_bend", {"loft_deg": -5.0, "lie_bend_deg": 2.0}),
    ("bending.loft_after_lie_bend", {"loft_deg": 56.0, "lie_bend_deg": 21.0}),
    ("bending.planned_bend", {"target_deg": D(90), "stamped_deg": D(54)}),
    ("carry_line.CarryLine.at", {"loft_deg": 200.0}),
    ("carry_line.CarryLine.at", {"loft_deg": 0.0}),
    ("carry_line.CarryLine.next_ball", {"loft_deg": 90.0}),
    ("carry_line.carry_line", {"baseline_loft_deg": 500.0, "baseline_carry_m": 120.0}),
    ("carry_line.carry_line", {"baseline_loft_deg": 45.0, "baseline_carry_m": 900.0}),
    *(
        (
            "carry_line.carry_line",
            {
                "baseline_loft_deg": 45.0,
                "baseline_carry_m": 117.0,
                which: [carry_line.LoftCarry(loft, carry)],
            },
        )
        for which in ("shots", "stated")
        for loft, carry in ((900.0, 100.0), (50.0, -50.0), (50.0, 0.0), (50.0, 5000.0))
    ),
    ("delivery.leaned", {"loft_deg": 56.0, "bounce_deg": 12.0, "forward_lean_deg": 500.0}),
    ("delivery.leaned", {"loft_deg": 56.0, "bounce_deg": 12.0, "forward_lean_deg": -60.0}),
    ("delivery.leaned", {"loft_deg": 20.0, "bounce_deg": 12.0, "forward_lean_deg": 30.0}),
    ("delivery.leaned", {"loft_deg": 56.0, "bounce_deg": 120.0, "forward_lean_deg": 5.0}),
    ("delivery.lie_error", {"delivered_loft_deg": 52.0, "too_upright_deg": 1.0, "hand": "lefty"}),
    ("delivery.lie_error", {"delivered_loft_deg": 52.0, "too_upright_deg": 21.0, "hand": "left"}),
    ("delivery.lie_of_length", {"lie_deg": 64.0, "length_mm": 35000.0, "longer_mm": 10.0}),
    ("delivery.lie_of_length", {"lie_deg": 64.0, "length_mm": 900.0, "longer_mm": 900.0}),
    *(
        (
            "delivery.opened_face",
            {"loft_deg": 56.0, "bounce_deg": 10.0, "lie_deg": 64.0, "open_deg": 10.0,
             "hand": "right"} | wrong,
        )
        for wrong in ({"bounce_deg": 500.0}, {"hand": "lefty"}, {"lie_deg": 91.0})
    ),
    ("delivery.sole_to_path", {"delivered_bounce_deg": 500.0, "attack_deg": -4.0}),
    ("gaps.gap_on_line", {"line": LINE, "strong_loft_deg": 50.0, "weak_loft_deg": 500.0}),
    ("gaps.gap_on_line", {"line": LINE, "strong_loft_deg": -50.0, "weak_loft_deg": 50.0}),
    (
        "gaps.gap_on_line",
        {"line": LINE, "strong_loft_deg": 46.0, "weak_loft_deg": 50.0, "mean_m": 1134.0},
    ),
]  # fmt: skip

# Here every angle and carry has a range, so a figure of another field is never answered. The
# other rooms reckon with figures of any unit (means, spreads), or what is believable of a length
# or a mass is asked where it is typed.
REFUSE_ABSURD = ("air.", "bending.", "carry_line.carry", "carry_line.Carry", "delivery.",
                 "flight.", "gaps.", "other_air.")  # fmt: skip

READERS = {
    "units.parse_angle": {"name": "loft", "limits": units.LOFT_LIMITS_DEG},
    "units.parse_bend": {},
    "units.parse_bounce": {},
    "units.parse_count": {"name": "rounds"},
    "units.parse_distance": {},
    "units.parse_length": {},
    "units.parse_lie": {},
    "units.parse_loft": {},
    "units.parse_mass": {"name": "head mass", "limits": units.HEAD_MASS_LIMITS_G},
    "units.parse_side": {},
    "units.parse_speed": {},
    "units.parse_spin": {},
    "units.parse_swing_weight": {},
}
TYPED = (
    "", " ", "nan", "NaN", "inf", "-inf", "1e400", "1e3", "-5", "1" * 39, "9" * 200, "٣٥", "½½",
    "35 1/0", "1/0", "--3", "35,5,5", "\x00", "12\n34", "None", "0x20", "+", ",", "35 in in",
)  # fmt: skip


def test_every_public_function_is_swept_or_said_why_not() -> None:
    known = CALLS.keys() | READERS.keys() | NOT_SWEPT.keys()
    assert public_functions().keys() - known == set()


@pytest.mark.parametrize("name", CALLS)
def test_the_good_call_is_good(name: str) -> None:
    assert not list(no_numbers_in(_answer(function_named(name), CALLS[name])))


@pytest.mark.parametrize("name", CALLS)
def test_one_bad_figure_is_refused_or_answered_with_numbers(name: str) -> None:
    function = function_named(name)
    wrong = []
    for said, kwargs in spoiled(CALLS[name]):
        try:
            found = _answer(function, kwargs)
        except MathsError as refused:
            if not str(refused).endswith("."):
                wrong.append(f"{said}: refused without a sentence, {refused!r}")
        except Exception as error:  # what must not happen: an error that is not the maths' own
            wrong.append(f"{said}: {type(error).__name__} {error}")
        else:
            wrong += [f"{said}: answered with {each}" for each in no_numbers_in(found)]
            if said.endswith("absurd") and name.startswith(REFUSE_ABSURD):
                wrong.append(f"{said}: answered with {found}")
    assert wrong == []


@pytest.mark.parametrize(("name", "kwargs"), ABSURD)
def test_what_is_no_angle_carry_or_hand_of_golf_is_refused(
    name: str, kwargs: dict[str, Any]
) -> None:
    with pytest.raises(MathsError, match=r"\.$"):
        function_named(name)(**kwargs)


def test_a_line_of_anything_stays_general() -> None:
    """Certified regressions run over thousands: only a player's line knows what a loft is."""
    prior = carry_line.LinePrior(0.0, 1.0, 1e4, 10.0, 5.0, 4.0)
    found = carry_line.posterior_line(0.0, 1.0, [carry_line.LoftCarry(999.0, -1000.0)], prior)
    assert not list(no_numbers_in(found))


@pytest.mark.parametrize("name", READERS)
@pytest.mark.parametrize("typed", TYPED)
def test_odd_typing_is_read_or_refused_with_a_sentence(name: str, typed: str) -> None:
    said, found = "", None
    try:
        found = public_functions()[name](typed, **READERS[name])
    except MathsError as refused:
        said = str(refused)
    assert said.endswith(".") if said else not list(no_numbers_in(found))


def function_named(name: str) -> Callable[..., Any]:
    """A function of the maths by module and name, or a question to the line above."""
    question = {"at": LINE.at, "next_ball": LINE.next_ball}.get(name.rpartition(".")[2])
    return question or public_functions()[name]


def _answer(function: Callable[..., Any], kwargs: dict[str, Any]) -> Any:
    """The answer, any warning of NumPy's, SciPy's or Python's turned into an error."""
    with warnings.catch_warnings(), np.errstate(all="warn", under="ignore"):
        warnings.simplefilter("error")
        return function(**kwargs)


# Steps of other functions that refuse for them, or functions that take no figures.
NOT_SWEPT: dict[str, str] = {
    "block_context.unfairness": "takes words, no figures",
    "carry_line.refuse_no_loft": "is itself a refusal",
    "comparison_boundary.always_valid_t": "a step of judged_together; infinity: never",
    "comparison_boundary.contradiction_needed": "a step of judged_together",
    "loft_words.why_wider": "words of a path that loft_plans made",
    "loft_words.why_words": "words of a path that loft_plans made",
    "comparison.nearer_to": "takes what was judged; its aim is refused in test_comparison",
    "comparison.judged_together": "takes what means_weighed and its like have looked at",
    "comparison_boundary.refuse_margin": "is itself a refusal",
    "comparison_counts.always_valid_shares": "a step of judged_together",
    "comparison_counts.log_even_contradiction": "a step of judged_together",
    "comparison_counts.log_share_contradiction": "a step of judged_together",
    "comparison_spread.always_valid_f": "a step of judged_together; 0 and infinity say: never",
    "flight_end.landed": "a step of flights, which refuses for it",
    "flight_steps.flown": "a step of flights, which refuses for it",
    "head_strengths.preferences": "takes whole scores, counted and compared, never reckoned with",
    "other_air.gap_in_other_air": "takes two answers of carry_in_other_air",
    "balance.refuse_parts": "is itself a refusal",
    "loft_binding.limit_words": "words for a wish that loft_plans has looked at",
    "loft_binding.wedge_words": "words for a number of wedges that loft_plans has looked at",
    "loft_binding.what_binds": "a step of loft_plans, which refuses for it",
    "loft_options.head_lofts": "a step of loft_plans, which refuses for it",
    "loft_options.options": "a step of loft_plans, which refuses for it",
    "loft_options.reach": "a step of loft_plans, which refuses for it",
    "loft_search.baseline": "a step of loft_plans, which refuses for it",
    "loft_search.best_paths": "a step of loft_plans, which refuses for it",
    "loft_search.carry_m": "a step of loft_plans, which refuses for it",
    "loft_search.cost": "a step of loft_plans, which refuses for it",
    "loft_search.end_cost": "a step of loft_plans, which refuses for it",
    "loft_search.gap_percent": "a step of loft_plans, which refuses for it",
    "loft_search.is_distinct": "a step of loft_plans, which refuses for it",
    "loft_search.is_within": "a step of loft_plans, which refuses for it",
    "loft_search.may_end": "a step of loft_plans, which refuses for it",
    "loft_search.step_cost": "a step of loft_plans, which refuses for it",
    "loft_search.steps_of": "a step of loft_plans, which refuses for it",
    "loft_search.steps_outside": "a step of loft_plans, which refuses for it",
    "loft_wish.bounce_off": "a step of loft_plans, which refuses for it",
    "loft_wish.option_price": "a step of loft_plans, which refuses for it",
    "loft_wish.traits_missing": "a step of loft_plans, which refuses for it",
}
