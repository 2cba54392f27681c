"""The balance of a club from its parts: swing weight, total mass, balance point, moment of inertia.

Distances are from the butt end, grip cap included, in inches: the scale is an inch scale and its
fulcrum stands 14 in from the butt (key ``swing-weight-text``). A point is 1.75 in-oz and D0 is
213.5 in-oz: trade usage, no standard. The ounce is exact (key ``nist-sp-811``). Assumptions: each
part is a point mass at its centre, with its own moment of inertia added where it is given.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from sessions.maths.errors import BuildRefused, NotAFigure

FULCRUM_IN = 14.0
OLD_FULCRUM_IN = 12.0
G_PER_OUNCE = 28.349523125
D0_IN_OZ = 213.5
IN_OZ_PER_POINT = 1.75
CM_PER_INCH = 2.54


@dataclass(frozen=True)
class Part:
    """One part of a club: mass [g], where its centre is from the butt end [in], own inertia."""

    name: str
    mass_g: float
    from_butt_in: float
    own_inertia_kg_cm2: float = 0.0


@dataclass(frozen=True)
class Balance:
    """What the scales should show. Swing weight in points above D0, as ``shown`` writes it."""

    mass_g: float
    balance_point_in: float
    moment_in_oz: float
    swing_weight_points: float
    inertia_about_butt_kg_cm2: float

    @property
    def moment_about_12_in_oz(self) -> float:
        """The moment about the older scale's fulcrum, 12 in from the butt."""
        return self.moment_in_oz + (FULCRUM_IN - OLD_FULCRUM_IN) * self.mass_g / G_PER_OUNCE


@dataclass(frozen=True)
class AddedWeight:
    """Weight for a wanted swing weight, and whether the hosel may take it.

    ``mass_g`` below nought means the head is too heavy: nothing is added, a part must change.
    ``reached_points`` is the swing weight with as much of it as is allowed.
    """

    mass_g: float
    most_allowed_g: float
    is_allowed: bool
    reached_points: float


def balance(parts: Sequence[Part]) -> Balance:
    """Return the balance of a club put together from its parts.

    Raises:
        NotAFigure: no parts, no mass at all, or a figure that is no number or below nought.
    """
    refuse_parts(parts)
    mass = math.fsum(part.mass_g for part in parts)
    about_butt = math.fsum(part.mass_g * part.from_butt_in for part in parts)
    moment = (about_butt - mass * FULCRUM_IN) / G_PER_OUNCE
    inertia = math.fsum(
        part.mass_g / 1000 * (part.from_butt_in * CM_PER_INCH) ** 2 + part.own_inertia_kg_cm2
        for part in parts
    )
    return Balance(
        mass_g=mass,
        balance_point_in=about_butt / mass,
        moment_in_oz=moment,
        swing_weight_points=swing_weight_of_moment(moment),
        inertia_about_butt_kg_cm2=inertia,
    )


def rod_inertia_kg_cm2(mass_g: float, length_in: float) -> float:
    """Return an even rod's moment of inertia about its own centre [kg cm2]: m l^2 / 12.

    Raises:
        NotAFigure: a figure is no number or below nought.
    """
    if not all(math.isfinite(figure) and figure >= 0 for figure in (mass_g, length_in)):
        raise NotAFigure("A rod has a mass and a length, neither below nought.")
    return mass_g / 1000 * (length_in * CM_PER_INCH) ** 2 / 12


def balance_of_whole_club(mass_g: float, balance_point_in: float) -> tuple[float, float]:
    """Return moment [in-oz] and swing weight [points above D0] of a club laid on an edge."""
    refuse_parts([Part("club", mass_g, balance_point_in)])
    moment = mass_g * (balance_point_in - FULCRUM_IN) / G_PER_OUNCE
    return moment, swing_weight_of_moment(moment)


def swing_weight_of_moment(moment_in_oz: float) -> float:
    """Return points above D0 of a moment about the fulcrum."""
    _refuse_no_figure(moment_in_oz)
    return (moment_in_oz - D0_IN_OZ) / IN_OZ_PER_POINT


def moment_of_swing_weight(points: float) -> float:
    """Return the moment about the fulcrum [in-oz] of points above D0."""
    _refuse_no_figure(points)
    return D0_IN_OZ + points * IN_OZ_PER_POINT


def mass_needed(parts: Sequence[Part], name: str, wanted_points: float) -> float:
    """Return the mass [g] of one part that gives the wanted swing weight, all else as it is.

    Raises:
        BuildRefused: no part of that name, its centre stands over the fulcrum (its mass then
            changes nothing), or the mass would be below nought.
    """
    refuse_parts(parts)
    found = [part for part in parts if part.name == name]
    if len(found) != 1:
        raise BuildRefused(f"There must be one {name} to weigh; there are {len(found)}.")
    if not math.isfinite(wanted_points):
        raise NotAFigure("A swing weight to reach must be a number.")
    arm = found[0].from_butt_in - FULCRUM_IN
    if abs(arm) < 1e-9:
        raise BuildRefused(f"A {name} over the fulcrum does not move the swing weight.")
    without = [replace(part, mass_g=0.0) if part is found[0] else part for part in parts]
    missing = moment_of_swing_weight(wanted_points) - _moment(without)
    mass = missing * G_PER_OUNCE / arm
    if mass < 0:
        raise BuildRefused(f"No {name} is light enough for that swing weight: change another part.")
    return mass


def weight_to_add(
    parts: Sequence[Part], wanted_points: float, *, at_in: float, most_allowed_g: float
) -> AddedWeight:
    """Return the weight to add for a wanted swing weight and whether the hosel may take it.

    Args:
        parts: the club dry, the real grip and tape with it.
        wanted_points: swing weight to reach [points above D0].
        at_in: where the weight goes, from the butt end [in].
        most_allowed_g: the most the shop puts into a hosel (common practice: 9 to 10).

    Raises:
        BuildRefused: the place is not below the fulcrum.
        NotAFigure: a figure is no number.
    """
    refuse_parts(parts)
    points = swing_weight_of_moment(_moment(parts))
    return weight_from_reading(points, wanted_points, at_in=at_in, most_allowed_g=most_allowed_g)


def weight_from_reading(
    points: float, wanted_points: float, *, at_in: float, most_allowed_g: float
) -> AddedWeight:
    """Return the weight to add to a club that reads so many points: its parts need not be known.

    Args:
        points: swing weight with nothing added [points above D0].
        wanted_points: swing weight to reach [points above D0].
        at_in: where the weight goes, from the butt end [in].
        most_allowed_g: the most the shop puts into a hosel (common practice: 9 to 10).

    Raises:
        BuildRefused: the place is not below the fulcrum.
        NotAFigure: a figure is no number.
    """
    if not all(math.isfinite(figure) for figure in (points, wanted_points, most_allowed_g)):
        raise NotAFigure("The weight to add needs figures that are numbers.")
    in_a_gram = points_of_weight(1.0, at_in=at_in)
    mass = (wanted_points - points) / in_a_gram
    # A thousandth of a gram either way is arithmetic, not weight.
    is_allowed = -1e-3 <= mass <= most_allowed_g + 1e-3
    used = min(max(mass, 0.0), most_allowed_g)
    return AddedWeight(mass, most_allowed_g, is_allowed, points + used * in_a_gram)


def points_of_weight(mass_g: float, *, at_in: float) -> float:
    """Return how many points a weight at `at_in` [in from the butt end] adds.

    Raises:
        BuildRefused: the place is not below the fulcrum.
        NotAFigure: a figure is no number.
    """
    if not (math.isfinite(mass_g) and math.isfinite(at_in)):
        raise NotAFigure("The weight to add needs figures that are numbers.")
    if at_in <= FULCRUM_IN:
        raise BuildRefused("Weight is added at the head end, below the fulcrum of the scale.")
    return mass_g * (at_in - FULCRUM_IN) / G_PER_OUNCE / IN_OZ_PER_POINT


def _moment(parts: Sequence[Part]) -> float:
    return math.fsum(part.mass_g * (part.from_butt_in - FULCRUM_IN) for part in parts) / G_PER_OUNCE


def _refuse_no_figure(figure: float) -> None:
    if not math.isfinite(figure):
        raise NotAFigure("A swing weight is a number of points, its moment a number too.")


def refuse_parts(parts: Sequence[Part]) -> None:
    """Raise NotAFigure for parts without mass, or with a figure that is none or below nought."""
    for part in parts:
        figures = (part.mass_g, part.from_butt_in, part.own_inertia_kg_cm2)
        if not all(math.isfinite(figure) and figure >= 0 for figure in figures):
            raise NotAFigure(f"The {part.name} has a mass or a place that is not a number.")
    if not math.fsum(part.mass_g for part in parts) > 0:
        raise NotAFigure("A club without mass has no balance: give the parts' masses.")
