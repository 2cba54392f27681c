"""The shop's rows: places, people, settings, audit trail and messages. Nothing of golf."""

from fitshop.models.audit import AuditEntry
from fitshop.models.base import Identified, Kept
from fitshop.models.messages import Heartbeat, MessageAttachment, MessageStatus, OutgoingMessage
from fitshop.models.places import Bay, Location, Shop
from fitshop.models.settings_store import SettingsVersion, SettingValue
from fitshop.models.staff import Staff, StaffLocation, StaffRole
from fitshop.models.tablets import Tablet

__all__ = [
    "AuditEntry",
    "Bay",
    "Heartbeat",
    "Identified",
    "Kept",
    "Location",
    "MessageAttachment",
    "MessageStatus",
    "OutgoingMessage",
    "SettingValue",
    "SettingsVersion",
    "Shop",
    "Staff",
    "StaffLocation",
    "StaffRole",
    "Tablet",
]
