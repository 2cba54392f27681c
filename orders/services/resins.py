"""The shop's resins: what each one's sheet says, entered by who has the sheet in his hand."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from decimal import Decimal
from typing import Any
from uuid import UUID, uuid4

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused
from fitshop.services.audit import audit_record
from orders.models import Resin
from orders.policy import ORDER_POLICY, OrderAction

FIGURES = ("hours", "least_hours", "full_speed_c", "double_at_c", "least_c")
COLUMNS = ("name", "speed", *FIGURES)


@transaction.atomic
def resin_enter(
    *, resin_id: UUID | None = None, values: Mapping[str, Any], by: Actor, at: datetime
) -> Resin:
    """Enter a resin by its sheet. The same `resin_id` again: the same row.

    `values`: name, speed ("slow" or "quick"), hours at full speed, the sheet's least hours, and
    the temperatures of full speed, double time and no cure.
    Raises Refused, FieldsRefused. Writes Resin, AuditEntry.
    """
    ORDER_POLICY.require(by, OrderAction.RESIN_ENTER)
    known = Resin.objects.filter(pk=resin_id).first() if resin_id is not None else None
    if known is not None:
        return known
    columns = _believable(values, but=None)
    resin = Resin.objects.create(
        id=resin_id or uuid4(), created_at=at, created_by=by.name, **columns
    )
    audit_record(action="orders.resin.entered", subject=resin, after=columns, by=by, at=at)
    return resin


@transaction.atomic
def resin_change(
    *, resin: Resin, values: Mapping[str, Any], in_use: bool, by: Actor, at: datetime
) -> Resin:
    """Put a resin right, or away. Cures that go on keep the figures they were begun with.

    Raises Refused, FieldsRefused. Writes Resin, AuditEntry.
    """
    ORDER_POLICY.require(by, OrderAction.RESIN_ENTER)
    row = Resin.objects.select_for_update().get(pk=resin.pk)
    columns = _believable(values, but=row) | {"in_use": in_use}
    before = {name: getattr(row, name) for name in columns}
    changed = {name: value for name, value in columns.items() if value != before[name]}
    if not changed:
        return row
    for name, value in changed.items():
        setattr(row, name, value)
    row.save()
    audit_record(
        action="orders.resin.changed",
        subject=row,
        before={name: before[name] for name in changed},
        after=changed,
        by=by,
        at=at,
    )
    return row


def _believable(values: Mapping[str, Any], *, but: Resin | None) -> dict[str, Any]:
    columns = {name: values[name] for name in COLUMNS} | {"name": str(values["name"]).strip()}
    hours, least = columns["hours"], columns["least_hours"]
    full, double, coldest = (columns[name] for name in ("full_speed_c", "double_at_c", "least_c"))
    errors: dict[str, str] = {}
    others = Resin.objects.exclude(pk=but.pk) if but is not None else Resin.objects.all()
    if not columns["name"]:
        errors["name"] = "Type the name on the tin."
    elif others.filter(name__iexact=columns["name"]).exists():
        errors["name"] = "There is a resin of this name already."
    if columns["speed"] not in Resin.Speed.values:
        errors["speed"] = "Choose: slow, or quick."
    if not Decimal(0) < least:
        errors["least_hours"] = "Type the least hours of the sheet."
    elif hours < least:
        errors["hours"] = f"The sheet asks for {least:g} hours at least."
    if double > full:
        errors["double_at_c"] = "It takes twice as long at a colder temperature than that."
    if coldest > double:
        errors["least_c"] = "This can't be warmer than the temperature of the double time."
    if errors:
        raise FieldsRefused(errors, code="resins.figures")
    return columns
