"""The target length as a bench ruler along the shaft will read it, in words."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from sessions.maths.cutting import length_by_ruler
from sessions.maths.errors import MathsError
from sessions.maths.shown import show_length


@dataclass(frozen=True, slots=True)
class RulerLength:
    """What the ruler reads, or what is missing to say so; neither where nothing is to be said."""

    reads: str = ""
    missing: str = ""


def ruler_length(
    rules_length_mm: Decimal,
    *,
    lie_deg: Decimal | None,
    sole_point_mm: Decimal | None,
    unit: Literal["in", "mm"],
) -> RulerLength:
    """A length by the Rules' method, as the ruler has it with the club at its lie.

    >>> ruler_length(Decimal(900), lie_deg=Decimal(64), sole_point_mm=Decimal(30), unit="mm")
    RulerLength(reads='903 mm', missing='')
    """
    if lie_deg is None:
        return RulerLength(missing="the lie is not known")
    if sole_point_mm is None:
        return RulerLength(missing="how far from the shaft its sole touches is not gauged")
    try:
        ruled = length_by_ruler(rules_length_mm, lie_deg=lie_deg, sole_point_mm=sole_point_mm)
    except MathsError:
        return RulerLength(missing="its lie is none that a ruler can be reckoned for")
    return RulerLength(reads=show_length(ruled, unit))
