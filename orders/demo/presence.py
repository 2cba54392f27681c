"""Whether there is anything left to load. Imports little: most runs end here."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime
from uuid import UUID
from zoneinfo import ZoneInfo

from fitshop.models import Identified
from orders.demo.catalogue_heads import head_rows, row_name
from orders.demo.catalogue_parts import GRIPS, SHAFTS
from orders.demo.equipment import ADAPTERS, TRIAL_HEADS, TRIAL_SHAFTS
from orders.demo.identity import demo_id
from orders.demo.people import PLAYERS, VISITS, ZONE
from sessions.models import Adapter, Grip, Head, Player, Shaft, TrialHead, TrialShaft, Visit

FIRST_FITTING_ID = demo_id("visit", "first fitting")


def visit_id(day: date, player: str) -> UUID:
    """The id of the visit that the demo books for a player on a day."""
    return demo_id("visit", f"{day.isoformat()}/{player}")


def visits_of_day(day: date) -> list[UUID]:
    """The ids of the visits that the demo books for the day on which it is loaded."""
    return [visit_id(day, key) for days, _, key, *_ in VISITS if days == 0]


def is_first_fitting_over() -> bool:
    """Whether the demo's closed visit is there, on whatever day it was loaded."""
    return Visit.objects.filter(pk=FIRST_FITTING_ID).exists()


def is_whole(at: datetime) -> bool:
    """Whether every row of the demo's tables is there, and visits for the day of `at`."""
    today = at.astimezone(ZoneInfo(ZONE)).date()
    return (
        Visit.objects.filter(pk__in=visits_of_day(today)).exists()
        and is_first_fitting_over()
        and all(
            model._default_manager.filter(pk__in=ids).count() == len(ids)
            for model, ids in _wanted()
        )
    )


def _wanted() -> Iterator[tuple[type[Identified], list[UUID]]]:
    yield Head, [demo_id("head", row_name(values)) for values in head_rows()]
    yield Shaft, [demo_id("shaft", key) for key, *_ in SHAFTS]
    yield Grip, [demo_id("grip", key) for key, *_ in GRIPS]
    yield TrialHead, [demo_id("trial head", mark) for mark, *_ in TRIAL_HEADS]
    yield TrialShaft, [demo_id("trial shaft", mark) for mark, *_ in TRIAL_SHAFTS]
    yield Adapter, [demo_id("adapter", mark) for mark, *_ in ADAPTERS]
    yield Player, [demo_id("player", key) for key, *_ in PLAYERS]
