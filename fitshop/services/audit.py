"""The one way to leave a trace. Every service that changes something writes one row."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.core.serializers.json import DjangoJSONEncoder
from django.db.models import Model

from fitshop.actor import Actor
from fitshop.models import AuditEntry

Values = Mapping[str, Any]


def audit_record(
    *,
    action: str,
    subject: Model,
    before: Values | None = None,
    after: Values | None = None,
    by: Actor,
    at: datetime,
) -> AuditEntry:
    """Write what was done to `subject`, by whom, and the values before and after.

    `action` is three words with dots between them: building, thing, deed
    (`fitting.trial.started`). Writes: AuditEntry.
    """
    return AuditEntry.objects.create(
        at=at,
        actor_kind=by.kind.value,
        actor_name=by.name,
        staff_id=by.staff_id,
        action=action,
        object_type=subject._meta.label_lower,
        object_id=str(subject.pk),
        before=_plain(before),
        after=_plain(after),
        request_id=by.request_id,
        command_id=by.command_id,
        device=by.device,
    )


def _plain(values: Values | None) -> Any:
    """Dates, decimals and ids as text, so that any database keeps them alike."""
    if values is None:
        return None
    encoder = DjangoJSONEncoder()
    return {key: _plain_value(encoder, value) for key, value in values.items()}


def _plain_value(encoder: DjangoJSONEncoder, value: Any) -> Any:
    if value is None or isinstance(value, bool | int | float | str | list | dict):
        return value
    return encoder.default(value)
