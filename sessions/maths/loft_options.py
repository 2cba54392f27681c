"""Every way to fill a slot of a plan: owned clubs, and of the new heads the cheapest at each loft.

A catalogue is some hundred heads at some lofts each, so they are priced as arrays. The prices
are those of ``loft_wish.option_price``.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

import numpy as np
from numpy.typing import NDArray

from sessions.maths.loft_wish import (
    HALF,
    CandidateHead,
    KeptClub,
    Option,
    PlanWeights,
    PlanWish,
    SlotWish,
    option_price,
)

Floats = NDArray[np.float64]
# Angles are decimals of two places: closer than this they are the same.
SAME_DEG = 1e-9


@dataclass(frozen=True)
class PricedOption:
    """An option in one slot with what it costs there on its own, whatever stands above it."""

    option: Option
    price: float
    loft_deg: float


@dataclass(frozen=True)
class HeadLofts:
    """The heads that may be had, in the order of their ids, at every loft each can be bent to.

    The arrays are one entry per head and loft: which head, the loft, the bend from the stamp and
    the bounce after it [deg].
    """

    heads: tuple[CandidateHead, ...]
    which: NDArray[np.int64]
    loft_deg: Floats
    bend_deg: Floats
    bounce_deg: Floats


def head_lofts(wish: PlanWish, heads: Sequence[CandidateHead]) -> HeadLofts:
    """Spread a catalogue out over the lofts its heads can have: as stamped and in half degrees."""
    free = sorted(
        (
            head
            for head in heads
            if head.hand == wish.hand and head.is_available and head.head_id not in wish.leave_out
        ),
        key=lambda head: head.head_id,
    )
    stamped = np.array([float(head.stamped_loft_deg) for head in free], dtype=float)
    weak = np.array([float(head.weak_limit_deg) for head in free], dtype=float)
    strong = np.array([float(head.strong_limit_deg) for head in free], dtype=float)
    bounce = np.array([float(head.bounce_deg) for head in free], dtype=float)
    first = np.ceil(2 * (stamped - strong - SAME_DEG)).astype(np.int64)
    last = np.floor(2 * (stamped + weak + SAME_DEG)).astype(np.int64)
    counts = np.maximum(last - first + 1, 0)
    which = np.repeat(np.arange(len(free)), counts)
    step = np.arange(len(which)) - np.repeat(np.cumsum(counts) - counts, counts)
    halves = (first[which] + step) / 2
    # A stamp between half degrees is a loft of its own.
    between = np.flatnonzero(np.abs(2 * stamped - np.round(2 * stamped)) > 2 * SAME_DEG)
    which = np.concatenate([which, between])
    loft = np.concatenate([halves, stamped[between]])
    bend = loft - stamped[which]
    return HeadLofts(tuple(free), which, loft, bend, bounce[which] + bend)


def options(
    wish: PlanWish,
    catalogue: HeadLofts,
    owned: Sequence[KeptClub],
    weights: PlanWeights,
    *,
    slot: int,
    within_deg: tuple[float, float],
    baseline_carry_m: float,
) -> list[PricedOption]:
    """Return every way to fill a slot at a loft within a range, the least lofted first.

    Every owned club, and of the new heads the cheapest at each loft: two heads at one loft differ
    in nothing but their price, so that no other one can stand in a best plan.
    """
    asked = wish.slot(slot)
    low, high = within_deg[0] - SAME_DEG, within_deg[1] + SAME_DEG
    found = [
        PricedOption(option, option_price(asked, option, weights, baseline_carry_m), float(loft))
        for club in owned
        for loft in reach(club.loft_deg, club.strong_limit_deg, club.weak_limit_deg)
        if low <= float(loft) <= high
        for option in [Option(loft, None, club)]
    ]
    found += _new_heads(asked, catalogue, weights, low, high, baseline_carry_m)
    return sorted(found, key=lambda one: (one.loft_deg, one.price, one.option.order))


def _new_heads(
    asked: SlotWish,
    catalogue: HeadLofts,
    weights: PlanWeights,
    low: float,
    high: float,
    baseline_carry_m: float,
) -> Iterator[PricedOption]:
    near = np.flatnonzero((catalogue.loft_deg >= low) & (catalogue.loft_deg <= high))
    which, loft = catalogue.which[near], catalogue.loft_deg[near]
    bend = np.abs(catalogue.bend_deg[near])
    price = weights.per_new_head + weights.per_degree_bent * bend
    worth = weights.per_percent_uneven2 * (100 * weights.bend_worth_m / baseline_carry_m) ** 2
    price = price + np.where(bend > SAME_DEG, worth, 0.0)
    if asked.bounce_deg is not None:
        least, most = (float(edge) for edge in asked.bounce_deg)
        bounce = catalogue.bounce_deg[near]
        off = np.maximum(np.maximum(least - bounce, bounce - most), 0.0)
        price = price + weights.per_degree_bounce_off2 * off**2
    if asked.traits:
        missing = [len(asked.traits - head.traits) for head in catalogue.heads]
        price = price + weights.per_trait_missing * np.array(missing, dtype=float)[which]
    # At each loft the cheapest, then the smaller bend, then the first id.
    order = np.lexsort((which, bend, np.round(price, 9), loft))
    is_first = np.ones(len(order), dtype=bool)
    is_first[1:] = np.diff(loft[order]) > SAME_DEG
    for index in order[is_first]:
        head, loft_deg = catalogue.heads[which[index]], float(loft[index])
        is_as_stamped = bend[index] <= SAME_DEG
        exact = head.stamped_loft_deg if is_as_stamped else HALF * round(2 * loft_deg)
        yield PricedOption(Option(exact, head, None), float(price[index]), loft_deg)


def reach(loft_deg: Decimal, strong_deg: Decimal, weak_deg: Decimal) -> Iterator[Decimal]:
    """Yield the lofts a club can have: as it is, and half degrees within its limits."""
    yield loft_deg
    first = math.ceil((loft_deg - strong_deg) / HALF)
    last = math.floor((loft_deg + weak_deg) / HALF)
    for halves in range(first, last + 1):
        if HALF * halves != loft_deg:
            yield HALF * halves
