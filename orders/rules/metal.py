"""What a head's bends came to: worked out from the readings between which a bend was made.

A bend that was not read afterwards counts as it was meant, until somebody reads the head.
Weak and upright are positive, as in `sessions.maths.bending`, which adds the travel up.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_DOWN, Decimal
from math import sqrt

from sessions.maths.bending import Bend, BendLimits, total_travel

TENTH = Decimal("0.1")


@dataclass(frozen=True, slots=True)
class BendMade:
    """One bend at the bench [degrees]: what the head read before it, and what was meant.

    `from_*` is None where the head was not read since the bend before.
    """

    from_loft_deg: Decimal | None
    from_lie_deg: Decimal | None
    planned_loft_deg: Decimal
    planned_lie_deg: Decimal


def bends_made(
    bends: Sequence[BendMade], *, loft_read_deg: Decimal | None, lie_read_deg: Decimal | None
) -> tuple[Bend, ...]:
    """Return what each bend came to, oldest first; the readings are those since the last one."""
    lofts = _amounts(
        [bend.planned_loft_deg for bend in bends],
        [*(bend.from_loft_deg for bend in bends), loft_read_deg],
    )
    lies = _amounts(
        [bend.planned_lie_deg for bend in bends],
        [*(bend.from_lie_deg for bend in bends), lie_read_deg],
    )
    return tuple(Bend(loft, lie) for loft, lie in zip(lofts, lies, strict=True))


def _amounts(planned: Sequence[Decimal], read: Sequence[Decimal | None]) -> list[Decimal]:
    """`read[i]` is the head before bend i, the last one after all; None: not read then.

    Of several bends between two readings the last one takes what the others were not meant to do.
    """
    amounts = list(planned)
    last: int | None = None
    for place, value in enumerate(read):
        if value is None:
            continue
        before = None if last is None else read[last]
        if last is not None and before is not None:
            others = sum(planned[last : place - 1], Decimal(0))
            amounts[place - 1] = value - before - others
        last = place
    return amounts


def assumed_after(planned: Sequence[Decimal], read: Sequence[Decimal | None]) -> Decimal | None:
    """Return the head's figure after its bends: as read last, plus what was meant since.

    `read` is the head before each bend. None where it never was read.
    """
    known = [place for place, value in enumerate(read) if value is not None]
    if not known:
        return None
    value = read[known[-1]]
    assert value is not None
    return value + sum(planned[known[-1] :], Decimal(0))


@dataclass(frozen=True, slots=True)
class TravelLeft:
    """How far one more bend of loft or of lie alone may go each way [degrees, rounded down]."""

    weak_deg: Decimal
    strong_deg: Decimal
    upright_deg: Decimal
    flat_deg: Decimal


def travel_left(earlier: Sequence[Bend], limits: BendLimits) -> TravelLeft:
    """Return what is left of a head's limits after its earlier bends.

    Loft and lie share one hosel: the root of the sum of squares against the smaller limit of
    those that move, as `bend_judgement` counts it. A turn back is judged when it is made.
    """
    travel = total_travel(earlier)
    loft_went = max(
        (travel.weak_deg, limits.weak_deg),
        (travel.strong_deg, limits.strong_deg),
        key=lambda side: side[0],
    )
    lie_went = max(
        (travel.upright_deg, limits.upright_deg),
        (travel.flat_deg, limits.flat_deg),
        key=lambda side: side[0],
    )
    return TravelLeft(
        weak_deg=_left(travel.weak_deg, limits.weak_deg, lie_went),
        strong_deg=_left(travel.strong_deg, limits.strong_deg, lie_went),
        upright_deg=_left(travel.upright_deg, limits.upright_deg, loft_went),
        flat_deg=_left(travel.flat_deg, limits.flat_deg, loft_went),
    )


def _left(went: Decimal, limit: Decimal, other: tuple[Decimal, Decimal]) -> Decimal:
    """What is left one way, where the other axis has gone so far against its own limit."""
    other_went, other_limit = other
    smaller = min(limit, other_limit) if other_went else limit
    room = smaller**2 - other_went**2
    if room <= 0:
        return Decimal(0)
    # Rounded down to a tenth, but never by the last digit of a root.
    left = Decimal(str(round(sqrt(float(room)), 9))) - went
    return max(left, Decimal(0)).quantize(TENTH, ROUND_DOWN)
