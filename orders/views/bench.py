"""The bench: what is due, one club in the hand, readings typed as they are read."""

from __future__ import annotations

import datetime as dt
from typing import Any
from uuid import UUID, uuid4

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from fitshop.actor import Actor
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.selectors import the_shop
from fitshop.views.doors import staff_page
from orders.forms import ConcessionForm, ReadingForm, ReasonForm, StepForm
from orders.models import OrderClub, Reading
from orders.models.bench import Measure, Stage, Step
from orders.policy import ORDER_POLICY, OrderAction
from orders.selectors.figures import (
    MEASURES,
    bend_of,
    figures_of,
    settings_of,
    standing_readings,
    work_of,
)
from orders.selectors.orders import bench_orders, club_for, gauges_for, number_typed, order_for
from orders.selectors.ticket import club_values
from orders.services.bench import reading_record, reading_strike_out, step_finish
from orders.services.checks import concession_sign


@staff_page(ORDER_POLICY, OrderAction.BENCH_VIEW)
@require_safe
def bench(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """Tickets by due date and state; a scan or a number opens one."""
    typed = request.GET.get("ticket", "").strip()
    if typed:
        number = number_typed(typed)
        if number is not None and order_for(actor, number) is not None:
            return redirect("order", number=number)
        messages.error(request, f"There is no ticket {typed} here.")
    rows = list(bench_orders(actor))
    return render(
        request,
        "orders/bench.html",
        {"rows": rows, "typed": typed, "today": timezone.localdate(), "now": timezone.now()},
    )


@staff_page(ORDER_POLICY, OrderAction.BENCH_VIEW)
@require_safe
def bench_club(request: HttpRequest, number: int, slot: int, *, actor: Actor) -> HttpResponse:
    return _club_page(request, _found(actor, number, slot), actor)


@staff_page(ORDER_POLICY, OrderAction.BENCH_WORK)
@require_POST
def bench_step(
    request: HttpRequest, number: int, slot: int, step: str, *, actor: Actor
) -> HttpResponse:
    """Tick one step."""
    club = _found(actor, number, slot)
    if step not in Step.values:
        raise Http404
    form = StepForm(step, request.POST, prefix=step, length_unit=_length_unit())
    if not form.is_valid():
        return _club_page(request, club, actor, status=422, step_form=form)
    try:
        step_finish(club=club, step=step, values=form.cleaned_data, by=actor, at=timezone.now())
    except FieldsRefused as refusal:
        for name, sentence in refusal.errors.items():
            form.add_error(name if name in form.fields else None, sentence)
        return _club_page(request, club, actor, status=422, step_form=form)
    except (StateRefused, Refused) as refusal:
        form.add_error(None, refusal.sentence)
        return _club_page(request, club, actor, status=422, step_form=form)
    return redirect("bench_club", number=number, slot=slot)


@staff_page(ORDER_POLICY, OrderAction.BENCH_WORK)
@require_POST
def bench_reading(request: HttpRequest, number: int, slot: int, *, actor: Actor) -> HttpResponse:
    """Write one reading."""
    club = _found(actor, number, slot)
    stage, measure = request.POST.get("stage", ""), request.POST.get("measure", "")
    if stage not in Stage.values or measure not in Measure.values:
        raise Http404
    form = ReadingForm(
        request.POST,
        gauges=gauges_for(actor, measure),
        length_unit=_length_unit(),
        auto_id=f"id_{stage}_{measure}_%s",
    )
    if form.is_valid():
        values = form.cleaned_data
        try:
            reading_record(
                club=club,
                stage=stage,
                measure=measure,
                value=values["metric"],
                gauge=values["gauge"],
                as_typed=values["value"],
                reading_id=values["reading_id"],
                by=actor,
                at=timezone.now(),
            )
        except FieldsRefused as refusal:
            for name, sentence in refusal.errors.items():
                form.add_error(name if name in form.fields else None, sentence)
        except (StateRefused, Refused) as refusal:
            form.add_error("value", refusal.sentence)
        else:
            return redirect("bench_club", number=number, slot=slot)
    refused = (stage, measure, form)
    return _club_page(request, club, actor, status=422, refused_reading=refused)


@staff_page(ORDER_POLICY, OrderAction.BENCH_WORK)
@require_POST
def reading_strike_out_view(
    request: HttpRequest, number: int, slot: int, reading_id: UUID, *, actor: Actor
) -> HttpResponse:
    """Strike out a mistyped reading."""
    club = _found(actor, number, slot)
    reading = Reading.objects.filter(pk=reading_id, club=club).first()
    if reading is None:
        raise Http404
    form = ReasonForm(request.POST)
    why = form.cleaned_data["why"] if form.is_valid() else "mistyped"
    try:
        reading_strike_out(reading=reading, why=why, by=actor, at=timezone.now())
    except (StateRefused, Refused) as refusal:
        messages.error(request, refusal.sentence)
        return _club_page(request, club, actor, status=422)
    messages.success(request, "Struck out. It stays to be seen and counts no more.")
    return redirect("bench_club", number=number, slot=slot)


@staff_page(ORDER_POLICY, OrderAction.CONCESSION_SIGN)
@require_POST
def concession(request: HttpRequest, number: int, slot: int, *, actor: Actor) -> HttpResponse:
    """Accept a figure out of tolerance, with the reason."""
    club = _found(actor, number, slot)
    form = ConcessionForm(request.POST)
    if form.is_valid():
        try:
            concession_sign(club=club, by=actor, at=timezone.now(), **form.cleaned_data)
        except FieldsRefused as refusal:
            for name, sentence in refusal.errors.items():
                form.add_error(name, sentence)
        except (StateRefused, Refused) as refusal:
            form.add_error(None, refusal.sentence)
        else:
            messages.success(request, "Accepted, under your name.")
            return redirect("bench_club", number=number, slot=slot)
    return _club_page(request, club, actor, status=422, concession_form=form)


def _found(actor: Actor, number: int, slot: int) -> OrderClub:
    club = club_for(actor, number, slot)
    if club is None:
        raise Http404
    return club


def _length_unit() -> str:
    shop = the_shop()
    return shop.length_unit if shop else "in"


def _club_page(
    request: HttpRequest,
    club: OrderClub,
    actor: Actor,
    *,
    status: int = 200,
    step_form: StepForm | None = None,
    refused_reading: tuple[str, str, ReadingForm] | None = None,
    concession_form: ConcessionForm | None = None,
) -> HttpResponse:
    order = club.revision.order
    settings = settings_of(club.revision).values
    done = {step.step: step for step in club.steps.all()}
    work = work_of(club)
    is_rework = club.state == "rework"
    next_step = work.next_step(done)
    is_here = ORDER_POLICY.is_allowed(
        actor, OrderAction.BENCH_WORK, location_id=order.location_id, state=order.state
    )
    steps = [
        {
            "step": step,
            "label": Step(step).label,
            "done": done.get(step),
            "is_next": step == next_step,
            "is_open": is_here and (step == next_step or (is_rework and step in done)),
            "form": _step_form(step, step_form),
        }
        for step in work.steps
    ]
    now: dt.datetime = timezone.now()
    context: dict[str, Any] = {
        "order": order,
        "club": club,
        "words": club_values(club, _length_unit(), settings, order.location.zone_info),  # type: ignore[arg-type]
        "bend": bend_of(club, settings),
        "steps": steps,
        "is_curing": club.cure_until is not None and club.cure_until > now,
        "received": _readings(actor, club, Stage.AS_RECEIVED, refused_reading),
        "built": _readings(actor, club, Stage.AS_BUILT, refused_reading),
        "figures": figures_of(club, settings),
        "struck_out": [each for each in club.readings.all() if each.struck_out_at is not None],
        "may_work": is_here,
        "is_measuring": is_rework or next_step in ("measured", "cleaned") or next_step is None,
        "may_accept": ORDER_POLICY.is_allowed(
            actor, OrderAction.CONCESSION_SIGN, location_id=order.location_id, state=order.state
        ),
        "concession_form": concession_form,
        "siblings": club.revision.clubs.all(),
    }
    return render(request, "orders/bench_club.html", context, status=status)


def _step_form(step: str, refused: StepForm | None) -> StepForm:
    if refused is not None and refused.step == step:
        return refused
    return StepForm(step, prefix=step, length_unit=_length_unit())


def _readings(
    actor: Actor, club: OrderClub, stage: Stage, refused: tuple[str, str, ReadingForm] | None
) -> list[dict[str, Any]]:
    rows = []
    for measure in MEASURES[stage]:
        if measure == Measure.HEAD_MASS and not work_of(club).is_glued:
            continue
        if refused is not None and refused[:2] == (stage, measure):
            form = refused[2]
        else:
            form = ReadingForm(
                initial={"reading_id": uuid4(), "stage": stage, "measure": measure},
                gauges=gauges_for(actor, measure),
                length_unit=_length_unit(),
                auto_id=f"id_{stage}_{measure}_%s",
            )
        rows.append(
            {
                "measure": measure,
                "label": measure.label.capitalize(),
                "form": form,
                "readings": standing_readings(club, stage, measure),
                "is_optional": measure
                in (Measure.BOUNCE, Measure.HEAD_MASS, Measure.TOTAL_MASS, Measure.GRIP_DIAMETER),
            }
        )
    return rows
