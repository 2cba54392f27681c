"""A player's clubs as they are known now: measured, as built, or only by their stamp."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from uuid import UUID

from sessions.maths.shown import show_degrees
from sessions.models import BagEntry, Club, Player

BuiltKey = tuple[UUID | None, int | None]


@dataclass(frozen=True, slots=True)
class LoftBuilt:
    """The loft that a club of ours left the bench with, and when it was handed over."""

    loft_deg: Decimal
    handed_over_at: datetime


@dataclass(frozen=True, slots=True)
class ClubOwned:
    club: Club
    loft_words: str


def clubs_owned(
    player: Player, built: Mapping[BuiltKey, LoftBuilt] | None = None
) -> list[ClubOwned]:
    """The clubs in the bag with what is last known of their loft, in two queries.

    `built` is what the workshop knows, by the order and slot a club came from; this room knows
    nothing of orders.
    """
    clubs = list(player.clubs.filter(left_bag_at__isnull=True))
    entries = BagEntry.objects.filter(club__in=clubs, loft_deg__isnull=False)
    measured = {entry.club_id: entry for entry in entries.order_by("recorded_at", "sequence")}
    return [
        ClubOwned(
            club,
            loft_known(
                club,
                measured.get(club.pk),
                (built or {}).get((club.source_order_id, club.source_slot)),
            ),
        )
        for club in clubs
    ]


def loft_known(club: Club, measured: BagEntry | None, built: LoftBuilt | None) -> str:
    """The newest of what was measured and built, the stamp beside it; else the stamp alone."""
    stamp = club.stamped_loft_deg
    beside = "" if stamp is None else f" (stamped {show_degrees(stamp)})"
    is_measured_since = measured is not None and (
        built is None or measured.recorded_at > built.handed_over_at
    )
    if measured is not None and measured.loft_deg is not None and is_measured_since:
        return f"measured {show_degrees(measured.loft_deg)}°{beside}"
    if built is not None:
        return f"{show_degrees(built.loft_deg)}° as built{beside}"
    return "no loft stamped" if stamp is None else f"stamped {show_degrees(stamp)}°"
