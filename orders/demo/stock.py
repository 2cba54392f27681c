"""Loads the demo's catalogue, trial equipment, devices and gauges through their services."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any
from uuid import UUID

from fitshop.models import Identified, Location
from orders.demo.catalogue_heads import head_name, head_rows, row_name
from orders.demo.catalogue_parts import grip_rows, shaft_rows
from orders.demo.equipment import (
    ADAPTERS,
    DEVICES,
    GAUGES,
    RESINS,
    TRIAL_HEADS,
    TRIAL_SHAFTS,
    WITHDRAWN_HEAD,
)
from orders.demo.identity import DEMO_ACTOR, demo_id
from orders.models import Gauge, Resin
from orders.services.gauges import gauge_enter
from orders.services.resins import resin_enter
from sessions.models import Adapter, Grip, Head, MeasuringDevice, Shaft, TrialHead, TrialShaft
from sessions.services.catalogue import (
    adapter_enter,
    device_enter,
    grip_enter,
    head_enter,
    shaft_enter,
    trial_head_enter,
    trial_shaft_enter,
)
from sessions.services.equipment import equipment_withdraw


def catalogue_loaded(at: datetime) -> None:
    """Enter the heads, shafts and grips that are missing."""
    known = _ids(Head)
    for values in head_rows():
        if (head_id := demo_id("head", row_name(values))) not in known:
            head_enter(head_id=head_id, values=values, by=DEMO_ACTOR, at=at)
    known = _ids(Shaft)
    for key, values in shaft_rows():
        if (shaft_id := demo_id("shaft", key)) not in known:
            shaft_enter(shaft_id=shaft_id, values=values, by=DEMO_ACTOR, at=at)
    known = _ids(Grip)
    for key, values in grip_rows():
        if (grip_id := demo_id("grip", key)) not in known:
            grip_enter(grip_id=grip_id, values=values, by=DEMO_ACTOR, at=at)


def equipment_loaded(location: Location, at: datetime) -> None:
    """Enter the trial equipment, devices and gauges that are missing."""
    today = at.date()
    known = _ids(TrialHead)
    for item_id, values in _trial_heads(today):
        if item_id not in known:
            values["location"] = location
            item = trial_head_enter(item_id=item_id, values=values, by=DEMO_ACTOR, at=at)
            if item.mark == WITHDRAWN_HEAD[0]:
                equipment_withdraw(item=item, why=WITHDRAWN_HEAD[1], by=DEMO_ACTOR, at=at)
    known = _ids(TrialShaft)
    for item_id, values in _trial_shafts(today):
        if item_id not in known:
            values["location"] = location
            trial_shaft_enter(item_id=item_id, values=values, by=DEMO_ACTOR, at=at)
    known = _ids(Adapter)
    for item_id, values in _adapters(today):
        if item_id not in known:
            values["location"] = location
            adapter_enter(item_id=item_id, values=values, by=DEMO_ACTOR, at=at)
    _devices(location, at)
    _gauges(location, at)
    _resins(at)


def _ids(model: type[Identified]) -> set[UUID]:
    return set(model._default_manager.values_list("pk", flat=True))


def _ago(today: date, days: int) -> date:
    return today - timedelta(days=days)


def _trial_heads(today: date) -> Iterator[tuple[UUID, dict[str, Any]]]:
    heads = Head.objects.in_bulk()
    for mark, head, loft, lie, bounce, mass, days, shots in TRIAL_HEADS:
        yield (
            demo_id("trial head", mark),
            {
                "mark": mark,
                "head": heads[demo_id("head", head_name(*head))],
                "measured_loft_deg": Decimal(loft),
                "measured_lie_deg": Decimal(lie),
                "measured_bounce_deg": Decimal(bounce),
                "measured_mass_g": Decimal(mass),
                "checked_on": _ago(today, days),
                "shot_count": shots,
            },
        )


def _trial_shafts(today: date) -> Iterator[tuple[UUID, dict[str, Any]]]:
    shafts, grips = Shaft.objects.in_bulk(), Grip.objects.in_bulk()
    for mark, shaft, grip, length, mass, days, shots in TRIAL_SHAFTS:
        yield (
            demo_id("trial shaft", mark),
            {
                "mark": mark,
                "shaft": shafts[demo_id("shaft", shaft)],
                "grip": grips[demo_id("grip", grip)],
                "playing_length_mm": Decimal(length),
                "measured_mass_g": Decimal(mass),
                "checked_on": _ago(today, days),
                "shot_count": shots,
            },
        )


def _adapters(today: date) -> Iterator[tuple[UUID, dict[str, Any]]]:
    for mark, mass, days, days_left, shots in ADAPTERS:
        yield (
            demo_id("adapter", mark),
            {
                "mark": mark,
                "mass_g": Decimal(mass),
                "checked_on": _ago(today, days),
                "inspect_by": today + timedelta(days=days_left),
                "shot_count": shots,
            },
        )


def _devices(location: Location, at: datetime) -> None:
    known = _ids(MeasuringDevice)
    for name, spin, tracks, note in DEVICES:
        if (device_id := demo_id("device", name)) not in known:
            values = {
                "name": name,
                "location": location,
                "measures_spin": spin,
                "tracks_flight": tracks,
                "note": note,
            }
            device_enter(device_id=device_id, values=values, by=DEMO_ACTOR, at=at)


def _resins(at: datetime) -> None:
    known = _ids(Resin)
    for name, speed, *figures in RESINS:
        if (resin_id := demo_id("resin", name)) not in known:
            columns = ("hours", "least_hours", "full_speed_c", "double_at_c", "least_c")
            values = {"name": name, "speed": speed}
            values |= dict(zip(columns, map(Decimal, figures), strict=True))
            resin_enter(resin_id=resin_id, values=values, by=DEMO_ACTOR, at=at)


def _gauges(location: Location, at: datetime) -> None:
    known = _ids(Gauge)
    for name, measure, repeatability, days, method in GAUGES:
        if (gauge_id := demo_id("gauge", name)) not in known:
            gauge_enter(
                gauge_id=gauge_id,
                name=name,
                measure=measure,
                length_method=method,
                location=location,
                repeatability=Decimal(repeatability),
                checked_on=_ago(at.date(), days),
                by=DEMO_ACTOR,
                at=at,
            )
