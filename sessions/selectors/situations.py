"""A club's balls in the situations that they were hit in: from blocks and shots to figures."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import datetime
from uuid import UUID

from sessions.maths.block_context import BlockContext
from sessions.maths.dispersion import (
    ShotFigures,
    block_figures,
    mean_points,
    proximity,
    spread,
)
from sessions.models import Block, Rating, Shot, Trial
from sessions.models.words import AsFlown, Face, Grooves, Ground, LeftOut, Wetness
from sessions.rules.club_evidence import Situation, SituationFigures


def _every_shot(shot: Shot) -> bool:
    return True


def places_in_order(trials: Sequence[Trial], since: datetime) -> dict[UUID, int]:
    """Each ball's place in the visit, for balls whose place is known.

    A ball recorded on the tablet has one. A file's ball has one only with a time of its own,
    between `since` and its import: rows of a file say nothing of when they were hit.
    """
    shots = [shot for trial in trials for each in trial.blocks.all() for shot in each.shots.all()]
    known: list[tuple[datetime, int, UUID]] = []
    is_timed = False
    for shot in shots:
        if shot.source == Shot.Source.HAND:
            known.append((shot.recorded_at, shot.sequence, shot.pk))
        elif shot.device_time is not None and since <= shot.device_time <= shot.recorded_at:
            known.append((shot.device_time, shot.sequence, shot.pk))
            is_timed = True
    if not is_timed:
        return {pk: sequence for _, sequence, pk in known}
    return {pk: place for place, (_, _, pk) in enumerate(sorted(known), start=1)}


def situations_of(
    trials: Sequence[Trial],
    late: str,
    places: Mapping[UUID, int],
    counts: Callable[[Shot], bool] = _every_shot,
) -> Iterable[SituationFigures]:
    """A club's shots by situation, in the order in which each was first hit.

    `places` are the balls' places in the visit, where they are known.
    `late` is what was said afterwards of blocks that have no answer of their own, as flown or not.
    Shots that `counts` turns down are passed over.
    """
    groups: dict[tuple[object, ...], list[tuple[Trial, Block]]] = {}
    for trial in trials:
        for block in trial.blocks.all():
            if block.is_warm_up:
                continue
            key = (block.swing, block.target_m, block.hit_from, block.ground, block.wetness,
                   block.face, block.ball, block.device_id, _figures_are(block, late),
                   block.carry_got)  # fmt: skip
            groups.setdefault(key, []).append((trial, block))
    for group in groups.values():
        yield _situation_figures(group, late, places, counts)


def _figures_are(block: Block, late: str) -> AsFlown:
    """As flown, normalised or unanswered: the block's own answer, else the later one."""
    own = AsFlown(block.as_flown)
    return AsFlown(late) if own == AsFlown.UNANSWERED and late else own


def _situation_figures(
    group: Sequence[tuple[Trial, Block]],
    late: str,
    places: Mapping[UUID, int],
    counts: Callable[[Shot], bool],
) -> SituationFigures:
    trial, block = group[-1]
    shots = [
        shot
        for _, each in group
        for shot in each.shots.all()
        if not shot.is_warm_up and counts(shot)
    ]
    known = [shot for shot in shots if not _is_undone(shot)]
    counted = [shot for shot in known if not _is_left_out(shot)]
    in_mean = [shot for shot in counted if shot.in_mean]
    figures = tuple(
        ShotFigures(
            carry_m=shot.carry_m,
            side_m=shot.side_m,
            strike="" if shot.strike == "clean" else shot.strike,
            misread=_is_left_out(shot),
            counted_in_mean=shot.in_mean,
            strike_up_mm=shot.strike_up_mm,
            strike_toe_mm=shot.strike_toe_mm,
        )
        for shot in known
    )
    spins = _measured(in_mean, "spin_rpm")
    points = mean_points(figures)
    target = block.target_m
    return SituationFigures(
        situation=situation_of(block),
        context=_context(trial, block, _figures_are(block, late)),
        figures=block_figures(figures),
        shots=figures,
        carries_m=_measured(in_mean, "carry_m"),
        sides_m=_measured(in_mean, "side_m"),
        launches_deg=_measured(in_mean, "launch_deg"),
        landings_deg=_measured(in_mean, "landing_deg"),
        spins_rpm=spins,
        ball_speeds_ms=_measured(in_mean, "ball_speed_ms"),
        distances_m=()
        if target is None
        else tuple(math.hypot(side, carry - target) for side, carry in points),
        near=None if target is None else proximity(points, target),
        order=tuple(places[shot.pk] for shot in counted)
        if all(shot.pk in places for shot in counted)
        else (),
        carries_in_order=tuple(
            (places[shot.pk], shot.carry_m)
            for shot in in_mean
            if shot.carry_m is not None and shot.pk in places
        ),
        spin_got=block.get_spin_got_display(),
        turf=dict(Counter(shot.turf for shot in counted if shot.turf)),
        spin=spread(spins),
        block_ids=tuple(each.pk for _, each in group),
        is_figures_answered_later=bool(late)
        and any(each.as_flown == AsFlown.UNANSWERED for _, each in group),
    )


def _measured(shots: Sequence[Shot], field: str) -> tuple[float, ...]:
    """The figures of one kind; a shot without one is not a nought."""
    return tuple(value for shot in shots if (value := getattr(shot, field)) is not None)


def situation_of(block: Block | Rating) -> Situation:
    """The swing and surroundings of a block, or of a rating that was given in them."""
    extra = []
    if block.wetness == Wetness.WET:
        extra.append("wet")
    if block.face != Face.SQUARE:
        extra.append(f"face {block.get_face_display()}")
    return Situation(
        swing=block.swing,
        swing_label=block.get_swing_display(),
        hit_from=block.hit_from,
        from_label=block.get_hit_from_display(),
        target_m=block.target_m,
        extra=tuple(extra),
        ground="" if block.ground == Ground.NORMAL else block.get_ground_display(),
    )


def _context(trial: Trial, block: Block, figures: AsFlown) -> BlockContext:
    return BlockContext(
        swing=block.get_swing_display(),
        surface=block.get_hit_from_display(),
        ground=block.get_ground_display(),
        wet=block.get_wetness_display(),
        face=block.get_face_display(),
        ball=f"{block.get_ball_display()} ball",
        device=None if block.device is None else block.device.name,
        figures=None if figures == AsFlown.UNANSWERED else str(figures.label),
        carry_got=block.get_carry_got_display(),
        grooves=None if trial.grooves == Grooves.UNKNOWN else trial.get_grooves_display(),
    )


def _is_left_out(shot: Shot) -> bool:
    return shot.exclusion is not None


def _is_undone(shot: Shot) -> bool:
    """Mistyped or undone: it was never a ball of this club, so it isn't counted as a misread."""
    left_out = shot.exclusion
    return left_out is not None and left_out.reason != LeftOut.MISREAD
