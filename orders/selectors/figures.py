"""What is known of one club at the bench, as the values that the rules judge."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from fitshop.selectors import SettingsInForce, settings_in_force
from fitshop.setting import Value
from orders.models import Concession, OrderClub, OrderRevision, Reading
from orders.models.bench import Measure, Stage
from orders.rules.bench_steps import Work
from orders.rules.tolerances import (
    BendToMake,
    HeadAsReceived,
    ReadingVerdict,
    Verdict,
    judged_bend_to_make,
    reading_verdict,
)
from sessions.maths.bending import Bend
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
}
# Where the mean of a stage's readings is kept on the club.
COLUMNS = {
    (Stage.AS_RECEIVED, Measure.LOFT): ("as_received_loft_deg", "0.01"),
    (Stage.AS_RECEIVED, Measure.LIE): ("as_received_lie_deg", "0.01"),
    (Stage.AS_RECEIVED, Measure.HEAD_MASS): ("as_received_mass_g", "0.01"),
    (Stage.AS_BUILT, Measure.LOFT): ("as_built_loft_deg", "0.01"),
    (Stage.AS_BUILT, Measure.LIE): ("as_built_lie_deg", "0.01"),
    (Stage.AS_BUILT, Measure.BOUNCE): ("as_built_bounce_deg", "0.01"),
    (Stage.AS_BUILT, Measure.LENGTH): ("as_built_length_mm", "0.0001"),
    (Stage.AS_BUILT, Measure.SWING_WEIGHT): ("as_built_swing_weight_points", "0.01"),
    (Stage.AS_BUILT, Measure.TOTAL_MASS): ("as_built_mass_g", "0.01"),
}
MEASURES = {
    Stage.AS_RECEIVED: (Measure.LOFT, Measure.LIE, Measure.HEAD_MASS, Measure.BOUNCE),
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

    @property
    def may_pass(self) -> bool:
        """True where the check may be signed over it: in, or accepted at this very figure."""
        return self.verdict.is_in or self.concession is not None

    @property
    def sentence(self) -> str:
        return self.verdict.sentence(UNITS[self.measure])

    @property
    def is_out(self) -> bool:
        return self.verdict.verdict is not Verdict.NOT_MEASURED and not self.verdict.is_in


def settings_of(revision: OrderRevision) -> SettingsInForce:
    """The settings a revision was made under: a later change moves no tolerance on it."""
    return settings_in_force(revision.settings_version)


def work_of(club: OrderClub) -> Work:
    """What this club asks of the bench: a new club is always glued."""
    return Work(
        is_glued=club.source == ClubSource.NEW or club.shaft_name != "",
        is_gripped=club.source == ClubSource.NEW or club.grip_name != "",
        is_stamped=club.stamping.strip().lower() not in ("", "none"),
    )


def standing_readings(club: OrderClub, stage: Stage, measure: Measure) -> list[Reading]:
    """The readings that count, in the order read; what was struck out does not."""
    return [
        reading
        for reading in club.readings.all()
        if reading.stage == stage and reading.measure == measure and reading.struck_out_at is None
    ]


def figures_of(club: OrderClub, settings: Mapping[str, Value]) -> list[Figure]:
    """Every figure that has a target, judged by the readings as built."""
    targets: Sequence[tuple[Measure, Decimal | None]] = (
        (Measure.LOFT, club.target_loft_deg),
        (Measure.LIE, club.target_lie_deg),
        (Measure.LENGTH, club.target_length_mm),
        (Measure.SWING_WEIGHT, club.target_swing_weight_points),
        (Measure.TOTAL_MASS, club.target_mass_g),
    )
    return [
        _figure(club, measure, target, Decimal(str(settings[TOLERANCES[measure]])))
        for measure, target in targets
        if target is not None
    ]


def _figure(club: OrderClub, measure: Measure, target: Decimal, tolerance: Decimal) -> Figure:
    readings = standing_readings(club, Stage.AS_BUILT, measure)
    verdict = reading_verdict(
        [reading.value for reading in readings],
        target=target,
        tolerance=tolerance,
        repeatability=_repeatability(readings),
    )
    accepted = [
        each
        for each in club.concessions.all()
        if each.measure == measure
        and verdict.mean is not None
        and each.accepted_value == verdict.mean.quantize(Decimal("0.0001"))
    ]
    return Figure(measure, target, tolerance, verdict, accepted[-1] if accepted else None)


def _repeatability(readings: Sequence[Reading]) -> Decimal:
    """Of the worst gauge among the readings; a reading without a gauge brings none."""
    known = [reading.gauge.repeatability for reading in readings if reading.gauge is not None]
    return max(known, default=Decimal(0))


def head_limits(club: OrderClub, limits: SpecLimits) -> HeadLimits:
    """How far this head goes, as copied. A limit that is only the making's is not the maker's."""
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
        earlier=tuple(
            Bend(Decimal(str(loft)), Decimal(str(lie))) for loft, lie in club.earlier_bends
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
