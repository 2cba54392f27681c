"""The air that a visit happened in, as it was measured or reported."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused
from fitshop.services.audit import audit_record
from sessions.models import Conditions, Visit
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.rules.air_noted import pressure_noted
from sessions.services.visits import sequence_take

# Believable air, as the columns' constraints have it: unit, lowest, highest.
CONDITION_LIMITS = {
    "temperature_c": ("degrees C", -20, 50),
    "pressure_hpa": ("hPa", 600, 1100),
    "altitude_m": ("m", -430, 5000),
    "humidity_pct": ("%", 0, 100),
    "wind_ms": ("m/s", 0, 40),
    "wind_to_deg": ("degrees", -180, 360),
}


@transaction.atomic
def conditions_record(
    *, visit: Visit, conditions_id: UUID, values: Mapping[str, Any], by: Actor, at: datetime
) -> Conditions:
    """Record the air. `values` are the columns in metric units; `as_typed` may come along.

    Left out or None is not measured. `is_sea_level` in `values`: the pressure is a weather report's
    and is taken down to the altitude noted, else the location's. The same `conditions_id` again:
    the same row.
    Raises Refused, FieldsRefused. Writes Conditions, Visit, AuditEntry.
    """
    row = Visit.objects.select_for_update(of=("self",)).get(pk=visit.pk)
    FITTING_POLICY.require(by, FittingAction.CAPTURE, location_id=row.location_id, state=row.state)
    known = Conditions.objects.filter(pk=conditions_id, visit=row).first()
    if known is not None:
        return known
    measured = {name: values.get(name) for name in CONDITION_LIMITS}
    _refuse_air(measured)

    measured["pressure_hpa"] = _pressure(row, measured, bool(values.get("is_sea_level")))

    conditions = Conditions.objects.create(
        id=conditions_id,
        visit=row,
        sequence=sequence_take(row),
        measured_at=values.get("measured_at") or at,
        recorded_by=by.name,
        as_typed=dict(values.get("as_typed") or {}),
        **measured,
    )
    audit_record(
        action="fitting.conditions.recorded", subject=conditions, after=measured, by=by, at=at
    )
    return conditions


def _refuse_air(measured: Mapping[str, float | None]) -> None:
    errors = {}
    for name, (unit, low, high) in CONDITION_LIMITS.items():
        value = measured[name]
        if value is not None and not low <= value <= high:
            errors[name] = f"{value:g} {unit} is not believable: {low} to {high}."
    if errors:
        raise FieldsRefused(errors)


def _pressure(
    visit: Visit, measured: Mapping[str, float | None], is_sea_level: bool
) -> float | None:
    """The pressure at the place; refused where it can't be that of a place so high."""
    altitude = measured["altitude_m"]
    if altitude is None:
        altitude = visit.location.altitude_m
    noted = pressure_noted(measured["pressure_hpa"], altitude, is_from_report=is_sea_level)
    if noted.refusal:
        raise FieldsRefused({"pressure_hpa": noted.refusal})
    return noted.pressure_hpa
