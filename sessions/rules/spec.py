"""The rule set of a final spec: every rule of the files beside it, under one version.

`spec_findings` is what `sessions.services.specs` calls; only `spec_sign` there signs.
The version rises whenever a rule is added, taken away or judges differently. What a shop sets
(limits, and how each rule weighs) makes a version of its own: `rule_set_name`.
"""

from __future__ import annotations

from collections.abc import Mapping

from fitshop.setting import Setting, Value
from sessions.rules import (
    spec_bending,
    spec_evidence,
    spec_gaps,
    spec_parts,
    spec_run,
    spec_safety,
    spec_set,
    spec_shafts,
    spec_soles,
)
from sessions.rules.facts import SpecFacts, SpecLimits
from sessions.rules.findings import OFF, Finding, RuleSet, Severity, Weights
from sessions.rules.spec_book import SPEC_BOOK

SPEC_RULES_VERSION = "4"

# The files that enter rules in the book when they are imported, in the order of their ids.
RULE_FILES = (
    spec_bending,
    spec_gaps,
    spec_parts,
    spec_evidence,
    spec_set,
    spec_soles,
    spec_run,
    spec_shafts,
    spec_safety,
)

SPEC_RULES: RuleSet[SpecFacts, SpecLimits] = SPEC_BOOK.rule_set(SPEC_RULES_VERSION)

WEIGHT_GROUP = "rules"


def spec_findings(
    facts: SpecFacts, limits: SpecLimits, weights: Weights | None = None
) -> tuple[Finding, ...]:
    """Judge a whole spec by every rule that is on: what stops first, then what wants a look,
    then notes."""
    return SPEC_RULES.findings(facts, limits, weights)


def weight_key(rule_id: str) -> str:
    """The key of the setting that says how a rule weighs."""
    return f"{WEIGHT_GROUP}.{rule_id}"


# One setting for each rule that a shop may weigh otherwise, made from the rules themselves.
SETTINGS: tuple[Setting, ...] = tuple(
    Setting(
        key=weight_key(rule.id),
        kind="choice",
        default=rule.severity.value,
        sentence=f"{rule.id}. {rule.about}",
        choices=rule.choices,
        source=rule.source,
    )
    for rule in sorted(SPEC_RULES.rules, key=lambda rule: list(Severity).index(rule.severity))
    if len(rule.choices) > 1
)


def weights_from(settings: Mapping[str, Value]) -> Weights:
    """How the shop weighs each rule, from its settings by key; None where one is off."""
    chosen = {rule.id: settings.get(weight_key(rule.id)) for rule in SPEC_RULES.rules}
    return {
        rule_id: None if word == OFF else Severity(str(word))
        for rule_id, word in chosen.items()
        if word is not None
    }


def rule_set_name(shop_version: int) -> str:
    """The rule set as a spec keeps it: our version, and the shop's settings that it was under.

    >>> rule_set_name(7)
    'SPEC 4.7'
    """
    return f"SPEC {SPEC_RULES_VERSION}.{shop_version}"
