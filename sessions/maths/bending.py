"""What bending a head does, and how far it may go.

A bend is counted in degrees: weak (more loft) and upright positive, strong and flat negative.
Four lofts are kept apart, stamped, as received, target and as built: a *planned bend* starts from
the stamp, a *bend to make* from the reading as received.

Assumptions:
    A degree weak adds a degree of loft and a degree of bounce, a degree strong takes one of each:
    bending turns the rigid head against the shaft about the heel-toe axis.
    Loft and lie share one hosel: the root of the sum of squares counts against the smaller limit.
    The default limits are common practice (no standard); the head maker's limits always win.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import ROUND_HALF_UP, Decimal
from types import MappingProxyType
from typing import Literal

from sessions.maths.errors import NotAFigure, UnknownMaking
from sessions.maths.shown import show_degrees

Axis = Literal["loft", "lie"]
OffsetChange = Literal["less offset", "more offset", "same offset"]

# Degrees each way from as made, all visits together. Common practice.
MAKING_LIMITS: Mapping[str, Decimal] = MappingProxyType(
    {
        "forged low-carbon steel": Decimal(3),
        "cast soft carbon steel": Decimal(2),
        "cast 304 or 431 stainless": Decimal(2),
        "17-4 stainless": Decimal(1),
        "hollow": Decimal(0),
        "multi-piece": Decimal(0),
        "insert": Decimal(0),
        "printed": Decimal(0),
        "titanium": Decimal(0),
        "copper alloy": Decimal(0),
        "plated": Decimal(0),
        "unknown": Decimal(0),
    }
)
# A turn back by more than this counts as a reversal; a second one is refused. Common practice.
REVERSAL_OVER_DEG = Decimal(1)
MOST_REVERSALS = 1
# Two lofts that can be typed lie 60 degrees apart at most. A bend far past its head's limit is
# judged and said in words; past this it is no bend but another field's figure.
FARTHEST_BEND_DEG = 60
# A head whose lie is turned farther than that is no longer a head: the formula stops here.
MOST_LIE_BEND_DEG = 20


@dataclass(frozen=True)
class Bend:
    """One bend of a head [deg]: weak and upright positive, strong and flat negative."""

    loft_deg: Decimal = Decimal(0)
    lie_deg: Decimal = Decimal(0)

    def __post_init__(self) -> None:
        _refuse_no_figure(self.loft_deg, self.lie_deg)


@dataclass(frozen=True)
class BendLimits:
    """How far a head may be bent each way from as made [deg, none negative], and who says so."""

    weak_deg: Decimal
    strong_deg: Decimal
    upright_deg: Decimal
    flat_deg: Decimal
    said_by: Literal["the maker", "common practice"] = "common practice"

    def __post_init__(self) -> None:
        ways = (self.weak_deg, self.strong_deg, self.upright_deg, self.flat_deg)
        _refuse_no_figure(*ways)
        if min(ways) < 0:
            raise NotAFigure("A bend limit is a number of degrees each way, none below 0.")

    @property
    def on_loft(self) -> tuple[Decimal, Decimal]:
        """The limits weak and strong."""
        return self.weak_deg, self.strong_deg

    @property
    def on_lie(self) -> tuple[Decimal, Decimal]:
        """The limits upright and flat."""
        return self.upright_deg, self.flat_deg


@dataclass(frozen=True)
class Travel:
    """All bends of one head together: degrees bent each way, and reversals of over a degree."""

    weak_deg: Decimal
    strong_deg: Decimal
    upright_deg: Decimal
    flat_deg: Decimal
    reversals: int


@dataclass(frozen=True)
class BendJudgement:
    """Whether one more bend is within the head's limits, with the numbers it was judged on."""

    travel: Travel
    combined_deg: float
    limit_deg: Decimal
    said_by: str
    refusals: tuple[str, ...] = field(default=())

    @property
    def is_allowed(self) -> bool:
        return not self.refusals


def making_limits(making: str, maker_limits: BendLimits | None = None) -> BendLimits:
    """Return the limits that hold for a head: the maker's, else the trade's for its making.

    Raises:
        UnknownMaking: ``making`` is not a key of ``MAKING_LIMITS`` and the maker says nothing.
    """
    if maker_limits is not None:
        return maker_limits
    if making not in MAKING_LIMITS:
        raise UnknownMaking(
            f"There is no bend limit for {making!r}: name the making, or choose unknown."
        )
    limit = MAKING_LIMITS[making]
    return BendLimits(limit, limit, limit, limit)


def planned_bend(target_deg: Decimal, stamped_deg: Decimal) -> Decimal:
    """Return target minus stamped [deg]: the forecast when ordering. Weak or upright positive.

    Raises:
        NotAFigure: a loft or a lie is no number between 0 and 90.
    """
    return _difference(target_deg, stamped_deg)


def bend_to_make(target_deg: Decimal, as_received_deg: Decimal) -> Decimal:
    """Return target minus as received [deg]: what the bench bends. Weak or upright positive.

    Raises:
        NotAFigure: a loft or a lie is no number between 0 and 90.
    """
    return _difference(target_deg, as_received_deg)


def bounce_after(bounce_deg: Decimal, loft_bend_deg: Decimal) -> Decimal:
    """Return the bounce after a loft bend [deg]: 10 bent 1 weak is 11, bent 1 strong 9.

    Raises:
        NotAFigure: a figure is no number, the bounce not between -90 and 90, or the bend over 60.
    """
    _refuse_no_figure(loft_bend_deg)
    if not (bounce_deg.is_finite() and -90 < bounce_deg < 90):
        raise NotAFigure("A bounce is an angle between -90 and 90 degrees.")
    return bounce_deg + loft_bend_deg


def bend_words(bend_deg: Decimal, axis: Axis = "loft") -> str:
    """Say a bend as the trade does: ``1 weak``, ``0.5 strong``, ``1 flat``, or ``none``.

    A bend that would show as nothing (under 0.05 degrees) is ``none``.
    """
    _refuse_no_figure(bend_deg)
    size = abs(bend_deg).quantize(Decimal("0.1"), ROUND_HALF_UP)
    if size == 0:
        return "none"
    plus, minus = ("weak", "strong") if axis == "loft" else ("upright", "flat")
    return f"{show_degrees(size)} {plus if bend_deg > 0 else minus}"


def combined_bend(bend: Bend) -> float:
    """Return the root of the sum of squares of the loft and the lie bend [deg]."""
    return math.hypot(float(bend.loft_deg), float(bend.lie_deg))


def offset_change(loft_bend_deg: Decimal) -> OffsetChange:
    """Return what a loft bend does to offset: weak takes some away, strong adds some."""
    _refuse_no_figure(loft_bend_deg)
    if loft_bend_deg == 0:
        return "same offset"
    return "less offset" if loft_bend_deg > 0 else "more offset"


def loft_after_lie_bend(loft_deg: float, lie_bend_deg: float) -> float:
    """Return the loft after a lie bend [deg]: sin L' = sin L cos d, either way.

    Assumes a rotation of the head about the target line. Below 0.1 degrees it is not worth a word:
    2 degrees of lie take 0.05 from a loft of 56.

    Raises:
        NotAFigure: a figure is no number, the loft not between 0 and 90, or the bend over 20.
    """
    if not (math.isfinite(loft_deg) and math.isfinite(lie_bend_deg)):
        raise NotAFigure("A loft and a lie bend must be numbers.")
    if not 0 < loft_deg < 90:
        raise NotAFigure("A loft is an angle between 0 and 90 degrees.")
    if abs(lie_bend_deg) > MOST_LIE_BEND_DEG:
        raise NotAFigure(f"A lie is not bent by more than {MOST_LIE_BEND_DEG} degrees.")
    turned = math.sin(math.radians(loft_deg)) * math.cos(math.radians(lie_bend_deg))
    return math.degrees(math.asin(turned))


def total_travel(bends: Sequence[Bend]) -> Travel:
    """Add up all bends of a head, oldest first, each way for itself.

    Bending back does not give travel back: metal that was moved twice was moved twice. Steps the
    same way count as one run; a run of over a degree against the run before it is a reversal.
    """
    loft = [bend.loft_deg for bend in bends]
    lie = [bend.lie_deg for bend in bends]
    return Travel(
        weak_deg=sum((step for step in loft if step > 0), Decimal(0)),
        strong_deg=-sum((step for step in loft if step < 0), Decimal(0)),
        upright_deg=sum((step for step in lie if step > 0), Decimal(0)),
        flat_deg=-sum((step for step in lie if step < 0), Decimal(0)),
        reversals=_reversals(loft) + _reversals(lie),
    )


def bend_judgement(bend: Bend, limits: BendLimits, earlier: Sequence[Bend] = ()) -> BendJudgement:
    """Judge one more bend of a head against its limits, all earlier bends counted.

    The travel of loft and of lie, each on the side the bend goes to (or went to most, where it
    does not move now): the root of the sum of squares against the smaller of the limits of those
    that have moved. A bend of nothing is always allowed.

    Args:
        bend: what is planned or to be made.
        limits: from ``making_limits``.
        earlier: every bend the head has had, oldest first.
    """
    travel = total_travel([*earlier, bend])
    moved = (
        _side_moved(bend.loft_deg, travel.weak_deg, travel.strong_deg, limits.on_loft),
        _side_moved(bend.lie_deg, travel.upright_deg, travel.flat_deg, limits.on_lie),
    )
    limit = min((allowed for degrees, allowed in moved if degrees), default=Decimal(0))
    is_bent = bool(bend.loft_deg or bend.lie_deg)
    # Squares of decimals are exact, so that 3 against 3 passes.
    too_far = is_bent and sum(degrees**2 for degrees, _ in moved) > limit**2
    turned_back = travel.reversals > max(MOST_REVERSALS, total_travel(earlier).reversals)
    combined = math.hypot(*(float(degrees) for degrees, _ in moved))
    return BendJudgement(
        travel=travel,
        combined_deg=combined,
        limit_deg=limit,
        said_by=limits.said_by,
        refusals=tuple(
            sentence
            for is_refused, sentence in (
                (too_far, _too_far(bend, combined, limit, limits, bool(earlier))),
                (turned_back, _turned_back(travel.reversals)),
            )
            if is_refused
        ),
    )


def _too_far(
    bend: Bend, combined: float, limit: Decimal, limits: BendLimits, has_earlier: bool
) -> str:
    words = (bend_words(bend.loft_deg, "loft"), bend_words(bend.lie_deg, "lie"))
    said = " and ".join(word for word in words if word != "none")
    with_earlier = " with the earlier bends" if has_earlier else ""
    if limit == 0:
        return f"{said.capitalize()} is too far: this head is not bent unless its maker allows it."
    return (
        f"{said.capitalize()} is too far: {show_degrees(combined)} degrees{with_earlier} "
        f"against a limit of {show_degrees(limit)} ({limits.said_by})."
    )


def _turned_back(reversals: int) -> str:
    return (
        f"This head would be bent back by more than {show_degrees(REVERSAL_OVER_DEG)} degree "
        f"for the {'second' if reversals == 2 else f'{reversals}th'} time: it may crack."
    )


def _side_moved(
    bend_deg: Decimal, plus_deg: Decimal, minus_deg: Decimal, limits_deg: tuple[Decimal, Decimal]
) -> tuple[Decimal, Decimal]:
    """Return the travel and the limit on the side bent now, else on the side bent most before."""
    goes_plus = bend_deg > 0 if bend_deg else plus_deg >= minus_deg
    return (plus_deg, limits_deg[0]) if goes_plus else (minus_deg, limits_deg[1])


def _reversals(steps: Sequence[Decimal]) -> int:
    runs: list[Decimal] = []
    for step in steps:
        if step == 0:
            continue
        if runs and (runs[-1] > 0) == (step > 0):
            runs[-1] += step
        else:
            runs.append(step)
    return sum(1 for run in runs[1:] if abs(run) > REVERSAL_OVER_DEG)


def _difference(to_deg: Decimal, from_deg: Decimal) -> Decimal:
    if not all(angle.is_finite() and 0 < angle < 90 for angle in (to_deg, from_deg)):
        raise NotAFigure("A bend lies between two angles from 0 to 90 degrees.")
    return to_deg - from_deg


def _refuse_no_figure(*angles_deg: Decimal) -> None:
    if not all(angle.is_finite() for angle in angles_deg):
        raise NotAFigure("A bend needs angles that are numbers.")
    if any(abs(angle) > FARTHEST_BEND_DEG for angle in angles_deg):
        raise NotAFigure(f"A bend is not over {FARTHEST_BEND_DEG} degrees either way.")
