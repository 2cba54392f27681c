"""Rungs on one scale with their intervals, and the gaps between them."""

from collections.abc import Callable
from dataclasses import dataclass

from fitshop.charts.pen import LETTER, Pen, scale, shortened
from fitshop.charts.words import (
    ChartTable,
    between,
    chart_table,
    figure,
    finite,
    said,
)

_PITCH, _PITCH_WITH_NOTES = 46, 72  # from rung to rung, px
_FIGURES = 76  # the column for "gap 13" and the values, px


@dataclass(frozen=True)
class Rung:
    """One club's line on a ladder. ``note`` is shown below the label, for instance "5 balls"."""

    label: str
    value: float | None
    low: float | None = None
    high: float | None = None
    here: bool = False
    planned: bool = False
    note: str = ""


@dataclass(frozen=True)
class Ladder:
    """Rungs from long to short, in the order given; gaps are between neighbours with a value."""

    title: str
    unit: str
    rungs: tuple[Rung, ...]
    decimals: int = 0


def ladder(chart: Ladder, *, paper: bool = False, width: int = 288) -> str:
    """A line per rung with its interval, and the gap to the next one drawn between them."""
    pen = Pen(paper)
    values = finite(v for r in chart.rungs for v in (r.value, r.low, r.high))
    if not values:
        return pen.nothing(chart.title, width)
    shown = {id(r): figure(r.value, chart.decimals) for r in chart.rungs}
    left = min(width * 0.4, max(len(r.label) for r in chart.rungs) * LETTER + 14)
    at = scale(min(values), max(values), left + 12, width - _FIGURES)
    pitch = _PITCH_WITH_NOTES if any(r.note for r in chart.rungs) else _PITCH
    above: Rung | None = None
    y = 0.0
    for index, rung in enumerate(chart.rungs):
        y = 16.0 + index * pitch
        pen.line("axis", left, y - 14, left, y + 14)
        weight = "strong" if rung.here else "soft" if rung.planned else "text"
        pen.text(weight, left - 10, y + 6, shortened(rung.label, left - 10), "end")
        pen.text("soft" if rung.planned or rung.value is None else "strong",
                 width, y + 6, shown[id(rung)], "end")  # fmt: skip
        if rung.note:
            pen.text("soft", 0, y + 27, rung.note)
        if rung.value is None:
            continue
        if above is not None and above.value is not None:
            pen.bracket("gap", at(above.value), at(rung.value), y - 23)
            gap = figure(above.value - rung.value, chart.decimals)
            pen.text("soft", width, y - 17, f"gap {gap}", "end")
        _mark(pen, rung, rung.value, at, y)
        above = rung
    return pen.svg(
        chart.title, said(ladder_table(chart)), width, y + (36 if chart.rungs[-1].note else 18)
    )


def _mark(pen: Pen, rung: Rung, value: float, at: Callable[[float], float], y: float) -> None:
    look = "planned" if rung.planned else "here" if rung.here else ""
    if rung.low is not None and rung.high is not None:
        pen.line(f"span {look}".strip(), at(rung.low), y, at(rung.high), y)
    pen.circle(f"dot {look}".strip(), at(value), y, 6.5)


def ladder_table(chart: Ladder) -> ChartTable:
    """Label, value, interval, gap to the next measured rung, note."""
    rows = []
    for index, rung in enumerate(chart.rungs):
        after = next((r.value for r in chart.rungs[index + 1 :] if r.value is not None), None)
        gap = None if after is None or rung.value is None else rung.value - after
        rows.append((
            rung.label + (" (planned)" if rung.planned else ""),
            figure(rung.value, chart.decimals),
            between(rung.low, rung.high, chart.decimals),
            "" if gap is None else figure(gap, chart.decimals),
            rung.note,
        ))  # fmt: skip
    head = ("", f"Value ({chart.unit})", "Likely between", "Gap to next", "Note")
    return chart_table(chart.title, head, rows)
