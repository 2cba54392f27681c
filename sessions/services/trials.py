"""Trials: what is put into the player's hand, what changed, and the situations it is hit in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db import transaction
from django.db.models import Max, TextChoices

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.selectors import the_shop
from fitshop.services.audit import audit_record
from sessions.flow import TrialState
from sessions.models import Adapter, Block, Club, Trial, TrialHead, TrialShaft, Visit
from sessions.models.words import (
    AsFlown,
    Ball,
    CarryGot,
    Face,
    Ground,
    HitFrom,
    SlotRole,
    SpinGot,
    Swing,
    Wetness,
)
from sessions.selectors.equipment import (
    CHANGES,
    LengthUnit,
    Played,
    last_entry,
    played_club,
    played_trial_head,
    stop_words,
    withdrawn_words,
)
from sessions.selectors.likeness import also_different
from sessions.services.capture import (
    refuse_another,
    refuse_missing,
    refuse_other_words,
    visit_locked,
)
from sessions.services.equipment import is_known_withdrawn
from sessions.services.visits import sequence_take

# A tablet asks every few seconds: one that was told nothing for so long has no line.
NO_LINE_SINCE = timedelta(minutes=1)
NOT_TIGHT = "Check that the head is tight, then tick it."
BLOCK_WORDS: dict[str, type[TextChoices]] = {
    "swing": Swing,
    "hit_from": HitFrom,
    "ground": Ground,
    "wetness": Wetness,
    "face": Face,
    "ball": Ball,
    "carry_got": CarryGot,
    "spin_got": SpinGot,
    "as_flown": AsFlown,
}
BLOCK_NEEDED = {
    "swing": "Say which swing.",
    "hit_from": "Say what it is hit from.",
    "ground": "Say how firm the ground is.",
    "wetness": "Say whether it is dry or wet.",
    "face": "Say how the face is held.",
    "ball": "Say which ball.",
    "carry_got": "Say how the carry is got.",
}


@transaction.atomic
def trial_start(
    *,
    visit: Visit,
    trial_id: UUID,
    purpose: str,
    club: Club | None = None,
    trial_head: TrialHead | None = None,
    trial_shaft: TrialShaft | None = None,
    adapter: Adapter | None = None,
    slot: int | None = None,
    role: str = "",
    loft_deg: Decimal | None = None,
    lie_deg: Decimal | None = None,
    swing_weight_points: Decimal | None = None,
    mass_g: Decimal | None = None,
    changed: Sequence[str] = (),
    head_tight: bool = False,
    heard_at: datetime | None = None,
    by: Actor,
    at: datetime,
) -> Trial:
    """Put a club into the player's hand: an own one, or a trial head on a shaft.

    The played values are copied, the club in the hand before is finished, and what came along
    with the chosen changes is listed. `loft_deg`, `lie_deg`, swing weight and mass as just read,
    the whole club with its adapter.
    `heard_at`: when the tablet was last told the state, by this server's clock. A withdrawn part is
    refused, but for a tablet that has had no line since before the withdrawal: then the club was
    in the hand, and what was hit with it is a fact.

    Raises Refused, StateRefused, FieldsRefused. Writes Trial, AuditEntry.
    """
    visit = visit_locked(visit, by=by)
    known = Trial.objects.filter(pk=trial_id).first()
    if known is not None:
        refuse_another(known, visit_id=visit.pk, club=club, trial_head=trial_head)
        return known
    refuse_missing({"purpose": purpose}, {"purpose": "Say what the club is tried for."})
    refuse_other_words({"purpose": purpose, "role": role}, {"purpose": Trial.Purpose,
                                                            "role": SlotRole})  # fmt: skip
    _refuse_changes(changed)
    if club is not None and trial_head is None:
        _refuse_own(visit, club)
        played = played_club(
            club=club, entry=last_entry(visit, club), loft_deg=loft_deg, lie_deg=lie_deg
        )
    elif trial_head is not None and club is None:
        known_by = _known_by(heard_at, at)
        shaft = _refuse_trial_club(
            visit, trial_head, trial_shaft, adapter, head_tight, known_by, at
        )
        played = played_trial_head(
            trial_head=trial_head,
            trial_shaft=shaft,
            adapter=adapter,
            loft_deg=loft_deg,
            lie_deg=lie_deg,
        )
    else:
        raise FieldsRefused({"club_id": "Choose one club: an own one, or a trial head."})

    played = played.weighed(swing_weight_points, mass_g)
    before = visit.trials.standing().order_by("-sequence").first()
    _finish_open(visit, at)
    trial = Trial.objects.create(
        id=trial_id,
        visit=visit,
        sequence=sequence_take(visit),
        number=1 + visit.trials.count(),
        purpose=purpose,
        slot=slot,
        role=role,
        club=club,
        trial_head=trial_head,
        trial_shaft=trial_shaft if trial_head else None,
        adapter=adapter if trial_head else None,
        **played.columns,
        changed=list(changed),
        also_different=_came_along(before, played, changed),
        head_tight_checked_at=at if head_tight else None,
        head_tight_checked_by=by.name if head_tight else "",
        started_at=at,
        started_by=by.name,
    )
    audit_record(
        action="fitting.trial.started",
        subject=trial,
        before={"trial": str(before.pk)} if before else None,
        after={"number": trial.number, "changed": trial.changed, **played.columns},
        by=by,
        at=at,
    )
    return trial


@transaction.atomic
def trial_finish(*, trial: Trial, by: Actor, at: datetime) -> Trial:
    """Take the club out of the player's hand. A second time changes nothing.

    Raises Refused, StateRefused. Writes Trial, AuditEntry.
    """
    visit_locked(trial.visit, by=by)
    trial = Trial.objects.select_for_update().get(pk=trial.pk)
    if trial.state == TrialState.FINISHED:
        return trial
    trial.state = TrialState.FINISHED
    trial.finished_at = at
    trial.save(update_fields=["state", "finished_at"])
    audit_record(action="fitting.trial.finished", subject=trial, by=by, at=at)
    return trial


@transaction.atomic
def block_start(
    *,
    trial: Trial,
    block_id: UUID,
    values: Mapping[str, Any],
    heard_at: datetime | None = None,
    by: Actor,
    at: datetime,
) -> Block:
    """Begin a situation: swing, target, lie of the ball, ground, wet or dry, face, ball, device.

    `values` are the columns of Block, `target_m` in metres and `device` a row. A club that was
    finished meanwhile still takes it: two tablets unite, and what was hit was hit. One with a part
    that was withdrawn takes none begun after the tablet was told so (`heard_at`, as in
    `trial_start`); what was begun before is a fact.

    Raises Refused, StateRefused, FieldsRefused. Writes Block, AuditEntry.
    """
    visit = visit_locked(trial.visit, by=by)
    known = Block.objects.filter(pk=block_id).first()
    if known is not None:
        refuse_another(known, trial_id=trial.pk, swing=values.get("swing"))
        return known
    _refuse_withdrawn(trial, visit, heard_at, at)
    refuse_missing(values, BLOCK_NEEDED)
    refuse_other_words(values, BLOCK_WORDS)
    device = values.get("device")
    if device is not None and device.location_id != visit.location_id:
        raise FieldsRefused({"device_id": "That device stands at another location."})

    latest = trial.blocks.aggregate(latest=Max("number"))["latest"] or 0
    block = Block.objects.create(
        id=block_id,
        trial=trial,
        sequence=sequence_take(visit),
        number=latest + 1,
        target_m=values.get("target_m"),
        device=device,
        is_warm_up=bool(values.get("is_warm_up")),
        started_at=at,
        started_by=by.name,
        **{field: values[field] for field in BLOCK_WORDS if values.get(field)},
    )
    audit_record(
        action="fitting.block.started",
        subject=block,
        after={"trial": str(trial.pk), "situation": str(block), "is_warm_up": block.is_warm_up},
        by=by,
        at=at,
    )
    return block


def _refuse_changes(changed: Sequence[str]) -> None:
    strange = [word for word in changed if word not in CHANGES]
    if strange:
        raise FieldsRefused({"changed": f"Choose from: {', '.join(CHANGES)}."})


def _refuse_own(visit: Visit, club: Club) -> None:
    if club.player_id != visit.player_id:
        raise FieldsRefused({"club_id": "That club belongs to another player."})


def _refuse_trial_club(
    visit: Visit,
    trial_head: TrialHead,
    trial_shaft: TrialShaft | None,
    adapter: Adapter | None,
    head_tight: bool,
    known_by: datetime,
    at: datetime,
) -> TrialShaft:
    """Refuse what may not be handed over; return the shaft, which there must be."""
    if trial_shaft is None:
        raise FieldsRefused({"trial_shaft_id": "Choose the shaft it is on."})
    errors = {}
    zone = visit.location.zone
    for field, item in (
        ("trial_head_id", trial_head),
        ("trial_shaft_id", trial_shaft),
        ("adapter_id", adapter),
    ):
        if item is None:
            continue
        if item.location_id != visit.location_id:
            errors[field] = f"{item.mark} belongs to another location."
        elif is_known_withdrawn(item, known_by):
            errors[field] = withdrawn_words(item, zone, at)
    hand, wanted = trial_head.head.hand, visit.player.hand
    if hand != wanted:
        errors.setdefault(
            "trial_head_id",
            f"{trial_head.mark} is a {hand}-hand head; the player is {wanted}-hand.",
        )
    today = at.astimezone(ZoneInfo(zone)).date()
    if adapter is not None and adapter.inspect_by is not None and adapter.inspect_by < today:
        due = adapter.inspect_by
        errors.setdefault(
            "adapter_id",
            f"{adapter.mark} was to be inspected by {due.day} {due:%B %Y}. Take another.",
        )
    if head_tight is not True:
        errors["head_tight"] = NOT_TIGHT
    if errors:
        raise FieldsRefused(errors)
    return trial_shaft


def _known_by(heard_at: datetime | None, at: datetime) -> datetime:
    """Until when a withdrawal is known: now, for a tablet that is on the line."""
    return heard_at if heard_at is not None and at - heard_at > NO_LINE_SINCE else at


def _refuse_withdrawn(trial: Trial, visit: Visit, heard_at: datetime | None, at: datetime) -> None:
    parts = (trial.trial_head, trial.trial_shaft, trial.adapter)
    for item in parts:
        if item is not None and is_known_withdrawn(item, heard_at):
            raise StateRefused(f"{item.mark}: {stop_words(item, visit.location.zone, at)}")


def _finish_open(visit: Visit, at: datetime) -> None:
    """One club in the hand: the one before it is finished by the next."""
    visit.trials.filter(state=TrialState.OPEN).update(state=TrialState.FINISHED, finished_at=at)


def _came_along(before: Trial | None, played: Played, changed: Sequence[str]) -> list[str]:
    if before is None:
        return []
    shop = the_shop()
    unit: LengthUnit = "mm" if shop is not None and shop.length_unit == "mm" else "in"
    return also_different(before, played, changed, unit)
