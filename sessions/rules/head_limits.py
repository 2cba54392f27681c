"""How far a head goes, as its maker says, and what was done to it already."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from sessions.maths.bending import Bend
from sessions.rules.trade_words import Making


@dataclass(frozen=True, slots=True)
class MakerLimits:
    """How far the head's maker lets it be bent each way [degrees, not negative].

    None where the maker said nothing of that way: the making's default serves then.
    """

    weak_deg: Decimal | None = None
    strong_deg: Decimal | None = None
    up_deg: Decimal | None = None
    flat_deg: Decimal | None = None


@dataclass(frozen=True, slots=True)
class HeadLimits:
    """What a head's bends are judged by: its making, its maker's word, what was done to it.

    `earlier` is every bend it has had, all visits together, oldest first.
    """

    making: Making = Making.UNKNOWN
    maker: MakerLimits = MakerLimits()
    earlier: tuple[Bend, ...] = ()


# A head of which nobody knows anything.
UNKNOWN_HEAD = HeadLimits()
