"""Rules on what can hurt, and on the Rules of Golf beyond length and count."""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal

from sessions.rules.facts import GROOVE_RULE_FROM, Making, SpecFacts, SpecLimits
from sessions.rules.findings import Hit, Severity
from sessions.rules.spec_book import COMMON_PRACTICE, SPEC_BOOK
from sessions.rules.wording import club_words, figure

GROOVE_EVENTS = ("yes", "not_sure")
# Figures in a stamping that can only be a wedge's loft.
LOFT_IN_STAMPING = re.compile(r"(?<![\d.])(4[4-9]|5\d|6[0-4])(\.\d+)?(?![\d.])")
# What the usual sets of letter stamps hold.
STAMPS = re.compile(r"[A-Za-z0-9 .,&'/+-]*")


@SPEC_BOOK.rule(
    "SPEC-E080",
    Severity.STOPS,
    about="A club with a crack at the hosel: it is scrap, bent or not.",
    source=COMMON_PRACTICE,
)
def cracked(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in facts.clubs:
        if club.has_crack:
            yield Hit(
                fields=(club.field("head"),),
                sentence=f"{club_words(club)}: a crack was seen on it. A cracked hosel is scrap.",
                hint="Tell the player, and decide the slot again without it.",
            )


@SPEC_BOOK.rule(
    "SPEC-E081",
    Severity.STOPS,
    about="The player has events under the groove rule and a club's grooves don't conform.",
    source="groove-rule",
)
def grooves_do_not_conform(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in facts.clubs:
        if facts.player.groove_events == "yes" and club.grooves_conform is False:
            yield Hit(
                fields=(club.field("head"),),
                sentence=f"{club_words(club)}: its grooves don't conform to the groove rule, and "
                "the player has events under it.",
                hint="Another head for those events.",
            )


@SPEC_BOOK.rule(
    "SPEC-W080",
    Severity.LOOK,
    about="A copper-alloy head with work to be done on it: an old one may hold beryllium.",
    source="beryllium",
    is_fixed=True,
)
def copper_alloy(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in facts.clubs:
        if club.is_built and club.head.making is Making.COPPER_ALLOY:
            yield Hit(
                fields=(club.field("head"),),
                sentence=f"{club_words(club)}: an old copper-alloy head may hold beryllium; it is "
                "never ground, polished or sanded.",
                hint="Unless its maker says that there is none: only shaft, grip and length.",
            )


@SPEC_BOOK.rule(
    "SPEC-W082",
    Severity.LOOK,
    about="Events under the groove rule, and a kept club may be older than the rule.",
    source="groove-rule",
)
def grooves_may_be_older(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    if facts.player.groove_events not in GROOVE_EVENTS:
        return
    for club in facts.clubs:
        year = club.made_year
        if club.grooves_conform is not None or year is None or year >= GROOVE_RULE_FROM:
            continue
        if club.own_key:
            yield Hit(
                fields=(club.field("head"),),
                sentence=f"{club_words(club)}: it is from {year} or so, before the groove rule of "
                f"{GROOVE_RULE_FROM}; its grooves may not conform.",
                hint="Ask its maker, or look it up in the governing bodies' list.",
                numbers=(("year", year),),
            )


@SPEC_BOOK.rule(
    "SPEC-W083",
    Severity.LOOK,
    about="Events under the groove rule, and nobody wrote down whether a new head conforms.",
    source="groove-rule",
)
def grooves_not_known(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    if facts.player.groove_events not in GROOVE_EVENTS:
        return
    for club in facts.clubs:
        if not club.own_key and club.has_head and club.grooves_conform is None:
            yield Hit(
                fields=(club.field("head"),),
                sentence=f"{club_words(club)}: whether its grooves conform to the groove rule is "
                "not recorded, and the player has events under it.",
                hint="Its maker's sheet or the governing bodies' list says it.",
            )


@SPEC_BOOK.rule(
    "SPEC-W026",
    Severity.LOOK,
    about="A stamping holds a loft that the club won't have.",
    source=COMMON_PRACTICE,
)
def stamping_of_another_loft(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in facts.clubs:
        if not club.is_built or not club.stamping or club.target_loft_deg is None:
            continue
        for found in LOFT_IN_STAMPING.finditer(club.stamping):
            if Decimal(found.group()) != club.target_loft_deg:
                yield Hit(
                    fields=(club.field("stamping"),),
                    sentence=f"{club_words(club)}: “{club.stamping}” is to be stamped, and the "
                    f"club will have {figure(club.target_loft_deg)}°.",
                    hint="Stamp what it plays, or nothing.",
                    numbers=(("stamping", club.stamping), ("loft", club.target_loft_deg)),
                )
                break


@SPEC_BOOK.rule(
    "SPEC-W027",
    Severity.LOOK,
    about="A stamping holds a character that the usual sets of stamps don't have.",
    source=COMMON_PRACTICE,
)
def stamping_without_a_stamp(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in facts.clubs:
        if not club.is_built or not club.stamping:
            continue
        odd = [letter for letter in dict.fromkeys(club.stamping) if not STAMPS.fullmatch(letter)]
        if odd:
            yield Hit(
                fields=(club.field("stamping"),),
                sentence=f"{club_words(club)}: “{club.stamping}” holds {' '.join(odd)}, which the "
                "usual sets of stamps don't have.",
                hint="Ask the bench, or write it with plain letters.",
                numbers=(("stamping", club.stamping),),
            )
