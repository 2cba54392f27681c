"""Parts: what can be built, what can be tried, and what must not be handed over any more."""

from __future__ import annotations

from decimal import Decimal
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused
from fitshop.selectors import the_shop
from fitshop.views.doors import staff_page
from sessions.forms.equipment import CheckForm
from sessions.maths.units import MM_PER_INCH, show_length
from sessions.models.words import Hand
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.selectors.catalogue import (
    LOFT_BANDS,
    Item,
    bore_words,
    equipment_item_for,
    equipment_listed,
    grips_listed,
    head_sole,
    heads_found,
    limit_words,
    shafts_listed,
)
from sessions.services.equipment import equipment_check, equipment_withdraw

SHOWN = {"trial": "Trial equipment", "heads": "Heads", "shafts": "Shafts", "grips": "Grips"}
REASONS = (
    "Head loose",
    "Hosel or face cracked",
    "Adapter or thread worn",
    "Shaft damaged",
    "Grip slips",
    "Grooves worn",
    "Lost",
)


@staff_page(FITTING_POLICY, FittingAction.EQUIPMENT_VIEW)
@require_safe
def parts(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    shown = request.GET.get("show", "trial")
    if shown not in SHOWN:
        shown = "trial"
    hand, band = request.GET.get("hand", ""), request.GET.get("loft", "")
    context: dict[str, Any] = {
        "shown": shown,
        "kinds": SHOWN.items(),
        "hand": hand,
        "loft": band,
        "hands": Hand.choices,
        "bands": [(key, f"{low} to {high}°") for key, (low, high) in LOFT_BANDS.items()],
    }
    if shown == "trial":
        context |= {
            "groups": equipment_listed(
                actor, today=timezone.localdate(), unit=_unit(), hand=hand, band=band
            ),
            "reasons": REASONS,
            "may_withdraw": FITTING_POLICY.is_allowed(actor, FittingAction.EQUIPMENT_WITHDRAW),
        }
    elif shown == "heads":
        context["heads"] = [
            {
                "head": head,
                "sole": head_sole(head),
                "limits": limit_words(head),
                "bore": bore_words(head.bore_mm),
            }
            for head in heads_found(hand=hand, band=band)
        ]
    elif shown == "shafts":
        unit = _unit()
        context["shafts"] = [
            {
                "shaft": shaft,
                "tip": bore_words(shaft.tip_mm),
                "raw": show_length(shaft.raw_length_mm, unit),
            }
            for shaft in shafts_listed()
        ]
    else:
        context["grips"] = [
            {
                "grip": grip,
                "core": _thousandths(grip.core_mm),
                "outside": _thousandths(grip.outside_mm),
                "lower_outside": _thousandths(grip.lower_outside_mm),
            }
            for grip in grips_listed()
        ]
    return render(request, "sessions/parts.html", context)


def _thousandths(diameter_mm: Decimal | None) -> str:
    return "" if diameter_mm is None else f"{diameter_mm / MM_PER_INCH:.3f} in"


@staff_page(FITTING_POLICY, FittingAction.EQUIPMENT_WITHDRAW)
@require_POST
def equipment_withdraw_view(
    request: HttpRequest, kind: str, item_id: UUID, *, actor: Actor
) -> HttpResponse:
    """Withdraw now: one tap on a reason, or a reason typed."""
    item = _item_or_404(actor, kind, item_id)
    why = request.POST.get("why", "").strip() or request.POST.get("other", "")
    try:
        item = equipment_withdraw(item=item, why=why, by=actor, at=timezone.now())
    except FieldsRefused as refused:
        messages.error(request, f"{item.mark}: {refused.errors['why']}")
    else:
        messages.success(request, f"{item.mark} is withdrawn on every tablet: {item.withdrawn_why}")
    return redirect("parts")


@staff_page(FITTING_POLICY, FittingAction.EQUIPMENT_CHECK)
def equipment_check_view(
    request: HttpRequest, kind: str, item_id: UUID, *, actor: Actor
) -> HttpResponse:
    """Check in: what the gauge and the scale said, and whether it may be used again."""
    item = _item_or_404(actor, kind, item_id)
    form = CheckForm(
        request.POST or None,
        kind=kind,
        unit=_unit(),
        is_withdrawn=item.withdrawn_at is not None,
    )
    if request.method == "POST" and form.is_valid():
        try:
            equipment_check(
                item=item,
                measured=form.measured(),
                inspect_by=form.cleaned_data.get("inspect_by"),
                back_in_use=form.cleaned_data.get("back_in_use", False),
                by=actor,
                at=timezone.now(),
            )
        except FieldsRefused as refused:
            for field, sentence in refused.errors.items():
                form.add_error(field if field in form.fields else None, sentence)
        else:
            messages.success(request, f"{item.mark} is checked.")
            return redirect("parts")
    return render(
        request,
        "sessions/equipment_check.html",
        {"form": form, "item": item, "kind": kind},
        status=422 if form.errors else 200,
    )


def _item_or_404(actor: Actor, kind: str, item_id: UUID) -> Item:
    item = equipment_item_for(actor, kind, item_id)
    if item is None:
        raise Http404
    return item


def _unit() -> Any:
    """The shop's unit of club lengths."""
    shop = the_shop()
    return "mm" if shop is not None and shop.length_unit == "mm" else "in"
