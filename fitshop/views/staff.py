"""Who works here."""

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from fitshop.actor import Actor
from fitshop.forms import StaffForm
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.selectors import staff_list
from fitshop.services.staff import NameIsTaken, staff_enter
from fitshop.views.doors import staff_page


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
            messages.success(request, f"{person} can sign in now.")
            return redirect("staff")
    return render(
        request,
        "fitshop/staff.html",
        {"form": form, "people": staff_list()},
        status=422 if form.errors else 200,
    )
