"""Recalls: what a gauge found off has read, who has a recalled head."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from fitshop.actor import Actor
from fitshop.views.doors import staff_page
from orders.forms import RecallForm
from orders.policy import ORDER_POLICY, OrderAction
from orders.selectors.gauges import gauge_found
from orders.selectors.recalls import clubs_read_with, gauges_recalled, owners_of, tickets_with


@staff_page(ORDER_POLICY, OrderAction.RECALL_VIEW)
@require_safe
def recalls(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """Choose a gauge or a head; the clubs, players and tickets it touches."""
    form = RecallForm(request.GET or None, gauges=gauges_recalled(actor))
    chosen = form.cleaned_data if form.is_valid() else {}
    gauge, head = chosen.get("gauge"), chosen.get("head")
    context = {
        "form": form,
        "gauge": gauge,
        "found": gauge_found(gauge) if gauge is not None else None,
        "head": head,
        "read": clubs_read_with(gauge, actor) if gauge is not None else [],
        "owners": owners_of(head) if head is not None else [],
        "tickets": tickets_with(head, actor) if head is not None else [],
    }
    return render(request, "orders/recalls.html", context, status=422 if form.errors else 200)
