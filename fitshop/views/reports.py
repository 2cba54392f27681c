"""Reports for the manager: the workshop's figures come as a panel of its own."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from fitshop.actor import Actor
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.views.doors import staff_page


@staff_page(SHOP_POLICY, ShopAction.REPORTS_VIEW)
@require_safe
def reports(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    return render(request, "fitshop/reports.html")
