"""Choosing a loft plan: suggested or the fitter's own; a later choice replaces it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.selectors import settings_in_force
from fitshop.services.audit import audit_record
from sessions.maths.bending import bounce_after
from sessions.maths.carry_line import ONE_SD_LEVEL, CarryLine
from sessions.models import BagEntry, Club, Head, LoftPlan, PlanSlot, Visit
from sessions.models.words import SlotRole
from sessions.policy import FittingAction
from sessions.selectors.evidence import last_bag_entries, visit_evidence
from sessions.services.capture import visit_locked

MOST_SLOTS = 4
LOWEST_LOFT_DEG, HIGHEST_LOFT_DEG = Decimal(30), Decimal(70)


@dataclass(frozen=True)
class WantedSlot:
    """One wedge of the plan: its loft, and the new head or the own club that gives it."""

    role: str
    target_loft_deg: Decimal
    head: Head | None = None
    club: Club | None = None
    why: str = ""


@transaction.atomic
def plan_choose(
    *,
    visit: Visit,
    slots: Sequence[WantedSlot],
    is_own: bool,
    why: str,
    by: Actor,
    at: datetime,
) -> LoftPlan:
    """Take a plan over, slots numbered from the strongest; the carries are predicted here.

    Raises Refused, FieldsRefused, StateRefused. Writes LoftPlan, PlanSlot, AuditEntry.
    """
    visit = visit_locked(visit, by=by, action=FittingAction.PLAN_CHOOSE)
    ordered = sorted(slots, key=lambda slot: slot.target_loft_deg)
    _refuse_slots(visit, ordered, is_own, why)

    settings = settings_in_force()
    evidence = visit_evidence(visit, settings)
    if evidence.baseline is None or evidence.line is None:
        raise StateRefused(evidence.no_baseline_because)
    if ordered[0].target_loft_deg <= evidence.baseline.loft_deg:
        raise FieldsRefused(
            {"loft_1": "The first wedge needs more loft than the pitching wedge that stays."}
        )
    entries = last_bag_entries(visit)

    LoftPlan.objects.filter(visit=visit, is_current=True).update(is_current=False)
    plan = LoftPlan.objects.create(
        visit=visit,
        baseline_loft_deg=evidence.baseline.loft_deg,
        baseline_carry_m=evidence.baseline.carry_m,
        baseline_balls=evidence.baseline.balls,
        is_own=is_own,
        why=why.strip(),
        settings_version=settings.version,
        chosen_at=at,
        chosen_by=by.name,
    )
    PlanSlot.objects.bulk_create(
        _slot(plan, number, slot, evidence.line, entries.get(slot.club.pk) if slot.club else None)
        for number, slot in enumerate(ordered, start=1)
    )
    audit_record(
        action="fitting.plan.chosen",
        subject=plan,
        after={"lofts": [str(slot.target_loft_deg) for slot in ordered], "is_own": is_own,
               "why": plan.why},
        by=by,
        at=at,
    )  # fmt: skip
    return plan


def _slot(
    plan: LoftPlan, number: int, slot: WantedSlot, line: CarryLine, entry: BagEntry | None
) -> PlanSlot:
    # As the proposal foretells it, so that a plan reads the same before and after it is chosen.
    loft, club = float(slot.target_loft_deg), "" if slot.club is None else str(slot.club.pk)
    there, one_sd = line.at(loft, club=club), line.at(loft, ONE_SD_LEVEL, club)
    return PlanSlot(
        plan=plan,
        slot=number,
        role=slot.role,
        target_loft_deg=slot.target_loft_deg,
        head=slot.head,
        club=slot.club,
        bounce_after_deg=_bounce(slot, entry),
        predicted_carry_m=there.carry_m,
        predicted_sd_m=(one_sd.high_m - one_sd.low_m) / 2,
        predicted_low_m=there.low_m,
        predicted_high_m=there.high_m,
        why=slot.why[:300],
    )


def _bounce(slot: WantedSlot, entry: BagEntry | None) -> Decimal | None:
    """The bounce after the bend: from the stamp of a new head, from the reading of an own club."""
    if slot.head is not None:
        bend = slot.target_loft_deg - slot.head.stamped_loft_deg
        return bounce_after(slot.head.bounce_deg, bend)
    if slot.club is None:
        return None
    bounce = entry.bounce_deg if entry is not None else None
    bounce = slot.club.stamped_bounce_deg if bounce is None else bounce
    loft = entry.loft_deg if entry is not None else None
    loft = slot.club.stamped_loft_deg if loft is None else loft
    if bounce is None or loft is None:
        return None
    return bounce_after(bounce, slot.target_loft_deg - loft)


def _refuse_slots(visit: Visit, slots: Sequence[WantedSlot], is_own: bool, why: str) -> None:
    errors: dict[str, str] = {}
    if not 1 <= len(slots) <= MOST_SLOTS:
        errors["loft_1"] = f"A plan has one to {MOST_SLOTS} wedges."
    for number, slot in enumerate(slots, start=1):
        if not LOWEST_LOFT_DEG <= slot.target_loft_deg <= HIGHEST_LOFT_DEG:
            errors[f"loft_{number}"] = (
                f"A wedge has {LOWEST_LOFT_DEG} to {HIGHEST_LOFT_DEG} degrees."
            )
        if slot.role not in SlotRole.values:
            errors[f"role_{number}"] = "Choose full-shot club or touch club."
        if slot.club is not None and slot.club.player_id != visit.player_id:
            errors[f"club_{number}"] = "This club belongs to another player."
        if slot.head is not None and slot.head.hand != visit.player.hand:
            errors[f"loft_{number}"] = "This head is for the other hand."
    lofts = [slot.target_loft_deg for slot in slots]
    if len(set(lofts)) != len(lofts):
        errors["loft_2"] = "Two wedges have the same loft."
    if is_own and not why.strip():
        errors["why"] = "Say why in one tap: this plan is the fitter's own."
    if errors:
        raise FieldsRefused(errors)
