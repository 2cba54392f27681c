"""The bench's steps in their order, and which of them one club needs.

Common practice. The shop's own order may differ in the first bends; what must come before what
(measured before bent, glued before gripped, cured before the last bends) does not.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

# The stored words of orders.models.bench.Step, in the bench's order.
IN_ORDER = (
    "picked",
    "bare_head",
    "stamped",
    "bent_bare",
    "hosel",
    "tip",
    "butt_cut",
    "dry_weight",
    "epoxy",
    "cured",
    "bent_built",
    "gripped",
    "measured",
    "cleaned",
)
# Bending, final readings and hand-over wait for the epoxy.
AFTER_THE_CURE = frozenset({"cured", "bent_built", "measured"})
ONLY_WHEN_GLUED = frozenset({"hosel", "tip", "butt_cut", "dry_weight", "epoxy", "cured"})


@dataclass(frozen=True, slots=True)
class Work:
    """What one club asks of the bench."""

    is_glued: bool
    is_gripped: bool
    is_stamped: bool

    @property
    def steps(self) -> tuple[str, ...]:
        """The steps this club needs, in order.

        An own club that is only bent is picked, measured, bent, measured again and cleaned.
        """
        left_out: set[str] = set()
        if not self.is_glued:
            # Bent as it is, shaft and all: that is the bend of a built club.
            left_out |= ONLY_WHEN_GLUED | {"bent_bare"}
        if not self.is_gripped:
            left_out.add("gripped")
        if not self.is_stamped:
            left_out.add("stamped")
        return tuple(step for step in IN_ORDER if step not in left_out)

    def missing_before(self, step: str, done: Collection[str]) -> tuple[str, ...]:
        """The steps that come before `step` and are not done yet, in order.

        Raises ValueError for a step this club doesn't need.
        """
        steps = self.steps
        return tuple(each for each in steps[: steps.index(step)] if each not in done)

    def next_step(self, done: Collection[str]) -> str | None:
        """The first step that is not done, or None where all are."""
        return next((step for step in self.steps if step not in done), None)
