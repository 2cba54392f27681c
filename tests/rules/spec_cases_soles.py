"""The edges of the rules on soles, typed by hand."""

from dataclasses import replace
from decimal import Decimal as D

from sessions.rules.facts import Attack, Often, Role, Sole, SpecFacts
from tests.rules.spec_cases_bending import Case
from tests.rules.spec_examples import FIFTY, FIFTY_FIVE, QUIET, alone

NARROW = Sole(width_mm=D(17), heel=2, trailing=2)
WIDE = Sole(width_mm=D(22), heel=1, trailing=1, is_softened=True)


def of(facts: SpecFacts, **answers: object) -> SpecFacts:
    """The same clubs for a player who gave these answers."""
    return replace(facts, player=replace(facts.player, **answers))  # type: ignore[arg-type]


def bounce(degrees: str, role: Role = Role.FULL_SHOT, **more: object) -> SpecFacts:
    """One new club with this bounce, not bent."""
    return alone(stamped_bounce_deg=D(degrees), role=role, **more)


def firm(facts: SpecFacts, **more: object) -> SpecFacts:
    return of(facts, ground=frozenset({"firm"}), **more)


def soft(facts: SpecFacts, **more: object) -> SpecFacts:
    return of(facts, ground=frozenset({"soft"}), **more)


def both(facts: SpecFacts) -> SpecFacts:
    return of(facts, ground=frozenset({"firm", "soft"}))


def sand(facts: SpecFacts, *kinds: str, **more: object) -> SpecFacts:
    return of(facts, sand=frozenset(kinds), **more)


def touch(sole: Sole | None, degrees: str) -> SpecFacts:
    """The quiet spec with this sole and bounce on its most lofted club, a touch club."""
    second = replace(FIFTY_FIVE, role=Role.TOUCH, sole=sole, stamped_bounce_deg=D(degrees))
    return replace(QUIET, clubs=(FIFTY, second))


TOUCH = Role.TOUCH

SOLES = (
    Case("SPEC-W050", "11 is high", firm(bounce("10.99")), firm(bounce("11"))),
    Case(
        "SPEC-W050",
        "after the bend, not as stamped",
        firm(bounce("10.99")),
        firm(bounce("10", target_loft_deg=D(51))),
    ),
    Case(
        "SPEC-W050",
        "firm in one season and soft in the other is the interview's conflict",
        of(bounce("11"), ground=frozenset({"firm", "soft"})),
        of(bounce("11"), ground=frozenset({"firm", "normal"})),
    ),
    Case(
        "SPEC-W050",
        "a touch club for soft sand is spared",
        firm(bounce("11", TOUCH), sand=frozenset({"fluffy"})),
        firm(bounce("11", TOUCH), sand=frozenset({"coarse"})),
    ),
    Case("SPEC-W050", "ground not asked", bounce("11"), firm(bounce("11"))),
    Case("SPEC-W051", "soft ground", soft(bounce("6.01")), soft(bounce("6"))),
    Case(
        "SPEC-W051",
        "steep as measured",
        of(bounce("6"), attack_deg=D("-6")),
        of(bounce("6"), attack_deg=D("-6.01")),
    ),
    Case(
        "SPEC-W051",
        "steep by eye",
        of(bounce("6"), attack_seen=Attack.MEDIUM),
        of(bounce("6"), attack_seen=Attack.STEEP),
    ),
    Case(
        "SPEC-W051",
        "what was measured counts before what was seen",
        of(bounce("6"), attack_seen=Attack.STEEP, attack_deg=D("-4")),
        of(bounce("6"), attack_seen=Attack.SHALLOW, attack_deg=D("-7")),
    ),
    Case(
        "SPEC-W051",
        "an opened touch club is spared",
        soft(bounce("6", TOUCH), face_opened=Often.OFTEN),
        soft(bounce("6", TOUCH), face_opened=Often.SOMETIMES),
    ),
    Case(
        "SPEC-W051",
        "a touch club of whom nobody asked whether it is opened",
        soft(bounce("6", TOUCH)),
        soft(bounce("6", TOUCH), face_opened=Often.NEVER),
    ),
    Case(
        "SPEC-W052",
        "11 is high",
        of(touch(NARROW, "10.99"), face_opened=Often.OFTEN),
        of(touch(NARROW, "11"), face_opened=Often.OFTEN),
    ),
    Case(
        "SPEC-W052",
        "opened often",
        of(touch(NARROW, "11"), face_opened=Often.SOMETIMES),
        of(touch(NARROW, "11"), face_opened=Often.OFTEN),
    ),
    Case(
        "SPEC-W053",
        "10 degrees",
        sand(touch(WIDE, "10"), "soft"),
        sand(touch(WIDE, "9.99"), "soft"),
    ),
    Case(
        "SPEC-W053",
        "22 mm",
        sand(touch(WIDE, "10"), "fluffy"),
        sand(touch(replace(WIDE, width_mm=D("21.99")), "10"), "fluffy"),
    ),
    Case(
        "SPEC-W053",
        "a touch club whose sole nobody described may be the one",
        sand(touch(None, "9"), "soft"),
        sand(touch(NARROW, "9"), "soft"),
    ),
    Case(
        "SPEC-W053",
        "soft bunkers and firm ones are the interview's conflict",
        sand(touch(NARROW, "9"), "soft", "firm"),
        sand(touch(NARROW, "9"), "soft", "coarse"),
    ),
    Case(
        "SPEC-W054",
        "11 is high",
        sand(bounce("10.99", TOUCH), "firm"),
        sand(bounce("11", TOUCH), "firm"),
    ),
    Case(
        "SPEC-W054",
        "thin over base",
        sand(bounce("11", TOUCH), "coarse"),
        sand(bounce("11", TOUCH), "thin_over_base"),
    ),
    Case(
        "SPEC-W054",
        "a full-shot club is not for the sand",
        sand(bounce("11"), "wet"),
        sand(bounce("11", TOUCH), "wet"),
    ),
    Case(
        "SPEC-W055",
        "slight relief is relief",
        of(touch(replace(NARROW, heel=1, trailing=1), "6"), face_opened=Often.OFTEN),
        of(touch(replace(NARROW, heel=0, trailing=1), "6"), face_opened=Often.OFTEN),
    ),
    Case(
        "SPEC-W055",
        "the trailing edge counts too",
        of(touch(NARROW, "6"), face_opened=Often.OFTEN),
        of(touch(replace(NARROW, trailing=0), "6"), face_opened=Often.OFTEN),
    ),
    Case(
        "SPEC-W055",
        "opened often",
        of(touch(replace(NARROW, heel=0), "6"), face_opened=Often.SOMETIMES),
        of(touch(replace(NARROW, heel=0), "6"), face_opened=Often.OFTEN),
    ),
    Case(
        "SPEC-W056",
        "22 mm",
        firm(bounce("8", sole=replace(WIDE, width_mm=D("21.99")))),
        firm(bounce("8", sole=WIDE)),
    ),
    Case(
        "SPEC-W056",
        "a touch club may be wide",
        firm(bounce("8", TOUCH, sole=WIDE)),
        firm(bounce("8", sole=WIDE)),
    ),
    Case(
        "SPEC-W057",
        "11 is high",
        of(bounce("10.99"), attack_seen=Attack.SHALLOW),
        of(bounce("11"), attack_seen=Attack.SHALLOW),
    ),
    Case(
        "SPEC-W057",
        "shallow as measured",
        of(bounce("14"), attack_deg=D("-3")),
        of(bounce("14"), attack_deg=D("-2.99")),
    ),
    Case(
        "SPEC-W057",
        "22 mm is wide",
        of(bounce("8", sole=replace(WIDE, width_mm=D("21.99"))), attack_seen=Attack.SHALLOW),
        of(bounce("8", sole=WIDE), attack_seen=Attack.SHALLOW),
    ),
    Case(
        "SPEC-W057",
        "a touch club may have it",
        of(bounce("14", TOUCH), attack_seen=Attack.SHALLOW),
        of(bounce("14"), attack_seen=Attack.SHALLOW),
    ),
    Case(
        "SPEC-W057",
        "firm ground is another rule's",
        firm(bounce("14"), attack_seen=Attack.SHALLOW),
        of(bounce("14"), attack_seen=Attack.SHALLOW, ground=frozenset({"normal"})),
    ),
    Case(
        "SPEC-W057",
        "on soft ground the bounce is wanted",
        soft(bounce("14"), attack_seen=Attack.SHALLOW),
        of(bounce("14"), attack_seen=Attack.SHALLOW),
    ),
    Case("SPEC-N051", "11 is high", both(bounce("10.99")), both(bounce("11"))),
    Case("SPEC-N051", "6 is low", both(bounce("6.01")), both(bounce("6"))),
    Case("SPEC-N051", "one season alone", firm(bounce("11")), both(bounce("11"))),
    Case("SPEC-N051", "a touch club", both(bounce("11", TOUCH)), both(bounce("11"))),
    Case(
        "SPEC-N050",
        "softened",
        firm(bounce("8", sole=WIDE), attack_deg=D(-7)),
        firm(bounce("8", sole=NARROW), attack_deg=D(-7)),
    ),
    Case(
        "SPEC-N050",
        "steep",
        firm(bounce("8", sole=NARROW), attack_deg=D("-6")),
        firm(bounce("8", sole=NARROW), attack_deg=D("-6.01")),
    ),
    Case(
        "SPEC-N050",
        "firm",
        soft(bounce("8", sole=NARROW), attack_seen=Attack.STEEP),
        firm(bounce("8", sole=NARROW), attack_seen=Attack.STEEP),
    ),
)
