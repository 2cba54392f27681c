"""Which of the player's own clubs is played now in a slot, and what of a club is said against it.

Values only, and the one place that decides it: verdicts, decisions and the capture pages ask here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from uuid import UUID

from sessions.rules.club_evidence import OwnClub
from sessions.rules.judgements import Said
from sessions.rules.likeness import SEVERAL, Likeness
from sessions.rules.wording import listed


def played_now(
    wedges: Sequence[OwnClub],
    *,
    kept: UUID | None,
    wanted_deg: Decimal | None,
    near_enough_deg: Decimal,
    baseline: UUID | None = None,
    hit_for_it: UUID | None = None,
) -> UUID | None:
    """The club that the player has for a slot today; None where nobody can say.

    The one that the plan keeps there; else the own wedge nearest in loft to what is wanted, if it
    is near enough, hit or not (of two as near, the one named first; never the `baseline`, which
    has its own place in the set); else the own club that was hit for the slot.
    """
    if kept is not None and any(club.club_id == kept for club in wedges):
        return kept
    near = [
        (apart, place, club.club_id)
        for place, club in enumerate(wedges)
        if wanted_deg is not None
        and club.loft_deg is not None
        and club.club_id != baseline
        and (apart := abs(club.loft_deg - wanted_deg)) <= near_enough_deg
    ]
    return min(near)[2] if near else hit_for_it


@dataclass(frozen=True, slots=True)
class BesideNow:
    """What is said of the club in the hand against the one played now in its slot.

    `found` is short: the one thing that differs, or how many do, and then `each` of them with what
    it reads. `caution` where they are several, `unknown` what nobody can compare; "" for nothing.
    """

    against: str
    found: str
    each: tuple[str, ...]
    caution: Said
    unknown: str


def beside_now(two: Likeness, *, was_last: bool) -> BesideNow | None:
    """Count what differs from the club played now; None where there is nothing to say.

    Where that club `was_last` in the hand, its differences are named already: only that they are
    several is said. What is not known of one of the two is never counted.
    """
    apart = two.apart
    is_several = len(apart) >= SEVERAL
    if all(each.is_alike is None for each in two.aspects) or (was_last and not is_several):
        return None
    unknown = listed([each.name for each in two.aspects if each.is_alike is None])
    names = listed([each.name for each in apart]) or "nothing known to differ"
    return BesideNow(
        against=f"The last club was {two.against}, played now"
        if was_last
        else f"Against {two.against}, played now",
        found=f"{len(apart)} things differ" if is_several else names,
        each=tuple(f"{each.name} {each.mine} against {each.theirs}" for each in apart)
        if is_several
        else (),
        caution=two.caution,
        unknown=f"Not known: {unknown}." if unknown else "",
    )
