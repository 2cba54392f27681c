"""The workshop's rows: what was ordered, what was built, and how it measured."""

from orders.models.bench import (
    BenchStep,
    Check,
    Concession,
    Gauge,
    GaugeCheck,
    Reading,
    SetConcession,
)
from orders.models.build_orders import (
    BuildOrder,
    OrderClub,
    OrderRevision,
    PartsWait,
    RoundsReport,
)
from orders.models.metal import PermanentFact
from orders.models.resins import Resin
from orders.models.tellings import Telling

__all__ = [
    "BenchStep",
    "BuildOrder",
    "Check",
    "Concession",
    "Gauge",
    "GaugeCheck",
    "OrderClub",
    "OrderRevision",
    "PartsWait",
    "PermanentFact",
    "Reading",
    "Resin",
    "RoundsReport",
    "SetConcession",
    "Telling",
]
