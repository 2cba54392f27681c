"""Rules on the parts of one club: that all are named, fit each other, the player and the Rules."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from sessions.maths.units import show_length
from sessions.rules.facts import (
    RULES_LONGEST_MM,
    RULES_SHORTEST_MM,
    ClubFacts,
    ClubSource,
    PlayerFacts,
    PlayerKind,
    SpecFacts,
    SpecLimits,
)
from sessions.rules.findings import Hit, Severity
from sessions.rules.spec_book import COMMON_PRACTICE, EQUIPMENT_RULES, SPEC_BOOK
from sessions.rules.wording import club_words, figure, listed

LENGTHS = (
    "length_man_low_mm",
    "length_man_high_mm",
    "length_woman_low_mm",
    "length_woman_high_mm",
    "length_senior_low_mm",
    "length_senior_high_mm",
    "length_tall_high_mm",
    "tall_from_mm",
    "length_junior_low_mm",
    "length_junior_high_mm",
    "junior_height_low_mm",
    "junior_height_high_mm",
    "length_junior_slack_mm",
)


def _built(facts: SpecFacts) -> Iterator[ClubFacts]:
    return (club for club in facts.clubs if club.is_built)


def _new(facts: SpecFacts) -> Iterator[ClubFacts]:
    return (club for club in facts.clubs if club.source is ClubSource.NEW)


@SPEC_BOOK.rule(
    "SPEC-E020",
    Severity.STOPS,
    about="A head is made for the other hand.",
    source=COMMON_PRACTICE,
)
def wrong_hand(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    player = facts.player.hand
    for club in facts.clubs:
        if player is not None and club.hand is not None and club.hand is not player:
            yield Hit(
                fields=(club.field("hand"),),
                sentence=f"{club_words(club)}: the head is {club.hand.value}-handed, "
                f"the player swings {player.value}-handed.",
                hint="Choose the head in the player's hand.",
                numbers=(("head", club.hand.value), ("player", player.value)),
            )


def _missing_parts(club: ClubFacts) -> list[tuple[str, str]]:
    """(field, word) of everything that the bench would have to guess."""
    asked: list[tuple[str, str, bool]] = [
        ("target_loft_deg", "target loft", club.target_loft_deg is None),
        ("target_lie_deg", "target lie", club.target_lie_deg is None),
        ("length_mm", "length", club.length_mm is None),
    ]
    if club.source is ClubSource.NEW:
        asked = [
            ("head", "head", not club.has_head),
            ("stamped_loft_deg", "stamped loft", club.stamped_loft_deg is None),
            *asked,
            ("shaft", "shaft", not club.has_shaft),
            ("grip", "grip", not club.has_grip),
        ]
    return [(field, word) for field, word, is_missing in asked if is_missing]


@SPEC_BOOK.rule(
    "SPEC-E021",
    Severity.STOPS,
    about="A club to be built or adjusted lacks a part or a figure.",
    source=COMMON_PRACTICE,
)
def part_missing(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _built(facts):
        for field, word in _missing_parts(club):
            yield Hit(
                fields=(club.field(field),),
                sentence=f"{club_words(club)}: no {word} was chosen.",
                hint="The ticket gives absolute figures: nothing is left to the bench to guess.",
            )


@SPEC_BOOK.rule(
    "SPEC-E022",
    Severity.STOPS,
    about="The shaft's tip does not fit the head's bore.",
    source=COMMON_PRACTICE,
)
def tip_does_not_fit(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        if club.tip is not None and club.bore is not None and club.tip is not club.bore:
            yield Hit(
                fields=(club.field("shaft"), club.field("head")),
                sentence=f"{club_words(club)}: a {club.tip.label} tip does not fit a "
                f"{club.bore.label} bore.",
                hint=f"Choose the shaft with a {club.bore.label} tip, or another head.",
                numbers=(("tip", club.tip.value), ("bore", club.bore.value)),
            )


@SPEC_BOOK.rule(
    "SPEC-E023",
    Severity.STOPS,
    about="A length is outside the Equipment Rules: 18 to 48 inches.",
    source=EQUIPMENT_RULES,
)
def length_outside_the_rules(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in facts.clubs:
        length = club.length_mm
        if length is not None and not RULES_SHORTEST_MM <= length <= RULES_LONGEST_MM:
            side = "shorter than 18" if length < RULES_SHORTEST_MM else "longer than 48"
            yield Hit(
                fields=(club.field("length_mm"),),
                sentence=f"{club_words(club)}: {_length(length)} is {side} inches, "
                "which the Rules don't allow.",
                hint="Look whether it was typed in the wrong unit.",
                numbers=(("length", length),),
            )


def _length(length_mm: Decimal) -> str:
    return f"{show_length(length_mm, 'in')} ({show_length(length_mm, 'mm')})"


@SPEC_BOOK.rule(
    "SPEC-E024",
    Severity.STOPS,
    about="The player's hand or a head's hand is not recorded.",
    source=COMMON_PRACTICE,
)
def hand_not_known(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    if facts.player.hand is None:
        yield Hit(
            fields=("player.hand",),
            sentence="Nobody wrote down whether the player swings right- or left-handed.",
            hint="The ticket says it in its largest letters.",
        )
    for club in _new(facts):
        if club.has_head and club.hand is None:
            yield Hit(
                fields=(club.field("hand"),),
                sentence=f"{club_words(club)}: the head's hand is not recorded.",
                hint="Write it down with the head in the catalogue.",
            )


def usual_length_mm(player: PlayerFacts, limits: SpecLimits) -> tuple[Decimal, Decimal]:
    """The usual range of a wedge's length for this player [mm], both ends included.

    A child's follows the height, a straight line between two of the shop's points with some
    slack either side; without a height the whole range of juniors' clubs. A tall adult's upper
    end is the tall one.
    """
    match player.kind:
        case PlayerKind.JUNIOR:
            return _junior_length_mm(player.height_mm, limits)
        case PlayerKind.MAN:
            low, high = limits.length_man_low_mm, limits.length_man_high_mm
        case PlayerKind.WOMAN:
            low, high = limits.length_woman_low_mm, limits.length_woman_high_mm
        case PlayerKind.SENIOR:
            low, high = limits.length_senior_low_mm, limits.length_senior_high_mm
        case PlayerKind.ADULT:
            low = min(limits.length_man_low_mm, limits.length_woman_low_mm)
            high = max(limits.length_man_high_mm, limits.length_woman_high_mm)
    if player.height_mm is not None and player.height_mm >= limits.tall_from_mm:
        high = max(high, limits.length_tall_high_mm)
    return low, high


def _junior_length_mm(height_mm: int | None, limits: SpecLimits) -> tuple[Decimal, Decimal]:
    shortest, longest = limits.length_junior_low_mm, limits.length_junior_high_mm
    rise = limits.junior_height_high_mm - limits.junior_height_low_mm
    if height_mm is None or rise <= 0:
        return shortest, longest
    up = (Decimal(height_mm) - limits.junior_height_low_mm) / rise
    expected = shortest + min(max(up, Decimal(0)), Decimal(1)) * (longest - shortest)
    return expected - limits.length_junior_slack_mm, expected + limits.length_junior_slack_mm


_WHOSE = {
    PlayerKind.ADULT: "an adult",
    PlayerKind.MAN: "a man",
    PlayerKind.WOMAN: "a woman",
    PlayerKind.SENIOR: "a senior",
    PlayerKind.JUNIOR: "a child",
}


def _with_the_irons(
    facts: SpecFacts, usual: tuple[Decimal, Decimal], limits: SpecLimits
) -> tuple[Decimal, Decimal]:
    """The usual range, wider where an adult's pitching wedge says so: a wedge that runs on from
    the irons which are played is no surprise."""
    pitching = facts.baseline_length_mm
    if pitching is None or facts.player.kind is PlayerKind.JUNIOR:
        return usual
    return (
        min(usual[0], pitching - limits.length_run_shorter_mm),
        max(usual[1], pitching + limits.length_run_longer_mm),
    )


@SPEC_BOOK.rule(
    "SPEC-W020",
    Severity.LOOK,
    about="A length is unusual for this kind of player and does not run on from the irons; a "
    "child's is judged by height. Who plays seated or with one arm has no usual length.",
    source=COMMON_PRACTICE,
    thresholds=(*LENGTHS, "length_run_longer_mm", "length_run_shorter_mm"),
)
def length_unusual(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    if not facts.player.stands_with_two_arms:
        return
    low, high = _with_the_irons(facts, usual_length_mm(facts.player, limits), limits)
    whose = _WHOSE[facts.player.kind]
    if facts.player.kind is PlayerKind.JUNIOR and facts.player.height_mm is not None:
        whose = f"a child of {figure(Decimal(facts.player.height_mm) / 10)} cm"
    for club in _built(facts):
        length = club.length_mm
        if length is None or not RULES_SHORTEST_MM <= length <= RULES_LONGEST_MM:
            continue  # SPEC-E021 and SPEC-E023 speak of those
        if not low <= length <= high:
            yield Hit(
                fields=(club.field("length_mm"),),
                sentence=f"{club_words(club)}: {_length(length)} is "
                f"{'short' if length < low else 'long'} for {whose}; usual are "
                f"{show_length(low, 'in')} to {show_length(high, 'in')}.",
                hint="Right where it was tried and liked: say so.",
                numbers=(("length", length), ("low", low), ("high", high)),
            )


@SPEC_BOOK.rule(
    "SPEC-W021",
    Severity.LOOK,
    about="Whether the tip fits the bore is not known.",
    source=COMMON_PRACTICE,
)
def fit_not_known(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        unknown = [
            (field, word)
            for field, word, is_unknown in (
                ("head", "bore of the head", club.has_head and club.bore is None),
                ("shaft", "tip of the shaft", club.has_shaft and club.tip is None),
            )
            if is_unknown
        ]
        if unknown:
            yield Hit(
                fields=tuple(club.field(field) for field, _ in unknown),
                sentence=f"{club_words(club)}: the {listed([word for _, word in unknown])} "
                f"{'is' if len(unknown) == 1 else 'are'} not recorded; "
                "they may not fit each other.",
                hint="Gauge it, and write it down in the catalogue.",
            )


@SPEC_BOOK.rule(
    "SPEC-W022",
    Severity.LOOK,
    about="A stamping may be too long for the head.",
    source=COMMON_PRACTICE,
    thresholds=("stamping_most_characters",),
)
def stamping_long(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _built(facts):
        text = club.stamping
        if text is not None and len(text) > limits.stamping_most_characters:
            yield Hit(
                fields=(club.field("stamping"),),
                sentence=f"{club_words(club)}: “{text}” has {len(text)} characters; "
                f"more than {limits.stamping_most_characters} may not fit on the head.",
                hint="Shorten it, or ask the bench where it goes.",
                numbers=(("text", text),),
            )


@SPEC_BOOK.rule(
    "SPEC-W023",
    Severity.LOOK,
    about="Nobody said what is to be stamped, or that nothing is.",
    source=COMMON_PRACTICE,
)
def stamping_not_said(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        if club.stamping is None:
            yield Hit(
                fields=(club.field("stamping"),),
                sentence=f"{club_words(club)}: nobody said what is to be stamped on it.",
                hint="Write the exact text, or “none”.",
            )


@SPEC_BOOK.rule(
    "SPEC-N020",
    Severity.NOTE,
    about="No swing weight is asked for.",
    source=COMMON_PRACTICE,
)
def swing_weight_not_said(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        if club.swing_weight_points is None:
            yield Hit(
                fields=(club.field("swing_weight_points"),),
                sentence=f"{club_words(club)}: no swing weight is asked for; "
                "the bench builds what comes.",
                hint="If it matters to this player, write the target.",
            )


@SPEC_BOOK.rule(
    "SPEC-N021",
    Severity.NOTE,
    about="A child's height is not known, so length is judged only roughly.",
    source=COMMON_PRACTICE,
)
def child_height_not_known(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    if facts.player.kind is PlayerKind.JUNIOR and facts.player.height_mm is None:
        yield Hit(
            fields=("player.height_mm",),
            sentence="The child's height is not recorded, so length was judged only roughly.",
            hint="Measure it: it is also how you will know when the clubs are outgrown.",
        )


@SPEC_BOOK.rule(
    "SPEC-N022",
    Severity.NOTE,
    about="A child's clubs are checked again.",
    source=COMMON_PRACTICE,
    thresholds=("junior_check_months", "junior_check_growth_mm"),
)
def child_grows(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    if facts.player.kind is PlayerKind.JUNIOR:
        months, growth = limits.junior_check_months, limits.junior_check_growth_mm / 10
        yield Hit(
            fields=("player.kind",),
            sentence=f"Growing: check these clubs again after {months} months "
            f"or {figure(growth)} cm.",
            numbers=(("months", months), ("growth", growth)),
        )


@SPEC_BOOK.rule(
    "SPEC-N023",
    Severity.NOTE,
    about="A slot has no role.",
    source=COMMON_PRACTICE,
)
def role_not_said(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in facts.clubs:
        if club.role is None:
            yield Hit(
                fields=(club.field("role"),),
                sentence=f"{club_words(club)}: nobody said whether it is a full-shot club "
                "or a touch club.",
            )
