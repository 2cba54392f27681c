"""What the workshop shows on other buildings' pages, fetched by URL name. No layout."""

from __future__ import annotations

from statistics import median
from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from fitshop.actor import Actor
from fitshop.views.doors import staff_page
from orders.flow import OrderState
from orders.policy import ORDER_POLICY, OrderAction
from orders.selectors.orders import (
    bench_orders,
    lofts_built,
    order_of_visit,
    orders_found,
    player_orders,
    rework_causes,
    spec_to_order,
    turnarounds,
    visit_for,
)
from orders.selectors.tellings import tolds_of
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.selectors.clubs_owned import clubs_owned
from sessions.selectors.people import player_for

SHOWN = 12


@staff_page(ORDER_POLICY, OrderAction.BENCH_VIEW)
@require_safe
def workshop_today_panel(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """Late, due today, waiting for a part, and what waits on the shelf, told or not."""
    rows = list(bench_orders(actor))
    shelf = [told for told in tolds_of(rows) if told.order.state == OrderState.READY]
    at_the_bench = [row for row in rows if row.state != OrderState.READY]
    today = timezone.localdate()
    context = {
        "late": [row for row in at_the_bench if row.due_on < today],
        "waiting": [row for row in rows if row.state == OrderState.WAITING_FOR_PARTS],
        "due": [row for row in at_the_bench if row.due_on == today],
        "to_call": [row for row in rows if row.wants_call],
        "shelf": shelf,
        "untold": [told for told in shelf if not told.is_told],
        "total": len(at_the_bench),
    }
    return render(request, "orders/workshop_today_panel.html", context)


@staff_page(ORDER_POLICY, OrderAction.ORDER_VIEW)
@require_safe
def workshop_search_panel(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    q = request.GET.get("q", "").strip()
    rows = orders_found(actor, q)[:SHOWN] if q else []
    return render(request, "orders/workshop_search_panel.html", {"rows": rows, "q": q})


@staff_page(ORDER_POLICY, OrderAction.ORDER_VIEW)
@require_safe
def workshop_player_panel(request: HttpRequest, player_id: UUID, *, actor: Actor) -> HttpResponse:
    rows = player_orders(actor, player_id)[:SHOWN]
    return render(request, "orders/workshop_player_panel.html", {"rows": rows})


@staff_page(FITTING_POLICY, FittingAction.PLAYERS_VIEW)
@require_safe
def workshop_clubs_panel(request: HttpRequest, player_id: UUID, *, actor: Actor) -> HttpResponse:
    """The clubs a player owns, those that were built here with their loft as built."""
    player = player_for(actor, player_id)
    if player is None:
        raise Http404
    clubs = clubs_owned(player, lofts_built(actor, player_id))
    return render(request, "orders/workshop_clubs_panel.html", {"clubs": clubs})


@staff_page(ORDER_POLICY, OrderAction.ORDER_VIEW)
@require_safe
def workshop_spec_panel(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    """Create the order of a visit, or open it."""
    visit = visit_for(actor, visit_id)
    if visit is None:
        raise Http404
    order, spec = order_of_visit(visit), spec_to_order(visit)
    revision = order.revisions.get(is_current=True) if order is not None else None
    context = {
        "visit": visit,
        "order": order,
        "spec": spec,
        "revision": revision,
        "is_behind": revision is not None and spec is not None and revision.spec_id != spec.pk,
        "may_create": ORDER_POLICY.is_allowed(
            actor, OrderAction.ORDER_CREATE, location_id=visit.location_id
        ),
    }
    return render(request, "orders/workshop_spec_panel.html", context)


@staff_page(ORDER_POLICY, OrderAction.REPORTS_VIEW)
@require_safe
def workshop_reports_panel(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    days = turnarounds(actor)
    context = {
        "turnarounds": days,
        "median_days": median(value for _, value in days) if days else None,
        "causes": rework_causes(actor),
    }
    return render(request, "orders/workshop_reports_panel.html", context)
