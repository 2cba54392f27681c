"""What is asked of a loft plan before the fitter says anything: its end, its soles, its steps.

The interview's first suggestion of a sole for each job goes to the slots in their order. All of
it pulls at a plan and forbids nothing; a fitter's wish comes first. Common practice.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from fitshop.setting import Value
from sessions.maths.loft_wish import SlotRole, SlotWish, WiderSteps
from sessions.rules.judgements import ALL_ON, JudgementBook, Off
from sessions.rules.sole_advice import Band, Job, SoleAdvice, SoleLimits, SoleSuggestion
from sessions.rules.sole_bounce import NARROW, RELIEF, SOFTENED, USUAL_WIDTH, WIDE

# No head has more: the open end of high bounce.
MOST_BOUNCE_DEG = Decimal(30)
# Relief that lets the face open without lifting the edge: graded clear or strong.
CLEAR_RELIEF = 2


@dataclass(frozen=True, slots=True)
class PlanLimits:
    """Where a set of wedges usually ends, how far steps may grow to get there, how wide a sole
    counts as wide, and from which loft a club is a touch club, as set."""

    sand_from_deg: Decimal
    end_high_deg: Decimal
    wider_step_high_deg: Decimal
    wider_gap_high_pct: Decimal
    wide_sole_mm: Decimal
    narrow_sole_mm: Decimal
    touch_from_deg: Decimal
    sole_wide_mm: Decimal

    @property
    def usual_end_deg(self) -> tuple[Decimal, Decimal]:
        return self.sand_from_deg, max(self.sand_from_deg, self.end_high_deg)

    @property
    def wider(self) -> WiderSteps:
        return WiderSteps(
            self.sand_from_deg, self.wider_step_high_deg, float(self.wider_gap_high_pct)
        )


def plan_limits_from(settings: Mapping[str, Value]) -> PlanLimits:
    """Build the limits from the settings `plan.*`, and the width from which a spec looks at a sole.

    Raises KeyError for a missing one.
    """
    names = [name for name in PlanLimits.__dataclass_fields__ if name != "sole_wide_mm"]
    return PlanLimits(
        **{name: Decimal(str(settings[f"plan.{name}"])) for name in names},
        sole_wide_mm=Decimal(str(settings["spec.sole_wide_mm"])),
    )


@dataclass(frozen=True, slots=True)
class SoleShape:
    """A head's sole: width [mm], reliefs as grades from 0 (none) to 3 (strong)."""

    width_mm: Decimal
    relief_heel: int
    relief_trailing: int
    is_softened: bool


def sole_traits(
    *,
    width_mm: Decimal,
    relief_heel: int,
    relief_trailing: int,
    is_softened: bool,
    limits: PlanLimits,
    off: Off = ALL_ON,
) -> frozenset[str]:
    """Say of a head's sole what a slot may ask for, in the interview's words."""
    shape = SoleShape(width_mm, relief_heel, relief_trailing, is_softened)
    return frozenset(word for _, word in TRAITS.heard(shape, limits, off))


def slot_wishes(
    jobs: Sequence[Sequence[Job]],
    advice: SoleAdvice,
    limits: SoleLimits,
    full_shots: int | None = None,
    off: Off = ALL_ON,
) -> tuple[SlotWish, ...]:
    """Ask of each slot the sole that its jobs want; so many of them full-shot clubs, if said.

    Jobs about which too little was said ask for nothing.
    """
    return tuple(
        _wish(advice.leading(of_slot), limits, _role(number, full_shots), off)
        for number, of_slot in enumerate(jobs)
    )


def jobs_to_begin(wedges: int) -> tuple[Sequence[Job], ...]:
    """The jobs that a search begins with, before it knows a loft. `jobs_of` has the last word."""
    return tuple((job,) for job in next((jobs for _, jobs in SLOT_JOBS.heard(wedges, None)), ()))


def _role(number: int, full_shots: int | None) -> SlotRole | None:
    if full_shots is None:
        return None
    return "full_shot" if number < full_shots else "touch"


def _wish(
    suggested: SoleSuggestion | None, limits: SoleLimits, role: SlotRole | None, off: Off
) -> SlotWish:
    if suggested is None:
        return SlotWish(role)
    asked = [one for _, one in ASKED.heard(suggested, limits, off)]
    return SlotWish(
        role,
        next((one.bounce_deg for one in asked if one.bounce_deg is not None), None),
        frozenset(trait for one in asked for trait in one.traits),
    )


def _bounce(band: Band, limits: SoleLimits) -> tuple[Decimal, Decimal]:
    match band:
        case Band.LOW:
            return limits.bounce_low_from_deg, limits.bounce_low_to_deg
        case Band.MID:
            return limits.bounce_mid_from_deg, limits.bounce_mid_to_deg
        case Band.HIGH:
            return limits.bounce_high_from_deg, MOST_BOUNCE_DEG


# --- the judgements ----------------------------------------------------------------------------

Jobs = tuple[Job, ...]
SLOT_JOBS: JudgementBook[int, None, Jobs] = JudgementBook(
    "PLAN-J", "The jobs that a plan's search begins with, the strongest first; TRY-J settles them"
)
ASKED: JudgementBook[SoleSuggestion, SoleLimits, SlotWish] = JudgementBook(
    "PLAN-W", "What a slot asks of its head: it pulls and forbids nothing"
)
TRAITS: JudgementBook[SoleShape, PlanLimits, str] = JudgementBook(
    "PLAN-T", "How a head's sole is called where a slot asks for one"
)


@SLOT_JOBS.judgement("PLAN-J01", about="One wedge: the search begins with sand.", is_fixed=True)
def one_wedge(wedges: int, limits: None) -> Iterable[Jobs]:
    if wedges == 1:
        yield (Job.SAND,)


@SLOT_JOBS.judgement(
    "PLAN-J02", about="Two wedges: the search begins with full shots, then sand.", is_fixed=True
)
def two_wedges(wedges: int, limits: None) -> Iterable[Jobs]:
    if wedges == 2:
        yield (Job.FULL_SHOTS, Job.SAND)


@SLOT_JOBS.judgement(
    "PLAN-J03",
    about="Three wedges: the search begins with full shots, then sand, then the opened face.",
    is_fixed=True,
)
def three_wedges(wedges: int, limits: None) -> Iterable[Jobs]:
    if wedges == 3:
        yield (Job.FULL_SHOTS, Job.SAND, Job.OPENED_FACE)


@SLOT_JOBS.judgement(
    "PLAN-J04",
    about="Four wedges: the search begins with two for full shots, then sand, then the opened "
    "face.",
    is_fixed=True,
)
def four_wedges(wedges: int, limits: None) -> Iterable[Jobs]:
    if wedges == 4:
        yield (Job.FULL_SHOTS, Job.FULL_SHOTS, Job.SAND, Job.OPENED_FACE)


@ASKED.judgement(
    "PLAN-W01",
    about="The bounce that the interview suggests for the slot's job.",
    thresholds=tuple(
        f"interview.bounce_{name}_deg"
        for name in ("low_from", "low_to", "mid_from", "mid_to", "high_from")
    ),
)
def bounce_of_the_job(suggested: SoleSuggestion, limits: SoleLimits) -> Iterable[SlotWish]:
    if suggested.band is not None:
        yield SlotWish(bounce_deg=_bounce(suggested.band, limits))


@ASKED.judgement("PLAN-W02", about="The trait of the sole that the interview suggests for it.")
def sole_of_the_job(suggested: SoleSuggestion, limits: SoleLimits) -> Iterable[SlotWish]:
    if suggested.band is not None and suggested.sole:
        yield SlotWish(traits=frozenset(suggested.sole.split(", ")))


@ASKED.judgement(
    "PLAN-W03",
    about="A full-shot club on ground that is firm and in no season soft, or of a shallow player "
    "on normal ground: a sole that isn't wide, as the spec would ask.",
)
def width_of_the_job(suggested: SoleSuggestion, limits: SoleLimits) -> Iterable[SlotWish]:
    if suggested.band is not None and suggested.is_usual_width:
        yield SlotWish(traits=frozenset({USUAL_WIDTH}))


@TRAITS.judgement(
    "PLAN-T01", about="From the set width on a sole is wide.", thresholds=("plan.wide_sole_mm",)
)
def wide(shape: SoleShape, limits: PlanLimits) -> Iterable[str]:
    if shape.width_mm >= limits.wide_sole_mm:
        yield WIDE


@TRAITS.judgement(
    "PLAN-T02",
    about="Up to the set width a sole is narrower.",
    thresholds=("plan.narrow_sole_mm",),
)
def narrow(shape: SoleShape, limits: PlanLimits) -> Iterable[str]:
    if shape.width_mm <= limits.narrow_sole_mm:
        yield NARROW


@TRAITS.judgement(
    "PLAN-T05",
    about="Below the width from which a spec looks at a sole it is of usual width.",
    thresholds=("spec.sole_wide_mm",),
)
def usual_width(shape: SoleShape, limits: PlanLimits) -> Iterable[str]:
    if shape.width_mm < limits.sole_wide_mm:
        yield USUAL_WIDTH


@TRAITS.judgement("PLAN-T03", about="A leading edge that its maker, or the shop, has softened.")
def softened(shape: SoleShape, limits: PlanLimits) -> Iterable[str]:
    if shape.is_softened:
        yield SOFTENED


@TRAITS.judgement(
    "PLAN-T04",
    about="Heel and trailing edge both clearly relieved: the face opens without lifting the edge.",
)
def relieved(shape: SoleShape, limits: PlanLimits) -> Iterable[str]:
    if min(shape.relief_heel, shape.relief_trailing) >= CLEAR_RELIEF:
        yield RELIEF
