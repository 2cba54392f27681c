"""Enrolled tablets, the own PIN, and changing people on a tablet."""

from __future__ import annotations

import secrets
from uuid import UUID

from allauth.core import ratelimit
from django.conf import settings
from django.contrib import messages
from django.contrib.auth import login
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.http import require_POST

from fitshop.actor import Actor, system_actor
from fitshop.forms import OwnPasswordForm, PinForm, TabletForm
from fitshop.models import Staff, Tablet
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.refusals import FieldsRefused
from fitshop.selectors import locations_for, tablet_people, tablet_shown, tablets_for
from fitshop.services.tablets import pin_set, pin_try, tablet_enrol, tablet_withdraw
from fitshop.views.doors import staff_page
from fitshop.views.still_you import is_still_you

COOKIE = "__Host-tablet" if settings.HTTPS else "tablet"
KEPT_S = 400 * 24 * 3600  # the longest that browsers keep a cookie
BACKEND = settings.AUTHENTICATION_BACKENDS[0]


def tablet_of(request: HttpRequest) -> Tablet | None:
    """The enrolled tablet that this request comes from."""
    return tablet_shown(request.COOKIES.get(COOKIE, ""))


@staff_page(SHOP_POLICY, ShopAction.TABLETS_MANAGE)
def tablets(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """The enrolled devices; this very device is enrolled by its name."""
    form = TabletForm(request.POST or None, locations=locations_for(actor))
    own = OwnPasswordForm(request.POST or None)
    is_confirmed = request.method == "POST" and is_still_you(request, own)
    if form.is_valid() and is_confirmed:
        token = secrets.token_urlsafe(32)
        try:
            tablet = tablet_enrol(**form.cleaned_data, token=token, by=actor, at=timezone.now())
        except FieldsRefused as refusal:
            form.add_error("name", ValidationError(refusal.errors["name"], code=refusal.code))
        else:
            messages.success(request, f"This device is {tablet} now. People change by PIN on it.")
            answer = redirect("tablets")
            answer.set_cookie(
                COOKIE,
                token,
                max_age=KEPT_S,
                secure=settings.HTTPS,
                httponly=True,
                samesite="Strict",
            )
            return answer
    is_refused = request.method == "POST"
    return render(
        request,
        "fitshop/tablets.html",
        {"form": form, "own": own, "rows": tablets_for(actor), "this": tablet_of(request)},
        status=422 if is_refused else 200,
    )


@staff_page(SHOP_POLICY, ShopAction.TABLETS_MANAGE)
@require_POST
def tablet_withdraw_view(request: HttpRequest, tablet_id: UUID, *, actor: Actor) -> HttpResponse:
    tablet = tablets_for(actor).filter(pk=tablet_id).first()
    if tablet is None:
        raise Http404
    tablet_withdraw(tablet=tablet, by=actor, at=timezone.now())
    messages.success(request, f"{tablet} asks for passwords again.")
    return redirect("tablets")


@staff_page(SHOP_POLICY, ShopAction.TODAY_VIEW)
def own_pin(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """Set the own PIN, or clear it by leaving it empty."""
    form = PinForm(request.POST or None)
    own = OwnPasswordForm(request.POST or None)
    is_confirmed = request.method == "POST" and is_still_you(request, own)
    if form.is_valid() and is_confirmed:
        try:
            pin_set(
                person=request.user,
                pin=form.cleaned_data["pin"],
                by=actor,
                at=timezone.now(),
            )
        except FieldsRefused as refusal:
            form.add_error("pin", ValidationError(refusal.errors["pin"], code=refusal.code))
        else:
            messages.success(
                request, "Your PIN is set." if form.cleaned_data["pin"] else "You have no PIN now."
            )
            return redirect("own_pin")
    is_refused = request.method == "POST"
    return render(
        request,
        "fitshop/own_pin.html",
        {"form": form, "own": own, "has_pin": bool(request.user.pin)},
        status=422 if is_refused else 200,
    )


@require_POST
def pin_sign_in(request: HttpRequest) -> HttpResponse:
    """Sign somebody in on an enrolled tablet, and go back to the page where it asked."""
    tablet = tablet_of(request)
    page = request.POST.get("next", "")
    is_ours = url_has_allowed_host_and_scheme(page, {request.get_host()}, request.is_secure())
    back = page if is_ours else reverse("today")
    asks = f"{reverse('account_login')}?next={back}"
    person = None if tablet is None else _chosen(tablet, request.POST.get("person", ""))
    if tablet is None or person is None:
        messages.error(request, "Sign in with your password on this device.")
        return redirect(asks)
    tries = f"{person.pk} on {tablet.pk}"
    if not ratelimit.consume(request, action="pin", key=tries):
        messages.error(request, "Too many wrong PINs. Sign in with your password.")
        return redirect(asks)
    by = system_actor(f"PIN on {tablet}")
    pin = request.POST.get("pin", "")
    if not pin_try(person=person, tablet=tablet, pin=pin, by=by, at=timezone.now()):
        messages.error(request, "That is not the PIN.")
        return redirect(asks)
    ratelimit.clear(request, action="pin", key=tries)
    login(request, person, backend=BACKEND)
    return redirect(back)


def _chosen(tablet: Tablet, person_id: str) -> Staff | None:
    return next((one for one in tablet_people(tablet) if str(one.pk) == person_id), None)
