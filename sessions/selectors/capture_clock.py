"""The quiet clock of a visit: minutes left, full swings against their limit, what is not begun."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime

from fitshop.selectors import SettingsInForce
from sessions.flow import VisitState
from sessions.models import Block, Shot, Trial, Visit
from sessions.models.words import NO_BALL, HitFrom, PlayerKind, Swing
from sessions.rules.club_evidence import NO_TURF
from sessions.rules.interview import is_in_pain
from sessions.selectors.capture_trials import left_out_why
from sessions.selectors.capture_words import Document
from sessions.selectors.steps import Step

FULL_SWINGS = (Swing.FULL, Swing.FLAT_OUT)
SAND = (HitFrom.SAND_FLUFFY, HitFrom.SAND_FIRM, HitFrom.SAND_WET, HitFrom.PLUGGED)
BEFORE_TRIALS = ("interview", "bag", "baseline", "plan", "trials")


def clock_document(
    visit: Visit,
    trials: Sequence[Trial],
    steps: Iterable[Step],
    answers: Mapping[str, Document],
    settings: SettingsInForce,
    at: datetime,
) -> Document:
    """Balls, full swings without the warm-up, minutes left, and what has not been started.

    A ball imported without a time counts as a swing and never tires: nobody knows when it was hit.
    A misread was a swing; what was mistyped or taken back was none. `answers` are the interview's
    last ones. A visit that is not open has no minutes left and nothing to begin.
    """
    is_open = visit.state == VisitState.OPEN
    balls = [
        (block, shot.is_warm_up, is_in_the_hour(shot))
        for trial in trials
        for block in trial.blocks.all()
        for shot in block.shots.all()
        if left_out_why(shot) not in NO_BALL
    ]
    full = [
        is_now
        for block, is_warm_up, is_now in balls
        if not is_warm_up and block.swing in FULL_SWINGS
    ]
    look, most = _limits(visit, answers, settings)
    return {
        "balls": len(balls),
        "warm_up_balls": sum(1 for _, is_warm_up, _ in balls if is_warm_up),
        "full_swings": len(full),
        "full_swings_most": most,
        "is_tiring": sum(full) >= look,
        "minutes": _minutes(visit, at) if is_open else None,
        "not_started": _not_started(steps, trials) if is_open else [],
    }


def is_in_the_hour(shot: Shot) -> bool:
    """Whether it is known when a ball was hit: a file's rows without times may be of any day."""
    return shot.source == Shot.Source.HAND or shot.device_time is not None


def _limits(
    visit: Visit, answers: Mapping[str, Document], settings: SettingsInForce
) -> tuple[int, int]:
    """From how many full swings on the player tires, and the most: lower for who is spared."""
    hurts = is_in_pain((answers.get("pain") or {}).get("value"))
    is_spared = visit.player.kind == PlayerKind.SENIOR or hurts
    whose = "_spared" if is_spared else ""
    return (
        int(settings[f"visit.balls_look{whose}"]),
        int(settings[f"visit.balls_most{whose}"]),
    )


def _minutes(visit: Visit, at: datetime) -> int | None:
    if visit.opened_at is None:
        return None
    return max(0, visit.minutes - int((at - visit.opened_at).total_seconds() // 60))


def _not_started(steps: Iterable[Step], trials: Sequence[Trial]) -> list[str]:
    """In the order of the hour: the steps up to the trials, what they leave out, the comparison."""
    todo = {step.key: step.label for step in steps if step.state == "todo"}
    before = [todo[key] for key in BEFORE_TRIALS if key in todo]
    after = [todo["compare"]] if "compare" in todo else []
    return [*before, *_situations(trials), *after]


def _situations(trials: Iterable[Trial]) -> list[str]:
    """What no trial club was hit in yet, once there are trial clubs: turf, part swings, sand."""
    candidates = [trial for trial in trials if trial.purpose == Trial.Purpose.CANDIDATE]
    if not candidates:
        return []
    hit = [block for trial in candidates for block in trial.blocks.all() if _has_balls(block)]
    begun = {
        "Turf": any(block.hit_from not in NO_TURF for block in hit),
        "Part swings": any(block.swing not in (*FULL_SWINGS, Swing.SAND) for block in hit),
        "Sand": any(block.swing == Swing.SAND or block.hit_from in SAND for block in hit),
    }
    return [what for what, is_begun in begun.items() if not is_begun]


def _has_balls(block: Block) -> bool:
    return any(left_out_why(shot) not in NO_BALL for shot in block.shots.all())
