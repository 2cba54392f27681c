"""The values that the spec's rules are given, and the limits they judge by.

Frozen, built by `sessions.selectors.spec_facts` and by nobody else in the running shop.
Angles are degrees and lengths millimetres, both Decimal as stored; carries are metres, float.
Not measured, not asked and not chosen are None; a rule says what that means.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from sessions.maths.carry_line import CarryLine, ClubKey
from sessions.rules.dry_weight import DryParts
from sessions.rules.head_limits import UNKNOWN_HEAD, HeadLimits, MakerLimits
from sessions.rules.spec_limits import SETTING_ELSEWHERE, SpecLimits, limits_from, setting_of
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
    "StampedHead",
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
class StampedHead:
    """A head that can be had: `model` with its maker, as stamped, and how far it goes."""

    model: str
    hand: Hand
    loft_deg: Decimal
    bounce_deg: Decimal
    limits: HeadLimits


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
    """A grip as its maker gives it [mm]; `key` tells it from any other."""

    core_mm: Decimal | None = None
    length_mm: Decimal | None = None
    key: str = ""


@dataclass(frozen=True, slots=True)
class ClubFacts:
    """One club of the spec, in full. `slot` is its number in the spec, from 1; `key` tells it from
    any other club that might stand there: head, own club, trial and shaft.

    The four numbers stay apart: stamped, as received (measured), target; as built is the
    workshop's. `stamping` is None where nobody said, and "" where it is to be none.
    Swing weight is points above D0. `own_key` names the player's own club, "" for a new one.
    `discontinued` and `to_order` name parts ("head", "shaft", "grip"). `grooves_conform` is what
    is known of the groove rule, `made_year` how old the club is at most. `dry` is None where
    there is nothing to forecast a swing weight from. `on_line` is what the carry line knows the
    club by. `head_model` is the head's maker and model.
    """

    slot: int
    key: str = ""
    source: ClubSource = ClubSource.NEW
    role: Role | None = None
    has_head: bool = False
    hand: Hand | None = None
    head_model: str = ""
    head: HeadLimits = UNKNOWN_HEAD
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
    """A whole spec. The baseline is the pitching wedge that stays, with what was read on it, and
    what its carries are (`baseline_figures`, in the words of `Evidence.figures`).

    `other_clubs` counts the bag without the spec's clubs, None where nobody counted;
    `leaving` names those of them that come out, `unused` those hardly ever hit. `heads`
    can be had in the hands of the spec's clubs. `line` is the player's carry against loft, None
    before there is one.
    """

    player: PlayerFacts = PlayerFacts()
    clubs: tuple[ClubFacts, ...] = ()
    baseline_loft_deg: Decimal | None = None
    baseline_carry_m: float | None = None
    baseline_key: str = ""
    baseline_figures: frozenset[str] = frozenset()
    baseline_length_mm: Decimal | None = None
    baseline_lie_deg: Decimal | None = None
    baseline_swing_weight_points: Decimal | None = None
    other_clubs: int | None = None
    leaving: tuple[str, ...] = ()
    unused: tuple[str, ...] = ()
    heads: tuple[StampedHead, ...] = ()
    line: CarryLine | None = None
