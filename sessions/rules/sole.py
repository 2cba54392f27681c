"""A sole in words and millimetres, never by a code."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from sessions.rules.wording import figure

# Where a sole may be relieved, in the order in which it is said.
PLACES: Mapping[str, str] = {
    "heel": "heel",
    "toe": "toe",
    "leading": "leading-edge",
    "trailing": "trailing-edge",
}


def sole_words(
    *,
    width_mm: Decimal,
    camber: str,
    reliefs: Mapping[str, str],
    leading_softened: bool = False,
) -> str:
    """Say a sole: width, camber, what is taken off where.

    `camber` and the `reliefs` by place are words as they are read; "none" is not said.

    >>> sole_words(width_mm=Decimal("19.5"), camber="slight camber", reliefs={"heel": "clear"})
    'sole 19.5 mm, slight camber, clear heel relief'
    """
    said = [f"sole {figure(width_mm)} mm", camber]
    said += [
        f"{reliefs[place]} {words} relief"
        for place, words in PLACES.items()
        if reliefs.get(place, "none") not in ("none", "")
    ]
    if leading_softened:
        said.append("softened leading edge")
    return ", ".join(said)
