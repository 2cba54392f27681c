"""Heads under random two-digit numbers, in a drawn order that favours none of them.

The numbers of three and more heads never rise in the order the heads were given: a rising row
reads as first, second, third. (Of two, either may be the higher: if the first always were, that
would give the pair away.) The same seed gives the same draw. Who may see what, and when, is
decided elsewhere.

Two kinds of draw, one comparison each. Both take what was drawn before of the same heads, and use
up what is left before anything comes again:

*All against all*: every head once, in a row of a Williams design (keys ``williams-1949``,
``bradley-1958``), the rows without replacement. Over the whole design, and only then, each head
stands in each position, and straight after each other head, equally often.

*Head to head*: two of the heads meet, the one before the other. Every pair meets once before any
meets again, then the other way round; over all n(n-1) meetings, and only then, each head stands
first and second equally often against each other head.
"""

import random
from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import factorial

from sessions.maths.errors import OrderRefused

FEWEST_HEADS = 2
MOST_HEADS = 8
NUMBERS = range(10, 100)
# Far more than a comparison takes: the design is checked for what it is.
MOST_TREATMENTS = 100


@dataclass(frozen=True)
class HiddenHead:
    """A head (the caller's id) and the number it goes by until the reveal."""

    head_id: str
    number: int


@dataclass(frozen=True)
class HiddenOrder:
    """A draw: the heads that take part, numbered, and the numbers to hit in turn.

    ``heads`` stand as they were given. ``row`` is the place of the drawn order, from 0, among all
    that there are: ``square_orders`` or ``meetings`` of the heads that were given.
    """

    heads: tuple[HiddenHead, ...]
    order: tuple[int, ...]
    row: int

    def head_of(self, number: int) -> str:
        """Return the head behind a number.

        Raises:
            OrderRefused: no head goes by that number.
        """
        for head in self.heads:
            if head.number == number:
                return head.head_id
        raise OrderRefused(f"No head in this comparison goes by {number}.")


def williams_rows(n: int) -> tuple[tuple[int, ...], ...]:
    """Return the rows of a Williams design for ``n`` treatments 0 to n-1.

    The first row is 0, 1, n-1, 2, n-2, ..., the others add 1 modulo n; an odd n takes the same
    rows backwards as well, 2n in all. Each ordered pair stands side by side once (even n) or
    twice (odd n).

    Raises:
        OrderRefused: fewer than two treatments, or more than anybody compares.
    """
    if n < FEWEST_HEADS:
        raise OrderRefused("An order needs at least two heads.")
    if n > MOST_TREATMENTS:
        raise OrderRefused(f"An order of more than {MOST_TREATMENTS} is not drawn up.")
    first = [0]
    for step in range(1, n):
        first.append((step + 1) // 2 if step % 2 else n - step // 2)
    rows = [tuple((place + shift) % n for place in first) for shift in range(n)]
    if n % 2:
        rows += [row[::-1] for row in rows]
    return tuple(rows)


def square_orders(head_ids: Iterable[str]) -> tuple[tuple[str, ...], ...]:
    """Return the orders of an all-against-all: a Williams design, n orders (2n for an odd n).

    Which head stands for which treatment hangs on the ids alone, shuffled by themselves: it is the
    same for every comparison of the same heads, however they are named, so that the orders of
    several comparisons make up one design.

    Raises:
        OrderRefused: too few or too many heads, or one named twice.
    """
    heads = _sorted(head_ids)
    random.Random("|".join(heads)).shuffle(heads)
    return tuple(tuple(heads[place] for place in row) for row in williams_rows(len(heads)))


def meetings(head_ids: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """Return every head-to-head: each pair one way, then each the other way, n(n-1) in all.

    Raises:
        OrderRefused: too few or too many heads, or one named twice.
    """
    pairs = tuple(combinations(_sorted(head_ids), 2))
    return pairs + tuple((second, first) for first, second in pairs)


def all_against_all(
    head_ids: Sequence[str],
    *,
    seed: int,
    used: Iterable[Sequence[str]] = (),
    taken: Collection[int] = (),
) -> HiddenOrder:
    """Draw numbers for all the heads, and one of the orders that were used the least.

    Args:
        head_ids: two to eight different heads, in the order in which the fitter named them.
        seed: decides the draw; keep it with the comparison and away from the player.
        used: the orders of ids drawn before. What is no order of these heads counts for nothing.
        taken: numbers that went to heads before: none of them is given again.

    Raises:
        OrderRefused: too few or too many heads, one named twice, or no numbers left.
    """
    draw = random.Random(seed)
    orders = square_orders(head_ids)
    times = Counter(tuple(order) for order in used)
    least = min(times[order] for order in orders)
    row = draw.choice([row for row, order in enumerate(orders) if times[order] == least])
    return _numbered(head_ids, orders[row], row, draw, taken)


def head_to_head(
    head_ids: Sequence[str],
    *,
    seed: int,
    used: Iterable[Sequence[str]] = (),
    taken: Collection[int] = (),
) -> HiddenOrder:
    """Draw which two of the heads meet, which of them first, and their numbers.

    A pair that met less often goes before one that met more often, and of the two ways round the
    one that was used less.

    Args:
        head_ids: two to eight different heads, in the order in which the fitter named them.
        seed: decides the draw; keep it with the comparison and away from the player.
        used: the meetings drawn before, as ids in their order. Those of other heads count for
            nothing.
        taken: numbers that went to heads before: none of them is given again.

    Raises:
        OrderRefused: too few or too many heads, one named twice, or no numbers left.
    """
    draw = random.Random(seed)
    orders = meetings(head_ids)
    times = Counter(tuple(order) for order in used)

    def worn(meeting: tuple[str, str]) -> tuple[int, int]:
        return times[meeting] + times[meeting[::-1]], times[meeting]

    least = min(map(worn, orders))
    row = draw.choice([row for row, meeting in enumerate(orders) if worn(meeting) == least])
    return _numbered(head_ids, orders[row], row, draw, taken)


@dataclass(frozen=True)
class OrdersUsed:
    """How far a design is filled: ``used`` of ``of`` orders in the pass after ``passes`` full ones.

    Balance holds where ``passes`` is at least 1 and ``used`` is 0, and is claimed nowhere else.
    """

    used: int
    of: int
    passes: int

    @property
    def is_balanced(self) -> bool:
        return self.passes > 0 and self.used == 0


def orders_used(orders: Sequence[Sequence[str]], used: Iterable[Sequence[str]]) -> OrdersUsed:
    """Count how many of the orders of a design were used, and how often all of them.

    Raises:
        OrderRefused: there is no order.
    """
    if not orders:
        raise OrderRefused("A design has at least one order.")
    times = Counter(tuple(order) for order in used)
    counts = [times[tuple(order)] for order in orders]
    passes = min(counts)
    return OrdersUsed(sum(1 for count in counts if count > passes), len(orders), passes)


def _sorted(head_ids: Iterable[str]) -> list[str]:
    """The heads in an order that hangs on nothing but their ids."""
    heads = sorted(head_ids)
    if not FEWEST_HEADS <= len(heads) <= MOST_HEADS:
        raise OrderRefused(
            f"A hidden order takes {FEWEST_HEADS} to {MOST_HEADS} heads; {len(heads)} were named."
        )
    if len(set(heads)) != len(heads):
        raise OrderRefused("A head is named twice: each head stands once in a hidden order.")
    return heads


def _numbered(
    head_ids: Sequence[str],
    order: Sequence[str],
    row: int,
    draw: random.Random,
    taken: Collection[int],
) -> HiddenOrder:
    taking_part = [head for head in head_ids if head in order]
    drawn = _numbers_out_of_order(len(taking_part), draw, taken)
    numbers = dict(zip(taking_part, drawn, strict=True))
    return HiddenOrder(
        heads=tuple(HiddenHead(head, numbers[head]) for head in taking_part),
        order=tuple(numbers[head] for head in order),
        row=row,
    )


def _numbers_out_of_order(n: int, draw: random.Random, taken: Collection[int]) -> tuple[int, ...]:
    """Return n free numbers 10 to 99, every order equally likely but, from three, the rising.

    The order is unranked in the factorial number system, where only rank 0 rises: it is left out
    of the draw, so no draw has to be thrown away.
    """
    free = [number for number in NUMBERS if number not in taken]
    if len(free) < n:
        raise OrderRefused(
            f"Only {len(free)} of the {len(NUMBERS)} neutral numbers are left in this visit."
        )
    left = sorted(draw.sample(free, n))
    rank = draw.randrange(1 if n > 2 else 0, factorial(n))
    picked = []
    for remaining in range(n, 0, -1):
        place, rank = divmod(rank, factorial(remaining - 1))
        picked.append(left.pop(place))
    return tuple(picked)
