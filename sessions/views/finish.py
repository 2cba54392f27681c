"""The end of a visit: what is still open, whether the summary will go, and the close."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages as notes
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from fitshop.actor import Actor
from fitshop.policy import Refused
from fitshop.refusals import StateRefused
from fitshop.views.doors import staff_page
from sessions.documents import summary
from sessions.flow import VisitState
from sessions.models import Visit
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.selectors.finish import OpenThing, open_things, summary_messages, summary_occasion
from sessions.selectors.people import addressee_of
from sessions.selectors.spec_sheet import letter_values, summary_refusal
from sessions.selectors.specs import signed_spec
from sessions.selectors.visits import visit_for
from sessions.services.summaries import summary_queue
from sessions.services.visits import visit_close
from sessions.views.visit_frame import frame_of

CAPTURED = ("interview", "trials")


@staff_page(FITTING_POLICY, FittingAction.VISIT_VIEW)
@require_safe
def finish(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    visit = _visit(actor, visit_id)
    spec = signed_spec(visit)
    addressee = addressee_of(visit.player)
    letters = summary_messages(visit)
    queued = letters.filter(occasion=summary_occasion(spec)).first() if spec else None
    context = {
        "open_things": [(one.words, _step_url(visit, one)) for one in open_things(visit)],
        "spec": spec,
        "queued": queued,
        "why_not": summary_refusal(visit),
        "recipient": addressee.email if addressee else "",
        "letter": queued.body_text if queued else summary.text(letter_values(spec)) if spec else "",
        "may_close": FITTING_POLICY.is_allowed(
            actor, FittingAction.VISIT_CLOSE, location_id=visit.location_id, state=visit.state
        ),
        "may_send": FITTING_POLICY.is_allowed(
            actor, FittingAction.SUMMARY_QUEUE, location_id=visit.location_id
        ),
        "is_closed": visit.state == VisitState.CLOSED,
        **frame_of(visit, actor, current="finish"),
    }
    return render(request, "sessions/finish.html", context)


@staff_page(FITTING_POLICY, FittingAction.VISIT_CLOSE)
@require_POST
def visit_close_view(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    visit = _visit(actor, visit_id)
    try:
        visit_close(visit=visit, by=actor, at=timezone.now())
    except (Refused, StateRefused) as refusal:
        notes.error(request, refusal.sentence)
    else:
        notes.success(request, "The visit is closed.")
    return redirect("finish", visit_id=visit_id)


@staff_page(FITTING_POLICY, FittingAction.SUMMARY_QUEUE)
@require_POST
def summary_send(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    visit = _visit(actor, visit_id)
    try:
        summary_queue(visit=visit, by=actor, at=timezone.now())
    except (Refused, StateRefused) as refusal:
        notes.error(request, refusal.sentence)
    else:
        notes.success(request, "The summary is on its way.")
    return redirect("finish", visit_id=visit_id)


def _step_url(visit: Visit, thing: OpenThing) -> str:
    if thing.step in CAPTURED:
        return reverse("room", args=[visit.pk, thing.step])
    return reverse(thing.step, args=[visit.pk])


def _visit(actor: Actor, visit_id: UUID) -> Visit:
    visit = visit_for(actor, visit_id)
    if visit is None:
        raise Http404
    return visit
