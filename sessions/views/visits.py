"""Visits as the desk handles them: booked, moved, opened, called off. Capture has its own pages."""

from __future__ import annotations

import datetime as dt
from typing import Any
from urllib.parse import urlencode
from uuid import UUID

from django import forms
from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.dateparse import parse_time
from django.views.decorators.http import require_POST, require_safe

from fitshop.actor import Actor, Role
from fitshop.forms import DayField
from fitshop.models import Staff
from fitshop.refusals import FieldsRefused
from fitshop.views.doors import staff_page
from sessions.flow import VisitState
from sessions.forms.visits import MoveForm, VisitForm, guardian_label
from sessions.models import Player, Visit
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.rules.consent_texts import consent_text
from sessions.selectors.people import awaits_guardian, player_for, players_found
from sessions.selectors.visits import visit_for
from sessions.services.visits import (
    BookingDoubted,
    visit_book,
    visit_cancel,
    visit_move,
    visit_no_show,
    visit_open,
)
from sessions.views.visit_frame import frame_of

FOUND = 12


@staff_page(FITTING_POLICY, FittingAction.VISIT_BOOK)
def visit_new(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """Whom first, then when: the player is in the address, the rest in the form."""
    player = _player(request, actor)
    walk_in = request.GET.get("walk_in") == "1"
    if player is None:
        return _whom(request, actor, walk_in)
    form = VisitForm(
        request.POST if request.method == "POST" else None,
        actor=actor,
        walk_in=walk_in,
        guardian=player.guardian_name if walk_in and awaits_guardian(player) else None,
        initial=_booking_defaults(request, actor),
    )
    if request.method == "POST" and form.is_valid():
        visit = _booked(form, player, actor, _sure_of(request))
        if visit is not None:
            done = "is here" if visit.is_walk_in else "is booked"
            messages.success(request, f"{player} {done}.")
            return redirect("visit", visit_id=visit.pk)
    return render(
        request,
        "sessions/visit_new.html",
        {
            "form": form,
            "player": player,
            "walk_in": walk_in,
            "consent_words": consent_text("record").words,
            "appointment_query": _query(request, walk_in=""),
            "walk_in_query": _query(request, walk_in="1"),
            "other_player_query": _query(request, player=""),
        },
        status=422 if form.errors else 200,
    )


@staff_page(FITTING_POLICY, FittingAction.VISIT_VIEW)
@require_safe
def visit(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    """An open visit leads whoever records it to the first step that is not done."""
    return _visit_page(request, _visit_or_404(actor, visit_id), actor)


def _visit_page(
    request: HttpRequest, row: Visit, actor: Actor, *, refused: str = ""
) -> HttpResponse:
    """The page; `refused` is why it was not opened, beside the tick of the guardian's consent."""
    status = 422 if refused else 200
    may_open = row.locked_at is None and FITTING_POLICY.is_allowed(
        actor, FittingAction.VISIT_OPEN, location_id=row.location_id
    )
    if row.state not in (VisitState.OPEN, VisitState.CLOSED):
        context = {
            "visit": row,
            "player": row.player,
            "state": VisitState(row.state),
            "may_open": may_open and row.state != VisitState.CANCELLED,
            "may_book": FITTING_POLICY.is_allowed(actor, FittingAction.VISIT_BOOK),
            "has_begun": row.starts_at <= timezone.now(),
        }
        context |= _guardian(row.player, refused)
        with timezone.override(row.location.zone_info):
            return render(request, "sessions/visit.html", context, status=status)
    frame = frame_of(row, actor, current="")
    may_capture = FITTING_POLICY.is_allowed(
        actor, FittingAction.CAPTURE, location_id=row.location_id, state=row.state
    )
    if may_capture and "stay" not in request.GET:
        return redirect(_next_step(frame["visit_steps"]))
    may_import = FITTING_POLICY.is_allowed(
        actor, FittingAction.SHOT_FILE_IMPORT, location_id=row.location_id, state=row.state
    )
    context = frame | {
        "state": VisitState(row.state),
        "may_open": may_open,
        "may_import": may_import,
    }
    context |= _guardian(row.player, refused)
    with timezone.override(row.location.zone_info):
        return render(request, "sessions/visit_record.html", context, status=status)


def _guardian(player: Player, refused: str) -> dict[str, Any]:
    """What is asked before a child's visit opens."""
    if not awaits_guardian(player):
        return {"guardian_label": ""}
    return {
        "guardian_label": guardian_label(player.guardian_name),
        "consent_words": consent_text("record").words,
        "refused": [refused] if refused else [],
    }


@staff_page(FITTING_POLICY, FittingAction.VISIT_MOVE)
def visit_move_view(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    row = _visit_or_404(actor, visit_id)
    FITTING_POLICY.require(
        actor, FittingAction.VISIT_MOVE, location_id=row.location_id, state=row.state
    )
    form = MoveForm(
        request.POST if request.method == "POST" else None,
        actor=actor,
        visit=row,
        initial=MoveForm.initial_of(row),
    )
    if request.method == "POST" and form.is_valid():
        try:
            visit_move(
                visit=row,
                **_chosen(form),
                sure_of=_sure_of(request),
                by=actor,
                at=timezone.now(),
            )
        except FieldsRefused as refused:
            _beside_fields(form, refused)
        else:
            messages.success(request, "The visit is moved.")
            return redirect("visit", visit_id=row.pk)
    return render(
        request,
        "sessions/visit_move.html",
        {"form": form, "visit": row, "player": row.player},
        status=422 if form.errors else 200,
    )


@staff_page(FITTING_POLICY, FittingAction.VISIT_OPEN)
@require_POST
def visit_open_view(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    row = _visit_or_404(actor, visit_id)
    agrees = "guardian_agrees" in request.POST
    try:
        visit_open(visit=row, guardian_agrees=agrees, by=actor, at=timezone.now())
    except FieldsRefused as refused:
        return _visit_page(request, row, actor, refused=" ".join(refused.errors.values()))
    return redirect("visit", visit_id=row.pk)


@staff_page(FITTING_POLICY, FittingAction.VISIT_BOOK)
@require_POST
def visit_cancel_view(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    row = _visit_or_404(actor, visit_id)
    visit_cancel(visit=row, by=actor, at=timezone.now())
    messages.success(request, "The visit is cancelled.")
    return redirect("visit", visit_id=row.pk)


@staff_page(FITTING_POLICY, FittingAction.VISIT_BOOK)
@require_POST
def visit_no_show_view(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    row = _visit_or_404(actor, visit_id)
    visit_no_show(visit=row, by=actor, at=timezone.now())
    messages.success(request, "Written down: did not come.")
    return redirect("visit", visit_id=row.pk)


def _visit_or_404(actor: Actor, visit_id: UUID) -> Visit:
    row = visit_for(actor, visit_id)
    if row is None:
        raise Http404
    return row


def _player(request: HttpRequest, actor: Actor) -> Player | None:
    given = request.GET.get("player", "")
    if not given:
        return None
    try:
        found = player_for(actor, UUID(given))
    except ValueError:
        found = None
    if found is None:
        raise Http404
    return found.merged_into or found


def _whom(request: HttpRequest, actor: Actor, walk_in: bool) -> HttpResponse:
    typed = request.GET.get("q", "").strip()
    rows = players_found(actor, typed)[:FOUND] if typed else []
    return render(
        request,
        "sessions/visit_whom.html",
        {
            "q": typed,
            "walk_in": walk_in,
            "rows": [
                {"player": row, "url": f"?{_query(request, player=str(row.pk), q='')}"}
                for row in rows
            ],
            "kept": [item for item in request.GET.items() if item[0] != "q"],
        },
    )


def _query(request: HttpRequest, **changed: str) -> str:
    """The page's address with some of it changed, and what is empty left out."""
    query = {**request.GET.dict(), **changed}
    return urlencode({name: value for name, value in query.items() if value})


def _booking_defaults(request: HttpRequest, actor: Actor) -> dict[str, Any]:
    day = _given(DayField().clean, request.GET.get("day", "")) or timezone.localdate()
    is_fitter = actor.has_role(Role.FITTER) and isinstance(request.user, Staff)
    return VisitForm.initial_for(
        day=day,
        time=_given(parse_time, request.GET.get("time", "")),
        bay_id=request.GET.get("bay", ""),
        fitter=request.user if is_fitter else None,  # type: ignore[arg-type]
    )


def _given(parse: Any, text: str) -> Any:
    try:
        return parse(text)
    except (ValueError, forms.ValidationError):
        return None


def _booked(form: VisitForm, player: Player, actor: Actor, sure_of: list[str]) -> Visit | None:
    """Book, or put the refusal beside the field and answer None."""
    now = timezone.now()
    chosen = _chosen(form)
    try:
        return visit_book(
            visit_id=form.cleaned_data["id"],
            player=player,
            location=form.cleaned_data["location"],
            kind=form.cleaned_data["kind"],
            note=form.cleaned_data["note"],
            is_walk_in=form.walk_in,
            guardian_agrees=form.cleaned_data.get("guardian_agrees", False),
            **(chosen | {"starts_at": _this_minute(now)} if form.walk_in else chosen),
            sure_of=sure_of,
            by=actor,
            at=now,
        )
    except FieldsRefused as refused:
        _beside_fields(form, refused)
        return None


def _chosen(form: VisitForm | MoveForm) -> dict[str, Any]:
    names = ("starts_at", "minutes", "bay", "fitter")
    return {name: form.cleaned_data[name] for name in names if name in form.cleaned_data}


def _this_minute(now: dt.datetime) -> dt.datetime:
    return now.replace(second=0, microsecond=0)


def _sure_of(request: HttpRequest) -> list[str]:
    """The keys of the doubts that the desk has answered with "all the same"."""
    return request.POST.get("sure_of", "").split()


def _beside_fields(form: VisitForm | MoveForm, refused: FieldsRefused) -> None:
    if isinstance(refused, BookingDoubted):
        form.doubts = " ".join(refused.keys)
    for name, sentence in refused.errors.items():
        error = forms.ValidationError(sentence, code=refused.code or None)
        form.add_error(name if name in form.fields else None, error)


def _next_step(steps: list[dict[str, Any]]) -> str:
    return next((step["url"] for step in steps if step["state"] != "done"), steps[-1]["url"])
