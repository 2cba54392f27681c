"""What becomes of a head whose mass is off the stated one. Common practice.

A little off it is swapped within the stock; further off, or if the swing weight can't be reached
with it, it goes back to its maker.
"""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum

from sessions.maths.shown import show_mass


class HeadMassAnswer(StrEnum):
    """What to do with a head off its stated mass, unless somebody accepts it."""

    SWAP = "swap"
    SEND_BACK = "send back"


def head_mass_answer(
    off_g: Decimal, *, send_back_g: Decimal, is_swing_weight_reachable: bool
) -> HeadMassAnswer:
    """Return what to do with a head that is past its tolerance.

    Args:
        off_g: as received less as stated [g].
        send_back_g: past this it goes back [g].
        is_swing_weight_reachable: what is foretold of the club with this head; True if nothing is.
    """
    if abs(off_g) > send_back_g or not is_swing_weight_reachable:
        return HeadMassAnswer.SEND_BACK
    return HeadMassAnswer.SWAP


def off_words(off_g: Decimal, tolerance_g: Decimal) -> str:
    """`4 g lighter than stated, 3 g allowed`."""
    side = "heavier" if off_g > 0 else "lighter"
    return f"{show_mass(abs(off_g))} {side} than stated, {show_mass(tolerance_g)} allowed"


def answer_words(answer: HeadMassAnswer) -> str:
    """What to do, as the headline says it."""
    return "Swap it within the stock" if answer is HeadMassAnswer.SWAP else "Send it back"
