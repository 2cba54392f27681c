"""An order on paper: the shop's ticket, and the player's as-built sheet."""

from __future__ import annotations

from collections.abc import Callable

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.utils import timezone
from django.views.decorators.http import require_safe

from fitshop.actor import Actor
from fitshop.rendering import RenderingFailed
from fitshop.views.doors import staff_page
from orders.documents import as_built, ticket
from orders.models import BuildOrder
from orders.policy import ORDER_POLICY, OrderAction
from orders.selectors.as_built import as_built_values
from orders.selectors.orders import revision_for
from orders.selectors.ticket import ticket_values
from orders.views.orders import found, order_page


@staff_page(ORDER_POLICY, OrderAction.TICKET_PRINT)
@require_safe
def ticket_pdf(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    """The ticket of `?rev=B`, or of the revision in force."""
    revision = revision_for(actor, number, request.GET.get("rev", ""))
    if revision is None:
        raise Http404
    values = ticket_values(revision, printed_at=timezone.now())
    return _paper(
        request,
        found(actor, number),
        actor,
        make=lambda: ticket.pdf(values),
        what="ticket",
        name=f"ticket-{number}-{revision.letter}.pdf",
    )


@staff_page(ORDER_POLICY, OrderAction.TICKET_PRINT)
@require_safe
def as_built_pdf(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    """How the clubs measured when they were handed over; before that there is no such record."""
    row = found(actor, number)
    if row.handed_over_at is None:
        messages.error(request, "The as-built sheet is printed once the clubs are handed over.")
        return order_page(request, row, actor, status=409)
    values = as_built_values(row)
    return _paper(
        request,
        row,
        actor,
        make=lambda: as_built.pdf(values),
        what="as-built sheet",
        name=f"as-built-{number}.pdf",
    )


def _paper(
    request: HttpRequest,
    row: BuildOrder,
    actor: Actor,
    *,
    make: Callable[[], bytes],
    what: str,
    name: str,
) -> HttpResponse:
    """The PDF to look at and print, or the order's page with the reason why there is none."""
    try:
        content = make()
    except RenderingFailed as failure:
        messages.error(request, f"The {what} could not be made: {failure}")
        return order_page(request, row, actor, status=500)
    return HttpResponse(
        content,
        content_type="application/pdf",
        headers={"Content-Disposition": f'inline; filename="{name}"', "Cache-Control": "no-store"},
    )
