"""Messages: waiting, sent, failed and why, and those about which a person must decide."""

from urllib.parse import urlencode
from uuid import UUID

from django.contrib import messages as notes
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from fitshop.actor import Actor
from fitshop.forms import MessagesForm
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.selectors import message_for, messages_page
from fitshop.services.messages import MessageIsDecided, message_decide
from fitshop.views.doors import staff_page


@staff_page(SHOP_POLICY, ShopAction.MESSAGES_VIEW)
@require_safe
def messages(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """Fifty letters, newest first; those that failed and those that wait are found by state."""
    form = MessagesForm(request.GET)
    wanted = form.cleaned_data if form.is_valid() else {}
    rows, last = messages_page(
        actor,
        state=wanted.get("state") or "",
        to=wanted.get("q") or "",
        after=wanted.get("after"),
    )
    asked = {name: text for name, text in request.GET.items() if text and name != "after"}
    return render(
        request,
        "fitshop/messages.html",
        {
            "form": form,
            "rows": rows,
            "older": urlencode(asked | {"after": last}) if last else "",
            "is_filtered": bool(asked),
        },
        status=422 if form.errors else 200,
    )


@staff_page(SHOP_POLICY, ShopAction.MESSAGES_VIEW)
@require_safe
def message(request: HttpRequest, message_id: UUID, *, actor: Actor) -> HttpResponse:
    row = message_for(actor, message_id)
    if row is None:
        raise Http404
    may_decide = SHOP_POLICY.is_allowed(actor, ShopAction.MESSAGE_DECIDE)
    return render(request, "fitshop/message.html", {"row": row, "may_decide": may_decide})


@staff_page(SHOP_POLICY, ShopAction.MESSAGE_DECIDE)
@require_POST
def message_decide_view(request: HttpRequest, message_id: UUID, *, actor: Actor) -> HttpResponse:
    row = message_for(actor, message_id)
    if row is None:
        raise Http404
    try:
        message_decide(
            message=row,
            decision=request.POST.get("decision", ""),
            by=actor,
            at=timezone.now(),
        )
    except (MessageIsDecided, ValueError) as refusal:
        notes.error(request, str(refusal))
    else:
        notes.success(request, "Done, and written down.")
    return redirect("message", message_id=message_id)
