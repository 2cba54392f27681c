"""The gauges of the actor's locations, how each was found, and since when it has been trusted."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from django.db.models import QuerySet

from fitshop.actor import Actor
from orders.models import Gauge, GaugeCheck
from orders.models.bench import Measure
from orders.selectors.figures import UNITS


@dataclass(frozen=True, slots=True)
class GaugeFound:
    """A gauge as its checks leave it.

    `off_by`: what its last check found it off by; None where it was good, or never checked.
    `error`, `since`, `until`: the last error found, from the good check before to the one after.
    """

    gauge: Gauge
    unit: str
    last_good_at: datetime | None
    off_by: Decimal | None
    error: Decimal | None
    since: datetime | None
    until: datetime | None

    @property
    def is_off(self) -> bool:
        """True while it is in use and not found good again."""
        return self.off_by is not None and self.gauge.in_use


def gauge_found(gauge: Gauge) -> GaugeFound:
    """Its checks, read in order: prefetch them where there are several gauges."""
    checks: list[GaugeCheck] = sorted(gauge.checks.all(), key=lambda check: check.checked_at)
    unit = UNITS[Measure(gauge.measure)]
    good_at = [check.checked_at for check in checks if check.is_good]
    last_good = good_at[-1] if good_at else None
    off = [check for check in checks if not check.is_good]
    if not off:
        return GaugeFound(gauge, unit, last_good, None, None, last_good, None)
    last_off = off[-1]
    before = [at for at in good_at if at < last_off.checked_at]
    after = [at for at in good_at if at > last_off.checked_at]
    return GaugeFound(
        gauge,
        unit,
        last_good,
        None if after else last_off.off_by,
        last_off.off_by,
        before[-1] if before else None,
        after[0] if after else None,
    )


def gauges_here(actor: Actor) -> list[GaugeFound]:
    """Each gauge with the unit of its repeatability, by what it reads."""
    rows = Gauge.objects.filter(location_id__in=actor.location_ids).order_by("measure", "name")
    return [gauge_found(row) for row in rows.prefetch_related("checks")]


def gauges_off(gauges: QuerySet[Gauge]) -> list[GaugeFound]:
    """Those that were found off and not yet good again."""
    found = [gauge_found(row) for row in gauges.prefetch_related("checks")]
    return [row for row in found if row.is_off]
