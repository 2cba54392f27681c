"""Facts of the trade with no single source, as the rules and settings must know them."""

import re
from decimal import Decimal as D

import pytest

from orders.declared import SETTINGS as ORDER_SETTINGS
from sessions.declared import SETTINGS
from sessions.rules.carried import gap_percent
from sessions.rules.head_bends import predicted_bounce
from sessions.rules.spec import spec_findings
from sessions.rules.wording import bounce_words, loft_words
from tests.rules.spec_examples import LIMITS, alone

pytestmark = pytest.mark.common_practice

DEFAULTS = {setting.key: setting.default for setting in (*SETTINGS, *ORDER_SETTINGS)}
# Rounds at which the trade speaks of a first and of a marked loss of spin. On no screen.
FIRST_LOSS_OF_SPIN_ROUNDS, MARKED_LOSS_OF_SPIN_ROUNDS = 75, 125


@pytest.mark.parametrize(
    ("target", "bounce", "loft_said", "bounce_said"),
    [
        ("57", "11", "57° (stamped 56, bent 1 weak)", "11° (stamped 10, bent 1 weak)"),
        ("55", "9", "55° (stamped 56, bent 1 strong)", "9° (stamped 10, bent 1 strong)"),
        ("56", "10", "56°", "10°"),
        ("57.5", "11.5", "57.5° (stamped 56, bent 1.5 weak)", "11.5° (stamped 10, bent 1.5 weak)"),
    ],
)
def test_a_degree_of_bend_moves_bounce_a_degree_weak_up_strong_down(
    target: str, bounce: str, loft_said: str, bounce_said: str
) -> None:
    facts = alone(stamped_loft_deg=D(56), stamped_bounce_deg=D(10), target_loft_deg=D(target))
    assert predicted_bounce(facts.clubs[0]) == D(bounce)
    assert loft_words(D(target), D(56)) == loft_said
    assert bounce_words(D(10), D(target), D(56)) == bounce_said


def test_a_usual_gap_is_10_to_15_yards_for_120_to_140_and_less_for_less() -> None:
    low, high = float(LIMITS.gap_low_pct) / 100, float(LIMITS.gap_high_pct) / 100
    # In proportion: what 8 to 13 % is in yards for those who carry a pitching wedge so far.
    assert 120 * low <= 10 <= 120 * high
    assert 140 * low <= 15 <= 140 * high
    # And for one who carries it 78: 6 to 10.
    assert [round(78 * low), round(78 * high)] == [6, 10]


def test_usual_steps_are_4_to_6_degrees() -> None:
    assert (DEFAULTS["spec.loft_step_low_deg"], DEFAULTS["spec.loft_step_high_deg"]) == (4, 6)


def test_a_gap_is_a_share_of_the_pitching_wedge() -> None:
    assert gap_percent(108.0, 120.0, 120.0) == pytest.approx(10.0, abs=1e-9)


def test_the_groove_check_comes_before_the_spin_goes() -> None:
    due, worn = DEFAULTS["grooves.check_due_rounds"], DEFAULTS["grooves.likely_worn_rounds"]
    assert (due, worn) == (70, 120)
    assert isinstance(due, int)
    assert isinstance(worn, int)
    assert due < FIRST_LOSS_OF_SPIN_ROUNDS
    assert FIRST_LOSS_OF_SPIN_ROUNDS < worn < MARKED_LOSS_OF_SPIN_ROUNDS


def test_the_pair_of_rounds_stands_in_no_sentence() -> None:
    said = " ".join(setting.sentence for setting in (*SETTINGS, *ORDER_SETTINGS))
    figures = set(re.findall(r"\d+(?:\.\d+)?", said))
    assert "1.5875" in figures
    assert str(FIRST_LOSS_OF_SPIN_ROUNDS) not in figures
    assert str(MARKED_LOSS_OF_SPIN_ROUNDS) not in figures


def test_more_than_two_degrees_wants_a_look_on_any_wedge() -> None:
    found = {f.id for f in spec_findings(alone(target_loft_deg=D("52.5")), LIMITS)}
    assert "SPEC-W001" in found
    assert "SPEC-E001" not in found


def test_balls_and_shots_are_the_trade_s() -> None:
    assert DEFAULTS["visit.warm_up_balls"] == 10
    assert (DEFAULTS["visit.balls_look"], DEFAULTS["visit.balls_most"]) == (60, 80)
    assert (DEFAULTS["visit.balls_look_spared"], DEFAULTS["visit.balls_most_spared"]) == (30, 40)
    assert DEFAULTS["visit.shots_to_drop"] == 3
    assert DEFAULTS["spec.shots_for_a_build"] == 5
    assert DEFAULTS["comparison.more_balls_most"] == 12
