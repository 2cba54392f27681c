"""What holds a club's work before the glue: a figure past its limit that nobody accepted yet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from fitshop.setting import Value
from orders.models import Concession, OrderClub, Reading
from orders.models.bench import Measure, Stage, Step
from orders.rules.dry_weight import DryReading, WeightWorkedOut, dry_weight, weight_worked_out
from orders.rules.head_mass import HeadMassAnswer, head_mass_answer
from orders.rules.tolerances import reading_verdict
from orders.selectors.club_balance import dry_parts_of
from orders.selectors.figures import TOLERANCES, is_glued, standing_readings
from sessions.maths.errors import MathsError
from sessions.models.words import ClubSource
from sessions.rules.dry_weight import MM_PER_INCH, USUAL_BORE_TO_GROUND_MM, epoxy_points
from sessions.rules.facts import limits_from


@dataclass(frozen=True, slots=True)
class Hold:
    """A figure past its limit: the work waits until a part is changed or somebody accepts it."""

    stage: Stage
    measure: Measure
    target: Decimal
    value: Decimal
    concession: Concession | None
    wants_second_reading: bool

    @property
    def is_open(self) -> bool:
        return self.concession is None


@dataclass(frozen=True, slots=True)
class Weighing:
    """The dry scale's reading of one club, the weight for it, and what was put in.

    `glued_points` is what the club comes to: with what was put in, or with what is to be.
    """

    worked_out: WeightWorkedOut
    added_g: Decimal | None
    glued_points: Decimal
    hold: Hold | None

    @property
    def is_off(self) -> bool:
        """True where what was put in misses a target that another weight reaches."""
        return (
            self.added_g is not None
            and self.worked_out.is_reachable
            and not self.worked_out.is_in(self.glued_points)
        )


def dry_figures(club: OrderClub) -> tuple[list[Decimal], Decimal]:
    """What the dry scale read [points above D0], and the scale's own repeatability [points].

    A step ticked before readings of its own were kept has its one figure written in it.
    """
    read = standing_readings(club, Stage.DRY, Measure.SWING_WEIGHT)
    if read:
        return [each.value for each in read], scale_of(read)
    typed = step_value(club, "points")
    return ([] if typed is None else [typed]), Decimal(0)


def scale_of(readings: list[Reading]) -> Decimal:
    """The repeatability of the worst scale among them; nought where none is named."""
    known = [each.gauge.repeatability for each in readings if each.gauge is not None]
    return max(known, default=Decimal(0))


def weighing_of(club: OrderClub, settings: Mapping[str, Value]) -> Weighing | None:
    """The weight worked out from what the dry scale read; None where nothing is read or asked."""
    figures, scale = dry_figures(club)
    target = club.target_swing_weight_points
    if not figures or target is None or not is_glued(club):
        return None
    limits, parts = limits_from(settings), dry_parts_of(club)
    to_ground = parts.bore_to_ground_mm
    place = club.target_length_mm - (USUAL_BORE_TO_GROUND_MM if to_ground is None else to_ground)
    reading = DryReading(
        points=sum(figures, Decimal(0)) / len(figures),
        readings=len(figures),
        scale_points=scale,
        epoxy_points=epoxy_points(parts, limits.fixings()),
        target_points=target,
        allowed_points=Decimal(str(settings[TOLERANCES[Measure.SWING_WEIGHT]])),
        at_in=float(place) / MM_PER_INCH,
        most_added_g=limits.most_added_g,
    )
    try:
        found = weight_worked_out(reading)
    except MathsError:
        # No club: its hosel would stand above the scale's fulcrum.
        return None
    added = step_value(club, "added_g")
    glued = found.glued_points if added is None else found.glued_with(added)
    return Weighing(found, added, glued, _dry_hold(club, found, glued))


def _dry_hold(club: OrderClub, found: WeightWorkedOut, glued: Decimal) -> Hold | None:
    if found.is_reachable:
        return None
    return Hold(
        stage=Stage.DRY,
        measure=Measure.SWING_WEIGHT,
        target=found.reading.target_points,
        value=glued,
        concession=accepted_at(club, Stage.DRY, Measure.SWING_WEIGHT, glued),
        wants_second_reading=found.wants_second_reading,
    )


def accepted_at(
    club: OrderClub, stage: Stage, measure: Measure, value: Decimal
) -> Concession | None:
    """Who accepted this figure at this very value, the last word."""
    exact = value.quantize(Decimal("0.0001"))
    accepted = [
        each
        for each in club.concessions.all()
        if each.stage == stage and each.measure == measure and each.accepted_value == exact
    ]
    return accepted[-1] if accepted else None


@dataclass(frozen=True, slots=True)
class HeadOff:
    """A bare head past the tolerance of its stated mass, and what to do with it."""

    off_g: Decimal
    tolerance_g: Decimal
    answer: HeadMassAnswer
    hold: Hold


def head_off_of(club: OrderClub, settings: Mapping[str, Value]) -> HeadOff | None:
    """A new head off its stated mass; None if it is in, unread, or nobody stated a mass.

    The player's own head is built with as it is: its mass is told, and decides nothing.
    """
    read = standing_readings(club, Stage.AS_RECEIVED, Measure.HEAD_MASS)
    stated = club.head_mass_g
    if not read or stated is None or club.source != ClubSource.NEW:
        return None
    tolerance = Decimal(str(settings[TOLERANCES[Measure.HEAD_MASS]]))
    verdict = reading_verdict(
        [each.value for each in read],
        target=stated,
        tolerance=tolerance,
        repeatability=scale_of(read),
    )
    if verdict.is_in or verdict.mean is None or verdict.off is None:
        return None
    answer = head_mass_answer(
        verdict.off,
        send_back_g=Decimal(str(settings["tolerance.head_send_back_g"])),
        is_swing_weight_reachable=_is_foretold_in_reach(club, settings),
    )
    accepted = accepted_at(club, Stage.AS_RECEIVED, Measure.HEAD_MASS, verdict.mean)
    hold = Hold(
        stage=Stage.AS_RECEIVED,
        measure=Measure.HEAD_MASS,
        target=stated,
        value=verdict.mean,
        concession=accepted,
        wants_second_reading=verdict.wants_second_reading,
    )
    return HeadOff(verdict.off, tolerance, answer, hold)


def _is_foretold_in_reach(club: OrderClub, settings: Mapping[str, Value]) -> bool:
    """True unless the parts, the head as weighed, say that the swing weight can't be reached."""
    limits, target = limits_from(settings), club.target_swing_weight_points
    found = dry_weight(
        dry_parts_of(club),
        limits.fixings(),
        target_points=target,
        most_added_g=limits.most_added_g,
    )
    if target is None or found is None or found.added is None or found.added.is_allowed:
        return True
    allowed = Decimal(str(settings[TOLERANCES[Measure.SWING_WEIGHT]]))
    return bool(abs(Decimal(repr(found.added.reached_points)) - target) <= allowed)


def holds_of(club: OrderClub, settings: Mapping[str, Value]) -> dict[tuple[str, str], Hold]:
    """What holds this club before the glue, accepted or not, by its stage and measure."""
    head, weighing = head_off_of(club, settings), weighing_of(club, settings)
    found = (
        head.hold if head is not None else None,
        weighing.hold if weighing is not None else None,
    )
    return {(hold.stage, hold.measure): hold for hold in found if hold is not None}


def step_value(club: OrderClub, key: str) -> Decimal | None:
    step = next((row for row in club.steps.all() if row.step == Step.DRY_WEIGHT), None)
    typed = None if step is None else step.values.get(key)
    return None if typed in (None, "") else Decimal(typed)


def accepted_words(concession: Concession) -> str:
    """What was accepted: `loft`, `swing weight before the glue`."""
    measure = concession.get_measure_display()
    where = {Stage.DRY: " before the glue", Stage.AS_RECEIVED: " as received"}
    return f"{measure}{where.get(Stage(concession.stage), '')}"
