"""First clubs: what the interview suggests for every slot, and setting it aside with a reason."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from fitshop.actor import Actor
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.views.doors import staff_page
from sessions.forms.decide import OverruleCountForm, OverruleForm
from sessions.models import Visit
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.rules.first_clubs import OF_THE_SET
from sessions.rules.slot_suggestions import (
    NOTHING_YET,
    SlotSuggestions,
    Suggestion,
    Topic,
    Weight,
)
from sessions.rules.wording import figure
from sessions.selectors.first_clubs import VisitFirstClubs, visit_first_clubs
from sessions.selectors.visits import visit_for
from sessions.services.interviews import suggestion_overrule
from sessions.views.visit_frame import frame_of

# How a suggestion's weight looks; the words beside it say the same.
_TONE = {Weight.CLEAR: "turf", Weight.LEANING: "sky", Weight.OPEN: ""}


@staff_page(FITTING_POLICY, FittingAction.VISIT_VIEW)
def first_clubs(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    visit = visit_for(actor, visit_id)
    if visit is None:
        raise Http404
    shown = visit_first_clubs(visit)
    bound: OverruleForm | None = None
    if request.method == "POST":
        which = request.POST.get("which", "")
        bound = _form_of(which)(request.POST, prefix=which)
        if _overruled(request, visit, shown, bound, actor):
            return redirect("first_clubs", visit_id=visit.pk)
    context = frame_of(visit, actor, current="plan") | {
        "found": shown.found,
        "is_chosen": shown.is_chosen,
        "slots": [_slot(slot, shown, bound) for slot in shown.found.slots],
        "count": _row(OF_THE_SET, shown.found.count, shown, bound),
        "first": shown.found.first and _row(OF_THE_SET, shown.found.first, shown, bound),
        "soles": [] if shown.found.slots else _soles(shown),
        "may_overrule": FITTING_POLICY.is_allowed(
            actor, FittingAction.CAPTURE, location_id=visit.location_id, state=visit.state
        ),
    }
    status = 422 if bound is not None and bound.errors else 200
    return render(request, "sessions/first_clubs.html", context, status=status)


def _which(slot: int, one: Suggestion) -> str:
    return f"s{slot}-{one.topic.value}"


def _form_of(which: str) -> type[OverruleForm]:
    """A number of wedges is tapped, everything else is said in words."""
    return OverruleCountForm if which.endswith(f"-{Topic.WEDGES.value}") else OverruleForm


def _slot(
    slot: SlotSuggestions, shown: VisitFirstClubs, bound: OverruleForm | None
) -> dict[str, Any]:
    return {
        "title": f"Slot {slot.slot.slot}, {figure(slot.slot.loft_deg)}°",
        "role": slot.slot.role.label,
        "job": slot.job,
        "rows": [
            _row(slot.slot.slot, one, shown, bound) | {"delivered": shown.delivered(slot, one)}
            for one in slot.suggestions
        ],
    }


def _row(
    slot: int, one: Suggestion, shown: VisitFirstClubs, bound: OverruleForm | None
) -> dict[str, Any]:
    which = _which(slot, one)
    is_bound = bound is not None and bound.prefix == which
    overruling = shown.overruling(slot, one)
    initial = {} if overruling is None else {"instead": overruling.instead}
    return {
        "which": which,
        "one": one,
        "tone": _TONE[one.weight],
        "overruling": overruling,
        "form": bound if is_bound else _form_of(which)(prefix=which, initial=initial),
    }


def _soles(shown: VisitFirstClubs) -> list[dict[str, Any]]:
    """Soles by job, for as long as there are no slots to have them."""
    return [
        {
            "job": one.job.label,
            "words": NOTHING_YET
            if one.band is None
            else ", ".join(filter(None, (shown.sole_limits.words(one.band), one.sole))),
            "why": one.why,
            "rule_id": one.rule_id,
        }
        for one in shown.found.soles
    ]


def _rows(shown: VisitFirstClubs) -> Iterator[tuple[int, Suggestion]]:
    """All that may be set aside: of each slot, and of the set."""
    for slot in shown.found.slots:
        yield from ((slot.slot.slot, one) for one in slot.suggestions)
    yield OF_THE_SET, shown.found.count
    if shown.found.first is not None:
        yield OF_THE_SET, shown.found.first


def _overruled(
    request: HttpRequest,
    visit: Visit,
    shown: VisitFirstClubs,
    form: OverruleForm,
    actor: Actor,
) -> bool:
    """Set one suggestion aside; a refusal stays beside its field with what was typed."""
    found = next((row for row in _rows(shown) if _which(*row) == form.prefix), None)
    if found is None:
        messages.warning(request, "The plan changed meanwhile. Look again, then overrule.")
        return True
    if not form.is_valid():
        return False
    slot, suggestion = found
    try:
        suggestion_overrule(
            visit=visit,
            slot=slot,
            suggestion=suggestion,
            instead=form.cleaned_data["instead"],
            reason=form.why,
            by=actor,
            at=timezone.now(),
        )
    except FieldsRefused as refused:
        for field, sentence in refused.errors.items():
            form.add_error(field if field in form.fields else None, sentence)
        return False
    except (StateRefused, Refused) as refused:
        messages.error(request, refused.sentence)
        return True
    messages.success(
        request,
        "Noted. The suggestion stays in sight beside it."
        if form.cleaned_data["instead"]
        else "Noted. The suggestion counts again.",
    )
    return True
