"""Clubs of a set judged together: two clubs, each within its own tolerance, can leave a wrong step.

A 52 that came out half a degree weak beside a 56 half a degree strong leaves 3 degrees where 4
were planned. Judged are lofts, since their step is the gap in distance that was bought, and
lengths, since the set is laid side by side and an eighth of an inch is seen there. A lie or a
swing weight is felt in one club at a time: its own tolerance holds it, and no step is judged.
Common practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise

LOFT_STEP, LENGTH_STEP = "bench.loft_step", "bench.length_step"


@dataclass(frozen=True, slots=True)
class Neighbour:
    """One club's figure [degrees or mm] as planned and as it stands, or as it will from here.

    `now` is None where nobody measured it: nothing is said of its steps. `doubt` is what a single
    reading of it may be off by, its gauge's repeatability; 0 for a mean or a foreseen figure.
    """

    slot: int
    planned: Decimal
    now: Decimal | None
    is_foreseen: bool = False
    doubt: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True)
class StepJudged:
    """The step between two neighbours, next figure less this one, against the planned one."""

    rule: str
    slots: tuple[int, int]
    planned: Decimal
    came: Decimal
    tolerance: Decimal
    is_foreseen: bool
    doubt: Decimal

    @property
    def off(self) -> Decimal:
        return self.came - self.planned

    @property
    def is_out(self) -> bool:
        return abs(self.off) > self.tolerance

    @property
    def wants_second_reading(self) -> bool:
        """Past the limit by less than a single reading may be off: both are read once more."""
        return self.is_out and abs(self.off) - self.tolerance < self.doubt


def steps_judged(
    rule: str, in_order: Sequence[Neighbour], *, tolerance: Decimal
) -> tuple[StepJudged, ...]:
    """Return every step between neighbours that can be judged, in order.

    `in_order`: the clubs of the set by planned loft. A club that nobody measured has no step on
    either side: its neighbours are not each other's.
    """
    return tuple(
        StepJudged(
            rule=rule,
            slots=(above.slot, below.slot),
            planned=below.planned - above.planned,
            came=below.now - above.now,
            tolerance=tolerance,
            is_foreseen=above.is_foreseen or below.is_foreseen,
            doubt=max(above.doubt, below.doubt),
        )
        for above, below in pairwise(in_order)
        if above.now is not None and below.now is not None
    )


def still_accepted(*, planned: Decimal, accepted: Decimal, came: Decimal) -> bool:
    """True where a step is no further from its plan, on the same side, than what was accepted.

    >>> [still_accepted(planned=Decimal(4), accepted=Decimal(3), came=Decimal(x))
    ...  for x in ("3", "3.1", "2.9", "5")]
    [True, True, False, False]
    """
    return min(planned, accepted) <= came <= max(planned, accepted)
