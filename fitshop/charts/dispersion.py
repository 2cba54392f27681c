"""Where things landed, seen from behind."""

from dataclasses import dataclass

from fitshop.charts.pen import Pen, number, ticks
from fitshop.charts.words import ChartTable, chart_table, figure, finite, plain, said, sided


@dataclass(frozen=True)
class Landing:
    """One point seen from behind: ``side`` positive to the right, ``along`` away from the eye."""

    side: float
    along: float
    label: str = ""
    out: bool = False


@dataclass(frozen=True)
class Ellipse:
    """Centre and half axes in the unit of the points; the turn is anticlockwise from the right."""

    side: float
    along: float
    half_major: float
    half_minor: float
    turn_deg: float
    meaning: str


@dataclass(frozen=True)
class Dispersion:
    """Where things landed. ``things`` names them in the description, for instance "balls"."""

    title: str
    unit: str
    landings: tuple[Landing, ...]
    ellipse: Ellipse | None = None
    decimals: int = 0
    things: str = "points"


def dispersion(
    chart: Dispersion, *, paper: bool = False, width: int = 288, most_height: int = 210
) -> str:
    """Dots seen from behind the ball, one scale both ways, with the ellipse when there is one."""
    pen = Pen(paper)
    if not chart.landings:
        return pen.nothing(chart.title, width)
    sides = [p.side for p in chart.landings] + [0.0]
    alongs = [p.along for p in chart.landings]
    if (e := chart.ellipse) is not None:
        sides += [e.side - e.half_major, e.side + e.half_major]
        alongs += [e.along - e.half_major, e.along + e.half_major]
    finite(sides + alongs)
    reach = max(max(map(abs, sides)), 1e-9) * 1.08
    depth = max(max(alongs) - min(alongs), reach * 0.5) * 1.1
    inner = width - 46.0
    scale = min(inner / (2 * reach), most_height / depth)
    height = depth * scale + 4
    middle_x, middle_along = 46 + inner / 2, (max(alongs) + min(alongs)) / 2

    def x(side: float) -> float:
        return middle_x + side * scale

    def y(along: float) -> float:
        return 2 + height / 2 - (along - middle_along) * scale

    for tick in ticks(middle_along - depth / 2, middle_along + depth / 2, 3):
        pen.line("axis", 46, y(tick), width, y(tick))
        pen.text("soft", 38, min(max(y(tick) + 6, 14), height), plain(tick), "end")
    pen.line("zero", x(0), 0, x(0), height)
    if e is not None:
        turn = f"rotate({number(-e.turn_deg)} {number(x(e.side))} {number(y(e.along))})"
        pen.ellipse(x(e.side), y(e.along), e.half_major * scale, e.half_minor * scale, turn)
    for p in chart.landings:
        pen.circle("dot out" if p.out else "dot here", x(p.side), y(p.along), 5.5)
    step = ticks(0, inner / 2 / scale * 0.8, 2)[-1]
    for side, words in ((-step, "left"), (0.0, ""), (step, "right")):
        pen.line("zero", x(side), height, x(side), height + 6)
        pen.text("soft", x(side), height + 24, f"{plain(abs(side))} {words}".strip(), "middle")
    words = said(dispersion_table(chart))
    if e is not None:
        words += f" Ellipse: {e.meaning}."
    return pen.svg(chart.title, words, width, height + 32)


def dispersion_table(chart: Dispersion) -> ChartTable:
    """A row per landing: number or label, how far, how far left or right, left out or not."""
    rows = [
        (p.label or str(number), figure(p.along, chart.decimals), sided(p.side, chart.decimals),
         "left out" if p.out else "")
        for number, p in enumerate(chart.landings, start=1)
    ]  # fmt: skip
    return chart_table(
        chart.title, (chart.things.capitalize(), f"Far ({chart.unit})", "Side", "Note"), rows
    )
