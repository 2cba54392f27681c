"""What the rules of now find in specs that were judged before, against what was found then."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitshop.selectors import settings_in_force
from sessions.models import FinalSpec
from sessions.rules.facts import limits_from
from sessions.rules.findings import Finding
from sessions.rules.spec import rule_set_name, spec_findings, weights_from
from sessions.selectors.evidence import visit_evidence
from sessions.selectors.rule_book import rule_settings_version
from sessions.selectors.spec_facts import spec_facts
from sessions.selectors.specs import as_finding


@dataclass(frozen=True, slots=True)
class Revalidated:
    """One spec: what would be found in it now that was not, what not any more, and what would
    weigh otherwise (as it was, as it is)."""

    title: str
    was_under: str
    now_under: str
    found_now: tuple[Finding, ...]
    gone: tuple[Finding, ...]
    weighed_otherwise: tuple[tuple[Finding, Finding], ...]

    @property
    def is_changed(self) -> bool:
        return bool(self.found_now or self.gone or self.weighed_otherwise)


def revalidated_specs(states: Sequence[str]) -> Iterator[Revalidated]:
    """Judge each spec in one of these states once more, oldest first. Reads only."""
    settings = settings_in_force()
    limits, weights = limits_from(settings.values), weights_from(settings.values)
    now_under = rule_set_name(rule_settings_version(settings))
    specs = (
        FinalSpec.objects.filter(state__in=states)
        .select_related("visit__player", "visit__location")
        .prefetch_related("findings")
        .order_by("drafted_at", "version")
    )
    for spec in specs.iterator(chunk_size=50):
        facts = spec_facts(spec, visit_evidence(spec.visit, settings))
        was = {_place(found): found for row in spec.findings.all() if (found := as_finding(row))}
        now = {_place(found): found for found in spec_findings(facts, limits, weights)}
        yield Revalidated(
            title=f"{spec.visit.player}, spec {spec.version} ({spec.get_state_display()})",
            was_under=spec.rule_set or "no rules yet",
            now_under=now_under,
            found_now=tuple(found for place, found in now.items() if place not in was),
            gone=tuple(found for place, found in was.items() if place not in now),
            weighed_otherwise=tuple(
                (was[place], found)
                for place, found in now.items()
                if place in was and was[place].severity is not found.severity
            ),
        )


def _place(finding: Finding) -> tuple[object, ...]:
    """The same rule on the same field with the same numbers is the same finding: the clubs are.

    Which clubs a finding is about was not always kept.
    """
    return finding.doubt
