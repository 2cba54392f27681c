"""Invented players, judged as a good fitter would: what must be said, what must not."""

from dataclasses import replace
from decimal import Decimal as D

from sessions.rules.facts import (
    ClubFacts,
    ClubSource,
    Hand,
    Often,
    PlayerFacts,
    PlayerKind,
    Role,
    ShaftFacts,
    ShaftMaterial,
    Sole,
    SpecFacts,
)
from sessions.rules.findings import Finding
from sessions.rules.spec import spec_findings
from tests.rules.spec_examples import FIFTY, LIMITS

YARD_M = 0.9144


def new(slot: int, loft: str, carry_yd: float, length_in: str) -> ClubFacts:
    return replace(
        FIFTY,
        slot=slot,
        stamped_loft_deg=D(loft),
        target_loft_deg=D(loft),
        predicted_carry_m=carry_yd * YARD_M,
        length_mm=D(length_in) * D("25.4"),
    )


def own(slot: int, stamped: str, measured: str) -> ClubFacts:
    return ClubFacts(
        slot=slot,
        source=ClubSource.OWN_KEPT,
        role=Role.TOUCH,
        hand=Hand.RIGHT,
        stamped_loft_deg=D(stamped),
        as_received_loft_deg=D(measured),
    )


def by_id(facts: SpecFacts) -> dict[str, list[Finding]]:
    found: dict[str, list[Finding]] = {}
    for finding in spec_findings(facts, LIMITS):
        found.setdefault(finding.id, []).append(finding)
    return found


def test_a_short_hitter_hears_nothing_of_other_peoples_yards_and_lengths() -> None:
    # 43 degrees and 78 yards: two wedges, 67 and 56 yards, at 34 1/2 and 34 3/4 in.
    facts = SpecFacts(
        player=PlayerFacts(Hand.RIGHT, PlayerKind.WOMAN, 1640),
        clubs=(new(1, "50", 67, "34.75"), new(2, "56", 56, "34.5")),
        baseline_loft_deg=D(43),
        baseline_carry_m=78 * YARD_M,
        other_clubs=12,
    )
    found = by_id(facts)
    assert "SPEC-W020" not in found
    # Two wedges over a wide room: 7 degrees and 11 yards of 78 (14.1 %) are fine for her.
    assert not {"SPEC-W010", "SPEC-W011", "SPEC-W013"} & found.keys()
    # It is told, and asks for no acceptance.
    (told,) = found["SPEC-N013"]
    assert told.sentence == ("Few wedges in wider steps than usual: up to 7 degrees of loft.")
    assert not told.wants_a_look


def test_a_child_is_not_measured_by_adults() -> None:
    # 148 cm: 31 1/2 to 32 1/2 in.
    for length in ("31.5", "32", "32.5"):
        facts = SpecFacts(
            player=PlayerFacts(Hand.RIGHT, PlayerKind.JUNIOR, 1480),
            clubs=(new(1, "52", 63, length), new(2, "57", 54, length)),
            baseline_loft_deg=D(46),
            baseline_carry_m=72 * YARD_M,
            other_clubs=8,
        )
        found = by_id(facts)
        assert "SPEC-W020" not in found
        assert found["SPEC-N022"][0].sentence == (
            "Growing: check these clubs again after 6 months or 5 cm."
        )


def test_an_adult_s_club_for_that_child_is_looked_at() -> None:
    facts = SpecFacts(
        player=PlayerFacts(Hand.RIGHT, PlayerKind.JUNIOR, 1480), clubs=(new(1, "52", 63, "35"),)
    )
    assert by_id(facts)["SPEC-W020"][0].sentence == (
        "Slot 1, 52°: 35 in (889 mm) is long for a child of 148 cm; usual are "
        "31 1/16 in to 33 1/16 in."
    )


def test_the_hole_of_a_strong_set_is_named_and_sixteen_clubs_are_stopped() -> None:
    # Pitching wedge stamped 41, measured 40.4; the next club is a 56.
    bag = SpecFacts(
        player=PlayerFacts(Hand.RIGHT, PlayerKind.MAN, 1800),
        clubs=(own(1, "56", "56"),),
        baseline_loft_deg=D("40.4"),
        baseline_carry_m=143 * YARD_M,
        other_clubs=13,
    )
    assert by_id(bag)["SPEC-W010"][0].sentence == (
        "The pitching wedge, 40.4° to Slot 1, own 56°: 15.6 degrees of loft, 4 to 6 are usual."
    )
    two_more = (new(2, "45.5", 127, "35.5"), new(3, "50.5", 112, "35.5"))
    sixteen = replace(bag, clubs=(*bag.clubs, *two_more))
    assert by_id(sixteen)["SPEC-E040"][0].sentence == (
        "That makes 16 clubs, 2 more than the 14 that the Rules allow."
    )
    named = replace(sixteen, leaving=("4-iron", "2-hybrid"))
    assert "SPEC-E040" not in by_id(named)


def test_six_wedges_two_of_them_the_same_club() -> None:
    facts = SpecFacts(
        player=PlayerFacts(Hand.RIGHT, PlayerKind.MAN, 1800),
        clubs=(
            own(1, "48", "48.2"),
            own(2, "50", "51.0"),
            own(3, "52", "51.3"),
            own(4, "54", "54.8"),
            own(5, "58", "57.9"),
            own(6, "60", "60.4"),
        ),
        baseline_loft_deg=D(46),
        baseline_carry_m=119 * YARD_M,
        other_clubs=9,
    )
    found = by_id(facts)
    assert [finding.sentence for finding in found["SPEC-W012"]] == [
        "Slot 2, own 51° (stamped 50) and Slot 3, own 51.3° (stamped 52) are 0.3 degrees apart: "
        "the same loft twice."
    ]
    assert found["SPEC-E040"][0].sentence.startswith("That makes 15 clubs, 1 more")
    # Keeping what is there needs no proof and no parts.
    assert not {"SPEC-E021", "SPEC-W030", "SPEC-W031", "SPEC-W032"} & found.keys()


def wedge(
    slot: int,
    loft: str,
    bounce: str,
    lie: str,
    *,
    role: Role = Role.TOUCH,
    width: str = "20",
    relief: int = 1,
    grams: str = "125",
    carry_yd: float = 100.0,
) -> ClubFacts:
    """A new club with its lie as the bend from the head's own."""
    return replace(
        new(slot, loft, carry_yd, "35.5"),
        role=role,
        stamped_bounce_deg=D(bounce),
        target_lie_deg=D(64) + D(lie),
        sole=Sole(width_mm=D(width), heel=relief, trailing=relief, is_softened=True),
        shaft=ShaftFacts(mass_g=D(grams), material=ShaftMaterial.STEEL, butt_mm=D("15.24")),
    )


def said_of_soles_lies_and_shafts(facts: SpecFacts) -> set[str]:
    families = ("SPEC-W05", "SPEC-W06", "SPEC-W07")
    return {finding.id for finding in spec_findings(facts, LIMITS) if finding.id[:8] in families}


AS = PlayerFacts(
    Hand.RIGHT,
    PlayerKind.MAN,
    1800,
    attack_deg=D("-2.5"),
    ground=frozenset({"normal"}),
    sand=frozenset({"fluffy", "soft"}),
    face_opened=Often.OFTEN,
    iron_lie_deg=D(-1),
    iron_shaft_g=D(120),
    iron_shaft_material=ShaftMaterial.STEEL,
)
AS_FIFTY = wedge(1, "50", "8", "-1", role=Role.FULL_SHOT, carry_yd=115)
AS_SAND = wedge(2, "54.5", "11", "-1", width="25", carry_yd=102)
AS_LOB = wedge(3, "59.5", "6", "-1.5", relief=2, carry_yd=88)


def as_spec(*clubs: ClubFacts) -> SpecFacts:
    return SpecFacts(
        player=AS,
        clubs=clubs,
        baseline_loft_deg=D(45),
        baseline_carry_m=128 * YARD_M,
        other_clubs=11,
    )


def test_as_with_two_soles_for_two_jobs_hears_nothing() -> None:
    found = said_of_soles_lies_and_shafts(as_spec(AS_FIFTY, AS_SAND, AS_LOB))
    assert found == set()


def test_as_must_not_get_high_bounce_on_the_60() -> None:
    high = replace(AS_LOB, stamped_bounce_deg=D(12))
    (finding,) = by_id(as_spec(AS_FIFTY, AS_SAND, high))["SPEC-W052"]
    assert "two soles for two jobs" in finding.hint


def test_as_in_fluffy_sand_needs_a_wide_sole_with_bounce() -> None:
    narrow = replace(AS_SAND, stamped_bounce_deg=D(8), sole=Sole(width_mm=D(17), heel=1))
    assert "SPEC-W053" in by_id(as_spec(AS_FIFTY, narrow, AS_LOB))


def test_as_with_stock_lies_and_a_light_shaft_is_asked_why() -> None:
    upright = replace(AS_FIFTY, target_lie_deg=D("65"))
    light = replace(AS_LOB, shaft=replace(AS_LOB.shaft, mass_g=D(95)))
    found = said_of_soles_lies_and_shafts(as_spec(upright, AS_SAND, light))
    assert {"SPEC-W060", "SPEC-W070"} <= found


def test_te_on_firm_thin_turf_may_have_low_bounce_and_not_high() -> None:
    te = PlayerFacts(
        Hand.RIGHT,
        PlayerKind.MAN,
        1840,
        attack_deg=D("-5.5"),
        ground=frozenset({"firm"}),
        face_opened=Often.SOMETIMES,
        iron_lie_deg=D(0),
        iron_shaft_g=D(125),
        iron_shaft_material=ShaftMaterial.STEEL,
    )
    clubs = (
        wedge(1, "51.5", "9", "0", role=Role.FULL_SHOT, grams="128", carry_yd=127),
        wedge(2, "55.5", "9", "0", grams="128", carry_yd=115),
        wedge(3, "60", "6", "-1", grams="128", carry_yd=102, relief=2),
    )
    facts = SpecFacts(
        player=te,
        clubs=clubs,
        baseline_loft_deg=D(47),
        baseline_carry_m=140 * YARD_M,
        other_clubs=11,
    )
    assert said_of_soles_lies_and_shafts(facts) == set()
    high = replace(clubs[1], stamped_bounce_deg=D(12))
    assert "SPEC-W050" in by_id(replace(facts, clubs=(clubs[0], high, clubs[2])))


MO = PlayerFacts(
    Hand.RIGHT,
    PlayerKind.WOMAN,
    1640,
    attack_deg=D("-1.5"),
    ground=frozenset({"soft"}),
    sand=frozenset({"soft"}),
    iron_lie_deg=D(0),
    iron_shaft_g=D(60),
    iron_shaft_material=ShaftMaterial.GRAPHITE,
)


def light(slot: int, loft: str, bounce: str, grams: str, carry_yd: float, width: str) -> ClubFacts:
    club = wedge(slot, loft, bounce, "0", width=width, carry_yd=carry_yd)
    return replace(
        club,
        role=Role.FULL_SHOT if slot == 1 else Role.TOUCH,
        length_mm=D("34.5") * D("25.4"),
        swing_weight_points=D(-3),
        shaft=ShaftFacts(mass_g=D(grams), material=ShaftMaterial.GRAPHITE, butt_mm=D("15.24")),
    )


def test_mo_hears_that_c5_is_normal_and_not_that_her_shaft_is_too_light() -> None:
    facts = SpecFacts(
        player=MO,
        clubs=(light(1, "50", "9", "62", 67, "19"), light(2, "56.5", "11", "65", 56, "25")),
        baseline_loft_deg=D(43),
        baseline_carry_m=78 * YARD_M,
        other_clubs=12,
    )
    found = by_id(facts)
    assert not {"SPEC-W070", "SPEC-W071", "SPEC-W072", "SPEC-W020"} & found.keys()
    assert "SPEC-N061" in found
    assert not {"SPEC-W010", "SPEC-W011"} & found.keys()
    assert not {name for name in found if name.startswith("SPEC-W05")}


def test_bt_is_never_pushed_to_a_heavier_shaft() -> None:
    child = PlayerFacts(
        Hand.RIGHT,
        PlayerKind.JUNIOR,
        1480,
        iron_shaft_g=D(50),
        iron_shaft_material=ShaftMaterial.GRAPHITE,
    )
    as_the_irons = replace(light(1, "52", "9", "50", 63, "19"), length_mm=D(32) * D("25.4"))
    facts = SpecFacts(player=child, clubs=(as_the_irons,), other_clubs=8)
    assert not {"SPEC-W070", "SPEC-W071"} & by_id(facts).keys()
    heavier = replace(as_the_irons, shaft=replace(as_the_irons.shaft, mass_g=D(75)))
    assert "SPEC-W071" in by_id(replace(facts, clubs=(heavier,)))
