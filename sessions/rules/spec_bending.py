"""Rules on bending: how far each head goes, and what is left of its bounce."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal

from sessions.maths.bending import REVERSAL_OVER_DEG, Axis
from sessions.rules.facts import ClubFacts, ClubSource, Making, SpecFacts, SpecLimits
from sessions.rules.findings import Hit, Number, Severity
from sessions.rules.head_bends import (
    BENDS,
    HeadBend,
    allowed_words,
    bends_together,
    judged_bend,
    lie_bends,
    loft_bends,
    predicted_bounce,
)
from sessions.rules.nearer_head import nearer_head_words
from sessions.rules.spec_book import COMMON_PRACTICE, SPEC_BOOK
from sessions.rules.wording import bend_text, club_bounce_words, club_words, degrees, figure, listed

NEARER_LOFT = "Take a head that is stamped nearer, or ask its maker and write down the answer."
NEARER_LIE = "Take a head whose lie is nearer, or ask its maker and write down the answer."
OR_ASK = "Or ask the chosen head's maker, and write down the answer."


def _or_none_made(bend: Decimal | None) -> Decimal:
    return Decimal(0) if bend is None else bend


def _built(facts: SpecFacts) -> Iterator[ClubFacts]:
    return (club for club in facts.clubs if club.is_built)


def _one_way(
    club: ClubFacts, limits: SpecLimits, axis: Axis, bend: Decimal | None, start: str, hint: str
) -> Iterator[Hit]:
    """A bend of one axis that passes its own limit."""
    if bend is None or bend == 0:
        return
    loft, lie = (bend, Decimal(0)) if axis == "loft" else (Decimal(0), bend)
    judged = judged_bend(club.head, limits, loft, lie)
    if not judged.is_too_far:
        return
    limit = judged.judgement.limit_deg
    earlier = " with what it was bent before" if club.head.earlier else ""
    yield Hit(
        fields=(club.field(f"target_{axis}_deg"),),
        sentence=(
            f"{club_words(club)}: {bend_text(bend, axis)} from {start} is too far"
            f"{earlier}; {allowed_words(club.head, judged.bend, limit)}."
        ),
        hint=hint,
        numbers=(("bend", bend), ("limit", limit), ("travel", _travel(judged))),
    )


def _travel(judged: HeadBend) -> Number:
    return round(judged.judgement.combined_deg, 4)


@SPEC_BOOK.rule(
    "SPEC-E001",
    Severity.STOPS,
    about="A planned loft bend (target minus stamped) is past the head's limit.",
    source=COMMON_PRACTICE,
    thresholds=BENDS,
)
def planned_loft_bend_too_far(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _built(facts):
        for hit in _one_way(club, limits, "loft", loft_bends(club)[0], "the stamp", NEARER_LOFT):
            is_new = club.source is ClubSource.NEW
            nearer = nearer_head_words(club, facts, limits) if is_new else ""
            yield replace(hit, hint=f"{nearer} {OR_ASK}") if nearer else hit


@SPEC_BOOK.rule(
    "SPEC-E002",
    Severity.STOPS,
    about="A loft bend to make (target minus as received) is past the head's limit.",
    source=COMMON_PRACTICE,
    thresholds=BENDS,
)
def loft_bend_to_make_too_far(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _built(facts):
        yield from _one_way(
            club, limits, "loft", loft_bends(club)[1], _as_measured(club), NEARER_LOFT
        )


@SPEC_BOOK.rule(
    "SPEC-E003",
    Severity.STOPS,
    about="A planned lie bend (target minus the head's stock lie) is past its limit.",
    source=COMMON_PRACTICE,
    thresholds=BENDS,
)
def planned_lie_bend_too_far(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _built(facts):
        yield from _one_way(club, limits, "lie", lie_bends(club)[0], "the stock lie", NEARER_LIE)


@SPEC_BOOK.rule(
    "SPEC-E004",
    Severity.STOPS,
    about="A lie bend to make (target minus as received) is past the head's limit.",
    source=COMMON_PRACTICE,
    thresholds=BENDS,
)
def lie_bend_to_make_too_far(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _built(facts):
        yield from _one_way(club, limits, "lie", lie_bends(club)[1], _as_measured(club), NEARER_LIE)


def _as_measured(club: ClubFacts) -> str:
    return "as received" if club.source is ClubSource.NEW else "as measured"


@SPEC_BOOK.rule(
    "SPEC-E005",
    Severity.STOPS,
    about="Loft and lie bends, each within its limit, are too much for one hosel together.",
    source=COMMON_PRACTICE,
    thresholds=BENDS,
)
def both_bends_too_far(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _built(facts):
        for loft, lie in bends_together(club):
            if loft is None or lie is None or 0 in (loft, lie):
                continue
            judged = judged_bend(club.head, limits, loft, lie)
            if not judged.is_too_far:
                continue
            alone = (
                judged_bend(club.head, limits, loft, Decimal(0)),
                judged_bend(club.head, limits, Decimal(0), lie),
            )
            if not any(one.is_too_far for one in alone):
                yield _both_hit(club, judged)
                break


def _both_hit(club: ClubFacts, judged: HeadBend) -> Hit:
    bend, limit = judged.bend, judged.judgement.limit_deg
    return Hit(
        fields=(club.field("target_loft_deg"), club.field("target_lie_deg")),
        sentence=(
            f"{club_words(club)}: {bend_text(bend.loft_deg)} and "
            f"{bend_text(bend.lie_deg, 'lie')} count as "
            f"{judged.judgement.combined_deg:.2f} degrees on one hosel; "
            f"{allowed_words(club.head, bend, limit)}."
        ),
        hint="Give up some of one: a head that is stamped nearer, or a lie nearer to stock.",
        numbers=(("loft", bend.loft_deg), ("lie", bend.lie_deg), ("limit", limit)),
    )


@SPEC_BOOK.rule(
    "SPEC-E006",
    Severity.STOPS,
    about="Bounce after bending would be below nothing: the leading edge digs first.",
    source=COMMON_PRACTICE,
)
def bounce_negative(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _built(facts):
        after = predicted_bounce(club)
        if after is not None and after < 0:
            yield _bounce_hit(club, after, "the leading edge would meet the turf before the sole")


@SPEC_BOOK.rule(
    "SPEC-E007",
    Severity.STOPS,
    about="A head would be bent back by more than a degree for the second time.",
    source=COMMON_PRACTICE,
    thresholds=BENDS,
)
def second_reversal(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _built(facts):
        if not club.head.earlier:
            continue  # a first bend turns nothing back
        for loft, lie in bends_together(club):
            judged = judged_bend(club.head, limits, _or_none_made(loft), _or_none_made(lie))
            if judged.turns_back:
                yield Hit(
                    fields=(club.field("target_loft_deg"), club.field("target_lie_deg")),
                    sentence=(
                        f"{club_words(club)}: this head was bent one way and back already; "
                        f"another turn of more than {degrees(REVERSAL_OVER_DEG)} may crack it."
                    ),
                    hint="Leave it where it is, or take another head.",
                    numbers=(("loft", loft), ("lie", lie)),
                )
                break


def _bounce_hit(club: ClubFacts, after: Decimal, why: str) -> Hit:
    said = club_bounce_words(club)
    return Hit(
        fields=(club.field("target_loft_deg"), club.field("stamped_bounce_deg")),
        sentence=f"{club_words(club)}: bounce {said}; {why}.",
        hint="A head that is stamped nearer to the loft, or one with more bounce.",
        numbers=(("bounce", after),),
    )


@SPEC_BOOK.rule(
    "SPEC-E008",
    Severity.STOPS,
    about="A head that isn't bent is given another loft or lie, and nothing says what it has now.",
    source=COMMON_PRACTICE,
    thresholds=BENDS,
)
def rigid_head_from_nowhere(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in facts.clubs:
        if club.source is not ClubSource.OWN_ADJUSTED:
            continue
        bends = limits.bend_limits(club.head)
        lofts, lies = (bends.weak_deg, bends.strong_deg), (bends.upright_deg, bends.flat_deg)
        blind = [
            (axis, target)
            for axis, target, known, ways in (
                ("loft", club.target_loft_deg, loft_bends(club), lofts),
                ("lie", club.target_lie_deg, lie_bends(club), lies),
            )
            if target is not None and known == (None, None) and max(ways) == 0
        ]
        if blind:
            words = listed([axis for axis, _ in blind])
            yield Hit(
                fields=tuple(club.field(f"target_{axis}_deg") for axis, _ in blind),
                sentence=f"{club_words(club)}: this head ({club.head.making.label}) is not bent "
                f"until its maker says how far, and its {words} {_is_or_are(blind)} neither "
                "measured nor stamped.",
                hint="Measure it, or leave it as it is.",
                numbers=tuple(blind),
            )


def _is_or_are(things: Sequence[object]) -> str:
    return "is" if len(things) == 1 else "are"


@SPEC_BOOK.rule(
    "SPEC-W001",
    Severity.LOOK,
    about="A bend of more than two degrees, on any wedge: bounce and looks change with it.",
    source=COMMON_PRACTICE,
    thresholds=("bend_look_deg",),
)
def large_bend(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _built(facts):
        axes: tuple[tuple[Axis, tuple[Decimal | None, Decimal | None]], ...] = (
            ("loft", loft_bends(club)),
            ("lie", lie_bends(club)),
        )
        for axis, bends in axes:
            largest = max((b for b in bends if b is not None), key=abs, default=Decimal(0))
            if abs(largest) > limits.bend_look_deg:
                changes = "bounce, offset and looks change" if axis == "loft" else "looks change"
                yield Hit(
                    fields=(club.field(f"target_{axis}_deg"),),
                    sentence=(
                        f"{club_words(club)}: {bend_text(largest, axis)} is more than "
                        f"{figure(limits.bend_look_deg)}; {changes} with it."
                    ),
                    hint="A head that is made nearer needs less of it.",
                    numbers=(("bend", largest), ("look", limits.bend_look_deg)),
                )


@SPEC_BOOK.rule(
    "SPEC-W002",
    Severity.LOOK,
    about="Bounce after bending would be lower than any usual sole.",
    source=COMMON_PRACTICE,
    thresholds=("bounce_low_deg",),
)
def bounce_low(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _built(facts):
        after = predicted_bounce(club)
        if after is not None and 0 <= after < limits.bounce_low_deg:
            low = figure(limits.bounce_low_deg)
            yield _bounce_hit(club, after, f"less than {low} is little, even on firm turf")


@SPEC_BOOK.rule(
    "SPEC-W003",
    Severity.LOOK,
    about="A 17-4 head is to be bent and its maker was not asked.",
    source=COMMON_PRACTICE,
    thresholds=BENDS,
)
def hard_head_maker_not_asked(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _built(facts):
        if club.head.making is not Making.CAST_17_4:
            continue
        if limits.bend_limits(club.head).said_by == "the maker":
            continue
        known = [b for b in (*loft_bends(club), *lie_bends(club)) if b is not None]
        bends = [b for b in known if b != 0]
        if bends:
            yield Hit(
                fields=(club.field("head"),),
                sentence=f"{club_words(club)}: a 17-4 stainless head is hard; ask its maker "
                "before it is bent at all.",
                hint="Write the maker's limits with the head, and this goes.",
                numbers=(("bend", max(bends, key=abs)),),
            )


@SPEC_BOOK.rule(
    "SPEC-W004",
    Severity.LOOK,
    about="An own club is to be adjusted and was never measured.",
    source=COMMON_PRACTICE,
)
def own_club_not_measured(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in facts.clubs:
        if club.source is not ClubSource.OWN_ADJUSTED:
            continue
        axes = {
            "loft": (club.target_loft_deg, club.as_received_loft_deg, club.stamped_loft_deg),
            "lie": (club.target_lie_deg, club.as_received_lie_deg, club.stock_lie_deg),
        }
        missing = [
            axis for axis, (target, got, _) in axes.items() if target is not None and got is None
        ]
        if missing:
            yield Hit(
                fields=tuple(club.field(f"as_received_{axis}_deg") for axis in missing),
                sentence=f"{club_words(club)}: its {listed(missing)} "
                f"{'was' if len(missing) == 1 else 'were'} not measured, "
                "so nobody knows how far it is to be bent.",
                hint="Measure it: a wedge drifts a degree or two in years of play.",
                numbers=tuple(
                    (f"{axis} {what}", value)
                    for axis in missing
                    for what, value in (("target", axes[axis][0]), ("as made", axes[axis][2]))
                ),
            )


@SPEC_BOOK.rule(
    "SPEC-N001",
    Severity.NOTE,
    about="Bounce after bending can't be predicted.",
    source=COMMON_PRACTICE,
)
def bounce_not_known(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _built(facts):
        if predicted_bounce(club) is None:
            yield Hit(
                fields=(club.field("stamped_bounce_deg"),),
                sentence=f"{club_words(club)}: bounce after bending can't be predicted; "
                "its stamped loft or bounce is not known.",
                hint="The stamp or the maker's sheet says it.",
            )
