"""Where a shaft is cut and how thick a grip comes out.

Lengths are exact decimals in millimetres, as they are stored. Cut order: tip first, butt last.
Tip diameters and trimming are common practice: a parallel tip may be trimmed, a taper tip never.
"""

import math
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import Literal

from sessions.maths.errors import BuildRefused, NotAFigure
from sessions.maths.unit_factors import MM_PER_INCH

TipKind = Literal["parallel", "taper"]

SIXTEENTH_MM = MM_PER_INCH / 16
# The plane that the Rules lay the sole against [degrees] (key ``club-length-protocol``).
RULES_PLANE_DEG = 60.0


@dataclass(frozen=True)
class ShaftCut:
    """What to cut [mm]: from the tip first, then from the butt, and what is left."""

    tip_trim_mm: Decimal
    butt_cut_mm: Decimal
    cut_length_mm: Decimal


@dataclass(frozen=True)
class GripFit:
    """A grip put on: diameters [mm] under and over the rubber, and what it differs from its own.

    ``outside_mm`` is a prediction; the calliper reading, 2 in under the cap, is what counts.
    """

    under_mm: Decimal
    outside_mm: Decimal
    wider_by_mm: Decimal


def shaft_cut(
    *,
    club_length_mm: Decimal,
    raw_length_mm: Decimal,
    bore_bottom_to_ground_mm: Decimal,
    cap_mm: Decimal,
    tip_kind: TipKind,
    tip_trim_mm: Decimal = Decimal(0),
    bore_depth_mm: Decimal | None = None,
    insertion_mm: Decimal | None = None,
    least_insertion_mm: Decimal = Decimal(0),
) -> ShaftCut:
    """Return what to cut off a raw shaft for a club of a given length.

    Cut length = club length - cap - bottom of the bore to the ground along the shaft (nought for
    a through bore); what the tip trim leaves over comes off the butt. A shaft that does not bottom
    stands higher by bore depth - insertion, and is cut shorter by as much.

    Args:
        club_length_mm: finished length, grip cap included, as the Rules measure it.
        raw_length_mm: the shaft as it comes.
        bore_bottom_to_ground_mm: along the shaft, from where it bottoms to the ground line.
        cap_mm: thickness of the grip's cap.
        tip_kind: a taper tip is never trimmed.
        tip_trim_mm: taken off the tip.
        bore_depth_mm: as gauged; None where the shaft bottoms and nobody gauged it.
        insertion_mm: how deep the shaft stands; None where it bottoms.
        least_insertion_mm: what the shop asks for at least.

    Raises:
        BuildRefused: a taper tip would be trimmed, the shaft would stand less deep than the least
            or deeper than its bore, or the shaft is too short; the sentence says by how much.
        NotAFigure: a figure is no number or below nought.
    """
    figures = (club_length_mm, raw_length_mm, bore_bottom_to_ground_mm, cap_mm, tip_trim_mm)
    if not all(figure.is_finite() and figure >= 0 for figure in figures):
        raise NotAFigure("Cutting a shaft needs lengths that are numbers, none below 0.")
    if tip_kind == "taper" and tip_trim_mm > 0:
        raise BuildRefused("A taper tip is never trimmed: choose the shaft by its length.")
    raised = _stands_above_bottom(bore_depth_mm, insertion_mm, least_insertion_mm)
    wanted = club_length_mm - cap_mm - bore_bottom_to_ground_mm - raised
    if wanted <= 0:
        raise BuildRefused("The club is shorter than its cap and its bore: check the lengths.")
    butt = raw_length_mm - tip_trim_mm - wanted
    if butt < 0:
        raise BuildRefused(
            f"The shaft is too short by {(-butt / MM_PER_INCH).quantize(Decimal('0.01'))} in: "
            "choose a longer one."
        )
    return ShaftCut(tip_trim_mm=tip_trim_mm, butt_cut_mm=butt, cut_length_mm=wanted)


def _stands_above_bottom(
    depth_mm: Decimal | None, insertion_mm: Decimal | None, least_mm: Decimal
) -> Decimal:
    """How far above the bore's bottom the shaft ends [mm]; nought where it bottoms."""
    known = [figure for figure in (depth_mm, insertion_mm) if figure is not None]
    if not all(figure.is_finite() and figure >= 0 for figure in (*known, least_mm)):
        raise NotAFigure("An insertion needs lengths that are numbers, none below 0.")
    stands = depth_mm if insertion_mm is None else insertion_mm
    if stands is not None and stands < least_mm:
        raise BuildRefused(
            f"The shaft would stand {_inches(stands)} in deep; {_inches(least_mm)} in is the least."
        )
    if insertion_mm is None or depth_mm is None:
        return Decimal(0)
    if insertion_mm > depth_mm:
        raise BuildRefused(
            f"The bore is {_inches(depth_mm)} in deep: a shaft can't stand "
            f"{_inches(insertion_mm)} in in it."
        )
    return depth_mm - insertion_mm


def _inches(length_mm: Decimal) -> Decimal:
    return (length_mm / MM_PER_INCH).quantize(Decimal("0.01"), ROUND_HALF_UP)


def length_by_ruler(
    rules_length_mm: Decimal, *, lie_deg: Decimal, sole_point_mm: Decimal
) -> Decimal:
    """Return the length that a bench ruler shows for a length by the Rules' method [mm].

    The Rules lay the sole against a plane at 60 degrees and measure from where it meets the back
    of the shaft. A ruler along the shaft of a club that stands at its own lie measures from where
    the bench meets it. Both planes touch the sole at the same point, p from the back of the
    shaft, so the two differ by p (cot 60 - cot lie): nothing at a lie of 60, and the ruler shows
    more for a more upright club.

    Args:
        rules_length_mm: by the Rules' method, cap included.
        lie_deg: the lie the club stands at.
        sole_point_mm: square to the shaft, from its back to where the sole touches.

    Raises:
        NotAFigure: a figure is no number, a length is below nought, a lie is not 45 to 80 degrees.

    Assumption: the sole touches at one point; a rocker moves it a little, and the reading decides.

    >>> length_by_ruler(Decimal(900), lie_deg=Decimal(60), sole_point_mm=Decimal(30))
    Decimal('900.0000')
    """
    figures = (rules_length_mm, lie_deg, sole_point_mm)
    if not all(figure.is_finite() and figure >= 0 for figure in figures):
        raise NotAFigure("A length by the ruler needs figures that are numbers, none below 0.")
    return _exact(rules_length_mm + _ruler_shows_more(lie_deg, sole_point_mm))


def length_by_rules(
    ruler_length_mm: Decimal, *, lie_deg: Decimal, sole_point_mm: Decimal
) -> Decimal:
    """Return the length by the Rules' method of a club that a bench ruler shows so long [mm].

    The way back from `length_by_ruler`: the same arguments, assumption and refusals.

    >>> length_by_rules(Decimal(900), lie_deg=Decimal(60), sole_point_mm=Decimal(30))
    Decimal('900.0000')
    """
    figures = (ruler_length_mm, lie_deg, sole_point_mm)
    if not all(figure.is_finite() and figure >= 0 for figure in figures):
        raise NotAFigure("A length by the Rules needs figures that are numbers, none below 0.")
    return _exact(ruler_length_mm - _ruler_shows_more(lie_deg, sole_point_mm))


def _ruler_shows_more(lie_deg: Decimal, sole_point_mm: Decimal) -> Decimal:
    """By how much the ruler shows more than the Rules' method [mm]; below 0 for a flat club."""
    if not 45 <= lie_deg <= 80:
        raise NotAFigure("A lie is 45 to 80 degrees.")
    cotangents = _cot(RULES_PLANE_DEG) - _cot(float(lie_deg))
    return Decimal(float(sole_point_mm) * cotangents)


def _exact(length_mm: Decimal) -> Decimal:
    return length_mm.quantize(Decimal("0.0001"), rounding=ROUND_HALF_UP)


def _cot(angle_deg: float) -> float:
    return 1.0 / math.tan(math.radians(angle_deg))


def grip_fit(
    *,
    butt_mm: Decimal,
    core_mm: Decimal,
    grip_outside_mm: Decimal,
    base_layers: int = 1,
    extra_layers: int = 0,
    tape_mm: Decimal,
) -> GripFit:
    """Return how thick a grip comes out over a butt and its tape.

    The rubber keeps the area of its section: outside' = root of (outside^2 + under^2 - core^2).
    Each layer of tape adds twice its thickness to what is under the rubber.

    Args:
        butt_mm: the butt's diameter, measured **after** the cut.
        core_mm: the grip's core diameter as made.
        grip_outside_mm: the grip's outside diameter on a butt of its core's size.
        base_layers: the tape that holds the grip; it is not build-up but adds like it.
        extra_layers: build-up.
        tape_mm: thickness of one layer, the shop's setting.

    Raises:
        NotAFigure: a figure is no number, or a diameter or a layer makes no sense.
    """
    figures = (butt_mm, core_mm, grip_outside_mm, tape_mm)
    if not all(figure.is_finite() and figure > 0 for figure in figures):
        raise NotAFigure("A grip needs diameters and tape that are numbers above 0.")
    if base_layers < 0 or extra_layers < 0:
        raise NotAFigure("Tape is counted in layers, none below 0.")
    if grip_outside_mm <= core_mm:
        raise NotAFigure("A grip is wider outside than its core.")
    under = butt_mm + 2 * tape_mm * (base_layers + extra_layers)
    outside = (grip_outside_mm**2 + under**2 - core_mm**2).sqrt()
    return GripFit(under_mm=under, outside_mm=outside, wider_by_mm=outside - grip_outside_mm)


def nearest_sixteenth(length_mm: Decimal) -> Decimal:
    """Return a length rounded to the nearest sixteenth of an inch [mm], exactly."""
    if not length_mm.is_finite():
        raise NotAFigure("A length to round must be a number.")
    return (length_mm / SIXTEENTH_MM).quantize(Decimal(1), ROUND_HALF_UP) * SIXTEENTH_MM
