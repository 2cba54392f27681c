"""The day at a glance. Its panels belong to the other buildings and are fetched by URL name."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_safe

from fitshop.actor import Actor, Role
from fitshop.models import Staff
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.selectors import messages_wanting_a_person, the_shop
from fitshop.views.doors import staff_page


@staff_page(SHOP_POLICY, ShopAction.TODAY_VIEW)
def _today(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    return render(
        request,
        "fitshop/today.html",
        {"messages_wanting_a_person": messages_wanting_a_person(), "actor": actor},
    )


@require_safe
def today(request: HttpRequest) -> HttpResponse:
    """Today, or the set-up page on a real shop's first start."""
    if the_shop() is None and not Staff.objects.exists():
        return redirect("first_start")
    return _today(request)


@staff_page(SHOP_POLICY, ShopAction.TODAY_VIEW)
@require_safe
def search(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """One search for players and tickets: both buildings answer into the same list."""
    # A builder looks for tickets only: the players' panel would refuse.
    may_see_players = actor.has_role(Role.FITTER, Role.DESK, Role.MANAGER)
    return render(
        request,
        "fitshop/search.html",
        {"q": request.GET.get("q", "").strip(), "may_see_players": may_see_players},
    )
