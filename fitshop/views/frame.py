"""What every page's frame shows: the shop's name, the places this person may go to, the demo."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from importlib import import_module
from typing import Any

from django.conf import settings
from django.http import HttpRequest
from django.urls import NoReverseMatch, reverse

from fitshop.actor import Role
from fitshop.models import Staff
from fitshop.selectors import tablet_people, the_shop
from fitshop.views import kept
from fitshop.views.doors import actor_of
from fitshop.views.tablets import tablet_of


@dataclass(frozen=True, slots=True)
class Place:
    """One entry of the frame's menu, by URL name: the other buildings are not imported."""

    label: str
    url_name: str
    roles: frozenset[Role]


ALL = frozenset(Role)
PLACES = (
    Place("Today", "today", ALL),
    Place("Players", "players", frozenset({Role.FITTER, Role.DESK, Role.MANAGER})),
    Place("Bench", "bench", frozenset({Role.BUILDER, Role.FITTER, Role.DESK, Role.MANAGER})),
    Place("Parts", "parts", frozenset({Role.FITTER, Role.BUILDER, Role.MANAGER})),
    Place("Messages", "messages", frozenset({Role.FITTER, Role.DESK, Role.MANAGER})),
    Place("Reports", "reports", frozenset({Role.MANAGER})),
    Place("Shop set-up", "set_up", frozenset({Role.MANAGER})),
)


def frame(request: HttpRequest) -> dict[str, Any]:
    """The context processor behind `base.html`."""
    shop = the_shop()
    return {
        "shop_name": shop.name if shop else "",
        "the_shop": shop,
        "demo": settings.DEMO,
        "demo_accounts": _demo_accounts,  # asked by the sign-in page only
        "nav_items": _nav_items(request),
        "tablet_people": partial(_tablet_people, request),  # asked by the sign-in page only
        "kept_for": partial(kept.kept_for, request),  # asked by the sign-in page only
    }


def _demo_accounts() -> dict[str, Any] | None:
    """The accounts that the demo shop makes, and their one password; never outside the demo."""
    if not settings.DEMO:
        return None
    people = import_module(settings.DEMO_PEOPLE)
    return {"names": people.ACCOUNTS, "password": people.PASSWORD}


def _tablet_people(request: HttpRequest) -> list[Staff]:
    """Who may sign in by PIN here; nobody where the device is not enrolled."""
    tablet = tablet_of(request)
    return [] if tablet is None else list(tablet_people(tablet))


def _nav_items(request: HttpRequest) -> list[dict[str, Any]]:
    if not getattr(request, "user", None) or not request.user.is_authenticated:
        return []
    roles = actor_of(request).roles
    items = []
    for place in PLACES:
        if place.roles.isdisjoint(roles):
            continue
        try:
            url = reverse(place.url_name)
        except NoReverseMatch:
            continue
        is_here = request.path == url or (url != "/" and request.path.startswith(url))
        items.append({"label": place.label, "url": url, "current": is_here})
    return items
