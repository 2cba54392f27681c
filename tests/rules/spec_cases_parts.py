"""The edges of the rules on shafts, grips, safety and the Rules, evidence and the bag."""

from dataclasses import replace
from decimal import Decimal as D

from sessions.rules.facts import (
    ClubSource,
    Making,
    PlayerKind,
    Role,
    ShaftMaterial,
    SpecFacts,
    Tip,
)
from tests.rules.spec_cases_bending import Case, head
from tests.rules.spec_cases_soles import of
from tests.rules.spec_examples import FIFTY, FIFTY_FIVE, QUIET, alone, kept, own

TOUCH = Role.TOUCH


def shaft(mass: str, irons: str | None = "120", role: Role = Role.FULL_SHOT, **player: object):  # type: ignore[no-untyped-def]
    """One new club with this shaft [g] for irons with that one."""
    facts = alone(shaft=replace(FIFTY.shaft, mass_g=D(mass)), role=role)
    return of(facts, iron_shaft_g=None if irons is None else D(irons), **player)


# The next club down, for touch shots.
SAND = replace(FIFTY_FIVE, role=TOUCH)


def behind(**more: object) -> SpecFacts:
    return alone(evidence=replace(FIFTY.evidence, **more))  # type: ignore[arg-type]


def grip(**more: object) -> SpecFacts:
    return alone(grip=replace(FIFTY.grip, **more))  # type: ignore[arg-type]


def events(facts: SpecFacts, said: str = "yes") -> SpecFacts:
    return of(facts, groove_events=said)


SHAFTS = (
    Case(
        "SPEC-E025",
        "no trim",
        alone(tip_trim_mm=D(0)),
        alone(tip_trim_mm=D("0.01")),
    ),
    Case(
        "SPEC-E025",
        "a parallel tip may be",
        alone(tip=Tip.PARALLEL, bore=Tip.PARALLEL, tip_trim_mm=D(12)),
        alone(tip_trim_mm=D(12)),
    ),
    Case("SPEC-E026", "7 in", grip(length_mm=D("177.8")), grip(length_mm=D("177.79"))),
    Case("SPEC-W024", "a wider core", grip(core_mm=D("15.54")), grip(core_mm=D("15.55"))),
    Case("SPEC-W024", "a narrower core", grip(core_mm=D("14.94")), grip(core_mm=D("14.93"))),
    Case("SPEC-W025", "a head", alone(), alone(discontinued=("head",))),
    Case("SPEC-N024", "a shaft", alone(), alone(to_order=("shaft",))),
    Case("SPEC-W070", "5 g", shaft("115"), shaft("114.99")),
    Case(
        "SPEC-W070",
        "a senior is spared",
        shaft("60", kind=PlayerKind.SENIOR),
        shaft("60", kind=PlayerKind.WOMAN),
    ),
    Case("SPEC-W070", "hands that hurt", shaft("60", hands_hurt=True), shaft("60")),
    Case("SPEC-W070", "irons not known", shaft("60", None), shaft("60")),
    Case(
        "SPEC-W071",
        "10 g, a senior",
        shaft("70", "60", kind=PlayerKind.SENIOR),
        shaft("70.01", "60", kind=PlayerKind.SENIOR),
    ),
    Case(
        "SPEC-W071",
        "5 g, a child",
        shaft("55", "50", kind=PlayerKind.JUNIOR),
        shaft("55.01", "50", kind=PlayerKind.JUNIOR),
    ),
    Case("SPEC-W071", "hands that hurt", shaft("71", "60"), shaft("71", "60", hands_hurt=True)),
    Case("SPEC-W072", "full shot, 15 g", shaft("135"), shaft("135.01")),
    Case("SPEC-W072", "touch, 30 g", shaft("150", role=TOUCH), shaft("150.01", role=TOUCH)),
    Case("SPEC-W072", "no role, no measure", alone(role=None), shaft("160")),
    Case(
        "SPEC-W073",
        "graphite for steel",
        of(alone(), iron_shaft_material=ShaftMaterial.STEEL),
        of(alone(), iron_shaft_material=ShaftMaterial.GRAPHITE),
    ),
    Case(
        "SPEC-W073",
        "a touch club may have another",
        of(alone(role=TOUCH), iron_shaft_material=ShaftMaterial.GRAPHITE),
        of(alone(), iron_shaft_material=ShaftMaterial.GRAPHITE),
    ),
    Case("SPEC-W074", "irons", alone(), of(alone(), irons_changing=True)),
    Case(
        "SPEC-W074",
        "a touch club further down does not hang on them",
        of(replace(QUIET, clubs=(kept().clubs[0], SAND)), irons_changing=True),
        of(replace(QUIET, clubs=(SAND,)), irons_changing=True),
    ),
    Case("SPEC-N070", "irons", QUIET, of(QUIET, irons_changing=True)),
    Case("SPEC-N071", "lie", QUIET, of(QUIET, iron_lie_deg=None)),
    Case("SPEC-N071", "shaft", QUIET, of(QUIET, iron_shaft_g=None)),
    Case(
        "SPEC-N071",
        "with nothing new it does not matter",
        of(kept(), iron_lie_deg=None),
        of(alone(), iron_lie_deg=None),
    ),
    Case("SPEC-W081", "pulled", alone(), alone(shaft=replace(FIFTY.shaft, is_pulled=True))),
)

SAFETY = (
    Case("SPEC-E080", "a crack", own(has_crack=False), own(has_crack=True)),
    Case("SPEC-E080", "kept as it is", kept(has_crack=None), kept(has_crack=True)),
    Case(
        "SPEC-E081",
        "known not to conform",
        events(alone(grooves_conform=True)),
        events(alone(grooves_conform=False)),
    ),
    Case(
        "SPEC-E081",
        "no such events",
        events(alone(grooves_conform=False), "no"),
        events(alone(grooves_conform=False)),
    ),
    Case(
        "SPEC-W080",
        "copper alloy",
        alone(head=head(Making.PLATED)),
        alone(head=head(Making.COPPER_ALLOY)),
    ),
    Case(
        "SPEC-W080",
        "kept as it is, nothing is done to it",
        kept(head=head(Making.COPPER_ALLOY)),
        own(head=head(Making.COPPER_ALLOY)),
    ),
    Case(
        "SPEC-W082",
        "from 2010 on",
        events(kept(own_key="a", made_year=2010)),
        events(kept(own_key="a", made_year=2009)),
    ),
    Case(
        "SPEC-W082",
        "not sure of the events",
        events(kept(own_key="a", made_year=2009), "no"),
        events(kept(own_key="a", made_year=2009), "not_sure"),
    ),
    Case(
        "SPEC-W082",
        "known to conform",
        events(kept(own_key="a", made_year=2009, grooves_conform=True)),
        events(kept(own_key="a", made_year=2009)),
    ),
    Case(
        "SPEC-W083",
        "not recorded",
        events(alone(grooves_conform=True)),
        events(alone(grooves_conform=None)),
    ),
    Case(
        "SPEC-W083",
        "no events",
        alone(grooves_conform=None),
        events(alone(grooves_conform=None), "not_sure"),
    ),
    Case("SPEC-W026", "its own loft", alone(stamping="50 AS"), alone(stamping="52 AS")),
    Case("SPEC-W026", "a half degree", alone(stamping="50.0"), alone(stamping="50.5")),
    Case("SPEC-W026", "a year is no loft", alone(stamping="1952"), alone(stamping="19 52")),
    Case(
        "SPEC-W026",
        "bent off its stamp",
        alone(target_loft_deg=D(51), stamping="51"),
        alone(target_loft_deg=D(51), stamping="50"),
    ),
    Case("SPEC-W027", "a letter that no set has", alone(stamping="A&B 50"), alone(stamping="Ü50")),
)

BEHIND = (
    Case("SPEC-W033", "unfair", behind(), behind(unfair=("The balls differ: range.",))),
    Case("SPEC-W034", "measured", behind(), behind(is_loft_measured=False)),
    Case(
        "SPEC-W034",
        "no trial head was played",
        behind(is_loft_measured=None),
        behind(is_loft_measured=False),
    ),
    Case("SPEC-W035", "90 days", behind(days_since_check=90), behind(days_since_check=91)),
    Case("SPEC-W035", "never checked", behind(days_since_check=0), behind(days_since_check=None)),
    Case(
        "SPEC-W035",
        "no trial head, no check",
        behind(days_since_check=None, is_loft_measured=None),
        behind(days_since_check=None, is_loft_measured=False),
    ),
    Case("SPEC-W036", "normalised", behind(), behind(figures=frozenset({"normalised"}))),
    Case(
        "SPEC-W036",
        "some of them",
        behind(figures=frozenset({"as flown", "unanswered"})),
        behind(figures=frozenset({"as flown", "normalised"})),
    ),
    Case(
        "SPEC-W036",
        "the pitching wedge's, and not its own",
        replace(behind(), baseline_figures=frozenset({"as flown"})),
        replace(behind(), baseline_figures=frozenset({"normalised"})),
    ),
    Case(
        "SPEC-W036",
        "a club that was not hit mixes nothing",
        replace(behind(figures=frozenset()), baseline_figures=frozenset({"normalised"})),
        replace(behind(), baseline_figures=frozenset({"as flown", "normalised"})),
    ),
    Case("SPEC-N031", "unanswered", behind(), behind(figures=frozenset({"unanswered"}))),
    Case("SPEC-N032", "grooves", behind(), behind(cautions=("Fresh grooves beat worn ones.",))),
)

BAG = (
    Case("SPEC-E042", "stays and leaves", kept(), kept(is_leaving=True)),
    Case(
        "SPEC-E043",
        "two clubs of his own",
        replace(
            QUIET,
            clubs=(
                replace(FIFTY, source=ClubSource.OWN_KEPT, own_key="a"),
                replace(FIFTY_FIVE, source=ClubSource.OWN_KEPT, own_key="b"),
            ),
        ),
        replace(
            QUIET,
            clubs=(
                replace(FIFTY, source=ClubSource.OWN_KEPT, own_key="a"),
                replace(FIFTY_FIVE, source=ClubSource.OWN_KEPT, own_key="a"),
            ),
        ),
    ),
)
