"""A spec that no rule speaks of, and the limits it is judged by, typed by hand.

The limits are written out here and not taken from `sessions.declared`, so that a default that
is changed by mistake fails a test.
"""

from dataclasses import replace
from decimal import Decimal as D

from sessions.rules.facts import (
    ClubFacts,
    ClubSource,
    Evidence,
    Hand,
    HeadLimits,
    Making,
    PlayerFacts,
    PlayerKind,
    Role,
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
    has_shaft=True,
    tip=Tip.TAPER,
    has_grip=True,
    swing_weight_points=D(3),
    stamping="A.S.",
    predicted_carry_m=108.0,
    evidence=Evidence(shots=8, tested_on_turf=True, situations=("Full",)),
)
FIFTY_FIVE = replace(
    FIFTY,
    slot=2,
    stamped_loft_deg=D(55),
    stamped_bounce_deg=D(10),
    target_loft_deg=D(55),
    predicted_carry_m=96.0,
)
PLAYER = PlayerFacts(hand=Hand.RIGHT, kind=PlayerKind.MAN, height_mm=1800)

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
