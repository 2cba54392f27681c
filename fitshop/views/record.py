"""Who did what: the audit trail, for the manager."""

from __future__ import annotations

from urllib.parse import urlencode

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from fitshop.actor import Actor
from fitshop.forms import RecordForm
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.selectors import audit_actions, audit_page, staff_list
from fitshop.views.doors import staff_page, zone_of


@staff_page(SHOP_POLICY, ShopAction.AUDIT_VIEW)
@require_safe
def record(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """Fifty entries, newest first, by person, thing, deed and day; older ones one page on."""
    form = RecordForm(request.GET, people=staff_list(), actions=audit_actions())
    wanted = form.cleaned_data if form.is_valid() else {}
    rows, older = audit_page(
        actor,
        person=wanted.get("person"),
        action=wanted.get("action") or "",
        about=wanted.get("about") or "",
        day=wanted.get("day"),
        zone=zone_of(request),
        before=wanted.get("before"),
    )
    asked = {name: text for name, text in request.GET.items() if text and name != "before"}
    return render(
        request,
        "fitshop/record.html",
        {
            "form": form,
            "rows": rows,
            "older": urlencode(asked | {"before": older}) if older else "",
            "is_filtered": bool(asked),
        },
        status=422 if form.errors else 200,
    )
