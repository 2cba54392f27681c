"""Tablets that stand in the shop, and changing people on them by PIN.

A PIN is short: it opens nothing but on a device that a manager enrolled, at a place where its
owner works, and after five wrong ones it is the password's turn (counted at the door).
"""

from __future__ import annotations

from datetime import datetime
from itertools import pairwise

from django.contrib.auth.hashers import check_password, make_password
from django.db import transaction

from fitshop.actor import Actor
from fitshop.models import Location, Staff, Tablet
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.refusals import FieldsRefused
from fitshop.selectors import tablet_token_hash
from fitshop.services.audit import audit_record

PIN_DIGITS = (4, 8)


@transaction.atomic
def tablet_enrol(*, name: str, location: Location, token: str, by: Actor, at: datetime) -> Tablet:
    """Enrol a device that will show `token`. Raises Refused, FieldsRefused. Writes Tablet."""
    SHOP_POLICY.require(by, ShopAction.TABLETS_MANAGE, location_id=location.pk)
    standing = Tablet.objects.select_for_update().filter(
        location=location, name__iexact=name.strip(), withdrawn_at=None
    )
    if standing.exists():
        raise FieldsRefused(
            {"name": f"{location} has a tablet named {name.strip()} already."},
            code="tablet.name_taken",
        )
    tablet = Tablet.objects.create(
        name=name.strip(),
        location=location,
        token_sha256=tablet_token_hash(token),
        enrolled_at=at,
        enrolled_by=by.name,
    )
    audit_record(
        action="shop.tablet.enrolled",
        subject=tablet,
        after={"name": tablet.name, "location": location.name},
        by=by,
        at=at,
    )
    return tablet


@transaction.atomic
def tablet_withdraw(*, tablet: Tablet, by: Actor, at: datetime) -> Tablet:
    """Take the right to ask for PINs from a device. Raises Refused. Writes Tablet."""
    row = Tablet.objects.select_for_update().get(pk=tablet.pk)
    SHOP_POLICY.require(by, ShopAction.TABLETS_MANAGE, location_id=row.location_id)
    if row.withdrawn_at is None:
        row.withdrawn_at = at
        row.save(update_fields=["withdrawn_at"])
        audit_record(action="shop.tablet.withdrawn", subject=row, by=by, at=at)
    return row


@transaction.atomic
def pin_set(*, person: Staff, pin: str, by: Actor, at: datetime) -> Staff:
    """Set or clear the PIN of the person who asks. Raises FieldsRefused. Writes Staff."""
    row = Staff.objects.select_for_update().get(pk=person.pk)
    if pin and (sentence := _pin_refusal(pin)):
        raise FieldsRefused({"pin": sentence}, code="pin.too_simple")
    row.pin = make_password(pin) if pin else ""
    row.save(update_fields=["pin"])
    audit_record(
        action="shop.staff.pin_set", subject=row, after={"has_pin": bool(pin)}, by=by, at=at
    )
    return row


@transaction.atomic
def pin_try(*, person: Staff, tablet: Tablet, pin: str, by: Actor, at: datetime) -> bool:
    """Return whether this PIN lets this person in on this tablet; either way it is audited.

    Writes AuditEntry.
    """
    works_there = person.is_active and person.locations.filter(pk=tablet.location_id).exists()
    is_enrolled = tablet.withdrawn_at is None
    is_right = bool(person.pin) and check_password(pin, person.pin)
    is_let_in = works_there and is_enrolled and is_right
    audit_record(
        action="shop.staff.changed_by_pin" if is_let_in else "shop.staff.pin_failed",
        subject=person,
        after={"tablet": tablet.name},
        by=by,
        at=at,
    )
    return is_let_in


def _pin_refusal(pin: str) -> str:
    low, high = PIN_DIGITS
    if not (pin.isascii() and pin.isdigit() and low <= len(pin) <= high):
        return f"A PIN has {low} to {high} digits."
    steps = {int(b) - int(a) for a, b in pairwise(pin)}
    if steps <= {0} or steps == {1} or steps == {-1}:
        return "Choose digits that aren't all alike and don't count up or down."
    return ""
