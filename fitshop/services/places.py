"""Where fittings happen: the bays of a location, beyond those of the first start."""

from __future__ import annotations

from datetime import datetime
from uuid import UUID, uuid4

from django.db import transaction

from fitshop.actor import Actor
from fitshop.models import Bay, Location
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.refusals import FieldsRefused
from fitshop.services.audit import audit_record


@transaction.atomic
def bay_enter(
    *,
    bay_id: UUID | None = None,
    location: Location,
    name: str,
    is_indoors: bool,
    by: Actor,
    at: datetime,
) -> Bay:
    """Enter a bay of a location; its name stands once there.

    Raises Refused, FieldsRefused. Writes Bay, AuditEntry.
    """
    SHOP_POLICY.require(by, ShopAction.PLACES_MANAGE, location_id=location.pk)
    if not name.strip():
        raise FieldsRefused({"name": "Give the bay a name."})
    if Bay.objects.filter(location=location, name__iexact=name.strip()).exists():
        raise FieldsRefused({"name": f"{location} has a bay named {name.strip()} already."})

    bay = Bay.objects.create(
        id=bay_id or uuid4(), location=location, name=name.strip(), is_indoors=is_indoors
    )
    audit_record(
        action="shop.bay.entered",
        subject=bay,
        after={"location": location.name, "name": bay.name, "is_indoors": is_indoors},
        by=by,
        at=at,
    )
    return bay
