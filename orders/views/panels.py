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
    order_of_visit,
    orders_found,
    player_orders,
    rework_causes,
    spec_to_order,
    turnarounds,
    visit_for,
)

SHOWN = 12


@staff_page(ORDER_POLICY, OrderAction.BENCH_VIEW)
@require_safe
def workshop_today_panel(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """Late, due soon, waiting for a part, and ready but not told."""
    rows = list(bench_orders(actor))
    today = timezone.localdate()
    context = {
        "late": [row for row in rows if row.due_on < today and row.state != OrderState.READY],
        "waiting": [row for row in rows if row.state == OrderState.WAITING_FOR_PARTS],
        "untold": [row for row in rows if row.state == OrderState.READY and row.told_at is None],
        "due": [row for row in rows if row.due_on == today and row.state != OrderState.READY],
        "total": len(rows),
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
