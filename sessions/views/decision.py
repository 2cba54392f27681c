"""The decision, slot by slot: what was hit, what it says, and what is built or kept."""

from __future__ import annotations

from collections.abc import Mapping
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
from sessions.charts import carry_intervals
from sessions.forms.decide import DecisionForm
from sessions.maths.shown import show_distance
from sessions.maths.unit_factors import DistanceUnit
from sessions.models import Club, Decision, Head, Trial, Visit
from sessions.models.words import Outcome, SlotRole
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.rules.decision_sheet import SheetLine, decision_sheet
from sessions.rules.judgements import Said
from sessions.rules.likeness import Likeness
from sessions.rules.preferences import preferred_words
from sessions.rules.verdict_words import PROMISE
from sessions.rules.wanted import NOT_HIT, NOT_ITS_JOB, WantedThing, not_asked_words, wishes_in
from sessions.rules.wording import figure, listed, loft_words
from sessions.selectors.decisions import (
    AS_SHOWN,
    SlotToDecide,
    against_words,
    answers_to,
    compared_words,
    decided_on,
    jobs_in,
    likenesses,
    matched_set_keys,
    may_leave,
    outcome_words,
    slots_to_decide,
    spoken_against,
    wanted_in,
)
from sessions.selectors.evidence import visit_evidence
from sessions.selectors.next_club import next_club_said
from sessions.selectors.set_wedges import SetWedge, set_wedge_for
from sessions.selectors.visits import visit_for
from sessions.services.decisions import decision_record
from sessions.views.club_lines import club_line, drift_words
from sessions.views.visit_frame import frame_of


@staff_page(FITTING_POLICY, FittingAction.VISIT_VIEW)
def decision(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    visit = visit_for(actor, visit_id)
    if visit is None:
        raise Http404
    unit: DistanceUnit = "m" if visit.player.carry_unit == "m" else "yd"
    settings = settings_in_force()
    evidence = visit_evidence(visit, settings)
    slots = slots_to_decide(visit, evidence)
    here = _slot_here(request, slots)
    form = sheet = set_wedge = None
    elsewhere = ""
    beside: dict[str, Likeness] = {}
    beside_now: dict[str, Likeness] = {}
    if here is not None:
        everything = wanted_in(visit)
        wanted = wishes_in(here.slot, everything, jobs_in(visit, slots), evidence.off)
        elsewhere = not_asked_words(wanted, everything)
        beside, beside_now = likenesses(visit, here.evidence)
        set_wedge = set_wedge_for(visit, here)
        sheet = decision_sheet(
            here.evidence,
            wanted,
            unit,
            compared=compared_words(visit, evidence),
            matched_set=matched_set_keys(visit, here),
            likeness=beside,
        )
        form = _form(request, visit, here, wanted, set_wedge)
        if (
            request.method == "POST"
            and form.is_valid()
            and _decided(request, visit, here, form, actor)
        ):
            following = next((s for s in slots if s.decision is None and s is not here), None)
            tail = f"?slot={following.slot}" if following else ""
            return redirect(reverse("decision", args=[visit.pk]) + tail)
    keep_fix, not_hit = _kept_and_fixed(sheet or ())
    context = frame_of(visit, actor, current="decision") | {
        "slots": [_tab(each, here) for each in slots],
        "here": None if here is None else _shown(here, unit, beside, beside_now, settings.version),
        "next_club": "" if here is None else next_club_said(visit, evidence, here.evidence, unit),
        "preferred": "" if here is None else preferred_words(here.evidence, unit),
        "drift": drift_words(evidence.drift, unit),
        "promise": PROMISE,
        "form": form,
        "sheet": sheet,
        "is_mixed": any(line.apart for line in sheet or ()),
        "set_wedge": set_wedge,
        "elsewhere": elsewhere,
        "keep_fix": keep_fix,
        "not_hit": not_hit,
        "has_more_behind": any(
            len(shown.because) > 1 for line in sheet or () for _, shown in line.wanted
        ),
        "is_all_decided": bool(slots) and all(each.decision for each in slots),
        "to_plan": reverse("plan", args=[visit.pk]),
        "may_decide": FITTING_POLICY.is_allowed(
            actor, FittingAction.DECIDE, location_id=visit.location_id, state=visit.state
        ),
    }
    status = 422 if form is not None and form.errors else 200
    return render(request, "sessions/decision.html", context, status=status)


def _slot_here(request: HttpRequest, slots: tuple[SlotToDecide, ...]) -> SlotToDecide | None:
    """The slot asked for; else the first that is not decided."""
    asked = request.GET.get("slot", "")
    for each in slots:
        if str(each.slot) == asked:
            return each
    return next((s for s in slots if s.decision is None), slots[0] if slots else None)


def _form(
    request: HttpRequest,
    visit: Visit,
    here: SlotToDecide,
    wanted: tuple[WantedThing, ...],
    set_wedge: SetWedge | None,
) -> DecisionForm:
    outcomes = [
        (f"build:{club.trial_id}", f"Build {club.name}") for club in here.evidence.candidates
    ]
    if here.own_club is not None:
        outcomes.append((f"keep:{here.own_club.pk}", f"Keep {here.own_club.label}"))
    if set_wedge is not None:
        outcomes.append(
            (f"try:{set_wedge.head.pk}", f"Come back for the set's own wedge, {set_wedge.name}")
        )
    outcomes += [
        (Outcome.COME_BACK.value, Outcome.COME_BACK.label),
        (Outcome.NONE_SHOWN.value, Outcome.NONE_SHOWN.label),
    ]
    against = [(str(club.trial_id), club.name) for club in here.evidence.played if club.shots]
    clubs, kinds = may_leave(visit)
    leaves = [(f"club:{club.pk}", club.label) for club in clubs]
    leaves += [(f"kind:{kind}", f"one of the {kind}") for kind in kinds]
    return DecisionForm(
        request.POST if request.method == "POST" else None,
        outcomes=outcomes,
        against=against,
        leaves=leaves,
        wanted=[(want, (AS_SHOWN, *answers_to(want))) for want in wanted],
        initial=_initial(here, wanted),
    )


def _initial(here: SlotToDecide, wanted: tuple[WantedThing, ...]) -> dict[str, Any]:
    row = here.decision
    values: dict[str, Any] = {f"wanted_{index}": "" for index in range(len(wanted))}
    if here.own is not None and here.own.shots:
        values["against"] = str(here.own.trial_id)
    if row is None:
        return values
    said = {
        (each["kind"], each["what"]): each["answer"]
        for each in row.keep_fix
        if each["answer"] != each.get("shown")
    }
    for index, want in enumerate(wanted):
        values[f"wanted_{index}"] = said.get((want.kind, want.what), "")
    values["outcome"] = {
        Outcome.BUILD: f"build:{row.chosen_trial_id}",
        Outcome.KEEP: f"keep:{row.kept_club_id}",
    }.get(Outcome(row.outcome), row.outcome)
    if row.numbers.get("to_try_id"):
        values["outcome"] = f"try:{row.numbers['to_try_id']}"
    values["against"] = str(row.against_trial_id or "")
    if row.leaves_bag_id:
        values["leaves"] = f"club:{row.leaves_bag_id}"
    elif row.leaves_bag_words:
        values["leaves"] = f"kind:{row.leaves_bag_words}"
    return values


def _decided(
    request: HttpRequest, visit: Visit, here: SlotToDecide, form: DecisionForm, actor: Actor
) -> bool:
    outcome, _, chosen_id = form.cleaned_data["outcome"].partition(":")
    leaves_kind, _, leaves = form.cleaned_data.get("leaves", "").partition(":")
    try:
        decision_record(
            visit=visit,
            slot=here.slot,
            role=here.role,
            outcome=Outcome.COME_BACK.value if outcome == "try" else outcome,
            chosen_trial=_trial(visit, chosen_id if outcome == "build" else ""),
            against_trial=_against(visit, form, chosen_id),
            kept_club=_club(visit, chosen_id if outcome == "keep" else ""),
            leaves_bag=_club(visit, leaves if leaves_kind == "club" else ""),
            leaves_bag_words=leaves if leaves_kind == "kind" else "",
            keep_fix=form.keep_fix(),
            reason=form.why,
            to_try=Head.objects.filter(pk=chosen_id).first() if outcome == "try" else None,
            by=actor,
            at=timezone.now(),
        )
    except FieldsRefused as refused:
        for field, sentence in refused.errors.items():
            form.add_error(field if field in form.fields else None, sentence)
    except (StateRefused, Refused) as refused:
        form.add_error(None, refused.sentence)
    else:
        messages.success(request, f"Slot {here.slot} is decided.")
        return True
    return False


def _against(visit: Visit, form: DecisionForm, chosen_id: str) -> Trial | None:
    """The club it was held against; never the chosen one itself, nor the one that is kept."""
    against = _trial(visit, form.cleaned_data.get("against", ""))
    if against is None or chosen_id in {str(against.pk), str(against.club_id)}:
        return None
    return against


def _trial(visit: Visit, trial_id: str) -> Trial | None:
    return visit.trials.standing().filter(pk=trial_id).first() if trial_id else None


def _club(visit: Visit, club_id: str) -> Club | None:
    return Club.objects.filter(player=visit.player, pk=club_id).first() if club_id else None


def _tab(each: SlotToDecide, here: SlotToDecide | None) -> dict[str, Any]:
    return {
        "slot": each.slot,
        "loft": _planned_loft(each),
        "is_here": each is here,
        "outcome": "" if each.decision is None else outcome_words(each.decision),
    }


def _planned_loft(each: SlotToDecide) -> str:
    return "" if each.planned is None else f"{figure(each.planned.target_loft_deg)}°"


def _shown(
    each: SlotToDecide,
    unit: DistanceUnit,
    beside: Mapping[str, Likeness],
    beside_now: Mapping[str, Likeness],
    settings_version: int,
) -> dict[str, Any]:
    planned = each.planned
    target = ""
    if planned is not None:
        stamped = None if planned.head is None else planned.head.stamped_loft_deg
        target = loft_words(planned.target_loft_deg, stamped)
        if planned.predicted_carry_m is not None:
            target += f", planned to carry {show_distance(planned.predicted_carry_m, unit)}"
    pairs = each.evidence.pairs
    return {
        "slot": each.slot,
        "role": SlotRole(each.role).label if each.role in SlotRole.values else "",
        "target": target,
        "against": "" if each.evidence.against is None else each.evidence.against.name,
        "lines": [
            club_line(club, each.evidence, unit, beside.get(club.key), beside_now.get(club.key))
            for club in each.evidence.played
        ],
        "own_was_not_hit": each.evidence.own_was_not_hit,
        "has_verdicts": any(pair.judged for pair in pairs),
        "intervals": carry_intervals(pairs, unit)
        if any(pair.carry is not None and pair.carry.difference is not None for pair in pairs)
        else None,
        "decision": None
        if each.decision is None
        else _decision_shown(each.decision, settings_version),
    }


def _kept_and_fixed(sheet: tuple[SheetLine, ...]) -> tuple[list[dict[str, Any]], Said]:
    """What the player wants, a row each, answered club by club; and what nobody hit, in words."""
    if not sheet:
        return [], Said("")
    rows: list[dict[str, Any]] = []
    not_hit: list[str] = []
    by = ""
    for index, (thing, _) in enumerate(sheet[0].wanted):
        cells = [(line.name, line.wanted[index][1]) for line in sheet]
        if all(shown.because == (NOT_HIT,) for _, shown in cells):
            not_hit.append(thing.words)
            by = cells[0][1].rule_id
        else:
            rows.append({"words": thing.words, "cells": cells})
    return rows, Said(listed(not_hit), by)


def _decision_shown(row: Decision, settings_version: int) -> dict[str, Any]:
    return {
        "words": outcome_words(row),
        "against": against_words(row),
        "stands_on": decided_on(row),
        "leaves": row.leaves_bag.label if row.leaves_bag else row.leaves_bag_words,
        "reason": row.reason,
        "by": row.decided_by,
        "is_under_earlier_settings": row.settings_version != settings_version,
        "against_evidence": row.against_evidence,
        "speaks_against": spoken_against(row),
        "keep_fix": [
            {
                "words": f"{each['kind'].capitalize()} {each['label'].lower()}",
                "answer": each["answer"].replace("_", " "),
                "otherwise": each.get("shown", each["answer"]).replace("_", " ")
                if each.get("shown", each["answer"]) != each["answer"]
                else "",
            }
            for each in row.keep_fix
            if NOT_ITS_JOB not in each.get("because", []) or each["answer"] != "not_shown"
        ],
    }
