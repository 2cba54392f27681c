"""Resins by their sheets, and what was glued with a batch."""

from __future__ import annotations

from functools import partial
from typing import Any
from uuid import UUID, uuid4

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_safe

from fitshop.actor import Actor
from fitshop.selectors import settings_in_force
from fitshop.views.doors import staff_page
from orders.forms import ResinForm
from orders.models import Resin
from orders.policy import ORDER_POLICY, OrderAction
from orders.selectors.cures import glued_with, usual_figures
from orders.services.resins import COLUMNS, resin_change, resin_enter
from orders.views.asking import went_through


@staff_page(ORDER_POLICY, OrderAction.BENCH_VIEW)
@require_safe
def resins(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """The shop's resins; with `?batch=`, every club that was glued with it."""
    batch = request.GET.get("batch", "").strip()
    context = {
        "rows": Resin.objects.order_by("-in_use", "name"),
        "batch": batch,
        "glued": glued_with(actor, batch),
        "may_enter": ORDER_POLICY.is_allowed(actor, OrderAction.RESIN_ENTER),
    }
    return render(request, "orders/resins.html", context)


@staff_page(ORDER_POLICY, OrderAction.RESIN_ENTER)
def resin_new(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """Enter a resin: what its sheet says."""
    usual = usual_figures(settings_in_force().values)
    return _resin_page(request, None, usual | {"speed": "slow"}, actor)


@staff_page(ORDER_POLICY, OrderAction.RESIN_ENTER)
def resin_edit(request: HttpRequest, resin_id: UUID, *, actor: Actor) -> HttpResponse:
    """Put a resin right, or put it away."""
    row = Resin.objects.filter(pk=resin_id).first()
    if row is None:
        raise Http404
    return _resin_page(request, row, {name: getattr(row, name) for name in COLUMNS}, actor)


def _resin_page(
    request: HttpRequest, row: Resin | None, initial: dict[str, Any], actor: Actor
) -> HttpResponse:
    form = ResinForm(request.POST if request.method == "POST" else None, initial=initial)
    if form.is_valid():
        values, now = form.cleaned_data, timezone.now()
        if row is None:
            resin_id = _uuid(request.POST.get("resin_id", ""))
            call = partial(resin_enter, resin_id=resin_id, values=values, by=actor, at=now)
        else:
            in_use = "put_away" not in request.POST
            call = partial(resin_change, resin=row, values=values, in_use=in_use, by=actor, at=now)
        if went_through(call, form):
            messages.success(request, f"Saved: {values['name']}.")
            return redirect("resins")
    return render(
        request,
        "orders/resin.html",
        {"form": form, "resin": row, "new_id": request.POST.get("resin_id") or uuid4()},
        status=422 if form.errors else 200,
    )


def _uuid(typed: str) -> UUID | None:
    try:
        return UUID(typed)
    except ValueError:
        return None
