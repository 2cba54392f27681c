"""The swing weight of a club from its parts, and the weight that its hosel wants.

A forecast from stated masses; the scale decides. Assumptions, common practice: the head's centre
lies at the club's length along the shaft; a shaft loses mass with its length evenly; a grip's
centre is at two fifths of its length. Ferrule and epoxy act at the top of the hosel (one sits a
little above it, the other a little below: together not a quarter of an inch off, a hundredth of a
point); a layer of tape in the middle of what it covers.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from sessions.maths.balance import (
    FULCRUM_IN,
    G_PER_OUNCE,
    IN_OZ_PER_POINT,
    AddedWeight,
    Balance,
    Part,
    balance,
    rod_inertia_kg_cm2,
    weight_to_add,
)
from sessions.maths.balance_changes import GRIP, HEAD, SHAFT, TAPE
from sessions.maths.errors import MathsError

MM_PER_INCH = 25.4
GRIP_CENTRE = 0.4
EPOXY, FERRULE = "epoxy", "ferrule"
# Where a bore ends above the ground, for a head that was not gauged. Common practice.
USUAL_BORE_TO_GROUND_MM = Decimal(30)
# The lower hand's tape covers the lower half of the grip.
LOWER_HALF, LOWER_CENTRE = 0.5, 0.75


@dataclass(frozen=True, slots=True)
class Fixings:
    """What holds the parts together, as the shop has set it: what stays in the joint and what a
    ferrule and one layer of tape over the whole grip weigh [g], the layers that hold any grip,
    and how deep a shaft usually stands in its hosel [mm]."""

    epoxy_g: Decimal
    ferrule_g: Decimal
    tape_g: Decimal
    base_layers: int
    insertion_mm: Decimal


@dataclass(frozen=True, slots=True)
class DryParts:
    """One club's parts [mm and g]; None where a figure isn't known.

    `insertion_mm` is the hosel's depth as it was gauged: None until then, and the shop's usual
    one counts. Extra layers are those beyond the base tape.
    """

    length_mm: Decimal
    head_g: Decimal | None
    bore_to_ground_mm: Decimal | None
    shaft_g: Decimal | None
    shaft_raw_mm: Decimal | None
    shaft_balance_mm: Decimal | None
    tip_trim_mm: Decimal
    grip_g: Decimal | None
    grip_length_mm: Decimal | None
    cap_mm: Decimal | None
    extra_layers: int = 0
    lower_extra_layers: int = 0
    has_ferrule: bool = True
    insertion_mm: Decimal | None = None


@dataclass(frozen=True, slots=True)
class DryWeight:
    """What the parts come to glued, nothing added [points above D0]; how much of that is the
    epoxy, which no dry scale sees; and what is to be added for the target.

    `finished` is the whole club, with as much weight in its hosel as is wanted and allowed.
    """

    points: float
    epoxy_points: float
    added: AddedWeight | None
    finished: Balance

    @property
    def dry_points(self) -> float:
        """As the scale shows it before gluing: ferrule on, grip and tape laid on, no epoxy."""
        return self.points - self.epoxy_points


def wants_ferrule(words: str) -> bool:
    """False where the spec says `none`; a ferrule that nobody named yet is still one."""
    return words.strip().casefold() != "none"


def dry_weight(
    parts: DryParts, fixings: Fixings, *, target_points: Decimal | None, most_added_g: Decimal
) -> DryWeight | None:
    """Return the forecast, or None where one of the parts' figures isn't known."""
    found = dry_club(parts, fixings)
    if found is None or parts.bore_to_ground_mm is None:
        return None
    at_in = float(parts.length_mm - parts.bore_to_ground_mm) / MM_PER_INCH
    try:
        points = balance(found).swing_weight_points
        added = (
            weight_to_add(
                found,
                float(target_points),
                at_in=at_in,
                most_allowed_g=float(most_added_g),
            )
            if target_points is not None
            else None
        )
        used = 0.0 if added is None else min(max(added.mass_g, 0.0), added.most_allowed_g)
        finished = balance([*found, Part("weight", used, at_in)])
    except MathsError:
        return None
    return DryWeight(points, epoxy_points(parts, fixings), added, finished)


def epoxy_points(parts: DryParts, fixings: Fixings) -> float:
    """How many points of a glued club are its epoxy's: so much less does the dry scale show.

    A bore not gauged is taken where bores usually end: 10 mm are not a fiftieth of a point.
    """
    top_mm = float(parts.length_mm) - _top_to_ground(parts, fixings)
    moment_g_in = float(fixings.epoxy_g) * (top_mm / MM_PER_INCH - FULCRUM_IN)
    return moment_g_in / (IN_OZ_PER_POINT * G_PER_OUNCE)


def dry_club(parts: DryParts, fixings: Fixings) -> list[Part] | None:
    """Return head, shaft as cut, grip, and what of the fixings weighs anything, with their
    places; or None where a figure isn't known or the shaft is too short for the club."""
    known = (
        parts.head_g,
        parts.shaft_g,
        parts.shaft_raw_mm,
        parts.shaft_balance_mm,
        parts.grip_g,
        parts.grip_length_mm,
        parts.cap_mm,
        parts.bore_to_ground_mm,
    )
    if any(figure is None for figure in known):
        return None
    head, shaft, raw, centre, grip, grip_length, cap, to_ground = (
        float(figure) for figure in known if figure is not None
    )
    length = float(parts.length_mm)
    tip = float(parts.tip_trim_mm)
    cut = length - cap - to_ground
    butt = raw - tip - cut
    if cut <= 0 or butt < 0 or min(shaft, raw) <= 0 or min(grip, grip_length) < 0:
        return None
    density = shaft / raw
    left = density * cut
    moment = shaft * centre - density * butt * butt / 2 - density * tip * (raw - tip / 2)
    from_butt = moment / left - butt + cap
    return [
        Part(HEAD, head, length / MM_PER_INCH),
        Part(SHAFT, left, from_butt / MM_PER_INCH, _rod(left, cut)),
        Part(GRIP, grip, grip_length * GRIP_CENTRE / MM_PER_INCH, _rod(grip, grip_length)),
        *_fixed(parts, fixings, grip_length),
    ]


def _fixed(parts: DryParts, fixings: Fixings, grip_mm: float) -> tuple[Part, ...]:
    """Ferrule and epoxy at the hosel's top, tape under the grip."""
    top_in = (float(parts.length_mm) - _top_to_ground(parts, fixings)) / MM_PER_INCH
    layer_g = float(fixings.tape_g)
    whole_g = layer_g * (fixings.base_layers + parts.extra_layers)
    lower_g = layer_g * parts.lower_extra_layers * LOWER_HALF
    tape_g = whole_g + lower_g
    share = lower_g / tape_g if tape_g else 0.0
    tape_in = grip_mm * (0.5 + (LOWER_CENTRE - 0.5) * share) / MM_PER_INCH
    found = (
        Part(FERRULE, float(fixings.ferrule_g) if parts.has_ferrule else 0.0, top_in),
        Part(EPOXY, float(fixings.epoxy_g), top_in),
        Part(TAPE, tape_g, tape_in),
    )
    return tuple(part for part in found if part.mass_g)


def _top_to_ground(parts: DryParts, fixings: Fixings) -> float:
    """How far the hosel's top is from the ground along the shaft [mm]."""
    to_ground, deep = parts.bore_to_ground_mm, parts.insertion_mm
    return float(
        (USUAL_BORE_TO_GROUND_MM if to_ground is None else to_ground)
        + (fixings.insertion_mm if deep is None else deep)
    )


def _rod(mass_g: float, length_mm: float) -> float:
    """The own inertia of a part that is long, as an even rod's."""
    return rod_inertia_kg_cm2(mass_g, length_mm / MM_PER_INCH)
