"""What every door does: who is it, may they, and what the refusal says.

A view is marked with `staff_page(POLICY, action)`: it is given `actor` and is never reached by
someone whose roles don't allow the action. What belongs to another location is answered as
not found by the selectors.
"""

from __future__ import annotations

import zoneinfo
from collections.abc import Callable
from functools import wraps
from typing import Any

from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from fitshop.actor import Actor, ActorKind, Role
from fitshop.models import Staff
from fitshop.policy import Policy, Refused
from fitshop.refusals import StateRefused
from fitshop.views import kept

Page = Callable[..., HttpResponse]


def actor_of(request: HttpRequest) -> Actor:
    """Build the Actor of a signed-in request: one query each for roles and locations."""
    cached = getattr(request, "_actor", None)
    if cached is not None:
        return cached
    person = request.user
    assert isinstance(person, Staff)
    actor = Actor(
        kind=ActorKind.STAFF,
        name=str(person),
        staff_id=person.pk,
        roles=frozenset(Role(row.role) for row in person.role_rows.all()),
        location_ids=frozenset(row.location_id for row in person.location_rows.all()),
        request_id=getattr(request, "id", ""),
        device=request.headers.get("X-Device", "")[:80],
    )
    request._actor = actor  # type: ignore[attr-defined]
    return actor


def staff_page(policy: Policy, action: str) -> Callable[[Page], Page]:
    """Let in signed-in staff whom `policy` allows `action`; show times in their location's zone.

    A refusal that the page leaves to its door is answered with its sentence: 403 or 409. A form
    that comes after its session ended is kept for who typed it (`fitshop/views/kept.py`).
    """

    def decorate(page: Page) -> Page:
        @wraps(page)
        def door(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
            if not request.user.is_authenticated:
                return kept.signed_out(request)
            kept.let_go_of_others(request)
            actor = actor_of(request)
            refusal = policy.refusal(actor, action)
            if refusal is not None:
                raise PermissionDenied(refusal)
            with timezone.override(zone_of(request)):
                try:
                    answer = page(request, *args, actor=actor, **kwargs)
                    if request.method == "POST":
                        kept.let_go(request, action=request.get_full_path())
                    return kept.taken_up(request, answer)
                except Refused as refused:
                    raise PermissionDenied(refused.sentence) from refused
                except StateRefused as refused:
                    return conflict(request, refused.sentence)

        door.action = action  # type: ignore[attr-defined]
        return door

    return decorate


def conflict(request: HttpRequest, sentence: str) -> HttpResponse:
    """The page that says why it can't be done now, status 409."""
    context = {"sentence": sentence, "page": kept.page_of(request)}
    return render(request, "409.html", context, status=409)


def zone_of(request: HttpRequest) -> zoneinfo.ZoneInfo:
    """The zone of the first location where this person works; UTC where there is none."""
    person = request.user
    assert isinstance(person, Staff)
    row = person.location_rows.select_related("location").order_by("location__name").first()
    return zoneinfo.ZoneInfo(row.location.zone if row else "UTC")
