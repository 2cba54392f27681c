"""Shots and what was said of a club. A shot is a fact: left out by a row, never edited."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import transaction
from django.db.models import Max, TextChoices

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.services.audit import audit_record
from sessions.flow import ComparisonState, TrialState
from sessions.models import Block, Comparison, Rating, Shot, ShotExclusion, ShotFile, Trial
from sessions.models.words import NO_BALL, Divot, FlightWindow, LeftOut, Strike, Turf
from sessions.services.capture import (
    refuse_another,
    refuse_missing,
    refuse_other_words,
    visit_locked,
)
from sessions.services.equipment import shots_count
from sessions.services.rated_in import rated_in
from sessions.services.visits import sequence_take

SHOT_WORDS: dict[str, type[TextChoices]] = {
    "strike": Strike,
    "turf": Turf,
    "divot": Divot,
    "flight": FlightWindow,
}
SHOT_FIGURES = (
    "carry_m",
    "side_m",
    "total_m",
    "ball_speed_ms",
    "launch_deg",
    "spin_rpm",
    "spin_axis_deg",
    "apex_m",
    "landing_deg",
    "club_speed_ms",
    "attack_deg",
    "lean_deg",
    "strike_up_mm",
    "strike_toe_mm",
)
NOTHING_SAID = "Type a carry, or say how it was struck or what the turf did."


@transaction.atomic
def shot_record(
    *,
    block: Block,
    shot_id: UUID,
    values: Mapping[str, Any],
    source: str = Shot.Source.HAND,
    file: ShotFile | None = None,
    file_row: int | None = None,
    device_time: datetime | None = None,
    device_counter: int | None = None,
    by: Actor,
    at: datetime,
) -> Shot:
    """Record one ball. `values` are columns of Shot in metric; what is missing was not measured.

    A fat, thin, heel or toe strike stays and is counted, also where `in_mean` is False. The head,
    shaft and adapter are counted up. A shot from a file names its `file` and `file_row`.

    Raises Refused, StateRefused, FieldsRefused.
    Writes Shot, TrialHead, TrialShaft, Adapter, AuditEntry.
    """
    trial = block.trial
    visit = visit_locked(trial.visit, by=by)
    figures = {field: values.get(field) for field in SHOT_FIGURES}
    known = Shot.objects.filter(pk=shot_id).first()
    if known is not None:
        refuse_another(known, block_id=block.pk, **figures)
        return known
    words = {field: values.get(field) or "" for field in SHOT_WORDS}
    refuse_other_words(words, SHOT_WORDS)
    if all(value is None for value in figures.values()) and not any(words.values()):
        raise FieldsRefused({"carry": NOTHING_SAID})

    latest = block.shots.aggregate(latest=Max("number"))["latest"] or 0
    shot = Shot.objects.create(
        id=shot_id,
        block=block,
        sequence=sequence_take(visit),
        number=latest + 1,
        **figures,
        **words,
        in_mean=values.get("in_mean", True),
        is_warm_up=block.is_warm_up,
        source=source,
        file=file,
        file_row=file_row,
        device_time=device_time,
        device_counter=device_counter,
        recorded_at=at,
        recorded_by=by.name,
        as_typed=values.get("as_typed") or {},
    )
    shots_count(trial, 1)
    if trial.state == TrialState.TAKEN_BACK:
        # It was hit after all, as another tablet knows.
        Trial.objects.filter(pk=trial.pk).update(state=TrialState.FINISHED)
    audit_record(
        action="fitting.shot.recorded",
        subject=shot,
        after={"block": str(block.pk), "carry_m": shot.carry_m, "strike": shot.strike},
        by=by,
        at=at,
    )
    return shot


@transaction.atomic
def shot_exclude(
    *, shot: Shot, exclusion_id: UUID, reason: str, by: Actor, at: datetime
) -> ShotExclusion:
    """Leave a shot out of everything: a misread, mistyped, or taken back. It stays as recorded.

    Raises Refused, StateRefused, FieldsRefused.
    Writes ShotExclusion, TrialHead, TrialShaft, Adapter, AuditEntry.
    """
    trial = shot.block.trial
    visit = visit_locked(trial.visit, by=by)
    known = ShotExclusion.objects.standing().filter(shot=shot).first()
    if known is not None:
        if known.reason != reason:
            raise StateRefused(
                f"Shot {shot.number} is left out already: {known.reason}.", code="shot.left_out"
            )
        return known
    refuse_missing({"reason": reason}, {"reason": "Say why it is left out."})
    refuse_other_words({"reason": reason}, {"reason": LeftOut})

    exclusion = ShotExclusion.objects.create(
        id=exclusion_id,
        shot=shot,
        reason=reason,
        sequence=sequence_take(visit),
        excluded_at=at,
        excluded_by=by.name,
    )
    if reason in NO_BALL:
        shots_count(trial, -1)
    audit_record(
        action="fitting.shot.excluded",
        subject=shot,
        after={"reason": reason},
        by=by,
        at=at,
    )
    return exclusion


@transaction.atomic
def shot_mend(
    *,
    shot: Shot,
    mended_id: UUID,
    exclusion_id: UUID,
    values: Mapping[str, Any],
    block: Block | None = None,
    by: Actor,
    at: datetime,
) -> Shot:
    """Say otherwise what a ball was: it is left out as mistyped and recorded anew.

    `values` are the columns that change; all else is taken over. `block`: where it belongs instead.

    Raises Refused, StateRefused, FieldsRefused.
    Writes Shot, ShotExclusion, TrialHead, TrialShaft, Adapter, AuditEntry.
    """
    visit_locked(shot.block.trial.visit, by=by)
    known = Shot.objects.filter(pk=mended_id).first()
    if known is not None:
        return known
    if shot.exclusion is not None:
        raise StateRefused(
            f"Shot {shot.number} is left out already: {shot.exclusion.reason}.",
            code="shot.left_out",
        )

    mended = shot_record(
        block=block or shot.block, shot_id=mended_id, values=_mended(shot, values), by=by, at=at
    )
    shot_exclude(shot=shot, exclusion_id=exclusion_id, reason=LeftOut.MISTYPED, by=by, at=at)
    audit_record(
        action="fitting.shot.mended",
        subject=mended,
        before={"shot": str(shot.pk)},
        after={"said": values.get("as_typed") or {}, "block": str(mended.block_id)},
        by=by,
        at=at,
    )
    return mended


def _mended(shot: Shot, values: Mapping[str, Any]) -> dict[str, Any]:
    """A shot's columns with what is said otherwise now."""
    return {
        **{name: getattr(shot, name) for name in (*SHOT_FIGURES, *SHOT_WORDS, "in_mean")},
        **values,
        "as_typed": {**shot.as_typed, **(values.get("as_typed") or {})},
    }


@transaction.atomic
def rating_record(
    *,
    trial: Trial,
    rating_id: UUID,
    about: str,
    score: int,
    comparison: Comparison | None = None,
    situation: Mapping[str, Any] | None = None,
    by: Actor,
    at: datetime,
) -> Rating:
    """Record what the player says of one club, 1 to 5, and where: `situation`, see `rated_in`.

    Raises Refused, StateRefused, FieldsRefused. Writes Rating, AuditEntry.
    """
    visit = visit_locked(trial.visit, by=by)
    known = Rating.objects.filter(pk=rating_id).first()
    if known is not None:
        refuse_another(known, trial_id=trial.pk, about=about, score=score)
        return known
    refuse_missing({"about": about}, {"about": "Say what the rating is about."})
    refuse_other_words({"about": about}, {"about": Rating.About})
    if not 1 <= score <= 5:
        raise FieldsRefused({"score": "Choose 1 to 5."})
    where = rated_in(trial, situation)

    rating = Rating.objects.create(
        id=rating_id,
        visit=visit,
        sequence=sequence_take(visit),
        trial=trial,
        comparison=comparison,
        about=about,
        score=score,
        before_reveal=comparison is not None and comparison.state != ComparisonState.REVEALED,
        **where,
        rated_at=at,
        recorded_by=by.name,
    )
    audit_record(
        action="fitting.rating.recorded",
        subject=rating,
        after={"trial": str(trial.pk), "about": about, "score": score,
               "swing": rating.swing, "hit_from": rating.hit_from},
        by=by,
        at=at,
    )  # fmt: skip
    return rating
