"""What the fitting room shows on the shop's own pages: the day's visits, and players found."""

from __future__ import annotations

import datetime as dt
from itertools import groupby
from typing import Any

from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from fitshop.actor import Actor
from fitshop.forms import DayField
from fitshop.models import Bay, Location
from fitshop.selectors import bays_for, locations_for
from fitshop.views.doors import staff_page
from sessions.flow import VisitState
from sessions.models import Visit
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.selectors.people import players_found
from sessions.selectors.visits import visits_on, visits_still_open

FOUND = 20
# How long after its time a booked visit is called late.
LATE_AFTER = dt.timedelta(minutes=5)
LOOKS = {
    VisitState.OPEN: "turf",
    VisitState.CLOSED: "",
    VisitState.CANCELLED: "",
    VisitState.NO_SHOW: "flag",
}


@staff_page(FITTING_POLICY, FittingAction.VISIT_VIEW)
@require_safe
def fitting_today_panel(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """One day at one location, bay by bay, on that location's own clock."""
    locations = list(locations_for(actor))
    location = _location(request, locations)
    if location is None:
        return render(request, "sessions/panels/today.html", {"location": None})
    now = timezone.now()
    with timezone.override(location.zone_info):
        today = timezone.localdate()
        day, refused = _day(request.GET.get("day", ""), today)
        if refused:
            said = {"location": location, "day_refused": refused}
            return render(request, "sessions/panels/today.html", said)
        visits = list(visits_on(actor, location, day))
        start_of_today = timezone.localtime().replace(hour=0, minute=0, second=0, microsecond=0)
        return render(
            request,
            "sessions/panels/today.html",
            {
                "location": location,
                "locations": locations,
                "day": day,
                "is_today": day == today,
                "before": day - dt.timedelta(days=1),
                "after": day + dt.timedelta(days=1),
                "today": today,
                "bays": _by_bay(visits, list(bays_for(actor).filter(location=location)), now),
                "count": len(visits),
                "left_open": visits_still_open(actor, location, start_of_today)
                if day == today
                else [],
                "may_book": FITTING_POLICY.is_allowed(actor, FittingAction.VISIT_BOOK),
                "is_plain": "plain" in request.GET,
            },
        )


@staff_page(FITTING_POLICY, FittingAction.PLAYERS_VIEW)
@require_safe
def fitting_search_panel(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """Players found for one search box; nothing typed finds nothing."""
    typed = request.GET.get("q", "").strip()
    rows = list(players_found(actor, typed)[: FOUND + 1]) if typed else []
    return render(
        request,
        "sessions/panels/players_found.html",
        {
            "q": typed,
            "rows": rows[:FOUND],
            "has_more": len(rows) > FOUND,
            "then": request.GET.get("then", ""),
        },
    )


def _location(request: HttpRequest, locations: list[Location]) -> Location | None:
    wanted = request.GET.get("location", "")
    return next((each for each in locations if str(each.pk) == wanted), None) or next(
        iter(locations), None
    )


def _day(typed: str, today: dt.date) -> tuple[dt.date, str]:
    """The day asked for, and why a day that exists is not shown; today where none was typed."""
    try:
        return DayField(required=False).clean(typed) or today, ""
    except ValidationError as refused:
        is_a_day = any(each.code == "day.out_of_range" for each in refused.error_list)
        return today, " ".join(refused.messages) if is_a_day else ""


def _by_bay(visits: list[Visit], bays: list[Bay], now: dt.datetime) -> list[dict[str, Any]]:
    """Every bay with its visits in order of time; those without a bay come first."""
    by_bay: dict[Any, list[Visit]] = {}
    for bay_id, members in groupby(visits, key=lambda visit: visit.bay_id):
        by_bay.setdefault(bay_id, []).extend(members)
    groups = [{"bay": bay, "rows": _rows(by_bay.get(bay.pk, []), now)} for bay in bays]
    if None in by_bay:
        groups.insert(0, {"bay": None, "rows": _rows(by_bay[None], now)})
    return groups


def _rows(visits: list[Visit], now: dt.datetime) -> list[dict[str, Any]]:
    return [_row(visit, now) for visit in visits]


def _row(visit: Visit, now: dt.datetime) -> dict[str, Any]:
    state = VisitState(visit.state)
    if state is VisitState.BOOKED and now - visit.starts_at > LATE_AFTER:
        minutes = int((now - visit.starts_at).total_seconds() // 60)
        return {"visit": visit, "late_minutes": minutes, "look": "sand"}
    return {"visit": visit, "state": state.label, "look": LOOKS.get(state, "sky")}
