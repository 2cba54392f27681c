"""Who works here, and a colleague's sign-in."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from fitshop.actor import Actor, Role
from fitshop.forms import ColleagueForm, OwnPasswordForm, StaffForm
from fitshop.models import Staff
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.refusals import StateRefused
from fitshop.selectors import staff_list, staff_member
from fitshop.services.colleagues import (
    one_time_password,
    staff_change,
    staff_factor_remove,
    staff_password_give,
    staff_sessions_end,
)
from fitshop.services.staff import NameIsTaken, staff_enter, staff_return, staff_stop
from fitshop.views.doors import staff_page
from fitshop.views.still_you import is_still_you

# What may be done for a colleague, by the last word of its address, and what is said then.
DEEDS: dict[str, tuple[Callable[..., Staff], str]] = {
    "sign-out": (staff_sessions_end, "{} is signed out everywhere."),
    "factor": (staff_factor_remove, "{} sets up a new second factor at the next sign-in."),
    "stop": (staff_stop, "{} no longer works here and can't sign in."),
    "return": (staff_return, "{} can sign in again."),
}


@staff_page(SHOP_POLICY, ShopAction.STAFF_MANAGE)
def staff(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    form = StaffForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            person = staff_enter(**form.cleaned_data, by=actor, at=timezone.now())
        except NameIsTaken:
            form.add_error("username", "Someone signs in under this name already.")
        except ValidationError as error:
            form.add_error("password", error)
        else:
            messages.success(
                request, f"{person} can sign in now, and sets another password at once."
            )
            return redirect("staff")
    return render(
        request,
        "fitshop/staff.html",
        {"form": form, "people": staff_list()},
        status=422 if form.errors else 200,
    )


@staff_page(SHOP_POLICY, ShopAction.STAFF_MANAGE)
def staff_person(request: HttpRequest, person_id: UUID, *, actor: Actor) -> HttpResponse:
    """Change what a colleague is called, does, and where."""
    person = _found(person_id)
    form = ColleagueForm(request.POST or None, initial=_as_it_is(person))
    own = OwnPasswordForm(request.POST or None)
    is_confirmed = request.method == "POST" and is_still_you(request, own)
    if form.is_valid() and is_confirmed:
        try:
            staff_change(person=person, **form.cleaned_data, by=actor, at=timezone.now())
        except StateRefused as refusal:
            form.add_error("roles", ValidationError(refusal.sentence, code=refusal.code))
        else:
            messages.success(request, f"{form.cleaned_data['display_name']} is changed.")
            return redirect("staff_person", person_id=person_id)
    return _page(request, person, actor, form=form, own=own)


@staff_page(SHOP_POLICY, ShopAction.STAFF_MANAGE)
@require_POST
def staff_help(request: HttpRequest, person_id: UUID, deed: str, *, actor: Actor) -> HttpResponse:
    """Help with a sign-in: one deed, once the manager has shown who asks."""
    person = _found(person_id)
    if deed != "password" and deed not in DEEDS:
        raise Http404
    own = OwnPasswordForm(request.POST, prefix=deed)
    if not is_still_you(request, own):
        return _page(request, person, actor, own=own, deed=deed)
    try:
        if deed == "password":
            return _password_given(request, person, actor)
        service, sentence = DEEDS[deed]
        service(person=person, by=actor, at=timezone.now())
    except StateRefused as refusal:
        own.add_error(None, ValidationError(refusal.sentence, code=refusal.code))
        return _page(request, person, actor, own=own, deed=deed)
    messages.success(request, sentence.format(person))
    return redirect("staff_person", person_id=person_id)


def _password_given(request: HttpRequest, person: Staff, actor: Actor) -> HttpResponse:
    """Show the password on this one answer; only its hash is kept."""
    password = one_time_password()
    staff_password_give(person=person, password=password, by=actor, at=timezone.now())
    return render(request, "fitshop/staff_password.html", {"person": person, "given": password})


def _page(
    request: HttpRequest,
    person: Staff,
    actor: Actor,
    *,
    form: ColleagueForm | None = None,
    own: OwnPasswordForm,
    deed: str = "",
) -> HttpResponse:
    names = ["password", "factor", "sign-out", "stop" if person.is_active else "return"]
    if person.pk == actor.staff_id:
        names = ["sign-out"]
    context: dict[str, Any] = {
        "person": person,
        "form": form or ColleagueForm(initial=_as_it_is(person)),
        "own": own if not deed else OwnPasswordForm(),
        "deeds": [
            {"name": name, "form": own if name == deed else OwnPasswordForm(prefix=name)}
            for name in names
        ],
        "open": deed,
        "is_me": person.pk == actor.staff_id,
    }
    is_refused = own.errors or (form is not None and form.errors)
    return render(request, "fitshop/staff_person.html", context, status=422 if is_refused else 200)


def _found(person_id: UUID) -> Staff:
    person = staff_member(person_id)
    if person is None:
        raise Http404
    return person


def _as_it_is(person: Staff) -> dict[str, Any]:
    return {
        "display_name": person.display_name,
        "email": person.email,
        "roles": [Role(row.role) for row in person.role_rows.all()],
        "locations": list(person.locations.all()),
    }
