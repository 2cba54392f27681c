"""The spec's limits: bending, gaps, lengths, evidence, and what runs through the set."""

from __future__ import annotations

from decimal import Decimal

from fitshop.setting import Setting
from sessions.declared.kinds import club_length, degrees, length_step, percent, whole

BENDING: tuple[Setting, ...] = (
    degrees(
        "spec.bend_forged_low_carbon_deg",
        "3",
        "How far a forged low-carbon head may be bent each way, all visits together, "
        "where its maker is silent.",
        high="5",
    ),
    degrees(
        "spec.bend_cast_soft_carbon_deg",
        "2",
        "How far a cast soft carbon head may be bent each way, all visits together, "
        "where its maker is silent.",
        high="5",
    ),
    degrees(
        "spec.bend_cast_stainless_deg",
        "2",
        "How far a cast 304 or 431 stainless head may be bent each way, all visits together, "
        "where its maker is silent.",
        high="5",
    ),
    degrees(
        "spec.bend_cast_17_4_deg",
        "1",
        "How far a cast 17-4 stainless head may be bent each way, all visits together, "
        "where its maker is silent. Ask the maker in any case.",
        high="2",
    ),
    degrees(
        "spec.bend_look_deg",
        "2",
        "A bend past this wants a look on any wedge, for its bounce and for how it looks.",
        high="5",
    ),
    degrees(
        "spec.bounce_low_deg",
        "4",
        "Bounce after bending below this wants a look. Below nothing always stops the order.",
        high="10",
    ),
)

GAPS: tuple[Setting, ...] = (
    degrees(
        "spec.loft_step_low_deg",
        "4",
        "A smaller step of loft between two neighbours wants a look.",
        low="1",
        high="8",
    ),
    degrees(
        "spec.loft_step_high_deg",
        "6",
        "A larger step of loft between two neighbours wants a look.",
        low="2",
        high="12",
    ),
    degrees(
        "spec.same_loft_deg",
        "1",
        "Two clubs less than this apart in loft count as the same loft twice.",
        high="4",
    ),
    percent(
        "spec.gap_low_pct",
        "8",
        "A smaller carry gap, as a share of the pitching wedge's carry, wants a look.",
        high="30",
    ),
    percent(
        "spec.gap_high_pct",
        "13",
        "A larger carry gap, as a share of the pitching wedge's carry, wants a look.",
        high="40",
    ),
)

LENGTHS: tuple[Setting, ...] = (
    club_length("spec.length_man_low_mm", "35", "A man's wedge is seldom shorter than this."),
    club_length("spec.length_man_high_mm", "35.75", "A man's wedge is seldom longer than this."),
    club_length("spec.length_woman_low_mm", "34", "A woman's wedge is seldom shorter than this."),
    club_length("spec.length_woman_high_mm", "35", "A woman's wedge is seldom longer than this."),
    club_length("spec.length_senior_low_mm", "34", "A senior's wedge is seldom shorter."),
    club_length("spec.length_senior_high_mm", "35.75", "A senior's wedge is seldom longer."),
    club_length("spec.length_tall_high_mm", "36.5", "A tall adult's wedge is seldom longer."),
    Setting(
        key="spec.tall_from_mm",
        kind="decimal",
        default=Decimal("1880"),
        sentence="From this height on an adult counts as tall where length is judged.",
        unit="mm",
        low=Decimal("1500"),
        high=Decimal("2300"),
    ),
    club_length("spec.length_junior_low_mm", "28", "The shortest of the juniors' wedges."),
    club_length("spec.length_junior_high_mm", "34", "The longest of the juniors' wedges."),
    Setting(
        key="spec.junior_height_low_mm",
        kind="decimal",
        default=Decimal("1120"),
        sentence="The height that goes with the shortest of the juniors' wedges; "
        "between the two heights the expected length follows the child's height.",
        unit="mm",
        low=Decimal("800"),
        high=Decimal("1500"),
    ),
    Setting(
        key="spec.junior_height_high_mm",
        kind="decimal",
        default=Decimal("1650"),
        sentence="The height that goes with the longest of the juniors' wedges.",
        unit="mm",
        low=Decimal("1400"),
        high=Decimal("2000"),
    ),
    length_step(
        "spec.length_junior_slack_mm",
        "1",
        "How far a child's wedge may be from the length expected at that height.",
        low_in="0",
        high_in="4",
    ),
    whole(
        "spec.junior_check_months",
        6,
        "A child's clubs are checked again after so many months.",
        unit="months",
        low=1,
        high=24,
    ),
    Setting(
        key="spec.junior_check_growth_mm",
        kind="decimal",
        default=Decimal("50"),
        sentence="A child's clubs are checked again after so much growth.",
        unit="mm",
        low=Decimal("10"),
        high=Decimal("200"),
    ),
)

EVIDENCE: tuple[Setting, ...] = (
    whole(
        "spec.shots_for_a_build",
        5,
        "A club that is to be built on fewer shots than this wants a look.",
        unit="shots",
        low=1,
        high=30,
    ),
    whole(
        "spec.stamping_most_characters",
        12,
        "A longer stamping wants a look: it may not fit on the head.",
        unit="characters",
        low=1,
        high=40,
    ),
)


def _grams(key: str, default: str, sentence: str, *, high: str = "60") -> Setting:
    return Setting(
        key=key,
        kind="decimal",
        default=Decimal(default),
        sentence=sentence,
        unit="g",
        low=Decimal(0),
        high=Decimal(high),
    )


def _points(key: str, default: str, sentence: str) -> Setting:
    return Setting(
        key=key,
        kind="decimal",
        default=Decimal(default),
        sentence=sentence,
        unit="points",
        low=Decimal(0),
        high=Decimal(15),
    )


THROUGH_THE_SET: tuple[Setting, ...] = (
    percent(
        "spec.overlap_look_pct",
        "25",
        "Where the next ball of a club would fall shorter than that of the weaker one more often "
        "than this, it wants a look.",
        high="50",
    ),
    Setting(
        key="spec.sole_wide_mm",
        kind="decimal",
        default=Decimal(22),
        sentence="From this width on a sole counts as wide: it acts like more bounce.",
        unit="mm",
        low=Decimal(15),
        high=Decimal(35),
    ),
    degrees(
        "spec.lie_full_apart_deg",
        "1",
        "A full-shot club's lie further from the irons' than this wants a look.",
        high="5",
    ),
    degrees(
        "spec.lie_touch_flatter_deg",
        "2",
        "A touch club's lie flatter than the irons' by more than this wants a look; more upright "
        "always does, unless the player chips on the toe.",
        high="6",
    ),
    degrees(
        "spec.lie_hands_deg",
        "0.5",
        "With low hands in sand the most lofted touch club is flatter than the irons by this at "
        "least, with high hands by this at most.",
        high="3",
    ),
    length_step(
        "spec.length_run_longer_mm",
        "0.0625",
        "A more lofted club may be longer than the one before it by this at most.",
        low_in="0",
        high_in="2",
    ),
    length_step(
        "spec.length_run_shorter_mm",
        "0.75",
        "A more lofted club may be shorter than the one before it by this at most.",
        low_in="0",
        high_in="4",
    ),
    _points(
        "spec.swing_weight_run_lighter",
        "1",
        "A more lofted club may be lighter in the head than the one before it by this at most.",
    ),
    _points(
        "spec.swing_weight_above_irons",
        "4",
        "A wedge may sit above the pitching wedge's swing weight by this at most.",
    ),
    _points(
        "spec.swing_weight_above_irons_lob",
        "6",
        "A lob club may sit above the pitching wedge's swing weight by this at most.",
    ),
    _grams(
        "spec.shaft_lighter_g",
        "5",
        "A shaft lighter than the irons' by more than this wants a look; juniors, seniors and "
        "hands that hurt are spared.",
    ),
    _grams(
        "spec.shaft_heavier_full_g",
        "15",
        "A full-shot club's shaft heavier than the irons' by more than this wants a look.",
    ),
    _grams(
        "spec.shaft_heavier_touch_g",
        "30",
        "A touch club's shaft heavier than the irons' by more than this wants a look.",
    ),
    _points(
        "spec.swing_weight_doubt",
        "2",
        "How much too high a swing weight that is reckoned from parts may be: a head's centre is "
        "taken at the club's full length and may lie nearer to the grip.",
    ),
    _grams(
        "spec.shaft_heavier_spared_g",
        "10",
        "For seniors and hands that hurt: a shaft heavier than the irons' by more than this "
        "wants a look. A little, between two light shafts, is no weight pushed on anybody.",
        high="15",
    ),
    _grams(
        "spec.shaft_heavier_child_g",
        "5",
        "For a child: a shaft heavier than the irons' by more than this wants a look. It is the "
        "slack between two makers' labels, no more.",
        high="15",
    ),
    Setting(
        key="spec.grip_core_apart_mm",
        kind="decimal",
        default=Decimal("0.3"),
        sentence="A grip's core and the butt further apart than this are of two sizes.",
        unit="mm",
        low=Decimal(0),
        high=Decimal(2),
    ),
)
