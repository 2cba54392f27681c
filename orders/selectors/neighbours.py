"""The clubs of a set side by side: their steps as they stand, and who accepted one that is off.

An own club that stays counts with its measured loft; of one that nobody measured nothing is said.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from fitshop.setting import Value
from orders.models import OrderClub, OrderRevision, SetConcession
from orders.models.bench import Measure, Stage, Step
from orders.rules.neighbours import (
    LENGTH_STEP,
    LOFT_STEP,
    Neighbour,
    StepJudged,
    steps_judged,
    still_accepted,
)
from orders.selectors.figures import bend_now, standing_readings, standing_steps, work_of
from sessions.maths.shown import show_degrees, show_length
from sessions.maths.unit_factors import MM_PER_INCH
from sessions.models import SpecClub
from sessions.models.words import ClubSource
from sessions.rules.wording import figure

Unit = Literal["in", "mm"]
RULES = {Measure.LOFT: LOFT_STEP, Measure.LENGTH: LENGTH_STEP}
TOLERANCES = {
    Measure.LOFT: "tolerance.loft_step_deg",
    Measure.LENGTH: "tolerance.length_step_mm",
}
BENDS = {Step.BENT_BARE, Step.BENT_BUILT}


@dataclass(frozen=True, slots=True)
class StepSeen:
    """One step with the names of its clubs, and the acceptance that holds for it."""

    measure: Measure
    names: tuple[str, str]
    judged: StepJudged
    concession: SetConcession | None

    @property
    def is_open(self) -> bool:
        """True where it stops the check: out, and nobody stood for it."""
        return self.judged.is_out and self.concession is None

    def shown(self, step: Decimal, unit: Unit) -> str:
        """A step as people say it: `4°`, `1/4 in shorter`."""
        if self.measure != Measure.LENGTH:
            return f"{show_degrees(step)}°"
        if step == 0:
            return "none"
        return f"{show_length(abs(step), unit)} {'longer' if step > 0 else 'shorter'}"

    def allowed(self, unit: Unit) -> str:
        """How far off is still in, either way."""
        tolerance = self.judged.tolerance
        if self.measure != Measure.LENGTH:
            return f"{figure(tolerance)}°"
        return f"{tolerance / MM_PER_INCH:.3f} in" if unit == "in" else f"{tolerance:.1f} mm"

    def sentence(self, unit: Unit) -> str:
        """`Loft from 1 Gap to 2 Sand: the step is 3°, planned 4°.`"""
        above, below = (
            f"{slot} {name}" for slot, name in zip(self.judged.slots, self.names, strict=True)
        )
        came, planned = self.shown(self.judged.came, unit), self.shown(self.judged.planned, unit)
        return (
            f"{self.measure.label.capitalize()} from {above} to {below}: the step "
            f"{'will be' if self.judged.is_foreseen else 'is'} {came}, planned {planned}."
        )


def steps_of(revision: OrderRevision, settings: Mapping[str, Value]) -> list[StepSeen]:
    """Every step of the set that can be judged, lofts first."""
    clubs = list(revision.clubs.prefetch_related("steps", "readings__gauge", "concessions"))
    kept = list(revision.spec.clubs.filter(source=ClubSource.OWN_KEPT))
    accepted = list(revision.set_concessions.all())
    names = {club.slot: club.name for club in clubs} | {club.slot: club.name for club in kept}
    built = {club.slot for club in clubs}
    seen = []
    for measure, neighbours in (
        (Measure.LOFT, _lofts(clubs, kept, settings)),
        (Measure.LENGTH, _lengths(clubs)),
    ):
        tolerance = Decimal(str(settings[TOLERANCES[measure]]))
        for step in steps_judged(RULES[measure], neighbours, tolerance=tolerance):
            # Of two own clubs that stay as they are nobody at the bench can change the step.
            if built & set(step.slots):
                above, below = step.slots
                conceded = _accepted(accepted, measure, step)
                seen.append(StepSeen(measure, (names[above], names[below]), step, conceded))
    return seen


def open_steps(
    revision: OrderRevision, settings: Mapping[str, Value], *, slot: int | None = None
) -> list[StepSeen]:
    """The steps that are off and that nobody accepted; of one club, or of all."""
    return [
        step
        for step in steps_of(revision, settings)
        if step.is_open and (slot is None or slot in step.judged.slots)
    ]


def _lofts(
    clubs: Sequence[OrderClub], kept: Sequence[SpecClub], settings: Mapping[str, Value]
) -> list[Neighbour]:
    found = [_loft(club, settings) for club in clubs]
    for own in kept:
        planned = _first(own.target_loft_deg, own.as_received_loft_deg, own.stamped_loft_deg)
        if planned is not None:
            found.append(Neighbour(own.slot, planned, own.as_received_loft_deg))
    return sorted(found, key=lambda each: (each.planned, each.slot))


def _loft(club: OrderClub, settings: Mapping[str, Value]) -> Neighbour:
    if club.as_built_loft_deg is not None:
        doubt = _doubt(club, Measure.LOFT)
        return Neighbour(club.slot, club.target_loft_deg, club.as_built_loft_deg, doubt=doubt)
    foreseen = _loft_foreseen(club, settings)
    return Neighbour(club.slot, club.target_loft_deg, foreseen, is_foreseen=True)


def _loft_foreseen(club: OrderClub, settings: Mapping[str, Value]) -> Decimal:
    """Its target where it is still to be bent or read; else where the head stands."""
    bend = bend_now(club, settings)
    target = Decimal(club.target_loft_deg)
    if bend.loft_deg is None:
        return target
    to_come = set(work_of(club, settings).steps) - standing_steps(club, settings).keys()
    if BENDS & to_come and not bend.refusals:
        return target
    return target - bend.loft_deg


def _lengths(clubs: Sequence[OrderClub]) -> list[Neighbour]:
    """As built, by planned loft. Lengths that are meant by two methods have no step."""
    if len({club.length_method for club in clubs}) > 1:
        return []
    return [
        Neighbour(
            club.slot,
            club.target_length_mm,
            club.as_built_length_mm,
            doubt=_doubt(club, Measure.LENGTH),
        )
        for club in sorted(clubs, key=lambda each: (each.target_loft_deg, each.slot))
    ]


def _doubt(club: OrderClub, measure: Measure) -> Decimal:
    readings = standing_readings(club, Stage.AS_BUILT, measure)
    if len(readings) != 1 or readings[0].gauge is None:
        return Decimal(0)
    return readings[0].gauge.repeatability


def _accepted(
    accepted: Sequence[SetConcession], measure: Measure, step: StepJudged
) -> SetConcession | None:
    return next(
        (
            each
            for each in reversed(accepted)
            if each.measure == measure
            and (each.slot_above, each.slot_below) == step.slots
            and each.planned == step.planned
            and still_accepted(planned=each.planned, accepted=each.accepted_value, came=step.came)
        ),
        None,
    )


def step_player_words(step: StepSeen, unit: Unit) -> str:
    """What the player reads of a step that was accepted: never the shop's own reason."""
    conceded = step.concession
    assert conceded is not None
    return conceded.player_words or suggested_step_words(
        step, came=conceded.accepted_value, by=conceded.signed_by, unit=unit
    )


def suggested_step_words(step: StepSeen, *, came: Decimal, by: str, unit: Unit) -> str:
    """A plain sentence for the player, from the figures alone."""
    above, below = step.names
    return (
        f"The step in {step.measure.label} from {above} to {below} came out at "
        f"{step.shown(came, unit)} instead of {step.shown(step.judged.planned, unit)}; "
        f"{by} accepted it."
    )


def _first(*figures: Decimal | None) -> Decimal | None:
    return next((figure for figure in figures if figure is not None), None)
