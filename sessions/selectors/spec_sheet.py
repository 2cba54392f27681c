"""A spec as text: what the spec sheet and the summary are made of.

Frozen in the spec when it is signed, so that a sheet printed next year says what was promised.
"""

from __future__ import annotations

from dataclasses import asdict
from datetime import datetime
from decimal import Decimal
from typing import Any

from fitshop.models import MessageStatus
from fitshop.selectors import settings_in_force, the_shop
from sessions.flow import SpecState
from sessions.maths.unit_factors import DistanceUnit
from sessions.models import Decision, FinalSpec, SpecClub, Visit
from sessions.models.words import ClubSource, Outcome, PlayerKind
from sessions.selectors.evidence import visit_evidence
from sessions.selectors.finish import summary_messages, summary_occasion
from sessions.selectors.people import greeting_of, letter_refusal
from sessions.selectors.spec_facts import current_decisions, leaving, spec_clubs
from sessions.selectors.spec_words import (
    carry_basis,
    carry_said,
    club_lines,
    gap_rows,
    is_bent,
    loft_said,
)
from sessions.selectors.specs import signed_spec

# What the player should hear of what was accepted: how thin the evidence was.
SAID_TO_THE_PLAYER = ("SPEC-W030", "SPEC-W031", "SPEC-W032")
MAY_HAVE_LEFT = (MessageStatus.SENT, MessageStatus.SENDING, MessageStatus.UNKNOWN)


def sheet_values(spec: FinalSpec) -> dict[str, Any]:
    """What the player's sheet says: as promised where it was signed, as it stands in a draft.

    A sheet that no longer holds names the version that replaced it.
    """
    if not spec.sheet:
        return sheet_as_it_stands(spec)
    values = dict(spec.sheet)
    if spec.state == SpecState.SUPERSEDED:
        holds = signed_spec(spec.visit)
        values["replaced_by"] = holds.version if holds is not None else None
    return values


def letter_values(spec: FinalSpec) -> dict[str, Any]:
    """What the summary says: the sheet as promised, whom it greets now, and what it replaces."""
    return {
        **sheet_values(spec),
        "greeting": greeting_of(spec.visit.player),
        "replaces": _letters_replaced(spec),
    }


def sheet_as_it_stands(spec: FinalSpec) -> dict[str, Any]:
    """All that the player's sheet says of one spec, worked out now, as JSON-able text."""
    visit = spec.visit
    player, shop = visit.player, the_shop()
    evidence = visit_evidence(visit)
    unit: DistanceUnit = "m" if player.carry_unit == "m" else "yd"
    length_unit = shop.length_unit if shop else "in"
    clubs = list(spec_clubs(spec))
    decided = {decision.slot: decision for decision in current_decisions(visit)}
    as_hit_deg = Decimal(str(settings_in_force()["plan.as_hit_deg"]))
    zone = visit.location.zone_info
    day = (spec.signed_at or spec.drafted_at).astimezone(zone)
    return {
        "identifier": f"spec-{spec.pk}-{spec.version}-{spec.edition}",
        "shop": shop.name if shop else "",
        "contact": ", ".join(text for text in (shop.phone, shop.email) if text) if shop else "",
        "paper": shop.paper if shop else "A4",
        "place": visit.location.name,
        "player": str(player),
        "given_name": player.given_name,
        "letter": player.hand[0].upper(),
        "hand": player.get_hand_display(),
        "version": spec.version,
        "is_signed": bool(spec.signed_by),
        "signed_by": spec.signed_by or spec.drafted_by,
        "day": _day(day),
        "created": day.date().isoformat(),
        "unit": "metres" if unit == "m" else "yards",
        "clubs": [
            {
                "carry_basis": asdict(carry_basis(club, evidence, as_hit_deg)),
                "slot": club.slot,
                "name": club.name or f"Slot {club.slot}",
                "source": _source_words(club),
                "loft": loft_said(club),
                "lines": [
                    [line.label, line.words] for line in club_lines(club, length_unit=length_unit)
                ],
                "carry": carry_said(club, unit),
                "notes": club.notes,
                "why": decided[club.slot].reason if club.slot in decided else "",
            }
            for club in clubs
        ],
        "gaps": [
            {"name": row.name, "carry": row.carry, "gap": row.gap, "basis": asdict(row.basis)}
            for row in gap_rows(clubs, evidence, unit, as_hit_deg=as_hit_deg)
        ],
        "bent": [club.slot for club in clubs if is_bent(club)],
        "leaving": list(leaving(visit)),
        "keep_fix": _keep_fix(list(decided.values())),
        "not_built": [_not_built(d) for d in decided.values() if _is_open(d)],
        "doubts": [row.sentence for row in spec.findings.all() if row.rule in SAID_TO_THE_PLAYER],
        "is_growing": player.kind == PlayerKind.JUNIOR,
        "has_new": any(club.source == ClubSource.NEW for club in clubs),
    }


def summary_refusal(visit: Visit) -> str | None:
    """Why no summary can go out, as the finish page says it; None where it can."""
    if signed_spec(visit) is None:
        return "There is no signed spec, so there is nothing to sum up yet."
    return letter_refusal(visit.player)


def _letters_replaced(spec: FinalSpec) -> list[str]:
    """The earlier summaries that left, or may have: `version 1 of Fri 7 May 2027`."""
    earlier = summary_messages(spec.visit).filter(status__in=MAY_HAVE_LEFT)
    zone = spec.visit.location.zone_info
    replaced = []
    for letter in earlier.exclude(occasion=summary_occasion(spec)).order_by("created_at"):
        went = (letter.sent_at or letter.created_at).astimezone(zone)
        replaced.append(f"{letter.occasion.replace('spec', 'version')} of {_day(went)}")
    return replaced


def _day(moment: datetime) -> str:
    return f"{moment:%a} {moment.day} {moment:%b %Y}"


def _source_words(club: SpecClub) -> str:
    return {
        ClubSource.NEW: "new, to be built",
        ClubSource.OWN_KEPT: "yours, stays as it is",
        ClubSource.OWN_ADJUSTED: "yours, to be adjusted",
    }[ClubSource(club.source)]


def _is_open(decision: Decision) -> bool:
    return decision.outcome in (Outcome.COME_BACK, Outcome.NONE_SHOWN)


def _not_built(decision: Decision) -> str:
    return f"{decision.get_outcome_display()}: {decision.reason}"


# Of two slots that show something else, the less good one is said.
_SHOWN_ORDER = ("lost", "not_fixed", "kept", "fixed", "not_shown")


def _keep_fix(decisions: list[Decision]) -> list[dict[str, Any]]:
    """Each wish once: what the shots showed of it, and what the fitter says otherwise, by name."""
    rows: dict[tuple[str, str], dict[str, Any]] = {}
    for decision in decisions:
        for item in decision.keep_fix:
            shown = item.get("shown", "not_shown")
            row = rows.setdefault(
                (item["kind"], item["label"]),
                {"kind": item["kind"], "label": item["label"], "shown": shown, "views": []},
            )
            row["shown"] = min(row["shown"], shown, key=_SHOWN_ORDER.index)
            view = {"by": decision.decided_by, "answer": item["answer"]}
            if item["answer"] != shown and view not in row["views"]:
                row["views"].append(view)
    return list(rows.values())
