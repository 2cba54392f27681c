"""Rules on shafts against the irons, the role and the player, and on grips against butts."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from sessions.rules.facts import (
    RULES_SHORTEST_GRIP_MM,
    ClubFacts,
    ClubSource,
    PlayerKind,
    Role,
    ShaftMaterial,
    SpecFacts,
    SpecLimits,
    Tip,
)
from sessions.rules.findings import Hit, Severity
from sessions.rules.spec_book import COMMON_PRACTICE, EQUIPMENT_RULES, SPEC_BOOK
from sessions.rules.wording import club_words, figure, listed


def _new(facts: SpecFacts) -> Iterator[ClubFacts]:
    return (club for club in facts.clubs if club.source is ClubSource.NEW)


def _heavier(facts: SpecFacts) -> Iterator[tuple[ClubFacts, Decimal, Decimal]]:
    """Each new club, its shaft's mass and how much heavier than the irons' it is [g]."""
    irons = facts.player.iron_shaft_g
    for club in _new(facts):
        if irons is not None and club.shaft.mass_g is not None:
            yield club, club.shaft.mass_g, club.shaft.mass_g - irons


def _weight_hit(club: ClubFacts, mass: Decimal, irons: Decimal, why: str, hint: str) -> Hit:
    return Hit(
        fields=(club.field("shaft"),),
        sentence=f"{club_words(club)}: a shaft of {figure(mass)} g, the irons' are "
        f"{figure(irons)} g; {why}.",
        hint=hint,
        numbers=(("shaft", mass), ("irons", irons)),
    )


@SPEC_BOOK.rule(
    "SPEC-E025",
    Severity.STOPS,
    about="A taper tip is to be trimmed: it never is.",
    source=COMMON_PRACTICE,
)
def taper_tip_trimmed(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        if club.tip is Tip.TAPER and club.tip_trim_mm > 0:
            yield Hit(
                fields=(club.field("tip_trim_mm"),),
                sentence=f"{club_words(club)}: {figure(club.tip_trim_mm)} mm would come off a "
                "taper tip, which is never trimmed.",
                hint="Set the trim to 0, or choose the shaft with a parallel tip.",
                numbers=(("trim", club.tip_trim_mm),),
            )


@SPEC_BOOK.rule(
    "SPEC-E026",
    Severity.STOPS,
    about="A grip is shorter than the Equipment Rules allow: 7 inches.",
    source=EQUIPMENT_RULES,
)
def grip_shorter_than_the_rules(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in facts.clubs:
        length = club.grip.length_mm
        if length is not None and length < RULES_SHORTEST_GRIP_MM:
            yield Hit(
                fields=(club.field("grip"),),
                sentence=f"{club_words(club)}: a grip of {figure(length)} mm is shorter than "
                "7 inches, which the Rules don't allow.",
                hint="Choose a longer grip.",
                numbers=(("length", length),),
            )


@SPEC_BOOK.rule(
    "SPEC-W024",
    Severity.LOOK,
    about="A grip's core and the shaft's butt are of two sizes: it comes out thicker or thinner.",
    source=COMMON_PRACTICE,
    thresholds=("grip_core_apart_mm",),
)
def grip_core_against_butt(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        core, butt = club.grip.core_mm, club.shaft.butt_mm
        if core is None or butt is None or abs(core - butt) <= limits.grip_core_apart_mm:
            continue
        yield Hit(
            fields=(club.field("grip"), club.field("shaft")),
            sentence=f"{club_words(club)}: a core of {figure(core)} mm on a butt of "
            f"{figure(butt)} mm: the grip comes out "
            f"{'thicker' if core < butt else 'thinner'} than its size says.",
            hint="Meant so, or take the core of the butt's size; the butt is measured after the "
            "cut.",
            numbers=(("core", core), ("butt", butt)),
        )


@SPEC_BOOK.rule(
    "SPEC-W025",
    Severity.LOOK,
    about="A head, shaft or grip is discontinued.",
    source=COMMON_PRACTICE,
)
def part_discontinued(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        for part in club.discontinued:
            yield Hit(
                fields=(club.field(part),),
                sentence=f"{club_words(club)}: its {part} is discontinued.",
                hint="Make sure that one is on the shelf, or choose another.",
                numbers=(("part", part),),
            )


@SPEC_BOOK.rule(
    "SPEC-N024",
    Severity.NOTE,
    about="A head, shaft or grip has to be ordered first.",
    source=COMMON_PRACTICE,
)
def part_to_order(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        if club.to_order:
            yield Hit(
                fields=(club.field(club.to_order[0]),),
                sentence=f"{club_words(club)}: its {listed(list(club.to_order))} "
                f"{'has' if len(club.to_order) == 1 else 'have'} to be ordered first.",
                hint="Tell the player that it takes longer.",
                numbers=(("parts", len(club.to_order)),),
            )


@SPEC_BOOK.rule(
    "SPEC-W070",
    Severity.LOOK,
    about="A shaft lighter than the irons': on part swings it is hard to control. Juniors, seniors "
    "and hands that hurt are spared.",
    source=COMMON_PRACTICE,
    thresholds=("shaft_lighter_g",),
)
def shaft_lighter_than_the_irons(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    irons = facts.player.iron_shaft_g
    for club, mass, heavier in _heavier(facts):
        if irons is not None and not facts.player.is_spared and -heavier > limits.shaft_lighter_g:
            yield _weight_hit(
                club,
                mass,
                irons,
                "on part swings a light shaft is hard to control, even where it wins at full swing",
                "As heavy as the irons', or heavier.",
            )


@SPEC_BOOK.rule(
    "SPEC-W071",
    Severity.LOOK,
    about="A shaft heavier than the irons' for a junior, a senior or hands that hurt: weight is "
    "never pushed on them.",
    source=COMMON_PRACTICE,
    thresholds=("shaft_heavier_spared_g", "shaft_heavier_child_g"),
    is_fixed=True,
)
def shaft_heavier_for_the_spared(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    irons = facts.player.iron_shaft_g
    is_child = facts.player.kind is PlayerKind.JUNIOR
    most = limits.shaft_heavier_child_g if is_child else limits.shaft_heavier_spared_g
    for club, mass, heavier in _heavier(facts):
        if irons is not None and facts.player.is_spared and heavier > most:
            yield _weight_hit(
                club,
                mass,
                irons,
                "this player is not to be given more weight",
                "As light as the irons'; a swing weight of C5 to D0 is normal with it.",
            )


@SPEC_BOOK.rule(
    "SPEC-W072",
    Severity.LOOK,
    about="A shaft far heavier than the irons': a full-shot club usually has theirs, a touch club "
    "may have more.",
    source=COMMON_PRACTICE,
    thresholds=("shaft_heavier_full_g", "shaft_heavier_touch_g"),
)
def shaft_far_heavier_than_the_irons(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    irons = facts.player.iron_shaft_g
    for club, mass, heavier in _heavier(facts):
        if irons is None or facts.player.is_spared or club.role is None:
            continue  # SPEC-W071 speaks of the spared
        is_full = club.role is Role.FULL_SHOT
        most = limits.shaft_heavier_full_g if is_full else limits.shaft_heavier_touch_g
        if heavier > most:
            yield _weight_hit(
                club,
                mass,
                irons,
                f"more than {figure(most)} g heavier is much for a {club.role.label.lower()}",
                "Right where it was tried and liked: say so.",
            )


@SPEC_BOOK.rule(
    "SPEC-W073",
    Severity.LOOK,
    about="A full-shot club's shaft is steel and the irons' graphite, or the other way round.",
    source=COMMON_PRACTICE,
)
def shaft_of_another_material(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    irons = facts.player.iron_shaft_material
    for club in _new(facts):
        material = club.shaft.material
        if irons is None or material is None or club.role is not Role.FULL_SHOT:
            continue
        if material is not irons:
            yield Hit(
                fields=(club.field("shaft"),),
                sentence=f"{club_words(club)}: its shaft is {material.value}, the irons' are "
                f"{irons.value}; a full-shot club usually swings as they do.",
                hint="The irons' shaft, or say why this one.",
                numbers=(("shaft", material.value), ("irons", irons.value)),
            )


@SPEC_BOOK.rule(
    "SPEC-W074",
    Severity.LOOK,
    about="The irons are about to change, and a new club stands next to the pitching wedge or "
    "follows the irons: its gap, shaft and lie hang on a pitching wedge that goes.",
    source=COMMON_PRACTICE,
)
def club_hangs_on_irons_that_go(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    if not facts.player.irons_changing:
        return
    by_loft = [club for club in facts.clubs if club.played_loft_deg is not None]
    first = min(by_loft, key=lambda club: (club.played_loft_deg or 0, club.slot), default=None)
    for club in _new(facts):
        if club.role is Role.FULL_SHOT or (first is not None and club.slot == first.slot):
            yield Hit(
                fields=(club.field("target_loft_deg"), "player.irons"),
                sentence=f"{club_words(club)}: the irons are about to change, and with them the "
                "pitching wedge that its gap, shaft and lie hang on.",
                hint="Wait until the new pitching wedge is measured and hit, and ask whether the "
                "new set has a gap wedge of its own.",
                numbers=(("loft", club.played_loft_deg),),
            )


@SPEC_BOOK.rule(
    "SPEC-N070",
    Severity.NOTE,
    about="The irons are about to change, and shaft and lie were judged by those of now.",
    source=COMMON_PRACTICE,
)
def irons_are_changing(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    if facts.player.irons_changing and any(True for _ in _new(facts)):
        yield Hit(
            fields=("player.irons",),
            sentence="The irons are about to change: shaft and lie that follow the ones of now "
            "may not follow the next.",
            hint="Settle the irons first, or leave the full-shot clubs until then.",
        )


@SPEC_BOOK.rule(
    "SPEC-N071",
    Severity.NOTE,
    about="The irons' lie or shaft weight is not known, so lie and shaft were not judged by them.",
    source=COMMON_PRACTICE,
)
def irons_not_known(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    player = facts.player
    missing = [
        word
        for word, is_missing in (
            ("lie", player.iron_lie_deg is None),
            ("shaft weight", player.iron_shaft_g is None),
        )
        if is_missing
    ]
    if missing and any(True for _ in _new(facts)):
        yield Hit(
            fields=("player.irons",),
            sentence=f"The irons' {listed(missing)} {'is' if len(missing) == 1 else 'are'} not "
            "known, so the new clubs were not judged by "
            f"{'it' if len(missing) == 1 else 'them'}.",
            hint="Ask in the interview, or read the label on the shaft.",
            numbers=(("missing", len(missing)),),
        )


@SPEC_BOOK.rule(
    "SPEC-W081",
    Severity.LOOK,
    about="A shaft pulled out of an older club: its tip was heated once, and it is shorter.",
    source=COMMON_PRACTICE,
    is_fixed=True,
)
def shaft_is_pulled(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in _new(facts):
        if club.shaft.is_pulled:
            is_graphite = club.shaft.material is ShaftMaterial.GRAPHITE
            yield Hit(
                fields=(club.field("shaft"),),
                sentence=f"{club_words(club)}: its shaft comes out of an older club. "
                + (
                    "Heat may have softened the resin of its tip"
                    if is_graphite
                    else "Its tip was heated once and may be rusty inside"
                )
                + ", and it is shorter than a new one.",
                hint="Look at the tip for cracks and splinters, and measure what is left of it, "
                "before it is promised.",
            )
