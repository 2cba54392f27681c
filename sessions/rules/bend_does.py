"""What a bend does besides the angle it is made for: offset, the hosel's total, a little loft."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from sessions.maths.bending import Bend, combined_bend, loft_after_lie_bend, offset_change
from sessions.maths.errors import NotAFigure
from sessions.maths.shown import show_degrees

# What is less is not read on a gauge, and not worth a word.
LEAST_LOFT_DEG: Final = 0.1


def bend_does(
    loft_bend_deg: Decimal | None, lie_bend_deg: Decimal | None, loft_deg: Decimal
) -> str:
    """In a few words, for a line at the bench; "" where there is nothing to say.

    >>> bend_does(Decimal(2), Decimal(-1), Decimal(56))
    'less offset, 2.2° together'
    """
    together = ""
    if loft_bend_deg and lie_bend_deg:
        bend = Bend(loft_bend_deg, lie_bend_deg)
        together = f"{show_degrees(combined_bend(bend))}° together"
    said = (offset_words(loft_bend_deg), together, loft_taken_words(lie_bend_deg, loft_deg))
    return ", ".join(words for words in said if words)


def offset_words(loft_bend_deg: Decimal | None) -> str:
    """`less offset` of a weak bend, `more offset` of a strong one; "" of none."""
    return offset_change(loft_bend_deg) if loft_bend_deg else ""


def loft_taken_words(lie_bend_deg: Decimal | None, loft_deg: Decimal) -> str:
    """What a lie bend takes of the loft, from a tenth of a degree; "" below."""
    if not lie_bend_deg:
        return ""
    try:
        taken = float(loft_deg) - loft_after_lie_bend(float(loft_deg), float(lie_bend_deg))
    except NotAFigure:
        return ""
    if taken < LEAST_LOFT_DEG:
        return ""
    return f"the lie bend takes {show_degrees(taken)}° of loft"
