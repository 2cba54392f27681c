"""The weight in the hosel: foretold from the parts, and worked out from the dry scale's reading.

`DryParts` and `dry_weight` come from `sessions.rules.dry_weight`, so that a spec and its ticket
never disagree on whether a swing weight can be reached. From the reading on, `weight_worked_out`
alone decides; the page and the ticket say what it returns.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum

from sessions.maths.balance import AddedWeight, points_of_weight, weight_from_reading
from sessions.maths.shown import show_mass, show_swing_weight
from sessions.rules.dry_weight import DryParts, DryWeight, Fixings, dry_weight
from sessions.rules.wording import figure

__all__ = [
    "DryParts",
    "DryReading",
    "DryWeight",
    "Fixings",
    "WeightAnswer",
    "WeightWorkedOut",
    "dry_weight",
    "weight_headline",
    "weight_words",
    "weight_worked_out",
]

# A hosel is weighed out in tenths of a gram; points are kept as an acceptance stores them.
TENTH, STORED = Decimal("0.1"), Decimal("0.0001")


def weight_words(
    added: AddedWeight,
    *,
    target_points: Decimal | None = None,
    allowed_points: Decimal | int = 0,
) -> str:
    """What goes into the hosel, or why the target can't be reached and what can.

    What can be reached is good enough within `allowed_points` of the target.

    >>> weight_words(AddedWeight(4.21, 9.0, True, 4.0))
    'about 4.2 g'
    >>> weight_words(AddedWeight(12.0, 9.0, False, 2.5))
    'D2.5 is the most with 9 g: change a part, or have the swing weight revised'
    """
    if added.is_allowed:
        grams = max(added.mass_g, 0.0)
        return "none" if round(grams, 1) == 0 else f"about {show_mass(grams)}"
    reached = show_swing_weight(added.reached_points)
    near = target_points is not None and (
        abs(Decimal(str(added.reached_points)) - target_points) <= allowed_points
    )
    if near:
        weight = "none" if added.mass_g < 0 else show_mass(added.most_allowed_g)
        return f"{weight}: {reached} is within what is allowed"
    if added.mass_g < 0:
        return f"{reached} with nothing added: a lighter head or a heavier grip, or have it revised"
    most = show_mass(added.most_allowed_g)
    return f"{reached} is the most with {most}: change a part, or have the swing weight revised"


class WeightAnswer(StrEnum):
    """What the dry reading asks for."""

    ADD = "add"
    ADD_NOTHING = "add nothing"
    TOO_HEAVY = "too heavy"
    TOO_LIGHT = "too light"


@dataclass(frozen=True, slots=True)
class DryReading:
    """One club on the dry scale, ferrule, grip and tape on it, and what is asked of it.

    `points` is the mean of `readings` readings [points above D0], `scale_points` what two
    readings of one club may differ by, `epoxy_points` what the joint's epoxy adds once glued.
    The weight goes into the hosel, `at_in` from the butt end.
    """

    points: Decimal
    readings: int
    scale_points: Decimal
    epoxy_points: float
    target_points: Decimal
    allowed_points: Decimal
    at_in: float
    most_added_g: Decimal


@dataclass(frozen=True, slots=True)
class WeightWorkedOut:
    """The weight for a dry reading, and what the glued club comes to with it.

    `exact_g` reaches the target itself; below nought: the club is heavier than that with nothing
    added. `to_add_g` is what goes in: to a tenth, never below nought nor over the most allowed.
    """

    reading: DryReading
    answer: WeightAnswer
    exact_g: float
    to_add_g: Decimal
    glued_points: Decimal
    wants_second_reading: bool

    @property
    def is_reachable(self) -> bool:
        """True where some weight that is allowed brings it within the tolerance."""
        return self.answer in (WeightAnswer.ADD, WeightAnswer.ADD_NOTHING)

    @property
    def lowest_points(self) -> Decimal:
        return self.reading.target_points - self.reading.allowed_points

    @property
    def highest_points(self) -> Decimal:
        return self.reading.target_points + self.reading.allowed_points

    def glued_with(self, added_g: Decimal) -> Decimal:
        """What it comes to glued with so much in its hosel [points above D0]."""
        return _glued(self.reading, added_g)

    def is_in(self, points: Decimal) -> bool:
        """True where a glued club of so many points is within the tolerance."""
        return self.lowest_points <= points <= self.highest_points


def weight_worked_out(reading: DryReading) -> WeightWorkedOut:
    """Return the weight that a dry reading asks for.

    A single reading past the limit by less than the scale can tell is read once more first.
    Raises MathsError for figures that are none, or a place that is not below the fulcrum.
    """
    exact = weight_from_reading(
        float(reading.points) + reading.epoxy_points,
        float(reading.target_points),
        at_in=reading.at_in,
        most_allowed_g=float(reading.most_added_g),
    ).mass_g
    wanted = Decimal(repr(exact)).quantize(TENTH, ROUND_HALF_UP)
    to_add = min(max(wanted, Decimal(0)), reading.most_added_g)
    glued = _glued(reading, to_add)
    past = abs(glued - reading.target_points) - reading.allowed_points
    if past > 0:
        answer = WeightAnswer.TOO_LIGHT if exact > 0 else WeightAnswer.TOO_HEAVY
    else:
        answer = WeightAnswer.ADD if to_add else WeightAnswer.ADD_NOTHING
    is_near = reading.readings == 1 and 0 < past < reading.scale_points
    return WeightWorkedOut(reading, answer, exact, to_add, glued, is_near)


def _glued(reading: DryReading, added_g: Decimal) -> Decimal:
    added = points_of_weight(float(added_g), at_in=reading.at_in)
    points = float(reading.points) + reading.epoxy_points + added
    return Decimal(repr(points)).quantize(STORED, ROUND_HALF_UP)


def weight_headline(found: WeightWorkedOut) -> str:
    """The answer in one line, for the page and the ticket alike.

    >>> from decimal import Decimal as D
    >>> weight_headline(weight_worked_out(
    ...     DryReading(D("3.2"), 1, D(0), 0.8, D(3), D(1), 34.0, D(9))))
    'Add nothing: D4 when glued, allowed D2 to D4'
    """
    low, high = show_swing_weight(found.lowest_points), show_swing_weight(found.highest_points)
    glued, allowed = show_swing_weight(found.glued_points), f"allowed {low} to {high}"
    match found.answer:
        case WeightAnswer.ADD_NOTHING:
            return f"Add nothing: {glued} when glued, {allowed}"
        case WeightAnswer.ADD:
            return f"Add {show_mass(found.to_add_g)}: {glued} when glued, {allowed}"
        case WeightAnswer.TOO_HEAVY:
            return f"Too heavy: {glued} with nothing added, {allowed}"
        case _:
            most = f"{figure(found.reading.most_added_g)} g"
            return f"Too light: {glued} with {most}, the most, {allowed}"
