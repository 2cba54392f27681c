"""Trials, shots and comparisons for the capture pages, and what a hidden order keeps back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from uuid import UUID

from django.db.models import Prefetch

from sessions.flow import ComparisonState
from sessions.maths.hidden_order import meetings, orders_used, square_orders
from sessions.maths.shown import (
    show_mass,
)
from sessions.maths.unit_factors import DistanceUnit
from sessions.models import (
    Block,
    Comparison,
    Rating,
    Shot,
    Trial,
    Visit,
)
from sessions.rules.blindness import spoiled_words
from sessions.rules.wording import figure, is_bend
from sessions.selectors.capture_words import (
    Document,
    as_text,
    distance_shown,
    length_shown,
    swing_weight_shown,
)
from sessions.selectors.comparisons import (
    held_of,
    rated_document,
    ratings_by_trial,
    reveal_rows,
    spoilers_of,
)
from sessions.selectors.equipment import LengthUnit, Played
from sessions.selectors.likeness import bounce_of
from sessions.selectors.visit_rows import left_out_rows

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
    "mark",
)


@dataclass(frozen=True, slots=True)
class Hidden:
    """What a running hidden comparison keeps from every screen, and the numbers it goes by."""

    codes: dict[UUID, int]
    names: frozenset[str]
    head_ids: frozenset[UUID]
    club_ids: frozenset[UUID]
    # The server's sequence at the draw: what was hit before it would tell a hidden club.
    drawn_at: int

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


def trials_of(visit: Visit) -> list[Trial]:
    """The trials with blocks, shots and ratings, in a fixed number of queries."""
    shots = Shot.objects.prefetch_related(left_out_rows()).order_by("sequence")
    blocks = Block.objects.select_related("device").order_by("sequence")
    trials = visit.trials.standing().select_related("club", "trial_head__head", "trial_shaft")
    return list(
        trials.order_by("sequence").prefetch_related(
            Prefetch("blocks", blocks.prefetch_related(Prefetch("shots", shots))),
            Prefetch("ratings", Rating.objects.standing().order_by("sequence")),
        )
    )


def trial_document(
    trial: Trial, hidden: Hidden, unit: DistanceUnit, length_unit: LengthUnit
) -> Document:
    """One trial; without its words where it is hidden."""
    is_hidden = hidden.hides(trial)
    words = dict.fromkeys(TRIAL_WORDS, "") if is_hidden else _words(trial, length_unit)
    ratings = [one for one in trial.ratings.all() if one.comparison_id is None]
    angles = {"loft": trial.loft_deg, "lie": trial.lie_deg, "bounce": trial.bounce_deg}
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
            f"{part}_id": None if is_hidden else as_text(getattr(trial, f"{part}_id"))
            for part in ("club", "trial_head", "trial_shaft", "adapter")
        },
        "angles": {name: None if is_hidden else as_text(deg) for name, deg in angles.items()},
        "ratings": {} if is_hidden else {one.about: one.score for one in ratings},
        "rated": [] if is_hidden else [rated_document(one, unit) for one in ratings],
        "blocks": [
            _block(block, unit)
            for block in trial.blocks.all()
            if not is_hidden or block.sequence > hidden.drawn_at
        ],
    }


def _words(trial: Trial, length_unit: LengthUnit) -> dict[str, str]:
    # What was added up from the parts is no reading, and would look like one.
    mass = trial.mass_g if trial.mass_is_measured else None
    return {
        **compared_words(trial, length_unit),
        "head_name": trial.head_name,
        "stamped_words": _stamped_words(trial),
        "swing_weight_words": swing_weight_shown(trial.swing_weight_points),
        "mass_words": "" if mass is None else show_mass(mass),
        "grooves": trial.grooves,
        "mark": "" if trial.trial_head is None else trial.trial_head.mark,
    }


def compared_words(club: Trial | Played, length_unit: LengthUnit) -> dict[str, str]:
    """What two clubs are held against each other in, "" where it isn't known."""
    return {
        "loft_words": "" if club.loft_deg is None else f"{figure(club.loft_deg)}°",
        "bounce_words": bounce_of(club),
        "sole_words": club.sole_words,
        "shaft_name": club.shaft_name,
        "length_words": length_shown(club.length_mm, length_unit),
        "lie_words": "" if club.lie_deg is None else f"{figure(club.lie_deg)}°",
        "grip_name": club.grip_name,
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
    # An own club drifts in years of play; a trial head is where it was bent to, or made.
    is_bent = trial.trial_head_id is not None and is_bend(trial.loft_deg, stamped)
    how = "bent" if is_bent else "measured"
    return f"{said}, {how} {figure(abs(bend))} {way}"


def _block(block: Block, unit: DistanceUnit) -> Document:
    return {
        "id": str(block.pk),
        "number": block.number,
        "words": str(block),
        **situation_document(block, unit),
        "shots": [_shot(shot, unit) for shot in block.shots.all()],
    }


def situation_document(block: Block, unit: DistanceUnit) -> Document:
    """What stays the same from ball to ball; the target in the player's unit."""
    return {
        **{name: getattr(block, name) for name in SITUATION},
        "target": as_text(distance_shown(block.target_m, unit)) or "",
        "device_id": as_text(block.device_id) or "",
    }


def _shot(shot: Shot, unit: DistanceUnit) -> Document:
    return {
        "id": str(shot.pk),
        "number": shot.number,
        # The screen works out mean and spread: it is given more digits than it shows.
        "carry": distance_shown(shot.carry_m, unit, decimals=4),
        "side": distance_shown(shot.side_m, unit),
        "strike": shot.strike,
        "in_mean": shot.in_mean,
        "turf": shot.turf,
        "divot": shot.divot,
        "flight": shot.flight,
        "left_out": left_out_why(shot),
        "left_out_id": None if shot.exclusion is None else str(shot.exclusion.pk),
        "is_warm_up": shot.is_warm_up,
    }


def left_out_why(shot: Shot) -> str | None:
    """The reason for which a shot counts in nothing, or None."""
    return None if shot.exclusion is None else str(shot.exclusion.reason)


def hidden_in(comparisons: Sequence[Comparison]) -> Hidden:
    """What the running hidden comparisons among these keep back."""
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
        drawn_at=max((arm.comparison.sequence for arm in arms), default=0),
    )


def comparison_document(
    comparison: Comparison,
    earlier: Sequence[Comparison],
    trials: Mapping[UUID, Trial],
    hidden: Hidden,
    unit: DistanceUnit,
    length_unit: LengthUnit,
) -> Document:
    """One comparison; which club is behind a number only once it is revealed, or open.

    `earlier` are the visit's comparisons before it, for how far the balance goes; `trials` those of
    the visit with their balls. Row and seed are not told: with them the order could be worked out.
    While another runs hidden, an earlier one would name its clubs, and is silent too.
    """
    is_open = comparison.hiding == Comparison.Hiding.OPEN
    is_told = not hidden.is_running and (is_open or comparison.state == ComparisonState.REVEALED)
    arms = sorted(comparison.arms.all(), key=lambda one: one.code)
    ratings = ratings_by_trial(comparison)
    played = [trials.get(arm.trial_id, arm.trial) for arm in arms]
    spoiled = spoilers_of(played, covered=comparison.covered)
    told = {"chosen": comparison.chosen, "held": held_of(played)} if is_told else {}
    return {
        "id": str(comparison.pk),
        "state": comparison.state,
        "slot": comparison.slot,
        "order": comparison.order,
        "hiding": comparison.hiding,
        "spoiled": "" if is_open else spoiled_words(spoiled),
        "kind": comparison.kind,
        "balance": balance_words([*earlier, comparison]),
        **told,
        "arms": [
            {
                "code": arm.code,
                "rated": [rated_document(one, unit) for one in ratings.get(arm.trial_id, [])],
                **(_arm_told(comparison, trial, ratings, unit, length_unit) if is_told else {}),
            }
            for arm, trial in zip(arms, played, strict=True)
        ],
    }


def _arm_told(
    comparison: Comparison,
    trial: Trial,
    ratings: Mapping[UUID, Sequence[Rating]],
    unit: DistanceUnit,
    length_unit: LengthUnit,
) -> Document:
    """What was behind a number: the club in words, and what was hit and said under it."""
    return {
        "trial_id": str(trial.pk),
        "number": trial.number,
        "hand": "" if trial.trial_head is None else trial.trial_head.head.get_hand_display(),
        **_words(trial, length_unit),
        "rows": reveal_rows(comparison, trial, ratings.get(trial.pk, []), unit),
    }


def balance_words(comparisons: Sequence[Comparison]) -> str:
    """How far balance goes with the last of these; "" where its order stands in no design."""
    last = comparisons[-1]
    if last.row is None:
        return ""
    is_pairs = last.kind == Comparison.Kind.HEAD_TO_HEAD
    told = orders_used(
        meetings(last.chosen) if is_pairs else square_orders(last.chosen),
        [
            one.trials_in_turn()
            for one in comparisons
            if one.kind == last.kind and one.state != ComparisonState.ABANDONED
        ],
    )
    orders = "meetings" if is_pairs else "orders"
    if told.is_balanced:
        return f"All {told.of} {orders} used: balanced."
    again = " again" if told.passes else ""
    return f"{told.used} of {told.of} {orders} used{again}; balanced when all are."
