"""A spec as its page shows it: each club's lines, and each finding beside what it is about."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from typing import Literal

from django.db.models import prefetch_related_objects

from fitshop.selectors import SettingsInForce, settings_in_force
from sessions.maths.unit_factors import DistanceUnit
from sessions.models import FinalSpec, SpecClub
from sessions.models.words import ClubSource
from sessions.rules.facts import limits_from
from sessions.rules.findings import Finding, Severity
from sessions.rules.finished_club import FinishedClub
from sessions.rules.what_changes import ChangeTable
from sessions.rules.wording import drift_from_stamp, drift_words
from sessions.selectors.evidence import last_bag_entries, visit_evidence
from sessions.selectors.plans import drift_limit
from sessions.selectors.spec_balance import changes_of, finished_of, tried_words
from sessions.selectors.spec_delivery import delivery_notes
from sessions.selectors.spec_facts import leaving, spec_clubs
from sessions.selectors.spec_words import (
    GapRow,
    Line,
    carry_said,
    club_lines,
    gap_rows,
    is_bent,
    length_alone,
    loft_said,
    stamping_said,
)
from sessions.selectors.specs import answered_of, as_finding


@dataclass(frozen=True, slots=True)
class ShownFinding:
    """A finding, and who accepted it and why, if somebody did.

    `accepted_before`: who accepted it for other figures or another club, which counts no more.
    """

    finding: Finding
    accepted_by: str = ""
    accepted_at: datetime | None = None
    reason: str = ""
    accepted_before: str = ""

    @property
    def fields_said(self) -> str:
        return " ".join(self.finding.fields)

    @property
    def may_accept(self) -> bool:
        return self.finding.wants_a_look and not self.accepted_by


@dataclass(frozen=True, slots=True)
class ShownLine:
    label: str
    words: str
    findings: tuple[ShownFinding, ...]


@dataclass(frozen=True, slots=True)
class ShownClub:
    """One club: its lines with their findings, and the findings about it as a whole.

    `delivery`: what lie and length do as it is delivered, by the field they stand beside.
    """

    row: SpecClub
    title: str
    loft: str
    source: str
    lines: tuple[ShownLine, ...]
    carry: str
    findings: tuple[ShownFinding, ...]
    tried: tuple[str, ...] = ()
    finished: FinishedClub | None = None
    changes: ChangeTable | None = None
    delivery: Mapping[str, str] = field(default_factory=dict)

    @property
    def stops(self) -> int:
        return sum(1 for one in self._all if one.finding.stops)

    @property
    def looks(self) -> int:
        return sum(1 for one in self._all if one.may_accept)

    @property
    def _all(self) -> tuple[ShownFinding, ...]:
        return (*self.findings, *(one for line in self.lines for one in line.findings))


@dataclass(frozen=True, slots=True)
class SpecPage:
    clubs: tuple[ShownClub, ...]
    findings: tuple[ShownFinding, ...]
    gaps: tuple[GapRow, ...]
    leaving: tuple[str, ...]
    stops: int
    looks: int
    # (club, hand, length, stamping), to be read aloud before the signature.
    read_back: tuple[tuple[str, str, str, str], ...] = ()
    # The clubs whose heads are bent: their makers' warranties may end.
    bent: tuple[str, ...] = ()

    @property
    def looks_at_the_set(self) -> int:
        return sum(1 for one in self.findings if one.may_accept)

    @property
    def stops_of_the_set(self) -> int:
        return sum(1 for one in self.findings if one.finding.stops)

    @property
    def can_be_signed(self) -> bool:
        return not self.stops and not self.looks


def spec_page(spec: FinalSpec, *, length_unit: str) -> SpecPage:
    """Everything of one spec. Findings are those of the last check."""
    visit = spec.visit
    unit: DistanceUnit = "m" if visit.player.carry_unit == "m" else "yd"
    ruler: Literal["in", "mm"] = "mm" if length_unit == "mm" else "in"
    in_force = settings_in_force()
    limits = limits_from(in_force.values)
    evidence = visit_evidence(visit, in_force)
    rows = list(spec_clubs(spec))
    prefetch_related_objects(rows, "trial__adapter")
    found = shown_findings(spec)
    left = list(found)
    pitching = None
    if evidence.baseline is not None and evidence.baseline.club_id is not None:
        pitching = last_bag_entries(visit).get(evidence.baseline.club_id)
    clubs = []
    for row in rows:
        own = [one for one in found if _is_about(one, row.slot)]
        lines = []
        placed: list[ShownFinding] = []
        for line in club_lines(row, length_unit=length_unit):
            here = tuple(one for one in own if _belongs(one, row.slot, line) and one not in placed)
            placed.extend(here)
            words = [line.words, drifted(row, in_force)] if line.label == "Loft" else [line.words]
            lines.append(ShownLine(line.label, "; ".join(filter(None, words)), here))
        left = [one for one in left if one not in own]
        clubs.append(
            ShownClub(
                row=row,
                title=row.name or f"Slot {row.slot}",
                loft=loft_said(row),
                source=row.get_source_display(),
                lines=tuple(lines),
                carry=carry_said(row, unit),
                findings=tuple(one for one in own if one not in placed),
                tried=tried_words(row),
                finished=finished_of(row, limits, ruler),
                changes=changes_of(row, limits),
                delivery=delivery_notes(row, pitching, carry_unit=unit, length_unit=ruler),
            )
        )
    return SpecPage(
        clubs=tuple(clubs),
        findings=tuple(left),
        gaps=gap_rows(
            rows,
            evidence,
            unit,
            as_hit_deg=Decimal(str(in_force["plan.as_hit_deg"])),
        ),
        read_back=tuple(
            (
                row.name or f"Slot {row.slot}",
                row.get_hand_display(),
                length_alone(row, length_unit),
                stamping_said(row),
            )
            for row in rows
        ),
        bent=tuple(row.name or f"Slot {row.slot}" for row in rows if is_bent(row)),
        leaving=leaving(visit),
        stops=sum(1 for one in found if one.finding.stops),
        looks=sum(1 for one in found if one.may_accept),
    )


def drifted(club: SpecClub, settings: SettingsInForce) -> str:
    """`drift: 1.2 strong of its stamp` of an own club as it was measured; "" for none."""
    if club.source == ClubSource.NEW:
        return ""
    return drift_words(
        drift_from_stamp(club.as_received_loft_deg, club.stamped_loft_deg, drift_limit(settings))
    )


def shown_findings(spec: FinalSpec) -> tuple[ShownFinding, ...]:
    """What the last check found, what stops first, each with its acceptance if it has one."""
    given = {one.finding.identity: one for one in answered_of(spec)}
    shown = []
    for stored in spec.findings.all():
        finding = as_finding(stored)
        one = given.get(finding.identity)
        if one is None:
            shown.append(ShownFinding(finding))
        elif one.counts:
            shown.append(ShownFinding(finding, one.by, one.at, one.reason))
        else:
            before = one.by if finding.wants_a_look else ""
            shown.append(ShownFinding(finding, "", one.at, one.reason, before))
    weight = list(Severity)
    return tuple(
        sorted(shown, key=lambda one: (weight.index(one.finding.severity), one.finding.id))
    )


def _is_about(shown: ShownFinding, slot: int) -> bool:
    first = shown.finding.fields[0] if shown.finding.fields else ""
    return first.startswith(f"club.{slot}.")


def _belongs(shown: ShownFinding, slot: int, line: Line) -> bool:
    return shown.finding.fields[0].removeprefix(f"club.{slot}.") in line.fields
