"""The chapters of the rule book beside the spec's: what is judged before there is a spec.

A chapter is a row of books (`judgements`); whoever registers a new book adds it to its chapter
here, and it prints itself and becomes a switch on the set-up page. Whether one is on never moves
the name of the rule set that a spec keeps: a spec is judged by the spec's rules alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitshop.setting import Setting, Value
from sessions.rules.against_choice import AGAINST
from sessions.rules.fairness import CLOUDS, FAIRNESS
from sessions.rules.judgements import Off, Printed, PrintedBook
from sessions.rules.likeness import LIKENESS
from sessions.rules.plan_notes import BAG, DRIFT, FOURTEEN, OFFERS, ROLES
from sessions.rules.plan_wish import ASKED, SLOT_JOBS, TRAITS
from sessions.rules.set_advice import (
    COUNTS,
    FIRST,
    KEPT,
    NORMAL,
    NOT_TODAY,
    ORDER,
    SLOT_CONFLICTS,
)
from sessions.rules.slot_jobs import JOBS
from sessions.rules.slot_lies import LIES
from sessions.rules.slot_shafts import SHAFTS
from sessions.rules.sole_bounce import OPENED, SAND, TURF
from sessions.rules.sole_conflicts import SOLE_CONFLICTS
from sessions.rules.stopping import STOPS
from sessions.rules.wanted import ASKED_IN, WISHES


@dataclass(frozen=True, slots=True)
class RuleChapter:
    """A chapter: what it is about, and its books in the order in which they are printed."""

    title: str
    about: str
    books: tuple[PrintedBook, ...]

    @property
    def judgements(self) -> tuple[Printed, ...]:
        return tuple(one for book in self.books for one in book.printed)


CHAPTERS: tuple[RuleChapter, ...] = (
    RuleChapter(
        "First clubs",
        "What the interview suggests for the trials, slot by slot and around the slots.",
        (
            TURF,
            SAND,
            OPENED,
            SOLE_CONFLICTS,
            SLOT_CONFLICTS,
            JOBS,
            LIES,
            SHAFTS,
            COUNTS,
            KEPT,
            FIRST,
            ORDER,
            NOT_TODAY,
            NORMAL,
        ),
    ),
    RuleChapter(
        "Plan",
        "What a loft plan asks of its heads, and what is said of the bag around it.",
        (ROLES, SLOT_JOBS, ASKED, TRAITS, BAG, DRIFT, FOURTEEN, OFFERS),
    ),
    RuleChapter(
        "Decision",
        "When two clubs may be compared, whether a full shot stops, what becomes of what the "
        "player wants, and what speaks against a choice.",
        (FAIRNESS, CLOUDS, LIKENESS, STOPS, ASKED_IN, WISHES, AGAINST),
    ),
)

GROUP = "judgements"
ON, OFF = "on", "off"


def switch_key(rule_id: str) -> str:
    """The key of the setting that says whether a judgement is on."""
    return f"{GROUP}.{rule_id}"


# One switch for each judgement that a shop may do without, made from the judgements themselves.
SETTINGS: tuple[Setting, ...] = tuple(
    Setting(
        key=switch_key(one.id),
        kind="choice",
        default=ON,
        sentence=f"{one.id}. {one.about}",
        choices=(ON, OFF),
        source=one.source,
    )
    for chapter in CHAPTERS
    for one in chapter.judgements
    if not one.is_fixed
)


def off_from(settings: Mapping[str, Value]) -> Off:
    """The ids that the shop has switched off, from its settings by key."""
    return frozenset(
        setting.key.removeprefix(f"{GROUP}.")
        for setting in SETTINGS
        if settings.get(setting.key) == OFF
    )
