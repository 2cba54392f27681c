"""The bench's steps in their order, and which of them one club doesn't need, and why.

Common practice. The shop's own order may differ in the first bends; what must come before what
(measured before bent, glued before gripped, cured before the last bends) does not.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Literal

from sessions.rules.wording import figure

# The stored words of orders.models.bench.Step, in the bench's order.
IN_ORDER = (
    "picked",
    "bare_head",
    "stamped",
    "bent_bare",
    "read_bent",
    "hosel",
    "tip_trim",
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
ONLY_WHEN_GLUED = frozenset(
    {"hosel", "tip_trim", "tip", "butt_cut", "dry_weight", "epoxy", "cured"}
)
# What a club that a check sent back is asked for again, whatever else was mended.
AGAIN_AFTER_REWORK = frozenset({"measured", "cleaned"})

Tip = Literal["taper", "parallel", ""]


@dataclass(frozen=True, slots=True)
class Work:
    """What one club asks of the bench.

    The bends [degrees] are what is left to bend; None until loft or lie is read, and then no
    bend is left out yet. `bare_bend_deg`: what is over it is bent on the bare head.
    `is_built`: it is bent as it stands, since it comes back from its check or is glued already.
    `bent`: the bends that were made on this head, which stay steps of it.
    """

    is_glued: bool
    is_gripped: bool
    is_stamped: bool
    tip: Tip = ""
    tip_trim_mm: Decimal = Decimal(0)
    loft_bend_deg: Decimal | None = None
    lie_bend_deg: Decimal | None = None
    bare_bend_deg: Decimal = Decimal(1)
    is_built: bool = False
    bent: frozenset[str] = frozenset()

    @property
    def steps(self) -> tuple[str, ...]:
        """The steps this club needs, in order."""
        left_out = self.not_needed
        return tuple(step for step in IN_ORDER if step not in left_out)

    @property
    def not_needed(self) -> Mapping[str, str]:
        """The steps that nobody is asked for, in order, each with its reason.

        An own club that is only bent is picked, measured, bent, measured again and cleaned.
        """
        reasons: dict[str, str] = {}
        if not self.is_stamped:
            reasons["stamped"] = "no stamping is ordered"
        if not self.is_glued:
            reasons |= dict.fromkeys(ONLY_WHEN_GLUED, "the shaft stays in")
        elif reason := self._why_no_tip_trim():
            reasons["tip_trim"] = reason
        reasons |= self._needless_bends()
        if not self.is_gripped:
            reasons["gripped"] = "the grip stays on"
        return {step: reasons[step] for step in IN_ORDER if step in reasons}

    def _why_no_tip_trim(self) -> str:
        if self.tip == "taper":
            return "a taper tip is never trimmed"
        return "no tip trim is ordered" if self.tip_trim_mm == 0 else ""

    def _needless_bends(self) -> dict[str, str]:
        reasons = {
            step: why for step, why in self._bends_not_asked().items() if step not in self.bent
        }
        if "bent_bare" in reasons:
            reasons["read_bent"] = "the bare head is not bent"
        elif self.is_built:
            reasons["read_bent"] = "it is read as built"
        return reasons

    def _bends_not_asked(self) -> dict[str, str]:
        bends = (self.loft_bend_deg, self.lie_bend_deg)
        known = [abs(bend) for bend in bends if bend is not None]
        if len(known) == len(bends) and not any(known):
            came_right = (
                "what is left is within what is allowed"
                if self.is_built or self.bent
                else "it came as it is wanted: nothing to bend"
            )
            return {"bent_bare": came_right, "bent_built": came_right}
        if not self.is_glued or self.is_built:
            # Bent as it is, shaft and all: that is the bend of a built club.
            return {"bent_bare": "it is bent with its shaft in"}
        if len(known) == len(bends) and max(known) <= self.bare_bend_deg:
            least = figure(self.bare_bend_deg)
            return {"bent_bare": f"nothing over {least} degree to bend: bent after the cure"}
        return {}

    def missing_before(self, step: str, done: Collection[str]) -> tuple[str, ...]:
        """The steps that come before `step` and are not done yet, in order.

        Raises ValueError for a step this club doesn't need.
        """
        steps = self.steps
        return tuple(each for each in steps[: steps.index(step)] if each not in done)

    def next_step(self, done: Collection[str]) -> str | None:
        """The first step that is not done, or None where all are."""
        return next((step for step in self.steps if step not in done), None)


def standing(done: Mapping[str, datetime], reworked_at: datetime | None) -> frozenset[str]:
    """The steps that still count, of those done and when.

    Glued anew, the old cure counts no more; after a rework or another bend, nor does the old
    measuring.
    """
    gone = {
        step
        for step in AGAIN_AFTER_REWORK & done.keys()
        if reworked_at is not None and done[step] <= reworked_at
    }
    if "epoxy" in done and "cured" in done and done["cured"] < done["epoxy"]:
        gone |= {"cured", *AGAIN_AFTER_REWORK}
    if "bent_built" in done:
        again = AGAIN_AFTER_REWORK & done.keys()
        gone |= {step for step in again if done[step] < done["bent_built"]}
    return frozenset(done.keys() - gone)
