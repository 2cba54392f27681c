"""Trial equipment: taken out of use at once, checked, and put back."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from django.db import transaction
from django.db.models import F

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused
from fitshop.services.audit import audit_record
from sessions.models import Adapter, Trial, TrialHead, TrialShaft
from sessions.policy import FITTING_POLICY, FittingAction

Equipment = TrialHead | TrialShaft | Adapter

# What may be measured on each kind of thing.
MEASURED = {
    TrialHead: (
        "measured_loft_deg",
        "measured_lie_deg",
        "measured_bounce_deg",
        "measured_mass_g",
    ),
    TrialShaft: ("playing_length_mm", "measured_mass_g"),
    Adapter: ("mass_g",),
}


@transaction.atomic
def equipment_withdraw(*, item: Equipment, why: str, by: Actor, at: datetime) -> Equipment:
    """Take a thing off every tablet. What was hit with it stays; a second time changes nothing.

    Raises Refused, FieldsRefused. Writes TrialHead, TrialShaft or Adapter, AuditEntry.
    """
    item = _locked(item)
    FITTING_POLICY.require(by, FittingAction.EQUIPMENT_WITHDRAW, location_id=item.location_id)
    if item.withdrawn_at is not None:
        return item
    if not why.strip():
        raise FieldsRefused({"why": "Say why, for example: loose head."})

    item.withdrawn_at = at
    item.withdrawn_why = why.strip()[:200]
    item.withdrawn_by = by.name[:200]
    item.save(update_fields=["withdrawn_at", "withdrawn_why", "withdrawn_by"])
    audit_record(
        action="fitting.equipment.withdrawn",
        subject=item,
        after={"mark": item.mark, "why": item.withdrawn_why},
        by=by,
        at=at,
    )
    return item


@transaction.atomic
def equipment_check(
    *,
    item: Equipment,
    measured: Mapping[str, Decimal | None],
    inspect_by: date | None = None,
    back_in_use: bool = False,
    by: Actor,
    at: datetime,
) -> Equipment:
    """Record a check: what was measured, an adapter's next inspection, and whether it may be used.

    `measured` holds metric figures by column; what is not named stays as it was. The day is the
    location's own.

    Raises Refused, FieldsRefused. Writes TrialHead, TrialShaft or Adapter, AuditEntry.
    """
    item = _locked(item)
    FITTING_POLICY.require(by, FittingAction.EQUIPMENT_CHECK, location_id=item.location_id)
    strange = [field for field in measured if field not in MEASURED[type(item)]]
    if strange:
        raise FieldsRefused(dict.fromkeys(strange, "This is not measured on it."))

    new: dict[str, Any] = {
        **measured,
        "checked_on": at.astimezone(ZoneInfo(item.location.zone)).date(),
    }
    if isinstance(item, Adapter) and inspect_by is not None:
        new["inspect_by"] = inspect_by
    if back_in_use:
        new |= {"withdrawn_at": None, "withdrawn_why": "", "withdrawn_by": ""}
    before = {field: getattr(item, field) for field in new}

    for field, value in new.items():
        setattr(item, field, value)
    item.save(update_fields=list(new))
    audit_record(
        action="fitting.equipment.checked", subject=item, before=before, after=new, by=by, at=at
    )
    return item


def shots_count(trial: Trial, balls: int) -> None:
    """Add `balls` to what the head, shaft and adapter of a trial have hit. Writes those rows.

    Part of recording a shot, which leaves the trace: none of its own.
    """
    for kind, item_id in (
        (TrialHead, trial.trial_head_id),
        (TrialShaft, trial.trial_shaft_id),
        (Adapter, trial.adapter_id),
    ):
        if item_id is None:
            continue
        rows = kind._default_manager.filter(pk=item_id)
        if balls < 0:
            rows = rows.filter(shot_count__gte=-balls)
        rows.update(shot_count=F("shot_count") + balls)


def is_known_withdrawn(item: Equipment, heard_at: datetime | None) -> bool:
    """Whether an item is withdrawn and whoever was last told the state at `heard_at` knew it.

    None: nobody says when it was told, so the withdrawal counts. What a tablet recorded before it
    could know is a fact.
    """
    return item.withdrawn_at is not None and (heard_at is None or item.withdrawn_at <= heard_at)


def _locked(item: Equipment) -> Equipment:
    return type(item)._default_manager.select_for_update().get(pk=item.pk)
