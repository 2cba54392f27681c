"""What of the bench's work still holds for a club that a revision has changed."""

from __future__ import annotations

from datetime import datetime
from uuid import uuid4

from orders.flow import ClubState
from orders.models import BenchStep, OrderClub, Reading
from orders.models.bench import Measure, Stage, Step

RECEIVED = ("as_received_loft_deg", "as_received_lie_deg", "as_received_mass_g")
# What was read of the head as built; the rest must be read again.
BUILT = {
    Measure.LOFT: "as_built_loft_deg",
    Measure.LIE: "as_built_lie_deg",
    Measure.BOUNCE: "as_built_bounce_deg",
}
OF_THE_HEAD = {Step.PICKED, Step.BARE_HEAD, Step.BENT_BARE, Step.READ_BENT, Step.HOSEL}
OF_THE_GLUE = {Step.DRY_WEIGHT, Step.EPOXY, Step.CURED}


def work_that_holds(old: OrderClub, new: OrderClub, *, at: datetime) -> None:
    """Take over the steps and readings of the head and the shaft that stay.

    Another head or shaft is counted on, so that it begins without the facts of the one before.
    Call it in the transaction that makes the revision. Writes OrderClub, BenchStep, Reading.
    """
    same_head = (old.source, old.hand, old.head_name) == (new.source, new.hand, new.head_name)
    same_shaft = old.shaft_name == new.shaft_name
    new.head_number = old.head_number + (not same_head)
    new.shaft_number = old.shaft_number + (not same_shaft)
    holding = _steps_that_hold(old, new, same_head=same_head, same_shaft=same_shaft)
    steps = [step for step in old.steps.all() if step.step in holding]
    if steps:
        new.carried_at = at
    if same_head:
        for name in (*RECEIVED, *BUILT.values()):
            setattr(new, name, getattr(old, name))
    _state_taken_over(old, new, {step.step for step in steps})
    new.save()
    for step in steps:
        step.pk, step.club = uuid4(), new
    BenchStep.objects.bulk_create(steps)
    readings = [each for each in old.readings.all() if same_head and _is_of_the_head(each)]
    for reading in readings:
        reading.pk, reading.club = uuid4(), new
    Reading.objects.bulk_create(readings)


def _steps_that_hold(
    old: OrderClub, new: OrderClub, *, same_head: bool, same_shaft: bool
) -> set[Step]:
    holding: set[Step] = set()
    if same_head:
        holding |= OF_THE_HEAD
        if old.stamping.strip() == new.stamping.strip():
            holding.add(Step.STAMPED)
    if same_shaft:
        holding.add(Step.TIP)
        if old.tip_trim_mm == new.tip_trim_mm:
            holding.add(Step.TIP_TRIM)
        if (old.target_length_mm, old.grip_cap_mm) == (new.target_length_mm, new.grip_cap_mm):
            holding.add(Step.BUTT_CUT)
    if same_head and same_shaft:
        # The bend of the built club is asked for again by what is left of it.
        holding.add(Step.BENT_BUILT)
        if any(step.step == Step.EPOXY for step in old.steps.all()):
            holding |= OF_THE_GLUE
    return holding


def _state_taken_over(old: OrderClub, new: OrderClub, steps: set[str]) -> None:
    if Step.EPOXY in steps:
        new.cure_until, new.reworked_at = old.cure_until, old.reworked_at
        is_back = old.reworked_at is not None
        new.state = ClubState.REWORK if is_back else ClubState.TO_BUILD
        if old.state == ClubState.CURING:
            new.state = ClubState.CURING
    elif Step.PICKED in steps:
        new.state = ClubState.TO_BUILD


def _is_of_the_head(reading: Reading) -> bool:
    return reading.stage in (Stage.AS_RECEIVED, Stage.BENT) or reading.measure in BUILT
