"""What the player liked better, over the revealed comparisons of a slot: an order, and its doubt.

Ordinal throughout: in each round and question only which of two was rated higher counts, and
only this one player's word. How sure the order is comes from a stated belief; see
`sessions.maths.head_strengths`.
"""

from __future__ import annotations

from collections.abc import Sequence

from sessions.maths.head_strengths import HeadStrengths, head_strengths, preferences
from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.club_evidence import ClubEvidence, Situation
from sessions.rules.evidence import SlotEvidence
from sessions.rules.wording import listed


def preferred_words(there: SlotEvidence, unit: DistanceUnit = "yd") -> str:
    """`Full from fairway: The player preferred Rush (3 of 4 times) ...`, by situation.

    Nothing before a reveal. What was said in one situation is never added to another's.
    """
    clubs = [club for club in there.played if not club.is_hidden]
    rounds: dict[Situation | None, dict[tuple[str, str], dict[str, int]]] = {}
    for club in clubs:
        for asked, score in club.ratings.items():
            if asked.round:
                of = rounds.setdefault(asked.situation, {})
                of.setdefault((asked.about, asked.round), {})[club.key] = score
    said = []
    for situation, of in rounds.items():
        scores = [scores for scores in of.values() if len(scores) > 1]
        words = _preferred(clubs, scores)
        where = "" if situation is None else f"{situation.full_words(unit)}: "
        said += [f"{where}{words}"] if words else []
    return " ".join(said)


def _preferred(clubs: Sequence[ClubEvidence], scores: Sequence[dict[str, int]]) -> str:
    told = preferences(scores)
    if not told:
        return ""
    names = {club.key: club.name for club in clubs}
    rated = [key for key in names if any(key in each for each in scores)]
    found = head_strengths(rated, told)
    first, second = found.heads[0], found.heads[1]
    order = [f"{names[h.head_id]} ({h.wins} of {h.rounds})" for h in found.heads if h.rounds]
    chance = round(100 * found.chance(first.head_id, second.head_id))
    doubt = " With the rounds so far it could still be either." if _is_unsure(found) else ""
    return (
        f"The player preferred, of the times that two were told apart: {listed(order)}. "
        f"Asked again, {names[first.head_id]} before {names[second.head_id]} "
        f"about {chance} times in 100.{doubt}"
    )


def _is_unsure(found: HeadStrengths) -> bool:
    first, second = found.heads[0], found.heads[1]
    return found.could_be_either(first.head_id, second.head_id)
