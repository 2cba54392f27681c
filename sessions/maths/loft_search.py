"""Every way to step down from the pitching wedge within the limits, and what each way costs.

The search behind ``loft_plan``: clubs and heads in, paths of lofts out, cheapest first. It is
exhaustive: a few slots in half-degree steps are few enough that nothing has to be approximated.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal
from itertools import pairwise

from sessions.maths.carry_line import CarryLine
from sessions.maths.delivery import Hand

HALF = Decimal("0.5")


@dataclass(frozen=True)
class CandidateHead:
    """A head that could be built: stamped loft, bounce, how far it may be bent each way [deg]."""

    head_id: str
    stamped_loft_deg: Decimal
    bounce_deg: Decimal
    weak_limit_deg: Decimal
    strong_limit_deg: Decimal
    hand: Hand
    is_available: bool = True


@dataclass(frozen=True)
class KeptClub:
    """An owned club at its measured loft and, where it may be bent, how far each way [deg].

    ``must_stay`` puts it into every plan; otherwise it may stand in one.
    """

    club_id: str
    loft_deg: Decimal
    bounce_deg: Decimal | None = None
    weak_limit_deg: Decimal = Decimal(0)
    strong_limit_deg: Decimal = Decimal(0)
    must_stay: bool = True


@dataclass(frozen=True)
class PlanWish:
    """What is asked of a plan; the limits are the shop's settings or the fitter's choice."""

    wedges: int
    hand: Hand
    most_lofted_deg: Decimal | None = None
    step_limits_deg: tuple[Decimal, Decimal] = (Decimal(4), Decimal(6))
    gap_limits_percent: tuple[float, float] = (8.0, 13.0)
    most_lofted_within_deg: Decimal = Decimal(1)
    leave_out: frozenset[str] = frozenset()


@dataclass(frozen=True)
class PlanWeights:
    """What counts against a plan, per unit. A judgement of ours, not of the trade.

    A new head weighs as much as gaps that are uneven by about a degree: what is owned and nearly
    fits is kept.

    Per squared percent of a gap's difference from the middle of the limits, per squared degree
    off the wished most lofted club, per new head, per degree bent.
    """

    per_percent_uneven2: float = 1.0
    per_degree_off_wish2: float = 2.0
    per_new_head: float = 6.0
    per_degree_bent: float = 0.5


@dataclass(frozen=True)
class Option:
    """One way to have a club at one loft: a new head or an owned club, bent or not."""

    loft_deg: Decimal
    head: CandidateHead | None
    club: KeptClub | None

    @property
    def bend_deg(self) -> Decimal:
        """From the stamp of a new head, from the measured loft of an owned club; weak positive."""
        if self.head is not None:
            return self.loft_deg - self.head.stamped_loft_deg
        return self.loft_deg - self.club.loft_deg if self.club else Decimal(0)

    @property
    def order(self) -> tuple[Decimal, str]:
        """The smaller bend first, then the id, so that ties are always settled alike."""
        return abs(self.bend_deg), self.head.head_id if self.head else ""


Path = tuple[Option, ...]


def options(
    wish: PlanWish, heads: Sequence[CandidateHead], owned: Sequence[KeptClub]
) -> list[Option]:
    """Return every way to have a loft with an owned club, and the best with a new head."""
    ways = [
        Option(loft, None, club)
        for club in owned
        for loft in reach(club.loft_deg, club.strong_limit_deg, club.weak_limit_deg)
    ]
    best: dict[Decimal, Option] = {}
    for head in heads:
        if head.hand != wish.hand or not head.is_available or head.head_id in wish.leave_out:
            continue
        stamped = head.stamped_loft_deg
        for loft in reach(stamped, head.strong_limit_deg, head.weak_limit_deg):
            way = Option(loft, head, None)
            if loft not in best or way.order < best[loft].order:
                best[loft] = way
    return [*ways, *best.values()]


def reach(loft_deg: Decimal, strong_deg: Decimal, weak_deg: Decimal) -> Iterator[Decimal]:
    """Yield the lofts a head can have: as it is, and half degrees within its limits."""
    yield loft_deg
    loft = ((loft_deg - strong_deg) / HALF).to_integral_value(ROUND_CEILING) * HALF
    while loft <= loft_deg + weak_deg:
        if loft != loft_deg:
            yield loft
        loft += HALF


def gap_percent(line: CarryLine, above_deg: Decimal, below_deg: Decimal) -> float:
    """Return the gap between two lofts in percent of the pitching wedge's carry."""
    return -100 * line.slope_m_per_deg * float(below_deg - above_deg) / line.baseline_carry_m


def is_within(line: CarryLine, wish: PlanWish, above_deg: Decimal, below_deg: Decimal) -> bool:
    """Say whether step and gap between two lofts lie within the wish's limits, ends included."""
    low, high = wish.step_limits_deg
    least, most = wish.gap_limits_percent
    gap = gap_percent(line, above_deg, below_deg)
    return low <= below_deg - above_deg <= high and least - 1e-9 <= gap <= most + 1e-9


def baseline(line: CarryLine) -> Decimal:
    """Return the pitching wedge's loft as an exact decimal."""
    return Decimal(repr(line.baseline_loft_deg))


def cost(line: CarryLine, wish: PlanWish, path: Path, weights: PlanWeights) -> float:
    """Return what counts against a path: uneven gaps, off the wish, new heads, bends."""
    middle = sum(wish.gap_limits_percent) / 2
    lofts = [baseline(line), *(option.loft_deg for option in path)]
    uneven = sum((gap_percent(line, *pair) - middle) ** 2 for pair in pairwise(lofts))
    off_wish = 0.0 if wish.most_lofted_deg is None else float(lofts[-1] - wish.most_lofted_deg)
    return (
        weights.per_percent_uneven2 * uneven
        + weights.per_degree_off_wish2 * off_wish**2
        + weights.per_new_head * sum(1 for option in path if option.head)
        + weights.per_degree_bent * sum(float(abs(option.bend_deg)) for option in path)
    )


def paths_by_cost(
    line: CarryLine,
    wish: PlanWish,
    heads: Sequence[CandidateHead],
    owned: Sequence[KeptClub],
    weights: PlanWeights,
) -> list[tuple[float, Path]]:
    """Return every path within the limits that holds each club that must stay, cheapest first."""
    must = {club.club_id for club in owned if club.must_stay}
    ways = sorted(options(wish, heads, owned), key=lambda way: way.loft_deg)
    found = [
        (cost(line, wish, path, weights), path)
        for path in _grown(line, wish, ways, ())
        if must <= {option.club.club_id for option in path if option.club}
    ]
    return sorted(found, key=lambda one: (one[0], [option.loft_deg for option in one[1]]))


def _grown(line: CarryLine, wish: PlanWish, ways: Sequence[Option], path: Path) -> Iterator[Path]:
    """Grow a path downwards, one step within the limits at a time; no owned club twice."""
    above = path[-1].loft_deg if path else baseline(line)
    if len(path) == wish.wedges:
        wished = wish.most_lofted_deg
        if wished is None or abs(above - wished) <= wish.most_lofted_within_deg:
            yield path
        return
    for way in ways:
        is_used = way.club is not None and any(way.club == step.club for step in path)
        if not is_used and is_within(line, wish, above, way.loft_deg):
            yield from _grown(line, wish, ways, (*path, way))
