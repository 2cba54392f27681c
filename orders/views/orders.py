"""One order: made, released, revised, cancelled, checked, told, handed over."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any
from uuid import UUID, uuid4

from django.contrib import messages
from django.db.models import prefetch_related_objects
from django.forms import Form
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from fitshop.actor import Actor
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.selectors import settings_in_force, the_shop
from fitshop.views.doors import staff_page
from orders.flow import OrderState
from orders.forms import (
    ArrivedForm,
    CheckForm,
    DueForm,
    HandOverForm,
    LetterForm,
    OrderForm,
    ReadyForm,
    ReasonForm,
    RoundsForm,
    SetConcessionForm,
    TellByForm,
    ToldForm,
    WaitForm,
)
from orders.models import BuildOrder, PartsWait
from orders.models.bench import Step
from orders.policy import AT_THE_BENCH, ORDER_POLICY, OrderAction
from orders.selectors.as_built import player_words_of
from orders.selectors.club_words import TO_DO
from orders.selectors.cures import is_too_cold
from orders.selectors.figures import (
    figures_of,
    settings_of,
    standing_steps,
    work_of,
)
from orders.selectors.grooves import grooves_of
from orders.selectors.neighbours import (
    StepSeen,
    step_player_words,
    steps_of,
    suggested_step_words,
)
from orders.selectors.orders import (
    open_wait,
    order_for,
    order_of_visit,
    sheet_refusal,
    spec_to_order,
    visit_for,
)
from orders.selectors.second_look import second_look
from orders.selectors.tellings import letter_under_way, told_of
from orders.services.build_orders import order_cancel, order_create, order_release, order_revise
from orders.services.checks import check_sign
from orders.services.due_days import order_call_done, order_due_move
from orders.services.hand_over import order_hand_over, order_ready
from orders.services.neighbours import set_concession_sign
from orders.services.parts import order_parts_arrived, order_wait_for_parts
from orders.services.rounds import rounds_report
from orders.services.tellings import order_letter_send, order_tell, order_tell_by_choose
from orders.views.asking import went_through
from sessions.selectors.people import letter_refusal


def found(actor: Actor, number: int) -> BuildOrder:
    row = order_for(actor, number)
    if row is None:
        raise Http404
    return row


@staff_page(ORDER_POLICY, OrderAction.ORDER_VIEW)
@require_safe
def order(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    return order_page(request, found(actor, number), actor)


@staff_page(ORDER_POLICY, OrderAction.ORDER_VIEW)
@require_safe
def sheet(request: HttpRequest, number: int, letter: str, *, actor: Actor) -> HttpResponse:
    """What a scanned ticket opens: its only club at the bench, or its order.

    A sheet that isn't in force says so.
    """
    row = found(actor, number)
    if refusal := sheet_refusal(row, letter.upper()):
        messages.error(request, refusal)
        return redirect("order", number=number)
    clubs = list(row.revisions.get(is_current=True).clubs.all())
    if len(clubs) == 1 and row.state in AT_THE_BENCH:
        return redirect("bench_club", number=number, slot=clubs[0].slot)
    return redirect("order", number=number)


def order_page(
    request: HttpRequest,
    row: BuildOrder,
    actor: Actor,
    *,
    status: int = 200,
    **forms: Any,
) -> HttpResponse:
    """The page, with the form that was refused in the place of its empty one."""
    prefetch_related_objects([row], "permanent_facts")
    revision = row.revisions.get(is_current=True)
    settings = settings_of(revision).values
    shop = the_shop()
    unit: Any = shop.length_unit if shop is not None else "in"
    clubs, player_reads = [], []
    for club in revision.clubs.prefetch_related("steps", "readings__gauge", "concessions"):
        steps = work_of(club, settings).steps
        done = standing_steps(club, settings).keys()
        next_step = next((step for step in steps if step not in done), None)
        figures = figures_of(club, settings, length_unit=unit)
        player_reads += [
            {"slot": club.slot, "name": club.name, "said": player_words_of(each.concession, unit)}
            for each in figures
            if each.concession is not None
        ]
        clubs.append(
            {
                "club": club,
                "is_too_cold": is_too_cold(club),
                "done": sum(step in done for step in steps),
                "steps": len(steps),
                "next": TO_DO[Step(next_step)] if next_step is not None else "",
                "out": [each for each in figures if each.is_out or each.wants_second_reading],
            }
        )
    steps = steps_of(revision, settings)
    slots = [(each["club"].slot, f"{each['club'].slot} {each['club'].name}") for each in clubs]
    newest = spec_to_order(row.visit)
    wait = open_wait(row)
    context = {
        "order": row,
        "revision": revision,
        "clubs": clubs,
        "player_reads": player_reads,
        "steps_read": [step_player_words(step, unit) for step in steps if step.concession],
        "beside": _beside(steps, actor, unit, forms.get("step_form")),
        "may_accept": ORDER_POLICY.is_allowed(
            actor, OrderAction.CONCESSION_SIGN, location_id=row.location_id, state=row.state
        ),
        "checks": revision.checks.all(),
        "revisions": row.revisions.order_by("-letter"),
        "new_spec": newest if newest is not None and newest.pk != revision.spec_id else None,
        "may": _may(actor, row),
        "wait": wait,
        "wait_form": WaitForm(prefix="wait", initial=_wait_initial(wait)),
        "arrived_form": ArrivedForm(
            prefix="arrived", initial={"wait_id": wait.pk if wait is not None else None}
        ),
        "is_passed": any(check.result == "passed" for check in list(revision.checks.all())[:1]),
        "second_look": second_look(revision, actor) if row.state == OrderState.TO_CHECK else None,
        "today": timezone.localdate(),
        "now": timezone.now(),
        "check_form": CheckForm(slots=slots, prefix="check"),
        "hand_over_form": HandOverForm(prefix="over"),
        "told": (told := told_of(row)),
        "told_form": ToldForm(
            prefix="told", initial={"telling_id": uuid4(), "told_how": told.offered_first}
        ),
        "may_read_letters": SHOP_POLICY.is_allowed(actor, ShopAction.MESSAGES_VIEW),
        "letter_refusal": letter_refusal(row.visit.player),
        "letter_under_way": letter_under_way(row),
        "letter_form": LetterForm(prefix="letter", initial={"telling_id": uuid4()}),
        "tell_by_form": TellByForm(prefix="way", initial={"tell_by": row.tell_by}),
        "rounds_form": RoundsForm(prefix="played", initial={"report_id": uuid4()}),
        "grooves": None
        if row.handed_over_at is None
        else grooves_of(row, settings_in_force().values),
        "due_form": DueForm(prefix="due", initial={"due_on": row.due_on}),
        "ready_form": ReadyForm(prefix="ready"),
        "is_late": row.is_late_on(timezone.now()),
        "cancel_form": ReasonForm(prefix="cancel"),
        "revise_form": ReasonForm(prefix="revise"),
    }
    return render(request, "orders/order.html", context | forms, status=status)


def _step_ids(which: Mapping[str, Any]) -> str:
    return f"id_step_{which.get('measure')}_{which.get('above')}_{which.get('below')}_%s"


def _beside(
    steps: list[StepSeen], actor: Actor, unit: Any, refused: SetConcessionForm | None
) -> list[dict[str, Any]]:
    """The steps of the set, each with its form where it is open to be accepted."""
    rows = []
    for step in steps:
        above, below = step.judged.slots
        which = {"measure": step.measure.value, "above": above, "below": below}
        said = step_player_words(step, unit) if step.concession is not None else ""
        form = None
        if step.is_open:
            suggested = suggested_step_words(step, came=step.judged.came, by=actor.name, unit=unit)
            form = SetConcessionForm(
                initial=which | {"player_words": suggested}, auto_id=_step_ids(which)
            )
            if refused is not None and refused.which() == form.which():
                form = refused
        rows.append(
            {
                "step": step,
                "sentence": step.sentence(unit),
                "tolerance": step.allowed(unit),
                "form": form,
                "said": said,
            }
        )
    return rows


def _wait_initial(wait: PartsWait | None) -> dict[str, Any]:
    """A wait that goes on is put right under its own id; a new one begins under a new one."""
    if wait is None:
        return {"wait_id": uuid4()}
    return {"wait_id": wait.pk, "missing": wait.missing, "expected_on": wait.expected_on}


def _may(actor: Actor, row: BuildOrder) -> dict[str, bool]:
    actions = {
        "release": OrderAction.ORDER_RELEASE,
        "revise": OrderAction.ORDER_REVISE,
        "cancel": OrderAction.ORDER_CANCEL,
        "wait": OrderAction.ORDER_WAIT,
        "arrived": OrderAction.PARTS_ARRIVED,
        "check": OrderAction.CHECK_SIGN,
        "ready": OrderAction.ORDER_READY,
        "due": OrderAction.DUE_MOVE,
        "called": OrderAction.CALL_DONE,
        "hand_over": OrderAction.HAND_OVER,
        "tell_by": OrderAction.TELL_BY,
        "rounds": OrderAction.ROUNDS_REPORT,
        "work": OrderAction.BENCH_WORK,
    }
    return {
        name: ORDER_POLICY.is_allowed(actor, action, location_id=row.location_id, state=row.state)
        for name, action in actions.items()
    }


def _asked(
    request: HttpRequest,
    row: BuildOrder,
    actor: Actor,
    *,
    service: Callable[..., Any],
    done: str,
    form: Form | None = None,
    form_name: str = "",
) -> HttpResponse:
    """One service call; a refusal is a sentence on the page, beside its field where it has one."""
    asked = Form({}) if form is None else form
    if asked.is_valid():
        say = partial(messages.error, request)
        call = partial(service, order=row, by=actor, at=timezone.now(), **asked.cleaned_data)
        if went_through(call, asked, say=say):
            messages.success(request, done)
            return redirect("order", number=row.number)
        row = found(actor, row.number)
    shown = {} if form is None else {form_name: form}
    return order_page(request, row, actor, status=422, **shown)


@staff_page(ORDER_POLICY, OrderAction.ORDER_CREATE)
def order_new(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    """Order the signed spec of a visit."""
    visit = visit_for(actor, visit_id)
    if visit is None:
        raise Http404
    standing = order_of_visit(visit)
    if standing is not None:
        return redirect("order", number=standing.number)
    spec = spec_to_order(visit)
    form = OrderForm(request.POST if request.method == "POST" else None)
    if spec is None and form.is_bound:
        form.add_error(None, "Sign the spec first: only a signed spec can be ordered.")
    elif form.is_valid():
        made = partial(order_create, spec=spec, by=actor, at=timezone.now(), **form.cleaned_data)
        if went_through(made, form):
            order = order_of_visit(visit)
            assert order is not None
            messages.success(request, f"Order {order.number} is a draft. Look, then release it.")
            return redirect("order", number=order.number)
    return render(
        request,
        "orders/order_new.html",
        {"visit": visit, "spec": spec, "form": form},
        status=422 if form.errors else 200,
    )


@staff_page(ORDER_POLICY, OrderAction.ORDER_RELEASE)
@require_POST
def order_release_view(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    row = found(actor, number)
    return _asked(
        request, row, actor, service=order_release, done="Released: it stands at the bench."
    )


@staff_page(ORDER_POLICY, OrderAction.ORDER_REVISE)
@require_POST
def order_revise_view(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    row = found(actor, number)
    spec = spec_to_order(row.visit)
    if spec is None:
        messages.error(request, "There is no signed spec to revise to. Sign the new one first.")
        return order_page(request, row, actor, status=422)

    def revise(**values: Any) -> Any:
        return order_revise(spec=spec, **values)

    return _asked(
        request,
        row,
        actor,
        service=revise,
        done="Revised. Print the new ticket and throw the old one away.",
        form=ReasonForm(request.POST, prefix="revise"),
        form_name="revise_form",
    )


@staff_page(ORDER_POLICY, OrderAction.ORDER_CANCEL)
@require_POST
def order_cancel_view(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    return _asked(
        request,
        found(actor, number),
        actor,
        service=order_cancel,
        done="Cancelled, with its reason.",
        form=ReasonForm(request.POST, prefix="cancel"),
        form_name="cancel_form",
    )


@staff_page(ORDER_POLICY, OrderAction.ORDER_WAIT)
@require_POST
def order_wait(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    return _asked(
        request,
        found(actor, number),
        actor,
        service=order_wait_for_parts,
        done="Written down: it waits for a part.",
        form=WaitForm(request.POST, prefix="wait"),
        form_name="wait_form",
    )


@staff_page(ORDER_POLICY, OrderAction.PARTS_ARRIVED)
@require_POST
def order_arrived(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    return _asked(
        request,
        found(actor, number),
        actor,
        service=order_parts_arrived,
        done="The part is here: back to the bench.",
        form=ArrivedForm(request.POST, prefix="arrived"),
        form_name="arrived_form",
    )


@staff_page(ORDER_POLICY, OrderAction.CHECK_SIGN)
@require_POST
def order_check(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    row = found(actor, number)
    clubs = row.revisions.get(is_current=True).clubs.all()
    slots = [(club.slot, f"{club.slot} {club.name}") for club in clubs]
    return _asked(
        request,
        row,
        actor,
        service=check_sign,
        done="The check is signed.",
        form=CheckForm(request.POST, slots=slots, prefix="check"),
        form_name="check_form",
    )


@staff_page(ORDER_POLICY, OrderAction.CONCESSION_SIGN)
@require_POST
def order_step_accept(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    """Accept the step between two clubs of the set, with the reason."""

    def accept(*, above: int, below: int, **values: Any) -> Any:
        return set_concession_sign(slots=(above, below), **values)

    return _asked(
        request,
        found(actor, number),
        actor,
        service=accept,
        done="Accepted, under your name.",
        form=SetConcessionForm(request.POST, auto_id=_step_ids(request.POST)),
        form_name="step_form",
    )


@staff_page(ORDER_POLICY, OrderAction.ORDER_READY)
@require_POST
def order_ready_view(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    return _asked(
        request,
        found(actor, number),
        actor,
        service=order_ready,
        done="It is on the shelf.",
        form=ReadyForm(request.POST, prefix="ready"),
        form_name="ready_form",
    )


@staff_page(ORDER_POLICY, OrderAction.DUE_MOVE)
@require_POST
def order_due(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    return _asked(
        request,
        found(actor, number),
        actor,
        service=order_due_move,
        done="The day is moved. Call the player.",
        form=DueForm(request.POST, prefix="due"),
        form_name="due_form",
    )


@staff_page(ORDER_POLICY, OrderAction.CALL_DONE)
@require_POST
def order_called(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    row = found(actor, number)
    return _asked(request, row, actor, service=order_call_done, done="Written down: called.")


@staff_page(ORDER_POLICY, OrderAction.HAND_OVER)
@require_POST
def order_told(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    def tell(*, told_how: str, **values: Any) -> Any:
        return order_tell(how=told_how, **values)

    return _asked(
        request,
        found(actor, number),
        actor,
        service=tell,
        done="Written down.",
        form=ToldForm(request.POST, prefix="told"),
        form_name="told_form",
    )


@staff_page(ORDER_POLICY, OrderAction.HAND_OVER)
@require_POST
def order_letter(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    return _asked(
        request,
        found(actor, number),
        actor,
        service=order_letter_send,
        done="The letter is queued. It counts as told once it has left.",
        form=LetterForm(request.POST, prefix="letter"),
        form_name="letter_form",
    )


@staff_page(ORDER_POLICY, OrderAction.TELL_BY)
@require_POST
def order_tell_by(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    return _asked(
        request,
        found(actor, number),
        actor,
        service=order_tell_by_choose,
        done="Written down how to tell the player.",
        form=TellByForm(request.POST, prefix="way"),
        form_name="tell_by_form",
    )


@staff_page(ORDER_POLICY, OrderAction.HAND_OVER)
@require_POST
def order_hand_over_view(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    return _asked(
        request,
        found(actor, number),
        actor,
        service=order_hand_over,
        done="Handed over. As built is now the clubs' record.",
        form=HandOverForm(request.POST, prefix="over"),
        form_name="hand_over_form",
    )


@staff_page(ORDER_POLICY, OrderAction.ROUNDS_REPORT)
@require_POST
def order_rounds(request: HttpRequest, number: int, *, actor: Actor) -> HttpResponse:
    return _asked(
        request,
        found(actor, number),
        actor,
        service=rounds_report,
        done="Written down: the groove check is reckoned from it.",
        form=RoundsForm(request.POST, prefix="played"),
        form_name="rounds_form",
    )
