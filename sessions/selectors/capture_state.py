"""The one document from which the capture pages are drawn: what was recorded, and what may be.

Its number of queries does not grow with the shots. While a hidden comparison runs, nothing in it
names what is behind a number: not the trial, not the shelf of trial heads, not the bag.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import Any, cast

from fitshop.actor import Actor
from fitshop.selectors import the_shop
from sessions.flow import TrialState
from sessions.maths.bending import MAKING_LIMITS
from sessions.maths.shown import (
    show_length,
    show_mass,
)
from sessions.maths.unit_factors import DistanceUnit
from sessions.models import (
    Club,
    OtherClubs,
    Rating,
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
from sessions.rules.wording import figure
from sessions.selectors.capture_bag import bag_document, interview_document, plan_document
from sessions.selectors.capture_trials import (
    Hidden,
    comparison_document,
    hidden_in,
    left_out_why,
    trial_document,
    trials_of,
)
from sessions.selectors.capture_words import (
    Document,
)
from sessions.selectors.catalogue import head_sole
from sessions.selectors.equipment import (
    CHANGES,
    LengthUnit,
    adapters_for,
    devices_for,
    heads_for,
    played_loft_words,
    shafts_for,
    withdrawn_words,
)
from sessions.selectors.steps import Step, visit_steps
from sessions.selectors.visits import air_words

NOT_BALLS = (LeftOut.MISTYPED, LeftOut.UNDONE)
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


def capture_state(visit: Visit, *, actor: Actor, at: datetime) -> Document:
    """The document of `GET /api/v1/visits/<id>/state`. `visit` comes with player, place and bay.

    Carries and sides are in the player's unit, sideways positive to the player's right. The
    steps come without addresses: the door knows those.
    """
    player = visit.player
    unit = cast("DistanceUnit", player.carry_unit)
    shop = the_shop()
    length_unit: LengthUnit = "mm" if shop is not None and shop.length_unit == "mm" else "in"
    trials = trials_of(visit)
    comparisons = list(
        visit.comparisons.prefetch_related("arms__trial", "ratings").order_by("sequence")
    )
    hidden = hidden_in(comparisons)
    plan = plan_document(visit)
    steps = [
        {"key": step.key, "label": step.label, "state": _step_state(step, trials)}
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
        "interview": interview_document(visit),
        "bag": bag_document(visit, hidden, unit, length_unit),
        "plan": plan,
        "air": air_words(visit),
        "trials": [trial_document(trial, hidden, unit, length_unit) for trial in trials],
        "equipment": _equipment(visit, hidden, actor, at, length_unit),
        "comparisons": [comparison_document(one) for one in comparisons],
        "choices": _choices(),
        "clock": _clock(visit, trials, steps, at),
    }


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
                "sole_words": head_sole(one.head),
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
        if left_out_why(shot) not in NOT_BALLS
    ]
    gone = None if visit.opened_at is None else int((at - visit.opened_at).total_seconds() // 60)
    return {
        "balls": len(balls),
        "warm_up_balls": sum(1 for shot in balls if shot.is_warm_up),
        "minutes": None if gone is None else max(0, visit.minutes - gone),
        "not_started": [
            step["label"]
            for step in steps
            if step["state"] == "todo" and step["key"] not in ("finish", "spec")
        ],
    }


def _step_state(step: Step, trials: Iterable[Trial]) -> str:
    """Say "done", "open" (begun) or "todo": a step nobody touched never looks half done."""
    if step.is_done:
        return "done"
    return "open" if _is_begun(step.key, trials) else "todo"


def _is_begun(step: str, trials: Iterable[Trial]) -> bool:
    """A step that is not done but has a club in the hand."""
    purposes = {"baseline": ("baseline",), "trials": ("candidate", "own")}.get(step, ())
    return any(trial.state == TrialState.OPEN and trial.purpose in purposes for trial in trials)


def _measured(measured: Any, otherwise: Any) -> Any:
    return otherwise if measured is None else measured
