"""The gauges of the actor's locations, with the unit that each repeats within."""

from __future__ import annotations

from fitshop.actor import Actor
from orders.models import Gauge
from orders.models.bench import Measure
from orders.selectors.figures import UNITS


def gauges_here(actor: Actor) -> list[tuple[Gauge, str]]:
    """Each gauge with the unit of its repeatability, by what it reads."""
    rows = Gauge.objects.filter(location_id__in=actor.location_ids).order_by("measure", "name")
    return [(row, UNITS[Measure(row.measure)]) for row in rows]
