"""What a club does as it is delivered, in words: a wrong lie, another length, a lean, an open face.

Said beside what a person decides, never judged: how a club comes to the ball is the player's.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from sessions.maths.delivery import (
    Hand,
    leaned,
    lie_error,
    lie_of_length,
    opened_face,
    sole_to_path,
)
from sessions.maths.errors import NotAFigure
from sessions.maths.shown import show_degrees, show_distance, show_length
from sessions.maths.unit_factors import DistanceUnit

# What is spoken of where nobody measured it: a little lean, a face well open, a usual wedge lie.
# Common practice.
LEAN_DEG = 5.0
OPEN_DEG = 20.0
USUAL_LIE_DEG = 64.0
# A sixteenth of an inch: no shorter change of length is spoken of.
LEAST_CHANGE_MM = Decimal("1.5875")
RIGHT: Hand = "right"


def face_of_lie_words(loft_deg: Decimal, too_upright_deg: Decimal, hand: Hand) -> str:
    """Where a lie that is too upright (negative: too flat) points the face: `1.5° left`.

    >>> face_of_lie_words(Decimal(56), Decimal(1), "right")
    '1.5° left'
    """
    side = lie_error(float(loft_deg), float(too_upright_deg), hand).face_deg
    return f"{show_degrees(abs(side))}° {'right' if side > 0 else 'left'}"


def degree_of_lie_words(
    loft_deg: Decimal | None, carry_m: float | None, hand: str, unit: DistanceUnit
) -> str:
    """What a degree of lie does to this club: the face, and how far aside at most at its carry.

    Nothing without a loft or a hand; without a carry the face alone.
    """
    if loft_deg is None or hand not in ("right", "left"):
        return ""
    try:
        wrong = lie_error(float(loft_deg), 1.0, "right" if hand == "right" else "left")
    except NotAFigure:
        return ""
    way, other = ("right", "left") if wrong.face_deg > 0 else ("left", "right")
    said = f"A degree too upright points the face {show_degrees(abs(wrong.face_deg))}° {way}"
    if carry_m is not None:
        aside = show_distance(abs(wrong.side_m(carry_m)), unit, 1)
        said += f", at {show_distance(carry_m, unit)} about {aside} aside at most"
    return f"{said}; a degree too flat as much {other}."


def lie_of_length_words(
    length_mm: Decimal | None,
    *,
    of: str,
    known_length_mm: Decimal | None,
    known_lie_deg: Decimal | None,
    unit: Literal["in", "mm"],
) -> str:
    """The lie that plays level at another length than the one where a lie is known.

    `of` names the club the known length and lie are of. Nothing where either is not known, or
    where the lengths are the same.
    """
    if length_mm is None or known_length_mm is None or known_lie_deg is None:
        return ""
    longer = length_mm - known_length_mm
    if abs(longer) < LEAST_CHANGE_MM:
        return ""
    try:
        found = lie_of_length(float(known_lie_deg), float(known_length_mm), float(longer))
    except NotAFigure:
        return ""
    way = "flatter" if found.change_deg < 0 else "more upright"
    return (
        f"{of} has {show_degrees(known_lie_deg)}° at {show_length(known_length_mm, unit)}: at "
        f"{show_length(length_mm, unit)}, the hands as high, {show_degrees(found.lie_deg)}° plays "
        f"as level ({show_degrees(abs(found.change_deg))} {way}; by the trade's rule "
        f"{show_degrees(abs(found.rule_deg))}, since half is often taken up by how one stands)."
    )


def delivered_bounce_words(
    loft_deg: Decimal,
    low_deg: Decimal | None,
    high_deg: Decimal | None,
    attack_deg: Decimal | None = None,
) -> str:
    """What a suggested bounce is with the shaft leaned forward, and with the face opened.

    `high_deg` is None for a bounce of so much and more. With a measured angle of attack (downwards
    negative), how the square sole stands to the head's own path. Nothing without a bounce.
    """
    if low_deg is None:
        return ""
    ends = [float(low_deg)] if high_deg is None else [float(low_deg), float(high_deg)]
    loft = float(loft_deg)
    try:
        lean = [leaned(loft, end, LEAN_DEG).bounce_deg for end in ends]
        opened = [opened_face(loft, end, USUAL_LIE_DEG, OPEN_DEG, RIGHT).bounce_deg for end in ends]
        said = (
            f"Bounce as it meets the ground: leaned {LEAN_DEG:.0f}°, {_span(lean)}; "
            f"opened {OPEN_DEG:.0f}°, {_span(opened)}"
        )
        if attack_deg is None:
            return f"{said}."
        to_path = [sole_to_path(end, float(attack_deg)) for end in ends]
    except NotAFigure:
        return ""
    return f"{said}; square, to the path of the measured attack, {_span(to_path)}."


def _span(figures_deg: list[float]) -> str:
    """`2 to 5°`, to the degree: what is leaned or opened is never known closer."""
    said = [f"{figure:.0f}".replace("-", "\N{MINUS SIGN}") for figure in figures_deg]
    if len(said) == 1:
        return f"{said[0]}° and more"
    return f"{said[0]}°" if said[0] == said[1] else f"{said[0]} to {said[1]}°"
