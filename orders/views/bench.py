"""The bench: what is due, one club in the hand, readings typed as they are read."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from functools import partial
from typing import Any
from uuid import UUID, uuid4

from django.contrib import messages
from django.forms import Form
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from fitshop.actor import Actor
from fitshop.selectors import the_shop
from fitshop.setting import Value
from fitshop.views.doors import staff_page
from orders.flow import ClubState
from orders.forms import (
    ConcessionForm,
    CorrectForm,
    HoldForm,
    PlayerWordsForm,
    ReadingForm,
    ReasonForm,
    StepForm,
    TemperatureForm,
)
from orders.models import BenchStep, Check, Concession, OrderClub, Reading
from orders.models.bench import Measure, Stage, Step
from orders.policy import ORDER_POLICY, OrderAction
from orders.selectors.as_built import player_words_of, suggested_words
from orders.selectors.club_balance import changes_at_bench, finished_at_bench
from orders.selectors.club_words import TO_DO, club_values, what_to_do
from orders.selectors.cures import cure_of, epoxy_step, is_too_cold, last_glued
from orders.selectors.figures import (
    MEASURES,
    Figure,
    bend_is_unsure,
    bend_now,
    bends_accepted,
    figures_of,
    is_glued,
    is_glued_since_rework,
    settings_of,
    standing_readings,
    standing_steps,
    work_of,
)
from orders.selectors.gauges import gauges_off
from orders.selectors.holds import holds_of
from orders.selectors.lengths import RulerTarget, ruler_targets
from orders.selectors.metal import BENDS, bend_facts, is_glued_now, may_bend_again
from orders.selectors.neighbours import open_steps
from orders.selectors.orders import (
    bench_orders,
    club_for,
    gauges_for,
    open_wait,
    order_for,
    sheet_refusal,
    sheet_typed,
)
from orders.selectors.reading_words import read_by_words, reading_words, unit_beside
from orders.services.bench import reading_record, reading_strike_out, step_finish
from orders.services.checks import concession_sign, concession_word
from orders.services.cure import cure_correct, cure_read
from orders.views.asking import went_through
from orders.views.cure_words import cure_context, times_read, typed_before

# From where to where, for what nobody knows by its name.
HELP = {Measure.SOLE_POINT: "Square to the shaft, from its back to where the sole touches."}
# The step that is done by reading, and what is read for it.
READ_FOR = {
    Step.BARE_HEAD: Stage.AS_RECEIVED,
    Step.DRY_WEIGHT: Stage.DRY,
    Step.READ_BENT: Stage.BENT,
    Step.MEASURED: Stage.AS_BUILT,
}


@staff_page(ORDER_POLICY, OrderAction.BENCH_VIEW)
@require_safe
def bench(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """Tickets by due date and state; a scan or a number opens one."""
    typed = request.GET.get("ticket", "").strip()
    if typed:
        sheet = sheet_typed(typed)
        order = order_for(actor, sheet.number) if sheet is not None else None
        if sheet is not None and order is not None:
            if refusal := sheet_refusal(order, sheet.letter):
                messages.error(request, refusal)
            return redirect("order", number=order.number)
        messages.error(request, f"There is no ticket {typed} here.")
    rows = list(bench_orders(actor))
    return render(
        request,
        "orders/bench.html",
        {
            "rows": rows,
            "typed": typed,
            "today": timezone.localdate(),
            "now": timezone.now(),
            "may_recall": ORDER_POLICY.is_allowed(actor, OrderAction.RECALL_VIEW),
        },
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
    if form.is_valid():
        values = form.cleaned_data
        call = partial(
            step_finish, club=club, step=step, values=values, by=actor, at=timezone.now()
        )
        if went_through(call, form):
            return redirect("bench_club", number=number, slot=slot)
    return _club_page(request, _found(actor, number, slot), actor, status=422, step_form=form)


@staff_page(ORDER_POLICY, OrderAction.BENCH_WORK)
@require_POST
def bench_reading(request: HttpRequest, number: int, slot: int, *, actor: Actor) -> HttpResponse:
    """Write one reading."""
    club = _found(actor, number, slot)
    stage, measure = request.POST.get("stage", ""), request.POST.get("measure", "")
    if stage not in Stage.values or measure not in Measure.values:
        raise Http404
    form = _reading_form(actor, club, stage, Measure(measure), data=request.POST)
    if form.is_valid():
        values = form.cleaned_data
        call = partial(
            reading_record,
            club=club,
            stage=stage,
            measure=measure,
            value=values["metric"],
            gauge=values["gauge"],
            as_typed=values["value"],
            length_method=values.get("length_method", ""),
            reading_id=values["reading_id"],
            by=actor,
            at=timezone.now(),
        )
        if went_through(call, form, say=partial(form.add_error, "value")):
            return redirect("bench_club", number=number, slot=slot)
    refused = (stage, measure, form)
    return _club_page(request, club, actor, status=422, refused_reading=refused)


@staff_page(ORDER_POLICY, OrderAction.BENCH_WORK)
@require_POST
def reading_strike_out_view(
    request: HttpRequest, number: int, slot: int, reading_id: UUID, *, actor: Actor
) -> HttpResponse:
    """Strike out a reading that was mistyped, or bent over since; its page has asked once."""
    club = _found(actor, number, slot)
    reading = Reading.objects.filter(pk=reading_id, club=club).first()
    if reading is None:
        raise Http404
    form = ReasonForm(request.POST)
    why = form.cleaned_data["why"] if form.is_valid() else "mistyped"
    call = partial(reading_strike_out, reading=reading, why=why, by=actor, at=timezone.now())
    if not went_through(call, form, say=partial(messages.error, request)):
        return _club_page(request, club, actor, status=422)
    messages.success(request, "Struck out. It stays to be seen and counts no more.")
    return redirect("bench_club", number=number, slot=slot)


@staff_page(ORDER_POLICY, OrderAction.BENCH_WORK)
@require_POST
def cure_temperature(request: HttpRequest, number: int, slot: int, *, actor: Actor) -> HttpResponse:
    """Write a temperature read while it cures."""
    club = _found(actor, number, slot)
    form = TemperatureForm(request.POST, prefix="cure")
    if form.is_valid():
        call = partial(cure_read, club=club, by=actor, at=timezone.now(), **form.cleaned_data)
        if went_through(call, form):
            return redirect("bench_club", number=number, slot=slot)
    shown = _found(actor, number, slot)
    return _club_page(request, shown, actor, status=422, cure_forms={"temperature_form": form})


@staff_page(ORDER_POLICY, OrderAction.BENCH_WORK)
@require_POST
def cure_correction(request: HttpRequest, number: int, slot: int, *, actor: Actor) -> HttpResponse:
    """Put right what was mistyped at the gluing."""
    club = _found(actor, number, slot)
    step = epoxy_step(club)
    if step is None:
        messages.error(request, "This club is not glued yet.")
        return _club_page(request, club, actor, status=409)
    cure, zone = cure_of(step), club.revision.order.location.zone_info
    form = CorrectForm(
        request.POST, prefix="correct", shown=times_read(cure, zone), initial=typed_before(cure)
    )
    if form.is_valid():
        call = partial(cure_correct, club=club, by=actor, at=timezone.now(), **form.asked())
        if went_through(call, form):
            messages.success(request, "Put right. What was typed before stays to be seen.")
            return redirect("bench_club", number=number, slot=slot)
    shown = _found(actor, number, slot)
    return _club_page(request, shown, actor, status=422, cure_forms={"correct_form": form})


@staff_page(ORDER_POLICY, OrderAction.CONCESSION_SIGN)
@require_POST
def concession(request: HttpRequest, number: int, slot: int, *, actor: Actor) -> HttpResponse:
    """Accept a figure out of tolerance, with the reason."""
    club = _found(actor, number, slot)
    measure, stage = request.POST.get("measure", ""), request.POST.get("stage", "")
    form: ConcessionForm | HoldForm
    if stage:
        form = HoldForm(request.POST, auto_id=f"id_accept_{stage}_{measure}_%s")
    else:
        form = ConcessionForm(request.POST, auto_id=f"id_accept_{measure}_%s")
    if form.is_valid():
        call = partial(concession_sign, club=club, by=actor, at=timezone.now(), **form.cleaned_data)
        if went_through(call, form):
            messages.success(request, "Accepted, under your name.")
            return redirect("bench_club", number=number, slot=slot)
    if isinstance(form, HoldForm):
        return _club_page(request, club, actor, status=422, refused_hold=form)
    return _club_page(request, club, actor, status=422, refused_words=form)


@staff_page(ORDER_POLICY, OrderAction.CONCESSION_WORDS)
@require_POST
def concession_words(
    request: HttpRequest, number: int, slot: int, concession_id: UUID, *, actor: Actor
) -> HttpResponse:
    """Put another sentence where the player reads of an accepted figure."""
    club = _found(actor, number, slot)
    accepted = Concession.objects.filter(pk=concession_id, club=club).first()
    if accepted is None:
        raise Http404
    form = PlayerWordsForm(request.POST, auto_id=f"id_word_{accepted.measure}_%s")
    if form.is_valid():
        call = partial(
            concession_word, concession=accepted, by=actor, at=timezone.now(), **form.cleaned_data
        )
        if went_through(call, form):
            messages.success(request, "So the player will read it.")
            return redirect("bench_club", number=number, slot=slot)
    return _club_page(request, club, actor, status=422, refused_words=form, worded=accepted.measure)


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
    refused_words: PlayerWordsForm | None = None,
    refused_hold: HoldForm | None = None,
    worded: str = "",
    cure_forms: dict[str, Form] | None = None,
) -> HttpResponse:
    """What is next first, then what it is built to; what is done is folded."""
    order = club.revision.order
    settings = settings_of(club.revision).values
    work = work_of(club, settings)
    done = standing_steps(club, settings)
    unit: Any = _length_unit()
    words = club_values(club, unit, settings, order.location.zone_info)
    next_step = work.next_step(done)
    figures = figures_of(club, settings, length_unit=unit)
    now: dt.datetime = timezone.now()
    is_curing = is_too_cold(club) or (club.cure_until is not None and club.cure_until > now)
    may_work = ORDER_POLICY.is_allowed(
        actor, OrderAction.BENCH_WORK, location_id=order.location_id, state=order.state
    )
    reads_built = next_step in (Step.MEASURED, Step.CLEANED) or next_step is None
    context: dict[str, Any] = {
        "order": order,
        "club": club,
        "words": words,
        "changes": changes_at_bench(club, settings) if work.is_glued else None,
        "finished": finished_at_bench(club, settings, unit) if work.is_glued else None,
        "bend": bend_now(club, settings),
        "next": next_step
        and {
            "step": next_step,
            "label": TO_DO[Step(next_step)],
            "words": what_to_do(next_step, words),
            "form": _step_form(next_step, step_form, actor),
            "reads": READ_FOR.get(Step(next_step)),
        },
        "again": _steps_again(club, done, step_form, actor) if may_work else [],
        "done": [(Step(step).label, row) for step, row in done.items()],
        "to_come": [
            Step(step).label for step in work.steps if step not in done and step != next_step
        ],
        "not_needed": [
            (Step(step).label, why) for step, why in work.not_needed.items() if step not in done
        ],
        "is_curing": is_curing,
        "is_too_cold": is_too_cold(club),
        "cure": cure_context(club, order.location.zone_info) | (cure_forms or {}),
        "rework": _last_rework(club),
        "received": _readings(actor, club, Stage.AS_RECEIVED, refused_reading),
        "dry": _readings(actor, club, Stage.DRY, refused_reading),
        "bent_read": any(each.stage == Stage.BENT for each in club.readings.all()),
        "bent": _readings(actor, club, Stage.BENT, refused_reading),
        "built": _readings(actor, club, Stage.AS_BUILT, refused_reading),
        "figures": _figure_rows(figures, actor, unit, refused_words, worded),
        "hold_forms": _hold_forms(club, settings, refused_hold),
        "bends_accepted": bends_accepted(figures),
        "bend_is_unsure": bend_is_unsure(figures),
        "struck_out": [
            (each, reading_words(each))
            for each in club.readings.all()
            if each.struck_out_at is not None
        ],
        "may_work": may_work,
        "may_read_dry": may_work and not is_glued_since_rework(club),
        "shows_dry": Step.DRY_WEIGHT in done or words["dry"]["read"] is not None,
        "may_read_received": may_work and not (bend_facts(club) or Step.EPOXY in done),
        "may_read_bent": may_work and Step.BENT_BARE in done and not is_glued_now(club),
        "bend_again": _bend_again(club, words["bend"]) if may_work and not is_curing else "",
        "shows_built": reads_built and not is_curing,
        # Among what is next, where somebody works here who reads it.
        "reads_here": may_work and next_step == Step.MEASURED,
        "may_accept": ORDER_POLICY.is_allowed(
            actor, OrderAction.CONCESSION_SIGN, location_id=order.location_id, state=order.state
        ),
        "may_word": ORDER_POLICY.is_allowed(
            actor, OrderAction.CONCESSION_WORDS, location_id=order.location_id, state=order.state
        ),
        "beside": [
            step.sentence(unit) for step in open_steps(club.revision, settings, slot=club.slot)
        ],
        "wait": open_wait(order),
        "siblings": club.revision.clubs.all(),
        "now": now,
    }
    return render(request, "orders/bench_club.html", context, status=status)


def _figure_rows(
    figures: list[Figure],
    actor: Actor,
    unit: Any,
    refused: PlayerWordsForm | None,
    worded: str,
) -> list[dict[str, Any]]:
    """Each figure with its form: to accept it, or to word what the player reads of it."""
    rows = []
    for figure in figures:
        conceded = figure.concession
        row: dict[str, Any] = {"figure": figure, "form": None, "player_words": ""}
        if conceded is not None:
            row["player_words"] = player_words_of(conceded, unit)
            row["form"] = PlayerWordsForm(
                initial={"player_words": row["player_words"]},
                auto_id=f"id_word_{figure.measure}_%s",
            )
        elif figure.is_out and figure.verdict.mean is not None:
            said = suggested_words(
                figure.measure,
                target=figure.target,
                came=figure.verdict.mean,
                by=actor.name,
                unit=unit,
            )
            row["form"] = ConcessionForm(
                initial={"measure": figure.measure, "player_words": said},
                auto_id=f"id_accept_{figure.measure}_%s",
            )
        asked_of = worded or (refused.data.get("measure") if refused is not None else "")
        if refused is not None and asked_of == figure.measure:
            row["form"] = refused
        rows.append(row)
    return rows


def _hold_forms(
    club: OrderClub, settings: Mapping[str, Value], refused: HoldForm | None
) -> dict[str, HoldForm]:
    """By stage: accepting what holds the work before the glue."""
    forms = {
        stage: HoldForm(
            initial={"stage": stage, "measure": measure},
            auto_id=f"id_accept_{stage}_{measure}_%s",
        )
        for stage, measure in holds_of(club, settings)
    }
    if refused is not None and (stage := refused.data.get("stage", "")) in forms:
        forms[stage] = refused
    return forms


def _bend_again(club: OrderClub, bend: dict[str, Any]) -> str:
    """The step by which it may be bent once more: it was read since the last bend, and is off."""
    is_off = (bend["loft"], bend["lie"]) != ("none", "none")
    if not is_off or bend["refusals"]:
        return ""
    return next((step for step in BENDS if may_bend_again(club, step)), "")


def _last_rework(club: OrderClub) -> Check | None:
    """Why it came back, while it is back."""
    if club.reworked_at is None or club.state == ClubState.TO_CHECK:
        return None
    return club.revision.checks.filter(result=Check.Result.REWORK).first()


def _steps_again(
    club: OrderClub, done: dict[str, BenchStep], refused: StepForm | None, actor: Actor
) -> list[dict[str, Any]]:
    """In a rework: what was done before it and may be done once more. Until it is glued, the
    weight."""
    again = set()
    if Step.DRY_WEIGHT in done and not is_glued_since_rework(club):
        again.add(Step.DRY_WEIGHT)
    if club.state == ClubState.REWORK and club.reworked_at is not None:
        again |= {Step(step) for step, row in done.items() if row.done_at <= club.reworked_at}
    return [
        {"step": step, "label": Step(step).label, "form": _step_form(step, refused, actor)}
        for step in done
        if step in again
    ]


def _step_form(step: str, refused: StepForm | None, actor: Actor) -> StepForm:
    if refused is not None and refused.step == step:
        return refused
    initial = last_glued(actor) if step == Step.EPOXY else {}
    return StepForm(step, prefix=step, length_unit=_length_unit(), initial=initial)


def _readings(
    actor: Actor, club: OrderClub, stage: Stage, refused: tuple[str, str, ReadingForm] | None
) -> list[dict[str, Any]]:
    rows = []
    for measure in MEASURES[stage]:
        if measure == Measure.HEAD_MASS and not is_glued(club):
            continue
        if measure == Measure.SOLE_POINT and not _wants_sole_point(club):
            continue
        if refused is not None and refused[:2] == (stage, measure):
            form = refused[2]
        else:
            form = _reading_form(actor, club, stage, measure)
        rows.append(
            {
                "measure": measure,
                "label": measure.label.capitalize(),
                "form": form,
                "unit": unit_beside(measure, _length_unit()),
                "stays_open": measure == Measure.SOLE_POINT,
                "help": HELP.get(measure, ""),
                "rulers": _rulers(actor, club) if measure == Measure.LENGTH else [],
                "gauges_off": gauges_off(form.fields["gauge"].queryset),
                "readings": [
                    (reading, reading_words(reading), read_by_words(reading))
                    for reading in standing_readings(club, stage, measure)
                ],
                "is_optional": _is_optional(club, measure),
            }
        )
    return rows


def _reading_form(
    actor: Actor, club: OrderClub, stage: str, measure: Measure, data: Any = None
) -> ReadingForm:
    """The next reading of one measure; a gauge that is the only one is chosen already."""
    gauges = gauges_for(actor, measure)
    only = gauges[0] if data is None and len(gauges) == 1 else None
    unit: Any = _length_unit()
    methods = None
    if measure == Measure.LENGTH:
        methods = {each.method: each.label for each in ruler_targets(club, unit).values()}
    return ReadingForm(
        data,
        initial={"reading_id": uuid4(), "stage": stage, "measure": measure, "gauge": only},
        gauges=gauges,
        length_unit=unit,
        methods=methods,
        auto_id=f"id_{stage}_{measure}_%s",
    )


def _rulers(actor: Actor, club: OrderClub) -> list[RulerTarget]:
    """The target by each ruler that the shop has: all of them where it has named none."""
    unit: Any = _length_unit()
    had = {gauge.length_method for gauge in gauges_for(actor, Measure.LENGTH)}
    return [each for each in ruler_targets(club, unit).values() if not had or each.method in had]


def _wants_sole_point(club: OrderClub) -> bool:
    """Where the catalogue doesn't know it: one ruler's length isn't another's without it."""
    return club.sole_point_mm is None


def _is_optional(club: OrderClub, measure: Measure) -> bool:
    if measure == Measure.TOTAL_MASS:
        return club.target_mass_g is None
    if measure == Measure.SWING_WEIGHT:
        return club.target_swing_weight_points is None
    return measure in (Measure.BOUNCE, Measure.GRIP_DIAMETER, Measure.SOLE_POINT)
