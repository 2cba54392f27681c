"""The one registry that the spec's rules are entered in, whatever file they stand in.

Ids: 001 on bending, 010 on lofts and gaps, 020 on parts, 030 on evidence, 040 on the set, 050 on
soles, 060 on lie, length and swing weight through the set, 070 on shafts, 080 on safety and the
groove rule. A number is never given again.
"""

from __future__ import annotations

from sessions.rules.facts import SpecFacts, SpecLimits
from sessions.rules.findings import Registry

SPEC_BOOK: Registry[SpecFacts, SpecLimits] = Registry("SPEC")

COMMON_PRACTICE = "common practice"
EQUIPMENT_RULES = "equipment-rules"
RULES_OF_GOLF = "rules-of-golf"
