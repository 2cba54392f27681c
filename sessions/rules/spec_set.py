"""Rules on the set as a whole: that there is one, and that it fits in the bag."""

from __future__ import annotations

from collections.abc import Iterator

from sessions.rules.facts import RULES_MOST_CLUBS, SpecFacts, SpecLimits
from sessions.rules.findings import Hit, Severity
from sessions.rules.spec_book import COMMON_PRACTICE, RULES_OF_GOLF, SPEC_BOOK
from sessions.rules.wording import club_words, listed


def clubs_in_the_bag(facts: SpecFacts) -> int | None:
    """What the player would carry: the others, less those that leave, and the spec's clubs."""
    if facts.other_clubs is None:
        return None
    staying = max(facts.other_clubs - len(facts.leaving), 0)
    return staying + len(facts.clubs)


@SPEC_BOOK.rule(
    "SPEC-E040",
    Severity.STOPS,
    about="More than fourteen clubs, until somebody says which one leaves.",
    source=RULES_OF_GOLF,
)
def too_many_clubs(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    total = clubs_in_the_bag(facts)
    if total is not None and total > RULES_MOST_CLUBS:
        over = total - RULES_MOST_CLUBS
        yield Hit(
            fields=("leaving",),
            sentence=f"That makes {total} clubs, {over} more than the {RULES_MOST_CLUBS} "
            "that the Rules allow.",
            hint=f"Name {over} that {'leaves' if over == 1 else 'leave'} the bag; "
            + _first_to_leave(facts),
            numbers=(("clubs", total),),
        )


def _first_to_leave(facts: SpecFacts) -> str:
    if not facts.unused:
        return "one that is never hit is the first to look at."
    return f"hardly ever hit: {listed(list(facts.unused))}."


@SPEC_BOOK.rule(
    "SPEC-E041",
    Severity.STOPS,
    about="A spec without a club.",
    source=COMMON_PRACTICE,
)
def no_clubs(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    if not facts.clubs:
        yield Hit(
            fields=("clubs",),
            sentence="There is no club in this spec.",
            hint="Clubs that stay as they are belong in it too, as own and kept.",
        )


@SPEC_BOOK.rule(
    "SPEC-E042",
    Severity.STOPS,
    about="A club of the spec is also said to leave the bag.",
    source=COMMON_PRACTICE,
)
def leaves_and_stays(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in facts.clubs:
        if club.is_leaving:
            yield Hit(
                fields=(club.field("head"), "leaving"),
                sentence=f"{club_words(club)}: it stands in the spec and is said to leave the bag.",
                hint="Decide the slot again, or name another club that leaves.",
            )


@SPEC_BOOK.rule(
    "SPEC-E043",
    Severity.STOPS,
    about="The same own club stands in two slots.",
    source=COMMON_PRACTICE,
)
def own_club_twice(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    keys = [club.own_key for club in facts.clubs if club.own_key]
    for key in sorted({key for key in keys if keys.count(key) > 1}):
        same = [club for club in facts.clubs if club.own_key == key]
        yield Hit(
            fields=tuple(club.field("head") for club in same),
            sentence=f"{club_words(same[0])}: it is the same club as in "
            f"{listed([f'slot {club.slot}' for club in same[1:]])}.",
            hint="One club can't be in the bag twice: decide one of the slots again.",
            numbers=(("times", len(same)),),
        )


@SPEC_BOOK.rule(
    "SPEC-N040",
    Severity.NOTE,
    about="Nobody counted the other clubs in the bag.",
    source=RULES_OF_GOLF,
)
def bag_not_counted(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    if facts.other_clubs is None:
        yield Hit(
            fields=("bag.other_clubs",),
            sentence="The other clubs in the bag were not counted, "
            f"so nobody knows whether these make more than {RULES_MOST_CLUBS}.",
            hint="Count them by kind under Bag.",
        )
