"""What a shop may set about fitting: limits of the spec's rules, the visit, the comparison.

A key is a group, a dot and a name; `spec.x` fills the field `x` of
`sessions.rules.facts.SpecLimits`. Defaults are common practice unless a source says otherwise.
The Rules of Golf and the makings that are never bent are not here: no shop sets those.
"""

from __future__ import annotations

from decimal import Decimal

from fitshop.setting import Setting

MM_PER_INCH = Decimal("25.4")


def _degrees(key: str, default: str, sentence: str, *, low: str = "0", high: str = "10") -> Setting:
    return Setting(
        key=key,
        kind="decimal",
        default=Decimal(default),
        sentence=sentence,
        unit="degrees",
        low=Decimal(low),
        high=Decimal(high),
    )


def _inches(key: str, default_in: str, sentence: str, *, low_in: str, high_in: str) -> Setting:
    """A length whose default is spoken of in inches; stored and typed in millimetres."""
    return Setting(
        key=key,
        kind="decimal",
        default=Decimal(default_in) * MM_PER_INCH,
        sentence=sentence,
        unit="mm",
        low=Decimal(low_in) * MM_PER_INCH,
        high=Decimal(high_in) * MM_PER_INCH,
    )


def _club_length(key: str, default_in: str, sentence: str) -> Setting:
    return _inches(key, default_in, sentence, low_in="18", high_in="48")


def _whole(key: str, default: int, sentence: str, *, unit: str, low: int, high: int) -> Setting:
    return Setting(
        key=key,
        kind="whole",
        default=default,
        sentence=sentence,
        unit=unit,
        low=Decimal(low),
        high=Decimal(high),
    )


def _percent(key: str, default: str, sentence: str, *, high: str = "100") -> Setting:
    return Setting(
        key=key,
        kind="decimal",
        default=Decimal(default),
        sentence=sentence,
        unit="%",
        low=Decimal(0),
        high=Decimal(high),
    )


_BENDING = (
    _degrees(
        "spec.bend_forged_low_carbon_deg",
        "3",
        "How far a forged low-carbon head may be bent each way, all visits together, "
        "where its maker is silent.",
        high="5",
    ),
    _degrees(
        "spec.bend_cast_soft_carbon_deg",
        "2",
        "How far a cast soft carbon head may be bent each way, all visits together, "
        "where its maker is silent.",
        high="5",
    ),
    _degrees(
        "spec.bend_cast_stainless_deg",
        "2",
        "How far a cast 304 or 431 stainless head may be bent each way, all visits together, "
        "where its maker is silent.",
        high="5",
    ),
    _degrees(
        "spec.bend_cast_17_4_deg",
        "1",
        "How far a cast 17-4 stainless head may be bent each way, all visits together, "
        "where its maker is silent. Ask the maker in any case.",
        high="2",
    ),
    _degrees(
        "spec.bend_look_deg",
        "2",
        "A bend past this wants a look on any wedge, for its bounce and for how it looks.",
        high="5",
    ),
    _degrees(
        "spec.bounce_low_deg",
        "4",
        "Bounce after bending below this wants a look. Below nothing always stops the order.",
        high="10",
    ),
)

_GAPS = (
    _degrees(
        "spec.loft_step_low_deg",
        "4",
        "A smaller step of loft between two neighbours wants a look.",
        low="1",
        high="8",
    ),
    _degrees(
        "spec.loft_step_high_deg",
        "6",
        "A larger step of loft between two neighbours wants a look.",
        low="2",
        high="12",
    ),
    _degrees(
        "spec.same_loft_deg",
        "1",
        "Two clubs less than this apart in loft count as the same loft twice.",
        high="4",
    ),
    _percent(
        "spec.gap_low_pct",
        "8",
        "A smaller carry gap, as a share of the pitching wedge's carry, wants a look.",
        high="30",
    ),
    _percent(
        "spec.gap_high_pct",
        "13",
        "A larger carry gap, as a share of the pitching wedge's carry, wants a look.",
        high="40",
    ),
)

_LENGTHS = (
    _club_length("spec.length_man_low_mm", "35", "A man's wedge is seldom shorter than this."),
    _club_length("spec.length_man_high_mm", "35.75", "A man's wedge is seldom longer than this."),
    _club_length("spec.length_woman_low_mm", "34", "A woman's wedge is seldom shorter than this."),
    _club_length("spec.length_woman_high_mm", "35", "A woman's wedge is seldom longer than this."),
    _club_length("spec.length_senior_low_mm", "34", "A senior's wedge is seldom shorter."),
    _club_length("spec.length_senior_high_mm", "35.75", "A senior's wedge is seldom longer."),
    _club_length("spec.length_tall_high_mm", "36.5", "A tall adult's wedge is seldom longer."),
    Setting(
        key="spec.tall_from_mm",
        kind="decimal",
        default=Decimal("1880"),
        sentence="From this height on an adult counts as tall where length is judged.",
        unit="mm",
        low=Decimal("1500"),
        high=Decimal("2300"),
    ),
    _club_length("spec.length_junior_low_mm", "28", "The smallest juniors' wedge."),
    _club_length("spec.length_junior_high_mm", "34", "The tallest juniors' wedge."),
    Setting(
        key="spec.junior_height_low_mm",
        kind="decimal",
        default=Decimal("1120"),
        sentence="The height that goes with the smallest juniors' wedge; "
        "between the two heights the expected length follows the child's height.",
        unit="mm",
        low=Decimal("800"),
        high=Decimal("1500"),
    ),
    Setting(
        key="spec.junior_height_high_mm",
        kind="decimal",
        default=Decimal("1650"),
        sentence="The height that goes with the tallest juniors' wedge.",
        unit="mm",
        low=Decimal("1400"),
        high=Decimal("2000"),
    ),
    _inches(
        "spec.length_junior_slack_mm",
        "1",
        "How far a child's wedge may be from the length expected at that height.",
        low_in="0",
        high_in="4",
    ),
    _whole(
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

_EVIDENCE = (
    _whole(
        "spec.shots_for_a_build",
        5,
        "A club that is to be built on fewer shots than this wants a look.",
        unit="shots",
        low=1,
        high=30,
    ),
    _whole(
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


_THROUGH_THE_SET = (
    _percent(
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
    _degrees(
        "spec.lie_full_apart_deg",
        "1",
        "A full-shot club's lie further from the irons' than this wants a look.",
        high="5",
    ),
    _degrees(
        "spec.lie_touch_flatter_deg",
        "2",
        "A touch club's lie flatter than the irons' by more than this wants a look; more upright "
        "always does, unless the player chips on the toe.",
        high="6",
    ),
    _degrees(
        "spec.lie_hands_deg",
        "0.5",
        "With low hands in sand the most lofted touch club is flatter than the irons by this at "
        "least, with high hands by this at most.",
        high="3",
    ),
    _inches(
        "spec.length_run_longer_mm",
        "0.0625",
        "A more lofted club may be longer than the one before it by this at most.",
        low_in="0",
        high_in="2",
    ),
    _inches(
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
    _grams(
        "spec.shaft_heavier_spared_g",
        "5",
        "For juniors, seniors and hands that hurt: a shaft heavier than the irons' by more than "
        "this wants a look. It is the slack between two makers' labels, no more.",
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

_VISIT = (
    _whole(
        "visit.minutes",
        90,
        "How long a new appointment is, unless something else is chosen.",
        unit="minutes",
        low=15,
        high=480,
    ),
    _whole(
        "visit.minutes_least", 30, "The shortest appointment.", unit="minutes", low=15, high=240
    ),
    _whole("visit.minutes_most", 240, "The longest appointment.", unit="minutes", low=30, high=480),
    _whole(
        "visit.warm_up_balls",
        10,
        "The first so many balls are offered as warm-up.",
        unit="balls",
        low=0,
        high=50,
    ),
    _whole(
        "visit.balls_look",
        60,
        "From so many full swings on, the clock says that the player will be tiring.",
        unit="balls",
        low=10,
        high=200,
    ),
    _whole(
        "visit.balls_most",
        80,
        "So many full swings are the limit for most players.",
        unit="balls",
        low=10,
        high=200,
    ),
    _whole(
        "visit.balls_look_spared",
        30,
        "The same for seniors and for players with an injury: from here on, tiring.",
        unit="balls",
        low=5,
        high=200,
    ),
    _whole(
        "visit.balls_most_spared",
        40,
        "The same for seniors and for players with an injury: the limit.",
        unit="balls",
        low=5,
        high=200,
    ),
    _whole(
        "visit.shots_to_drop",
        3,
        "So many shots are enough with a club that is dropped.",
        unit="shots",
        low=1,
        high=20,
    ),
)

_INTERVIEW = (
    _degrees(
        "interview.steep_deg",
        "-6",
        "An angle of attack on a full wedge swing below this is steep.",
        low="-15",
        high="0",
    ),
    _degrees(
        "interview.shallow_deg",
        "-3",
        "An angle of attack on a full wedge swing above this is shallow.",
        low="-10",
        high="5",
    ),
    _degrees("interview.bounce_low_from_deg", "4", "Low bounce begins here.", high="20"),
    _degrees("interview.bounce_low_to_deg", "6", "Low bounce ends here.", high="20"),
    _degrees("interview.bounce_mid_from_deg", "7", "Mid bounce begins here.", high="20"),
    _degrees("interview.bounce_mid_to_deg", "10", "Mid bounce ends here.", high="20"),
    _degrees("interview.bounce_high_from_deg", "11", "High bounce begins here.", high="20"),
    _degrees(
        "interview.lob_from_deg",
        "58",
        "From this loft on a touch club is the lob club, whose lie goes flattest.",
        low="54",
        high="70",
    ),
    _degrees(
        "interview.touch_flatter_deg",
        "0.5",
        "So much flatter than the irons a touch club may begin.",
        high="3",
    ),
    _degrees(
        "interview.lob_flatter_deg",
        "1",
        "So much flatter than the irons the lob club may begin, most of all with low hands.",
        high="4",
    ),
    _degrees(
        "interview.usual_step_deg",
        "5",
        "The step that the number of wedges is reckoned with before there is a plan.",
        low="3",
        high="8",
    ),
    Setting(
        key="interview.shaft_heavier_g",
        kind="decimal",
        default=Decimal("10"),
        sentence="A wedge's shaft may begin so much heavier than the irons'; never for children, "
        "seniors and hands that hurt.",
        unit="g",
        low=Decimal("0"),
        high=Decimal("30"),
    ),
    Setting(
        key="interview.light_shaft_g",
        kind="decimal",
        default=Decimal("75"),
        sentence="With iron shafts up to this weight a swing weight of C5 to D0 is normal.",
        unit="g",
        low=Decimal("40"),
        high=Decimal("110"),
    ),
    Setting(
        key="interview.short_carry_m",
        kind="decimal",
        default=Decimal("91.44"),
        sentence="Below this carry with the pitching wedge two wedges are suggested (100 yards).",
        unit="m",
        low=Decimal("30"),
        high=Decimal("150"),
    ),
)

_COMPARISON = (
    Setting(
        key="comparison.carry_margin_m",
        kind="decimal",
        default=Decimal("2.7"),
        sentence="A smaller difference in mean carry is no difference the player could use.",
        unit="m",
        low=Decimal("0.5"),
        high=Decimal("20"),
    ),
    Setting(
        key="comparison.side_margin_m",
        kind="decimal",
        default=Decimal("2.7"),
        sentence="A smaller difference in mean direction, left or right, "
        "is no difference the player could use.",
        unit="m",
        low=Decimal("0.5"),
        high=Decimal("20"),
    ),
    _percent(
        "comparison.spread_margin_pct",
        "25",
        "A smaller difference between two spreads, as a share of the larger, "
        "is no difference the player could use.",
    ),
    Setting(
        key="comparison.proximity_margin_m",
        kind="decimal",
        default=Decimal("1"),
        sentence="A smaller difference in the mean distance from the target "
        "is no difference the player could use.",
        unit="m",
        low=Decimal("0.1"),
        high=Decimal("10"),
    ),
    _degrees(
        "comparison.launch_margin_deg",
        "1.5",
        "A smaller difference in mean launch is no difference the player could use.",
        low="0.1",
    ),
    Setting(
        key="comparison.spin_margin_rpm",
        kind="decimal",
        default=Decimal("600"),
        sentence="A smaller difference in mean spin is no difference the player could use.",
        unit="rpm",
        low=Decimal("50"),
        high=Decimal("5000"),
    ),
    _degrees(
        "comparison.landing_margin_deg",
        "2",
        "A smaller difference in the mean landing angle is no difference the player could use.",
        low="0.1",
    ),
    _percent(
        "comparison.strikes_margin_pct",
        "15",
        "A smaller difference in how often a ball is badly struck, of all balls hit, "
        "is no difference the player could use.",
    ),
    _percent(
        "comparison.ratings_margin_pct",
        "20",
        "A club that is rated higher in nearer to half of the rounds than this is rated alike.",
        high="50",
    ),
    _whole(
        "comparison.more_balls_most",
        12,
        "Where more balls than this would be needed to see a difference, "
        "there is none that the player could use.",
        unit="balls",
        low=1,
        high=100,
    ),
    Setting(
        key="comparison.hidden_order",
        kind="yes_no",
        default=True,
        sentence="A new comparison starts in hidden order, under neutral numbers.",
    ),
)

_EQUIPMENT = (
    _whole(
        "equipment.check_days",
        90,
        "Trial equipment that was not measured and looked at for longer is due for a check.",
        unit="days",
        low=1,
        high=730,
    ),
)

_PLAN = (
    _degrees(
        "plan.sand_from_deg",
        "56",
        "The most lofted wedge of a plan usually has at least this loft, for sand; "
        "where usual steps stop short of it, a plan of wider ones is offered too.",
        low="50",
        high="60",
    ),
    _degrees(
        "plan.end_high_deg",
        "60",
        "The most lofted wedge of a plan usually has no more loft than this, unless it is wished.",
        low="52",
        high="66",
    ),
    _degrees(
        "plan.wider_step_high_deg",
        "7",
        "So large may a step of loft be in a plan of wider steps.",
        low="4",
        high="10",
    ),
    _percent(
        "plan.wider_gap_high_pct",
        "15",
        "So large may a carry gap be in a plan of wider steps, "
        "as a share of the pitching wedge's carry.",
        high="40",
    ),
    _inches(
        "plan.wide_sole_mm",
        "0.95",
        "From this width on a sole counts as wide when heads are chosen for a plan.",
        low_in="0.7",
        high_in="1.5",
    ),
    _inches(
        "plan.narrow_sole_mm",
        "0.7",
        "Up to this width a sole counts as narrow when heads are chosen for a plan.",
        low_in="0.4",
        high_in="1",
    ),
)

SETTINGS: tuple[Setting, ...] = (
    *_BENDING,
    *_GAPS,
    *_LENGTHS,
    *_EVIDENCE,
    *_THROUGH_THE_SET,
    *_VISIT,
    *_INTERVIEW,
    *_COMPARISON,
    *_EQUIPMENT,
    *_PLAN,
)
