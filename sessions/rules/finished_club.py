"""What a club comes to from its parts, in words: what is counted in, what it is, how far off.

A forecast: each figure is said with its doubt, and the scale decides.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from sessions.maths.balance_changes import head_nearer
from sessions.maths.errors import MathsError
from sessions.maths.shown import show_length, show_mass, show_swing_weight
from sessions.rules.dry_weight import (
    MM_PER_INCH,
    DryParts,
    DryWeight,
    Fixings,
    dry_club,
    dry_weight,
)
from sessions.rules.spec_limits import SpecLimits
from sessions.rules.wording import figure, listed

WHAT_INERTIA_IS = (
    "The moment of inertia says how hard a club is to set swinging about its butt end: a gram "
    "counts by the square of its distance."
)


@dataclass(frozen=True, slots=True)
class FinishedClub:
    """(label, words) of what the finished club comes to; what is counted in; what else is said."""

    rows: tuple[tuple[str, str], ...]
    counted: str
    notes: tuple[str, ...]


def finished_club(
    parts: DryParts,
    limits: SpecLimits,
    *,
    target_points: Decimal | None,
    unit: Literal["in", "mm"],
    is_head_weighed: bool = False,
) -> FinishedClub | None:
    """The whole club, with what its hosel wants; None where a figure of its parts isn't known."""
    fixings = limits.fixings()
    found = dry_weight(
        parts, fixings, target_points=target_points, most_added_g=limits.most_added_g
    )
    if found is None:
        return None
    whole = found.finished
    try:
        swing_weight = _swing_weight(found)
        doubt = _doubt(parts, fixings, limits.swing_weight_doubt, unit)
    except MathsError:
        # Parts that make no club: off the scale, or a head above its own grip.
        return None
    weighed = ", the head's as weighed" if is_head_weighed else ""
    return FinishedClub(
        rows=(
            ("Swing weight", swing_weight),
            ("Whole club", f"about {show_mass(round(whole.mass_g))}"),
            ("Balance point", f"about {_inches(whole.balance_point_in, unit)} from the butt end"),
            ("Moment of inertia", f"about {_inertia(whole.inertia_about_butt_kg_cm2)}"),
        ),
        counted=f"{counted_words(parts, fixings).capitalize()}.",
        notes=(WHAT_INERTIA_IS, f"Masses are as the makers state them{weighed}. {doubt}".rstrip()),
    )


def counted_words(parts: DryParts, fixings: Fixings) -> str:
    """`with 2 g of epoxy and a 1 g ferrule, as the shop's settings say`, and the tape."""
    said = []
    if fixings.epoxy_g:
        said.append(f"{show_mass(fixings.epoxy_g)} of epoxy")
    if fixings.ferrule_g and parts.has_ferrule:
        said.append(f"a {show_mass(fixings.ferrule_g)} ferrule")
    if tape := _tape(parts, fixings):
        said.append(tape)
    if not said:
        return "with no epoxy, ferrule or tape counted in, as the shop's settings say"
    return f"with {listed(said)}, as the shop's settings say"


def _tape(parts: DryParts, fixings: Fixings) -> str:
    """`one layer of tape (2 g)`, `3 layers of tape (2 g each)`; the lower hand's apart."""
    whole, lower = fixings.base_layers + parts.extra_layers, parts.lower_extra_layers
    if not fixings.tape_g or not (whole or lower):
        return ""
    layer = show_mass(fixings.tape_g)
    if not lower:
        return f"{_layers(whole)} ({layer}{'' if whole == 1 else ' each'})"
    more = f"{_layers(whole)} with {lower} more" if whole else _layers(lower)
    return f"{more} under the lower hand ({layer} for a whole layer)"


def _layers(count: int) -> str:
    return "one layer of tape" if count == 1 else f"{count} layers of tape"


def _swing_weight(found: DryWeight) -> str:
    """`about D1.9; D3 with about 2.4 g in its hosel`."""
    start = f"about {show_swing_weight(found.points)}"
    added = found.added
    if added is None or round(added.mass_g, 1) <= 0:
        return f"{start} with nothing added"
    if not added.is_allowed:
        most = show_mass(added.most_allowed_g)
        return f"{start}; {show_swing_weight(added.reached_points)} with {most}, the most, added"
    reached = show_swing_weight(added.reached_points)
    return f"{start}; {reached} with about {show_mass(added.mass_g)} added"


def _doubt(parts: DryParts, fixings: Fixings, points: Decimal, unit: Literal["in", "mm"]) -> str:
    """How much too high the figures may be where the head's centre lies nearer to the grip."""
    club = dry_club(parts, fixings)
    if club is None or not points:
        return ""
    less = head_nearer(club, float(points))
    # Both rounded up: a doubt is never said smaller than it is.
    step_in = 1 / 16 if unit == "in" else 1 / MM_PER_INCH
    nearer_in = math.ceil(less.balance_point_in / step_in) * step_in
    inertia = math.ceil(less.inertia_about_butt_kg_cm2 / 10) * 10
    return (
        "The head's centre is taken at the club's full length; where it lies nearer to the grip, "
        f"these are up to {figure(points)} {'point' if points == 1 else 'points'}, "
        f"{_inches(nearer_in, unit)} and {_inertia(inertia)} less."
    )


def _inches(figure_in: float, unit: Literal["in", "mm"]) -> str:
    return show_length(Decimal(str(figure_in * MM_PER_INCH)), unit)


def _inertia(kg_cm2: float) -> str:
    """To the nearest ten: parts as stated tell no more."""
    return f"{round(kg_cm2, -1):,.0f} kg cm²"
