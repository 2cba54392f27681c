"""Heads under random two-digit numbers, in a drawn order that favours none of them.

The numbers of three and more heads never rise in the order the heads were given: a rising row
reads as first, second, third. (Of two, either may be the higher: if the first always were, that
would give the pair away.) The orders of the rounds are rows of a Williams design (keys
``williams-1949``, ``bradley-1958``): over a whole design each head stands in each position, and
straight after each other head, equally often. The same seed gives the same draw. Who may see
what, and when, is decided elsewhere.
"""

import random
from collections.abc import Sequence
from dataclasses import dataclass
from math import factorial

from sessions.maths.errors import OrderRefused

FEWEST_HEADS = 2
MOST_HEADS = 8
# Far more than a comparison takes: the design is checked for what it is.
MOST_TREATMENTS = 100


@dataclass(frozen=True)
class HiddenHead:
    """A head (the caller's id) and the number it goes by until the reveal."""

    head_id: str
    number: int


@dataclass(frozen=True)
class HiddenOrder:
    """A draw: the heads as they were given, numbered, and per round the numbers to hit in turn."""

    heads: tuple[HiddenHead, ...]
    rounds: tuple[tuple[int, ...], ...]

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


def hidden_order(head_ids: Sequence[str], *, seed: int, rounds: int = 1) -> HiddenOrder:
    """Draw numbers for the heads and the order of each round.

    Args:
        head_ids: two to eight different heads, in the order in which the fitter named them.
        seed: decides the draw; keep it with the comparison and away from the player.
        rounds: how often each head is hit; a whole design is n rounds (2n for an odd n).

    Raises:
        OrderRefused: too few or too many heads, one named twice, or no round.
    """
    n = len(head_ids)
    if not FEWEST_HEADS <= n <= MOST_HEADS:
        raise OrderRefused(
            f"A hidden order takes {FEWEST_HEADS} to {MOST_HEADS} heads; {n} were named."
        )
    if len(set(head_ids)) != n:
        raise OrderRefused("A head is named twice: each head stands once in a hidden order.")
    if rounds < 1:
        raise OrderRefused("A hidden order needs at least one round.")
    draw = random.Random(seed)
    numbers = _numbers_out_of_order(n, draw)
    named = draw.sample(range(n), n)
    design = williams_rows(n)
    rows: list[tuple[int, ...]] = []
    while len(rows) < rounds:
        rows.extend(draw.sample(design, len(design)))
    return HiddenOrder(
        heads=tuple(
            HiddenHead(head, number) for head, number in zip(head_ids, numbers, strict=True)
        ),
        rounds=tuple(tuple(numbers[named[place]] for place in row) for row in rows[:rounds]),
    )


def _numbers_out_of_order(n: int, draw: random.Random) -> tuple[int, ...]:
    """Return n different numbers 10 to 99, every order equally likely but, from three, the rising.

    The order is unranked in the factorial number system, where only rank 0 rises: it is left out
    of the draw, so no draw has to be thrown away.
    """
    left = sorted(draw.sample(range(10, 100), n))
    rank = draw.randrange(1 if n > 2 else 0, factorial(n))
    picked = []
    for remaining in range(n, 0, -1):
        place, rank = divmod(rank, factorial(remaining - 1))
        picked.append(left.pop(place))
    return tuple(picked)
