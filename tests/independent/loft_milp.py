"""A loft plan as a mixed-integer programme for HiGHS, and catalogues to try it on.

Written from what a plan is asked for, apart from the search in `sessions.maths`: a binary for
every head and owned club at every loft it can have in every slot, and a flow through the lofts
whose arcs carry the cost of the gaps. Arcs outside the limits are left out beforehand, so the
solver is given as little as there is.
"""

import random
from dataclasses import dataclass
from decimal import Decimal as D

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from sessions.maths.carry_line import CarryLine
from sessions.maths.loft_plan import CandidateHead, KeptClub, PlanWish, SlotWish

TRAITS = ("wide sole", "softened leading edge", "heel and trailing-edge relief")


def catalogue(count: int, seed: int) -> list[CandidateHead]:
    """Invented heads of 44 to 64 degrees, bent not at all to three degrees each way."""
    draw = random.Random(seed)
    return [
        CandidateHead(
            f"head {number:03}",
            D(draw.randint(88, 128)) / 2,
            D(draw.randint(8, 28)) / 2,
            D(limit := draw.choice([0, 1, 2, 2, 3])),
            D(limit),
            "right",
            traits=frozenset(trait for trait in TRAITS if draw.random() < 0.4),
        )
        for number in range(count)
    ]


def owned_clubs(seed: int) -> list[KeptClub]:
    """Three wedges as measured; one must stay, all may be bent a degree."""
    draw = random.Random(seed)
    return [
        KeptClub(f"own {number}", D(draw.randint(500, 600)) / 10, None, D(1), D(1), number == 0)
        for number in range(3)
    ]


def four_slots(most: int | None = None) -> PlanWish:
    """Four wedges with a role, a bounce and a sole wanted of each."""
    return PlanWish(
        wedges=4,
        hand="right",
        most_lofted_deg=None if most is None else D(most),
        slots=(
            SlotWish("full_shot", (D(7), D(10))),
            SlotWish("full_shot", (D(7), D(10)), frozenset({"softened leading edge"})),
            SlotWish("touch", (D(11), D(25)), frozenset({"wide sole"})),
            SlotWish("touch", (D(4), D(6)), frozenset({"heel and trailing-edge relief"})),
        ),
    )


@dataclass(frozen=True)
class Model:
    """A built programme: ready to be handed to HiGHS."""

    costs: np.ndarray
    constraint: LinearConstraint
    integrality: np.ndarray

    def cheapest(self) -> float | None:
        """The least cost of any plan, by branch and bound to no gap; None where none fits."""
        found = milp(
            self.costs,
            constraints=self.constraint,
            integrality=self.integrality,
            bounds=Bounds(0, 1),
            options={"mip_rel_gap": 0.0},
        )
        return float(found.fun) if found.success else None


def model(
    line: CarryLine, wish: PlanWish, heads: list[CandidateHead], owned: list[KeptClub]
) -> Model:
    """Build the programme. Weights as `PlanWeights` states them, written out once more."""
    low, high = (float(limit) for limit in wish.step_limits_deg)
    least, most = wish.gap_limits_percent
    aim = (least + most) / 2
    # A place in the flow is a loft and, where an own club was hit, that club: it carries its own.
    start = (line.baseline_loft_deg, "")
    carries = {start: line.baseline_carry_m}

    def gap(above: tuple[float, str], below: tuple[float, str]) -> float:
        if below not in carries:
            carries[below] = line.at(below[0], club=below[1]).carry_m
        return 100 * (carries[above] - carries[below]) / line.baseline_carry_m

    costs: list[float] = []
    whole: list[int] = []
    rows: list[dict[int, float]] = []
    sides: list[tuple[float, float]] = []

    def variable(cost: float, is_whole: bool) -> int:
        costs.append(cost)
        whole.append(int(is_whole))
        return len(costs) - 1

    uses: dict[str, list[int]] = {club.club_id: [] for club in owned}
    inflow_before: dict[tuple[float, str], list[int]] = {start: []}
    for slot in range(wish.wedges):
        asked = wish.slots[slot]
        at_loft: dict[tuple[float, str], list[int]] = {}
        for source in [*heads, *owned]:
            is_new = isinstance(source, CandidateHead)
            stamp = float(source.stamped_loft_deg if is_new else source.loft_deg)
            lofts = {stamp} | {
                halves / 2
                for halves in range(80, 150)
                if -float(source.strong_limit_deg) - 1e-9
                <= halves / 2 - stamp
                <= float(source.weak_limit_deg) + 1e-9
            }
            for loft in lofts:
                depth = loft - line.baseline_loft_deg
                if not (slot + 1) * low - 1e-9 <= depth <= (slot + 1) * high + 1e-9:
                    continue
                bend = loft - stamp
                cost = 0.5 * abs(bend) + ((140 / line.baseline_carry_m) ** 2 if bend else 0.0)
                if not is_new and source.must_stay and bend:
                    cost += 12
                if is_new:
                    bounce = float(source.bounce_deg) + bend
                    first, last = (float(edge) for edge in asked.bounce_deg or (-99, 99))
                    cost += 6 + 0.5 * max(first - bounce, bounce - last, 0.0) ** 2
                    cost += 2 * len(asked.traits - source.traits)
                index = variable(cost, is_whole=True)
                hit = "" if is_new or source.club_id not in line.clubs else source.club_id
                at_loft.setdefault((loft, hit), []).append(index)
                if not is_new:
                    uses[source.club_id].append(index)
        is_last = slot == wish.wedges - 1
        inflow: dict[tuple[float, str], list[int]] = {loft: [] for loft in at_loft}
        outflow: dict[tuple[float, str], list[int]] = {loft: [] for loft in inflow_before}
        share = 0.5 if asked.role == "touch" else 1.0
        for above in inflow_before:
            for below in at_loft:
                there = gap(above, below)
                if not low - 1e-9 <= below[0] - above[0] <= high + 1e-9:
                    continue
                if not least - 1e-9 <= there <= most + 1e-9:
                    continue
                end = 0.0
                if is_last and wish.most_lofted_deg is not None:
                    off = below[0] - float(wish.most_lofted_deg)
                    if abs(off) > float(wish.most_lofted_within_deg):
                        continue
                    end = 2 * off**2
                arc = variable(share * (there - aim) ** 2 + end, is_whole=False)
                inflow[below].append(arc)
                outflow[above].append(arc)
        for loft, arcs in outflow.items():
            into = inflow_before[loft]
            rows.append(dict.fromkeys(arcs, 1.0) | dict.fromkeys(into, -1.0))
            sides.append((1.0, 1.0) if slot == 0 else (0.0, 0.0))
        for loft, arcs in inflow.items():
            rows.append(dict.fromkeys(at_loft[loft], 1.0) | dict.fromkeys(arcs, -1.0))
            sides.append((0.0, 0.0))
        inflow_before = inflow
    for club in owned:
        rows.append(dict.fromkeys(uses[club.club_id], 1.0))
        sides.append((1.0 if club.must_stay else 0.0, 1.0))
    matrix = csr_array(
        (
            [value for row in rows for value in row.values()],
            (
                [number for number, row in enumerate(rows) for _ in row],
                [index for row in rows for index in row],
            ),
        ),
        shape=(len(rows), len(costs)),
    )
    lower, upper = zip(*sides, strict=True)
    return Model(np.array(costs), LinearConstraint(matrix, lower, upper), np.array(whole))
