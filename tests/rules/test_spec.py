"""The spec's rules at their edges, and that no verdict can be turned round unnoticed."""

import time
from collections.abc import Iterable
from dataclasses import fields, replace
from decimal import Decimal as D

import pytest

from sessions.maths.bending import Bend
from sessions.maths.references import BIBLIOGRAPHY
from sessions.rules.facts import (
    Hand,
    HeadLimits,
    MakerLimits,
    Making,
    PlayerKind,
    SpecFacts,
    SpecLimits,
)
from sessions.rules.findings import Hit, Rule, Severity, is_still_accepted
from sessions.rules.head_bends import predicted_bounce
from sessions.rules.spec import SETTINGS as WEIGHTS
from sessions.rules.spec import SPEC_RULES, spec_findings, weights_from
from sessions.rules.wording import own_bounce_words
from tests.rules.spec_cases import CASES
from tests.rules.spec_cases_bending import Case
from tests.rules.spec_cases_run import LEFT_HANDED, lie, spread
from tests.rules.spec_examples import (
    FIFTY,
    LIMITS,
    QUIET,
    alone,
    four_clubs,
    own,
    with_first,
    with_player,
)

SpecRule = Rule[SpecFacts, SpecLimits]
LIMIT_NAMES = {limit.name for limit in fields(SpecLimits)}


def ids(facts: SpecFacts) -> set[str]:
    return {finding.id for finding in spec_findings(facts, LIMITS)}


def broken(rule: SpecRule, cases: Iterable[Case]) -> list[str]:
    """The edges at which this rule does not say what was typed by hand."""
    return [
        str(case)
        for case in cases
        if rule.findings(case.passes, LIMITS) or not rule.findings(case.fires, LIMITS)
    ]


def cases_of(rule_id: str) -> list[Case]:
    return [case for case in CASES if case.rule == rule_id]


def test_a_sound_spec_is_left_in_peace() -> None:
    assert spec_findings(QUIET, LIMITS) == ()


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_last_value_passes_and_the_first_fires(case: Case) -> None:
    assert case.rule not in ids(case.passes)
    assert case.rule in ids(case.fires)


def test_every_rule_has_its_edges_and_every_edge_its_rule() -> None:
    assert {case.rule for case in CASES} == {rule.id for rule in SPEC_RULES.rules}


@pytest.mark.parametrize("rule", SPEC_RULES.rules, ids=lambda rule: rule.id)
def test_a_rule_with_its_verdict_flipped_fails_at_every_edge(rule: SpecRule) -> None:
    def flipped(facts: SpecFacts, limits: SpecLimits) -> Iterable[Hit]:
        return [] if list(rule.hits(facts, limits)) else [Hit((), "flipped")]

    cases = cases_of(rule.id)
    assert broken(rule, cases) == []
    assert broken(replace(rule, hits=flipped), cases) == [str(case) for case in cases]
    assert broken(replace(rule, hits=lambda facts, limits: []), cases)
    assert broken(replace(rule, hits=lambda facts, limits: [Hit((), "always")]), cases)


@pytest.mark.parametrize(
    ("limit", "rule_id"),
    [
        ("bend_forged_low_carbon_deg", "SPEC-E001"),
        ("bend_cast_soft_carbon_deg", "SPEC-E001"),
        ("bend_cast_stainless_deg", "SPEC-E001"),
        ("bend_cast_17_4_deg", "SPEC-E001"),
        ("bend_look_deg", "SPEC-W001"),
        ("bounce_low_deg", "SPEC-W002"),
        ("loft_step_low_deg", "SPEC-W010"),
        ("loft_step_high_deg", "SPEC-W010"),
        ("same_loft_deg", "SPEC-W012"),
        ("gap_low_pct", "SPEC-W011"),
        ("gap_high_pct", "SPEC-W011"),
        ("sand_from_deg", "SPEC-W010"),
        ("wider_step_high_deg", "SPEC-W010"),
        ("wider_gap_high_pct", "SPEC-W011"),
        ("length_man_low_mm", "SPEC-W020"),
        ("length_man_high_mm", "SPEC-W020"),
        ("length_woman_low_mm", "SPEC-W020"),
        ("length_woman_high_mm", "SPEC-W020"),
        ("length_senior_low_mm", "SPEC-W020"),
        ("length_senior_high_mm", "SPEC-W020"),
        ("length_tall_high_mm", "SPEC-W020"),
        ("tall_from_mm", "SPEC-W020"),
        ("length_junior_low_mm", "SPEC-W020"),
        ("length_junior_high_mm", "SPEC-W020"),
        ("junior_height_low_mm", "SPEC-W020"),
        ("junior_height_high_mm", "SPEC-W020"),
        ("length_junior_slack_mm", "SPEC-W020"),
        ("shots_for_a_build", "SPEC-W030"),
        ("stamping_most_characters", "SPEC-W022"),
        ("overlap_look_pct", "SPEC-W013"),
        ("steep_deg", "SPEC-W051"),
        ("bounce_low_to_deg", "SPEC-W051"),
        ("bounce_mid_to_deg", "SPEC-W053"),
        ("bounce_high_from_deg", "SPEC-W050"),
        ("bounce_high_from_deg", "SPEC-W052"),
        ("bounce_high_from_deg", "SPEC-W054"),
        ("sole_wide_mm", "SPEC-W053"),
        ("sole_wide_mm", "SPEC-W056"),
        ("bounce_high_from_deg", "SPEC-W057"),
        ("sole_wide_mm", "SPEC-W057"),
        ("shallow_deg", "SPEC-W057"),
        ("bounce_low_to_deg", "SPEC-N051"),
        ("bounce_high_from_deg", "SPEC-N051"),
        ("lie_full_apart_deg", "SPEC-W060"),
        ("lie_touch_flatter_deg", "SPEC-W060"),
        ("lie_hands_deg", "SPEC-W061"),
        ("length_run_longer_mm", "SPEC-W063"),
        ("length_run_shorter_mm", "SPEC-W063"),
        ("swing_weight_run_lighter", "SPEC-W064"),
        ("swing_weight_above_irons", "SPEC-W065"),
        ("swing_weight_above_irons_lob", "SPEC-W065"),
        ("lob_from_deg", "SPEC-W065"),
        ("most_added_g", "SPEC-W066"),
        ("swing_weight_tolerance", "SPEC-W066"),
        ("swing_weight_doubt", "SPEC-W066"),
        ("epoxy_g", "SPEC-W066"),
        ("ferrule_g", "SPEC-W066"),
        ("tape_g", "SPEC-W066"),
        ("base_layers", "SPEC-W066"),
        ("insertion_mm", "SPEC-W066"),
        ("light_shaft_g", "SPEC-N061"),
        ("shaft_lighter_g", "SPEC-W070"),
        ("shaft_heavier_full_g", "SPEC-W072"),
        ("shaft_heavier_touch_g", "SPEC-W072"),
        ("shaft_heavier_spared_g", "SPEC-W071"),
        ("shaft_heavier_child_g", "SPEC-W071"),
        ("length_run_longer_mm", "SPEC-W020"),
        ("length_run_shorter_mm", "SPEC-W020"),
        ("grip_core_apart_mm", "SPEC-W024"),
        ("check_days", "SPEC-W035"),
    ],
)
def test_a_limit_a_shop_moves_moves_the_verdict(limit: str, rule_id: str) -> None:
    """Each limit, moved by 1 either way, must break an edge: none is read by nobody."""
    rule, cases = SPEC_RULES.rule(rule_id), cases_of(rule_id)
    value = getattr(LIMITS, limit)
    moved = [replace(LIMITS, **{limit: value + by}) for by in (-1, 1)]
    assert any(
        rule.findings(case.passes, limits) or not rule.findings(case.fires, limits)
        for case in cases
        for limits in moved
    )


class Read:
    """The limits, taking down which of them a rule reads."""

    def __init__(self) -> None:
        self.names: set[str] = set()

    def __getattr__(self, name: str) -> object:
        if name in LIMIT_NAMES:
            self.names.add(name)
            return getattr(LIMITS, name)
        # A method of the limits: it reads them through this, too.
        return getattr(SpecLimits, name).__get__(self)


@pytest.mark.parametrize("rule", SPEC_RULES.rules, ids=lambda rule: rule.id)
def test_a_rule_names_every_threshold_that_it_reads_and_no_other(rule: SpecRule) -> None:
    read = Read()
    for case in cases_of(rule.id):
        for facts in (case.passes, case.fires):
            list(rule.hits(facts, read))  # type: ignore[arg-type]
    # One of the bends' limits is read for each making that a case has.
    bends = {name for name in LIMIT_NAMES if name.startswith("bend_") and name != "bend_look_deg"}
    if bends & read.names:
        assert bends <= set(rule.thresholds)
        read.names |= bends
    assert read.names == set(rule.thresholds)


def test_every_limit_is_read_by_a_rule() -> None:
    assert {name for rule in SPEC_RULES.rules for name in rule.thresholds} == LIMIT_NAMES


def test_every_limit_that_is_published_cites_its_source() -> None:
    """What no shop may set stands in the Rules or in law, and its rule says where."""
    cited = {rule.id: rule.source for rule in SPEC_RULES.rules if rule.source != "common practice"}
    assert cited == {
        "SPEC-E023": "equipment-rules",  # 18 and 48 in
        "SPEC-E026": "equipment-rules",  # grip of 7 in
        "SPEC-E040": "rules-of-golf",  # fourteen clubs
        "SPEC-N040": "rules-of-golf",
        "SPEC-E081": "groove-rule",  # the groove rule
        "SPEC-W082": "groove-rule",
        "SPEC-W083": "groove-rule",
        "SPEC-W080": "beryllium",
        "SPEC-W013": "bayesian-data-analysis",
        "SPEC-W066": "swing-weight-text",
        "SPEC-N060": "swing-weight-text",
    }


@pytest.mark.parametrize("rule", SPEC_RULES.rules, ids=lambda rule: rule.id)
def test_a_finding_says_something_a_fitter_can_use(rule: SpecRule) -> None:
    for case in cases_of(rule.id):
        for finding in rule.findings(case.fires, LIMITS):
            assert finding.sentence[0].isupper() or finding.sentence[0].isdigit()
            assert finding.sentence.endswith(".")
            assert "None" not in finding.sentence
            assert "Decimal" not in finding.sentence
            assert finding.fields
            assert finding.source in {"common practice", *BIBLIOGRAPHY}


def test_gaps_are_never_said_in_yards_of_other_players() -> None:
    said = [f.sentence + f.hint for case in CASES for f in spec_findings(case.fires, LIMITS)]
    assert not [text for text in said if "yard" in text or " yd" in text]


def test_stamped_and_bent_are_said_together() -> None:
    facts = alone(stamped_loft_deg=D(54), target_loft_deg=D("50.5"), stamped_bounce_deg=D(10))
    sentences = {f.id: f.sentence for f in spec_findings(facts, LIMITS)}
    assert sentences["SPEC-E001"] == (
        "Slot 1, 50.5° (stamped 54, bent 3.5 strong): 3.5 strong from the stamp is too far; "
        "this head (forged low-carbon steel) bends 3 at most."
    )


def test_a_head_that_is_not_bent_says_whose_word_it_waits_for() -> None:
    facts = alone(head=HeadLimits(making=Making.HOLLOW), target_loft_deg=D(51))
    sentences = {f.id: f.sentence for f in spec_findings(facts, LIMITS)}
    assert sentences["SPEC-E001"] == (
        "Slot 1, 51° (stamped 50, bent 1 weak): 1 weak from the stamp is too far; "
        "this head (hollow) is not bent until its maker says how far."
    )


@pytest.mark.parametrize(
    ("maker", "targets", "said"),
    [
        (MakerLimits(weak_deg=D(1)), ("51.5", "64"), "its maker allows 1"),
        (MakerLimits(strong_deg=D(1)), ("48.5", "64"), "its maker allows 1"),
        (MakerLimits(up_deg=D(1)), ("50", "65.5"), "its maker allows 1"),
        (MakerLimits(flat_deg=D(1)), ("50", "62.5"), "its maker allows 1"),
        # What its maker said of the other way is not what stops this one.
        (MakerLimits(weak_deg=D(2)), ("47.9", "64"), "bends 2 at most"),
        (MakerLimits(strong_deg=D(2)), ("52.1", "64"), "bends 2 at most"),
        (MakerLimits(up_deg=D(2)), ("50", "61.9"), "bends 2 at most"),
        (MakerLimits(flat_deg=D(2)), ("50", "66.1"), "bends 2 at most"),
        (MakerLimits(up_deg=D(2), flat_deg=D(2)), ("52.1", "64"), "bends 2 at most"),
        (MakerLimits(weak_deg=D(2), strong_deg=D(2)), ("50", "66.1"), "bends 2 at most"),
    ],
)
def test_whose_limit_it_is_is_said(maker: MakerLimits, targets: tuple[str, str], said: str) -> None:
    loft, lie = targets
    facts = alone(
        head=HeadLimits(making=Making.CAST_STAINLESS, maker=maker),
        target_loft_deg=D(loft),
        target_lie_deg=D(lie),
    )
    stops = [f.sentence for f in spec_findings(facts, LIMITS) if f.id in {"SPEC-E001", "SPEC-E003"}]
    assert len(stops) == 1
    assert stops[0].endswith(f"{said}.")


def test_the_maker_is_named_where_an_earlier_bend_of_the_other_axis_sets_the_limit() -> None:
    maker = MakerLimits(flat_deg=D("0.5"))
    bent = HeadLimits(Making.CAST_STAINLESS, maker, earlier=(Bend(lie_deg=D("-0.5")),))
    facts = own(head=bent, as_received_loft_deg=D("49.5"))
    stops = [f.sentence for f in spec_findings(facts, LIMITS) if f.id == "SPEC-E002"]
    assert [sentence.endswith("its maker allows 0.5.") for sentence in stops] == [True]


def test_a_shop_whose_two_heights_are_one_still_gets_a_range() -> None:
    odd = replace(LIMITS, junior_height_high_mm=LIMITS.junior_height_low_mm)
    facts = with_player(kind=PlayerKind.JUNIOR, height_mm=1480)
    assert "SPEC-W020" in {finding.id for finding in spec_findings(facts, odd)}


def test_a_length_outside_the_rules_says_on_which_side() -> None:
    for length, side in (("457", "shorter than 18"), ("1220", "longer than 48")):
        facts = with_first(length_mm=D(length))
        (found,) = [f for f in spec_findings(facts, LIMITS) if f.id == "SPEC-E023"]
        assert f"is {side} inches" in found.sentence


def test_bounce_after_bending_names_both_numbers() -> None:
    facts = alone(stamped_loft_deg=D(54), stamped_bounce_deg=D(5), target_loft_deg=D("52.5"))
    sentences = {f.id: f.sentence for f in spec_findings(facts, LIMITS)}
    assert sentences["SPEC-W002"] == (
        "Slot 1, 52.5° (stamped 54, bent 1.5 strong): bounce 3.5° (stamped 5, bent 1.5 strong); "
        "less than 4 is little, even on firm turf."
    )


def test_an_own_club_is_said_as_measured() -> None:
    facts = own(stamped_loft_deg=D(52), as_received_loft_deg=D("53.01"), target_loft_deg=D("50.5"))
    sentences = {f.id: f.sentence for f in spec_findings(facts, LIMITS)}
    assert sentences["SPEC-W001"] == (
        "Slot 1, own 50.5° (measured 53.01, bent 2.51 strong, stamped 52): "
        "2.51 strong is more than 2; bounce, offset and looks change with it."
    )


def test_a_carry_gap_is_said_in_proportion_with_its_doubt() -> None:
    facts = with_first(predicted_carry_m=100.0, predicted_carry_sd_m=3.6)
    sentences = [f.sentence for f in spec_findings(facts, LIMITS) if f.id == "SPEC-W011"]
    assert sentences == [
        "The pitching wedge to Slot 1, 50°: the gap is 16.7 % (give or take 3 %) of the pitching "
        "wedge's carry, 8 to 13 % are usual.",
        "Slot 1, 50° to Slot 2, 55°: the gap is 3.3 % (give or take 3 %) of the pitching wedge's "
        "carry, 8 to 13 % are usual.",
    ]


def test_what_stops_comes_first_then_what_wants_a_look_then_notes() -> None:
    facts = replace(with_first(hand=Hand.LEFT, stamping=None, role=None), other_clubs=None)
    severities = [finding.severity for finding in spec_findings(facts, LIMITS)]
    assert severities == [Severity.STOPS, Severity.LOOK, Severity.NOTE, Severity.NOTE]


def test_an_acceptance_holds_until_the_number_changes() -> None:
    def thin(shots: int):  # type: ignore[no-untyped-def]
        facts = with_first(evidence=replace(FIFTY.evidence, shots=shots))
        return next(f for f in spec_findings(facts, LIMITS) if f.id == "SPEC-W030")

    assert is_still_accepted(thin(3), thin(3))
    assert not is_still_accepted(thin(3), thin(4))


def test_what_stops_is_never_accepted_away() -> None:
    found = next(f for f in spec_findings(with_first(hand=Hand.LEFT), LIMITS) if f.stops)
    assert not is_still_accepted(found, found)


def test_the_same_number_written_otherwise_keeps_the_acceptance() -> None:
    def bent(target: str):  # type: ignore[no-untyped-def]
        facts = alone(target_loft_deg=D(target))
        return next(f for f in spec_findings(facts, LIMITS) if f.id == "SPEC-W001")

    assert is_still_accepted(bent("47.5"), bent("47.50"))


def test_an_acceptance_of_an_unmeasured_club_covers_no_other_target() -> None:
    """Stamped 50 and hollow, to be 45: nobody can accept that away."""

    def unmeasured(**changes: object):  # type: ignore[no-untyped-def]
        facts = own(as_received_loft_deg=None, as_received_lie_deg=None, **changes)
        return {f.id: f for f in spec_findings(facts, LIMITS)}

    was = unmeasured()["SPEC-W004"]
    assert is_still_accepted(was, unmeasured()["SPEC-W004"])
    for changes in ({"target_loft_deg": D(48)}, {"target_lie_deg": D(63)},
                    {"stamped_loft_deg": D(51)}):  # fmt: skip
        assert not is_still_accepted(was, unmeasured(**changes)["SPEC-W004"])
    for making in (Making.HOLLOW, Making.COPPER_ALLOY):
        hollow = unmeasured(head=HeadLimits(making=making), target_loft_deg=D(45))
        assert hollow["SPEC-E001"].stops


def test_a_lie_points_a_left_hander_s_face_the_other_way() -> None:
    said = {
        hand: next(f.sentence for f in spec_findings(facts, LIMITS) if f.id == "SPEC-W060")
        for hand, facts in (("right", lie("65.01")), ("left", LEFT_HANDED))
    }
    # tan(face) = tan 50 x sin 1.01 = 1.191754 x 0.017627 = 0.021007: 1.20 degrees.
    assert said["right"] == (
        "Slot 1, 50°: its lie is 1.01 upright, the irons are as made. "
        "If the irons are right, the face points 1.2° left."
    )
    assert said["left"].endswith("the face points 1.2° right.")


def test_an_overlap_is_said_beside_the_gap_s_interval() -> None:
    sentences = [
        f.sentence for f in spec_findings(spread(20.0, 0.0004), LIMITS) if f.id == "SPEC-W013"
    ]
    # Five degrees of a slope that is known to 0.02 of 20 m: a gap known to 2 m, 12 give or take
    # 1.645 times that nine times in ten: 8.71 to 15.29 of 120 m.
    # 12 m over 20 root 2.01 is 0.423 of a standard deviation: 33.6 % of a normal lies below.
    assert sentences[1] == (
        "Slot 1, 50° to Slot 2, 55°: 34 times in 100 the next ball of the first falls shorter "
        "than that of the second; the gap is 7 to 13 % of the pitching wedge's carry."
    )


def test_too_many_clubs_names_what_is_hardly_ever_hit() -> None:
    facts = replace(QUIET, other_clubs=13, unused=("2 of the hybrids", "1 of the irons above"))
    (found,) = [f for f in spec_findings(facts, LIMITS) if f.id == "SPEC-E040"]
    assert found.hint == (
        "Name 1 that leaves the bag; hardly ever hit: 2 of the hybrids and 1 of the irons above."
    )


def test_a_swing_weight_out_of_reach_says_what_can_be_had() -> None:
    (found,) = [
        f for f in spec_findings(alone(swing_weight_points=D(6)), LIMITS) if f.id == "SPEC-W066"
    ]
    # 224 - 214.828 = 9.172 in-oz are missing to D6, at 503.4 mm below the fulcrum: 13.12 g.
    assert found.sentence == (
        "Slot 1, 50°: D6 is not reached; it would take 13.1 g in the hosel, 9 g is the most and "
        "gives D4.4."
    )


def test_an_own_club_s_bounce_is_said_as_measured() -> None:
    measured = own(stamped_bounce_deg=D(10), as_received_bounce_deg=D("9.5")).clubs[0]
    assert own_bounce_words(measured) == "9.5° (stamped 10)"
    bent = replace(measured, target_loft_deg=D(51))
    assert own_bounce_words(bent) == "10.5° (measured 9.5, bent 1 weak, stamped 10)"
    assert predicted_bounce(bent) == D("10.5")


def test_an_own_club_s_bounce_that_nobody_measured_is_never_called_bent() -> None:
    drifted = own(
        stamped_loft_deg=D(50), stamped_bounce_deg=D(10), as_received_loft_deg=D(51),
        target_loft_deg=D(51),
    ).clubs[0]  # fmt: skip
    assert own_bounce_words(drifted) == "about 11° by its loft (stamped 10)"
    as_stamped = replace(drifted, as_received_loft_deg=D(50), target_loft_deg=D(50))
    assert own_bounce_words(as_stamped) == "stamped 10"
    assert own_bounce_words(replace(drifted, stamped_bounce_deg=None)) == ""


def test_a_shop_s_weights_are_settings_of_the_rules_themselves() -> None:
    keys = {setting.key for setting in WEIGHTS}
    assert "rules.SPEC-W010" in keys
    assert not [key for key in keys if key.startswith("rules.SPEC-E")]
    assert {setting.key: setting.choices for setting in WEIGHTS}["rules.SPEC-W080"] == (
        "stops the order", "look at this",
    )  # fmt: skip


def test_a_rule_that_is_switched_off_finds_nothing_and_a_stricter_one_stops() -> None:
    facts = replace(with_first(role=None), other_clubs=None)
    chosen = weights_from({"rules.SPEC-N023": "off", "rules.SPEC-N040": "stops the order"})
    found = {f.id: f.severity for f in spec_findings(facts, LIMITS, chosen)}
    assert "SPEC-N023" not in found
    assert found["SPEC-N040"] is Severity.STOPS
    defaults = weights_from({setting.key: setting.default for setting in WEIGHTS})
    assert spec_findings(facts, LIMITS, defaults) == spec_findings(facts, LIMITS)


def test_four_clubs_are_judged_in_a_moment_without_the_database() -> None:
    """Five milliseconds of this processor's own time, the best of fifty turns."""
    facts = four_clubs()
    spec_findings(facts, LIMITS)
    turns = []
    for _ in range(50):
        began = time.process_time()
        spec_findings(facts, LIMITS)
        turns.append(time.process_time() - began)
    assert min(turns) < 0.005
