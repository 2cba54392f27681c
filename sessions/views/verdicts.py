"""What the shots say, as a fragment for the trials page: ladder, dispersion, verdicts, turf."""

from __future__ import annotations

from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from fitshop.actor import Actor
from fitshop.views.doors import staff_page
from sessions.charts import ShownChart, carry_ladder, club_dispersion
from sessions.maths.unit_factors import DistanceUnit
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.rules.club_evidence import ClubEvidence
from sessions.rules.evidence import VisitEvidence
from sessions.selectors.evidence import visit_evidence
from sessions.selectors.visits import visit_for
from sessions.views.club_lines import club_line


@staff_page(FITTING_POLICY, FittingAction.VISIT_VIEW)
@require_safe
def verdicts(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    visit = visit_for(actor, visit_id)
    if visit is None:
        raise Http404
    evidence = visit_evidence(visit)
    unit: DistanceUnit = "m" if visit.player.carry_unit == "m" else "yd"
    there = evidence.slot(_slot(request, evidence))
    last = _last_hit(there.candidates) or _last_hit(evidence.clubs)
    context = {
        "lines": [club_line(club, there, unit) for club in there.played if club.shots],
        "own": there.own,
        "slot": there.slot,
        "ladder": carry_ladder(evidence.clubs, unit, here=last)
        if any(club.full_stock() for club in evidence.clubs)
        else None,
        "dispersion": None if last is None else _landed(last, unit),
        "is_empty": not any(club.shots for club in evidence.clubs),
    }
    return render(request, "sessions/verdicts.html", context)


def _slot(request: HttpRequest, evidence: VisitEvidence) -> int | None:
    """The slot asked for; else that of the last candidate in the hand."""
    asked = request.GET.get("slot", "")
    if asked.isdecimal():
        return int(asked[:3])
    last = next((club for club in reversed(evidence.clubs) if not club.is_own), None)
    return None if last is None else last.slot


def _last_hit(clubs: tuple[ClubEvidence, ...]) -> ClubEvidence | None:
    return next((club for club in reversed(clubs) if club.shots), None)


def _landed(club: ClubEvidence, unit: DistanceUnit) -> ShownChart | None:
    """Its last situation in which both carry and side were measured."""
    for there in reversed(club.situations):
        if any(s.carry_m is not None and s.side_m is not None for s in there.shots):
            return club_dispersion(club, there, unit)
    return None
