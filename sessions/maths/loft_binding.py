"""Why no loft plan fits: which limit, if it were lifted, would let one through."""

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from itertools import combinations

from sessions.maths.carry_line import CarryLine
from sessions.maths.loft_search import baseline, best_paths
from sessions.maths.loft_wish import HALF, CandidateHead, KeptClub, PlanWeights, PlanWish
from sessions.maths.shown import show_degrees

MOST_WEDGES = 4
# Limits that let through whatever steps down the bag at all.
ANY_STEP_DEG = HALF, Decimal(25)
ANY_GAP_PERCENT = 0.0, 100.0


def what_binds(
    line: CarryLine, wish: PlanWish, heads: Sequence[CandidateHead], owned: Sequence[KeptClub]
) -> str:
    """Say which limit, if it were lifted, would let a plan through; else which two together."""
    low, high = wish.step_limits_deg
    least, most = wish.gap_limits_percent
    names = {
        "heads": "the heads that can be had, bent within their limits",
        "steps": f"steps of {show_degrees(low)} to {show_degrees(high)} degrees",
        "gaps": f"gaps of {least:g} to {most:g} % of the pitching wedge's carry",
        "kept": "the clubs that are to stay",
    }
    if wish.most_lofted_deg is not None:
        wished = f"the wish for {show_degrees(wish.most_lofted_deg)} degrees at the end"
        names = {"end": wished, **names}

    def helps(lifted: Sequence[str]) -> bool:
        freer = wish
        if "end" in lifted:
            freer = replace(freer, most_lofted_deg=None)
        if "steps" in lifted:
            freer = replace(freer, step_limits_deg=ANY_STEP_DEG)
        if "gaps" in lifted:
            freer = replace(freer, gap_limits_percent=ANY_GAP_PERCENT)
        with_heads = _any_head(line, wish) if "heads" in lifted else heads
        clubs = [replace(club, must_stay=False) for club in owned] if "kept" in lifted else owned
        return bool(best_paths(line, freer, with_heads, clubs, PlanWeights(), most=1))

    beginning = f"No plan fits: {wedge_words(wish.wedges)} asked for with {limit_words(wish)}."
    single = [name for key, name in names.items() if helps([key])]
    if single:
        return f"{beginning} In the way: {', or '.join(single)}."
    pairs = [
        f"{names[one]} together with {names[other]}"
        for one, other in combinations(names, 2)
        if helps([one, other])
    ]
    if pairs:
        return f"{beginning} In the way: {', or '.join(pairs)}."
    return f"{beginning} More than two limits stand in the way."


def _any_head(line: CarryLine, wish: PlanWish) -> list[CandidateHead]:
    """Return a made-up head at each half degree below the pitching wedge."""
    start = (baseline(line) / HALF).to_integral_value() * HALF
    lofts = [start + HALF * step for step in range(1, 2 * 6 * MOST_WEDGES + 2)]
    none = Decimal(0)
    return [CandidateHead(f"any {loft}", loft, none, none, none, wish.hand) for loft in lofts]


def limit_words(wish: PlanWish) -> str:
    """The wish's limits as a sentence says them."""
    low, high = wish.step_limits_deg
    least, most = wish.gap_limits_percent
    return f"{show_degrees(low)} to {show_degrees(high)} degrees and {least:g} to {most:g} %"


def wedge_words(count: int) -> str:
    """So many wedges, as the beginning of a sentence in the past."""
    return "1 wedge was" if count == 1 else f"{count} wedges were"
