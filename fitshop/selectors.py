"""Every read of the shop's own rows that is worth a name."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from functools import cache
from importlib import import_module
from itertools import groupby
from uuid import UUID
from zoneinfo import ZoneInfo

from django.conf import settings
from django.db import OperationalError, ProgrammingError
from django.db.models import Max, Q, QuerySet
from django.utils.crypto import salted_hmac

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
    Tablet,
)
from fitshop.models.messages import ACCOUNT_KIND
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.setting import Setting, SettingWords, Value


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


@cache
def setting_words() -> SettingWords:
    """How settings read in this shop: named in the project's settings, as the arrow asks."""
    words: SettingWords = import_module(settings.SETTING_WORDS).WORDS
    return words


@dataclass(frozen=True, slots=True)
class SettingRow:
    """One setting as it stands on the set-up page; `changed_by` only where it is not as born."""

    setting: Setting
    text: str
    unit: str
    default: str
    source: str
    error: str = ""
    is_changed: bool = False
    changed_by: str = ""
    changed_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class SettingSection:
    """Settings under one sub-head: `chapter` is told where a new chapter begins."""

    chapter: str
    title: str
    rows: tuple[SettingRow, ...]


@dataclass(frozen=True, slots=True)
class SettingGroup:
    name: str
    about: str
    sections: tuple[SettingSection, ...]

    @property
    def rows(self) -> tuple[SettingRow, ...]:
        return tuple(row for section in self.sections for row in section.rows)

    @property
    def changed(self) -> int:
        return sum(row.is_changed for row in self.rows)

    @property
    def has_errors(self) -> bool:
        return any(row.error for row in self.rows)


def setting_groups(
    in_force: SettingsInForce, *, typed: Mapping[str, str], errors: Mapping[str, str]
) -> list[SettingGroup]:
    """Every declared setting for the set-up page; what was typed and refused stands in its place.

    Two queries beside those in force, whatever was ever changed.
    """
    shop = the_shop()
    unit = shop.length_unit if shop else "in"
    last = _last_changes()
    rows = [
        _setting_row(setting, in_force[setting.key], unit, typed, errors, last)
        for setting in declared_settings()
    ]
    words = setting_words()
    return [
        SettingGroup(name, words.abouts.get(name, ""), _sections(list(members)))
        for name, members in groupby(rows, key=lambda row: row.setting.group)
    ]


def _setting_row(
    setting: Setting,
    value: Value,
    length_unit: str,
    typed: Mapping[str, str],
    errors: Mapping[str, str],
    last: Mapping[str, tuple[str, datetime]],
) -> SettingRow:
    words = setting_words()
    text, unit = words.shown(setting, value, length_unit)
    is_changed = value != setting.default
    by, at = last.get(setting.key, ("", None)) if is_changed else ("", None)
    default = " ".join(words.shown(setting, setting.default, length_unit)).strip()
    if setting.kind == "choice":
        default = dict(setting.named_choices).get(default, default)
    return SettingRow(
        setting=setting,
        text=typed.get(setting.key, text),
        unit=unit,
        default=default,
        source=words.source(setting),
        error=errors.get(setting.key, ""),
        is_changed=is_changed,
        changed_by=by,
        changed_at=at,
    )


def _sections(rows: list[SettingRow]) -> tuple[SettingSection, ...]:
    heads = setting_words().heads
    sections: list[SettingSection] = []
    chapter = ""
    for head, members in groupby(rows, key=lambda row: heads.get(row.setting.key, ("", ""))):
        sections.append(
            SettingSection(head[0] if head[0] != chapter else "", head[1], tuple(members))
        )
        chapter = head[0]
    return tuple(sections)


def _last_changes() -> dict[str, tuple[str, datetime]]:
    """Who changed each setting last, and when."""
    rows = SettingValue.objects.order_by("version__number")
    return {
        key: (by, at)
        for key, by, at in rows.values_list("key", "version__made_by", "version__made_at")
    }


def the_shop() -> Shop | None:
    """The one shop, or None before its first start."""
    return Shop.objects.first()


def first_start_code() -> str | None:
    """The code that the first start asks for: who reads the shop's own machine may set it up.

    Made of the shop's key, so that it is stored nowhere; None once there is a shop, or where the
    tables aren't made yet.
    """
    try:
        if Shop.objects.exists():
            return None
    except (OperationalError, ProgrammingError):
        return None
    digest = salted_hmac("fitshop.first_start", "the first manager", algorithm="sha256").hexdigest()
    return f"{digest[:4]}-{digest[4:8]}-{digest[8:12]}"


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


def tablets_for(actor: Actor) -> QuerySet[Tablet]:
    """The enrolled tablets of the actor's locations; withdrawn ones are left out."""
    return Tablet.objects.filter(
        location_id__in=actor.location_ids, withdrawn_at=None
    ).select_related("location")


def tablet_token_hash(token: str) -> str:
    """What is kept of a tablet's token: enough to know it again, not to make it."""
    return hashlib.sha256(token.encode()).hexdigest()


def tablet_shown(token: str) -> Tablet | None:
    """The enrolled tablet that shows this token."""
    if not token:
        return None
    return Tablet.objects.filter(token_sha256=tablet_token_hash(token), withdrawn_at=None).first()


def tablet_people(tablet: Tablet) -> QuerySet[Staff]:
    """Who may sign in by PIN on this tablet."""
    return (
        Staff.objects.filter(is_active=True, locations=tablet.location_id)
        .exclude(pin="")
        .order_by("display_name", "username")
    )


def staff_list() -> QuerySet[Staff]:
    return Staff.objects.prefetch_related("role_rows", "locations").order_by("username")


def staff_member(staff_id: UUID) -> Staff | None:
    """Someone who works or worked here."""
    return staff_list().filter(pk=staff_id).first()


def messages_for(actor: Actor) -> QuerySet[OutgoingMessage]:
    """Newest first, without the bodies; none for an actor who may not read them."""
    if not SHOP_POLICY.is_allowed(actor, ShopAction.MESSAGES_VIEW):
        return OutgoingMessage.objects.none()
    return _letters().defer("body_text", "body_html").order_by("-created_at", "-id")


def messages_page(
    actor: Actor, *, state: str = "", to: str = "", after: UUID | None = None, at_most: int = 50
) -> tuple[list[OutgoingMessage], UUID | None]:
    """Letters in a state, to a name or address, and the id after which the next page begins."""
    rows = messages_for(actor)
    if state:
        rows = rows.filter(status=state)
    if to.strip():
        rows = rows.filter(
            Q(recipient_name__icontains=to.strip()) | Q(recipient_email__icontains=to.strip())
        )
    last = rows.filter(pk=after).first() if after else None
    if last is not None:
        rows = rows.filter(
            Q(created_at__lt=last.created_at) | Q(created_at=last.created_at, id__lt=last.id)
        )
    found = list(rows[: at_most + 1])
    return found[:at_most], found[at_most - 1].pk if len(found) > at_most else None


def message_for(actor: Actor, message_id: UUID) -> OutgoingMessage | None:
    if not SHOP_POLICY.is_allowed(actor, ShopAction.MESSAGES_VIEW):
        return None
    return _letters().prefetch_related("files").filter(pk=message_id).first()


def messages_wanting_a_person() -> int:
    return _letters().filter(status__in=[MessageStatus.UNKNOWN, MessageStatus.DEAD]).count()


def _letters() -> QuerySet[OutgoingMessage]:
    """The shop's letters; those about a sign-in are nobody's to read or to decide about."""
    return OutgoingMessage.objects.exclude(kind=ACCOUNT_KIND)


def audit_actions() -> list[str]:
    """Every deed that was ever written down, by its code."""
    return list(AuditEntry.objects.order_by("action").values_list("action", flat=True).distinct())


def audit_page(
    actor: Actor,
    *,
    person: Staff | None = None,
    action: str = "",
    about: str = "",
    day: date | None = None,
    zone: ZoneInfo,
    before: int | None = None,
    at_most: int = 50,
) -> tuple[list[AuditEntry], int | None]:
    """Entries that fit, newest first, and the id to go on before; none for who may not see them.

    `about` is the id of a thing: a player, a visit, an order. `day` is one of the clock `zone`.
    """
    if not SHOP_POLICY.is_allowed(actor, ShopAction.AUDIT_VIEW):
        return [], None
    rows = AuditEntry.objects.order_by("-id")
    if person is not None:
        rows = rows.filter(staff_id=person.pk)
    if action:
        rows = rows.filter(action=action)
    if about:
        rows = rows.filter(object_id=about)
    if day is not None:
        begins = datetime.combine(day, time.min, zone)
        rows = rows.filter(at__gte=begins, at__lt=begins + timedelta(days=1))
    if before is not None:
        rows = rows.filter(id__lt=before)
    found = list(rows[: at_most + 1])
    more = found[at_most - 1].id if len(found) > at_most else None
    return found[:at_most], more


def audit_of(subject_type: str, subject_id: str) -> QuerySet[AuditEntry]:
    return AuditEntry.objects.filter(object_type=subject_type, object_id=subject_id)
