"""Amounts from zero up."""

from dataclasses import dataclass

from fitshop.charts.pen import LETTER, Pen, shortened
from fitshop.charts.words import ChartTable, chart_table, figure, finite, said


@dataclass(frozen=True)
class Bar:
    label: str
    value: float | None
    here: bool = False


@dataclass(frozen=True)
class Bars:
    """Amounts from zero up. Raises ValueError when drawn with an amount below zero."""

    title: str
    unit: str
    bars: tuple[Bar, ...]
    decimals: int = 0


def bars(chart: Bars, *, paper: bool = False, width: int = 288) -> str:
    """Amounts from zero, the label above its bar. Raises ValueError below zero."""
    pen = Pen(paper)
    values = finite(b.value for b in chart.bars)
    if not values:
        return pen.nothing(chart.title, width)
    if min(values) < 0:
        raise ValueError("bars start at zero: an amount below zero has no bar")
    most = max(values) or 1.0
    for index, bar in enumerate(chart.bars):
        y = 18.0 + index * 56
        shown = figure(bar.value, chart.decimals)
        room = width - len(shown) * LETTER - 12
        pen.text("strong" if bar.here else "text", 0, y, shortened(bar.label, room))
        pen.text("soft" if bar.value is None else "strong", width, y, shown, "end")
        pen.line("axis", 0, y + 9, 0, y + 29)
        if bar.value is not None:
            pen.rect("bar here" if bar.here else "bar", 0, y + 10, width * bar.value / most, 18)
    return pen.svg(chart.title, said(bars_table(chart)), width, len(chart.bars) * 56 - 4)


def bars_table(chart: Bars) -> ChartTable:
    """Label and amount."""
    rows = [(b.label, figure(b.value, chart.decimals)) for b in chart.bars]
    return chart_table(chart.title, ("", f"Amount ({chart.unit})"), rows)
