"""The bench's gauges: what each reads, how near, and from where a length is read."""

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
from fitshop.selectors import locations_for
from fitshop.views.doors import staff_page
from orders.forms import GaugeChangeForm, GaugeCheckForm, GaugeForm
from orders.models import Gauge
from orders.policy import ORDER_POLICY, OrderAction
from orders.selectors.gauges import gauge_found, gauges_here
from orders.selectors.recalls import clubs_read_with
from orders.services.gauges import gauge_change, gauge_check, gauge_enter
from orders.views.asking import went_through


@staff_page(ORDER_POLICY, OrderAction.BENCH_VIEW)
@require_safe
def gauges(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """Every gauge of the bench."""
    context = {
        "rows": gauges_here(actor),
        "may_enter": ORDER_POLICY.is_allowed(actor, OrderAction.GAUGE_ENTER),
    }
    return render(request, "orders/gauges.html", context)


@staff_page(ORDER_POLICY, OrderAction.GAUGE_ENTER)
def gauge_new(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """Enter a gauge; one for lengths says from where it reads."""
    data = request.POST if request.method == "POST" else None
    form = GaugeForm(data, initial={"gauge_id": uuid4()}, places=locations_for(actor))
    if form.is_valid():
        call = partial(gauge_enter, **form.cleaned_data, by=actor, at=timezone.now())
        if went_through(call, form):
            messages.success(request, f"Entered: {form.cleaned_data['name']}.")
            return redirect("gauges")
    status = 422 if form.errors else 200
    return render(request, "orders/gauge.html", {"form": form}, status=status)


@staff_page(ORDER_POLICY, OrderAction.GAUGE_ENTER)
def gauge_edit(request: HttpRequest, gauge_id: UUID, *, actor: Actor) -> HttpResponse:
    """A gauge's own page: its checks, what it read while off, and what can be put right."""
    gauge = Gauge.objects.filter(pk=gauge_id, location_id__in=actor.location_ids).first()
    if gauge is None:
        raise Http404
    found = gauge_found(gauge)
    data = request.POST if request.method == "POST" else None
    is_check = data is not None and "check_id" in data
    checked = GaugeCheckForm(
        data if is_check else None, initial={"check_id": uuid4()}, unit=found.unit
    )
    columns = ("name", "length_method", "repeatability")
    changed = GaugeChangeForm(
        None if is_check else data, initial={name: getattr(gauge, name) for name in columns}
    )
    form: Any = checked if is_check else changed
    if form.is_valid():
        service: Any = gauge_check if is_check else gauge_change
        more = {} if is_check else {"in_use": "put_away" not in request.POST}
        values = form.cleaned_data | more | {"by": actor, "at": timezone.now()}
        if went_through(partial(service, gauge=gauge, **values), form):
            messages.success(request, f"Saved: {gauge.name}.")
            return redirect("gauge_edit", gauge.pk)
    context = {
        "gauge": gauge,
        "found": found,
        "checks": gauge.checks.order_by("-checked_at"),
        "read": clubs_read_with(gauge, actor) if found.error is not None else [],
        "check_form": checked,
        "form": changed,
    }
    return render(request, "orders/gauge_edit.html", context, status=422 if form.errors else 200)
