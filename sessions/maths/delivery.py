"""Where the face points and what the sole shows, as the club is delivered.

Two borders are crossed here and nowhere else. The geometry of the sources is a right-hander's
with angles positive to the left; everything that goes in or comes out is **positive to the
player's right**, and a left-hander is the right-hander's mirror image. Angles in degrees.

Assumptions: the head is rigid; each change is one rotation; a face direction is the face's
normal, not the ball's start, which also follows the path: distances from it are an upper bound.
"""

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from sessions.maths.errors import NotAFigure

Hand = Literal["right", "left"]

# The trade's rule: half an inch of length is worth a degree of lie. Common practice.
RULE_DEG_PER_INCH = 2.0
MM_PER_INCH = 25.4

# Guards of ours against figures in another unit or of another field, wide of any real delivery.
MOST_LIE_ERROR_DEG = 20
MOST_LEAN_DEG = 60
LONGEST_MM = 1500


@dataclass(frozen=True)
class LieError:
    """What a wrong lie does: face direction (right positive) and the loft that is left [deg]."""

    face_deg: float
    loft_deg: float

    def side_m(self, distance_m: float) -> float:
        """Return how far right the face points at a distance [m]: an upper bound for the ball."""
        return distance_m * math.tan(math.radians(self.face_deg))


@dataclass(frozen=True)
class Delivered:
    """Loft and bounce at the ball [deg]; a bounce may be negative."""

    loft_deg: float
    bounce_deg: float


@dataclass(frozen=True)
class OpenedFace:
    """An opened face: direction (right positive), loft, bounce along the target line [deg]."""

    face_deg: float
    loft_deg: float
    bounce_deg: float
    bounce_across_edge_deg: float


def lie_error(delivered_loft_deg: float, too_upright_deg: float, hand: Hand) -> LieError:
    """Return what a lie that is too upright (negative: too flat) does to the face.

    Exact rotation of the head about the target line: tan(face) = tan(loft) sin(error) and
    sin(new loft) = sin(loft) cos(error). Too upright points a right-hander's face left, a
    left-hander's right.

    Args:
        delivered_loft_deg: loft at the ball, not the loft on the gauge.
        too_upright_deg: how much too upright the club is for the delivery.
        hand: the player's.

    Raises:
        NotAFigure: an angle is no number, the loft is not between 0 and 90, the lie wrong by more
            than 20 degrees, or the hand neither right nor left.
    """
    _refuse_no_loft(delivered_loft_deg, too_upright_deg)
    _refuse_no_hand(hand)
    if abs(too_upright_deg) > MOST_LIE_ERROR_DEG:
        raise NotAFigure(f"A lie is not wrong by more than {MOST_LIE_ERROR_DEG} degrees.")
    loft, error = math.radians(delivered_loft_deg), math.radians(too_upright_deg)
    left = math.degrees(math.atan(math.tan(loft) * math.sin(error)))
    after = math.degrees(math.asin(math.sin(loft) * math.cos(error)))
    return LieError(face_deg=_to_the_right(left, hand), loft_deg=after)


def leaned(loft_deg: float, bounce_deg: float, forward_lean_deg: float) -> Delivered:
    """Return loft and bounce with the shaft leaned towards the target: one for one.

    A good player's chip can leave no bounce at all: information, not a fault.

    Raises:
        NotAFigure: an angle is no number, the loft (before or after) not between 0 and 90, the
            bounce not between -90 and 90, or the shaft leaned by 60 or more.
    """
    _refuse_no_loft(loft_deg, bounce_deg, forward_lean_deg)
    _refuse_no_bounce(bounce_deg)
    if abs(forward_lean_deg) >= MOST_LEAN_DEG:
        raise NotAFigure(f"A shaft is leaned by less than {MOST_LEAN_DEG} degrees.")
    if not 0 < loft_deg - forward_lean_deg < 90:
        raise NotAFigure("So much lean leaves no loft between 0 and 90 degrees.")
    return Delivered(loft_deg - forward_lean_deg, bounce_deg - forward_lean_deg)


def opened_face(
    loft_deg: float, bounce_deg: float, lie_deg: float, open_deg: float, hand: Hand
) -> OpenedFace:
    """Return what opening the face by turning the club about its shaft does.

    Face and sole normals are turned about the shaft axis (0, cos lie, sin lie).

    Args:
        loft_deg: loft with the face square.
        bounce_deg: bounce with the face square.
        lie_deg: angle between shaft and ground, at which the club is held.
        open_deg: degrees turned about the shaft; negative closes the face.
        hand: the player's.

    Raises:
        NotAFigure: an angle is no number, the loft or the lie not between 0 and 90, the bounce
            not between -90 and 90, the face turned by 60 or more, or the hand neither right nor
            left.
    """
    _refuse_no_loft(loft_deg, bounce_deg, lie_deg, open_deg)
    _refuse_no_bounce(bounce_deg)
    _refuse_no_hand(hand)
    if not 0 < lie_deg <= 90:
        raise NotAFigure("A lie is an angle between 0 and 90 degrees.")
    if abs(open_deg) >= 60:
        raise NotAFigure("A face turned by 60 degrees or more is no longer a face.")
    loft, bounce, lie = (math.radians(angle) for angle in (loft_deg, bounce_deg, lie_deg))
    # x to the target, y to a right-hander's left, z up. The sole's normal points down and, with
    # bounce, backwards; the leading edge runs from toe to heel.
    axis = np.array([0.0, math.cos(lie), math.sin(lie)])
    turn = -math.radians(open_deg)
    face = _turned(np.array([math.cos(loft), 0.0, math.sin(loft)]), axis, turn)
    sole = _turned(np.array([math.sin(bounce), 0.0, -math.cos(bounce)]), axis, turn)
    edge = _turned(np.array([0.0, 1.0, 0.0]), axis, turn)
    across = np.array([edge[1], -edge[0]]) / math.hypot(float(edge[0]), float(edge[1]))
    left = math.degrees(math.atan2(float(face[1]), float(face[0])))
    return OpenedFace(
        face_deg=_to_the_right(left, hand),
        loft_deg=math.degrees(math.asin(float(face[2]))),
        bounce_deg=math.degrees(math.atan2(float(sole[0]), -float(sole[2]))),
        bounce_across_edge_deg=math.degrees(
            math.atan2(float(sole[0] * across[0] + sole[1] * across[1]), -float(sole[2]))
        ),
    )


def sole_to_path(delivered_bounce_deg: float, attack_deg: float) -> float:
    """Return the angle between the sole and the head's own path into the ground [deg].

    A steeper blow gives the club no more bounce against the ground, but meets the ground with the
    sole turned up by as much more: delivered bounce plus how far the head comes down.

    Args:
        delivered_bounce_deg: bounce to the ground as delivered, lean and an open face counted.
        attack_deg: as measuring devices give it, downwards negative.

    Raises:
        NotAFigure: an angle is no number or not between -90 and 90 degrees.
    """
    if not (math.isfinite(delivered_bounce_deg) and math.isfinite(attack_deg)):
        raise NotAFigure("The sole's angle to its path needs angles that are numbers.")
    _refuse_no_bounce(delivered_bounce_deg)
    if abs(attack_deg) >= 90:
        raise NotAFigure("An angle of attack lies between -90 and 90 degrees.")
    return delivered_bounce_deg - attack_deg


@dataclass(frozen=True)
class LieOfLength:
    """What another length does to the lie at the same hand height [deg, flatter negative].

    ``rule_deg`` is the trade's rule beside it: no player keeps the hands exactly where they were,
    and half of the change is often taken up by standing taller or farther away.
    """

    lie_deg: float
    change_deg: float
    rule_deg: float


def lie_of_length(lie_deg: float, length_mm: float, longer_mm: float) -> LieOfLength:
    """Return the lie that plays level after a change of length, the hands as high as before.

    Exact for a straight shaft: length times sin(lie) is the height of the hands, so sin(new lie) =
    length sin(lie) / (length + change). A longer club must be flatter.

    Args:
        lie_deg: that plays level now.
        length_mm: now.
        longer_mm: how much longer; negative is shorter.

    Raises:
        NotAFigure: a figure is no number, the lie not between 0 and 90, a length not above 0 or
            over 1.5 m, or the club too short for the hands to stay where they are.
    """
    if not all(math.isfinite(figure) for figure in (lie_deg, length_mm, longer_mm)):
        raise NotAFigure("The lie of a length needs figures that are numbers.")
    if not 0 < lie_deg < 90:
        raise NotAFigure("A lie is an angle between 0 and 90 degrees.")
    if length_mm <= 0 or length_mm + longer_mm <= 0:
        raise NotAFigure("A club has a length above 0.")
    if max(length_mm, length_mm + longer_mm) > LONGEST_MM:
        raise NotAFigure(f"A club is not longer than {LONGEST_MM} mm.")
    height = length_mm / (length_mm + longer_mm) * math.sin(math.radians(lie_deg))
    if height > 1:
        raise NotAFigure("With a club so short the hands can't stay as high as they were.")
    after = math.degrees(math.asin(height))
    return LieOfLength(
        lie_deg=after,
        change_deg=after - lie_deg,
        rule_deg=-RULE_DEG_PER_INCH * longer_mm / MM_PER_INCH,
    )


def _turned(
    vector: NDArray[np.float64], axis: NDArray[np.float64], angle: float
) -> NDArray[np.float64]:
    """Return a vector turned about a unit axis by an angle [rad] (Rodrigues)."""
    return np.asarray(
        vector * math.cos(angle)
        + np.cross(axis, vector) * math.sin(angle)
        + axis * float(axis @ vector) * (1 - math.cos(angle))
    )


def _to_the_right(right_handers_left_deg: float, hand: Hand) -> float:
    """Cross the border: left-positive for a right-hander in, right-positive for the hand out."""
    return -right_handers_left_deg if hand == "right" else right_handers_left_deg


def _refuse_no_loft(loft_deg: float, *others_deg: float) -> None:
    if not all(math.isfinite(angle) for angle in (loft_deg, *others_deg)):
        raise NotAFigure("The delivery of a club needs angles that are numbers.")
    if not 0 < loft_deg < 90:
        raise NotAFigure("A loft is an angle between 0 and 90 degrees.")


def _refuse_no_bounce(bounce_deg: float) -> None:
    if not -90 < bounce_deg < 90:
        raise NotAFigure("A bounce is an angle between -90 and 90 degrees.")


def _refuse_no_hand(hand: str) -> None:
    """A word that is neither would else be a left-hander in silence."""
    if hand not in ("right", "left"):
        raise NotAFigure("A player's hand is right or left.")
