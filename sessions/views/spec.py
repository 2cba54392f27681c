"""The spec's page: every club in full, what the rules say beside it, accept, check, sign."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.contrib import messages as notes
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from fitshop.actor import Actor
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.selectors import the_shop
from fitshop.views.doors import staff_page
from sessions.flow import SpecState
from sessions.forms.spec import REASONS, AcceptForm, SignForm, SpecClubForm
from sessions.models import FinalSpec, Visit
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.selectors.spec_page import ShownClub, spec_page
from sessions.selectors.specs import current_spec, spec_club_for, spec_for
from sessions.selectors.visits import visit_for
from sessions.services.specs import (
    SpecMoved,
    spec_check,
    spec_club_change,
    spec_draft,
    spec_sign,
    warning_accept,
)
from sessions.views.visit_frame import frame_of


@staff_page(FITTING_POLICY, FittingAction.SPEC_VIEW)
@require_safe
def spec(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    return _page(request, _visit(actor, visit_id), actor)


@staff_page(FITTING_POLICY, FittingAction.SPEC_DRAFT)
@require_POST
def spec_draft_view(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    """Draft; one that is open is withdrawn for it only where the form names its version."""
    visit = _visit(actor, visit_id)
    named = request.POST.get("instead_of", "")
    try:
        made = spec_draft(
            visit=visit,
            by=actor,
            at=timezone.now(),
            instead_of=int(named) if named.isdecimal() else None,
        )
    except (Refused, StateRefused) as refusal:
        notes.error(request, refusal.sentence)
    else:
        notes.success(request, f"Version {made.version} is drafted from the decisions.")
    return redirect("spec", visit_id=visit_id)


@staff_page(FITTING_POLICY, FittingAction.SPEC_DRAFT)
@require_POST
def spec_club(request: HttpRequest, visit_id: UUID, club_id: UUID, *, actor: Actor) -> HttpResponse:
    """Change one club; a refusal shows what was typed, with the sentence beside its field."""
    visit = _visit(actor, visit_id)
    row = spec_club_for(actor, club_id)
    if row is None or row.spec.visit_id != visit.pk:
        raise Http404
    form = SpecClubForm(request.POST, club=row, unit=_unit(), edition=row.spec.edition)
    if not form.is_valid():
        return _page(request, visit, actor, bound=form, status=422)
    try:
        spec_club_change(
            spec_club=row,
            values=form.values(),
            edition=form.cleaned_data["edition"],
            by=actor,
            at=timezone.now(),
        )
    except FieldsRefused as refusal:
        for name, sentence in refusal.errors.items():
            form.add_error(name if name in form.fields else None, sentence)
        return _page(request, visit, actor, bound=form, status=422)
    except SpecMoved as refusal:
        form.add_error(None, refusal.sentence)
        form.data = form.data.copy()
        form.data[form.add_prefix("edition")] = str(FinalSpec.objects.get(pk=row.spec_id).edition)
        return _page(request, visit, actor, bound=form, status=409)
    except (Refused, StateRefused) as refusal:
        notes.error(request, refusal.sentence)
    else:
        notes.success(request, f"Slot {row.slot} is saved.")
    return redirect("spec", visit_id=visit_id)


@staff_page(FITTING_POLICY, FittingAction.SPEC_DRAFT)
@require_POST
def spec_check_view(
    request: HttpRequest, visit_id: UUID, spec_id: UUID, *, actor: Actor
) -> HttpResponse:
    row = _spec(actor, visit_id, spec_id)
    try:
        findings = spec_check(spec=row, by=actor, at=timezone.now())
    except (Refused, StateRefused) as refusal:
        notes.error(request, refusal.sentence)
    else:
        stops = sum(1 for finding in findings if finding.stops)
        if stops:
            notes.error(request, f"Checked. {stops} to put right before it can be signed.")
        else:
            notes.success(request, "Checked. Nothing stops the order.")
    return redirect("spec", visit_id=visit_id)


@staff_page(FITTING_POLICY, FittingAction.SPEC_SIGN)
@require_POST
def spec_accept(
    request: HttpRequest, visit_id: UUID, spec_id: UUID, *, actor: Actor
) -> HttpResponse:
    row = _spec(actor, visit_id, spec_id)
    form = AcceptForm(request.POST)
    try:
        if not form.is_valid():
            raise FieldsRefused({"reason": "Choose a reason, or type one of at most 300 letters."})
        warning_accept(
            spec=row,
            rule=form.cleaned_data["rule"],
            fields=form.finding_fields(),
            reason=form.reason(),
            by=actor,
            at=timezone.now(),
        )
    except FieldsRefused as refusal:
        notes.error(request, " ".join(refusal.errors.values()))
    except (Refused, StateRefused) as refusal:
        notes.error(request, refusal.sentence)
    else:
        notes.success(request, "Accepted, with your name and reason.")
    return redirect("spec", visit_id=visit_id)


@staff_page(FITTING_POLICY, FittingAction.SPEC_SIGN)
@require_POST
def spec_sign_view(
    request: HttpRequest, visit_id: UUID, spec_id: UUID, *, actor: Actor
) -> HttpResponse:
    row = _spec(actor, visit_id, spec_id)
    form = SignForm(request.POST)
    form.full_clean()
    try:
        spec_sign(
            spec=row,
            edition=form.edition_seen(),
            read_back=form.read_back(),
            by=actor,
            at=timezone.now(),
        )
    except FieldsRefused as refusal:
        for name, sentence in refusal.errors.items():
            form.add_error(name, ValidationError(sentence, code=refusal.code))
        return _page(request, _visit(actor, visit_id), actor, sign_form=form, status=422)
    except (Refused, StateRefused) as refusal:
        notes.error(request, refusal.sentence)
    else:
        notes.success(request, f"Version {row.version} is signed.")
    return redirect("spec", visit_id=visit_id)


def _page(
    request: HttpRequest,
    visit: Visit,
    actor: Actor,
    *,
    bound: SpecClubForm | None = None,
    sign_form: SignForm | None = None,
    status: int = 200,
) -> HttpResponse:
    row = current_spec(visit)
    page = None if row is None else spec_page(row, length_unit=_unit())
    is_open = row is not None and row.state in (SpecState.DRAFT, SpecState.CHECKED)
    may_write = FITTING_POLICY.is_allowed(
        actor, FittingAction.SPEC_DRAFT, location_id=visit.location_id
    )
    context: dict[str, Any] = {
        "spec": row,
        "page": page,
        "sign_form": sign_form or SignForm(initial={"edition": row.edition if row else ""}),
        "is_open": is_open,
        "may_write": may_write,
        "reasons": REASONS,
        "has_decisions": visit.decisions.filter(is_current=True).exists(),
        "history": visit.specs.exclude(pk=row.pk) if row else [],
        "clubs": [
            {"shown": club, "form": _form(club, row, bound) if is_open and may_write else None}
            for club in page.clubs
        ]
        if page is not None and row is not None
        else [],
    }
    context |= frame_of(visit, actor, current="spec")
    return render(request, "sessions/spec.html", context, status=status)


def _form(shown: ShownClub, row: FinalSpec | None, bound: SpecClubForm | None) -> SpecClubForm:
    if bound is not None and bound.club.pk == shown.row.pk:
        return bound
    edition = row.edition if row else 1
    return SpecClubForm(club=shown.row, unit=_unit(), edition=edition, beside=shown.delivery)


def _visit(actor: Actor, visit_id: UUID) -> Visit:
    visit = visit_for(actor, visit_id)
    if visit is None:
        raise Http404
    return visit


def _spec(actor: Actor, visit_id: UUID, spec_id: UUID) -> FinalSpec:
    row = spec_for(actor, spec_id)
    if row is None or row.visit_id != visit_id:
        raise Http404
    return row


def _unit() -> str:
    shop = the_shop()
    return shop.length_unit if shop else "in"
