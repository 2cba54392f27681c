"""What is known of one club at the bench, as the values that the rules judge."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from fitshop.actor import Actor
from fitshop.selectors import SettingsInForce, settings_in_force, the_shop
from fitshop.setting import Value
from orders.flow import ClubState
from orders.models import BenchStep, Concession, OrderClub, OrderRevision, Reading
from orders.models.bench import Measure, Stage, Step
from orders.rules.bench_steps import Tip, Work, standing
from orders.rules.grip_size import GripDiameters, GripOnButt, grip_diameters
from orders.rules.lengths import Missing
from orders.rules.tolerances import (
    BendToMake,
    HeadAsReceived,
    ReadingVerdict,
    Verdict,
    judged_bend_to_make,
    reading_verdict,
)
from orders.selectors.lengths import in_targets_method, turned_words
from orders.selectors.metal import (
    bend_facts,
    bends_at_bench,
    head_now,
    is_glued_now,
    is_read_as_built,
    is_read_since_bend,
)
from sessions.maths.bending import Bend
from sessions.maths.unit_factors import MM_PER_INCH
from sessions.models.words import ClubSource
from sessions.rules.facts import HeadLimits, MakerLimits, Making, SpecLimits, limits_from

MAKING_BY_WORDS = {making.label: making for making in Making}
TOLERANCES = {
    Measure.LOFT: "tolerance.loft_deg",
    Measure.LIE: "tolerance.lie_deg",
    Measure.LENGTH: "tolerance.length_mm",
    Measure.SWING_WEIGHT: "tolerance.swing_weight_points",
    Measure.TOTAL_MASS: "tolerance.total_mass_g",
    Measure.HEAD_MASS: "tolerance.head_mass_g",
    Measure.GRIP_DIAMETER: "tolerance.grip_diameter_mm",
}
UNITS = {
    Measure.LOFT: "degrees",
    Measure.LIE: "degrees",
    Measure.BOUNCE: "degrees",
    Measure.LENGTH: "mm",
    Measure.SWING_WEIGHT: "points",
    Measure.TOTAL_MASS: "g",
    Measure.HEAD_MASS: "g",
    Measure.GRIP_DIAMETER: "mm",
    Measure.SOLE_POINT: "mm",
}
_TIPS: dict[str, Tip] = {"taper": "taper", "parallel": "parallel"}
# Where the mean of a stage's readings is kept on the club.
COLUMNS = {
    (Stage.AS_RECEIVED, Measure.LOFT): ("as_received_loft_deg", "0.01"),
    (Stage.AS_RECEIVED, Measure.LIE): ("as_received_lie_deg", "0.01"),
    (Stage.AS_RECEIVED, Measure.HEAD_MASS): ("as_received_mass_g", "0.01"),
    (Stage.AS_RECEIVED, Measure.SOLE_POINT): ("as_received_sole_point_mm", "0.0001"),
    (Stage.AS_BUILT, Measure.LOFT): ("as_built_loft_deg", "0.01"),
    (Stage.AS_BUILT, Measure.LIE): ("as_built_lie_deg", "0.01"),
    (Stage.AS_BUILT, Measure.BOUNCE): ("as_built_bounce_deg", "0.01"),
    (Stage.AS_BUILT, Measure.LENGTH): ("as_built_length_mm", "0.0001"),
    (Stage.AS_BUILT, Measure.SWING_WEIGHT): ("as_built_swing_weight_points", "0.01"),
    (Stage.AS_BUILT, Measure.TOTAL_MASS): ("as_built_mass_g", "0.01"),
}
MEASURES = {
    Stage.AS_RECEIVED: (
        Measure.LOFT,
        Measure.LIE,
        Measure.HEAD_MASS,
        Measure.BOUNCE,
        Measure.SOLE_POINT,
    ),
    Stage.DRY: (Measure.SWING_WEIGHT,),
    Stage.BENT: (Measure.LOFT, Measure.LIE),
    Stage.AS_BUILT: (
        Measure.LOFT,
        Measure.LIE,
        Measure.LENGTH,
        Measure.SWING_WEIGHT,
        Measure.BOUNCE,
        Measure.TOTAL_MASS,
        Measure.GRIP_DIAMETER,
    ),
}


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure as built against its target, with its verdict and who accepted it if out."""

    measure: Measure
    target: Decimal
    tolerance: Decimal
    verdict: ReadingVerdict
    concession: Concession | None
    length_unit: str = "mm"
    # Lengths that were read by another ruler than the target's, in both.
    turned: tuple[str, ...] = ()

    @property
    def may_pass(self) -> bool:
        """True where the check may be signed over it: in, or accepted at this very figure."""
        return self.verdict.is_in or self.concession is not None

    @property
    def sentence(self) -> str:
        if self.length_unit == "in" and UNITS[self.measure] == "mm":
            # Thousandths, as a calliper and a sixteenth (0.063) want it.
            return self.verdict.sentence("in", in_one=MM_PER_INCH, places=3)
        return self.verdict.sentence(UNITS[self.measure])

    @property
    def is_out(self) -> bool:
        return self.verdict.verdict is Verdict.OUT

    @property
    def is_near(self) -> bool:
        """True for one reading too near the limit: read once more, and the mean decides."""
        return self.verdict.verdict is Verdict.MEASURE_TWICE

    @property
    def wants_second_reading(self) -> bool:
        """True where a second reading is needed before the check may pass it."""
        return self.concession is None and self.verdict.wants_second_reading


def settings_of(revision: OrderRevision) -> SettingsInForce:
    """The settings a revision was made under: a later change moves no tolerance on it."""
    return settings_in_force(revision.settings_version)


def work_of(club: OrderClub, settings: Mapping[str, Value]) -> Work:
    """What this club asks of the bench: a new club is always glued.

    The bends are those that are left. Of a head that was bent, or came back from its check,
    what is within tolerance is none.
    """
    made = frozenset(fact.step for fact in bend_facts(club))
    is_back = club.reworked_at is not None
    loft, lie = _bends_asked(club, settings, made)
    if made or (is_back and bend_left(club, settings) is not None):
        loft = _none_within(loft, settings, Measure.LOFT)
        lie = _none_within(lie, settings, Measure.LIE)
    return Work(
        is_glued=is_glued(club),
        is_gripped=club.source == ClubSource.NEW or club.grip_name != "",
        is_stamped=club.stamping.strip().lower() not in ("", "none"),
        tip=_TIPS.get(club.tip_kind, ""),
        tip_trim_mm=Decimal(club.tip_trim_mm),
        loft_bend_deg=loft,
        lie_bend_deg=lie,
        bare_bend_deg=Decimal(str(settings["build.bare_bend_deg"])),
        is_built=is_back or (bool(made or club.carried_at) and is_glued_now(club)),
        bent=made,
    )


def _bends_asked(
    club: OrderClub, settings: Mapping[str, Value], made: frozenset[str]
) -> tuple[Decimal | None, Decimal | None]:
    """(loft, lie) that are left; unknown after a bare bend until the head is read.

    What is read on the built club asks for a bend only once it came back, or was revised.
    """
    if Step.BENT_BARE in made and not is_glued_now(club) and not is_read_since_bend(club):
        return None, None
    is_back = club.reworked_at is not None or club.carried_at is not None
    if is_back or not made:
        bend = bend_now(club, settings) if is_back else bend_of(club, settings)
        return bend.loft_deg, bend.lie_deg
    loft, lie = head_now(club, as_built=False)
    return _difference(club.target_loft_deg, loft), _difference(club.target_lie_deg, lie)


def _difference(target: Decimal, now: Decimal | None) -> Decimal | None:
    return None if now is None else target - now


def left_to_bend(club: OrderClub, settings: Mapping[str, Value]) -> bool:
    """True where the head, as it was last read, is further off than is allowed."""
    left = bend_left(club, settings)
    return left is not None and bool(
        _none_within(left.loft_deg, settings, Measure.LOFT)
        or _none_within(left.lie_deg, settings, Measure.LIE)
    )


def is_glued(club: OrderClub) -> bool:
    return club.source == ClubSource.NEW or club.shaft_name != ""


def _none_within(
    bend: Decimal | None, settings: Mapping[str, Value], measure: Measure
) -> Decimal | None:
    tolerance = Decimal(str(settings[TOLERANCES[measure]]))
    return Decimal(0) if bend is not None and abs(bend) <= tolerance else bend


def standing_steps(club: OrderClub, settings: Mapping[str, Value]) -> dict[str, BenchStep]:
    """The steps that count, each with its row: not those that a rework asks for again."""
    done = {row.step: row for row in club.steps.all()}
    counted = standing({step: row.done_at for step, row in done.items()}, club.reworked_at)
    since = max((at for at in (club.reworked_at, club.carried_at) if at is not None), default=None)
    bent = done.get(Step.BENT_BUILT)
    was_before = bent is not None and since is not None and bent.done_at <= since
    if was_before and left_to_bend(club, settings):
        counted -= {Step.BENT_BUILT}
    if Step.BENT_BARE in counted and not is_glued_now(club):
        counted -= _bare_again(club, settings)
    return {step: row for step, row in done.items() if step in counted}


def is_glued_since_rework(club: OrderClub) -> bool:
    """True where its epoxy was mixed; not where a check has sent it back since."""
    mixed = next((row for row in club.steps.all() if row.step == Step.EPOXY), None)
    if mixed is None:
        return False
    return club.state != ClubState.REWORK or (
        club.reworked_at is not None and mixed.done_at > club.reworked_at
    )


def _bare_again(club: OrderClub, settings: Mapping[str, Value]) -> set[str]:
    """What doesn't count yet of a bent bare head: not read, or as much left as is bent bare."""
    if not is_read_since_bend(club):
        return {Step.READ_BENT}
    bend, most = bend_now(club, settings), Decimal(str(settings["build.bare_bend_deg"]))
    left = [abs(axis) for axis in (bend.loft_deg, bend.lie_deg) if axis is not None]
    return {Step.BENT_BARE, Step.READ_BENT} if max(left, default=Decimal(0)) > most else set()


def is_built_by(revision: OrderRevision, actor: Actor) -> bool:
    """True where this person did a step on one of the clubs."""
    steps = [step for club in revision.clubs.all() for step in club.steps.all()]
    return any(
        step.staff_id == actor.staff_id if actor.staff_id else step.done_by == actor.name
        for step in steps
    )


def standing_readings(club: OrderClub, stage: Stage, measure: Measure) -> list[Reading]:
    """The readings that count, in the order read; what was struck out does not."""
    return [
        reading
        for reading in club.readings.all()
        if reading.stage == stage and reading.measure == measure and reading.struck_out_at is None
    ]


def figures_of(
    club: OrderClub, settings: Mapping[str, Value], *, length_unit: str | None = None
) -> list[Figure]:
    """Every figure that has a target, judged by the readings as built.

    `length_unit` is what its sentences speak in; None: the shop's.
    """
    if length_unit is None:
        shop = the_shop()
        length_unit = shop.length_unit if shop is not None else "in"
    targets: Sequence[tuple[Measure, Decimal | None]] = (
        (Measure.LOFT, club.target_loft_deg),
        (Measure.LIE, club.target_lie_deg),
        (Measure.LENGTH, club.target_length_mm),
        (Measure.SWING_WEIGHT, club.target_swing_weight_points),
        (Measure.TOTAL_MASS, club.target_mass_g),
    )
    if standing_readings(club, Stage.AS_BUILT, Measure.GRIP_DIAMETER):
        # Nobody has to read it; where it is read, it is judged.
        grip = grip_diameters_of(club, settings).at_2_in_mm
        targets = (*targets, (Measure.GRIP_DIAMETER, grip))
    return [
        _figure(club, measure, target, Decimal(str(settings[TOLERANCES[measure]])), length_unit)
        for measure, target in targets
        if target is not None
    ]


@dataclass(frozen=True, slots=True)
class BendsAccepted:
    """Loft and lie left as they are by someone's word; settled where neither is to be bent."""

    loft: Concession | None
    lie: Concession | None
    is_settled: bool


def bend_is_unsure(figures: Sequence[Figure]) -> bool:
    """True where loft or lie is to be read once more before anybody bends by it."""
    bends = (each for each in figures if each.measure in (Measure.LOFT, Measure.LIE))
    return any(each.wants_second_reading for each in bends)


def bends_accepted(figures: Sequence[Figure]) -> BendsAccepted | None:
    """What was accepted of loft and lie as they now read; None where nothing was."""
    bends = {each.measure: each for each in figures if each.measure in (Measure.LOFT, Measure.LIE)}
    loft, lie = bends[Measure.LOFT], bends[Measure.LIE]
    if loft.concession is None and lie.concession is None:
        return None
    return BendsAccepted(loft.concession, lie.concession, loft.may_pass and lie.may_pass)


def grip_diameters_of(club: OrderClub, settings: Mapping[str, Value]) -> GripDiameters:
    """What the grip is to measure over the butt as cut, or as its maker says until then."""
    return grip_diameters(
        GripOnButt(
            butt_mm=butt_measured(club) or club.shaft_butt_mm,
            core_mm=club.grip_core_mm,
            outside_mm=club.grip_outside_mm,
            lower_outside_mm=club.grip_lower_outside_mm,
            extra_layers=club.grip_extra_wraps,
            lower_extra_layers=club.grip_lower_extra_wraps,
        ),
        tape_mm=Decimal(str(settings["build.tape_mm"])),
        base_layers=int(settings["build.base_layers"]),
    )


def butt_measured(club: OrderClub) -> Decimal | None:
    """The butt's diameter after the cut, as the bench wrote it [mm, never 0]."""
    cut = next((row for row in club.steps.all() if row.step == Step.BUTT_CUT), None)
    typed = cut.values.get("butt_mm") if cut is not None else None
    return None if typed is None else Decimal(typed)


def _figure(
    club: OrderClub, measure: Measure, target: Decimal, tolerance: Decimal, length_unit: str
) -> Figure:
    readings = standing_readings(club, Stage.AS_BUILT, measure)
    verdict = reading_verdict(
        values_judged(club, readings),
        target=target,
        tolerance=tolerance,
        repeatability=_repeatability(readings),
    )
    accepted = [
        each
        for each in club.concessions.all()
        if (each.stage, each.measure) == (Stage.AS_BUILT, measure)
        and verdict.mean is not None
        and each.accepted_value == verdict.mean.quantize(Decimal("0.0001"))
    ]
    conceded = accepted[-1] if accepted else None
    turned = turned_words(club, readings, length_unit) if measure == Measure.LENGTH else []
    return Figure(measure, target, tolerance, verdict, conceded, length_unit, tuple(turned))


def values_judged(club: OrderClub, readings: Sequence[Reading]) -> list[Decimal]:
    """What the readings come to as the target is meant: each length in the target's method.

    A length that can't be turned into it judges nothing: it counts as not read.
    """
    values = [
        in_targets_method(club, reading) if reading.measure == Measure.LENGTH else reading.value
        for reading in readings
    ]
    return [value for value in values if not isinstance(value, Missing)]


def _repeatability(readings: Sequence[Reading]) -> Decimal:
    """Of the worst gauge among the readings; a reading without a gauge brings none."""
    known = [reading.gauge.repeatability for reading in readings if reading.gauge is not None]
    return max(known, default=Decimal(0))


def head_limits(club: OrderClub, limits: SpecLimits, made: Sequence[Bend] = ()) -> HeadLimits:
    """How far this head goes, as copied. A limit that is only the making's is not the maker's.

    `made`: the bends of this order, after the earlier ones.
    """
    making = MAKING_BY_WORDS.get(club.making, Making.UNKNOWN)
    default = limits.default_bend_deg(making)

    def said_by_maker(limit: Decimal) -> Decimal | None:
        return None if limit == default else limit

    return HeadLimits(
        making=making,
        maker=MakerLimits(
            weak_deg=said_by_maker(club.limit_weak_deg),
            strong_deg=said_by_maker(club.limit_strong_deg),
            up_deg=said_by_maker(club.limit_upright_deg),
            flat_deg=said_by_maker(club.limit_flat_deg),
        ),
        earlier=(
            *(Bend(Decimal(str(loft)), Decimal(str(lie))) for loft, lie in club.earlier_bends),
            *made,
        ),
    )


def bend_of(club: OrderClub, settings: Mapping[str, Value]) -> BendToMake:
    """Target minus as received, judged on what really came. Weak and upright positive."""
    limits = limits_from(settings)
    bounces = standing_readings(club, Stage.AS_RECEIVED, Measure.BOUNCE)
    measured = sum((each.value for each in bounces), Decimal(0)) / len(bounces) if bounces else None
    return judged_bend_to_make(
        received=HeadAsReceived(
            loft_deg=club.as_received_loft_deg,
            lie_deg=club.as_received_lie_deg,
            bounce_deg=club.stamped_bounce_deg if measured is None else measured,
            bounce_at_loft_deg=(
                club.stamped_loft_deg if measured is None else club.as_received_loft_deg
            ),
        ),
        target_loft_deg=club.target_loft_deg,
        target_lie_deg=club.target_lie_deg,
        head=head_limits(club, limits),
        limits=limits,
    )


def bend_now(club: OrderClub, settings: Mapping[str, Value]) -> BendToMake:
    """What is still to be bent: target less the head as it is now."""
    left = bend_left(club, settings)
    return bend_of(club, settings) if left is None else left


def bend_left(club: OrderClub, settings: Mapping[str, Value]) -> BendToMake | None:
    """Target minus the head as it is, on top of the bends made.

    None for a head that was neither bent nor read as built.
    """
    loft, lie = head_now(club)
    if loft is None or lie is None or not (bend_facts(club) or is_read_as_built(club)):
        return None
    limits = limits_from(settings)
    return judged_bend_to_make(
        received=HeadAsReceived(
            loft_deg=loft,
            lie_deg=lie,
            bounce_deg=club.stamped_bounce_deg,
            bounce_at_loft_deg=club.stamped_loft_deg,
        ),
        target_loft_deg=club.target_loft_deg,
        target_lie_deg=club.target_lie_deg,
        head=head_limits(club, limits, bends_at_bench(club)),
        limits=limits,
    )
