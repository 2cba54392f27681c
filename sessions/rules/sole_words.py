"""A sole in words and millimetres. There is no letter for it, here or on any paper."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

from sessions.rules.wording import listed

CAMBER_WORDS = {
    "flat": "flat",
    "slight": "slight camber",
    "medium": "medium camber",
    "full": "full camber",
}
# By grade of relief; the stored grade 0 is an edge left as it is.
RELIEF_WORDS = {1: "slightly relieved", 2: "clearly relieved", 3: "strongly relieved"}


def sole_words(
    *,
    width_mm: Decimal,
    camber: str,
    heel: int,
    toe: int,
    leading: int,
    trailing: int,
    leading_softened: bool,
) -> str:
    """Say a sole as a fitter would to a player who can't see it.

    `width_mm` is rounded to whole millimetres; `camber` is a key of CAMBER_WORDS; the four
    reliefs are grades 0 (none) to 3 (strong), said strongest first.

    >>> sole_words(width_mm=Decimal("19"), camber="medium", heel=2, toe=0, leading=0,
    ...            trailing=2, leading_softened=True)
    '19 mm wide, medium camber, heel and trailing edge clearly relieved, leading edge softened'

    Raises KeyError for a camber or a grade that is not one of these.
    """
    width = width_mm.quantize(Decimal(1), rounding=ROUND_HALF_UP)
    edges = {"heel": heel, "toe": toe, "leading edge": leading, "trailing edge": trailing}
    said = [f"{width} mm wide", CAMBER_WORDS[camber], *_relief_words(edges)]
    if leading_softened:
        said.append("leading edge softened")
    return ", ".join(said)


def _relief_words(edges: dict[str, int]) -> list[str]:
    """`heel and toe slightly relieved` per grade, or the one phrase for a plain sole."""
    relieved = {edge: RELIEF_WORDS[grade] for edge, grade in edges.items() if grade != 0}
    if not relieved:
        return ["no relief"]
    return [
        f"{listed([edge for edge, word in relieved.items() if word == words])} {words}"
        for _, words in sorted(RELIEF_WORDS.items(), reverse=True)
        if words in relieved.values()
    ]
