"""Loads the demo's players, their consents, and the visits of today and tomorrow."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from fitshop.models import Bay, Location, Staff
from fitshop.refusals import FieldsRefused
from orders.demo.identity import DEMO_ACTOR, demo_id
from orders.demo.people import EMAIL_CONSENT, NO_RECORD_CONSENT, PLAYERS, VISITS
from orders.demo.presence import visit_id, visits_of_day
from sessions.models import Consent, Player, Visit
from sessions.rules.consent_texts import consent_text
from sessions.services.players import consent_record, player_register
from sessions.services.visits import visit_book

MEASURED = ("handicap", "height_mm", "wrist_to_floor_mm")
EARLIEST, LATEST = time(9, 0), time(19, 0)  # of a day's first visit


def players_loaded(at: datetime) -> dict[str, Player]:
    """Register the players who are missing, with what they agreed to; all of them by key."""
    known = Player.objects.in_bulk([demo_id("player", key) for key, _ in PLAYERS])
    for key, columns in PLAYERS:
        player_id = demo_id("player", key)
        if player_id not in known:
            known[player_id] = _registered(key, player_id, columns, at)
    return {key: known[demo_id("player", key)] for key, _ in PLAYERS}


def diary_loaded(location: Location, players: dict[str, Player], at: datetime) -> None:
    """Book today's and tomorrow's visits, once for each day on which the demo is loaded.

    The first one of today begins at the next half hour, so that there is one to open. A bay or a
    fitter that is taken at that time stays with whoever was there first.
    """
    zone = ZoneInfo(location.zone)
    today = at.astimezone(zone).date()
    if Visit.objects.filter(pk__in=visits_of_day(today)).exists():
        return
    bays = {bay.name: bay for bay in Bay.objects.filter(location=location)}
    fitters = {person.username: person for person in Staff.objects.all()}
    for days, after, key, bay, fitter, minutes, kind, note in VISITS:
        day = today + timedelta(days=days)
        first = _next_half_hour(at, zone) if days == 0 else datetime.combine(day, time(10), zone)
        try:
            visit_book(
                visit_id=visit_id(day, key),
                player=players[key],
                location=location,
                bay=bays[bay],
                fitter=fitters[fitter],
                starts_at=first + timedelta(minutes=after),
                minutes=minutes,
                kind=kind,
                note=note,
                by=DEMO_ACTOR,
                at=at,
            )
        except FieldsRefused as refused:
            if not set(refused.errors) <= {"bay", "fitter"}:
                raise


def _registered(key: str, player_id: UUID, columns: dict[str, object], at: datetime) -> Player:
    values: dict[str, Any] = dict(columns)
    for name in MEASURED:
        if name in values:
            values[name] = Decimal(values[name])
    if "birth_date" in values:
        values["birth_date"] = date.fromisoformat(values["birth_date"])
    player = player_register(player_id=player_id, values=values, by=DEMO_ACTOR, at=at)
    if key not in NO_RECORD_CONSENT:
        _agreed(player, Consent.About.RECORD, at)
    if key in EMAIL_CONSENT:
        _agreed(player, Consent.About.EMAIL, at)
    return player


def _agreed(player: Player, about: str, at: datetime) -> None:
    given_by = Consent.GivenBy.GUARDIAN if player.guardian_name else Consent.GivenBy.PLAYER
    consent_record(
        player=player,
        about=about,
        text_version=consent_text(about).version,
        given_by=given_by,
        by=DEMO_ACTOR,
        at=at,
    )


def _next_half_hour(at: datetime, zone: ZoneInfo) -> datetime:
    """Between nine in the morning and seven in the evening of the same day."""
    local = at.astimezone(zone).replace(second=0, microsecond=0, tzinfo=None)
    begins = local + timedelta(minutes=30 - local.minute % 30)
    earliest, latest = (datetime.combine(local.date(), each) for each in (EARLIEST, LATEST))
    return min(max(begins, earliest), latest).replace(tzinfo=zone)
