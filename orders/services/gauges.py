"""The bench's gauges: every reading names one, and its repeatability says when to read twice."""

from __future__ import annotations

from datetime import date, datetime, time
from decimal import Decimal
from uuid import UUID, uuid4

from django.db import transaction

from fitshop.actor import Actor
from fitshop.models import Location
from fitshop.refusals import FieldsRefused
from fitshop.services.audit import audit_record
from orders.models import Gauge, GaugeCheck
from orders.models.bench import Measure
from orders.policy import ORDER_POLICY, OrderAction
from orders.rules.lengths import METHODS

GOOD, OFF = "good", "off"
FOUND = (GOOD, OFF)
# Further off is a slip of the finger, whatever it reads; from memory.
MOST_OFF = Decimal(100)


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
    A day of its check is a good check of that day.
    Raises Refused, FieldsRefused. Writes Gauge, GaugeCheck, AuditEntry.
    """
    ORDER_POLICY.require(by, OrderAction.GAUGE_ENTER, location_id=location.pk)
    known = Gauge.objects.filter(pk=gauge_id, location=location).first() if gauge_id else None
    if known is not None:
        return known
    errors = _errors(name, measure, repeatability)
    if checked_on is not None and checked_on > at.astimezone(location.zone_info).date():
        errors["checked_on"] = "That day is still to come."
    if errors:
        raise FieldsRefused(errors, code="gauges.unbelievable")
    _require_method(measure, length_method)
    gauge = Gauge.objects.create(
        id=gauge_id or uuid4(),
        name=name.strip(),
        measure=measure,
        length_method=length_method,
        location=location,
        repeatability=repeatability,
    )
    if checked_on is not None:
        since = datetime.combine(checked_on, time(), tzinfo=location.zone_info)
        GaugeCheck.objects.create(gauge=gauge, checked_at=since, checked_by=by.name)
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


@transaction.atomic
def gauge_check(
    *,
    gauge: Gauge,
    check_id: UUID | None = None,
    found: str,
    off_by: Decimal | None = None,
    note: str = "",
    by: Actor,
    at: datetime,
) -> GaugeCheck:
    """Write down how a gauge was found: `found` is "good" or "off".

    `off_by`: how much it reads over, in the unit its measure is stored in; below nought, under.
    The same `check_id` again: the same row.
    Raises Refused, FieldsRefused. Writes GaugeCheck, AuditEntry.
    """
    ORDER_POLICY.require(by, OrderAction.GAUGE_ENTER, location_id=gauge.location_id)
    known = GaugeCheck.objects.filter(pk=check_id, gauge=gauge).first() if check_id else None
    if known is not None:
        return known
    error = Decimal(0) if off_by is None else off_by
    if found not in FOUND:
        raise FieldsRefused({"found": "Choose: good, or off."}, code="gauges.found")
    if not error.is_finite() or (found == OFF) != (error != 0) or abs(error) > MOST_OFF:
        sentence = "Say by how much it reads over; with a minus, under. Good is off by nothing."
        raise FieldsRefused({"off_by": sentence}, code="gauges.off_by")
    check = GaugeCheck.objects.create(
        id=check_id or uuid4(),
        gauge=gauge,
        off_by=error,
        note=note.strip(),
        checked_at=at,
        checked_by=by.name,
    )
    audit_record(
        action="orders.gauge.checked",
        subject=gauge,
        after={"off_by": error, "note": check.note},
        by=by,
        at=at,
    )
    return check


@transaction.atomic
def gauge_change(
    *,
    gauge: Gauge,
    name: str,
    length_method: str,
    repeatability: Decimal,
    in_use: bool,
    by: Actor,
    at: datetime,
) -> Gauge:
    """Put a gauge right, or away. What it has read keeps the method it was read by.

    Raises Refused, FieldsRefused. Writes Gauge, AuditEntry.
    """
    ORDER_POLICY.require(by, OrderAction.GAUGE_ENTER, location_id=gauge.location_id)
    row = Gauge.objects.select_for_update().get(pk=gauge.pk)
    if errors := _errors(name, row.measure, repeatability, but=row):
        raise FieldsRefused(errors, code="gauges.unbelievable")
    _require_method(row.measure, length_method)
    columns = {
        "name": name.strip(),
        "length_method": length_method,
        "repeatability": repeatability,
        "in_use": in_use,
    }
    before = {column: getattr(row, column) for column in columns}
    changed = {column: value for column, value in columns.items() if value != before[column]}
    if not changed:
        return row
    for column, value in changed.items():
        setattr(row, column, value)
    row.save(update_fields=list(changed))
    audit_record(
        action="orders.gauge.changed",
        subject=row,
        before={column: before[column] for column in changed},
        after=changed,
        by=by,
        at=at,
    )
    return row


def _require_method(measure: str, length_method: str) -> None:
    if length_method not in (METHODS if measure == Measure.LENGTH else ("",)):
        raise FieldsRefused(
            {"length_method": "A gauge for lengths, and no other, says from where it reads."},
            code="gauges.length_method",
        )


def _errors(
    name: str, measure: str, repeatability: Decimal, but: Gauge | None = None
) -> dict[str, str]:
    errors = {}
    others = Gauge.objects.exclude(pk=but.pk) if but is not None else Gauge.objects.all()
    if not name.strip():
        errors["name"] = "Give the gauge a name."
    elif others.filter(name__iexact=name.strip()).exists():
        errors["name"] = f"There is a gauge named {name.strip()} already."
    if measure not in Measure.values:
        errors["measure"] = "Choose what the gauge measures."
    if repeatability < 0:
        errors["repeatability"] = "A repeatability is not below nought."
    return errors
