"""Every read of visits that is worth a name: one, a day's, a player's, those in the way."""

from __future__ import annotations

import datetime as dt
from uuid import UUID

from django.db.models import Q, QuerySet

from fitshop.actor import Actor, ActorKind
from fitshop.models import Location
from sessions.flow import VisitState
from sessions.models import Player, Visit

LONGEST_VISIT = dt.timedelta(minutes=600)
TAKES_ITS_BAY = (VisitState.BOOKED, VisitState.OPEN)


def visits_for(actor: Actor) -> QuerySet[Visit]:
    """The visits at the actor's locations, with who, where and which fitter."""
    rows = Visit.objects.select_related("player", "location", "bay", "fitter")
    if actor.kind is ActorKind.SYSTEM:
        return rows
    return rows.filter(location_id__in=actor.location_ids)


def visit_for(actor: Actor, visit_id: UUID) -> Visit | None:
    """One visit, or None where there is none or it is another location's."""
    return visits_for(actor).filter(pk=visit_id).first()


def visits_of(actor: Actor, player: Player) -> QuerySet[Visit]:
    """A player's visits, newest first."""
    return visits_for(actor).filter(player=player).order_by("-starts_at")


def visits_on(actor: Actor, location: Location, day: dt.date) -> QuerySet[Visit]:
    """The visits that begin on `day` as the location's own clock has it, in order of time."""
    zone = location.zone_info
    begins = dt.datetime.combine(day, dt.time.min, tzinfo=zone)
    ends = dt.datetime.combine(day + dt.timedelta(days=1), dt.time.min, tzinfo=zone)
    return (
        visits_for(actor)
        .filter(location=location, starts_at__gte=begins, starts_at__lt=ends)
        .order_by("starts_at", "bay__name")
    )


def visits_still_open(actor: Actor, location: Location, before: dt.datetime) -> QuerySet[Visit]:
    """Visits opened on an earlier day and never closed."""
    return visits_for(actor).filter(location=location, state=VisitState.OPEN, starts_at__lt=before)


def overlapping_visits(
    whose: Q, starts_at: dt.datetime, ends_at: dt.datetime, *, but: Visit | None = None
) -> list[Visit]:
    """Booked or open visits that share a minute with the span; one that ends as it begins does not.

    An open visit counts for as long as it was booked.
    """
    rows = Visit.objects.filter(
        whose,
        state__in=TAKES_ITS_BAY,
        starts_at__lt=ends_at,
        starts_at__gt=starts_at - LONGEST_VISIT,
    ).select_related("player", "location")
    if but is not None:
        rows = rows.exclude(pk=but.pk)
    return [
        visit
        for visit in rows.order_by("starts_at")
        if visit.starts_at + dt.timedelta(minutes=visit.minutes) > starts_at
    ]


def air_words(visit: Visit) -> str:
    """The last recorded conditions as they are read, with their time; "" where none are."""
    last = visit.conditions.order_by("-sequence").first()
    if last is None:
        return ""
    said = [
        f"{round(value, 1):g}{unit}"
        for value, unit in (
            (last.temperature_c, " °C"),
            (last.pressure_hpa, " hPa"),
            (last.altitude_m, " m up"),
            (last.humidity_pct, " % humidity"),
            (last.wind_ms, " m/s wind"),
        )
        if value is not None
    ]
    at = last.measured_at.astimezone(visit.location.zone_info)
    return f"{', '.join(said) or 'nothing measured'}, at {at:%H:%M}"
