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

_PITCH, _PITCH_WITH_NOTES = 46, 66  # from rung to rung, px
_BESIDE, _BESIDE_WITH_NOTES = 26, 44  # from a rung to one that stands beside it, px
_FIGURES = 76  # the column for "gap 13" and the values, px


@dataclass(frozen=True)
class Rung:
    """One club's line on a ladder. ``note`` is shown below the label, for instance "5 balls".

    ``beside``: a rival of the rung before it for the same place. It stands close below, and no gap
    is measured to it or from it.
    """

    label: str
    value: float | None
    low: float | None = None
    high: float | None = None
    here: bool = False
    planned: bool = False
    note: str = ""
    beside: bool = False


@dataclass(frozen=True)
class Ladder:
    """Rungs from long to short, in the order given; gaps are between neighbours with a value,
    rivals of one place left out."""

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
    has_notes = any(r.note for r in chart.rungs)
    pitch = _PITCH_WITH_NOTES if has_notes else _PITCH
    beside = _BESIDE_WITH_NOTES if has_notes else _BESIDE
    above: Rung | None = None
    y = 16.0 - pitch
    for index, rung in enumerate(chart.rungs):
        is_beside = rung.beside and index > 0
        y += beside if is_beside else pitch
        pen.line("axis", left, y - (14 if not is_beside else beside - 14), left, y + 14)
        weight = "strong" if rung.here else "soft" if rung.planned else "text"
        pen.text(weight, left - 10, y + 6, shortened(rung.label, left - 10), "end")
        pen.text("soft" if rung.planned or rung.value is None else "strong",
                 width, y + 6, shown[id(rung)], "end")  # fmt: skip
        if rung.note:
            pen.text("soft", 0, y + 25, shortened(rung.note, width * 1.15))
        if rung.value is None:
            continue
        if above is not None and above.value is not None and not is_beside:
            pen.bracket("gap", at(above.value), at(rung.value), y - 22)
            gap = figure(above.value - rung.value, chart.decimals)
            pen.text("soft", width, y - 16, f"gap {gap}", "end")
        _mark(pen, rung, rung.value, at, y)
        above = above if is_beside else rung
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
        is_beside = rung.beside and index > 0
        below = (r.value for r in chart.rungs[index + 1 :] if not r.beside)
        after = next((value for value in below if value is not None), None)
        gap = None if after is None or rung.value is None or is_beside else rung.value - after
        rows.append((
            rung.label
            + (" (planned)" if rung.planned else "")
            + (" (instead)" if is_beside else ""),
            figure(rung.value, chart.decimals),
            between(rung.low, rung.high, chart.decimals),
            "" if gap is None else figure(gap, chart.decimals),
            rung.note,
        ))  # fmt: skip
    head = ("", f"Value ({chart.unit})", "Likely between", "Gap to next", "Note")
    return chart_table(chart.title, head, rows)
