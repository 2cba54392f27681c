"""Changing what the shop may set: each change is a new version, and old ones stay readable."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime

from django.db import transaction

from fitshop.actor import Actor
from fitshop.models import SettingsVersion, SettingValue
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.selectors import declared_settings, settings_in_force
from fitshop.services.audit import audit_record
from fitshop.setting import Setting, SettingRefused, Value


class SettingsRefused(Exception):
    """Some typed values don't fit. `errors` holds a sentence by setting key."""

    def __init__(self, errors: dict[str, str]) -> None:
        super().__init__("; ".join(errors.values()))
        self.errors = errors


@transaction.atomic
def settings_change(
    *,
    typed: Mapping[str, str],
    by: Actor,
    at: datetime,
    read: Callable[[Setting, str], Value] = Setting.parsed,
) -> SettingsVersion | None:
    """Take over what a manager typed; None where nothing differs from what is in force.

    `read` understands what is typed in the shop's own units; without it, in the stored ones.
    Raises Refused, SettingsRefused. Writes SettingsVersion, SettingValue, AuditEntry.
    """
    SHOP_POLICY.require(by, ShopAction.SETTING_CHANGE)

    declared = {setting.key: setting for setting in declared_settings()}
    values, errors = {}, {}
    for key, text in typed.items():
        if key not in declared:
            continue
        try:
            values[key] = read(declared[key], text)
        except SettingRefused as refusal:
            errors[key] = str(refusal)
    if errors:
        raise SettingsRefused(errors)

    in_force = settings_in_force()
    changed = {key: value for key, value in values.items() if value != in_force.values[key]}
    if not changed:
        return None

    version = SettingsVersion.objects.create(
        number=in_force.version + 1, made_at=at, made_by=by.name
    )
    SettingValue.objects.bulk_create(
        SettingValue(version=version, key=key, text=declared[key].shown(value))
        for key, value in changed.items()
    )
    audit_record(
        action="shop.settings.changed",
        subject=version,
        before={key: declared[key].shown(in_force.values[key]) for key in changed},
        after={key: declared[key].shown(value) for key, value in changed.items()},
        by=by,
        at=at,
    )
    return version
