"""Who works here."""

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from fitshop.actor import Actor
from fitshop.forms import StaffForm
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.refusals import StateRefused
from fitshop.selectors import staff_list, staff_member
from fitshop.services.staff import NameIsTaken, staff_enter, staff_return, staff_stop
from fitshop.views.doors import staff_page


@staff_page(SHOP_POLICY, ShopAction.STAFF_MANAGE)
def staff(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    if request.method == "POST" and not {"stops", "returns"}.isdisjoint(request.POST):
        return _stop_or_return(request, actor)
    form = StaffForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            person = staff_enter(**form.cleaned_data, by=actor, at=timezone.now())
        except NameIsTaken:
            form.add_error("username", "Someone signs in under this name already.")
        except ValidationError as error:
            form.add_error("password", error)
        else:
            messages.success(request, f"{person} can sign in now.")
            return redirect("staff")
    return render(
        request,
        "fitshop/staff.html",
        {"form": form, "people": staff_list(), "me": actor.staff_id},
        status=422 if form.errors else 200,
    )


def _stop_or_return(request: HttpRequest, actor: Actor) -> HttpResponse:
    stops = "stops" in request.POST
    person = staff_member(request.POST["stops" if stops else "returns"])
    if person is None:
        raise Http404
    try:
        (staff_stop if stops else staff_return)(person=person, by=actor, at=timezone.now())
    except StateRefused as refusal:
        messages.error(request, refusal.sentence)
    else:
        said = "no longer works here and can't sign in" if stops else "can sign in again"
        messages.success(request, f"{person} {said}.")
    return redirect("staff")
