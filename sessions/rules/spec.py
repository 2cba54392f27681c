"""The rule set of a final spec: every rule of the files beside it, under one version.

`spec_findings` is what `sessions.services.specs` calls; only `spec_sign` there signs.
The version rises whenever a rule is added, taken away or judges differently.
"""

from __future__ import annotations

from sessions.rules import spec_bending, spec_evidence, spec_gaps, spec_parts, spec_set
from sessions.rules.facts import SpecFacts, SpecLimits
from sessions.rules.findings import Finding, RuleSet
from sessions.rules.spec_book import SPEC_BOOK

SPEC_RULES_VERSION = "1"

# The files that enter rules in the book when they are imported, in the order of their ids.
RULE_FILES = (spec_bending, spec_gaps, spec_parts, spec_evidence, spec_set)

SPEC_RULES: RuleSet[SpecFacts, SpecLimits] = SPEC_BOOK.rule_set(SPEC_RULES_VERSION)


def spec_findings(facts: SpecFacts, limits: SpecLimits) -> tuple[Finding, ...]:
    """Judge a whole spec by every rule: what stops first, then what wants a look, then notes."""
    return SPEC_RULES.findings(facts, limits)
