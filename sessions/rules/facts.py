"""The values that the spec's rules are given, and the limits they judge by.

Frozen, built by `sessions.selectors.spec_facts` and by nobody else in the running shop.
Angles are degrees and lengths millimetres, both Decimal as stored; carries are metres, float.
Not measured, not asked and not chosen are None; a rule says what that means.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from decimal import Decimal

from fitshop.setting import Value
from sessions.maths.bending import Bend, BendLimits
from sessions.maths.carry_line import CarryLine, ClubKey
from sessions.rules.dry_weight import DryParts
from sessions.rules.trade_words import (
    Attack,
    ClubSource,
    Hand,
    Hands,
    Making,
    Often,
    PlayerKind,
    Role,
    ShaftMaterial,
    Tip,
)

__all__ = [
    "GROOVE_RULE_FROM",
    "RULES_LONGEST_MM",
    "RULES_MOST_CLUBS",
    "RULES_SHORTEST_GRIP_MM",
    "RULES_SHORTEST_MM",
    "SETTING_ELSEWHERE",
    "Attack",
    "ClubFacts",
    "ClubSource",
    "Evidence",
    "GripFacts",
    "Hand",
    "Hands",
    "HeadLimits",
    "MakerLimits",
    "Making",
    "Often",
    "PlayerFacts",
    "PlayerKind",
    "Role",
    "ShaftFacts",
    "ShaftMaterial",
    "Sole",
    "SpecFacts",
    "SpecLimits",
    "Tip",
    "limits_from",
    "setting_of",
]

# The Equipment Rules (R&A and USGA, 2019), Part 2 section 1c: not a shop's to set.
RULES_LONGEST_MM = Decimal("1219.2")  # 48 in
RULES_SHORTEST_MM = Decimal("457.2")  # 18 in
# The same, Part 2 section 3a and its interpretation.
RULES_SHORTEST_GRIP_MM = Decimal("177.8")  # 7 in
# The groove rule binds clubs made from this year on (key `groove-rule`; the year from memory).
GROOVE_RULE_FROM = 2010
# The Rules of Golf, Rule 4.1b(1).
RULES_MOST_CLUBS = 14


@dataclass(frozen=True, slots=True)
class Sole:
    """A sole's width [mm], the grades of its relief at heel and trailing edge (0 none to 3
    strong), and whether the leading edge is softened."""

    width_mm: Decimal
    heel: int = 0
    trailing: int = 0
    is_softened: bool = False


@dataclass(frozen=True, slots=True)
class MakerLimits:
    """How far the head's maker lets it be bent each way [degrees, not negative].

    None where the maker said nothing of that way: the making's default serves then.
    """

    weak_deg: Decimal | None = None
    strong_deg: Decimal | None = None
    up_deg: Decimal | None = None
    flat_deg: Decimal | None = None


@dataclass(frozen=True, slots=True)
class HeadLimits:
    """What a head's bends are judged by: its making, its maker's word, what was done to it.

    `earlier` is every bend it has had, all visits together, oldest first.
    """

    making: Making = Making.UNKNOWN
    maker: MakerLimits = MakerLimits()
    earlier: tuple[Bend, ...] = ()


@dataclass(frozen=True, slots=True)
class Evidence:
    """What stands behind a slot's club.

    `shots` counts what was hit with it, misreads left out. `tested_on_turf` is None where no
    block says what it was hit from. `situations` are the swings it was tried in, as labels.
    `unfair` says what differed besides the club where it was compared, `cautions` what is to be
    borne in mind. `figures` are the words of what was measured: as flown, normalised, unanswered.

    `is_loft_measured` is None where no trial head was played; `days_since_check` counts from the
    trial head's last check to the trial, None where it was never checked.
    """

    shots: int = 0
    tested_on_turf: bool | None = None
    situations: tuple[str, ...] = ()
    unfair: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    figures: frozenset[str] = frozenset()
    is_loft_measured: bool | None = None
    days_since_check: int | None = None


@dataclass(frozen=True, slots=True)
class ShaftFacts:
    """A shaft as its maker gives it [g, mm]. `is_pulled`: it comes out of an older club."""

    mass_g: Decimal | None = None
    material: ShaftMaterial | None = None
    butt_mm: Decimal | None = None
    is_pulled: bool = False


@dataclass(frozen=True, slots=True)
class GripFacts:
    """A grip as its maker gives it [mm]."""

    core_mm: Decimal | None = None
    length_mm: Decimal | None = None


@dataclass(frozen=True, slots=True)
class ClubFacts:
    """One club of the spec, in full. `slot` is its number in the spec, from 1.

    The four numbers stay apart: stamped, as received (measured), target; as built is the
    workshop's. `stamping` is None where nobody said, and "" where it is to be none.
    Swing weight is points above D0. `own_key` names the player's own club, "" for a new one.
    `discontinued` and `to_order` name parts ("head", "shaft", "grip"). `grooves_conform` is what
    is known of the groove rule, `made_year` how old the club is at most. `dry` is None where
    there is nothing to forecast a swing weight from. `on_line` is what the carry line knows the
    club by.
    """

    slot: int
    source: ClubSource = ClubSource.NEW
    role: Role | None = None
    has_head: bool = False
    hand: Hand | None = None
    head: HeadLimits = HeadLimits()
    bore: Tip | None = None
    stamped_loft_deg: Decimal | None = None
    stamped_bounce_deg: Decimal | None = None
    stock_lie_deg: Decimal | None = None
    as_received_loft_deg: Decimal | None = None
    as_received_lie_deg: Decimal | None = None
    as_received_bounce_deg: Decimal | None = None
    target_loft_deg: Decimal | None = None
    target_lie_deg: Decimal | None = None
    length_mm: Decimal | None = None
    sole: Sole | None = None
    has_shaft: bool = False
    tip: Tip | None = None
    tip_trim_mm: Decimal = Decimal(0)
    shaft: ShaftFacts = ShaftFacts()
    has_grip: bool = False
    grip: GripFacts = GripFacts()
    swing_weight_points: Decimal | None = None
    dry: DryParts | None = None
    stamping: str | None = None
    own_key: str = ""
    is_leaving: bool = False
    has_crack: bool | None = None
    grooves_conform: bool | None = None
    made_year: int | None = None
    discontinued: tuple[str, ...] = ()
    to_order: tuple[str, ...] = ()
    predicted_carry_m: float | None = None
    predicted_carry_sd_m: float | None = None
    on_line: ClubKey = ""
    evidence: Evidence = Evidence()

    def field(self, name: str) -> str:
        """The dotted name of one of this club's fields, as findings give it."""
        return f"club.{self.slot}.{name}"

    @property
    def is_built(self) -> bool:
        """True where the bench has work: everything but an own club kept as it is."""
        return self.source is not ClubSource.OWN_KEPT

    @property
    def played_loft_deg(self) -> Decimal | None:
        """The loft it will be played at: the target, or as measured where it is kept as it is.

        A stamp is no substitute: wedges drift.
        """
        if self.target_loft_deg is not None:
            return self.target_loft_deg
        return self.as_received_loft_deg if not self.is_built else None

    @property
    def lie_offset_deg(self) -> Decimal | None:
        """How far the target lie is from the head's own: flat negative, None where not known."""
        if self.target_lie_deg is None or self.stock_lie_deg is None:
            return None
        return self.target_lie_deg - self.stock_lie_deg


@dataclass(frozen=True, slots=True)
class PlayerFacts:
    """Who the clubs are for. `unanswered` are labels of interview questions still open.

    Answers are None or empty where nobody gave them. `attack_deg` is measured (downward
    negative), `attack_seen` by eye or by the divot; `ground` holds both seasons, `sand` every
    kind met. Irons: lie against stock [degrees, flat negative], shaft [g].
    """

    hand: Hand | None = None
    kind: PlayerKind = PlayerKind.ADULT
    height_mm: int | None = None
    unanswered: tuple[str, ...] = ()
    attack_deg: Decimal | None = None
    attack_seen: Attack | None = None
    ground: frozenset[str] = frozenset()
    sand: frozenset[str] = frozenset()
    face_opened: Often | None = None
    hands_in_sand: Hands | None = None
    chips_on_the_toe: bool = False
    hands_hurt: bool = False
    groove_events: str = ""
    iron_lie_deg: Decimal | None = None
    iron_shaft_g: Decimal | None = None
    iron_shaft_material: ShaftMaterial | None = None
    irons_changing: bool = False
    posture: str = ""

    @property
    def is_spared(self) -> bool:
        """Never pushed towards weight: juniors, seniors, hands that hurt. Common practice."""
        return self.kind in {PlayerKind.JUNIOR, PlayerKind.SENIOR} or self.hands_hurt

    @property
    def stands_with_two_arms(self) -> bool:
        """False where tables of usual lengths, made for those who do, say nothing."""
        return self.posture not in {"seated", "one_arm"}

    @property
    def is_soft_sand(self) -> bool:
        return bool(self.sand & {"fluffy", "soft"})

    @property
    def is_firm_sand(self) -> bool:
        return bool(self.sand & {"firm", "wet", "thin_over_base"})


@dataclass(frozen=True, slots=True)
class SpecFacts:
    """A whole spec. The baseline is the pitching wedge that stays, with what was read on it.

    `other_clubs` counts the bag without the spec's clubs, None where nobody counted;
    `leaving` names those of them that come out, `unused` those hardly ever hit. `line` is the
    player's carry against loft, None before there is one.
    """

    player: PlayerFacts = PlayerFacts()
    clubs: tuple[ClubFacts, ...] = ()
    baseline_loft_deg: Decimal | None = None
    baseline_carry_m: float | None = None
    baseline_key: str = ""
    baseline_length_mm: Decimal | None = None
    baseline_lie_deg: Decimal | None = None
    baseline_swing_weight_points: Decimal | None = None
    other_clubs: int | None = None
    leaving: tuple[str, ...] = ()
    unused: tuple[str, ...] = ()
    line: CarryLine | None = None


@dataclass(frozen=True, slots=True)
class SpecLimits:
    """Every threshold of the spec's rules, as the shop has set it.

    A field `x` is the setting `spec.x` of `sessions.declared`, but for those that other rooms
    judge by too: `SETTING_ELSEWHERE` names theirs.
    """

    bend_forged_low_carbon_deg: Decimal
    bend_cast_soft_carbon_deg: Decimal
    bend_cast_stainless_deg: Decimal
    bend_cast_17_4_deg: Decimal
    bend_look_deg: Decimal
    bounce_low_deg: Decimal
    loft_step_low_deg: Decimal
    loft_step_high_deg: Decimal
    same_loft_deg: Decimal
    gap_low_pct: Decimal
    gap_high_pct: Decimal
    sand_from_deg: Decimal
    wider_step_high_deg: Decimal
    wider_gap_high_pct: Decimal
    length_man_low_mm: Decimal
    length_man_high_mm: Decimal
    length_woman_low_mm: Decimal
    length_woman_high_mm: Decimal
    length_senior_low_mm: Decimal
    length_senior_high_mm: Decimal
    length_tall_high_mm: Decimal
    tall_from_mm: Decimal
    length_junior_low_mm: Decimal
    length_junior_high_mm: Decimal
    junior_height_low_mm: Decimal
    junior_height_high_mm: Decimal
    length_junior_slack_mm: Decimal
    junior_check_months: int
    junior_check_growth_mm: Decimal
    shots_for_a_build: int
    stamping_most_characters: int
    overlap_look_pct: Decimal
    steep_deg: Decimal
    shallow_deg: Decimal
    bounce_low_to_deg: Decimal
    bounce_mid_to_deg: Decimal
    bounce_high_from_deg: Decimal
    sole_wide_mm: Decimal
    lie_full_apart_deg: Decimal
    lie_touch_flatter_deg: Decimal
    lie_hands_deg: Decimal
    length_run_longer_mm: Decimal
    length_run_shorter_mm: Decimal
    swing_weight_run_lighter: Decimal
    swing_weight_above_irons: Decimal
    swing_weight_above_irons_lob: Decimal
    lob_from_deg: Decimal
    most_added_g: Decimal
    swing_weight_tolerance: Decimal
    swing_weight_doubt: Decimal
    light_shaft_g: Decimal
    shaft_lighter_g: Decimal
    shaft_heavier_full_g: Decimal
    shaft_heavier_touch_g: Decimal
    shaft_heavier_spared_g: Decimal
    shaft_heavier_child_g: Decimal
    grip_core_apart_mm: Decimal
    check_days: int

    def default_bend_deg(self, making: Making) -> Decimal:
        """How far a head of this making may be bent where its maker is silent.

        Nothing for the makings that break or that nobody knows: no setting loosens that.
        """
        match making:
            case Making.FORGED_LOW_CARBON:
                return self.bend_forged_low_carbon_deg
            case Making.CAST_SOFT_CARBON:
                return self.bend_cast_soft_carbon_deg
            case Making.CAST_STAINLESS:
                return self.bend_cast_stainless_deg
            case Making.CAST_17_4:
                return self.bend_cast_17_4_deg
            case _:
                return Decimal(0)

    def bend_limits(self, head: HeadLimits) -> BendLimits:
        """How far this head may be bent each way: the maker's word, else its making's default.

        `said_by` is the maker only where the maker spoke of all four ways.
        """
        default = self.default_bend_deg(head.making)
        ways = (head.maker.weak_deg, head.maker.strong_deg, head.maker.up_deg, head.maker.flat_deg)
        weak, strong, upright, flat = (
            default if way is None else max(way, Decimal(0)) for way in ways
        )
        return BendLimits(
            weak_deg=weak,
            strong_deg=strong,
            upright_deg=upright,
            flat_deg=flat,
            said_by="common practice" if None in ways else "the maker",
        )


# Limits that other rooms judge by too keep those rooms' settings.
SETTING_ELSEWHERE: Mapping[str, str] = {
    "steep_deg": "interview.steep_deg",
    "shallow_deg": "interview.shallow_deg",
    "bounce_low_to_deg": "interview.bounce_low_to_deg",
    "bounce_mid_to_deg": "interview.bounce_mid_to_deg",
    "bounce_high_from_deg": "interview.bounce_high_from_deg",
    "lob_from_deg": "interview.lob_from_deg",
    "light_shaft_g": "interview.light_shaft_g",
    "most_added_g": "build.most_added_g",
    "swing_weight_tolerance": "tolerance.swing_weight_points",
    "check_days": "equipment.check_days",
    "sand_from_deg": "plan.sand_from_deg",
    "wider_step_high_deg": "plan.wider_step_high_deg",
    "wider_gap_high_pct": "plan.wider_gap_high_pct",
}


def setting_of(limit: str) -> str:
    """The key of the setting that a limit is.

    >>> setting_of("gap_low_pct"), setting_of("check_days")
    ('spec.gap_low_pct', 'equipment.check_days')
    """
    return SETTING_ELSEWHERE.get(limit, f"spec.{limit}")


def limits_from(settings: Mapping[str, Value]) -> SpecLimits:
    """Build the limits from the shop's settings by key.

    Raises KeyError for a setting that is missing and TypeError for one of the wrong kind:
    both are mistakes of the program, since the store fills in every default.
    """
    values: dict[str, Decimal | int] = {}
    for limit in fields(SpecLimits):
        key = setting_of(limit.name)
        value = settings[key]
        whole = limit.type == "int"
        if isinstance(value, bool) or not isinstance(value, (int if whole else (int, Decimal))):
            raise TypeError(f"{key} should be a {'whole ' if whole else ''}number, not {value!r}.")
        values[limit.name] = int(value) if whole else Decimal(value)
    return SpecLimits(**values)  # type: ignore[arg-type]  # kinds were checked one by one above
