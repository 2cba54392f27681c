"""The bench's gauges: what each reads, how near, and from where a length is read."""

from __future__ import annotations

from functools import partial
from uuid import uuid4

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_safe

from fitshop.actor import Actor
from fitshop.selectors import locations_for
from fitshop.views.doors import staff_page
from orders.forms import GaugeForm
from orders.policy import ORDER_POLICY, OrderAction
from orders.selectors.gauges import gauges_here
from orders.services.gauges import gauge_enter
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
