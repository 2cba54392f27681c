"""Two ways to the same result, timed turn by turn in one run: the ratio is what counts.

Absolute times are this machine's today; a ratio of medians of seven, taken alternately after a
warm-up, survives a busy machine. The clock is the process's own processor time, so that waiting
for a neighbour counts for neither; give `time.perf_counter` where waiting is part of the work.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

Result = TypeVar("Result")

TURNS = 7


@dataclass(frozen=True)
class Timed:
    """Seconds of each turn of ours and of the baseline, taken alternately."""

    ours_s: tuple[float, ...]
    baseline_s: tuple[float, ...]

    @property
    def our_median_s(self) -> float:
        return statistics.median(self.ours_s)

    @property
    def baseline_median_s(self) -> float:
        return statistics.median(self.baseline_s)

    @property
    def ratio(self) -> float:
        """How many times as fast ours is."""
        return self.baseline_median_s / self.our_median_s


def race(
    *,
    ours: Callable[[], Result],
    baseline: Callable[[], Result],
    is_same: Callable[[Result, Result], bool],
    turns: int = TURNS,
    clock: Callable[[], float] = time.process_time,
) -> Timed:
    """Time both after a warm-up of each, whose results must be the same by `is_same`."""
    assert is_same(ours(), baseline()), "the baseline comes to another result"
    our_turns, baseline_turns = [], []
    for _ in range(turns):
        our_turns.append(_seconds(ours, clock))
        baseline_turns.append(_seconds(baseline, clock))
    return Timed(tuple(our_turns), tuple(baseline_turns))


def _seconds(work: Callable[[], object], clock: Callable[[], float]) -> float:
    began = clock()
    work()
    return clock() - began
