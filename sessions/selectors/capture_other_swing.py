"""Balls of the club in the hand that look as if another swing had been meant, to be asked about."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final
from uuid import UUID

from fitshop.selectors import SettingsInForce
from sessions.flow import TrialState
from sessions.models import Shot, Trial
from sessions.models.words import Strike
from sessions.rules.other_swing import OtherSwingLimits, carries, fits_better
from sessions.selectors.capture_trials import Hidden
from sessions.selectors.capture_words import Document

# How many balls back it is still remembered what was hit.
LAST_BALLS: Final = 5
# What went wrong with the strike says by itself why the ball fell short.
BADLY_STRUCK: Final = (Strike.FAT, Strike.THIN)

Ball = tuple[Trial, str, Shot]


def other_swings(
    trials: Sequence[Trial], hidden: Hidden, settings: SettingsInForce
) -> list[Document]:
    """Each with the swing that it fits far better; of the visit's last balls, in their order."""
    limits = other_swing_limits(settings)
    balls = _balls(trials)
    found: list[Document] = []
    for trial, swing, shot in balls[-LAST_BALLS:]:
        is_in_hand = trial.state == TrialState.OPEN or trial.pk in hidden.codes
        if not is_in_hand or shot.strike in BADLY_STRUCK or shot.carry_m is None:
            continue
        rest = [ball for ball in balls if ball[2].pk != shot.pk]
        fits = fits_better(shot.carry_m, swing, _held_against(rest, trial, limits), limits)
        if fits is not None:
            found.append({"shot_id": str(shot.pk), "swing": fits})
    return found


def other_swing_limits(settings: SettingsInForce) -> OtherSwingLimits:
    return OtherSwingLimits(
        far=float(settings["visit.other_swing_far"]),
        near=float(settings["visit.other_swing_near"]),
        least=int(settings["visit.other_swing_least"]),
        spread_least=float(settings["visit.other_swing_spread_least"]) / 100,
        chip_most=float(settings["visit.other_swing_chip_most"]) / 100,
    )


def _balls(trials: Sequence[Trial]) -> list[Ball]:
    """Every ball with a carry that counts in a mean, in the server's order."""
    balls = [
        (trial, block.swing, shot)
        for trial in trials
        for block in trial.blocks.all()
        if not block.is_warm_up
        for shot in block.shots.all()
        if shot.exclusion is None and shot.in_mean and shot.carry_m is not None
    ]
    return sorted(balls, key=lambda ball: ball[2].sequence)


def _held_against(
    balls: Sequence[Ball], trial: Trial, limits: OtherSwingLimits
) -> dict[str, list[float]]:
    """Carries by swing: of this club where it has enough of them, else of the whole visit."""
    own = _by_swing([ball for ball in balls if _thing(ball[0]) == _thing(trial)])
    every = _by_swing(balls)
    return {
        swing: own[swing] if carries(own.get(swing, ()), limits) else each
        for swing, each in every.items()
    }


def _by_swing(balls: Sequence[Ball]) -> dict[str, list[float]]:
    found: dict[str, list[float]] = {}
    for _, swing, shot in balls:
        if shot.carry_m is not None:
            found.setdefault(swing, []).append(shot.carry_m)
    return found


def _thing(trial: Trial) -> tuple[UUID | None, UUID | None]:
    """The same club, however often it was handed over."""
    return trial.club_id, trial.trial_head_id
