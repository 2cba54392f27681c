"""The one registry that the spec's rules are entered in, whatever file they stand in.

Ids: 001 on bending, 010 on lofts and gaps, 020 on parts, 030 on evidence, 040 on the set, 050 on
soles, 060 on lie, length and swing weight through the set, 070 on shafts, 080 on safety and the
groove rule. A number is never given again.
"""

from __future__ import annotations

from sessions.rules.facts import SpecFacts, SpecLimits
from sessions.rules.findings import Registry


def clubs_meant(facts: SpecFacts, fields: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """Which clubs stand where these fields say: (club.2, its key), (baseline, its key)."""
    places = sorted({field.rpartition(".")[0] for field in fields})
    keys = {place: "" for place in places if place.startswith("club.")}
    for club in facts.clubs:
        place = club.field("")[:-1]
        if place in keys:
            grip = club.grip.key if club.field("grip") in fields else ""
            keys[place] = "; ".join(key for key in (keys[place], club.key, grip) if key)
    if "baseline" in places:
        keys["baseline"] = facts.baseline_key
    return tuple(keys.items())


SPEC_BOOK: Registry[SpecFacts, SpecLimits] = Registry("SPEC", things=clubs_meant)

COMMON_PRACTICE = "common practice"
EQUIPMENT_RULES = "equipment-rules"
RULES_OF_GOLF = "rules-of-golf"
