"""How long an epoxy cures before anyone bends, reads or hands over.

Common practice for a slow two-part epoxy: the time at room temperature, twice that five degrees
colder, nothing below the least temperature. The hours belong to the resin and count at the
coldest temperature of its cure; nothing shortens them below the sheet's own minimum.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal
from math import ceil

from fitshop.setting import Value


@dataclass(frozen=True, slots=True)
class CureLimits:
    """A resin's hours at full speed, three temperatures [degrees C], and its sheet's minimum."""

    hours: Decimal
    full_speed_c: Decimal
    double_at_c: Decimal
    least_c: Decimal
    least_hours: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True)
class CureEnd:
    """`until`: when the lock ends, at the soonest. `is_too_cold`: it stands still until warmed."""

    until: datetime
    coldest_c: Decimal
    is_too_cold: bool


USUAL = ("hours", "full_speed_c", "double_at_c", "least_c")


def cure_limits_from(settings: Mapping[str, Value]) -> CureLimits:
    """The limits of a resin nobody named: the shop's usual ones. Raises KeyError."""
    return CureLimits(**{name: Decimal(str(settings[f"cure.{name}"])) for name in USUAL})


def cure_minutes(temperature_c: Decimal, limits: CureLimits) -> int | None:
    """Return how long it cures [minutes, rounded up], or None where it doesn't.

    From the full-speed temperature on, the stated hours and never less; below it the time
    doubles for each step from full speed down to `double_at_c`, evenly in between. Never less
    than the sheet's minimum.
    """
    if temperature_c < limits.least_c:
        return None
    colder = max(limits.full_speed_c - temperature_c, Decimal(0))
    step = limits.full_speed_c - limits.double_at_c
    # A shop that sets the two temperatures alike gets the double time for anything colder.
    doublings = float(colder / step) if step > 0 else float(colder > 0)
    hours = max(float(limits.hours) * 2**doublings, float(limits.least_hours))
    return ceil(round(hours * 60, 6))


def cured_at(mixed_at: datetime, temperature_c: Decimal, limits: CureLimits) -> datetime | None:
    """Return when one temperature lets the lock end; None: it never cures."""
    minutes = cure_minutes(temperature_c, limits)
    return None if minutes is None else mixed_at + timedelta(minutes=minutes)


def cure_end(readings: Sequence[tuple[datetime, Decimal]], limits: CureLimits) -> CureEnd:
    """Return when a cure ends by all its temperatures, the first one read as it was mixed.

    The coldest counts for the whole cure. Below the least temperature the cure stands: it begins
    again with the first reading that is warm enough, and counts at the least temperature.
    Raises ValueError without a reading.
    """
    in_order = sorted(readings)
    coldest = min(celsius for _, celsius in in_order)
    begins: datetime | None = in_order[0][0]
    for read_at, celsius in in_order:
        if celsius < limits.least_c:
            begins = None
        elif begins is None:
            begins = read_at
    minutes = cure_minutes(max(coldest, limits.least_c), limits)
    assert minutes is not None
    from_then = in_order[-1][0] if begins is None else begins
    return CureEnd(from_then + timedelta(minutes=minutes), coldest, begins is None)
