"""A spec's clubs as the decisions make them: what was tried becomes what is to be built."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import ROUND_HALF_UP, Decimal
from uuid import UUID

from sessions.maths.carry_line import CarryLine
from sessions.models import (
    BagEntry,
    Club,
    Decision,
    FinalSpec,
    Head,
    PlanSlot,
    SpecClub,
    Trial,
    Visit,
)
from sessions.models.words import ClubSource, Outcome
from sessions.selectors.carry_base import spec_on_line
from sessions.selectors.evidence import last_bag_entries
from sessions.selectors.spec_facts import current_decisions, predicted_carry, slot_name

# A bench works to the half degree; what was read on a trial head is finer than that.
HALF = Decimal("0.5")

# What a person may have changed since the draft, and a later draft of the same club keeps.
KEPT_FROM_BEFORE = (
    "name", "role", "target_loft_deg", "target_lie_deg", "target_length_mm", "length_method",
    "target_swing_weight_points", "target_mass_g", "shaft_id", "shaft_is_pulled", "tip_trim_mm",
    "grip_id", "grip_extra_wraps", "grip_lower_extra_wraps", "grip_logo", "ferrule", "stamping",
    "notes", "source", "as_typed",
)  # fmt: skip


def clubs_from_decisions(
    visit: Visit, spec: FinalSpec, line: CarryLine | None, before: FinalSpec | None
) -> list[SpecClub]:
    """The clubs of a new draft, not saved. What was typed into `before` stays for every slot
    that was not decided anew since."""
    entries = last_bag_entries(visit)
    plan = {
        slot.slot: slot
        for slot in PlanSlot.objects.filter(plan__visit=visit, plan__is_current=True)
    }
    earlier = {} if before is None else {club.slot: club for club in before.clubs.all()}
    clubs = []
    for decision in current_decisions(visit):
        club = _club_of(decision, spec, entries, plan.get(decision.slot))
        if club is None:
            continue
        known = earlier.get(club.slot)
        if (
            before
            and known
            and _is_the_same(known, club)
            and decision.decided_at <= (before.drafted_at)
        ):
            for name in KEPT_FROM_BEFORE:
                setattr(club, name, getattr(known, name))
        foretell(club, line, entries)
        clubs.append(club)
    return clubs


def foretell(club: SpecClub, line: CarryLine | None, entries: Mapping[UUID, BagEntry]) -> None:
    """Predict the carry at the loft it will be played at; an own club may have said its own."""
    loft = club.target_loft_deg
    if loft is None and club.source == ClubSource.OWN_KEPT:
        loft = club.as_received_loft_deg
    carry, sd = predicted_carry(line, loft, spec_on_line(club))
    entry = entries.get(club.club_id) if club.club_id else None
    if carry is None and club.source == ClubSource.OWN_KEPT and entry is not None:
        carry = entry.stock_carry_m
    club.predicted_carry_m, club.predicted_sd_m = carry, sd


def _is_the_same(known: SpecClub, club: SpecClub) -> bool:
    return (known.trial_id, known.club_id, known.head_id) == (
        club.trial_id,
        club.club_id,
        club.head_id,
    )


def _club_of(
    decision: Decision,
    spec: FinalSpec,
    entries: Mapping[UUID, BagEntry],
    planned: PlanSlot | None,
) -> SpecClub | None:
    if decision.outcome == Outcome.BUILD and decision.chosen_trial is not None:
        return _built(decision, decision.chosen_trial, spec, planned)
    if decision.kept_club is not None:
        entry = entries.get(decision.kept_club_id) if decision.kept_club_id else None
        return _kept(decision, decision.kept_club, entry, spec, planned)
    return None


def _built(decision: Decision, trial: Trial, spec: FinalSpec, planned: PlanSlot | None) -> SpecClub:
    head = _head_of(trial)
    test_shaft = trial.trial_shaft
    loft = _target_loft(trial, planned)
    return SpecClub(
        spec=spec,
        slot=decision.slot,
        name=slot_name(loft, decision.role),
        role=decision.role,
        source=ClubSource.NEW,
        hand=head.hand if head is not None else spec.visit.player.hand,
        trial=trial,
        head=head,
        stamped_loft_deg=head.stamped_loft_deg if head else trial.stamped_loft_deg,
        stamped_bounce_deg=head.bounce_deg if head else trial.stamped_bounce_deg,
        stock_lie_deg=head.lie_deg if head else None,
        target_loft_deg=loft,
        target_lie_deg=_to_half(trial.lie_deg),
        target_length_mm=trial.length_mm,
        target_swing_weight_points=trial.swing_weight_points,
        shaft=test_shaft.shaft if test_shaft else None,
        grip=test_shaft.grip if test_shaft else None,
    )


def _head_of(trial: Trial) -> Head | None:
    if trial.trial_head is not None:
        return trial.trial_head.head
    return trial.club.head if trial.club is not None else None


def _target_loft(trial: Trial, planned: PlanSlot | None) -> Decimal | None:
    """The planned loft where the trial was played within half a degree of it; else as played."""
    played: Decimal | None = trial.loft_deg
    stamped: Decimal | None = trial.stamped_loft_deg
    if played is None:
        return stamped
    wanted: Decimal | None = None if planned is None else planned.target_loft_deg
    if wanted is not None and abs(wanted - played) <= HALF:
        return wanted
    return _to_half(played)


def _to_half(angle: Decimal | None) -> Decimal | None:
    if angle is None:
        return None
    return (angle / HALF).quantize(Decimal(1), ROUND_HALF_UP) * HALF


def _kept(
    decision: Decision,
    own: Club,
    entry: BagEntry | None,
    spec: FinalSpec,
    planned: PlanSlot | None,
) -> SpecClub:
    """An own club as it was read. It is adjusted only where the plan asks another loft of it."""
    loft = entry.loft_deg if entry else None
    club = SpecClub(
        spec=spec,
        slot=decision.slot,
        name=f"Own {own.label}"[:40],
        role=decision.role,
        source=ClubSource.OWN_KEPT,
        hand=own.hand,
        club=own,
        head=own.head,
        stamped_loft_deg=own.stamped_loft_deg,
        stamped_bounce_deg=own.stamped_bounce_deg,
        stock_lie_deg=own.head.lie_deg if own.head else None,
        as_received_loft_deg=loft,
        as_received_lie_deg=entry.lie_deg if entry else None,
        as_received_bounce_deg=entry.bounce_deg if entry else None,
        target_length_mm=entry.length_mm if entry else None,
        target_swing_weight_points=entry.swing_weight_points if entry else None,
        stamping="none",
    )
    is_meant = planned is not None and planned.club_id == own.pk and loft is not None
    if planned is not None and is_meant and planned.target_loft_deg != loft:
        club.target_loft_deg = planned.target_loft_deg
        club.target_lie_deg = club.as_received_lie_deg
        club.source = ClubSource.OWN_ADJUSTED
    return club


def settle_source(club: SpecClub) -> None:
    """An own club is kept while nothing else is asked of it, and adjusted once something is."""
    if club.source == ClubSource.NEW:
        return
    asked = (
        (club.target_loft_deg, club.as_received_loft_deg),
        (club.target_lie_deg, club.as_received_lie_deg),
    )
    differs = any(target is not None and target != got for target, got in asked)
    club.source = ClubSource.OWN_ADJUSTED if differs else ClubSource.OWN_KEPT
