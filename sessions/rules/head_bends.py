"""What is bent on a head, how far it may be, and the bounce that is left; no rules yet."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from sessions.maths.bending import (
    MOST_REVERSALS,
    Bend,
    BendJudgement,
    bend_judgement,
    bend_to_make,
    bounce_after,
    planned_bend,
    total_travel,
)
from sessions.rules.facts import ClubFacts, ClubSource, HeadLimits, SpecLimits
from sessions.rules.wording import figure

BENDS = (
    "bend_forged_low_carbon_deg",
    "bend_cast_soft_carbon_deg",
    "bend_cast_stainless_deg",
    "bend_cast_17_4_deg",
)

Difference = Callable[[Decimal, Decimal], Decimal]


@dataclass(frozen=True, slots=True)
class HeadBend:
    """One bend of one head, judged. `basis` says what it starts from."""

    bend: Bend
    head: HeadLimits
    judgement: BendJudgement

    @property
    def turns_back(self) -> bool:
        """True where this is a second turn-back of more than a degree."""
        before = total_travel(self.head.earlier).reversals
        return self.judgement.travel.reversals > max(MOST_REVERSALS, before)

    @property
    def is_too_far(self) -> bool:
        """True where the travel on its side, or both bends together, pass the limit."""
        return len(self.judgement.refusals) > int(self.turns_back)


def judged_bend(head: HeadLimits, limits: SpecLimits, loft: Decimal, lie: Decimal) -> HeadBend:
    """Judge a loft bend and a lie bend [degrees] of one head together, all it had counted."""
    bend = Bend(loft_deg=loft, lie_deg=lie)
    return HeadBend(bend, head, bend_judgement(bend, limits.bend_limits(head), head.earlier))


def allowed_words(head: HeadLimits, bend: Bend, limit: Decimal) -> str:
    """How far this head goes that way, and who says so.

    An axis that is not bent now may still set the limit, by what was bent on it before.
    """
    maker, was_bent = head.maker, len(head.earlier) > 0
    stays = (was_bent and bend.loft_deg == 0, was_bent and bend.lie_deg == 0)
    said = (
        maker.weak_deg if bend.loft_deg > 0 or stays[0] else None,
        maker.strong_deg if bend.loft_deg < 0 or stays[0] else None,
        maker.up_deg if bend.lie_deg > 0 or stays[1] else None,
        maker.flat_deg if bend.lie_deg < 0 or stays[1] else None,
    )
    if limit in [way for way in said if way is not None]:
        return f"its maker allows {figure(limit)}"
    if limit == 0:
        return f"this head ({head.making.label}) is not bent until its maker says how far"
    return f"this head ({head.making.label}) bends {figure(limit)} at most"


def loft_bends(club: ClubFacts) -> tuple[Decimal | None, Decimal | None]:
    """(planned from the stamp, to make from as received).

    An own club is judged as measured; one that nobody measured by its stamp, never not at all.
    """
    target, measured = club.target_loft_deg, club.as_received_loft_deg
    return (
        _difference(planned_bend, target, _as_made(club, club.stamped_loft_deg, measured)),
        _difference(bend_to_make, target, measured),
    )


def lie_bends(club: ClubFacts) -> tuple[Decimal | None, Decimal | None]:
    """(planned from the stock lie, to make from as received); an own club as `loft_bends`."""
    target, measured = club.target_lie_deg, club.as_received_lie_deg
    return (
        _difference(planned_bend, target, _as_made(club, club.stock_lie_deg, measured)),
        _difference(bend_to_make, target, measured),
    )


def bends_together(club: ClubFacts) -> tuple[tuple[Decimal | None, Decimal | None], ...]:
    """(loft, lie) bends that one hosel has to take together, None where one isn't known.

    A new head's as planned, then as to make; an own club's once, each axis from what is known.
    """
    loft, lie = loft_bends(club), lie_bends(club)
    if club.source is ClubSource.NEW:
        return tuple(zip(loft, lie, strict=True))
    return ((_last_known(loft), _last_known(lie)),)


def _as_made(
    club: ClubFacts, made_deg: Decimal | None, measured_deg: Decimal | None
) -> Decimal | None:
    return made_deg if club.source is ClubSource.NEW or measured_deg is None else None


def _last_known(bends: tuple[Decimal | None, Decimal | None]) -> Decimal | None:
    planned, to_make = bends
    return planned if to_make is None else to_make


def _difference(
    difference: Difference, target: Decimal | None, start: Decimal | None
) -> Decimal | None:
    return None if target is None or start is None else difference(target, start)


def predicted_bounce(club: ClubFacts) -> Decimal | None:
    """The bounce it will be played at: from what was measured on it, else from the stamp.

    A degree between the loft played and the loft that the bounce goes with is a degree of bounce.
    None where either is not known.
    """
    loft = club.played_loft_deg
    if loft is None:
        return None
    if club.as_received_bounce_deg is not None and club.as_received_loft_deg is not None:
        return bounce_after(
            club.as_received_bounce_deg, bend_to_make(loft, club.as_received_loft_deg)
        )
    if club.stamped_bounce_deg is None or club.stamped_loft_deg is None:
        return None
    return bounce_after(club.stamped_bounce_deg, planned_bend(loft, club.stamped_loft_deg))
