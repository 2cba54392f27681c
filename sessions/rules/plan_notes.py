"""What is said around a loft plan: holes and twins in the bag, fourteen clubs, a slot's role."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise

from sessions.rules.facts import Role
from sessions.rules.judgements import ALL_ON, JudgementBook, Off, Said, sentences
from sessions.rules.wording import drift_from_stamp, drift_words, figure, listed

# Rule 4.1b of the Rules of Golf (R&A and USGA): a round starts with at most fourteen clubs.
MOST_CLUBS = 14


@dataclass(frozen=True)
class OwnLoft:
    """An own club by the loft it plays at, measured or as stamped."""

    name: str
    loft_deg: Decimal
    is_measured: bool
    stamped_deg: Decimal | None = None


@dataclass(frozen=True)
class BagCount:
    """How many clubs are in the bag: the rest by count, None where nobody counted.

    `below` counts irons and the pitching wedge written down one by one, without the wedges;
    `unused` names what is carried but hardly ever hit.
    """

    others: int | None
    below: int
    wedges: int
    unused: tuple[str, ...] = ()

    def total(self, wedges_planned: int) -> int | None:
        """All clubs with a plan of so many wedges; None where the rest was not counted."""
        return None if self.others is None else self.others + self.below + wedges_planned

    def words(self, wedges_planned: int) -> Said:
        """What a plan of so many wedges makes of the bag; never fifteen in silence."""
        return sentences(FOURTEEN, (self, wedges_planned), None)[0]


def suggested_role(loft_deg: Decimal, touch_from_deg: Decimal) -> str:
    """`full_shot` or `touch`, by loft alone."""
    return next(role.value for _, role in ROLES.heard(loft_deg, touch_from_deg))


def matched_set_note(names: Sequence[str], off: Off = ALL_ON) -> tuple[Said, ...]:
    """Offer the set's own wedge for the first gap, by name; nothing where none reaches it."""
    return sentences(OFFERS, names, None, off)


def bag_notes(
    lofts: Sequence[OwnLoft], *, same_deg: Decimal, hole_deg: Decimal, off: Off = ALL_ON
) -> tuple[Said, ...]:
    """Name clubs that carry the same and holes between neighbours, with the degrees."""
    neighbours = pairwise(sorted(lofts, key=lambda own: own.loft_deg))
    limits = NoteLimits(same_deg, hole_deg)
    return tuple(said for two in neighbours for said in sentences(BAG, two, limits, off))


def drift_notes(
    lofts: Sequence[OwnLoft], *, drift_from_deg: Decimal, off: Off = ALL_ON
) -> tuple[Said, ...]:
    """Name the own clubs that measure off their stamp, weak or strong."""
    limits = DriftLimits(drift_from_deg)
    return tuple(said for own in lofts for said in sentences(DRIFT, own, limits, off))


def _said(own: OwnLoft) -> str:
    return f"{figure(own.loft_deg)}° {'measured' if own.is_measured else 'as stamped'}"


# --- the judgements ----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class NoteLimits:
    """What counts as the same loft, and what as a hole [degrees]: settings `spec.*`."""

    same_deg: Decimal
    hole_deg: Decimal


@dataclass(frozen=True, slots=True)
class DriftLimits:
    """From how much on a loft off its stamp is called drift [degrees]: setting `plan.*`."""

    drift_from_deg: Decimal


Neighbours = tuple[OwnLoft, OwnLoft]
DRIFT: JudgementBook[OwnLoft, DriftLimits, str] = JudgementBook(
    "PLAN-D", "An own club off its stamp"
)
BAG: JudgementBook[Neighbours, NoteLimits, str] = JudgementBook("PLAN-N", "The player's own wedges")
FOURTEEN: JudgementBook[tuple[BagCount, int], None, str] = JudgementBook("PLAN-B", "Fourteen clubs")
OFFERS: JudgementBook[Sequence[str], None, str] = JudgementBook("PLAN-O", "The set's own wedge")
ROLES: JudgementBook[Decimal, Decimal, Role] = JudgementBook("PLAN-R", "The role of a slot")
RULES_OF_GOLF = "rules-of-golf"


@BAG.judgement(
    "PLAN-N01",
    about="Two own neighbours with less than the set step of loft between them carry the same: "
    "their lofts are checked first, then their grooves are looked at.",
    thresholds=("spec.same_loft_deg",),
)
def carry_the_same(two: Neighbours, limits: NoteLimits) -> Iterable[str]:
    above, below = two
    step = below.loft_deg - above.loft_deg
    if step < limits.same_deg:
        yield (
            f"{above.name} and {below.name} are {figure(step)} degrees apart "
            f"({_said(above)} and {_said(below)}): they carry the same. Check the lofts first, "
            "then look at the grooves: of two alike the less worn one stays."
        )


@BAG.judgement(
    "PLAN-N02",
    about="Two own neighbours with more than the set step of loft between them leave a hole.",
    thresholds=("spec.loft_step_high_deg",),
)
def leave_a_hole(two: Neighbours, limits: NoteLimits) -> Iterable[str]:
    above, below = two
    step = below.loft_deg - above.loft_deg
    if step > limits.hole_deg:
        yield (
            f"From {above.name} ({_said(above)}) to {below.name} ({_said(below)}) "
            f"is a hole of {figure(step)} degrees."
        )


@FOURTEEN.judgement(
    "PLAN-B01",
    about="The other clubs were not counted: that is said, and no total is guessed.",
    source=RULES_OF_GOLF,
    is_fixed=True,
)
def not_counted(heard: tuple[BagCount, int], limits: None) -> Iterable[str]:
    if heard[0].total(heard[1]) is None:
        yield "The other clubs are not counted yet: fourteen is the limit (Rule 4.1b)."


@FOURTEEN.judgement(
    "PLAN-B02",
    about="How many clubs the bag holds with this plan, up to fourteen.",
    source=RULES_OF_GOLF,
    is_fixed=True,
)
def within_fourteen(heard: tuple[BagCount, int], limits: None) -> Iterable[str]:
    total = heard[0].total(heard[1])
    if total is not None and total <= MOST_CLUBS:
        yield f"With this plan {total} clubs are in the bag; {MOST_CLUBS} is the limit."


@FOURTEEN.judgement(
    "PLAN-B03",
    about="More than fourteen clubs: how many must come out, and which are hardly ever hit.",
    source=RULES_OF_GOLF,
    is_fixed=True,
)
def over_fourteen(heard: tuple[BagCount, int], limits: None) -> Iterable[str]:
    bag, total = heard[0], heard[0].total(heard[1])
    if total is not None and total > MOST_CLUBS:
        unused = f" Hardly ever hit: {listed(list(bag.unused))}." if bag.unused else ""
        yield (
            f"With this plan {total} clubs are in the bag; {MOST_CLUBS} is the limit "
            f"(Rule 4.1b): {total - MOST_CLUBS} must come out.{unused}"
        )


@OFFERS.judgement(
    "PLAN-O01",
    about="A matched set's own wedge that reaches the first gap is offered, with the irons' shaft "
    "and lie.",
)
def own_wedge(names: Sequence[str], limits: None) -> Iterable[str]:
    if names:
        yield (
            f"The set's own wedge may be the gap club, with the irons' shaft and lie: "
            f"{listed(list(names))}, if the irons are of that set."
        )


@ROLES.judgement(
    "PLAN-R01",
    about="With less loft a slot is for full shots, until somebody says otherwise.",
    thresholds=("plan.touch_from_deg",),
    is_fixed=True,
)
def full_shot_club(loft_deg: Decimal, touch_from_deg: Decimal) -> Iterable[Role]:
    if loft_deg < touch_from_deg:
        yield Role.FULL_SHOT


@ROLES.judgement(
    "PLAN-R02",
    about="From the set loft on a slot is a touch club, until somebody says otherwise.",
    thresholds=("plan.touch_from_deg",),
    is_fixed=True,
)
def touch_club(loft_deg: Decimal, touch_from_deg: Decimal) -> Iterable[Role]:
    if loft_deg >= touch_from_deg:
        yield Role.TOUCH


@DRIFT.judgement(
    "PLAN-D01",
    about="An own club measures so far off its stamp: drift, or a bend that nobody noted. The plan "
    "goes by what was measured. Common practice.",
    thresholds=("plan.drift_from_deg",),
)
def off_its_stamp(own: OwnLoft, limits: DriftLimits) -> Iterable[str]:
    drift = drift_from_stamp(
        own.loft_deg if own.is_measured else None, own.stamped_deg, limits.drift_from_deg
    )
    if drift is not None and own.stamped_deg is not None:
        yield (
            f"{own.name} measures {figure(own.loft_deg)}°, stamped {figure(own.stamped_deg)}; "
            f"{drift_words(drift)}. The plan goes by what was measured."
        )
