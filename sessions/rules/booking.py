"""What a desk is asked about once before an appointment is written down.

Nothing here refuses: paper records are entered late, and a shop may work at night.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from fitshop.setting import Value


@dataclass(frozen=True, slots=True)
class Doubt:
    """One question. `key` names what was seen, with its figures: an answer is to this only."""

    key: str
    field: str
    sentence: str


def booking_doubts(
    begins: datetime, *, today: date, settings: Mapping[str, Value]
) -> tuple[Doubt, ...]:
    """Questions about a time, `begins` and `today` both on the location's own clock."""
    day = begins.date()
    shown = f"{day:%a} {day.day} {day:%b} {day.year}"
    doubts = []
    if day < today:
        doubts.append(Doubt(f"past:{day}", "day", f"{shown} is past. Is that the day?"))
    if day > today + timedelta(days=int(str(settings["visit.days_ahead"]))):
        doubts.append(Doubt(f"ahead:{day}", "day", f"{shown} is far ahead. Is that the day?"))
    earliest, latest = (int(str(settings[f"visit.{name}_hour"])) for name in ("from", "until"))
    if not earliest <= begins.hour < latest:
        doubts.append(
            Doubt(f"hour:{begins:%H:%M}", "time", f"Begins at {begins:%H:%M}. Is that the time?")
        )
    return tuple(doubts)
