"""Every read of specs that is worth a name, and a spec as its page and its sheet show it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.db.models import QuerySet

from fitshop.actor import Actor, ActorKind
from sessions.flow import SpecState
from sessions.models import Acceptance, FinalSpec, SpecClub, SpecFinding, Visit
from sessions.rules.findings import Finding, Severity, is_still_accepted


def specs_for(actor: Actor) -> QuerySet[FinalSpec]:
    """The specs at the actor's locations, newest version first."""
    rows = FinalSpec.objects.select_related("visit__player", "visit__location")
    if actor.kind is ActorKind.SYSTEM:
        return rows
    return rows.filter(visit__location_id__in=actor.location_ids)


def spec_for(actor: Actor, spec_id: UUID) -> FinalSpec | None:
    """One spec, or None where there is none or it is another location's."""
    return specs_for(actor).filter(pk=spec_id).first()


def spec_club_for(actor: Actor, club_id: UUID) -> SpecClub | None:
    """One club of a spec at one of the actor's locations."""
    rows = SpecClub.objects.select_related("spec__visit", "head", "shaft", "grip", "club", "trial")
    if actor.kind is not ActorKind.SYSTEM:
        rows = rows.filter(spec__visit__location_id__in=actor.location_ids)
    return rows.filter(pk=club_id).first()


def current_spec(visit: Visit) -> FinalSpec | None:
    """The version that is worked on, else the signed one; withdrawn ones are history."""
    shown = [SpecState.DRAFT, SpecState.CHECKED, SpecState.SIGNED]
    return visit.specs.filter(state__in=shown).order_by("-version").first()


def signed_spec(visit: Visit) -> FinalSpec | None:
    """The spec that holds: the one signed version of a visit."""
    return visit.specs.filter(state=SpecState.SIGNED).first()


def as_finding(row: SpecFinding | Acceptance) -> Finding:
    """A stored finding, or what was accepted, as the rules speak of it."""
    return Finding(
        id=row.rule,
        severity=Severity(row.severity) if isinstance(row, SpecFinding) else Severity.LOOK,
        fields=tuple(row.fields),
        sentence=row.sentence,
        hint=row.hint if isinstance(row, SpecFinding) else "",
        source=row.source if isinstance(row, SpecFinding) else "",
        numbers=tuple((name, value) for name, value in row.numbers),
        things=tuple((place, key) for place, key in row.things),
    )


@dataclass(frozen=True, slots=True)
class Accepted:
    """What somebody accepted of a finding that still stands, and when and why.

    `counts` is False where it was given for other figures or another club.
    """

    finding: Finding
    by: str
    at: datetime
    reason: str
    counts: bool = True


def accepted_of(spec: FinalSpec) -> tuple[Accepted, ...]:
    """Each finding of the last check that somebody accepted, with the last word on it.

    Given in any version of the visit's spec: an acceptance holds until its numbers or its clubs
    change.
    """
    return tuple(one for one in answered_of(spec) if one.counts)


def answered_of(spec: FinalSpec) -> tuple[Accepted, ...]:
    """Each finding of the last check that somebody accepted once, and whether that counts still.

    What no longer counts is the last word given on the same rule in the same place.
    """
    given = [
        (as_finding(row), row)
        for row in Acceptance.objects.filter(spec__visit_id=spec.visit_id).order_by("-accepted_at")
    ]
    answered = []
    for stored in spec.findings.all():
        finding = as_finding(stored)
        holds = next((row for was, row in given if is_still_accepted(was, finding)), None)
        row = holds or next((row for was, row in given if was.place == finding.place), None)
        if row is not None:
            answered.append(
                Accepted(finding, row.accepted_by, row.accepted_at, row.reason, holds is not None)
            )
    return tuple(answered)


def acceptances_of(spec: FinalSpec) -> list[Finding]:
    """What was accepted in this visit, in any version: it holds until numbers or clubs change."""
    return [as_finding(row) for row in Acceptance.objects.filter(spec__visit_id=spec.visit_id)]
