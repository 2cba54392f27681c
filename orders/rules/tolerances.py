"""Readings at the bench against their targets, and the bend to make against the head's limits.

A reading is never better than its gauge: within the gauge's repeatability of the limit, on
either side, it says "measure twice", and the mean of the readings decides. The word blocks
nothing by itself: one reading on the near side of the limit passes. One past the limit is not
out yet: it is neither passed nor accepted, but read once more, and then the mean decides.
Each reading must be a figure of one gauge, all in one unit.
Tolerances are common practice and the shop's to set (`orders.declared`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum

from sessions.maths.bending import bend_to_make, bounce_after
from sessions.maths.errors import NotAFigure
from sessions.rules.facts import HeadLimits, SpecLimits
from sessions.rules.head_bends import allowed_words, judged_bend
from sessions.rules.wording import bend_text, figure


class Verdict(StrEnum):
    """What a reading says. Not measured is a verdict too, so that nothing passes unread."""

    NOT_MEASURED = "not measured"
    IN = "in"
    MEASURE_TWICE = "measure twice"
    OUT = "out"


@dataclass(frozen=True, slots=True)
class ReadingVerdict:
    """A figure judged: the mean of its readings, how far it is off, by how much it is out.

    `off` is mean minus target; `out_by` is what is left past the tolerance, never negative.
    Both are exact; round once, at display.
    """

    verdict: Verdict
    mean: Decimal | None
    off: Decimal | None
    out_by: Decimal
    readings: int

    @property
    def is_in(self) -> bool:
        """True where the figure may be signed as it is.

        One reading near the limit passes where it is not past it: "measure twice" is a word.
        """
        if self.verdict is Verdict.MEASURE_TWICE:
            return self.out_by == 0
        return self.verdict is Verdict.IN

    @property
    def wants_second_reading(self) -> bool:
        """True where one reading is past the limit by less than its gauge can tell."""
        return self.verdict is Verdict.MEASURE_TWICE and not self.is_in

    def sentence(self, unit: str = "", *, in_one: Decimal = Decimal(1), places: int = 2) -> str:
        """What the builder reads: `Out by 0.3 degrees (0.8 over).`

        `in_one`: so many of the readings' units make one that is shown, 25.4 mm an inch.
        """
        if self.off is None:
            return "Not measured."
        suffix = f" {unit}" if unit else ""
        side = "over" if self.off > 0 else "under"

        def shown(value: Decimal) -> str:
            step = Decimal(1).scaleb(-places)
            return f"{figure((value / in_one).quantize(step, ROUND_HALF_UP))}{suffix}"

        off = f"{shown(abs(self.off))} {side}" if self.off != 0 else "on target"
        mean = f"mean of {self.readings} readings, " if self.readings > 1 else ""
        match self.verdict:
            case Verdict.OUT:
                return f"Out by {shown(self.out_by)} ({mean}{off})."
            case Verdict.MEASURE_TWICE:
                return f"Measure twice: {off}, too near the limit for one reading."
            case _:
                if self.off == 0:
                    return f"{off} ({mean.removesuffix(', ')})." if mean else f"{off}."
                return f"In ({mean}{off})."


def reading_verdict(
    readings: Sequence[Decimal], *, target: Decimal, tolerance: Decimal, repeatability: Decimal
) -> ReadingVerdict:
    """Judge the readings of one figure.

    Args:
        readings: in the order read; none yet is an empty sequence.
        target: what was asked for, in the readings' unit.
        tolerance: how far off is still in, the limit itself included.
        repeatability: of the gauge; what two readings of one thing may differ by.

    One reading within the repeatability of the limit, on either side, is "measure twice"; with
    two or more the mean decides, in or out, and nothing more is asked.

    Raises:
        NotAFigure: a figure is no number, or the tolerance or the repeatability is below nought.
    """
    if not all(figure.is_finite() for figure in (*readings, target, tolerance, repeatability)):
        raise NotAFigure("A reading is judged by figures that are numbers.")
    if tolerance < 0 or repeatability < 0:
        raise NotAFigure("A tolerance and a gauge's repeatability are not below 0.")
    if not readings:
        return ReadingVerdict(Verdict.NOT_MEASURED, None, None, Decimal(0), 0)
    mean = sum(readings, Decimal(0)) / len(readings)
    off = mean - target
    past = abs(off) - tolerance
    if len(readings) == 1 and abs(past) < repeatability:
        verdict = Verdict.MEASURE_TWICE
    else:
        verdict = Verdict.IN if past <= 0 else Verdict.OUT
    return ReadingVerdict(verdict, mean, off, max(past, Decimal(0)), len(readings))


@dataclass(frozen=True, slots=True)
class BendToMake:
    """What the bench bends, judged again on what really came.

    None where a target or a reading is missing: nothing is bent then. `refusals` are sentences;
    `bounce_deg` is the bounce to expect after the loft bend.
    """

    loft_deg: Decimal | None
    lie_deg: Decimal | None
    bounce_deg: Decimal | None
    refusals: tuple[str, ...]

    @property
    def is_allowed(self) -> bool:
        """True where both bends are known and within the head's limits."""
        return self.loft_deg is not None and self.lie_deg is not None and not self.refusals

    @property
    def sentence(self) -> str:
        """As the ticket prints it: `Loft 0.5 strong, lie 1 flat`."""
        return f"Loft {_bend_said(self.loft_deg)}, lie {_bend_said(self.lie_deg, is_lie=True)}"


def _bend_said(bend_deg: Decimal | None, *, is_lie: bool = False) -> str:
    if bend_deg is None:
        return "not measured"
    return bend_text(bend_deg, "lie" if is_lie else "loft")


@dataclass(frozen=True, slots=True)
class HeadAsReceived:
    """A bare head's figures [degrees]: as received, its bounce as measured or as stamped.

    `bounce_at_loft_deg` is the loft that the bounce belongs to: as received where it was
    measured, stamped where it was not.
    """

    loft_deg: Decimal | None
    lie_deg: Decimal | None
    bounce_deg: Decimal | None = None
    bounce_at_loft_deg: Decimal | None = None


def judged_bend_to_make(
    *,
    received: HeadAsReceived,
    target_loft_deg: Decimal | None,
    target_lie_deg: Decimal | None,
    head: HeadLimits,
    limits: SpecLimits,
) -> BendToMake:
    """Return target minus as received for loft and lie [degrees], judged against the limits."""
    loft = _difference(target_loft_deg, received.loft_deg)
    lie = _difference(target_lie_deg, received.lie_deg)
    turn = _difference(target_loft_deg, received.bounce_at_loft_deg)
    bounce = (
        bounce_after(received.bounce_deg, turn)
        if received.bounce_deg is not None and turn is not None
        else None
    )
    return BendToMake(loft, lie, bounce, _refusals(loft, lie, bounce, head, limits))


def _difference(target: Decimal | None, received: Decimal | None) -> Decimal | None:
    return None if target is None or received is None else bend_to_make(target, received)


def _refusals(
    loft: Decimal | None,
    lie: Decimal | None,
    bounce: Decimal | None,
    head: HeadLimits,
    limits: SpecLimits,
) -> tuple[str, ...]:
    nothing = Decimal(0)
    judged = judged_bend(
        head, limits, nothing if loft is None else loft, nothing if lie is None else lie
    )
    said: list[str] = []
    if judged.is_too_far:
        limit = judged.judgement.limit_deg
        allowed = allowed_words(head, judged.bend, limit)
        said.append(
            f"{_bend_said(loft)} and {_bend_said(lie, is_lie=True)} is too far: {allowed}."
            if judged.bend.loft_deg != 0 and judged.bend.lie_deg != 0
            else f"{_one_bend_said(judged.bend.loft_deg, judged.bend.lie_deg)} is too far: "
            f"{allowed}."
        )
    if judged.turns_back:
        said.append("This head was bent one way and back already: another turn may crack it.")
    if bounce is not None and bounce < 0:
        said.append(f"Bounce would be {figure(bounce)}: the leading edge would dig.")
    return tuple(said)


def _one_bend_said(loft: Decimal, lie: Decimal) -> str:
    return bend_text(loft) if loft != 0 else bend_text(lie, "lie")
