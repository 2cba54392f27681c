"""The bench's gauges: every reading names one, and its repeatability says when to read twice."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from uuid import UUID, uuid4

from django.db import transaction

from fitshop.actor import Actor
from fitshop.models import Location
from fitshop.refusals import FieldsRefused
from fitshop.services.audit import audit_record
from orders.models import Gauge
from orders.models.bench import Measure
from orders.policy import ORDER_POLICY, OrderAction
from orders.rules.lengths import METHODS


@transaction.atomic
def gauge_enter(
    *,
    gauge_id: UUID | None = None,
    name: str,
    measure: str,
    length_method: str = "",
    location: Location,
    repeatability: Decimal,
    checked_on: date | None,
    by: Actor,
    at: datetime,
) -> Gauge:
    """Enter a gauge. `repeatability` is in the unit its measure is stored in.

    The same `gauge_id` again: the same row. A gauge for lengths says by which method it reads,
    `length_method`; no other has one.
    Raises Refused, FieldsRefused. Writes Gauge, AuditEntry.
    """
    ORDER_POLICY.require(by, OrderAction.GAUGE_ENTER, location_id=location.pk)
    known = Gauge.objects.filter(pk=gauge_id, location=location).first() if gauge_id else None
    if known is not None:
        return known
    if errors := _errors(name, measure, repeatability):
        raise FieldsRefused(errors)
    if length_method not in (METHODS if measure == Measure.LENGTH else ("",)):
        raise FieldsRefused(
            {"length_method": "A gauge for lengths, and no other, says from where it reads."},
            code="gauges.length_method",
        )

    gauge = Gauge.objects.create(
        id=gauge_id or uuid4(),
        name=name.strip(),
        measure=measure,
        length_method=length_method,
        location=location,
        repeatability=repeatability,
        checked_on=checked_on,
    )
    audit_record(
        action="orders.gauge.entered",
        subject=gauge,
        after={
            "name": gauge.name,
            "measure": measure,
            "length_method": length_method,
            "repeatability": repeatability,
        },
        by=by,
        at=at,
    )
    return gauge


def _errors(name: str, measure: str, repeatability: Decimal) -> dict[str, str]:
    errors = {}
    if not name.strip():
        errors["name"] = "Give the gauge a name."
    elif Gauge.objects.filter(name__iexact=name.strip()).exists():
        errors["name"] = f"There is a gauge named {name.strip()} already."
    if measure not in Measure.values:
        errors["measure"] = "Choose what the gauge measures."
    if repeatability < 0:
        errors["repeatability"] = "A repeatability is not below nought."
    return errors
