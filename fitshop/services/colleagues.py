"""A manager helps a colleague: other roles, another address, a new password, a lost factor.

Who asks is asked for the own password again at the door. What ends a sign-in ends every session.
"""

from __future__ import annotations

from collections.abc import Collection
from datetime import datetime
from uuid import uuid4

from allauth.mfa.models import Authenticator
from django.contrib.auth.password_validation import validate_password
from django.db import transaction
from django.utils.crypto import get_random_string

from fitshop.actor import Actor, ActorKind, Role
from fitshop.models import Location, Staff, StaffLocation, StaffRole
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.refusals import StateRefused
from fitshop.services.account_letters import sign_in_address_set
from fitshop.services.audit import audit_record
from fitshop.services.staff import managers_locked


def one_time_password() -> str:
    """A password to read aloud: 14 letters and digits that can't be taken for each other."""
    return get_random_string(14, "abcdefghjkmnpqrstuvwxyz23456789")


@transaction.atomic
def staff_change(
    *,
    person: Staff,
    display_name: str,
    email: str,
    roles: Collection[Role],
    locations: Collection[Location],
    by: Actor,
    at: datetime,
) -> Staff:
    """Change what a colleague is called, does, and where.

    A changed address is unconfirmed until its owner follows the link; a letter goes to the old one.
    Raises Refused, StateRefused. Writes Staff, StaffRole, StaffLocation, OutgoingMessage.
    """
    row, managers = _locked(person, by)
    before = _as_it_is(row)
    if Role.MANAGER not in roles and row in managers:
        if row.pk == by.staff_id:
            raise StateRefused(
                "You can't give up your own manager's role. Ask another manager.",
                code="staff.own_manager_role",
            )
        if len(managers) == 1:
            raise StateRefused(
                f"{row} is the last manager. Enter another manager first.",
                code="staff.last_manager",
            )
    row.display_name = display_name
    row.save(update_fields=["display_name"])
    if email.lower() != row.email.lower():
        sign_in_address_set(person=row, email=email, by=by, at=at)
    row.role_rows.exclude(role__in=[role.value for role in roles]).delete()
    row.location_rows.exclude(location__in=locations).delete()
    StaffRole.objects.bulk_create(
        [StaffRole(staff=row, role=role.value) for role in roles], ignore_conflicts=True
    )
    StaffLocation.objects.bulk_create(
        [StaffLocation(staff=row, location=one) for one in locations], ignore_conflicts=True
    )
    _record("changed", row, before=before, by=by, at=at)
    return row


@transaction.atomic
def staff_password_give(*, person: Staff, password: str, by: Actor, at: datetime) -> Staff:
    """Give a colleague a password for one sign-in, at which another has to be set.

    Raises Refused, StateRefused, ValidationError (the password). Writes Staff.
    """
    row = _helped(person, by, "Change your own password from the menu under your name.")
    validate_password(password, row)
    row.set_password(password)
    row.must_set_password, row.sign_in_epoch = True, uuid4()
    row.save(update_fields=["password", "must_set_password", "sign_in_epoch"])
    _record("password_given", row, by=by, at=at)
    return row


@transaction.atomic
def staff_factor_remove(*, person: Staff, by: Actor, at: datetime) -> Staff:
    """Remove a colleague's second factor, say with the telephone lost; a new one is asked for.

    Raises Refused, StateRefused. Writes Authenticator, Staff.
    """
    row = _helped(person, by, "Change your own second factor from the menu under your name.")
    Authenticator.objects.filter(user=row).delete()
    row.sign_in_epoch = uuid4()
    row.save(update_fields=["sign_in_epoch"])
    _record("factor_removed", row, by=by, at=at)
    return row


@transaction.atomic
def staff_sessions_end(*, person: Staff, by: Actor, at: datetime) -> Staff:
    """Sign a colleague out everywhere. Raises Refused. Writes Staff."""
    row, _ = _locked(person, by)
    row.sign_in_epoch = uuid4()
    row.save(update_fields=["sign_in_epoch"])
    _record("signed_out", row, by=by, at=at)
    return row


@transaction.atomic
def own_password_set(*, person: Staff, password: str, by: Actor, at: datetime) -> None:
    """Set the password that its owner chose. Writes Staff."""
    person.set_password(password)
    person.must_set_password = False
    person.save(update_fields=["password", "must_set_password"])
    _record("password_set", person, by=by, at=at)


def _locked(person: Staff, by: Actor) -> tuple[Staff, list[Staff]]:
    """The colleague's row and the managers' rows, locked in one order."""
    if by.kind is not ActorKind.SYSTEM:  # `staff_rescue`, typed on the shop's own machine
        SHOP_POLICY.require(by, ShopAction.STAFF_MANAGE)
    managers = managers_locked()
    return Staff.objects.select_for_update().get(pk=person.pk), managers


def _helped(person: Staff, by: Actor, own: str) -> Staff:
    row, _ = _locked(person, by)
    if row.pk == by.staff_id:
        raise StateRefused(own, code="staff.own_sign_in")
    return row


def _as_it_is(row: Staff) -> dict[str, object]:
    return {
        "display_name": row.display_name,
        "email": row.email,
        "roles": sorted(row.role_rows.values_list("role", flat=True)),
        "locations": sorted(row.locations.values_list("name", flat=True)),
    }


def _record(
    deed: str, row: Staff, *, before: dict[str, object] | None = None, by: Actor, at: datetime
) -> None:
    after = {"username": row.username} | (_as_it_is(row) if before is not None else {})
    audit_record(action=f"shop.staff.{deed}", subject=row, before=before, after=after, by=by, at=at)
