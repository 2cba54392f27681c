"""An acceptance is of a club, not of a slot: what stands there next must be looked at again."""

from dataclasses import replace

import pytest

from sessions.rules.facts import Evidence, ShaftFacts, SpecFacts
from sessions.rules.facts import ShaftMaterial as Material
from sessions.rules.findings import Finding, Rule, Severity, is_still_accepted
from sessions.rules.spec import SPEC_RULES, spec_findings
from tests.rules.spec_cases import CASES
from tests.rules.spec_examples import FIFTY, LIMITS, alone

LOOKS = [rule for rule in SPEC_RULES.rules if rule.severity is Severity.LOOK]


def keyed(facts: SpecFacts, **others: str) -> SpecFacts:
    """The clubs with a key each: head a in slot 1, another where `others` names one."""
    return replace(
        facts,
        baseline_key=others.get("baseline", "own a"),
        clubs=tuple(
            replace(club, key=others.get(f"slot_{club.slot}", f"head {club.slot}"))
            for club in facts.clubs
        ),
    )


def found(rule: Rule, facts: SpecFacts) -> list[Finding]:  # type: ignore[type-arg]
    return list(rule.findings(facts, LIMITS))


def speaks_of(finding: Finding, facts: SpecFacts) -> set[str]:
    """Which clubs a reader sees named in it, and which its fields name."""
    text = f"{finding.sentence} {' '.join(finding.fields)}".casefold()
    named = {
        f"slot_{club.slot}"
        for club in facts.clubs
        if f"slot {club.slot}" in text or f"club.{club.slot}." in text
    }
    is_of_pitching = "baseline." in text or text.startswith("the pitching wedge, ")
    return named | ({"baseline"} if is_of_pitching else set())


@pytest.mark.parametrize("rule", LOOKS, ids=lambda rule: rule.id)
def test_an_acceptance_passes_to_no_other_club(rule: Rule) -> None:  # type: ignore[type-arg]
    asked = 0
    for case in CASES:
        if case.rule != rule.id:
            continue
        was = found(rule, keyed(case.fires))
        assert all(
            is_still_accepted(a, b)
            for a, b in zip(was, found(rule, keyed(case.fires)), strict=True)
        )
        for place, accepted in enumerate(was):
            for club in speaks_of(accepted, case.fires):
                now = found(rule, keyed(case.fires, **{club: "another"}))[place]
                assert now.doubt == accepted.doubt
                assert not is_still_accepted(accepted, now)
                asked += 1
    assert asked, f"no case of {rule.id} speaks of a club"


def test_steel_pulled_and_graphite_pulled_are_two_doubts() -> None:
    def pulled(material: Material, key: str) -> Finding:
        shaft = ShaftFacts(mass_g=FIFTY.shaft.mass_g, material=material, is_pulled=True)
        facts = alone(shaft=shaft, key=key)
        return next(f for f in spec_findings(facts, LIMITS) if f.id == "SPEC-W081")

    steel, graphite = pulled(Material.STEEL, "shaft a"), pulled(Material.GRAPHITE, "shaft b")
    assert is_still_accepted(steel, pulled(Material.STEEL, "shaft a"))
    assert not is_still_accepted(steel, graphite)


def test_another_grip_that_nobody_makes_any_more_is_another_doubt() -> None:
    def gone(part: str, grip: str) -> Finding:
        facts = alone(discontinued=(part,), grip=replace(FIFTY.grip, key=grip))
        return next(f for f in spec_findings(facts, LIMITS) if f.id == "SPEC-W025")

    assert is_still_accepted(gone("grip", "a"), gone("grip", "a"))
    assert not is_still_accepted(gone("grip", "a"), gone("grip", "b"))
    assert is_still_accepted(gone("shaft", "a"), gone("shaft", "b"))


def test_what_was_accepted_before_clubs_were_named_counts_no_more() -> None:
    facts = alone(key="head a", evidence=Evidence(shots=8, tested_on_turf=True))
    now = next(f for f in spec_findings(facts, LIMITS) if f.id == "SPEC-W032")
    assert now.things == (("club.1", "head a"),)
    assert not is_still_accepted(replace(now, things=()), now)


def test_what_is_said_of_the_set_names_no_club() -> None:
    facts = replace(keyed(alone()), other_clubs=None)
    (found_now,) = [f for f in spec_findings(facts, LIMITS) if f.id == "SPEC-N040"]
    assert found_now.things == ()
