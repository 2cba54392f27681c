"""Which lofts the wedges below the pitching wedge should have, and which clubs give them.

Kept clubs stand at their measured loft or, where they may be bent, near it; a new head may be
bent, within its limits, to a loft in half degrees. Keeping everything, bending an own club and
buying nothing are plans like any other. Steps of 4 to 6 degrees and gaps of 8 to 13 % of the
pitching wedge's carry are common practice and come in with the wish. The values are in
``loft_wish``, the search in ``loft_search``.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from typing import Literal

from sessions.maths.carry_line import CarryLine, Prediction
from sessions.maths.errors import NotAFigure, PlanImpossible
from sessions.maths.gaps import gap_on_line
from sessions.maths.loft_binding import (
    ANY_GAP_PERCENT,
    ANY_STEP_DEG,
    MOST_WEDGES,
    limit_words,
    wedge_words,
    what_binds,
)
from sessions.maths.loft_search import (
    Path,
    baseline,
    best_paths,
    cost,
    gap_percent,
    is_distinct,
    may_end,
    steps_of,
    steps_outside,
)
from sessions.maths.loft_wish import (
    CandidateHead,
    KeptClub,
    Option,
    PlanWeights,
    PlanWish,
    SlotRole,
    SlotWish,
    WiderSteps,
)
from sessions.maths.loft_words import why_wider, why_words
from sessions.maths.shown import show_degrees, show_percent

__all__ = [
    "CandidateHead",
    "KeptClub",
    "LoftPlan",
    "PlanKind",
    "PlanSlot",
    "PlanWeights",
    "PlanWish",
    "SlotRole",
    "SlotWish",
    "WiderSteps",
    "loft_plans",
]

PLANS_SHOWN = 3
# Data-entry guards of ours: nothing in a golf bag comes near them.
MOST_BENT_DEG = 20
MOST_STEP_DEG = 45
PlanKind = Literal["usual", "wider steps", "kept as it is"]
_DEFAULT_WEIGHTS = PlanWeights()


@dataclass(frozen=True)
class PlanSlot:
    """One wedge of a plan: a new head or a kept club, bent or not, and what it should carry.

    ``bend_deg`` is from the stamp of a new head and from the loft of a kept club (measured or as
    stamped), weak positive. ``bounce_after_deg`` is None where the kept club's bounce is not
    known. Carry and gap come with their 90 % interval; the gap's is that of the difference.
    """

    target_loft_deg: Decimal
    head_id: str | None
    club_id: str | None
    stamped_loft_deg: Decimal | None
    bend_deg: Decimal
    bounce_after_deg: Decimal | None
    step_deg: Decimal
    carry_m: float
    carry_low_m: float
    carry_high_m: float
    gap_m: float
    gap_low_m: float
    gap_high_m: float
    gap_percent: float
    is_extrapolated: bool
    role: SlotRole
    is_loft_measured: bool
    why: str


@dataclass(frozen=True)
class LoftPlan:
    """A plan from the pitching wedge down; ``notes`` say what in it is not as usual."""

    slots: tuple[PlanSlot, ...]
    cost: float
    notes: tuple[str, ...] = field(default=())
    kind: PlanKind = "usual"

    @property
    def target_lofts_deg(self) -> tuple[Decimal, ...]:
        return tuple(slot.target_loft_deg for slot in self.slots)

    @property
    def buys_nothing(self) -> bool:
        return all(slot.head_id is None for slot in self.slots)


def loft_plans(
    line: CarryLine,
    wish: PlanWish,
    heads: Sequence[CandidateHead],
    kept: Sequence[KeptClub] = (),
    weights: PlanWeights = _DEFAULT_WEIGHTS,
) -> tuple[LoftPlan, ...]:
    """Return the best plan and up to two distinct ones more, the best first.

    Distinct: a loft that is a degree or more away, or a club kept where another plan buys. What
    is owned is always weighed too, the best of it and all of it as it is, though a step be outside
    the limits: notes say so, and whether it comes first is a question of cost. Where the clubs
    that must stay are all the wedges asked for, nobody is told to buy: they stand as they are, and
    then bent. A plan of wider steps stands last, where the wish allows for it and the usual ones
    stop short of a sand club.

    Args:
        line: the player's carries; its baseline is the pitching wedge.
        wish: how many wedges, limits, roles and soles, what to leave out (ids of heads and clubs).
        heads: what could be built; another hand, unavailable and left-out ones are passed over.
        kept: owned clubs that must or may stand in the plan.
        weights: what counts against a plan.

    Raises:
        PlanImpossible: nothing fits; the sentence names what stands in the way.
        NotAFigure: the number of wedges is not 1 to 4, a loft or a limit is no number, or there
            are wishes for some slots only.
    """
    owned = [club for club in kept if club.club_id not in wish.leave_out]
    must = [club for club in owned if club.must_stay]
    _refuse_wish(wish, heads, owned, len(must))
    reader = _Reader(line)
    as_it_is = _path_as_owned(line, wish, owned)
    paths = best_paths(line, wish, heads, owned, weights, most=PLANS_SHOWN)
    if as_it_is is not None and len(must) == wish.wedges:
        # Bent only where that steps better than what is there.
        bent = [path for path in paths[:1] if path != as_it_is]
        return tuple(reader.plan(wish, path, weights) for path in [as_it_is, *bent])
    usual = list(paths)
    of_owned = [_best_of_owned(line, wish, owned, weights), as_it_is]
    for path in of_owned:
        if path is not None and not any(_is_told(path, other) for other in paths):
            paths.append(path)
    wider = _wider_path(line, wish, heads, owned, weights, usual, paths)
    paths.sort(key=lambda path: cost(line, wish, path, weights))
    plans = [reader.plan(wish, path, weights) for path in paths]
    if wider is not None:
        plans.append(reader.plan(wider[0], wider[1], weights, usual=wish))
    if not plans:
        raise PlanImpossible(what_binds(line, wish, heads, owned))
    return tuple(plans)


def _refuse_wish(
    wish: PlanWish, heads: Sequence[CandidateHead], owned: Sequence[KeptClub], staying: int
) -> None:
    lofts = [
        *(head.stamped_loft_deg for head in heads),
        *(club.loft_deg for club in owned),
        *((wish.most_lofted_deg,) if wish.most_lofted_deg is not None else ()),
        *((wish.end_at_least_deg,) if wish.end_at_least_deg is not None else ()),
        *(wish.usual_end_deg or ()),
        wish.touch_from_deg,
    ]
    bounces = [
        *(head.bounce_deg for head in heads),
        *(club.bounce_deg for club in owned if club.bounce_deg is not None),
        *(edge for slot in wish.slots if slot.bounce_deg is not None for edge in slot.bounce_deg),
    ]
    limits = [
        *(limit for head in heads for limit in (head.weak_limit_deg, head.strong_limit_deg)),
        *(limit for club in owned for limit in (club.weak_limit_deg, club.strong_limit_deg)),
        wish.most_lofted_within_deg,
    ]
    if not all(angle.is_finite() for angle in (*lofts, *bounces, *limits, *wish.step_limits_deg)):
        raise NotAFigure("A head, a club or a limit of the plan is not a number.")
    if not all(0 < loft < 90 for loft in lofts):
        raise NotAFigure("A loft of a plan is an angle between 0 and 90 degrees.")
    if not all(-90 < bounce < 90 for bounce in bounces):
        raise NotAFigure("A bounce is an angle between -90 and 90 degrees.")
    if not all(0 <= limit <= MOST_BENT_DEG for limit in limits):
        raise NotAFigure(f"Nothing is bent by less than 0 or more than {MOST_BENT_DEG} degrees.")
    if not 0 < wish.step_limits_deg[0] <= wish.step_limits_deg[1] <= MOST_STEP_DEG:
        raise NotAFigure(
            f"Steps of loft go down the bag, from the least to the most, above 0 and up to "
            f"{MOST_STEP_DEG} degrees."
        )
    if wish.wider is not None and not (
        wish.wider.sand_from_deg.is_finite()
        and wish.wider.step_high_deg.is_finite()
        and 0 < wish.wider.step_high_deg <= MOST_STEP_DEG
        and math.isfinite(wish.wider.gap_high_percent)
    ):
        raise NotAFigure("A plan of wider steps needs limits that are believable numbers.")
    aims = (wish.gap_aim_percent,) if wish.gap_aim_percent is not None else ()
    if not all(math.isfinite(limit) for limit in (*wish.gap_limits_percent, *aims)):
        raise NotAFigure("The limits of the gaps must be numbers.")
    if not 1 <= wish.wedges <= MOST_WEDGES:
        raise NotAFigure(f"A plan has 1 to {MOST_WEDGES} wedges below the pitching wedge.")
    if wish.slots and len(wish.slots) != wish.wedges:
        raise NotAFigure("There must be a wish for every slot of the plan, or for none.")
    if staying > wish.wedges:
        raise PlanImpossible(
            f"{staying} clubs are to stay but {wedge_words(wish.wedges)} asked for: "
            "ask for more, or let one go."
        )


def _path_as_owned(line: CarryLine, wish: PlanWish, owned: Sequence[KeptClub]) -> Path | None:
    """Return the clubs that stay, just as they are, if they are as many as were asked for.

    Those that must; else all that is owned below the pitching wedge.
    """
    must = [club for club in owned if club.must_stay]
    below = [club for club in owned if club.must_stay or club.loft_deg > baseline(line)]
    staying = must if len(must) == wish.wedges else below
    if len(staying) != wish.wedges:
        return None
    ordered = sorted(staying, key=lambda club: (club.loft_deg, club.club_id))
    return tuple(Option(club.loft_deg, None, club) for club in ordered)


def _best_of_owned(
    line: CarryLine, wish: PlanWish, owned: Sequence[KeptClub], weights: PlanWeights
) -> Path | None:
    """Return the best plan that buys nothing, however it steps; None where too little is owned."""
    free = replace(wish, step_limits_deg=ANY_STEP_DEG, gap_limits_percent=ANY_GAP_PERCENT,
                   gap_aim_percent=wish.aim_percent)  # fmt: skip
    found = best_paths(line, free, (), owned, weights, most=1)
    return found[0] if found else None


def _is_told(path: Path, other: Path) -> bool:
    """Say whether one plan tells the player nothing beside another: the same clubs, alike in loft.

    Bent and unbent are two plans where the bend is to be seen.
    """
    return not is_distinct(path, other) and [option.club for option in path] == [
        option.club for option in other
    ]


def _wider_path(
    line: CarryLine,
    wish: PlanWish,
    heads: Sequence[CandidateHead],
    owned: Sequence[KeptClub],
    weights: PlanWeights,
    usual: Sequence[Path],
    told: Sequence[Path],
) -> tuple[PlanWish, Path] | None:
    """Return a plan of wider steps where usual ones stop short of a sand club, or fit nothing.

    It differs from every plan in `told`: what is owned may step as widely.
    """
    wider = wish.wider
    if wider is None or (usual and wider.sand_from_deg - usual[0][-1].loft_deg < 1):
        return None
    least, most = wish.gap_limits_percent
    asked = replace(
        wish,
        step_limits_deg=(
            wish.step_limits_deg[0],
            max(wider.step_high_deg, wish.step_limits_deg[1]),
        ),
        gap_limits_percent=(least, max(wider.gap_high_percent, most)),
        # A gap at the top of what is usual is what few clubs over a wide range can come to.
        gap_aim_percent=most,
        end_at_least_deg=wider.sand_from_deg if wish.most_lofted_deg is None else None,
    )
    found = best_paths(line, asked, heads, owned, weights, most=1, besides=told)
    return (asked, found[0]) if found else None


@dataclass
class _Reader:
    """Makes plans of paths; each loft is looked up on the line once."""

    line: CarryLine
    seen: dict[tuple[Decimal, str], Prediction] = field(default_factory=dict)

    def plan(
        self, wish: PlanWish, path: Path, weights: PlanWeights, usual: PlanWish | None = None
    ) -> LoftPlan:
        held_against = wish if usual is None else usual
        notes = [
            f"From {show_degrees(self._loft(above))} to {show_degrees(below.loft_deg)} is "
            f"{show_degrees(below.loft_deg - self._loft(above))} "
            f"degrees and {show_percent(gap_percent(self.line, above, below))} % of the pitching "
            f"wedge's carry: {limit_words(held_against)} was asked for."
            for above, below in steps_outside(self.line, held_against, path)
        ]
        if wish.most_lofted_deg is not None and not may_end(wish, path[-1].loft_deg):
            notes.append(
                f"It ends at {show_degrees(path[-1].loft_deg)} degrees: "
                f"{show_degrees(wish.most_lofted_deg)} was wished for."
            )
        if usual is not None:
            notes.insert(0, why_wider(wish, path))
        is_kept = all(option.club is not None and option.bend_deg == 0 for option in path)
        kind: PlanKind = "kept as it is" if is_kept else "usual" if usual is None else "wider steps"
        slots = self._slots(wish, path)
        return LoftPlan(slots, cost(self.line, wish, path, weights), tuple(notes), kind)

    def _slots(self, wish: PlanWish, path: Path) -> tuple[PlanSlot, ...]:
        return tuple(
            self._slot(wish, number, above, option)
            for number, (above, option) in enumerate(steps_of(path))
        )

    def _loft(self, option: Option | None) -> Decimal:
        return baseline(self.line) if option is None else option.loft_deg

    def _slot(self, wish: PlanWish, number: int, above: Option | None, option: Option) -> PlanSlot:
        there = self._at(option)
        gap = gap_percent(self.line, above, option)
        step = option.loft_deg - self._loft(above)
        between = gap_on_line(
            self.line,
            float(self._loft(above)),
            float(option.loft_deg),
            clubs=(wish.baseline_key if above is None else _key(above), _key(option)),
            mean_m=gap * self.line.baseline_carry_m / 100,
        )
        role = wish.role(number, option.loft_deg)
        return PlanSlot(
            target_loft_deg=option.loft_deg,
            head_id=option.head.head_id if option.head else None,
            club_id=option.club.club_id if option.club else None,
            stamped_loft_deg=option.head.stamped_loft_deg if option.head else None,
            bend_deg=option.bend_deg,
            bounce_after_deg=option.bounce_deg,
            step_deg=step,
            carry_m=there.carry_m,
            carry_low_m=there.low_m,
            carry_high_m=there.high_m,
            gap_m=between.mean_m,
            gap_low_m=between.low_m,
            gap_high_m=between.high_m,
            gap_percent=gap,
            is_extrapolated=there.is_extrapolated,
            role=role,
            is_loft_measured=option.club is not None and option.club.is_loft_measured,
            why=why_words(option, step, gap, wish.slot(number)),
        )

    def _at(self, option: Option) -> Prediction:
        asked = option.loft_deg, _key(option)
        if asked not in self.seen:
            self.seen[asked] = self.line.at(float(option.loft_deg), club=_key(option))
        return self.seen[asked]


def _key(option: Option) -> str:
    """The club's key on the carry line; a new head has none."""
    return option.club.club_id if option.club else ""
