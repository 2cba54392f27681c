"""The one document from which the capture pages are drawn: what was recorded, and what may be.

Its number of queries does not grow with the shots. While a hidden comparison runs, nothing in it
names what is behind a number: not the trial, not the shelf of trial heads, not the bag.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, cast
from uuid import UUID

from django.db.models import Prefetch

from fitshop.actor import Actor
from fitshop.selectors import the_shop
from sessions.flow import ComparisonState, TrialState
from sessions.maths.bending import MAKING_LIMITS
from sessions.maths.shown import (
    distance_in,
    show_inches,
    show_length,
    show_mass,
    show_swing_weight,
)
from sessions.maths.unit_factors import DistanceUnit
from sessions.models import (
    BagEntry,
    Block,
    Club,
    Comparison,
    Interview,
    LoftPlan,
    OtherClubs,
    PlanSlot,
    Rating,
    Shot,
    Trial,
    Visit,
)
from sessions.models.words import (
    AsFlown,
    Ball,
    CarryGot,
    Divot,
    Face,
    FlightWindow,
    Grooves,
    Ground,
    HitFrom,
    LeftOut,
    SlotRole,
    SpinGot,
    Strike,
    Swing,
    Turf,
    Wetness,
)
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.rules.interview import Group
from sessions.rules.interview_questions import QUESTIONS
from sessions.rules.wording import figure
from sessions.selectors.equipment import (
    CHANGES,
    LengthUnit,
    adapters_for,
    devices_for,
    head_sole_words,
    heads_for,
    played_loft_words,
    shafts_for,
    withdrawn_words,
)
from sessions.selectors.steps import visit_steps

Document = dict[str, Any]

NOT_BALLS = (LeftOut.MISTYPED, LeftOut.UNDONE)
SITUATION = (
    "swing",
    "hit_from",
    "ground",
    "wetness",
    "face",
    "ball",
    "carry_got",
    "spin_got",
    "as_flown",
    "is_warm_up",
)
TRIAL_WORDS = (
    "head_name",
    "loft_words",
    "bounce_words",
    "stamped_words",
    "sole_words",
    "shaft_name",
    "length_words",
    "lie_words",
    "swing_weight_words",
    "mass_words",
    "grip_name",
    "grooves",
)
CHOICES = {
    "swing": Swing,
    "hit_from": HitFrom,
    "ground": Ground,
    "wetness": Wetness,
    "face": Face,
    "ball": Ball,
    "carry_got": CarryGot,
    "spin_got": SpinGot,
    "as_flown": AsFlown,
    "strike": Strike,
    "turf": Turf,
    "divot": Divot,
    "flight": FlightWindow,
    "left_out": LeftOut,
    "grooves": Grooves,
    "role": SlotRole,
    "purpose": Trial.Purpose,
    "about": Rating.About,
    "club_kind": Club.Kind,
    "other_kind": OtherClubs.Kind,
}


@dataclass(frozen=True, slots=True)
class Hidden:
    """What a running hidden comparison keeps from every screen, and the numbers it goes by."""

    codes: dict[UUID, int]
    names: frozenset[str]
    head_ids: frozenset[UUID]
    club_ids: frozenset[UUID]

    @property
    def is_running(self) -> bool:
        return bool(self.codes)

    def hides(self, trial: Trial) -> bool:
        """Its own arms, and whatever else bears their names or is the same thing."""
        return self.is_running and (
            trial.pk in self.codes
            or trial.head_name in self.names
            or trial.trial_head_id in self.head_ids
            or trial.club_id in self.club_ids
        )


def capture_state(visit: Visit, *, actor: Actor, at: datetime) -> Document:
    """The document of `GET /api/v1/visits/<id>/state`. `visit` comes with player, place and bay.

    Carries and sides are in the player's unit, sideways positive to the player's right. The
    steps come without addresses: the door knows those.
    """
    player = visit.player
    unit = cast("DistanceUnit", player.carry_unit)
    shop = the_shop()
    length_unit: LengthUnit = "mm" if shop is not None and shop.length_unit == "mm" else "in"
    trials = _trials_of(visit)
    comparisons = list(
        visit.comparisons.prefetch_related("arms__trial", "ratings").order_by("sequence")
    )
    hidden = _hidden(comparisons)
    plan = _plan(visit)
    steps = [
        {"key": step.key, "label": step.label, "state": "done" if step.is_done else "open"}
        for step in visit_steps(visit)
    ]
    return {
        "visit": {
            "id": str(visit.pk),
            "state": visit.state,
            "kind": visit.kind,
            "opened_at": visit.opened_at.isoformat() if visit.opened_at else None,
            "minutes": visit.minutes,
            "bay": visit.bay.name if visit.bay else "",
            "location": visit.location.name,
            "sequence": visit.last_sequence,
        },
        "player": {
            "id": str(player.pk),
            "name": str(player),
            "hand": player.hand,
            "unit": unit,
            "kind": player.kind,
        },
        "me": {
            "name": actor.name,
            "may_capture": FITTING_POLICY.is_allowed(
                actor, FittingAction.CAPTURE, location_id=visit.location_id, state=visit.state
            ),
        },
        "steps": steps,
        "interview": _interview(visit),
        "bag": _bag(visit, hidden, unit, length_unit),
        "plan": plan,
        "trials": [_trial(trial, hidden, unit, length_unit) for trial in trials],
        "equipment": _equipment(visit, hidden, actor, at, length_unit),
        "comparisons": [_comparison(one) for one in comparisons],
        "choices": _choices(),
        "clock": _clock(visit, trials, steps, at),
    }


# --- interview, bag, plan -----------------------------------------------------------------


def _interview(visit: Visit) -> Document:
    interview = Interview.objects.filter(visit=visit).prefetch_related("answers").first()
    said = sorted(interview.answers.all(), key=lambda one: one.sequence) if interview else []
    return {
        "groups": [
            {
                "label": group.label,
                "questions": [
                    {
                        "key": question.key,
                        "label": question.label,
                        "kind": question.kind,
                        "choices": [
                            {"value": choice.value, "label": choice.label}
                            for choice in question.choices
                        ],
                        "help": question.help,
                        "unit": question.unit,
                    }
                    for question in QUESTIONS
                    if question.group == group
                ],
            }
            for group in Group
        ],
        # In the server's order: the last answer of a question counts.
        "answers": {
            one.question: {
                "value": one.value,
                "ask_later": one.ask_later,
                "said_by": one.said_by,
            }
            for one in said
        },
        "closed": interview is not None and interview.closed_at is not None,
    }


def _bag(visit: Visit, hidden: Hidden, unit: DistanceUnit, length_unit: LengthUnit) -> Document:
    entries = {entry.club_id: entry for entry in visit.bag_entries.order_by("sequence")}
    clubs = [
        club
        for club in Club.objects.filter(player_id=visit.player_id)
        if club.left_bag_at is None or club.pk in entries
    ]
    # Without a stamp last: two databases order what is missing differently.
    clubs.sort(key=lambda club: (club.stamped_loft_deg is None, club.stamped_loft_deg or 0,
                                 club.label))  # fmt: skip
    return {
        "clubs": [
            _bag_club(club, entries.get(club.pk), hidden, unit, length_unit) for club in clubs
        ],
        "others": {
            row.kind: {"count": row.count, "unused": row.unused} for row in visit.other_clubs.all()
        },
    }


def _bag_club(
    club: Club,
    entry: BagEntry | None,
    hidden: Hidden,
    unit: DistanceUnit,
    length_unit: LengthUnit,
) -> Document:
    is_hidden = club.pk in hidden.club_ids
    return {
        "id": str(club.pk),
        "kind": club.kind,
        "label": "In the comparison" if is_hidden else club.label,
        "maker": "" if is_hidden else club.maker,
        "model": "" if is_hidden else club.model,
        "making": club.making,
        "shaft": "" if is_hidden else club.shaft,
        "stamped_loft": _text(None if is_hidden else club.stamped_loft_deg),
        "stamped_bounce": _text(None if is_hidden else club.stamped_bounce_deg),
        "hidden": is_hidden,
        "entry": None if is_hidden or entry is None else _entry(entry, unit, length_unit),
    }


def _entry(entry: BagEntry, unit: DistanceUnit, length_unit: LengthUnit) -> Document:
    """Each figure as it was typed; where it came otherwise, as it would be typed."""
    measured = {
        "loft": _text(entry.loft_deg),
        "lie": _text(entry.lie_deg),
        "bounce": _text(entry.bounce_deg),
        "length": _length(entry.length_mm, length_unit),
        "swing_weight": _swing_weight(entry.swing_weight_points),
        "stock_carry": _text(_distance(entry.stock_carry_m, unit)),
        "flat_out_carry": _text(_distance(entry.flat_out_carry_m, unit)),
    }
    typed = entry.as_typed
    if typed.get("unit", unit) != unit:
        typed = {key: text for key, text in typed.items() if "carry" not in key}
    return {
        **{key: typed.get(key, words or "") for key, words in measured.items()},
        "unit": unit,
        "grooves": entry.grooves,
        "is_kept": entry.is_kept,
        "is_loved": entry.is_loved,
        "shots": entry.shots,
        "note": entry.note,
    }


def _plan(visit: Visit) -> Document | None:
    plan = (
        LoftPlan.objects.filter(visit=visit, is_current=True)
        .prefetch_related(Prefetch("slots", PlanSlot.objects.order_by("slot")))
        .first()
    )
    if plan is None:
        return None
    return {
        "slots": [
            {
                "slot": slot.slot,
                "role": slot.role,
                "target_loft": figure(slot.target_loft_deg),
                "label": f"Slot {slot.slot}: {figure(slot.target_loft_deg)}°, "
                f"{slot.get_role_display()}",
            }
            for slot in plan.slots.all()
        ]
    }


# --- trials -------------------------------------------------------------------------------


def _trials_of(visit: Visit) -> list[Trial]:
    shots = Shot.objects.select_related("exclusion").order_by("sequence")
    blocks = Block.objects.order_by("sequence").prefetch_related(Prefetch("shots", shots))
    return list(
        visit.trials.order_by("sequence").prefetch_related(
            Prefetch("blocks", blocks), Prefetch("ratings", Rating.objects.order_by("sequence"))
        )
    )


def _trial(trial: Trial, hidden: Hidden, unit: DistanceUnit, length_unit: LengthUnit) -> Document:
    is_hidden = hidden.hides(trial)
    words = dict.fromkeys(TRIAL_WORDS, "") if is_hidden else _words(trial, length_unit)
    ratings = [one for one in trial.ratings.all() if one.comparison_id is None]
    return {
        "id": str(trial.pk),
        "number": trial.number,
        "purpose": trial.purpose,
        "slot": trial.slot,
        "role": trial.role,
        "state": trial.state,
        "code": hidden.codes.get(trial.pk),
        "hidden": is_hidden,
        **words,
        # What changed would name the club before it: nobody's is said while one is hidden.
        "changed": [] if hidden.is_running else trial.changed,
        "also_different": [] if hidden.is_running else trial.also_different,
        "head_tight": trial.head_tight_checked_at is not None,
        **{
            f"{part}_id": None if is_hidden else _text(getattr(trial, f"{part}_id"))
            for part in ("club", "trial_head", "trial_shaft", "adapter")
        },
        "ratings": {} if is_hidden else {one.about: one.score for one in ratings},
        "blocks": [_block(block, unit) for block in trial.blocks.all()],
    }


def _words(trial: Trial, length_unit: LengthUnit) -> dict[str, str]:
    mass = trial.mass_g
    return {
        "head_name": trial.head_name,
        "loft_words": "" if trial.loft_deg is None else f"{figure(trial.loft_deg)}°",
        "bounce_words": "" if trial.bounce_deg is None else f"{figure(trial.bounce_deg)}°",
        "stamped_words": _stamped_words(trial),
        "sole_words": trial.sole_words,
        "shaft_name": trial.shaft_name,
        "length_words": _length(trial.length_mm, length_unit),
        "lie_words": "" if trial.lie_deg is None else f"{figure(trial.lie_deg)}°",
        "swing_weight_words": _swing_weight(trial.swing_weight_points),
        "mass_words": "" if mass is None else show_mass(mass),
        "grip_name": trial.grip_name,
        "grooves": trial.grooves,
    }


def _stamped_words(trial: Trial) -> str:
    """`Stamped 56 with 12, bent 1 strong`, so that a loft never stands there bare."""
    stamped = trial.stamped_loft_deg
    if stamped is None:
        return "No loft stamped on it"
    bounce = trial.stamped_bounce_deg
    said = f"Stamped {figure(stamped)}" + (f" with {figure(bounce)}" if bounce is not None else "")
    if trial.loft_deg is None or not trial.loft_is_measured:
        return f"{said}, not measured"
    bend = trial.loft_deg - stamped
    if bend == 0:
        return f"{said}, and so measured"
    way = "weak" if bend > 0 else "strong"
    # An own club drifts in years of play; a trial head is where it was bent to.
    how = "bent" if trial.trial_head_id is not None else "measured"
    return f"{said}, {how} {figure(abs(bend))} {way}"


def _block(block: Block, unit: DistanceUnit) -> Document:
    return {
        "id": str(block.pk),
        "number": block.number,
        "words": str(block),
        **{name: getattr(block, name) for name in SITUATION},
        "target": _text(_distance(block.target_m, unit)) or "",
        "device_id": _text(block.device_id) or "",
        "shots": [_shot(shot, unit) for shot in block.shots.all()],
    }


def _shot(shot: Shot, unit: DistanceUnit) -> Document:
    return {
        "id": str(shot.pk),
        "number": shot.number,
        # The screen works out mean and spread: it is given more digits than it shows.
        "carry": _distance(shot.carry_m, unit, decimals=4),
        "side": _distance(shot.side_m, unit),
        "strike": shot.strike,
        "in_mean": shot.in_mean,
        "turf": shot.turf,
        "divot": shot.divot,
        "flight": shot.flight,
        "left_out": _left_out(shot),
        "is_warm_up": shot.is_warm_up,
    }


def _left_out(shot: Shot) -> str | None:
    exclusion = getattr(shot, "exclusion", None)
    return None if exclusion is None else str(exclusion.reason)


# --- comparisons --------------------------------------------------------------------------


def _hidden(comparisons: Sequence[Comparison]) -> Hidden:
    arms = [
        arm
        for comparison in comparisons
        if comparison.state in (ComparisonState.DRAWN, ComparisonState.RUNNING)
        and comparison.hiding != Comparison.Hiding.OPEN
        for arm in comparison.arms.all()
    ]
    return Hidden(
        codes={arm.trial_id: arm.code for arm in arms},
        names=frozenset(arm.trial.head_name for arm in arms),
        head_ids=frozenset(arm.trial.trial_head_id for arm in arms if arm.trial.trial_head_id),
        club_ids=frozenset(arm.trial.club_id for arm in arms if arm.trial.club_id),
    )


def _comparison(comparison: Comparison) -> Document:
    is_told = (
        comparison.state == ComparisonState.REVEALED or comparison.hiding == Comparison.Hiding.OPEN
    )
    ratings: dict[UUID, dict[str, int]] = {}
    for rating in sorted(comparison.ratings.all(), key=lambda one: one.sequence):
        ratings.setdefault(rating.trial_id, {})[rating.about] = rating.score
    return {
        "id": str(comparison.pk),
        "state": comparison.state,
        "slot": comparison.slot,
        "order": comparison.order,
        "hiding": comparison.hiding,
        "arms": [
            {
                "code": arm.code,
                "ratings": ratings.get(arm.trial_id, {}),
                **(
                    {"trial_id": str(arm.trial_id), "head_name": arm.trial.head_name}
                    if is_told
                    else {}
                ),
            }
            for arm in sorted(comparison.arms.all(), key=lambda one: one.code)
        ],
    }


# --- equipment, choices, clock --------------------------------------------------------------


def _equipment(
    visit: Visit, hidden: Hidden, actor: Actor, at: datetime, length_unit: LengthUnit
) -> Document:
    zone, here = visit.location.zone, {"location_id": visit.location_id}
    heads = [
        one
        for one in heads_for(actor).filter(**here)
        if one.pk not in hidden.head_ids
        and f"{one.head.maker} {one.head.model}" not in hidden.names
    ]
    return {
        "heads": [
            {
                "id": str(one.pk),
                "mark": one.mark,
                "name": f"{one.head.maker} {one.head.model}",
                "loft_words": played_loft_words(
                    _measured(one.measured_loft_deg, one.head.stamped_loft_deg),
                    one.head.stamped_loft_deg,
                    one.measured_loft_deg is not None,
                ),
                "bounce_words": f"{figure(one.head.bounce_deg)}° as stamped",
                "sole_words": head_sole_words(one.head),
                "hand": one.head.hand,
                "withdrawn": one.withdrawn_at is not None,
                "withdrawn_words": withdrawn_words(one, zone, at),
            }
            for one in heads
        ],
        "shafts": [
            {
                "id": str(one.pk),
                "mark": one.mark,
                "name": f"{one.shaft.maker} {one.shaft.model}, {one.shaft.flex}, "
                f"{show_length(one.playing_length_mm, length_unit)}",
                "grip_name": str(one.grip),
                "withdrawn": one.withdrawn_at is not None,
                "withdrawn_words": withdrawn_words(one, zone, at),
            }
            for one in shafts_for(actor).filter(**here)
        ],
        "adapters": [
            {
                "id": str(one.pk),
                "mark": one.mark,
                "name": show_mass(one.mass_g),
                "inspect_by": one.inspect_by.isoformat() if one.inspect_by else None,
                "withdrawn": one.withdrawn_at is not None,
                "withdrawn_words": withdrawn_words(one, zone, at),
            }
            for one in adapters_for(actor).filter(**here)
        ],
        "devices": [
            {
                "id": str(one.pk),
                "name": one.name,
                "measures_spin": one.measures_spin,
                "tracks_flight": one.tracks_flight,
            }
            for one in devices_for(actor).filter(**here)
        ],
    }


def _choices() -> dict[str, list[list[str]]]:
    lists = {
        name: [[str(value), str(label)] for value, label in words.choices]
        for name, words in CHOICES.items()
    }
    lists["making"] = [[making, making] for making in MAKING_LIMITS]
    lists["changed"] = [[word, word.capitalize()] for word in CHANGES]
    return lists


def _clock(
    visit: Visit, trials: Iterable[Trial], steps: Iterable[Document], at: datetime
) -> Document:
    """The quiet clock: minutes left of the appointment, balls hit, what has not been started."""
    balls = [
        shot
        for trial in trials
        for block in trial.blocks.all()
        for shot in block.shots.all()
        if _left_out(shot) not in NOT_BALLS
    ]
    gone = None if visit.opened_at is None else int((at - visit.opened_at).total_seconds() // 60)
    return {
        "balls": len(balls),
        "warm_up_balls": sum(1 for shot in balls if shot.is_warm_up),
        "minutes": None if gone is None else max(0, visit.minutes - gone),
        "not_started": [
            step["label"]
            for step in steps
            if step["state"] == "open"
            and step["key"] not in ("finish", "spec")
            and not _is_begun(step["key"], trials)
        ],
    }


def _is_begun(step: str, trials: Iterable[Trial]) -> bool:
    """A step that is not done but has a club in the hand."""
    purposes = {"baseline": ("baseline",), "trials": ("candidate", "own")}.get(step, ())
    return any(trial.state == TrialState.OPEN and trial.purpose in purposes for trial in trials)


def _measured(measured: Any, otherwise: Any) -> Any:
    return otherwise if measured is None else measured


def _text(value: Any) -> str | None:
    """A figure or an id as text; None stays None."""
    if value is None:
        return None
    return str(value) if isinstance(value, UUID) else figure(value)


def _distance(distance_m: float | None, unit: DistanceUnit, decimals: int = 1) -> Any:
    if distance_m is None:
        return None
    rounded = round(distance_in(distance_m, unit), decimals)
    return int(rounded) if rounded == int(rounded) else rounded


def _length(length_mm: Any, unit: LengthUnit) -> str:
    if length_mm is None:
        return ""
    return show_inches(length_mm) if unit == "in" else show_length(length_mm, unit)


def _swing_weight(points: Any) -> str:
    return "" if points is None else show_swing_weight(points)
