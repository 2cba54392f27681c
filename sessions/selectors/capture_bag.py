"""Interview, bag and loft plan for the capture pages."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from uuid import UUID

from sessions.maths.unit_factors import DistanceUnit
from sessions.models import (
    BagEntry,
    Club,
    Interview,
    LoftPlan,
    Visit,
)
from sessions.rules.interview import Group
from sessions.rules.interview_questions import QUESTIONS
from sessions.rules.wording import drift_from_stamp, drift_words, figure
from sessions.selectors.capture_trials import Hidden
from sessions.selectors.capture_words import (
    Document,
    as_text,
    distance_shown,
    length_shown,
    swing_weight_shown,
)
from sessions.selectors.equipment import (
    LengthUnit,
)


def interview_document(visit: Visit) -> Document:
    """The questions in their groups, and the last answer to each."""
    interview = Interview.objects.filter(visit=visit).prefetch_related("answers").first()
    said = sorted(interview.answers.all(), key=lambda one: one.sequence) if interview else []
    return {
        "groups": [
            {
                "label": group.label,
                "questions": [
                    {
                        "key": question.key,
                        "label": question.label,
                        "kind": question.kind,
                        "choices": [
                            {"value": choice.value, "label": choice.label}
                            for choice in question.choices
                        ],
                        "help": question.help,
                        "unit": question.unit,
                    }
                    for question in QUESTIONS
                    if question.group == group
                ],
            }
            for group in Group
        ],
        # In the server's order: the last answer of a question counts.
        "answers": {
            one.question: {
                "value": one.value,
                "ask_later": one.ask_later,
                "said_by": one.said_by,
            }
            for one in said
        },
        "closed": interview is not None and interview.closed_at is not None,
    }


def bag_document(
    visit: Visit,
    entries: Mapping[UUID, BagEntry],
    hidden: Hidden,
    unit: DistanceUnit,
    length_unit: LengthUnit,
    drift_from_deg: Decimal,
) -> Document:
    """The own clubs with their last reading at this visit (`entries`), the rest as a count."""
    clubs = [
        club
        for club in Club.objects.filter(player_id=visit.player_id)
        if club.left_bag_at is None or club.pk in entries
    ]
    # Without a stamp last: two databases order what is missing differently.
    clubs.sort(key=lambda club: (club.stamped_loft_deg is None, club.stamped_loft_deg or 0,
                                 club.label))  # fmt: skip
    return {
        "clubs": [
            _bag_club(club, entries.get(club.pk), hidden, unit, length_unit, drift_from_deg)
            for club in clubs
        ],
        "others": {
            row.kind: {"count": row.count, "unused": row.unused} for row in visit.other_clubs.all()
        },
    }


def _bag_club(
    club: Club,
    entry: BagEntry | None,
    hidden: Hidden,
    unit: DistanceUnit,
    length_unit: LengthUnit,
    drift_from_deg: Decimal,
) -> Document:
    is_hidden = club.pk in hidden.club_ids
    read = None if is_hidden or entry is None else entry.loft_deg
    return {
        "id": str(club.pk),
        "kind": club.kind,
        "label": "In the comparison" if is_hidden else club.label,
        "maker": "" if is_hidden else club.maker,
        "model": "" if is_hidden else club.model,
        "making": club.making,
        "shaft": "" if is_hidden else club.shaft,
        "stamped_loft": as_text(None if is_hidden else club.stamped_loft_deg),
        "stamped_bounce": as_text(None if is_hidden else club.stamped_bounce_deg),
        "drift": drift_words(drift_from_stamp(read, club.stamped_loft_deg, drift_from_deg)),
        "hidden": is_hidden,
        "entry": None if is_hidden or entry is None else _entry(entry, unit, length_unit),
    }


def _entry(entry: BagEntry, unit: DistanceUnit, length_unit: LengthUnit) -> Document:
    """Each figure as it was typed; where it came otherwise, as it would be typed."""
    measured = {
        "loft": as_text(entry.loft_deg),
        "lie": as_text(entry.lie_deg),
        "bounce": as_text(entry.bounce_deg),
        "length": length_shown(entry.length_mm, length_unit),
        "swing_weight": swing_weight_shown(entry.swing_weight_points),
        "stock_carry": as_text(distance_shown(entry.stock_carry_m, unit)),
        "flat_out_carry": as_text(distance_shown(entry.flat_out_carry_m, unit)),
    }
    typed = entry.as_typed
    if typed.get("unit", unit) != unit:
        typed = {key: text for key, text in typed.items() if "carry" not in key}
    return {
        **{key: typed.get(key, words or "") for key, words in measured.items()},
        "unit": unit,
        "grooves": entry.grooves,
        "has_crack": entry.has_crack,
        "is_kept": entry.is_kept,
        "is_loved": entry.is_loved,
        "shots": entry.shots,
        "note": entry.note,
    }


def plan_document(plan: LoftPlan | None) -> Document | None:
    """The loft plan in force, or None."""
    if plan is None:
        return None
    return {
        "slots": [
            {
                "slot": slot.slot,
                "role": slot.role,
                "target_loft": figure(slot.target_loft_deg),
                "label": f"Slot {slot.slot}: {figure(slot.target_loft_deg)}°, "
                f"{slot.get_role_display()}",
            }
            for slot in plan.slots.all()
        ]
    }
