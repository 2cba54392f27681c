"""What is said around a loft plan: holes and twins in the bag, fourteen clubs, a slot's role."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise

from sessions.rules.wording import figure, listed

# Rule 4.1b of the Rules of Golf (R&A and USGA): a round starts with at most fourteen clubs.
MOST_CLUBS = 14
# From here on a wedge is suggested as a touch club. A judgement of ours; one tap changes it.
TOUCH_FROM_DEG = Decimal(54)


@dataclass(frozen=True)
class OwnLoft:
    """An own club by the loft it plays at, measured or as stamped."""

    name: str
    loft_deg: Decimal
    is_measured: bool


@dataclass(frozen=True)
class BagCount:
    """How many clubs are in the bag: the rest by count, None where nobody counted.

    `below` counts irons and the pitching wedge written down one by one, without the wedges;
    `unused` names what is carried but hardly ever hit.
    """

    others: int | None
    below: int
    wedges: int
    unused: tuple[str, ...] = ()

    def words(self, wedges_planned: int) -> str:
        """What a plan of so many wedges makes of the bag; never fifteen in silence."""
        if self.others is None:
            return "The other clubs are not counted yet: fourteen is the limit (Rule 4.1b)."
        total = self.others + self.below + wedges_planned
        if total <= MOST_CLUBS:
            return f"With this plan {total} clubs are in the bag; {MOST_CLUBS} is the limit."
        over = total - MOST_CLUBS
        unused = f" Hardly ever hit: {listed(list(self.unused))}." if self.unused else ""
        return (
            f"With this plan {total} clubs are in the bag; {MOST_CLUBS} is the limit "
            f"(Rule 4.1b): {over} must come out.{unused}"
        )


def suggested_role(loft_deg: Decimal) -> str:
    """`full_shot` or `touch`, by loft alone."""
    return "touch" if loft_deg >= TOUCH_FROM_DEG else "full_shot"


def matched_set_note(names: Sequence[str]) -> tuple[str, ...]:
    """Offer the set's own wedge for the first gap, by name; nothing where none reaches it."""
    if not names:
        return ()
    return (
        f"The set's own wedge may be the gap club, with the irons' shaft and lie: "
        f"{listed(list(names))}, if the irons are of that set.",
    )


def bag_notes(lofts: Sequence[OwnLoft], *, same_deg: Decimal, hole_deg: Decimal) -> tuple[str, ...]:
    """Name clubs that carry the same and holes between neighbours, with the degrees."""
    said = []
    for above, below in pairwise(sorted(lofts, key=lambda own: own.loft_deg)):
        step = below.loft_deg - above.loft_deg
        if step < same_deg:
            said.append(
                f"{above.name} and {below.name} are {figure(step)} degrees apart "
                f"({_said(above)} and {_said(below)}): they carry the same. Check the lofts first."
            )
        elif step > hole_deg:
            said.append(
                f"From {above.name} ({_said(above)}) to {below.name} ({_said(below)}) "
                f"is a hole of {figure(step)} degrees."
            )
    return tuple(said)


def _said(own: OwnLoft) -> str:
    return f"{figure(own.loft_deg)}° {'measured' if own.is_measured else 'as stamped'}"
