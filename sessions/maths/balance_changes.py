"""What a change does to a club's swing weight, beside the rule of thumb; adapters taken out.

The rules of thumb (a point is 2 g of head, 9 g of shaft, 5 g of grip the other way; half an inch is
3 points) are figures of longer clubs and common practice: on a wedge they are off, the shaft's by
half. Both are given, the exact one is used. Distances from the butt end in inches, as in
``balance``; a club's parts must be named as here.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from sessions.maths.balance import (
    CM_PER_INCH,
    FULCRUM_IN,
    G_PER_OUNCE,
    IN_OZ_PER_POINT,
    Part,
    balance,
    moment_of_swing_weight,
    refuse_parts,
    swing_weight_of_moment,
)
from sessions.maths.errors import BuildRefused, NotAFigure

HEAD, SHAFT, GRIP, TAPE = "head", "shaft", "grip", "tape"
# What stays at its place from the butt when a club is made longer or shorter.
AT_THE_BUTT = frozenset({GRIP, TAPE, "counterweight"})
# A wedge shaft's centre lies at this share of its length. Common practice.
SHAFT_CENTRE = 0.49
# A point, as the rule of thumb has it [g]; and half an inch of length [points].
RULE_HEAD_G, RULE_SHAFT_G, RULE_GRIP_G = 2.0, 9.0, 5.0
RULE_LENGTH_IN, RULE_LENGTH_POINTS = 0.5, 3.0


@dataclass(frozen=True)
class ChangeBesideRule:
    """One change: what the rule of thumb says it does, and what it does to this club [points].

    ``for_a_point`` is how much of it a point really takes, in the unit of the change (g or in).
    """

    change: str
    rule_points: float
    exact_points: float
    for_a_point: float


@dataclass(frozen=True)
class BareClub:
    """A trial club with its adapter taken out: mass, balance point, swing weight above D0."""

    mass_g: float
    balance_point_in: float
    swing_weight_points: float


@dataclass(frozen=True)
class HeadNearer:
    """How much less a club has where its head lies nearer to the grip than was taken."""

    balance_point_in: float
    inertia_about_butt_kg_cm2: float


def grams_per_point(from_butt_in: float) -> float:
    """Return the mass at a place that makes a point [g]; negative above the fulcrum.

    Raises:
        NotAFigure: the place is no number or above the butt.
        BuildRefused: it is over the fulcrum, where mass changes nothing.
    """
    if not math.isfinite(from_butt_in) or from_butt_in < 0:
        raise NotAFigure("A place on the club is a distance from its butt.")
    arm = from_butt_in - FULCRUM_IN
    if abs(arm) < 1e-9:
        raise BuildRefused("Mass over the fulcrum does not move the swing weight.")
    return IN_OZ_PER_POINT * G_PER_OUNCE / arm


def lengthened(
    parts: Sequence[Part], longer_in: float, *, shaft_g_per_in: float
) -> tuple[Part, ...]:
    """Return the parts of the same club built longer, of a longer piece of the same shaft.

    Head, ferrule and glue move away from the butt, grip and tape stay, the shaft's centre moves by
    its share and the shaft gains ``shaft_g_per_in`` for each inch (0: a shaft of the same mass).
    Negative is shorter. The shaft's own inertia is taken along unchanged.

    Raises:
        NotAFigure: a figure is no number, or a mass or a place would be below nought.
    """
    refuse_parts(parts)
    _refuse_figures(longer_in, shaft_g_per_in)
    return tuple(_moved(part, longer_in, shaft_g_per_in) for part in parts)


def butt_cut(
    parts: Sequence[Part], cut_in: float, *, shaft_g_per_in: float, cap_in: float
) -> tuple[Part, ...]:
    """Return the parts of a club after a piece is cut off its butt and the grip put on again.

    The piece takes its mass with it, from under the cap down; what is left lies nearer to the new
    butt by the cut.

    Raises:
        NotAFigure: a figure is no number, the cut below nought, or nothing would be left.
    """
    refuse_parts(parts)
    _refuse_figures(cut_in, shaft_g_per_in, cap_in)
    if cut_in < 0:
        raise NotAFigure("A cut is a length above nought.")
    cut_g = cut_in * shaft_g_per_in
    found = []
    for part in parts:
        if part.name in AT_THE_BUTT:
            found.append(part)
            continue
        lost = cut_g if part.name == SHAFT else 0.0
        left = part.mass_g - lost
        if left <= 0:
            raise NotAFigure("A cut can't take more than the shaft weighs.")
        about_old_butt = part.mass_g * part.from_butt_in - lost * (cap_in + cut_in / 2)
        found.append(
            replace(part, mass_g=left, from_butt_in=_place(about_old_butt / left - cut_in))
        )
    return tuple(found)


def changes_beside_rules(
    parts: Sequence[Part], *, shaft_g_per_in: float
) -> tuple[ChangeBesideRule, ...]:
    """Return what 2 g of head, 9 g of shaft, 5 g of grip and half an inch do, beside the rule.

    Raises:
        BuildRefused: head, shaft or grip is missing among the parts.
        NotAFigure: a figure is no number, or the parts have no mass.
    """
    now = balance(parts).swing_weight_points
    longer = balance(lengthened(parts, RULE_LENGTH_IN, shaft_g_per_in=shaft_g_per_in))
    by_length = longer.swing_weight_points - now
    if by_length <= 0:
        raise BuildRefused("A longer club must swing heavier: look at the parts' places.")
    return (
        _added(parts, HEAD, RULE_HEAD_G, rule_points=1.0),
        _added(parts, SHAFT, RULE_SHAFT_G, rule_points=1.0),
        _added(parts, GRIP, RULE_GRIP_G, rule_points=-1.0),
        ChangeBesideRule(
            "half an inch longer",
            RULE_LENGTH_POINTS,
            by_length,
            for_a_point=RULE_LENGTH_IN / by_length,
        ),
    )


def head_nearer(parts: Sequence[Part], points: float) -> HeadNearer:
    """Return what a head adds too much to a club that reads so many points less than reckoned.

    The masses being right, its centre is that much nearer to the grip. ``points`` from 0 up.

    Raises:
        BuildRefused: there is no one head, or it would lie above the butt.
        NotAFigure: a figure is no number, points below nought, or the parts have no mass.
    """
    refuse_parts(parts)
    _refuse_figures(points)
    if points < 0:
        raise NotAFigure("A head that lies nearer takes points off.")
    found = [part for part in parts if part.name == HEAD and part.mass_g > 0]
    if len(found) != 1:
        raise BuildRefused(f"There must be one {HEAD} to move; there are {len(found)}.")
    head, mass_g = found[0], math.fsum(part.mass_g for part in parts)
    moment_g_in = points * IN_OZ_PER_POINT * G_PER_OUNCE
    nearer_in = head.from_butt_in - moment_g_in / head.mass_g
    if nearer_in < 0:
        raise BuildRefused("So much can't be the head's place: it would lie above the butt.")
    squares_cm2 = (head.from_butt_in**2 - nearer_in**2) * CM_PER_INCH**2
    return HeadNearer(moment_g_in / mass_g, head.mass_g / 1000 * squares_cm2)


def without_adapter(
    *, mass_g: float, swing_weight_points: float, adapter_g: float, adapter_from_butt_in: float
) -> BareClub:
    """Return a trial club's balance as it would be without its adapter.

    Args:
        mass_g: of the trial club on the scale, adapter and all.
        swing_weight_points: as its scale shows it [points above D0].
        adapter_g: mass of the adapter (common practice: 5 to 12).
        adapter_from_butt_in: where the adapter's centre is.

    Raises:
        NotAFigure: a figure is no number, a mass or a place below nought.
        BuildRefused: the adapter weighs as much as the whole club.
    """
    _refuse_figures(mass_g, swing_weight_points, adapter_g, adapter_from_butt_in)
    if mass_g <= 0 or adapter_g < 0 or adapter_from_butt_in < 0:
        raise NotAFigure("A club and its adapter have a mass, and the adapter has a place.")
    left_g = mass_g - adapter_g
    if left_g <= 0:
        raise BuildRefused("The adapter can't weigh as much as the whole club.")
    taken = adapter_g * (adapter_from_butt_in - FULCRUM_IN) / G_PER_OUNCE
    moment = moment_of_swing_weight(swing_weight_points) - taken
    return BareClub(
        mass_g=left_g,
        balance_point_in=FULCRUM_IN + moment * G_PER_OUNCE / left_g,
        swing_weight_points=swing_weight_of_moment(moment),
    )


def _added(
    parts: Sequence[Part], name: str, mass_g: float, *, rule_points: float
) -> ChangeBesideRule:
    found = [part for part in parts if part.name == name]
    if len(found) != 1:
        raise BuildRefused(f"There must be one {name} to weigh; there are {len(found)}.")
    for_a_point = grams_per_point(found[0].from_butt_in)
    return ChangeBesideRule(
        f"{mass_g:g} g more {name}", rule_points, mass_g / for_a_point, abs(for_a_point)
    )


def _moved(part: Part, longer_in: float, shaft_g_per_in: float) -> Part:
    if part.name in AT_THE_BUTT:
        return part
    if part.name != SHAFT:
        return replace(part, from_butt_in=_place(part.from_butt_in + longer_in))
    return replace(
        part,
        mass_g=_place(part.mass_g + longer_in * shaft_g_per_in),
        from_butt_in=_place(part.from_butt_in + SHAFT_CENTRE * longer_in),
    )


def _place(figure: float) -> float:
    if figure < 0:
        raise NotAFigure("The club would be shorter than nothing.")
    return figure


def _refuse_figures(*figures: float) -> None:
    if not all(math.isfinite(figure) for figure in figures):
        raise NotAFigure("A change of a club needs figures that are numbers.")
