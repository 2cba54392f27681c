"""A spec that no rule speaks of, and the limits it is judged by, typed by hand.

The limits are written out here and not taken from `sessions.declared`, so that a default that
is changed by mistake fails a test.
"""

from dataclasses import replace
from decimal import Decimal as D

from sessions.rules.dry_weight import DryParts
from sessions.rules.facts import (
    ClubFacts,
    ClubSource,
    Evidence,
    GripFacts,
    Hand,
    HeadLimits,
    Making,
    PlayerFacts,
    PlayerKind,
    Role,
    ShaftFacts,
    ShaftMaterial,
    Sole,
    SpecFacts,
    SpecLimits,
    Tip,
)

LIMITS = SpecLimits(
    bend_forged_low_carbon_deg=D(3),
    bend_cast_soft_carbon_deg=D(2),
    bend_cast_stainless_deg=D(2),
    bend_cast_17_4_deg=D(1),
    bend_look_deg=D(2),
    bounce_low_deg=D(4),
    loft_step_low_deg=D(4),
    loft_step_high_deg=D(6),
    same_loft_deg=D(1),
    gap_low_pct=D(8),
    gap_high_pct=D(13),
    sand_from_deg=D(56),
    wider_step_high_deg=D(7),
    wider_gap_high_pct=D(15),
    length_man_low_mm=D("889"),  # 35 in
    length_man_high_mm=D("908.05"),  # 35 3/4 in
    length_woman_low_mm=D("863.6"),  # 34 in
    length_woman_high_mm=D("889"),
    length_senior_low_mm=D("863.6"),
    length_senior_high_mm=D("908.05"),
    length_tall_high_mm=D("927.1"),  # 36 1/2 in
    tall_from_mm=D(1880),
    length_junior_low_mm=D("711.2"),  # 28 in
    length_junior_high_mm=D("863.6"),  # 34 in
    junior_height_low_mm=D(1120),
    junior_height_high_mm=D(1650),
    length_junior_slack_mm=D("25.4"),
    junior_check_months=6,
    junior_check_growth_mm=D(50),
    shots_for_a_build=5,
    stamping_most_characters=12,
    overlap_look_pct=D(25),
    steep_deg=D(-6),
    shallow_deg=D(-3),
    bounce_low_to_deg=D(6),
    bounce_mid_to_deg=D(10),
    bounce_high_from_deg=D(11),
    sole_wide_mm=D(22),
    lie_full_apart_deg=D(1),
    lie_touch_flatter_deg=D(2),
    lie_hands_deg=D("0.5"),
    length_run_longer_mm=D("1.5875"),  # 1/16 in
    length_run_shorter_mm=D("19.05"),  # 3/4 in
    swing_weight_run_lighter=D(1),
    swing_weight_above_irons=D(4),
    swing_weight_above_irons_lob=D(6),
    lob_from_deg=D(58),
    most_added_g=D(9),
    swing_weight_tolerance=D(1),
    swing_weight_doubt=D(2),
    epoxy_g=D(2),
    ferrule_g=D(1),
    tape_g=D(2),
    base_layers=1,
    insertion_mm=D("28.575"),  # 1 1/8 in
    light_shaft_g=D(75),
    shaft_lighter_g=D(5),
    shaft_heavier_full_g=D(15),
    shaft_heavier_touch_g=D(30),
    shaft_heavier_spared_g=D(10),
    shaft_heavier_child_g=D(5),
    grip_core_apart_mm=D("0.3"),
    check_days=90,
)

# An even shaft: 100 g over 1000 mm, so 855 mm of it weigh 85.5 g with their centre in the middle;
# moments about 355.6 mm [g mm]: head 300 x 533.4, shaft 85.5 x 75.9, grip 50 x -255.6, and 2 g of
# epoxy and 1 g of ferrule at 889 - 30 - 28.575 = 830.425 mm: 3 x 474.825; 2 g of tape in the grip's
# middle: 2 x -230.6. Together 154,692.725, that is 214.828 in-oz or 0.7587 points above D0 (213.5).
# 9 g in the hosel, 503.4 mm below the fulcrum, make it 4.3540.
EVEN = DryParts(
    length_mm=D(889),
    head_g=D(300),
    bore_to_ground_mm=D(30),
    shaft_g=D(100),
    shaft_raw_mm=D(1000),
    shaft_balance_mm=D(500),
    tip_trim_mm=D(0),
    grip_g=D(50),
    grip_length_mm=D(250),
    cap_mm=D(4),
)

FIFTY = ClubFacts(
    slot=1,
    source=ClubSource.NEW,
    role=Role.FULL_SHOT,
    has_head=True,
    hand=Hand.RIGHT,
    head=HeadLimits(making=Making.FORGED_LOW_CARBON),
    bore=Tip.TAPER,
    stamped_loft_deg=D(50),
    stamped_bounce_deg=D(8),
    stock_lie_deg=D(64),
    target_loft_deg=D(50),
    target_lie_deg=D(64),
    length_mm=D("901.7"),  # 35 1/2 in
    sole=Sole(width_mm=D(19), heel=1, trailing=1, is_softened=True),
    has_shaft=True,
    tip=Tip.TAPER,
    shaft=ShaftFacts(mass_g=D(125), material=ShaftMaterial.STEEL, butt_mm=D("15.24")),
    has_grip=True,
    grip=GripFacts(core_mm=D("15.24"), length_mm=D(267)),
    swing_weight_points=D(3),
    dry=EVEN,
    stamping="A.S.",
    grooves_conform=True,
    predicted_carry_m=108.0,
    evidence=Evidence(
        shots=8,
        tested_on_turf=True,
        situations=("Full",),
        figures=frozenset({"as flown"}),
        is_loft_measured=True,
        days_since_check=20,
    ),
)
FIFTY_FIVE = replace(
    FIFTY,
    slot=2,
    stamped_loft_deg=D(55),
    stamped_bounce_deg=D(10),
    target_loft_deg=D(55),
    predicted_carry_m=96.0,
)
PLAYER = PlayerFacts(
    hand=Hand.RIGHT,
    kind=PlayerKind.MAN,
    height_mm=1800,
    iron_lie_deg=D(0),
    iron_shaft_g=D(120),
    iron_shaft_material=ShaftMaterial.STEEL,
)

# Pitching wedge 45 degrees, 120 m: gaps of 12 m are 10 %.
QUIET = SpecFacts(
    player=PLAYER,
    clubs=(FIFTY, FIFTY_FIVE),
    baseline_loft_deg=D(45),
    baseline_carry_m=120.0,
    other_clubs=12,
)


def with_first(**changes: object) -> SpecFacts:
    """The quiet spec with its first club changed."""
    return replace(QUIET, clubs=(replace(FIFTY, **changes), FIFTY_FIVE))  # type: ignore[arg-type]


def alone(**changes: object) -> SpecFacts:
    """A spec of the first club alone, changed, with no pitching wedge above it."""
    club = replace(FIFTY, **changes)  # type: ignore[arg-type]
    return replace(QUIET, clubs=(club,), baseline_loft_deg=None, baseline_carry_m=None)


def with_player(**changes: object) -> SpecFacts:
    """The quiet spec for another player."""
    return replace(QUIET, player=replace(PLAYER, **changes))  # type: ignore[arg-type]


def own(**changes: object) -> SpecFacts:
    """A spec of one own club that is to be adjusted, measured where it should be, changed."""
    club = replace(
        FIFTY,
        source=ClubSource.OWN_ADJUSTED,
        as_received_loft_deg=D(50),
        as_received_lie_deg=D(64),
    )
    club = replace(club, **changes)  # type: ignore[arg-type]
    return replace(QUIET, clubs=(club,), baseline_loft_deg=None, baseline_carry_m=None)


def kept(**changes: object) -> SpecFacts:
    """A spec of one own club that is kept as it is: nothing to build, its loft measured."""
    club = ClubFacts(
        slot=1,
        source=ClubSource.OWN_KEPT,
        role=Role.TOUCH,
        as_received_loft_deg=D(50),
        predicted_carry_m=108.0,
    )
    club = replace(club, **changes)  # type: ignore[arg-type]
    return replace(QUIET, clubs=(club,))


def four_clubs() -> SpecFacts:
    """Four new clubs at which many rules have something to say, each bent and unlike its head."""
    clubs = tuple(
        replace(
            FIFTY,
            slot=slot,
            role=Role.FULL_SHOT if slot < 3 else Role.TOUCH,
            stamped_loft_deg=D(44 + 5 * slot),
            target_loft_deg=D(45 + 5 * slot),
            target_lie_deg=D("62.5"),
            length_mm=D("901.7") + 3 * slot,
            swing_weight_points=D(8 - slot),
            predicted_carry_m=120.0 - 8 * slot,
            stamping="LONGER THAN IT MAY BE",
            evidence=Evidence(shots=3, is_loft_measured=False),
        )
        for slot in (1, 2, 3, 4)
    )
    player = replace(PLAYER, ground=frozenset({"soft"}), sand=frozenset({"soft"}), attack_deg=D(-7))
    return replace(QUIET, player=player, clubs=clubs, other_clubs=12)
