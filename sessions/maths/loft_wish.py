"""What a loft plan is asked for and chosen from: the wish, the heads, the clubs that stay.

Values, and what one club in one slot costs on its own. The ways to fill a slot are gathered in
``loft_options``; what a *step* costs, and the search, are in ``loft_search``; the plans as they
are read are in ``loft_plan``.
"""

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from sessions.maths.bending import bounce_after
from sessions.maths.delivery import Hand

HALF = Decimal("0.5")
SlotRole = Literal["full_shot", "touch"]


@dataclass(frozen=True)
class CandidateHead:
    """A head that could be built: stamped loft, bounce, how far it may be bent each way [deg].

    ``traits`` are words for its sole, as a slot's wish names them.
    """

    head_id: str
    stamped_loft_deg: Decimal
    bounce_deg: Decimal
    weak_limit_deg: Decimal
    strong_limit_deg: Decimal
    hand: Hand
    is_available: bool = True
    traits: frozenset[str] = frozenset()


@dataclass(frozen=True)
class KeptClub:
    """An owned club at its loft and, where it may be bent, how far each way [deg].

    ``must_stay`` puts it into every plan; otherwise it may stand in one. Where the loft was never
    measured it is the stamp's, and whatever is said of it says so.
    """

    club_id: str
    loft_deg: Decimal
    bounce_deg: Decimal | None = None
    weak_limit_deg: Decimal = Decimal(0)
    strong_limit_deg: Decimal = Decimal(0)
    must_stay: bool = True
    is_loft_measured: bool = True


@dataclass(frozen=True)
class SlotWish:
    """What one slot's club is for: its role, its bounce after bending [deg], traits of its sole.

    A role of None goes by loft; bounce and traits pull, they never forbid: a plan says where they
    are not met.
    """

    role: SlotRole | None = None
    bounce_deg: tuple[Decimal, Decimal] | None = None
    traits: frozenset[str] = frozenset()


ANY_SLOT = SlotWish()


@dataclass(frozen=True)
class WiderSteps:
    """How far steps may grow where few wedges, in usual steps, stop short of a sand club.

    Such a plan stands beside the usual ones and says what it is.
    """

    sand_from_deg: Decimal
    step_high_deg: Decimal
    gap_high_percent: float


@dataclass(frozen=True)
class PlanWish:
    """What is asked of a plan; the limits are the shop's settings or the fitter's choice.

    ``slots`` is empty or has one wish for each wedge, the strongest first. ``usual_end_deg``
    pulls the most lofted club into a range where nobody wished for a loft; ``end_at_least_deg``
    forbids less. ``gap_aim_percent`` is what gaps are held against, the middle of their limits if
    None. From ``touch_from_deg`` on a club without a wished role is a touch club.
    ``baseline_key`` is the pitching wedge's on the carry line, as an owned club's id is its own.
    """

    wedges: int
    hand: Hand
    most_lofted_deg: Decimal | None = None
    step_limits_deg: tuple[Decimal, Decimal] = (Decimal(4), Decimal(6))
    gap_limits_percent: tuple[float, float] = (8.0, 13.0)
    most_lofted_within_deg: Decimal = Decimal(1)
    leave_out: frozenset[str] = frozenset()
    slots: tuple[SlotWish, ...] = ()
    usual_end_deg: tuple[Decimal, Decimal] | None = None
    end_at_least_deg: Decimal | None = None
    gap_aim_percent: float | None = None
    touch_from_deg: Decimal = Decimal(54)
    wider: WiderSteps | None = None
    baseline_key: str = ""

    def slot(self, number: int) -> SlotWish:
        """The wish for a slot, numbered from 0."""
        return self.slots[number] if self.slots else ANY_SLOT

    def role(self, number: int, loft_deg: Decimal) -> SlotRole:
        """The role of a slot, as wished or by its loft."""
        wished = self.slot(number).role
        if wished is not None:
            return wished
        return "touch" if loft_deg >= self.touch_from_deg else "full_shot"

    @property
    def aim_percent(self) -> float:
        """The gap that counts as even."""
        return (
            sum(self.gap_limits_percent) / 2
            if self.gap_aim_percent is None
            else (self.gap_aim_percent)
        )


@dataclass(frozen=True)
class PlanWeights:
    """What counts against a plan, per unit. A judgement of ours, not of the trade.

    A new head weighs as much as gaps that are uneven by about a degree: what is owned and nearly
    fits is kept. A bend weighs what it would have to gain to be worth a visit to the bar: about a
    yard and a half of carry, so that a short hitter is not sent half degrees that nobody can tell.
    A touch club is swung less than fully most of the time: its gap counts half.

    A club that is to stay is the one the plan is built round: to bend it weighs as much as two
    new heads, so that it comes first as it is.

    Per squared percent of a gap's difference from the aim, per squared degree off the wished or
    usual end, per new head, per degree bent, per bent club, per squared degree of bounce outside
    what is wanted, per missing trait of the sole, per bent club that is to stay.
    """

    per_percent_uneven2: float = 1.0
    touch_gap_share: float = 0.5
    per_degree_off_wish2: float = 2.0
    per_new_head: float = 6.0
    per_degree_bent: float = 0.5
    bend_worth_m: float = 1.4
    per_degree_bounce_off2: float = 0.5
    per_trait_missing: float = 2.0
    per_bent_stayer: float = 12.0


@dataclass(frozen=True)
class Option:
    """One way to have a club at one loft: a new head or an owned club, bent or not."""

    loft_deg: Decimal
    head: CandidateHead | None
    club: KeptClub | None

    @property
    def bend_deg(self) -> Decimal:
        """From the stamp of a new head, from the loft of an owned club; weak positive."""
        if self.head is not None:
            return self.loft_deg - self.head.stamped_loft_deg
        return self.loft_deg - self.club.loft_deg if self.club else Decimal(0)

    @property
    def bounce_deg(self) -> Decimal | None:
        """After the bend; None where an owned club's is not known."""
        before = self.head.bounce_deg if self.head else self.club.bounce_deg if self.club else None
        return None if before is None else bounce_after(before, self.bend_deg)

    @property
    def order(self) -> tuple[Decimal, str]:
        """The smaller bend first, then the id, so that ties are always settled alike."""
        source = self.head.head_id if self.head else self.club.club_id if self.club else ""
        return abs(self.bend_deg), source


def traits_missing(wish: SlotWish, option: Option) -> tuple[str, ...]:
    """Return wished traits that a new head lacks; an owned club's sole is what it is."""
    return () if option.head is None else tuple(sorted(wish.traits - option.head.traits))


def bounce_off(wish: SlotWish, bounce_deg: Decimal | None) -> Decimal:
    """Return how far a bounce lies outside what is wanted [deg]; 0 where either is not known."""
    if wish.bounce_deg is None or bounce_deg is None:
        return Decimal(0)
    low, high = wish.bounce_deg
    return max(low - bounce_deg, bounce_deg - high, Decimal(0))


def option_price(
    wish: SlotWish, option: Option, weights: PlanWeights, baseline_carry_m: float
) -> float:
    """Return what an option costs in a slot on its own: new head, bend, bounce and sole."""
    bend = abs(float(option.bend_deg))
    worth = (100 * weights.bend_worth_m / baseline_carry_m) ** 2 if bend else 0.0
    return (
        (weights.per_new_head if option.head else 0.0)
        + weights.per_percent_uneven2 * worth
        + weights.per_degree_bent * bend
        + (weights.per_bent_stayer if bend and option.club and option.club.must_stay else 0.0)
        + weights.per_degree_bounce_off2 * float(bounce_off(wish, option.bounce_deg)) ** 2
        + weights.per_trait_missing * len(traits_missing(wish, option))
    )
