"""How findings, and whoever else speaks of a club, say its loft, its bounce and its slot.

A bent club never goes by a bare number: stamped and bent are said together.
"""

from __future__ import annotations

from decimal import Decimal

from sessions.maths.bending import Axis, bend_to_make, bend_words, bounce_after, planned_bend
from sessions.rules.facts import ClubFacts, ClubSource
from sessions.rules.findings import number_text


def figure(value: Decimal | int) -> str:
    """A figure with every decimal that was stored and none more: 2, 2.04, 53.5."""
    return number_text(value)


def degrees(value: Decimal) -> str:
    """`1 degree`, `2.5 degrees`."""
    return f"{figure(value)} {'degree' if abs(value) == 1 else 'degrees'}"


# A head that reads this close to its stamp was made so, not bent (the shop's usual tolerance for
# loft: common practice).
LEAST_BEND_DEG = Decimal("0.5")


def is_bend(loft_deg: Decimal, stamped_deg: Decimal) -> bool:
    """Whether a reading is far enough from the stamp to be called bent.

    >>> is_bend(Decimal("50.1"), Decimal("50")), is_bend(Decimal("53"), Decimal("54"))
    (False, True)
    """
    return abs(loft_deg - stamped_deg) >= LEAST_BEND_DEG


def loft_words(target_deg: Decimal | None, stamped_deg: Decimal | None) -> str:
    """A loft against its stamp: `53° (stamped 54, bent 1 strong)`; `54°` where they agree.

    >>> loft_words(Decimal("53"), Decimal("54"))
    '53° (stamped 54, bent 1 strong)'
    """
    if target_deg is None:
        return "" if stamped_deg is None else f"stamped {figure(stamped_deg)}"
    if stamped_deg is None or target_deg == stamped_deg:
        return f"{figure(target_deg)}°"
    bend = bend_text(planned_bend(target_deg, stamped_deg))
    return f"{figure(target_deg)}° (stamped {figure(stamped_deg)}, bent {bend})"


def bounce_words(
    stamped_bounce_deg: Decimal | None,
    target_loft_deg: Decimal | None,
    stamped_loft_deg: Decimal | None,
) -> str:
    """The predicted bounce against its stamp: `9° (stamped 10, bent 1 strong)`."""
    if stamped_bounce_deg is None:
        return ""
    if target_loft_deg is None or stamped_loft_deg is None:
        return f"stamped {figure(stamped_bounce_deg)}"
    bend = planned_bend(target_loft_deg, stamped_loft_deg)
    after = bounce_after(stamped_bounce_deg, bend)
    if bend == 0:
        return f"{figure(after)}°"
    return f"{figure(after)}° (stamped {figure(stamped_bounce_deg)}, bent {bend_text(bend)})"


def bend_text(bend_deg: Decimal, axis: Axis = "loft") -> str:
    """A bend with its way and every decimal it has: `0.25 strong`. `bend_words` rounds it."""
    if bend_deg == 0:
        return bend_words(bend_deg, axis)
    plus, minus = ("weak", "strong") if axis == "loft" else ("upright", "flat")
    return f"{figure(abs(bend_deg))} {plus if bend_deg > 0 else minus}"


def own_loft_words(club: ClubFacts) -> str:
    """An own club's loft against what was measured on it, with its stamp where that differs."""
    target, measured, stamped = (
        club.played_loft_deg,
        club.as_received_loft_deg,
        club.stamped_loft_deg,
    )
    if target is None:
        return "own club" if stamped is None else f"own club, stamped {figure(stamped)}"
    said: list[str] = []
    if measured is not None and measured != target:
        bend = bend_text(bend_to_make(target, measured))
        said.append(f"measured {figure(measured)}, bent {bend}")
    if stamped is not None and stamped != target:
        said.append(f"stamped {figure(stamped)}")
    return f"own {figure(target)}°" + (f" ({', '.join(said)})" if said else "")


def drift_from_stamp(
    loft_deg: Decimal | None, stamped_deg: Decimal | None, from_deg: Decimal
) -> Decimal | None:
    """How far an own club measures off its stamp, weak positive; None where that is no drift.

    >>> drift_from_stamp(Decimal("54.8"), Decimal("56"), Decimal(1))
    Decimal('-1.2')
    """
    if loft_deg is None or stamped_deg is None or abs(loft_deg - stamped_deg) < from_deg:
        return None
    return loft_deg - stamped_deg


def drift_words(drift_deg: Decimal | None) -> str:
    """`drift: 1.2 strong of its stamp`; "" for none.

    >>> drift_words(Decimal("-1.2"))
    'drift: 1.2 strong of its stamp'
    """
    if drift_deg is None:
        return ""
    return f"drift: {figure(abs(drift_deg))} {'weak' if drift_deg > 0 else 'strong'} of its stamp"


def club_words(club: ClubFacts) -> str:
    """A club as the fitter points to it: `Slot 2, 53° (stamped 54, bent 1 strong)`."""
    if club.source is ClubSource.NEW:
        loft = loft_words(club.target_loft_deg, club.stamped_loft_deg)
    else:
        loft = own_loft_words(club)
    return f"Slot {club.slot}, {loft}" if loft else f"Slot {club.slot}"


def own_bounce_words(club: ClubFacts) -> str:
    """An own club's bounce: as measured, bent from there, and its stamp where that differs.

    Where nobody measured it, what its stamp and its loft come to; nothing where that isn't known.
    """
    loft, measured = club.played_loft_deg, club.as_received_bounce_deg
    stamped = club.stamped_bounce_deg
    if measured is None:
        if stamped is None or loft is None or club.stamped_loft_deg is None:
            return "" if stamped is None else f"stamped {figure(stamped)}"
        after = bounce_after(stamped, planned_bend(loft, club.stamped_loft_deg))
        if after == stamped:
            return f"stamped {figure(stamped)}"
        return f"about {figure(after)}° by its loft (stamped {figure(stamped)})"
    bend = Decimal(0)
    if loft is not None and club.as_received_loft_deg is not None:
        bend = bend_to_make(loft, club.as_received_loft_deg)
    after = bounce_after(measured, bend)
    said = [f"measured {figure(measured)}, bent {bend_text(bend)}"] if bend else []
    if stamped is not None and stamped != after:
        said.append(f"stamped {figure(stamped)}")
    return f"{figure(after)}°" + (f" ({', '.join(said)})" if said else " as measured")


def club_bounce_words(club: ClubFacts) -> str:
    """A club's bounce as it will be played: `9° (stamped 10, bent 1 strong)`."""
    if club.source is ClubSource.NEW:
        return bounce_words(club.stamped_bounce_deg, club.played_loft_deg, club.stamped_loft_deg)
    return own_bounce_words(club)


def listed(words: list[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"
