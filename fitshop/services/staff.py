"""Who works here: entered by a manager, and the first manager by the set-up page."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from uuid import uuid4

from django.contrib.auth.password_validation import validate_password
from django.db import transaction
from django.db.models import Q

from fitshop.actor import Actor, ActorKind, Role
from fitshop.models import Bay, Location, Shop, Staff, StaffLocation, StaffRole
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.refusals import StateRefused
from fitshop.services.account_letters import sign_in_address_set
from fitshop.services.audit import audit_record


class ShopIsSetUp(Exception):
    """The first start is over: a manager signs in and changes things from there."""


class NameIsTaken(Exception):
    """Someone signs in under this name already."""


@transaction.atomic
def shop_set_up(
    *,
    shop_name: str,
    location_name: str,
    zone: str,
    length_unit: str,
    carry_unit: str,
    paper: str,
    username: str,
    display_name: str,
    password: str,
    by: Actor,
    at: datetime,
) -> Shop:
    """Make the shop, its first location with one bay, and its first manager.

    Raises ShopIsSetUp, ValidationError (the password). Writes Shop, Location, Bay, Staff.
    """
    if Shop.objects.select_for_update().exists() or Staff.objects.exists():
        raise ShopIsSetUp
    manager = Staff(username=username, display_name=display_name)
    validate_password(password, manager)

    shop = Shop(name=shop_name, length_unit=length_unit, carry_unit=carry_unit, paper=paper)
    shop.full_clean()
    shop.save()
    location = Location(name=location_name, zone=zone)
    location.full_clean()
    location.save()
    Bay.objects.create(location=location, name="Bay 1")
    manager.set_password(password)
    manager.save()
    _place(manager, roles=list(Role), locations=[location])
    audit_record(
        action="shop.shop.set_up",
        subject=shop,
        after={"name": shop_name, "location": location_name, "manager": username},
        by=by,
        at=at,
    )
    return shop


@transaction.atomic
def staff_enter(
    *,
    username: str,
    display_name: str,
    email: str,
    password: str,
    roles: Iterable[Role],
    locations: Iterable[Location],
    by: Actor,
    at: datetime,
) -> Staff:
    """Enter a member of staff, whose first password holds for one sign-in.

    Raises Refused, NameIsTaken, ValidationError.
    Writes Staff, StaffRole, StaffLocation.
    """
    if by.kind is not ActorKind.SYSTEM:  # the demo shop is made by the clockwork
        SHOP_POLICY.require(by, ShopAction.STAFF_MANAGE)
    if Staff.objects.filter(username__iexact=username).exists():
        raise NameIsTaken
    is_given = by.kind is not ActorKind.SYSTEM
    person = Staff(username=username, display_name=display_name, must_set_password=is_given)
    validate_password(password, person)

    person.set_password(password)
    person.save()
    if email:
        sign_in_address_set(person=person, email=email, by=by, at=at)
    chosen = list(roles)
    _place(person, roles=chosen, locations=list(locations))
    audit_record(
        action="shop.staff.entered",
        subject=person,
        after={"username": username, "roles": [role.value for role in chosen]},
        by=by,
        at=at,
    )
    return person


@transaction.atomic
def staff_stop(*, person: Staff, by: Actor, at: datetime) -> Staff:
    """Someone no longer works here: they can't sign in, and all that they did stays as it is.

    Every session of theirs ends at once, and stays ended if they return.
    Raises Refused, StateRefused. Writes Staff.
    """
    SHOP_POLICY.require(by, ShopAction.STAFF_MANAGE)
    managers = managers_locked()
    row = Staff.objects.select_for_update().get(pk=person.pk)
    if row.pk == by.staff_id:
        raise StateRefused(
            "You can't end your own work here. Ask another manager.", code="staff.own_work"
        )
    if not row.is_active:
        raise StateRefused(f"{row} no longer works here already.", code="staff.not_here")
    if {manager.pk for manager in managers} == {row.pk}:
        raise StateRefused(
            f"{row} is the last manager. Enter another manager first.", code="staff.last_manager"
        )
    return _works_here(row, False, action="shop.staff.stopped", by=by, at=at)


@transaction.atomic
def staff_return(*, person: Staff, by: Actor, at: datetime) -> Staff:
    """Someone works here again, under the same name, password and roles.

    Raises Refused, StateRefused. Writes Staff.
    """
    SHOP_POLICY.require(by, ShopAction.STAFF_MANAGE)
    row = Staff.objects.select_for_update().get(pk=person.pk)
    if row.is_active:
        raise StateRefused(f"{row} works here already.", code="staff.here")
    return _works_here(row, True, action="shop.staff.returned", by=by, at=at)


def managers_locked() -> list[Staff]:
    """The managers who work here, locked: two can't stop each other at once."""
    manages = Q(pk__in=StaffRole.objects.filter(role=Role.MANAGER.value).values("staff"))
    return list(Staff.objects.select_for_update().filter(manages, is_active=True).order_by("pk"))


def _works_here(row: Staff, is_active: bool, *, action: str, by: Actor, at: datetime) -> Staff:
    row.is_active, row.sign_in_epoch = is_active, uuid4()
    row.save(update_fields=["is_active", "sign_in_epoch"])
    audit_record(
        action=action,
        subject=row,
        before={"is_active": not is_active},
        after={"is_active": is_active, "username": row.username},
        by=by,
        at=at,
    )
    return row


def _place(person: Staff, *, roles: list[Role], locations: list[Location]) -> None:
    StaffRole.objects.bulk_create(StaffRole(staff=person, role=role.value) for role in roles)
    StaffLocation.objects.bulk_create(
        StaffLocation(staff=person, location=location) for location in locations
    )
