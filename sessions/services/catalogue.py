"""What can be built and what can be tried: entered once, by its maker's or the shop's figures."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any, TypeVar
from uuid import UUID, uuid4

from django.core.exceptions import NON_FIELD_ERRORS, ValidationError
from django.db import transaction
from django.forms.models import model_to_dict

from fitshop.actor import Actor
from fitshop.models import Identified
from fitshop.refusals import FieldsRefused
from fitshop.services.audit import audit_record
from sessions.maths.bending import MAKING_LIMITS
from sessions.models import Adapter, Grip, Head, MeasuringDevice, Shaft, TrialHead, TrialShaft
from sessions.policy import FITTING_POLICY, FittingAction

Values = Mapping[str, Any]
Row = TypeVar("Row", bound=Identified)


@transaction.atomic
def head_enter(*, head_id: UUID | None = None, values: Values, by: Actor, at: datetime) -> Head:
    """Enter a head of one loft for one hand. `values` are Head's columns by name;
    its making is a key of MAKING_LIMITS.

    Raises Refused, FieldsRefused. Writes Head, AuditEntry.
    """
    FITTING_POLICY.require(by, FittingAction.CATALOGUE_ENTER)
    if values.get("making") not in MAKING_LIMITS:
        raise FieldsRefused({"making": "Choose how the head is made, or unknown."})
    head = _entered(Head, head_id, values)
    _record("fitting.head.entered", head, by, at)
    return head


@transaction.atomic
def shaft_enter(*, shaft_id: UUID | None = None, values: Values, by: Actor, at: datetime) -> Shaft:
    """Enter a shaft, uncut. Raises Refused, FieldsRefused. Writes Shaft, AuditEntry."""
    FITTING_POLICY.require(by, FittingAction.CATALOGUE_ENTER)
    shaft = _entered(Shaft, shaft_id, values)
    _record("fitting.shaft.entered", shaft, by, at)
    return shaft


@transaction.atomic
def grip_enter(*, grip_id: UUID | None = None, values: Values, by: Actor, at: datetime) -> Grip:
    """Enter a grip. Raises Refused, FieldsRefused. Writes Grip, AuditEntry."""
    FITTING_POLICY.require(by, FittingAction.CATALOGUE_ENTER)
    grip = _entered(Grip, grip_id, values)
    _record("fitting.grip.entered", grip, by, at)
    return grip


@transaction.atomic
def trial_head_enter(
    *, item_id: UUID | None = None, values: Values, by: Actor, at: datetime
) -> TrialHead:
    """Enter a fitting head under the shop's own mark, with what was measured on it.

    Raises Refused, FieldsRefused. Writes TrialHead, AuditEntry.
    """
    _require_at_location(values, by)
    item = _entered(TrialHead, item_id, values)
    _record("fitting.trial_head.entered", item, by, at)
    return item


@transaction.atomic
def trial_shaft_enter(
    *, item_id: UUID | None = None, values: Values, by: Actor, at: datetime
) -> TrialShaft:
    """Enter a fitting shaft with its grip, by its playing length.

    Raises Refused, FieldsRefused. Writes TrialShaft, AuditEntry.
    """
    _require_at_location(values, by)
    item = _entered(TrialShaft, item_id, values)
    _record("fitting.trial_shaft.entered", item, by, at)
    return item


@transaction.atomic
def adapter_enter(
    *, item_id: UUID | None = None, values: Values, by: Actor, at: datetime
) -> Adapter:
    """Enter an adapter, with the day by which it is to be looked at.

    Raises Refused, FieldsRefused. Writes Adapter, AuditEntry.
    """
    _require_at_location(values, by)
    item = _entered(Adapter, item_id, values)
    _record("fitting.adapter.entered", item, by, at)
    return item


@transaction.atomic
def device_enter(
    *, device_id: UUID | None = None, values: Values, by: Actor, at: datetime
) -> MeasuringDevice:
    """Enter what measures the flight, in the shop's own words.

    Raises Refused, FieldsRefused. Writes MeasuringDevice, AuditEntry.
    """
    _require_at_location(values, by)
    device = _entered(MeasuringDevice, device_id, values)
    _record("fitting.device.entered", device, by, at)
    return device


def _require_at_location(values: Values, by: Actor) -> None:
    location = values.get("location")
    if location is None:
        raise FieldsRefused({"location": "Say where it is kept."})
    FITTING_POLICY.require(by, FittingAction.CATALOGUE_ENTER, location_id=location.pk)


def _entered(model: type[Row], row_id: UUID | None, values: Values) -> Row:
    """A new row from columns by name; what doesn't fit is said per field."""
    row = model(id=row_id or uuid4(), **values)
    try:
        row.full_clean()
    except ValidationError as error:
        raise FieldsRefused(_sentences(error)) from error
    row.save(force_insert=True)
    return row


def _sentences(error: ValidationError) -> dict[str, str]:
    named = {name: messages[0] for name, messages in error.message_dict.items()}
    whole = named.pop(NON_FIELD_ERRORS, None)
    return named if whole is None else {"__all__": whole, **named}


def _record(action: str, row: Identified, by: Actor, at: datetime) -> None:
    audit_record(action=action, subject=row, after=model_to_dict(row), by=by, at=at)
