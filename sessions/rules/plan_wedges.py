"""How many wedges a plan begins with: as a person said, else as the interview suggests.

The fitter can ask for another number on the plan's own page; this is where it begins.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from sessions.maths.loft_binding import MOST_WEDGES
from sessions.rules.judgements import Said
from sessions.rules.set_advice import WEDGES
from sessions.rules.slot_suggestions import Suggestion

USUAL_WEDGES = 3
# A number first, and then nothing or what it is said for.
_NUMBER = re.compile(rf"\s*([1-{MOST_WEDGES}]|{'|'.join(WEDGES)})( wedges?)?\s*($|[,;:.])", re.I)


@dataclass(frozen=True, slots=True)
class WedgesToPlan:
    """The number that a plan begins with, and where it comes from."""

    count: int
    why: Said


def wedges_said(text: str) -> int | None:
    """The number of wedges, 1 to 4, that a person's words begin with; None where it isn't plain.

    >>> wedges_said("Two, the bag is full"), wedges_said("3"), wedges_said("2 or 3")
    (2, 3, None)
    """
    found = _NUMBER.match(text)
    if found is None:
        return None
    word = found.group(1).lower()
    return int(word) if word.isdigit() else WEDGES[word]


def wedges_to_plan(
    suggested: Suggestion, *, overruled: str, overruled_why: str, in_bag: int, must_stay: int
) -> WedgesToPlan:
    """As overruled, else as suggested, else as many as the bag holds, else three.

    Never fewer than the own wedges that must stay, nor more than four. `overruled_why` is who and
    why: `Mara Quill: the hybrid stays`.
    """
    begun = _begun(suggested, in_bag)
    said = wedges_said(overruled)
    if said is not None:
        begun = WedgesToPlan(said, Said(f"Overruled on First clubs by {_ended(overruled_why)}"))
    elif overruled:
        begun = WedgesToPlan(
            begun.count,
            Said(
                f"Overruled by words that hold no number: {_ended(overruled)} {begun.why}",
                begun.why.rule_id,
            ),
        )
    if must_stay <= begun.count:
        return begun
    count = min(must_stay, MOST_WEDGES)
    most = f" {MOST_WEDGES} are the most." if must_stay > MOST_WEDGES else ""
    why = f"{begun.why} But {must_stay} are to stay.{most}"
    return WedgesToPlan(count, Said(why, begun.why.rule_id))


def _begun(suggested: Suggestion, in_bag: int) -> WedgesToPlan:
    if suggested.low is not None:
        return WedgesToPlan(int(suggested.low), Said(suggested.why, suggested.rule_id))
    if in_bag:
        return WedgesToPlan(min(in_bag, MOST_WEDGES), Said("As many as in the bag now."))
    return WedgesToPlan(USUAL_WEDGES, Said("As most players have."))


def _ended(words: str) -> str:
    return words if words.endswith((".", "!", "?")) else f"{words}."
