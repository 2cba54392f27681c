"""The best plan over a full catalogue against HiGHS, which the search does not use."""

import pytest

from sessions.maths.carry_line import LoftCarry, carry_line
from sessions.maths.errors import PlanImpossible
from sessions.maths.loft_plan import PlanWish, loft_plans
from tests.independent.loft_milp import catalogue, four_slots, model, owned_clubs

LINE = carry_line(44.0, 118.0)
HIT = carry_line(44.6, 71.0, [LoftCarry(44.6, 70.2), LoftCarry(50.0, 62.5), LoftCarry(56.2, 53.0)])
# Own clubs that carry otherwise than the line says.
OWN_HIT = carry_line(
    44.0,
    118.0,
    [
        LoftCarry(50.0, 109.0, "own 0"),
        LoftCarry(50.0, 108.0, "own 0"),
        LoftCarry(55.0, 85.0, "own 1"),
    ],
)


@pytest.mark.independent(library="HiGHS", call="scipy.optimize.milp(costs, mip_rel_gap=0)")
@pytest.mark.parametrize("seed", [1, 2, 3])
@pytest.mark.parametrize(
    ("line", "wish", "has_owned"),
    [
        (LINE, four_slots(), False),
        (LINE, four_slots(), True),
        (LINE, four_slots(most=60), True),
        (HIT, four_slots(), True),
        (OWN_HIT, four_slots(), True),
    ],
    ids=["new heads only", "a club stays", "a wished end", "after shots", "own clubs hit"],
)
def test_the_best_of_three_hundred_heads_and_four_slots(
    line: object, wish: PlanWish, has_owned: bool, seed: int
) -> None:
    heads, owned = catalogue(300, seed), owned_clubs(seed) if has_owned else []
    cheapest = model(line, wish, heads, owned).cheapest()  # type: ignore[arg-type]
    if cheapest is None:
        with pytest.raises(PlanImpossible):
            loft_plans(line, wish, heads, owned)  # type: ignore[arg-type]
    else:
        best = loft_plans(line, wish, heads, owned)[0]  # type: ignore[arg-type]
        # The solver's own feasibility tolerance is 1e-6.
        assert best.cost == pytest.approx(cheapest, abs=1e-5)
