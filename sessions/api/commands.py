"""`POST /api/v1/visits/<id>/commands`: what a tablet recorded, one receipt for each entry.

The author is who is signed in, never who the body names.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from typing import Any, cast
from uuid import UUID

from django.utils import timezone
from django.utils.dateparse import parse_datetime
from rest_framework.exceptions import ValidationError
from rest_framework.request import Request
from rest_framework.response import Response

from fitshop.selectors import the_shop
from sessions.api.doors import VisitDoor
from sessions.api.typed import Units, typed
from sessions.maths.unit_factors import DistanceUnit, LengthUnit
from sessions.models import Visit
from sessions.services.commands import Device, Sent, commands_take

MOST_AT_ONCE = 50
HIGHEST_COUNTER = 2**31 - 1
# A tablet's clock that tells a year outside of these tells nothing.
FIRST_YEAR, LAST_YEAR = 1970, 2199


class VisitCommands(VisitDoor):
    """Takes up to fifty entries; answers with their receipts and the server's own time."""

    def post(self, request: Request, visit_id: UUID) -> Response:
        now = timezone.now()
        body = request.data
        if not isinstance(body, Mapping) or not isinstance(body.get("commands"), list):
            raise ValidationError({"commands": ["Send a list of entries."]})
        entries = body["commands"]
        if len(entries) > MOST_AT_ONCE:
            raise ValidationError({"commands": [f"At most {MOST_AT_ONCE} entries at once."]})
        units = _units(self.visit)
        sent = [_sent(entry, place, units, now) for place, entry in enumerate(entries)]
        name = str(body.get("device") or "")[:80]
        receipts = commands_take(
            visit=self.visit,
            sent=sent,
            device=Device(name=name, clock_offset_s=_offset(body.get("device_time"), now)),
            by=replace(self.actor, device=name),
            at=now,
        )
        return Response({"receipts": receipts, "server_time": now.isoformat()})


def _sent(entry: Any, place: int, units: Units, now: datetime) -> Sent:
    """One entry with its values read; an envelope that can't be read refuses the whole request."""
    try:
        command_id = UUID(entry["id"])
        kind, body, sha256 = entry["kind"], entry["body"], entry["sha256"]
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise ValidationError({f"commands.{place}": ["This entry can't be read."]}) from error
    if not isinstance(kind, str) or not isinstance(body, dict) or not isinstance(sha256, str):
        raise ValidationError({f"commands.{place}": ["This entry can't be read."]})
    read = typed(kind, body, units)
    counter = entry.get("counter")
    return Sent(
        id=command_id,
        kind=kind,
        body=body,
        sha256=sha256,
        values=read.values,
        errors=read.errors,
        counter=counter if type(counter) is int and 0 <= counter <= HIGHEST_COUNTER else None,
        device_time=_moment(entry.get("at")),
        heard_at=_heard(entry.get("heard_at"), now),
    )


def _units(visit: Visit) -> Units:
    shop = the_shop()
    length = shop.length_unit if shop is not None else "in"
    return Units(
        carry=cast("DistanceUnit", visit.player.carry_unit), length=cast("LengthUnit", length)
    )


def _offset(device_time: Any, now: datetime) -> float | None:
    """How far the tablet's clock is ahead of the server's [s]; None where it told no time."""
    moment = _moment(device_time)
    return None if moment is None else (moment - now).total_seconds()


def _heard(told: Any, now: datetime) -> datetime | None:
    """When the tablet was last told the state; nobody was told anything in the future."""
    moment = _moment(told)
    return None if moment is None else min(moment, now)


def _moment(told: Any) -> datetime | None:
    """A time with its offset; None for anything else: clocks lie, and are never needed."""
    try:
        moment = parse_datetime(told) if isinstance(told, str) else None
    except ValueError:
        return None
    if moment is None or moment.tzinfo is None:
        return None
    # Near the ends of the calendar a time zone's hours overflow.
    return moment if FIRST_YEAR <= moment.year <= LAST_YEAR else None
