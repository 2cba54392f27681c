"""Rules on soles: the bounce that is left after bending, and the sole, against what they must do.

Turf in both seasons, sand, attack and opened face are what the interview says; where nobody said
it, nothing is judged and SPEC-N030 says what is open. Where two answers pull two ways (steep on
firm ground, a shallow attack and fluffy sand) the set is judged job by job, never by an average.
Only clubs that are built are spoken of: a club that is kept needs no proof.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from sessions.rules.facts import (
    Attack,
    ClubFacts,
    ClubSource,
    Often,
    PlayerFacts,
    Role,
    SpecFacts,
    SpecLimits,
)
from sessions.rules.findings import Hit, Severity
from sessions.rules.head_bends import predicted_bounce
from sessions.rules.spec_book import COMMON_PRACTICE, SPEC_BOOK
from sessions.rules.wording import club_bounce_words, club_words, degrees, figure, listed

ATTACK = ("steep_deg", "shallow_deg")


def attack_of(player: PlayerFacts, limits: SpecLimits) -> Attack | None:
    """Steep, medium or shallow: as measured, else by eye; None where nobody said."""
    measured = player.attack_deg
    if measured is None:
        return player.attack_seen
    if measured < limits.steep_deg:
        return Attack.STEEP
    return Attack.SHALLOW if measured > limits.shallow_deg else Attack.MEDIUM


def _attack_words(player: PlayerFacts, attack: Attack) -> str:
    if player.attack_deg is None:
        return f"the attack is {attack.value}"
    return f"the attack is {attack.value} ({degrees(player.attack_deg)})"


def _ground_words(player: PlayerFacts) -> str:
    return listed([word for word in ("firm", "normal", "soft") if word in player.ground])


def _with_bounce(facts: SpecFacts) -> Iterator[tuple[ClubFacts, Decimal]]:
    """Every built club whose bounce can be foretold."""
    for club in facts.clubs:
        bounce = predicted_bounce(club)
        if club.is_built and bounce is not None:
            yield club, bounce


def opened_club(facts: SpecFacts) -> ClubFacts | None:
    """The club that is opened: the most lofted touch club, None where there is none."""
    touch = [c for c in facts.clubs if c.role is Role.TOUCH and c.played_loft_deg is not None]
    return max(touch, key=lambda c: (c.played_loft_deg or Decimal(0), c.slot), default=None)


def _hit(club: ClubFacts, bounce: Decimal, why: str, hint: str) -> Hit:
    return Hit(
        fields=(club.field("stamped_bounce_deg"), club.field("target_loft_deg")),
        sentence=f"{club_words(club)}: bounce {club_bounce_words(club)}; {why}.",
        hint=hint,
        numbers=(("bounce", bounce),),
    )


@SPEC_BOOK.rule(
    "SPEC-W050",
    Severity.LOOK,
    about="High bounce after bending on ground that is firm: the sole bounces off it. A touch "
    "club for soft sand is spared.",
    source=COMMON_PRACTICE,
    thresholds=("bounce_high_from_deg",),
)
def bounce_high_on_firm_ground(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    player = facts.player
    if "firm" not in player.ground or "soft" in player.ground:
        return
    for club, bounce in _with_bounce(facts):
        if club.role is Role.TOUCH and player.is_soft_sand:
            continue
        if bounce >= limits.bounce_high_from_deg:
            yield _hit(
                club,
                bounce,
                f"{figure(limits.bounce_high_from_deg)} and more is high, and the ground at home "
                f"is {_ground_words(player)}",
                "Mid bounce, with a softened leading edge where the attack is steep.",
            )


@SPEC_BOOK.rule(
    "SPEC-W051",
    Severity.LOOK,
    about="Low bounce after bending on soft ground or with a steep attack: it digs. A touch club "
    "that is opened often is spared: the open face adds bounce.",
    source=COMMON_PRACTICE,
    thresholds=("bounce_low_to_deg", *ATTACK),
)
def bounce_low_for_turf_or_attack(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    player = facts.player
    attack = attack_of(player, limits)
    is_soft = "soft" in player.ground and "firm" not in player.ground
    reasons = [f"the ground at home is {_ground_words(player)}"] if is_soft else []
    if attack is Attack.STEEP:
        reasons.append(_attack_words(player, attack))
    if not reasons:
        return
    for club, bounce in _with_bounce(facts):
        if club.role is Role.TOUCH and player.face_opened in (None, Often.OFTEN):
            continue
        if bounce <= limits.bounce_low_to_deg:
            yield _hit(
                club,
                bounce,
                f"up to {figure(limits.bounce_low_to_deg)} is low, and {listed(reasons)}",
                "More bounce, or show on grass that it does not dig.",
            )


@SPEC_BOOK.rule(
    "SPEC-W052",
    Severity.LOOK,
    about="High bounce on the most lofted touch club of a player who opens the face often: the "
    "leading edge is lifted off the turf.",
    source=COMMON_PRACTICE,
    thresholds=("bounce_high_from_deg",),
)
def bounce_high_on_the_opened_club(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    club = opened_club(facts)
    if club is None or not club.is_built or facts.player.face_opened is not Often.OFTEN:
        return
    bounce = predicted_bounce(club)
    if bounce is not None and bounce >= limits.bounce_high_from_deg:
        yield _hit(
            club,
            bounce,
            "it is the one that is opened, and an open face adds more",
            "Low bounce with relief on the one that is opened, high bounce on the one for the "
            "sand: two soles for two jobs.",
        )


@SPEC_BOOK.rule(
    "SPEC-W053",
    Severity.LOOK,
    about="Soft or fluffy sand, and no club of the set has both the bounce and the width for it.",
    source=COMMON_PRACTICE,
    thresholds=("bounce_mid_to_deg", "sole_wide_mm"),
)
def no_sole_for_soft_sand(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    player = facts.player
    if not player.is_soft_sand or player.is_firm_sand:
        return
    known = [
        (club, bounce, club.sole)
        for club in facts.clubs
        if (bounce := predicted_bounce(club)) is not None and club.sole is not None
    ]
    described = {club.slot for club, _, _ in known}
    # A club for the sand whose sole nobody described may be the one: nothing is said then.
    if not known or any(
        club.role is not Role.FULL_SHOT and club.slot not in described for club in facts.clubs
    ):
        return
    if any(
        bounce >= limits.bounce_mid_to_deg and sole.width_mm >= limits.sole_wide_mm
        for _, bounce, sole in known
    ):
        return
    most, bounce, sole = max(known, key=lambda one: (one[1], one[2].width_mm))
    yield Hit(
        fields=(most.field("sole"),),
        sentence=f"The sand is soft: a sole of {figure(limits.bounce_mid_to_deg)} degrees or more, "
        f"{figure(limits.sole_wide_mm)} mm wide or wider, does not sink. The most here is "
        f"{club_words(most)}: {degrees(bounce)}, {figure(sole.width_mm)} mm.",
        hint="One wide sole with high bounce for the sand, less on the rest.",
        numbers=(("bounce", bounce), ("width", sole.width_mm)),
    )


@SPEC_BOOK.rule(
    "SPEC-W054",
    Severity.LOOK,
    about="Firm, wet or thin sand and high bounce on a touch club: it bounces into the ball.",
    source=COMMON_PRACTICE,
    thresholds=("bounce_high_from_deg",),
)
def bounce_high_in_firm_sand(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    player = facts.player
    if not player.is_firm_sand or player.is_soft_sand:
        return
    for club, bounce in _with_bounce(facts):
        if club.role is Role.TOUCH and bounce >= limits.bounce_high_from_deg:
            yield _hit(
                club,
                bounce,
                "the sand at home is firm, and a high sole bounces off it",
                "Less bounce, a narrower sole.",
            )


@SPEC_BOOK.rule(
    "SPEC-W055",
    Severity.LOOK,
    about="The face is opened often, and the most lofted touch club has no relief at heel or "
    "trailing edge.",
    source=COMMON_PRACTICE,
)
def no_relief_for_an_open_face(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    club = opened_club(facts)
    if club is None or club.source is not ClubSource.NEW or club.sole is None:
        return
    if facts.player.face_opened is not Often.OFTEN:
        return
    grades = {"heel": club.sole.heel, "trailing edge": club.sole.trailing}
    bare = [edge for edge, grade in grades.items() if grade <= 0]
    if bare:
        yield Hit(
            fields=(club.field("sole"),),
            sentence=f"{club_words(club)}: it is opened often, and its {listed(bare)} "
            f"{'has' if len(bare) == 1 else 'have'} no relief, so the leading edge lifts.",
            hint="A sole with heel and trailing-edge relief.",
            numbers=tuple(grades.items()),
        )


@SPEC_BOOK.rule(
    "SPEC-W056",
    Severity.LOOK,
    about="A wide sole on a full-shot club where the ground is firm: wider acts like more bounce.",
    source=COMMON_PRACTICE,
    thresholds=("sole_wide_mm",),
)
def wide_sole_on_firm_ground(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    if "firm" not in facts.player.ground or "soft" in facts.player.ground:
        return
    for club in facts.clubs:
        if club.source is not ClubSource.NEW or club.role is not Role.FULL_SHOT:
            continue
        if club.sole is not None and club.sole.width_mm >= limits.sole_wide_mm:
            yield Hit(
                fields=(club.field("sole"),),
                sentence=f"{club_words(club)}: its sole is {figure(club.sole.width_mm)} mm wide, "
                f"{figure(limits.sole_wide_mm)} and more acts like more bounce, and the ground at "
                f"home is {_ground_words(facts.player)}.",
                hint="A narrower sole for full shots.",
                numbers=(("width", club.sole.width_mm),),
            )


@SPEC_BOOK.rule(
    "SPEC-W057",
    Severity.LOOK,
    about="A shallow attack, and high bounce or a wide sole on a full-shot club: it meets the ball "
    "thin. Where the ground is firm or soft in some season, other rules speak of it.",
    source=COMMON_PRACTICE,
    thresholds=("bounce_high_from_deg", "sole_wide_mm", *ATTACK),
)
def much_sole_for_a_shallow_attack(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    player = facts.player
    attack = attack_of(player, limits)
    if attack is not Attack.SHALLOW or player.ground & {"firm", "soft"}:
        return
    for club in facts.clubs:
        if not club.is_built or club.role is not Role.FULL_SHOT:
            continue
        bounce = predicted_bounce(club)
        width = club.sole.width_mm if club.source is ClubSource.NEW and club.sole else None
        much, fields = [], []
        if bounce is not None and bounce >= limits.bounce_high_from_deg:
            much.append(f"bounce {club_bounce_words(club)}")
            fields.append(club.field("stamped_bounce_deg"))
        if width is not None and width >= limits.sole_wide_mm:
            much.append(f"a sole {figure(width)} mm wide")
            fields.append(club.field("sole"))
        if much:
            yield Hit(
                fields=tuple(fields),
                sentence=f"{club_words(club)}: {listed(much)}, and "
                f"{_attack_words(player, attack)}: the sole "
                "meets the turf first and the ball is struck thin.",
                hint="Less bounce or a narrower sole for full shots, or show on grass that the "
                "strike is clean.",
                numbers=(("bounce", bounce), ("width", width)),
            )


@SPEC_BOOK.rule(
    "SPEC-N051",
    Severity.NOTE,
    about="The ground is firm in one season and soft in the other, and a full-shot club's bounce "
    "is high or low: it suits one of the two.",
    source=COMMON_PRACTICE,
    thresholds=("bounce_low_to_deg", "bounce_high_from_deg"),
)
def bounce_for_one_season(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    if not {"firm", "soft"} <= facts.player.ground:
        return
    for club, bounce in _with_bounce(facts):
        if club.role is not Role.FULL_SHOT:
            continue
        if limits.bounce_low_to_deg < bounce < limits.bounce_high_from_deg:
            continue
        suits, not_so = "soft", "skips on the firm"
        if bounce <= limits.bounce_low_to_deg:
            suits, not_so = "firm", "digs in the soft"
        yield _hit(
            club,
            bounce,
            f"it suits the {suits} ground and {not_so}, and the ground at home is both",
            "Mid bounce serves both seasons; so does another wedge for one of them.",
        )


@SPEC_BOOK.rule(
    "SPEC-N050",
    Severity.NOTE,
    about="Steep on firm ground, and a full-shot club's leading edge is not softened.",
    source=COMMON_PRACTICE,
    thresholds=ATTACK,
)
def leading_edge_for_steep_on_firm(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    player = facts.player
    attack = attack_of(player, limits)
    if attack is not Attack.STEEP or "firm" not in player.ground:
        return
    for club in facts.clubs:
        if club.source is not ClubSource.NEW or club.role is not Role.FULL_SHOT:
            continue
        if club.sole is not None and not club.sole.is_softened:
            yield Hit(
                fields=(club.field("sole"),),
                sentence=f"{club_words(club)}: {_attack_words(player, attack)} on firm ground, "
                "and its leading edge is not softened.",
                hint="Mid bounce with a softened leading edge digs less than high bounce skips.",
            )
