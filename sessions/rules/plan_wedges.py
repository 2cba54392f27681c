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
_NUMBER = re.compile(rf"\b([1-{MOST_WEDGES}]|{'|'.join(WEDGES)})\b", re.IGNORECASE)
_ANY_FIGURE = re.compile(r"\d+")


@dataclass(frozen=True, slots=True)
class WedgesToPlan:
    """The number that a plan begins with, and where it comes from."""

    count: int
    why: Said


def wedges_said(text: str) -> int | None:
    """The one number of wedges, 1 to 4, in a person's words; None where it can't be told.

    >>> wedges_said("Two, the bag is full"), wedges_said("3"), wedges_said("2 or 3")
    (2, 3, None)
    """
    if any(not 1 <= int(figures) <= MOST_WEDGES for figures in _ANY_FIGURE.findall(text)):
        return None
    found = {_count(word) for word in _NUMBER.findall(text)}
    return found.pop() if len(found) == 1 else None


def _count(word: str) -> int:
    return int(word) if word.isdigit() else WEDGES[word.lower()]


def wedges_to_plan(
    suggested: Suggestion, *, overruled: str, overruled_why: str, in_bag: int, must_stay: int
) -> WedgesToPlan:
    """As overruled, else as suggested, else as many as the bag holds, else three.

    Never fewer than the own wedges that must stay, nor more than four.
    """
    said = wedges_said(overruled)
    if said is not None:
        count, why = said, Said(f"Overruled on First clubs. {overruled_why}")
    elif suggested.low is not None:
        count, why = int(suggested.low), Said(suggested.why, suggested.rule_id)
    elif in_bag:
        count, why = in_bag, Said("As many as in the bag now.")
    else:
        count, why = USUAL_WEDGES, Said("As most players have.")
    if must_stay > count:
        count, why = must_stay, Said("As many as are to stay.")
    return WedgesToPlan(min(count, MOST_WEDGES), why)
