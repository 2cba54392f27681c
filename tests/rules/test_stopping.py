"""Whether a full shot stops: what it says from which figure on, and what it leaves alone.

The figures are the trade's: common practice, but for a good player's ball speed (from memory).
"""

from dataclasses import fields, replace
from decimal import Decimal

import numpy as np
import pytest

from sessions.declared import SETTINGS
from sessions.maths.block_context import BlockContext
from sessions.maths.flight import Launch, flights
from sessions.rules.club_evidence import ClubEvidence, Situation
from sessions.rules.stopping import (
    STOPS,
    FullShot,
    StopLimits,
    full_shot_of,
    stop_limits_from,
    stops_words,
)
from tests.rules.test_decision_rules import hit

LIMITS = StopLimits(8000, 10500, 47, 42, 54)
# The last figure that keeps still and the first that speaks, typed by hand. Half of the speed
# needs half of the spin: 21 of 42 m/s, 4,000 of 8,000 rpm.
EDGES = [
    ("DEC-S01", FullShot(9000, 46, 42), FullShot(9000, 47, 42)),
    ("DEC-S01", FullShot(7990, 50, 42), FullShot(8000, 50, 42)),
    ("DEC-S01", FullShot(10510, 50, 42), FullShot(10500, 50, 42)),
    ("DEC-S01", FullShot(3990, 50, 21), FullShot(4000, 50, 21)),
    ("DEC-S01", FullShot(7990, 50), FullShot(8000, 50)),
    ("DEC-S02", FullShot(9000, 47, 42), FullShot(9000, 46, 42)),
    ("DEC-S02", FullShot(9000, 40, 41.9), FullShot(9000, 40, 42)),
    ("DEC-S02", FullShot(9000, 40), FullShot(9000, 40, 50)),
    ("DEC-S03", FullShot(8000, 50, 42), FullShot(7990, 50, 42)),
    ("DEC-S03", FullShot(8000, 50, 60), FullShot(7990, 50, 60)),
    ("DEC-S03", FullShot(4000, 50, 21), FullShot(3990, 50, 21)),
    ("DEC-S03", FullShot(3990, 50), FullShot(3990, 50, 30)),
    ("DEC-S04", FullShot(10500, 50, 42), FullShot(10510, 50, 42)),
    ("DEC-S04", FullShot(10510, 46), FullShot(10510, 47)),
    # A figure whose doubt takes the limit in says nothing: 47 - 0.5, 8,000 - 10 and the like.
    ("DEC-S01", FullShot(9000, 47, 42, 0, 0.5), FullShot(9000, 47.5, 42, 0, 0.5)),
    ("DEC-S01", FullShot(8000, 50, 42, 10), FullShot(8010, 50, 42, 10)),
    ("DEC-S01", FullShot(10500, 50, 42, 10), FullShot(10490, 50, 42, 10)),
    ("DEC-S02", FullShot(9000, 46.5, 42, 0, 0.5), FullShot(9000, 46.4, 42, 0, 0.5)),
    ("DEC-S03", FullShot(7900, 50, 42, 100), FullShot(7890, 50, 42, 100)),
    ("DEC-S04", FullShot(10600, 50, 42, 100), FullShot(10610, 50, 42, 100)),
    ("DEC-S04", FullShot(11000, 47, 42, 0, 0.5), FullShot(11000, 47.5, 42, 0, 0.5)),
]


@pytest.mark.common_practice
@pytest.mark.parametrize(("rule_id", "silent", "speaks"), EDGES)
def test_it_keeps_still_to_the_last_and_speaks_from_the_first(rule_id, silent, speaks):
    assert rule_id not in dict(STOPS.heard(silent, LIMITS))
    assert rule_id in dict(STOPS.heard(speaks, LIMITS))
    assert rule_id not in dict(STOPS.heard(speaks, LIMITS, frozenset({rule_id})))


def test_every_judgement_has_its_edges():
    assert {rule_id for rule_id, *_ in EDGES} == {rule.id for rule in STOPS.judgements}


def test_the_limits_are_the_shop_s():
    assert stop_limits_from({setting.key: setting.default for setting in SETTINGS}) == LIMITS


@pytest.mark.parametrize("rule", STOPS.judgements, ids=lambda rule: rule.id)
def test_it_reads_the_limits_that_it_names_and_no_other(rule):
    shots = [each for rule_id, *edge in EDGES if rule_id == rule.id for each in edge]

    def said(limits):
        return [rule.says(shot, limits) for shot in shots]

    named = {key.split(".", 1)[1].removeprefix("stop_") for key in rule.thresholds}
    for field in fields(LIMITS):
        moved = [replace(LIMITS, **{field.name: getattr(LIMITS, field.name) + by})
                 for by in (-2000, -10, -1, 1, 10, 5000)]  # fmt: skip
        is_read = any(said(limits) != said(LIMITS) for limits in moved)
        assert is_read is (field.name in named), field.name


def test_a_slower_player_s_flat_ball_is_no_fault():
    # 33 of 42 m/s: 6,286 rpm are enough, and 44 degrees is what such a ball lands at.
    assert dict(STOPS.heard(FullShot(6300, 44, 33), LIMITS)) == {}


def test_j_v_spins_and_lands_more_than_a_full_shot_takes():
    """Player 8 of `players/six_more.md`: full 50, 11,300 rpm and 54 degrees of landing."""
    ((rule_id, said),) = STOPS.heard(FullShot(11300, 54), LIMITS)
    assert rule_id == "DEC-S04"
    assert said.startswith("11,300 rpm, landing at 54°: more spin than the 10,500 rpm that a full")


def club(loft="50", **more):
    there = hit(
        spins_rpm=(9000.0, 9010.0, 9020.0), landings_deg=(50.0, 50.4, 50.0),
        ball_speeds_ms=(42.0, 42.0, 42.0),
    )  # fmt: skip
    one = ClubEvidence("a", (), "a", is_own=False, loft_deg=loft and Decimal(loft))
    return one, replace(there, **more)


def test_a_mean_is_judged_with_its_doubt():
    # Of 9,000, 9,010 and 9,020: 10 of scatter, by t of 2 degrees of freedom 10 x 4.303 / sqrt 3.
    shot = full_shot_of(club()[1], "m")
    assert (shot.spin_rpm, shot.ball_speed_ms, shot.is_estimated) == (9010, 42, False)
    assert shot.spin_doubt_rpm == pytest.approx(24.84, abs=0.01)
    (said,) = stops_words(*club(), LIMITS, "m")
    assert (said, said.rule_id) == ("A full shot stops: 9,010 rpm, landing at 50°.", "DEC-S01")
    assert stops_words(*club(), LIMITS, "m", frozenset({"DEC-S01"})) == ()


def test_estimated_spin_is_said_and_the_speed_is_in_the_player_s_unit():
    one, there = club(spin_got="estimated", spins_rpm=(6500.0, 6510.0, 6520.0))
    (said,) = stops_words(one, there, LIMITS, "yd")
    # 42 m/s are 94 miles an hour.
    assert said == (
        "A full shot runs on: 6,510 rpm (estimated) is little for a ball of 94 mph, which takes "
        "about 8,000 rpm."
    )


def test_limits_set_the_wrong_way_round_never_speak_twice():
    crossed = replace(LIMITS, spin_low_rpm=12000, spin_high_rpm=6000)
    assert [said for said, _ in STOPS.heard(FullShot(9000, 50, 42), crossed)] == ["DEC-S03"]


@pytest.mark.parametrize(
    "nothing",
    [club("54"), club(None), club(spins_rpm=(9000.0, 9000.0)), club(landings_deg=(50.0,)),
     (club()[0], hit(swing="half", spins_rpm=(9000.0,) * 3, landings_deg=(50.0,) * 3)),
     club(situation=Situation("full", "Full", "sand_firm", "sand, firm")),
     club(situation=Situation("full", "Full", "rough", "rough")),
     club(situation=Situation("full", "Full", "fairway", "fairway", extra=("wet",))),
     club(context=BlockContext(ball="range ball"))],
)  # fmt: skip
def test_nothing_is_said_of_touch_clubs_or_of_what_is_no_stock_shot(nothing):
    assert stops_words(*nothing, LIMITS, "m") == ()


def test_a_speed_that_was_hardly_measured_counts_for_nothing():
    assert full_shot_of(club(ball_speeds_ms=(42.0, 42.0))[1], "m").ball_speed_ms is None


@pytest.mark.independent(
    library="three published force models",
    call="flights of a gap wedge's ball at sea level",
    though="the rule has the trade's figures: here balls of that speed and spin are flown",
)
def test_balls_that_the_trade_says_stop_land_near_50_degrees_by_the_published_models():
    speeds = np.array([42.0, 42.0, 42.0])
    flown = flights(Launch(speeds, 29.0, np.array([8000.0, 9250.0, 10500.0])), 1.225)
    assert np.all((flown.landing_deg > 47) & (flown.landing_deg < 58))
    # A slower ball with spin in proportion lands flatter: what stops it is not the same figure.
    slow = flights(Launch(33.0, 29.0, 8000 * 33 / 42), 1.225).landing_deg
    assert np.all(slow.ravel() < flown.landing_deg[:, 0])
