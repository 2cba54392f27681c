"""Differences from zero with their intervals, and the band that is too small to use."""

from dataclasses import dataclass

from fitshop.charts.pen import LETTER, Pen, scale, shortened
from fitshop.charts.words import ChartTable, between, chart_table, figure, finite, said, signed


@dataclass(frozen=True)
class Reach:
    """A value with its interval."""

    label: str
    value: float | None
    low: float | None = None
    high: float | None = None
    here: bool = False
    note: str = ""


@dataclass(frozen=True)
class Intervals:
    """Differences from zero with intervals; ``margin`` is the half width of "too small to use"."""

    title: str
    unit: str
    reaches: tuple[Reach, ...]
    margin: float | None = None
    decimals: int = 0


def intervals(chart: Intervals, *, paper: bool = False, width: int = 288) -> str:
    """Differences from zero: a dot, its interval, and the band that is too small to use."""
    pen = Pen(paper)
    values = finite(v for r in chart.reaches for v in (r.value, r.low, r.high))
    if not values:
        return pen.nothing(chart.title, width)
    margins = [] if chart.margin is None else [-chart.margin, chart.margin]
    edges = [*values, *margins, 0.0]
    at = scale(min(edges), max(edges), 12, width - 12)
    height = len(chart.reaches) * 58.0
    pen.line("zero", at(0), height, at(0), height + 6)
    for index, reach in enumerate(chart.reaches):
        y = 20.0 + index * 58
        if margins:  # under the label, which is read across it
            pen.rect("band", at(margins[0]), y + 8, at(margins[1]) - at(margins[0]), 24)
        pen.line("zero", at(0), y + 9, at(0), y + 31)
        shown = signed(reach.value, chart.decimals)
        room = width - len(shown) * LETTER - 12
        pen.text("strong" if reach.here else "text", 0, y, shortened(reach.label, room))
        pen.text("soft" if reach.value is None else "strong", width, y, shown, "end")
        if reach.low is not None and reach.high is not None:
            look = "span here" if reach.here else "span"
            pen.line(look, at(reach.low), y + 20, at(reach.high), y + 20)
        if reach.value is not None:
            pen.circle("dot here" if reach.here else "dot", at(reach.value), y + 20, 6.5)
    for end, anchor in ((min(edges), "start"), (0.0, "middle"), (max(edges), "end")):
        if end == 0 or abs(at(end) - at(0)) > 30:
            pen.text("soft", at(end), height + 24, signed(end, chart.decimals), anchor)
    return pen.svg(chart.title, said(intervals_table(chart)), width, height + 32)


def intervals_table(chart: Intervals) -> ChartTable:
    """Label, difference, interval, note; the margin stands in the caption."""
    rows = [
        (r.label, signed(r.value, chart.decimals),
         between(r.low, r.high, chart.decimals, with_sign=True), r.note)
        for r in chart.reaches
    ]  # fmt: skip
    margin = "" if chart.margin is None else figure(chart.margin, chart.decimals)
    caption = chart.title + (f" (too small to use: up to {margin} {chart.unit})" if margin else "")
    return chart_table(caption, ("", f"Difference ({chart.unit})", "Likely between", "Note"), rows)
