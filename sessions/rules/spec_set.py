"""Rules on the set as a whole: that there is one, and that it fits in the bag."""

from __future__ import annotations

from collections.abc import Iterator

from sessions.rules.facts import RULES_MOST_CLUBS, SpecFacts, SpecLimits
from sessions.rules.findings import Hit, Severity
from sessions.rules.spec_book import COMMON_PRACTICE, RULES_OF_GOLF, SPEC_BOOK


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
            "one that is never hit is the first to look at.",
            numbers=(("clubs", total),),
        )


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
