"""The shop's settings, and a real shop's first start."""

from collections.abc import Callable

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from fitshop.actor import Actor, system_actor
from fitshop.forms import FirstStartForm
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.selectors import setting_groups, setting_words, settings_in_force, the_shop
from fitshop.services.shop_settings import SettingsRefused, settings_change
from fitshop.services.staff import ShopIsSetUp, shop_set_up
from fitshop.setting import Setting, Value
from fitshop.views.doors import staff_page


def first_start(request: HttpRequest) -> HttpResponse:
    """First manager, location, zone and units; gone once the shop exists."""
    if the_shop() is not None:
        return redirect("today")
    form = FirstStartForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        values = {name: value for name, value in form.cleaned_data.items() if name != "code"}
        try:
            shop_set_up(**values, by=system_actor("first start"), at=timezone.now())
        except ValidationError as error:
            form.add_error("password", error)
        except ShopIsSetUp:
            return redirect("today")
        else:
            messages.success(request, "The shop is set up. Sign in with your new name.")
            return redirect("account_login")
    return render(
        request, "fitshop/first_start.html", {"form": form}, status=422 if form.errors else 200
    )


@staff_page(SHOP_POLICY, ShopAction.SETTINGS_VIEW)
def set_up(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """Every declared setting on one page, with what it does and where its default comes from."""
    errors: dict[str, str] = {}
    typed: dict[str, str] = {}
    if request.method == "POST":
        typed = {key: text for key, text in request.POST.items() if "." in key}
        try:
            version = settings_change(
                typed=typed, by=actor, at=timezone.now(), read=_in_the_shops_units()
            )
        except SettingsRefused as refusal:
            errors = refusal.errors
        else:
            messages.success(
                request, f"Saved as version {version.number}." if version else "Nothing changed."
            )
            return redirect("set_up")
    in_force = settings_in_force()
    groups = setting_groups(in_force, typed=typed, errors=errors)
    return render(
        request,
        "fitshop/set_up.html",
        {"groups": groups, "version": in_force.version, "errors": errors},
        status=422 if errors else 200,
    )


def _in_the_shops_units() -> Callable[[Setting, str], Value]:
    shop = the_shop()
    unit = shop.length_unit if shop else "in"
    words = setting_words()
    return lambda setting, typed: words.read(setting, typed, unit)
