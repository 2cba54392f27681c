"""The one document from which the capture pages are drawn: what was recorded, and what may be.

Its number of queries does not grow with the shots. While a hidden comparison runs, nothing in it
names what is behind a number: not the trial, not the shelf of trial heads, not the bag.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, cast
from uuid import UUID

from django.db.models import Prefetch

from fitshop.actor import Actor
from fitshop.selectors import settings_in_force, the_shop
from sessions.flow import TrialState
from sessions.maths.bending import MAKING_LIMITS
from sessions.maths.shown import (
    show_length,
    show_mass,
)
from sessions.maths.unit_factors import DistanceUnit
from sessions.models import (
    Adapter,
    Club,
    OtherClubs,
    Rating,
    Trial,
    TrialHead,
    TrialShaft,
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
from sessions.rules.wording import LEAST_BEND_DEG
from sessions.selectors.capture_bag import bag_document, interview_document, plan_document
from sessions.selectors.capture_clock import clock_document
from sessions.selectors.capture_now import (
    beside_now_document,
    evidence_in_the_bay,
    played_now_documents,
)
from sessions.selectors.capture_other_swing import other_swings
from sessions.selectors.capture_surroundings import surroundings_document
from sessions.selectors.capture_trials import (
    Hidden,
    comparison_document,
    hidden_in,
    trial_document,
    trials_of,
)
from sessions.selectors.capture_words import Document, as_text, length_shown
from sessions.selectors.catalogue import due_words, head_sole
from sessions.selectors.equipment import (
    CHANGES,
    Equipment,
    LengthUnit,
    adapters_for,
    devices_for,
    head_angles,
    head_words,
    heads_for,
    played_loft_words,
    shaft_words,
    shafts_for,
    stop_words,
    withdrawn_words,
)
from sessions.selectors.evidence import last_bag_entries
from sessions.selectors.next_club import next_trial_words
from sessions.selectors.plans import drift_limit
from sessions.selectors.steps import visit_steps
from sessions.selectors.visit_rows import VisitRows, current_plan
from sessions.selectors.visits import air_words

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
    shop, settings = the_shop(), settings_in_force()
    length_unit: LengthUnit = "mm" if shop is not None and shop.length_unit == "mm" else "in"
    trials = trials_of(visit)
    comparisons = list(
        visit.comparisons.prefetch_related(
            "arms__trial", Prefetch("ratings", Rating.objects.standing())
        ).order_by("sequence")
    )
    hidden = hidden_in(comparisons)
    rows = VisitRows(trials, last_bag_entries(visit), current_plan(visit), hidden.codes)
    evidence = evidence_in_the_bay(visit, settings, rows)
    # The club played now, or what differs from it, could tell a hidden club.
    told = None if hidden.is_running else evidence
    steps = visit_steps(visit)
    interview = interview_document(visit)
    shelf = _shelf(visit, actor)
    by_id = {trial.pk: trial for trial in trials}
    stops = stops_of(trials, hidden, shelf, visit.location.zone, at)
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
        "steps": [{"key": step.key, "label": step.label, "state": step.state} for step in steps],
        "interview": interview,
        "bag": bag_document(visit, rows.entries, hidden, unit, length_unit, drift_limit(settings)),
        "plan": plan_document(rows.plan),
        "air": air_words(visit),
        "trials": [
            {
                **trial_document(trial, hidden, unit, length_unit),
                "stops": stops.get(trial.pk, []),
                "beside_now": beside_now_document(trial, told, rows, length_unit),
            }
            for trial in trials
        ],
        "other_swings": other_swings(trials, hidden, settings),
        "surroundings": surroundings_document(trials, unit),
        "played_now": played_now_documents(told, rows, length_unit),
        # From here on two angles are not alike: the tablet counts as `likeness` does.
        "apart_from_deg": as_text(LEAST_BEND_DEG),
        "equipment": _equipment(
            visit, hidden, shelf, actor, at, length_unit, int(settings["equipment.check_days"])
        ),
        "comparisons": [
            comparison_document(one, comparisons[:place], by_id, hidden, unit, length_unit)
            for place, one in enumerate(comparisons)
        ],
        "choices": _choices(),
        "clock": clock_document(visit, trials, steps, interview["answers"], settings, at),
        "next_trial": next_trial_words(visit, trials, evidence, unit, settings),
    }


@dataclass(frozen=True, slots=True)
class Shelf:
    """The trial equipment of the visit's place, in use or not."""

    heads: tuple[TrialHead, ...]
    shafts: tuple[TrialShaft, ...]
    adapters: tuple[Adapter, ...]

    def withdrawn(self) -> dict[UUID, tuple[str, Equipment]]:
        """What may not be hit with, by its id, with the word for it."""
        parts = (("Head", self.heads), ("Shaft", self.shafts), ("Adapter", self.adapters))
        return {
            item.pk: (word, item)
            for word, items in parts
            for item in items
            if item.withdrawn_at is not None
        }


def _shelf(visit: Visit, actor: Actor) -> Shelf:
    here = {"location_id": visit.location_id}
    return Shelf(
        tuple(heads_for(actor).filter(**here)),
        tuple(shafts_for(actor).filter(**here)),
        tuple(adapters_for(actor).filter(**here)),
    )


def stops_of(
    trials: Iterable[Trial], hidden: Hidden, shelf: Shelf, zone: str, at: datetime
) -> dict[UUID, list[Document]]:
    """What has to come out of the bay now, by trial: the club in the hand, and those of a running
    comparison, which go from hand to hand. Neither mark nor reason of a hidden club is said.
    """
    withdrawn = shelf.withdrawn()
    found: dict[UUID, list[Document]] = {}
    for trial in trials:
        if trial.state != TrialState.OPEN and trial.pk not in hidden.codes:
            continue
        is_hidden = hidden.hides(trial)
        for part_id in (trial.trial_head_id, trial.trial_shaft_id, trial.adapter_id):
            if part_id not in withdrawn:
                continue
            word, item = withdrawn[part_id]
            found.setdefault(trial.pk, []).append(
                {
                    "what": word,
                    "mark": "" if is_hidden else item.mark,
                    "sentence": stop_words(item, zone, at, says_why=not is_hidden),
                }
            )
    return found


def _equipment(
    visit: Visit,
    hidden: Hidden,
    shelf: Shelf,
    actor: Actor,
    at: datetime,
    length_unit: LengthUnit,
    check_days: int,
) -> Document:
    zone, here = visit.location.zone, {"location_id": visit.location_id}
    today = at.astimezone(visit.location.zone_info).date()
    oldest = today - timedelta(days=check_days)
    heads = [
        one
        for one in shelf.heads
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
                "bounce_words": head_words(one)["bounce_words"],
                "sole_words": head_sole(one.head),
                "played": head_words(one),
                "angles": head_angles(one),
                "hand": one.head.hand,
                "due": due_words(one, oldest, today),
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
                "played": shaft_words(one, length_shown(one.playing_length_mm, length_unit)),
                "due": due_words(one, oldest, today),
                "withdrawn": one.withdrawn_at is not None,
                "withdrawn_words": withdrawn_words(one, zone, at),
            }
            for one in shelf.shafts
        ],
        "adapters": [
            {
                "id": str(one.pk),
                "mark": one.mark,
                "name": show_mass(one.mass_g),
                "inspect_by": one.inspect_by.isoformat() if one.inspect_by else None,
                "due": due_words(one, oldest, today),
                "withdrawn": one.withdrawn_at is not None,
                "withdrawn_words": withdrawn_words(one, zone, at),
            }
            for one in shelf.adapters
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


def _measured(measured: Any, otherwise: Any) -> Any:
    return otherwise if measured is None else measured
