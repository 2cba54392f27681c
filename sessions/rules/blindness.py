"""What of the clubs of a comparison gives one away before the reveal, besides a look at its mark.

A comparison is blind only if sole and stamp are covered and finish, grip and shaft are known and
the same. Common practice. What spoils it is kept as words here and said by `spoiled_words`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from sessions.rules.wording import listed

What = Literal["cover", "finish", "grip", "shaft"]
SEEN: tuple[What, ...] = ("finish", "grip", "shaft")


@dataclass(frozen=True, slots=True)
class Looks:
    """What a player sees of a club whose sole and stamp are covered; "" where it isn't known."""

    finish: str
    grip: str
    shaft: str


@dataclass(frozen=True, slots=True)
class Spoiler:
    """One thing that spoils blindness; `is_known` is False if nobody knows it of every club."""

    what: What
    is_known: bool = True


def spoilers(clubs: Sequence[Looks], *, covered: bool) -> tuple[Spoiler, ...]:
    """Return what spoils the blindness of these clubs; nothing where they are really blind.

    >>> spoilers([Looks("satin", "Cord", "S"), Looks("black", "Cord", "")], covered=True)
    (Spoiler(what='finish', is_known=True), Spoiler(what='shaft', is_known=False))
    """
    found = [] if covered else [Spoiler("cover")]
    for what in SEEN:
        looks = {getattr(club, what).casefold() for club in clubs}
        if len(looks - {""}) > 1:
            found.append(Spoiler(what))
        elif "" in looks:
            found.append(Spoiler(what, is_known=False))
    return tuple(found)


def spoiled_words(found: Sequence[Spoiler]) -> str:
    """`sole and stamp are not covered; finish and grip differ; shaft not known`; "" for nothing."""
    differ: list[str] = [each.what for each in found if each.what != "cover" and each.is_known]
    unknown: list[str] = [each.what for each in found if not each.is_known]
    said = []
    if any(each.what == "cover" for each in found):
        said.append("sole and stamp are not covered")
    if differ:
        said.append(f"{listed(differ)} {'differs' if len(differ) == 1 else 'differ'}")
    if unknown:
        said.append(f"{listed(unknown)} not known of every club")
    return "; ".join(said)
