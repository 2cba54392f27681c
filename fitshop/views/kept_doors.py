"""The one door of a form that came back as typed: to begin with an empty one instead."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from fitshop.actor import Actor
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.views import kept
from fitshop.views.doors import staff_page


@staff_page(SHOP_POLICY, ShopAction.TODAY_VIEW)
@require_POST
def kept_form_let_go(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    kept.let_go(request)
    return redirect(kept.page_of(request) if kept.has_seal(request) else "today")
