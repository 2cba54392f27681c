"""How long the shop's epoxy cures before anyone bends, reads or hands over.

Common practice for a slow two-part epoxy: the time at room temperature, twice that five degrees
colder, nothing below the least temperature. The resin's own sheet always wins: a shop that has
it types its hours.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal
from math import ceil

from fitshop.setting import Value


@dataclass(frozen=True, slots=True)
class CureLimits:
    """The settings `cure.*`: hours at full speed, and three temperatures [degrees C]."""

    hours: Decimal
    full_speed_c: Decimal
    double_at_c: Decimal
    least_c: Decimal


def cure_limits_from(settings: Mapping[str, Value]) -> CureLimits:
    """Build the limits from the shop's settings by key. Raises KeyError for a missing one."""
    return CureLimits(
        **{name: Decimal(str(settings[f"cure.{name}"])) for name in CureLimits.__dataclass_fields__}
    )


def cure_minutes(temperature_c: Decimal, limits: CureLimits) -> int | None:
    """Return how long it cures [minutes, rounded up], or None where it doesn't.

    From the full-speed temperature on, the stated hours and never less; below it the time
    doubles for each step from full speed down to `double_at_c`, evenly in between.
    """
    if temperature_c < limits.least_c:
        return None
    colder = max(limits.full_speed_c - temperature_c, Decimal(0))
    step = limits.full_speed_c - limits.double_at_c
    # A shop that sets the two temperatures alike gets the double time for anything colder.
    doublings = float(colder / step) if step > 0 else float(colder > 0)
    return ceil(round(float(limits.hours) * 60 * 2**doublings, 6))


def cured_at(mixed_at: datetime, temperature_c: Decimal, limits: CureLimits) -> datetime | None:
    """Return when the lock on bending, final readings and hand-over ends; None: it never cures."""
    minutes = cure_minutes(temperature_c, limits)
    return None if minutes is None else mixed_at + timedelta(minutes=minutes)
