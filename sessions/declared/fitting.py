"""The hour's limits: the visit, the interview, comparisons, trial equipment and the loft plan."""

from __future__ import annotations

from decimal import Decimal

from fitshop.setting import Setting
from sessions.declared.kinds import degrees, inches, percent, rpm, whole

VISIT: tuple[Setting, ...] = (
    whole(
        "visit.minutes",
        90,
        "How long a new appointment is, unless something else is chosen.",
        unit="minutes",
        low=15,
        high=480,
    ),
    whole("visit.minutes_least", 30, "The shortest appointment.", unit="minutes", low=15, high=240),
    whole("visit.minutes_most", 240, "The longest appointment.", unit="minutes", low=30, high=480),
    whole(
        "visit.from_hour",
        6,
        "An appointment that begins before this hour is asked about once.",
        unit="o'clock",
        low=0,
        high=12,
    ),
    whole(
        "visit.until_hour",
        22,
        "An appointment that begins at this hour or later is asked about once.",
        unit="o'clock",
        low=12,
        high=24,
    ),
    whole(
        "visit.days_ahead",
        365,
        "An appointment further ahead than this is asked about once.",
        unit="days",
        low=14,
        high=1500,
    ),
    whole(
        "visit.warm_up_balls",
        10,
        "The first so many balls are offered as warm-up.",
        unit="balls",
        low=0,
        high=50,
    ),
    whole(
        "visit.balls_look",
        60,
        "From so many full swings on, the clock says that the player will be tiring.",
        unit="balls",
        low=10,
        high=200,
    ),
    whole(
        "visit.balls_most",
        80,
        "So many full swings are the limit for most players.",
        unit="balls",
        low=10,
        high=200,
    ),
    whole(
        "visit.balls_look_spared",
        30,
        "The same for seniors and for players with an injury: from here on, tiring.",
        unit="balls",
        low=5,
        high=200,
    ),
    whole(
        "visit.balls_most_spared",
        40,
        "The same for seniors and for players with an injury: the limit.",
        unit="balls",
        low=5,
        high=200,
    ),
    whole(
        "visit.shots_to_drop",
        3,
        "So many shots are enough with a club that is dropped.",
        unit="shots",
        low=1,
        high=20,
    ),
    # The five below from memory: how far apart swings of one club are, and how evenly each is hit.
    whole(
        "visit.other_swing_far",
        4,
        "A ball so many spreads off its swing's mean may have been another swing: it is asked.",
        unit="spreads",
        low=2,
        high=20,
    ),
    whole(
        "visit.other_swing_near",
        2,
        "It fits another swing where it lies at most so many spreads off that one's mean.",
        unit="spreads",
        low=1,
        high=10,
    ),
    whole(
        "visit.other_swing_least",
        3,
        "A swing has a mean and a spread to hold a ball against from so many balls on.",
        unit="balls",
        low=2,
        high=20,
    ),
    percent(
        "visit.other_swing_spread_least",
        "10",
        "For this question no swing is hit more evenly than within this share of its mean.",
        high="50",
    ),
    percent(
        "visit.other_swing_chip_most",
        "40",
        "Where no chip was hit yet, a ball up to this share of a full swing may have been one.",
        high="80",
    ),
)

INTERVIEW: tuple[Setting, ...] = (
    degrees(
        "interview.steep_deg",
        "-6",
        "An angle of attack on a full wedge swing below this is steep.",
        low="-15",
        high="0",
    ),
    degrees(
        "interview.shallow_deg",
        "-3",
        "An angle of attack on a full wedge swing above this is shallow.",
        low="-10",
        high="5",
    ),
    degrees("interview.bounce_low_from_deg", "4", "Low bounce begins here.", high="20"),
    degrees("interview.bounce_low_to_deg", "6", "Low bounce ends here.", high="20"),
    degrees(
        "plan.as_hit_deg",
        "0.5",
        "A letter says that a club carries as it was hit if it is built within this of the loft it "
        "was hit at; otherwise its carry is called a forecast.",
        high="2",
    ),
    degrees("interview.bounce_mid_from_deg", "7", "Mid bounce begins here.", high="20"),
    degrees("interview.bounce_mid_to_deg", "10", "Mid bounce ends here.", high="20"),
    degrees("interview.bounce_high_from_deg", "11", "High bounce begins here.", high="20"),
    degrees(
        "interview.lob_from_deg",
        "58",
        "From this loft on a touch club is the lob club, whose lie goes flattest.",
        low="54",
        high="70",
    ),
    degrees(
        "interview.iron_lie_asked_deg",
        "6",
        "From here on the irons' lie is so far from stock that how the player plays is asked.",
        high="15",
    ),
    degrees(
        "interview.touch_flatter_deg",
        "0.5",
        "So much flatter than the irons a touch club may begin.",
        high="3",
    ),
    degrees(
        "interview.lob_flatter_deg",
        "1",
        "So much flatter than the irons the lob club may begin, most of all with low hands.",
        high="4",
    ),
    degrees(
        "interview.usual_step_deg",
        "5",
        "The step that the number of wedges is reckoned with before there is a plan.",
        low="3",
        high="8",
    ),
    degrees(
        "interview.usual_most_lofted_deg",
        "60",
        "Where most sets of wedges end, for reckoning how many there may be before there is a "
        "plan.",
        low="54",
        high="68",
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

COMPARISON: tuple[Setting, ...] = (
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
    percent(
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
    degrees(
        "comparison.launch_margin_deg",
        "1.5",
        "A smaller difference in mean launch is no difference the player could use.",
        low="0.1",
    ),
    rpm(
        "comparison.spin_margin_rpm",
        "600",
        "A smaller difference in mean spin is no difference the player could use.",
        low="50",
        high="5000",
    ),
    degrees(
        "comparison.landing_margin_deg",
        "2",
        "A smaller difference in the mean landing angle is no difference the player could use.",
        low="0.1",
    ),
    percent(
        "comparison.strikes_margin_pct",
        "15",
        "A smaller difference in how often a ball is badly struck, of all balls hit, "
        "is no difference the player could use.",
    ),
    percent(
        "comparison.ratings_margin_pct",
        "20",
        "A club that is rated higher in nearer to half of the rounds than this is rated alike.",
        high="50",
    ),
    rpm(
        "comparison.stop_spin_low_rpm",
        "8000",
        "So much spin stops a good player's full shot; slower balls need less, in proportion.",
        low="3000",
        high="12000",
    ),
    rpm(
        "comparison.stop_spin_high_rpm",
        "10500",
        "More spin than this is more than a good player's full shot takes to stop.",
        low="6000",
        high="15000",
    ),
    degrees(
        "comparison.stop_landing_low_deg",
        "47",
        "A full shot that lands flatter than this runs on: near 50 degrees stop it.",
        low="35",
        high="60",
    ),
    Setting(
        key="comparison.stop_ball_speed_ms",
        kind="decimal",
        default=Decimal("42"),
        sentence="A good player's ball leaves a gap wedge at this speed (94 miles an hour); "
        "slower balls are judged by their own.",
        unit="m/s",
        low=Decimal("25"),
        high=Decimal("60"),
        source="from memory",
    ),
    whole(
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

EQUIPMENT: tuple[Setting, ...] = (
    whole(
        "equipment.check_days",
        90,
        "Trial equipment that was not measured and looked at for longer is due for a check.",
        unit="days",
        low=1,
        high=730,
    ),
)

PLAN: tuple[Setting, ...] = (
    degrees(
        "plan.touch_from_deg",
        "54",
        "From this loft on a wedge is suggested as a touch club; one tap changes it.",
        low="48",
        high="62",
    ),
    degrees(
        "plan.drift_from_deg",
        "1",
        "From here on an own club whose loft is off its stamp is said to have drifted.",
        low="0.5",
        high="4",
    ),
    degrees(
        "plan.near_enough_deg",
        "4",
        "Up to this far from a slot's loft an own wedge is the club played there now, and a club "
        "that was tried without a slot is one of its candidates.",
        low="1",
    ),
    degrees(
        "plan.sand_from_deg",
        "56",
        "The most lofted wedge of a plan usually has at least this loft, for sand; "
        "where usual steps stop short of it, a plan of wider ones is offered too.",
        low="50",
        high="60",
    ),
    degrees(
        "plan.end_high_deg",
        "60",
        "The most lofted wedge of a plan usually has no more loft than this, unless it is wished.",
        low="52",
        high="66",
    ),
    degrees(
        "plan.wider_step_high_deg",
        "7",
        "So large may a step of loft be in a plan of wider steps.",
        low="4",
        high="10",
    ),
    percent(
        "plan.wider_gap_high_pct",
        "15",
        "So large may a carry gap be in a plan of wider steps, "
        "as a share of the pitching wedge's carry.",
        high="40",
    ),
    inches(
        "plan.wide_sole_mm",
        "0.95",
        "From this width on a sole counts as wide when heads are chosen for a plan.",
        low_in="0.7",
        high_in="1.5",
    ),
    inches(
        "plan.narrow_sole_mm",
        "0.7",
        "Up to this width a sole counts as narrow when heads are chosen for a plan.",
        low_in="0.4",
        high_in="1",
    ),
)
