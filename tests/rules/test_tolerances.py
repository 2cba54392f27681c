"""Readings against targets, and the bend to make on a head that really came."""

from decimal import Decimal as D

import pytest

from orders.declared import SETTINGS
from orders.rules.tolerances import (
    HeadAsReceived,
    ReadingVerdict,
    Verdict,
    judged_bend_to_make,
    reading_verdict,
)
from sessions.maths.bending import Bend
from sessions.maths.errors import NotAFigure
from sessions.rules.facts import HeadLimits, MakerLimits, Making
from tests.rules.spec_examples import LIMITS


def loft(*readings: str, repeatability: str = "0.2") -> ReadingVerdict:
    """Loft readings against 54 degrees, half a degree allowed."""
    return reading_verdict(
        [D(reading) for reading in readings],
        target=D(54),
        tolerance=D("0.5"),
        repeatability=D(repeatability),
    )


@pytest.mark.parametrize(
    ("reading", "verdict"),
    [
        ("54", Verdict.IN),
        ("54.3", Verdict.IN),
        ("54.31", Verdict.MEASURE_TWICE),
        ("54.5", Verdict.MEASURE_TWICE),
        ("54.69", Verdict.MEASURE_TWICE),
        ("54.7", Verdict.OUT),
        ("53.7", Verdict.IN),
        ("53.69", Verdict.MEASURE_TWICE),
        ("53.31", Verdict.MEASURE_TWICE),
        ("53.3", Verdict.OUT),
    ],
)
def test_one_reading_near_the_limit_is_read_again(reading: str, verdict: Verdict) -> None:
    assert loft(reading).verdict is verdict


@pytest.mark.parametrize(
    ("readings", "verdict"),
    [
        (("54.6", "54.4"), Verdict.IN),
        (("54.6", "54.41"), Verdict.OUT),
        (("53.4", "53.6"), Verdict.IN),
        (("53.4", "53.59"), Verdict.OUT),
        (("54.7", "54.5", "54.3"), Verdict.IN),
    ],
)
def test_the_mean_decides(readings: tuple[str, ...], verdict: Verdict) -> None:
    assert loft(*readings).verdict is verdict


def test_a_perfect_gauge_never_asks_twice() -> None:
    assert loft("54.5", repeatability="0").verdict is Verdict.IN
    assert loft("54.51", repeatability="0").verdict is Verdict.OUT


def test_not_measured_is_not_in() -> None:
    nothing = loft()
    assert nothing.verdict is Verdict.NOT_MEASURED
    assert (nothing.mean, nothing.off, nothing.is_in) == (None, None, False)
    assert nothing.sentence("degrees") == "Not measured."


def test_nought_is_a_reading() -> None:
    verdict = reading_verdict([D(0)], target=D(0), tolerance=D(1), repeatability=D("0.1"))
    assert (verdict.verdict, verdict.mean) == (Verdict.IN, D(0))


@pytest.mark.parametrize("wrong", ["NaN", "Infinity", "sNaN"])
def test_a_reading_that_is_no_number_is_refused(wrong: str) -> None:
    with pytest.raises(NotAFigure):
        loft(wrong)
    with pytest.raises(NotAFigure):
        loft("54", wrong)
    with pytest.raises(NotAFigure):
        loft("54", repeatability=wrong)


@pytest.mark.parametrize(("tolerance", "repeatability"), [("-0.1", "0"), ("0.5", "-0.2")])
def test_limits_below_nought_are_refused(tolerance: str, repeatability: str) -> None:
    with pytest.raises(NotAFigure, match="not below 0"):
        reading_verdict(
            [D(54)], target=D(54), tolerance=D(tolerance), repeatability=D(repeatability)
        )


def test_by_how_much_it_is_out() -> None:
    out = loft("54.8")
    assert (out.off, out.out_by) == (D("0.8"), D("0.3"))
    assert out.sentence("degrees") == "Out by 0.3 degrees (0.8 degrees over)."
    assert loft("53.2").sentence("degrees") == "Out by 0.3 degrees (0.8 degrees under)."


def test_what_is_in_says_how_far_off_it_is() -> None:
    assert loft("54.2").sentence("degrees") == "In (0.2 degrees over)."
    assert loft("54").sentence("degrees") == "on target."


def test_two_readings_say_that_their_mean_was_judged() -> None:
    assert loft("54.6", "54.4").sentence("degrees") == (
        "In (mean of 2 readings, 0.5 degrees over)."
    )
    assert loft("55", "54.6").sentence("degrees") == (
        "Out by 0.3 degrees (mean of 2 readings, 0.8 degrees over)."
    )


def test_measure_twice_is_a_word_and_no_bar() -> None:
    assert loft("54.4").is_in
    assert not loft("54.6").is_in
    assert loft("54.4").sentence("degrees") == (
        "Measure twice: 0.4 degrees over, too near the limit for one reading."
    )


@pytest.mark.common_practice
def test_the_tolerances_are_the_trade_s() -> None:
    defaults = {setting.key: setting.default for setting in SETTINGS}
    assert defaults["tolerance.loft_deg"] == D("0.5")
    assert defaults["tolerance.lie_deg"] == D("0.5")
    assert defaults["tolerance.length_mm"] == D("25.4") / 16
    assert defaults["tolerance.swing_weight_points"] == 1
    assert defaults["tolerance.grip_diameter_mm"] == D("0.3969")
    assert defaults["tolerance.head_mass_g"] == 3
    assert defaults["tolerance.head_send_back_g"] == 5
    assert defaults["tolerance.total_mass_g"] == 5


STAINLESS = HeadLimits(making=Making.CAST_STAINLESS)


def bend(
    received: HeadAsReceived,
    target_loft: str | None = "54",
    target_lie: str | None = "64",
    head: HeadLimits = STAINLESS,
):  # type: ignore[no-untyped-def]
    return judged_bend_to_make(
        received=received,
        target_loft_deg=None if target_loft is None else D(target_loft),
        target_lie_deg=None if target_lie is None else D(target_lie),
        head=head,
        limits=LIMITS,
    )


def test_a_head_that_came_weak_turns_the_planned_bend_round() -> None:
    # Stamped 54 with 10, planned 1 weak; it came at 55.5: half a degree strong now.
    made = bend(HeadAsReceived(D("55.5"), D(64), D(10), D(54)), target_loft="55")
    assert made.loft_deg == D("-0.5")
    assert made.sentence == "Loft 0.5 strong, lie none"
    # The bounce was stamped at 54, and 55 is a degree weaker than that.
    assert made.bounce_deg == D(11)
    assert made.is_allowed


def test_a_measured_bounce_belongs_to_the_loft_it_came_with() -> None:
    made = bend(HeadAsReceived(D("55.5"), D(64), D("11.2"), D("55.5")), target_loft="55")
    assert made.bounce_deg == D("10.7")


@pytest.mark.parametrize(
    ("came", "is_allowed"),
    [("56", True), ("56.01", False), ("52", True), ("51.99", False)],
)
def test_the_bend_to_make_is_judged_on_what_came(came: str, is_allowed: bool) -> None:
    assert bend(HeadAsReceived(D(came), D(64))).is_allowed is is_allowed


def test_both_bends_share_one_hosel() -> None:
    # 1.2 and 1.6 make 2.
    assert bend(HeadAsReceived(D("55.2"), D("65.6"))).is_allowed
    refused = bend(HeadAsReceived(D("55.2"), D("65.61")))
    assert refused.refusals == (
        "1.2 strong and 1.61 flat is too far: this head (cast 304 or 431 stainless) "
        "bends 2 at most.",
    )


def test_the_maker_s_limit_is_named() -> None:
    head = HeadLimits(Making.CAST_STAINLESS, MakerLimits(strong_deg=D(1)))
    refused = bend(HeadAsReceived(D("55.5"), D(64)), head=head)
    assert refused.refusals == ("1.5 strong is too far: its maker allows 1.",)


def test_what_was_bent_before_counts_at_the_bench() -> None:
    bent = HeadLimits(Making.CAST_STAINLESS, earlier=(Bend(loft_deg=D(-1)),))
    assert bend(HeadAsReceived(D(55), D(64)), head=bent).is_allowed
    assert not bend(HeadAsReceived(D("55.01"), D(64)), head=bent).is_allowed


def test_nothing_is_bent_on_a_guess() -> None:
    for made in (
        bend(HeadAsReceived(None, D(64))),
        bend(HeadAsReceived(D(54), None)),
        bend(HeadAsReceived(D(54), D(64)), target_loft=None),
        bend(HeadAsReceived(D(54), D(64)), target_lie=None),
    ):
        assert not made.is_allowed
        assert "not measured" in made.sentence


def test_a_head_that_needs_no_bend_needs_no_limit() -> None:
    made = bend(HeadAsReceived(D(54), D(64)), head=HeadLimits(making=Making.HOLLOW))
    assert made.is_allowed
    assert made.sentence == "Loft none, lie none"


def test_bounce_below_nothing_is_refused_at_the_bench() -> None:
    assert bend(HeadAsReceived(D(55), D(64), D(1), D(55))).is_allowed
    assert not bend(HeadAsReceived(D(55), D(64), D("0.99"), D(55))).is_allowed


def test_a_second_turn_back_is_refused_at_the_bench() -> None:
    turned = HeadLimits(
        Making.FORGED_LOW_CARBON, earlier=(Bend(loft_deg=D("1.5")), Bend(loft_deg=D("-1.5")))
    )
    assert bend(HeadAsReceived(D(53), D(64)), head=turned).is_allowed
    refused = bend(HeadAsReceived(D("52.99"), D(64)), head=turned)
    assert refused.refusals == (
        "This head was bent one way and back already: another turn may crack it.",
    )
