"""Invented players, judged as a good fitter would: what must be said, what must not."""

from dataclasses import replace
from decimal import Decimal as D

from sessions.rules.facts import (
    ClubFacts,
    ClubSource,
    Hand,
    PlayerFacts,
    PlayerKind,
    Role,
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
    # 43 degrees and 78 yards: two wedges, 67 and 57 yards, at 34 1/2 and 34 3/4 in.
    facts = SpecFacts(
        player=PlayerFacts(Hand.RIGHT, PlayerKind.WOMAN, 1640),
        clubs=(new(1, "50", 68, "34.75"), new(2, "56", 58, "34.5")),
        baseline_loft_deg=D(43),
        baseline_carry_m=78 * YARD_M,
        other_clubs=12,
    )
    found = by_id(facts)
    assert "SPEC-W020" not in found
    # 10 yards of 78 are 12.8 %: a whole gap for her.
    assert "SPEC-W011" not in found
    # Her first step is 7 degrees, a look that says the carry decides.
    assert [finding.hint for finding in found["SPEC-W010"]] == [
        "What the player carries with the two decides, not the degrees."
    ]


def test_a_child_is_not_measured_by_adults() -> None:
    # 148 cm: 31 1/2 to 32 1/2 in.
    for length in ("31.5", "32", "32.5"):
        facts = SpecFacts(
            player=PlayerFacts(Hand.RIGHT, PlayerKind.JUNIOR, 1480),
            clubs=(new(1, "52", 64, length), new(2, "57", 56, length)),
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
        player=PlayerFacts(Hand.RIGHT, PlayerKind.JUNIOR, 1480), clubs=(new(1, "52", 64, "35"),)
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
        "The pitching wedge, 40.4° to Slot 1, own 56°: 15.6 degrees of loft, usual are 4 to 6."
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
