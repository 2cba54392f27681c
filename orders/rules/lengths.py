"""A club's length and the ruler that read it: by the Rules' 60-degree stop, or along the shaft.

A reading keeps what was read and by which method; it is held against its target in the target's
method. Where the one can't be worked out from the other, what is missing is named.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from sessions.maths.cutting import length_by_ruler, length_by_rules
from sessions.maths.errors import MathsError

# The stored words of sessions.models.words.LengthMethod.
BY_THE_RULES, ALONG_THE_SHAFT = "rules", "ruler"
METHODS = (BY_THE_RULES, ALONG_THE_SHAFT)
# From where and to where, as it stands beside the field. Common practice: with the grip on.
HOW = {
    BY_THE_RULES: "by the Rules: sole on a 60° plane, to the top of the cap, grip on",
    ALONG_THE_SHAFT: "along the shaft, to the top of the cap, grip on",
}


class Missing(StrEnum):
    """What one ruler's length can't be turned into the other's without."""

    LIE = "lie"
    SOLE_POINT = "sole point"


MISSING_WORDS = {
    Missing.LIE: "its lie is none that a ruler can be reckoned for",
    Missing.SOLE_POINT: "how far from the shaft its sole touches is not gauged",
}


@dataclass(frozen=True, slots=True)
class Stance:
    """How a club stands on the bench: its lie [degrees], and where its sole touches [mm]."""

    lie_deg: Decimal | None
    sole_point_mm: Decimal | None


def length_as(
    length_mm: Decimal, *, read_by: str, wanted: str, stance: Stance
) -> Decimal | Missing:
    """Return a length read by one method as another has it [mm], or what is missing for it.

    Raises NotAFigure for a length that is none.

    >>> stance = Stance(Decimal(64), Decimal(30))
    >>> length_as(Decimal(900), read_by="rules", wanted="ruler", stance=stance)
    Decimal('902.6885')
    >>> length_as(Decimal(900), read_by="rules", wanted="rules", stance=Stance(None, None))
    Decimal('900')
    """
    if read_by == wanted:
        return length_mm
    if stance.lie_deg is None:
        return Missing.LIE
    if stance.sole_point_mm is None:
        return Missing.SOLE_POINT
    turned = length_by_ruler if wanted == ALONG_THE_SHAFT else length_by_rules
    try:
        # A length of nought asks whether this club can be reckoned for at all.
        turned(Decimal(0), lie_deg=stance.lie_deg, sole_point_mm=stance.sole_point_mm)
    except MathsError:
        return Missing.LIE
    return turned(length_mm, lie_deg=stance.lie_deg, sole_point_mm=stance.sole_point_mm)
