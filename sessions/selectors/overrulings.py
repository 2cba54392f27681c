"""Suggestions that a person set aside, and which of these still count."""

from __future__ import annotations

from collections.abc import Mapping

from sessions.models import Overruling, Visit
from sessions.rules.slot_suggestions import Suggestion, Topic

Overrulings = Mapping[tuple[int, Topic], Overruling]


def overrulings_of(visit: Visit) -> Overrulings:
    """The last one of each slot's topic."""
    rows = Overruling.objects.filter(interview__visit=visit).order_by("sequence")
    return {(row.slot, Topic(row.topic)): row for row in rows}


def overruling_in_force(rows: Overrulings, slot: int, one: Suggestion) -> Overruling | None:
    """The one that counts, while the suggestion says the same and nobody took it back."""
    row = rows.get((slot, one.topic))
    return row if row and row.instead and row.suggested == one.words else None
