"""The trial club with its fitting adapter taken out, and what the target then means.

The player chose what he felt, adapter and all; so the target of a draft is what was felt. The
club is built without an adapter, and whoever asks for its weight should know that he does.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from sessions.maths.balance_changes import grams_per_point, without_adapter
from sessions.maths.errors import MathsError
from sessions.maths.shown import show_mass, show_swing_weight
from sessions.rules.dry_weight import MM_PER_INCH, USUAL_BORE_TO_GROUND_MM

# What is worked out "about" is said to half a point; so much counts as the same.
HALF_A_POINT = 0.5


@dataclass(frozen=True, slots=True)
class TriedClub:
    """A trial club as it was weighed, adapter and all, and what the spec asks for."""

    adapter_g: Decimal | None
    swing_weight_points: Decimal | None
    mass_g: Decimal | None
    length_mm: Decimal | None
    bore_to_ground_mm: Decimal | None
    target_points: Decimal | None
    target_mass_g: Decimal | None


def as_tried(club: TriedClub) -> tuple[str, ...]:
    """What was felt, what it is without the adapter, and what the target means: sentences."""
    if club.adapter_g is None:
        return (
            "No adapter was written down with this trial club; if it had one, its weight was "
            "felt too.",
        )
    counts = _adapter_points(club)
    said = [_felt(club, club.adapter_g, counts)]
    if counts is not None:
        said.append(_target(club, counts))
    if club.target_mass_g is not None and club.mass_g is not None:
        over = club.target_mass_g - (club.mass_g - club.adapter_g)
        if over > club.adapter_g / 2:
            said.append(
                f"The whole club is asked for at {show_mass(club.target_mass_g)}: the adapter's "
                f"{show_mass(club.adapter_g)} are in that."
            )
    return tuple(said)


def _adapter_points(club: TriedClub) -> float | None:
    """How many points of the swing weight as tried are the adapter's."""
    place = _place_in(club)
    if place is None or club.adapter_g is None:
        return None
    try:
        return float(club.adapter_g) / grams_per_point(place)
    except MathsError:
        return None


def _place_in(club: TriedClub) -> float | None:
    if club.length_mm is None:
        return None
    # An adapter sits at the end of the shaft, where a bore ends; 10 mm more or less are a tenth of
    # a point.
    to_ground = club.bore_to_ground_mm
    if to_ground is None:
        to_ground = USUAL_BORE_TO_GROUND_MM
    return float(club.length_mm - to_ground) / MM_PER_INCH


def _felt(club: TriedClub, adapter_g: Decimal, counts: float | None) -> str:
    points, mass = club.swing_weight_points, club.mass_g
    start = f"As tried, with its {show_mass(adapter_g)} adapter: "
    left_g = None if mass is None else show_mass(mass - adapter_g)
    if points is None:
        weighed = "" if mass is None else f"{show_mass(mass)}, "
        without = [] if left_g is None else [left_g]
        if counts is not None:
            without.append(f"about {_half_points(counts)} less")
        ends = f" Without it {' and '.join(without)}." if without else ""
        return f"{start}{weighed}swing weight not read.{ends}"
    felt = show_swing_weight(points)
    if mass is None or left_g is None:
        without_it = "" if counts is None else f" Without it about {_bare(float(points) - counts)}."
        return f"{start}{felt}, the whole club not weighed.{without_it}"
    place = _place_in(club)
    if place is None:
        return f"{start}{felt} and {show_mass(mass)}. Without it {left_g}; its length is not known."
    bare = without_adapter(
        mass_g=float(mass),
        swing_weight_points=float(points),
        adapter_g=float(adapter_g),
        adapter_from_butt_in=place,
    )
    return (
        f"{start}{felt} and {show_mass(mass)}. Without it about "
        f"{_bare(bare.swing_weight_points)} and {show_mass(bare.mass_g)}."
    )


def _target(club: TriedClub, counts: float) -> str:
    target, felt = club.target_points, club.swing_weight_points
    if target is None:
        return (
            "No swing weight is asked for: with the same parts it comes out about "
            f"{_half_points(counts)} lighter in the head than what was felt."
        )
    if felt is None:
        return (
            "Read the trial club on the scale, adapter and all, to hold the target "
            f"{show_swing_weight(target)} against what was felt."
        )
    bare = float(felt) - counts
    if target == felt:
        return (
            "The target stays what was felt: the bench makes up for the adapter with the head or "
            f"in the hosel. To have the club without that weight, ask for about {_bare(bare)}."
        )
    if abs(float(target) - bare) <= HALF_A_POINT:
        return (
            f"The target {show_swing_weight(target)} is the club without its adapter: lighter in "
            "the head than what was felt."
        )
    side = "above" if target > felt else "below"
    return (
        f"The target {show_swing_weight(target)} is {_points(abs(float(target - felt)))} {side} "
        "what was felt."
    )


def _bare(points: float) -> str:
    return show_swing_weight(_half(points))


def _half_points(points: float) -> str:
    return _points(_half(points))


def _half(points: float) -> float:
    return round(points * 2) / 2


def _points(points: float) -> str:
    size = f"{points:.1f}".removesuffix(".0")
    return f"{size} {'point' if size == '1' else 'points'}"
