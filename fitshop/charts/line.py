"""A value over time or order, with its limits."""

from dataclasses import dataclass

from fitshop.charts.pen import Pen, scale, ticks
from fitshop.charts.words import ChartTable, chart_table, figure, finite, plain, said


@dataclass(frozen=True)
class Stop:
    """One place on a line, from left to right; without a value the line is broken there."""

    label: str
    value: float | None


@dataclass(frozen=True)
class Limit:
    label: str
    value: float


@dataclass(frozen=True)
class Line:
    title: str
    unit: str
    stops: tuple[Stop, ...]
    limits: tuple[Limit, ...] = ()
    decimals: int = 0


def runs(stops: tuple[Stop, ...]) -> list[list[tuple[int, float]]]:
    """The stretches between the stops where nothing was measured."""
    stretches: list[list[tuple[int, float]]] = [[]]
    for index, stop in enumerate(stops):
        if stop.value is None:
            stretches.append([])
        else:
            stretches[-1].append((index, stop.value))
    return [stretch for stretch in stretches if stretch]


def line(chart: Line, *, paper: bool = False, width: int = 480) -> str:
    """A value over time or order, broken where nothing was measured, with its limits."""
    pen = Pen(paper)
    measured = finite(s.value for s in chart.stops)
    if not measured:
        return pen.nothing(chart.title, width)
    edges = measured + finite(limit.value for limit in chart.limits)
    marks = ticks(min(edges), max(edges), 3)
    left = max(len(plain(t)) for t in marks) * 10.0 + 12
    height = 176.0
    up = scale(min(*edges, *marks), max(*edges, *marks), height - 8, 12)
    along = scale(0, max(len(chart.stops) - 1, 1), left + 10, width - 10)
    for tick in marks:
        pen.line("axis", left, up(tick), width, up(tick))
        pen.text("soft", left - 8, up(tick) + 6, plain(tick), "end")
    for limit in chart.limits:
        pen.line("limit", left, up(limit.value), width, up(limit.value))
        pen.text("soft", width, up(limit.value) - 6, limit.label, "end")
    for run in runs(chart.stops):
        pen.path("trend", [(along(index), up(value)) for index, value in run])
        for index, value in run:
            pen.circle("dot here", along(index), up(value), 5)
    pen.text("soft", left, height + 20, chart.stops[0].label)
    if len(chart.stops) > 1:
        pen.text("soft", width, height + 20, chart.stops[-1].label, "end")
    return pen.svg(chart.title, said(line_table(chart)), width, height + 30)


def line_table(chart: Line) -> ChartTable:
    """Label and value in order, then the limits."""
    rows = [(s.label, figure(s.value, chart.decimals)) for s in chart.stops]
    rows += [(limit.label, figure(limit.value, chart.decimals)) for limit in chart.limits]
    return chart_table(chart.title, ("", f"Value ({chart.unit})"), rows)
