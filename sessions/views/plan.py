"""The loft plan: the baseline said, the plans that fit, one tap to take one, or own lofts."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone

from fitshop.actor import Actor
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.selectors import settings_in_force
from fitshop.views.doors import staff_page
from sessions.charts import PlannedRung, plan_ladder, spread_words
from sessions.forms.decide import OwnPlanForm, WishForm
from sessions.maths.bending import bend_words
from sessions.maths.loft_plan import LoftPlan, PlanSlot
from sessions.maths.shown import show_distance, show_percent
from sessions.maths.unit_factors import DistanceUnit
from sessions.models import LoftPlan as ChosenPlan
from sessions.models import PlanSlot as ChosenSlot
from sessions.models import Visit
from sessions.models.words import SlotRole
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.rules.evidence import VisitEvidence
from sessions.rules.plan_notes import suggested_role
from sessions.rules.wording import bounce_words, figure, loft_words
from sessions.selectors.evidence import visit_evidence
from sessions.selectors.plans import (
    PlanChoices,
    PlanPieces,
    head_at,
    plan_choices,
    plan_pieces,
    wish_of,
)
from sessions.selectors.visit_rows import current_plan
from sessions.selectors.visits import visit_for
from sessions.services.plans import WantedSlot, plan_choose
from sessions.views.plan_home import PlanHome, figures_said, plan_home
from sessions.views.visit_frame import frame_of


@staff_page(FITTING_POLICY, FittingAction.VISIT_VIEW)
def plan(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    visit = visit_for(actor, visit_id)
    if visit is None:
        raise Http404
    if request.method == "POST" and request.POST.get("action") == "figures":
        figures_said(request, visit, actor)
        return redirect("plan", visit_id=visit.pk)
    settings = settings_in_force()
    evidence = visit_evidence(visit, settings)
    pieces = plan_pieces(visit, evidence, settings)
    wish_form = WishForm(request.GET or None)
    left_out = [pk for pk in request.GET.getlist("without") if pk in pieces.head_rows]
    choices, wish = _choices(visit, evidence, pieces, wish_form, left_out)
    clubs = [(pk, row.label) for pk, row in pieces.club_rows.items() if row.kind == "wedge"]
    is_own = request.method == "POST" and request.POST.get("action") == "own"
    own_form = OwnPlanForm(request.POST if is_own else None, clubs=clubs)
    if request.method == "POST":
        slots = (
            _own_slots(own_form, pieces)
            if is_own
            else _suggested_slots(choices, pieces, request.POST.get("plan", ""))
        )
        if slots is None and not is_own:
            messages.warning(request, "The plans changed meanwhile. Look again, then choose.")
            return redirect(request.get_full_path())
        if slots is not None and _chosen(request, visit, slots, own_form, is_own, actor):
            return redirect("plan", visit_id=visit.pk)
    unit = _unit(visit)
    chosen = current_plan(visit, "slots__head", "slots__club")
    home = plan_home(visit, evidence, choices.plans, chosen, unit)
    shown = [_shown(one, n, evidence, pieces, unit, home) for n, one in enumerate(choices.plans)]
    chosen_key = "" if chosen is None else _key(chosen.slots.all())
    context = frame_of(visit, actor, current="plan") | {
        "baseline": _baseline_words(evidence, unit),
        "no_baseline": evidence.no_baseline_because,
        "to_baseline": reverse("room", args=[visit.pk, "baseline"]),
        "home": home.heading(),
        # The chosen one stands above.
        "plans": [one for one in shown if one["key"] != chosen_key],
        "without": [(pk, pieces.head_rows[pk], _taken_back(request, pk)) for pk in left_out],
        "query": f"{request.GET.urlencode()}&" if request.GET else "",
        "impossible": choices.impossible if evidence.baseline else "",
        "notes": (*pieces.notes, *evidence.left_out_of_line),
        "offers": pieces.offers,
        "fourteen": pieces.bag.words(wish.wedges),
        "wish": wish,
        "begins_with": pieces.wedges,
        "wish_form": wish_form if wish_form.is_bound else WishForm(initial={"wedges": wish.wedges}),
        "own_form": own_form,
        "chosen": _chosen_plan(chosen, pieces, unit, home),
        "proposed": next((one for one in shown if one["key"] == chosen_key), None),
        "may_choose": FITTING_POLICY.is_allowed(
            actor, FittingAction.PLAN_CHOOSE, location_id=visit.location_id, state=visit.state
        ),
    }
    return render(request, "sessions/plan.html", context, status=422 if own_form.errors else 200)


def _choices(
    visit: Visit,
    evidence: VisitEvidence,
    pieces: PlanPieces,
    form: WishForm,
    left_out: Sequence[str],
) -> tuple[PlanChoices, Any]:
    typed = form.cleaned_data if form.is_bound and form.is_valid() else {}
    limits = pieces.limits
    low, high = typed.get("step_low"), typed.get("step_high")
    steps = (
        None
        if low is None and high is None
        else (
            limits.loft_step_low_deg if low is None else low,
            limits.loft_step_high_deg if high is None else high,
        )
    )
    wish = wish_of(
        visit,
        pieces,
        wedges=typed.get("wedges"),
        most_lofted_deg=typed.get("most"),
        step_limits_deg=steps,
        full_shots=typed.get("full_shots"),
        leave_out=frozenset(left_out),
    )
    return plan_choices(evidence, pieces, wish), wish


def _taken_back(request: HttpRequest, head_id: str) -> str:
    """The same wish with a head that was left out back in."""
    query = request.GET.copy()
    query.setlist("without", [pk for pk in query.getlist("without") if pk != head_id])
    return query.urlencode()


def _key(slots: Iterable[PlanSlot | ChosenSlot]) -> str:
    """What the button posts: the plan as it was seen, so that another one is never taken."""
    text = "|".join(f"{figure(s.target_loft_deg)}:{s.head_id}:{s.club_id}" for s in slots)
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def _suggested_slots(choices: PlanChoices, pieces: PlanPieces, key: str) -> list[WantedSlot] | None:
    one = next((each for each in choices.plans if _key(each.slots) == key), None)
    if one is None:
        return None
    return [
        WantedSlot(
            role=slot.role,
            target_loft_deg=slot.target_loft_deg,
            head=pieces.head_rows.get(slot.head_id or ""),
            club=pieces.club_rows.get(slot.club_id or ""),
            why=slot.why,
        )
        for slot in one.slots
    ]


def _own_slots(form: OwnPlanForm, pieces: PlanPieces) -> list[WantedSlot] | None:
    if not form.is_valid():
        return None
    slots = []
    for _, loft, role, club_id in form.lofts():
        club = pieces.club_rows.get(club_id)
        head = None if club is not None else head_at(pieces, loft)
        slots.append(
            WantedSlot(
                role=role or suggested_role(loft, pieces.plan_limits.touch_from_deg),
                target_loft_deg=loft,
                head=None if head is None else pieces.head_rows[head.head_id],
                club=club,
                why=form.reason,
            )
        )
    return slots


def _chosen(
    request: HttpRequest,
    visit: Visit,
    slots: list[WantedSlot],
    form: OwnPlanForm,
    is_own: bool,
    actor: Actor,
) -> bool:
    try:
        plan_choose(
            visit=visit,
            slots=slots,
            is_own=is_own,
            why=form.reason if is_own else "",
            by=actor,
            at=timezone.now(),
        )
    except FieldsRefused as refused:
        for field, sentence in refused.errors.items():
            if is_own:
                form.add_error(field if field in form.fields else None, sentence)
            else:
                messages.error(request, sentence)
    except (StateRefused, Refused) as refused:
        messages.error(request, refused.sentence)
    else:
        messages.success(request, "The plan is chosen. Trials can begin.")
        return True
    return False


def _unit(visit: Visit) -> DistanceUnit:
    return "m" if visit.player.carry_unit == "m" else "yd"


def _baseline_words(evidence: VisitEvidence, unit: DistanceUnit) -> dict[str, str] | None:
    """The baseline with its balls and spread, and how its loft is known."""
    found = evidence.baseline
    if found is None:
        return None
    doubt = spread_words(found.carry, unit) or "as the player says, no ball hit"
    loft = f"{figure(found.loft_deg)}°"
    if found.stamped_loft_deg is not None and found.stamped_loft_deg != found.loft_deg:
        loft += f" (stamped {figure(found.stamped_loft_deg)})"
    return {
        "name": found.name,
        "loft": loft,
        "how": "measured" if found.is_loft_measured else "as stamped, not measured",
        "carry": show_distance(found.carry_m, unit),
        "doubt": doubt,
    }


def _shown(
    one: LoftPlan,
    number: int,
    evidence: VisitEvidence,
    pieces: PlanPieces,
    unit: DistanceUnit,
    home: PlanHome,
) -> dict[str, Any]:
    rows = [
        _slot_row(slot, n, pieces, unit) | at_home
        for n, (slot, at_home) in enumerate(zip(one.slots, home.slots(one), strict=True), start=1)
    ]
    assert evidence.baseline is not None
    return {
        "key": _key(one.slots),
        "title": " / ".join(f"{figure(slot.target_loft_deg)}°" for slot in one.slots),
        "is_first": number == 0,
        "is_wider": one.kind == "wider steps",
        "is_kept": one.kind == "kept as it is",
        "buys_nothing": one.buys_nothing,
        "rows": rows,
        "notes": one.notes,
        "chart": plan_ladder(
            evidence.baseline,
            [
                PlannedRung(
                    row["label"], slot.carry_m, slot.carry_low_m, slot.carry_high_m, row["stamp"]
                )
                for row, slot in zip(rows, one.slots, strict=True)
            ],
            unit,
        ),
    }


def _slot_row(
    slot: PlanSlot, number: int, pieces: PlanPieces, unit: DistanceUnit
) -> dict[str, Any]:
    head = pieces.head_rows.get(slot.head_id or "")
    club = pieces.club_rows.get(slot.club_id or "")
    if head is not None:
        loft = loft_words(slot.target_loft_deg, slot.stamped_loft_deg)
        bounce = bounce_words(head.bounce_deg, slot.target_loft_deg, slot.stamped_loft_deg)
        source = f"New: {head.maker} {head.model}"
    else:
        loft = _own_loft(slot.target_loft_deg, slot.bend_deg, slot.is_loft_measured)
        bounce = "" if slot.bounce_after_deg is None else f"{figure(slot.bounce_after_deg)}°"
        source = f"Own: {club.label}" if club is not None else "Own club"
    return {
        "slot": number,
        "label": f"{figure(slot.target_loft_deg)}°",
        "stamp": _stamp(slot),
        "role": SlotRole(slot.role).label,
        "loft": loft,
        "bounce": bounce or "not known",
        "source": source,
        "carry": show_distance(slot.carry_m, unit),
        "between": _between(slot.carry_low_m, slot.carry_high_m, unit),
        "gap": show_distance(slot.gap_m, unit),
        "gap_between": _between(slot.gap_low_m, slot.gap_high_m, unit),
        "head_id": slot.head_id,
        "gap_percent": f"{show_percent(slot.gap_percent)} %",
        "is_extrapolated": slot.is_extrapolated,
        "why": slot.why,
    }


def _stamp(slot: PlanSlot) -> str:
    """What stands below a bent club's loft on the ladder: never a bare number."""
    if not slot.bend_deg:
        return ""
    before = slot.target_loft_deg - slot.bend_deg
    word = "measured" if slot.is_loft_measured else "stamped"
    return f"{word} {figure(before)}, bent {bend_words(slot.bend_deg)}"


def _own_loft(loft: Decimal, bend: Decimal, is_measured: bool) -> str:
    """An own club's loft and how it is known: a stamp is never shown as if it had been read."""
    word = "measured" if is_measured else "stamped"
    if not bend:
        return f"{figure(loft)}° ({'measured' if is_measured else 'as stamped, not measured'})"
    return f"{figure(loft)}° ({word} {figure(loft - bend)}, bent {bend_words(bend)})"


def _chosen_plan(
    row: ChosenPlan | None, pieces: PlanPieces, unit: DistanceUnit, home: PlanHome
) -> dict[str, Any] | None:
    if row is None:
        return None
    slots = list(row.slots.all())
    return {
        "plan": row,
        "slots": [
            {
                "slot": slot.slot,
                "role": slot.get_role_display(),
                "loft": _chosen_loft(slot, pieces),
                "bounce": ""
                if slot.bounce_after_deg is None
                else f"{figure(slot.bounce_after_deg)}°",
                "source": _source(slot),
                "carry": _predicted(slot, unit),
                "home": home.carry(slot.predicted_carry_m, slot.target_loft_deg),
            }
            for slot in slots
        ],
    }


def _chosen_loft(slot: ChosenSlot, pieces: PlanPieces) -> str:
    if slot.head is not None:
        return loft_words(slot.target_loft_deg, slot.head.stamped_loft_deg)
    club_id = str(slot.club_id)
    own = pieces.own_lofts.get(club_id)
    if own is None:
        return f"{figure(slot.target_loft_deg)}°"
    bend = slot.target_loft_deg - own
    return _own_loft(slot.target_loft_deg, bend, pieces.is_measured(club_id))


def _source(slot: ChosenSlot) -> str:
    if slot.head is not None:
        return f"New: {slot.head.maker} {slot.head.model}"
    return f"Own: {slot.club.label}" if slot.club is not None else "Head chosen later"


def _predicted(slot: ChosenSlot, unit: DistanceUnit) -> str:
    """The carry as it was said when the plan was chosen, in the words of the proposal."""
    if slot.predicted_carry_m is None:
        return ""
    carry = show_distance(slot.predicted_carry_m, unit)
    low, high = slot.predicted_low_m, slot.predicted_high_m
    if low is None or high is None:
        return carry
    return f"{carry} ({_between(low, high, unit)})"


def _between(low_m: float, high_m: float, unit: DistanceUnit) -> str:
    """`88 to 102 yd`: one way to say an interval, before a plan is chosen and after."""
    return f"{show_distance(low_m, unit).split()[0]} to {show_distance(high_m, unit)}"
