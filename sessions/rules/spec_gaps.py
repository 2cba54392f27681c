"""Rules on steps of loft and gaps of carry, from the pitching wedge that stays downward.

Carry gaps are judged in proportion to the pitching wedge's carry, never in yards: a gap that
is right for one player is a hole for another.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise

from sessions.rules.carried import (
    Carried,
    baseline_carry,
    carried,
    doubt_percent,
    doubt_words,
    gap_of,
    gap_percent,
    is_carry,
    lofted,
)
from sessions.rules.facts import ClubFacts, SpecFacts, SpecLimits
from sessions.rules.findings import Hit, Severity
from sessions.rules.spec_book import COMMON_PRACTICE, SPEC_BOOK
from sessions.rules.wording import club_words, degrees, figure, listed

# Below this share of the pitching wedge's carry two clubs carry the same. A judgement of ours.
SAME_CARRY_PCT = 2.5


def _sentence_start(words: str) -> str:
    return words[0].upper() + words[1:]


WIDER = (
    "loft_step_low_deg",
    "loft_step_high_deg",
    "sand_from_deg",
    "wider_step_high_deg",
    "wider_gap_high_pct",
)


def may_step_wider(facts: SpecFacts, limits: SpecLimits) -> bool:
    """True where a plan of wider steps is offered and taken: as few wedges, in steps of the usual
    middle, would end more than a degree short of a sand club, and these end with one."""
    pitching = facts.baseline_loft_deg
    lofts = [club.played_loft_deg for club in facts.clubs if club.played_loft_deg is not None]
    below = [loft for loft in lofts if pitching is not None and loft > pitching]
    if pitching is None or not below or max(below) < limits.sand_from_deg:
        return False
    middle = (limits.loft_step_low_deg + limits.loft_step_high_deg) / 2
    return limits.sand_from_deg - (pitching + len(below) * middle) > 1


def largest_step_deg(facts: SpecFacts, limits: SpecLimits) -> Decimal:
    """The largest step of loft that needs no look [degrees]."""
    usual = limits.loft_step_high_deg
    return max(usual, limits.wider_step_high_deg) if may_step_wider(facts, limits) else usual


def largest_gap_pct(facts: SpecFacts, limits: SpecLimits) -> Decimal:
    """The largest carry gap that needs no look, as a share of the pitching wedge's carry [%]."""
    usual = limits.gap_high_pct
    return max(usual, limits.wider_gap_high_pct) if may_step_wider(facts, limits) else usual


@SPEC_BOOK.rule(
    "SPEC-E010",
    Severity.STOPS,
    about="One slot is given twice.",
    source=COMMON_PRACTICE,
)
def slot_twice(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    slots = [club.slot for club in facts.clubs]
    for slot in sorted({slot for slot in slots if slots.count(slot) > 1}):
        yield Hit(
            fields=(f"club.{slot}.slot",),
            sentence=f"Slot {slot} is given {slots.count(slot)} times.",
            hint="Each club has a slot of its own.",
            numbers=(("times", slots.count(slot)),),
        )


@SPEC_BOOK.rule(
    "SPEC-W010",
    Severity.LOOK,
    about="A step of loft between two neighbours is outside the usual 4 to 6 degrees; where few "
    "wedges would stop short of a sand club, outside those of a plan of wider steps.",
    source=COMMON_PRACTICE,
    thresholds=(
        "loft_step_low_deg",
        "loft_step_high_deg",
        "same_loft_deg",
        "sand_from_deg",
        "wider_step_high_deg",
    ),
)
def loft_step_unusual(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    low, high = limits.loft_step_low_deg, limits.loft_step_high_deg
    largest = largest_step_deg(facts, limits)
    for (first, loft, above), (second, next_loft, field) in pairwise(lofted(facts)):
        step = next_loft - loft
        # Nearer than that, SPEC-W012 says it: the same loft twice.
        if limits.same_loft_deg <= step < low or step > largest:
            yield Hit(
                fields=(field,),
                sentence=(
                    f"{_sentence_start(first)} to {second}: {degrees(step)} of loft, "
                    f"{figure(low)} to {figure(high)} are usual."
                ),
                hint="What the player carries with the two decides, not the degrees.",
                numbers=(("from", loft), ("to", next_loft)),
                besides=(above,),
            )


@SPEC_BOOK.rule(
    "SPEC-W011",
    Severity.LOOK,
    about="A carry gap is small or large for this player, in proportion to the pitching wedge; "
    "where few wedges would stop short of a sand club, larger than a plan of wider steps takes.",
    source=COMMON_PRACTICE,
    thresholds=(
        "gap_low_pct",
        "gap_high_pct",
        "loft_step_low_deg",
        "loft_step_high_deg",
        "same_loft_deg",
        "sand_from_deg",
        "wider_gap_high_pct",
    ),
)
def carry_gap_unusual(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    baseline = baseline_carry(facts)
    if baseline is None:
        return
    low, high = limits.gap_low_pct, limits.gap_high_pct
    largest = largest_gap_pct(facts, limits)
    for further, nearer in pairwise(carried(facts)):
        if further.carry_m is None or nearer.carry_m is None:
            continue
        share = gap_percent(nearer.carry_m, further.carry_m, baseline)
        # A carry is a float: a hair of its last bit is no gap.
        if share < float(low) - 1e-9 or share > float(largest) + 1e-9:
            yield Hit(
                fields=(nearer.field,),
                sentence=(
                    f"{_sentence_start(further.words)} to {nearer.words}: the gap is {share:.1f} %"
                    f"{doubt_words(facts, further, nearer, baseline)} of the "
                    f"pitching wedge's carry, {figure(low)} to {figure(high)} % are usual."
                ),
                hint=_within_doubt(facts, further, nearer, baseline, share, limits)
                or _gap_hint(further, nearer, share, limits),
                numbers=(("share", round(share, 1)),),
                besides=(further.field,),
            )


def _within_doubt(
    facts: SpecFacts,
    further: Carried,
    nearer: Carried,
    baseline_m: float,
    share: float,
    limits: SpecLimits,
) -> str:
    """What to do about a gap that is out by less than its doubt; "" for any other."""
    doubt = doubt_percent(facts, further, nearer, baseline_m)
    out_by = max(share - float(limits.gap_high_pct), float(limits.gap_low_pct) - share)
    if doubt is None or out_by >= doubt:
        return ""
    return (
        "It is out by less than its doubt: hit a few more balls with both before a loft is changed."
    )


def _gap_hint(further: Carried, nearer: Carried, share: float, limits: SpecLimits) -> str:
    """What to do about a gap of this share [%] that is outside the usual."""
    if share > float(limits.gap_high_pct):
        return "A larger gap can be right where fewer clubs are wanted."
    if further.loft_deg is not None and nearer.loft_deg is not None:
        apart = nearer.loft_deg - further.loft_deg
        if share < SAME_CARRY_PCT and apart >= limits.same_loft_deg:
            return (
                f"{degrees(apart)} apart and the same carry: check the loft of both first, one may "
                "have drifted or been bent. Then one of the two may do the work of both."
            )
    return "One of the two may do the work of both."


@SPEC_BOOK.rule(
    "SPEC-W012",
    Severity.LOOK,
    about="Two clubs are so near in loft that they are the same club twice.",
    source=COMMON_PRACTICE,
    thresholds=("same_loft_deg",),
)
def same_loft_twice(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for (first, loft, above), (second, next_loft, field) in pairwise(lofted(facts)):
        apart = next_loft - loft
        if apart < limits.same_loft_deg:
            yield Hit(
                fields=(field,),
                sentence=(
                    f"{_sentence_start(first)} and {second} are {degrees(apart)} apart: "
                    "the same loft twice."
                ),
                hint="One of them can stay at home, unless each has a job of its own.",
                numbers=(("from", loft), ("to", next_loft)),
                besides=(above,),
            )


@SPEC_BOOK.rule(
    "SPEC-W013",
    Severity.LOOK,
    about="Two neighbours overlap: too often the stronger club's next ball falls shorter.",
    source="bayesian-data-analysis",
    thresholds=("overlap_look_pct",),
)
def carries_overlap(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    baseline = baseline_carry(facts)
    if baseline is None:
        return
    for further, nearer in pairwise(carried(facts)):
        gap = gap_of(facts, further, nearer)
        if gap is None or not math.isfinite(gap.overlap):
            continue
        overlap = round(gap.overlap * 100)
        if overlap > limits.overlap_look_pct:
            low, high = (end / baseline * 100 for end in (gap.low_m, gap.high_m))
            yield Hit(
                fields=(nearer.field,),
                sentence=(
                    f"{_sentence_start(further.words)} to {nearer.words}: {overlap} times in 100 "
                    "the next ball of the first falls shorter than that of the second; the gap is "
                    f"{low:.0f} to {high:.0f} % of the pitching wedge's carry."
                ),
                hint="More gap between them, or one of the two does the work of both. A spread "
                "this large is also worth a lesson.",
                numbers=(("overlap", overlap),),
                besides=(further.field,),
            )


@SPEC_BOOK.rule(
    "SPEC-N010",
    Severity.NOTE,
    about="The pitching wedge's loft or carry is not known, so nothing is anchored.",
    source=COMMON_PRACTICE,
)
def baseline_not_known(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    missing = {
        "loft": facts.baseline_loft_deg is None,
        "carry": baseline_carry(facts) is None,
    }
    names = [name for name, is_missing in missing.items() if is_missing]
    if names:
        yield Hit(
            fields=tuple(
                {"loft": "baseline.loft_deg", "carry": "baseline.carry_m"}[name] for name in names
            ),
            sentence=f"The pitching wedge's {listed(names)} "
            f"{'is' if len(names) == 1 else 'are'} not known, "
            "so the gap below it can't be judged.",
            hint="Measure the club, and hit a few full stock swings with it.",
        )


def _without_carry(facts: SpecFacts) -> list[ClubFacts]:
    return [club for club in facts.clubs if not is_carry(club.predicted_carry_m)]


@SPEC_BOOK.rule(
    "SPEC-N011",
    Severity.NOTE,
    about="A club's carry is neither measured nor predicted, so its gaps are not judged.",
    source=COMMON_PRACTICE,
)
def carry_not_known(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _without_carry(facts):
        yield Hit(
            fields=(club.field("predicted_carry_m"),),
            sentence=f"{club_words(club)}: its carry is not known, "
            "so the gaps above and below it were not judged.",
            hint="A block of full stock swings, or the line through the others' carries.",
        )


@SPEC_BOOK.rule(
    "SPEC-N012",
    Severity.NOTE,
    about="An own club that is kept was not measured, so its loft takes no part.",
    source=COMMON_PRACTICE,
)
def kept_loft_not_known(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in facts.clubs:
        if not club.is_built and club.played_loft_deg is None:
            yield Hit(
                fields=(club.field("as_received_loft_deg"),),
                sentence=f"{club_words(club)}: it was not measured, "
                "so the steps of loft around it were not judged.",
                hint="Measure it: a wedge drifts a degree or two in years of play.",
            )


@SPEC_BOOK.rule(
    "SPEC-N013",
    Severity.NOTE,
    about="Few wedges in wider steps than usual, so that one of them is a sand club.",
    source=COMMON_PRACTICE,
    thresholds=(*WIDER, "gap_high_pct"),
)
def wider_steps_taken(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    usual_deg, usual_pct = limits.loft_step_high_deg, limits.gap_high_pct
    steps = [below[1] - above[1] for above, below in pairwise(lofted(facts))]
    baseline = baseline_carry(facts)
    shares = [
        gap_percent(nearer.carry_m, further.carry_m, baseline)
        for further, nearer in pairwise(carried(facts))
        if baseline is not None and further.carry_m is not None and nearer.carry_m is not None
    ]
    is_wider = any(usual_deg < step <= largest_step_deg(facts, limits) for step in steps) or any(
        float(usual_pct) + 1e-9 < share <= float(largest_gap_pct(facts, limits)) for share in shares
    )
    if is_wider:
        yield Hit(
            fields=("clubs",),
            sentence=f"Few wedges in wider steps than usual: up to {degrees(max(steps))} of loft.",
            hint="That is how one of them can be a sand club; one club more would stand closer.",
            numbers=(("step", max(steps)),),
        )
