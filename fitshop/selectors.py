"""Every read of the shop's own rows that is worth a name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from uuid import UUID

from django.conf import settings
from django.db.models import Max, QuerySet

from fitshop.actor import Actor
from fitshop.models import (
    AuditEntry,
    Bay,
    Location,
    MessageStatus,
    OutgoingMessage,
    SettingValue,
    Shop,
    Staff,
)
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.setting import Setting, Value


@dataclass(frozen=True, slots=True)
class SettingsInForce:
    """What the shop has set, under its version number: 0 where nothing was ever changed."""

    version: int
    values: Mapping[str, Value]

    def __getitem__(self, key: str) -> Value:
        return self.values[key]


@cache
def declared_settings() -> tuple[Setting, ...]:
    """All that may be set, building by building, in the order declared."""
    declared: list[Setting] = []
    for dotted in settings.DECLARED_SETTINGS:
        declared.extend(import_module(dotted).SETTINGS)
    keys = [setting.key for setting in declared]
    if len(set(keys)) != len(keys):
        raise ValueError("two settings share a key")
    return tuple(declared)


def settings_in_force(version: int | None = None) -> SettingsInForce:
    """The settings as they are now, or as they were under `version`: one query."""
    kinds = {setting.key: setting for setting in declared_settings()}
    values = {setting.key: setting.default for setting in kinds.values()}
    rows = SettingValue.objects.order_by("version__number")
    if version is not None:
        rows = rows.filter(version__number__lte=version)
    newest = 0
    for number, key, text in rows.values_list("version__number", "key", "text"):
        newest = number
        if key in kinds:
            values[key] = kinds[key].parsed(text)
    return SettingsInForce(version=newest if version is None else version, values=values)


def the_shop() -> Shop | None:
    """The one shop, or None before its first start."""
    return Shop.objects.first()


# A transaction that took its audit id earlier may commit later: that many ids are counted too.
_LATE_IDS = 200


def audit_mark() -> str:
    """A word that changes with every write in the shop, since every service leaves an audit row.

    Two small queries on the key, whatever the length of the trail.
    """
    newest = AuditEntry.objects.aggregate(newest=Max("id"))["newest"] or 0
    late = AuditEntry.objects.filter(id__gt=newest - _LATE_IDS).count()
    return f"{newest}.{late}"


def locations_for(actor: Actor) -> QuerySet[Location]:
    return Location.objects.filter(id__in=actor.location_ids, is_open=True)


def bays_for(actor: Actor) -> QuerySet[Bay]:
    return Bay.objects.filter(location_id__in=actor.location_ids).select_related("location")


def fitters_for(actor: Actor) -> QuerySet[Staff]:
    """Who may be booked where the actor works."""
    return (
        Staff.objects.filter(
            is_active=True, role_rows__role="fitter", location_rows__location__in=actor.location_ids
        )
        .distinct()
        .order_by("display_name", "username")
    )


def staff_list() -> QuerySet[Staff]:
    return Staff.objects.prefetch_related("role_rows", "locations").order_by("username")


def messages_for(actor: Actor) -> QuerySet[OutgoingMessage]:
    """Newest first, without the bodies; none for an actor who may not read them."""
    if not SHOP_POLICY.is_allowed(actor, ShopAction.MESSAGES_VIEW):
        return OutgoingMessage.objects.none()
    return OutgoingMessage.objects.defer("body_text", "body_html").order_by("-created_at")


def message_for(actor: Actor, message_id: UUID) -> OutgoingMessage | None:
    if not SHOP_POLICY.is_allowed(actor, ShopAction.MESSAGES_VIEW):
        return None
    return OutgoingMessage.objects.prefetch_related("files").filter(pk=message_id).first()


def messages_wanting_a_person() -> int:
    return OutgoingMessage.objects.filter(
        status__in=[MessageStatus.UNKNOWN, MessageStatus.DEAD]
    ).count()


def audit_of(subject_type: str, subject_id: str) -> QuerySet[AuditEntry]:
    return AuditEntry.objects.filter(object_type=subject_type, object_id=subject_id)
