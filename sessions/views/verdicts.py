"""What the shots say, as a fragment for the trials page: ladder, dispersion, verdicts, turf."""

from __future__ import annotations

from typing import Any
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
from sessions.rules.evidence import SlotEvidence, VisitEvidence
from sessions.rules.preferences import preferred_words
from sessions.rules.verdict_words import PROMISE
from sessions.selectors.decisions import likenesses
from sessions.selectors.evidence import visit_evidence
from sessions.selectors.next_club import next_club_said
from sessions.selectors.visits import visit_for
from sessions.views.club_lines import club_line, drift_words, pair_lines


@staff_page(FITTING_POLICY, FittingAction.VISIT_VIEW)
@require_safe
def verdicts(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    visit = visit_for(actor, visit_id)
    if visit is None:
        raise Http404
    evidence = visit_evidence(visit)
    unit: DistanceUnit = "m" if visit.player.carry_unit == "m" else "yd"
    there = evidence.slot(_slot(request, evidence))
    hand = _in_hand(request, evidence)
    last = hand if hand is not None and hand.shots else None
    last = last or _last_hit(there.candidates) or _last_hit(evidence.clubs)
    block_id = _uuid(request.GET.get("block", ""))
    beside, beside_now = likenesses(visit, there)

    def line(club: ClubEvidence) -> dict[str, Any]:
        return club_line(club, there, unit, beside.get(club.key), beside_now.get(club.key))

    context = {
        "hand": None if hand is None else _hand_line(line(hand), hand, there, block_id, unit),
        "lines": [line(club) for club in there.played if club.shots],
        "own": there.own,
        "slot": there.slot,
        "next_club": next_club_said(visit, evidence, there, unit),
        "own_was_not_hit": there.own_was_not_hit,
        "has_verdicts": any(pair.judged for pair in there.pairs),
        "promise": PROMISE,
        "preferred": preferred_words(there, unit),
        "drift": drift_words(evidence.drift, unit),
        "ladder": carry_ladder(evidence.clubs, unit, here=last)
        if any(club.full_stock() for club in evidence.clubs)
        else None,
        "dispersion": None if last is None else _landed(last, block_id, unit),
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


def _in_hand(request: HttpRequest, evidence: VisitEvidence) -> ClubEvidence | None:
    trial_id = _uuid(request.GET.get("trial", ""))
    return None if trial_id is None else evidence.club_of(trial_id)


def _uuid(text: str) -> UUID | None:
    try:
        return UUID(text)
    except ValueError:
        return None


def _hand_line(
    line: dict[str, Any],
    club: ClubEvidence,
    there: SlotEvidence,
    block_id: UUID | None,
    unit: DistanceUnit,
) -> dict[str, Any] | None:
    """What is to be said first: the club in the hand in the situation that is hit now."""
    now = [
        pair
        for pair in there.pairs
        if pair.candidate.key == club.key and block_id in pair.one.block_ids
    ]
    if not now and not line["likenesses"] and not line["turf"] and not line["not_on_turf"]:
        return None
    return line | {"pairs": [pair_lines(pair, unit) for pair in now], "cautions": ()}


def _last_hit(clubs: tuple[ClubEvidence, ...]) -> ClubEvidence | None:
    return next((club for club in reversed(clubs) if club.shots), None)


def _landed(club: ClubEvidence, block_id: UUID | None, unit: DistanceUnit) -> ShownChart | None:
    """The situation that is hit now, else its last one in which carry and side were measured."""
    now = [there for there in club.situations if block_id in there.block_ids]
    for there in (*now, *reversed(club.situations)):
        if any(s.carry_m is not None and s.side_m is not None for s in there.shots):
            return club_dispersion(club, there, unit)
    return None
