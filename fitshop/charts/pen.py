"""Draws the marks of a chart: with classes for the themes on pages, plain attributes on paper."""

import hashlib
import math
from collections.abc import Callable, Sequence
from xml.sax.saxutils import escape, quoteattr

from fitshop.charts.words import NOTHING

LETTER = 9.2  # mean width of a letter at 17 px; only decides where a long label is shortened
FONT = "Atkinson Hyperlegible Next, Atkinson Hyperlegible Next Ext, sans-serif"

# What each class looks like on paper. Pages take the same classes from charts.css.
PAPER: dict[str, dict[str, str]] = {
    "text": {"fill": "#000", "font-size": "17", "font-weight": "400"},
    "strong": {"fill": "#000", "font-size": "17", "font-weight": "700"},
    "soft": {"fill": "#333", "font-size": "16", "font-weight": "400"},
    "axis": {"stroke": "#777", "stroke-width": "1", "fill": "none"},
    "zero": {"stroke": "#000", "stroke-width": "1.5", "fill": "none"},
    "limit": {"stroke": "#000", "stroke-width": "1.5", "stroke-dasharray": "6 4", "fill": "none"},
    "gap": {"stroke": "#777", "stroke-width": "1.5", "fill": "none"},
    "span": {"stroke": "#999", "stroke-width": "8", "fill": "none", "stroke-linecap": "round"},
    "span here": {"stroke": "#555", "stroke-width": "8", "fill": "none", "stroke-linecap": "round"},
    "span planned": {
        "stroke": "#777", "stroke-width": "3", "fill": "none", "stroke-dasharray": "5 4",
    },
    "dot": {"fill": "#000", "stroke": "#fff", "stroke-width": "1.5"},
    "dot here": {"fill": "#000", "stroke": "#fff", "stroke-width": "1.5"},
    "dot planned": {"fill": "#fff", "stroke": "#000", "stroke-width": "2"},
    "dot out": {"fill": "#fff", "stroke": "#555", "stroke-width": "1.5"},
    "ellipse": {
        "fill": "#eee", "stroke": "#000", "stroke-width": "1.5", "stroke-dasharray": "6 4",
    },
    "band": {"fill": "#e4e4e4", "stroke": "none"},
    "bar": {"fill": "#777", "stroke": "none"},
    "bar here": {"fill": "#000", "stroke": "none"},
    "trend": {"stroke": "#000", "stroke-width": "2.5", "fill": "none", "stroke-linejoin": "round"},
    "mean": {"stroke": "#000", "stroke-width": "2.5", "fill": "none"},
}  # fmt: skip


def number(value: float) -> str:
    """A coordinate: a tenth of a pixel is enough."""
    return (
        f"{value:.1f}".removesuffix(".0").replace("-0", "0")
        if abs(value) < 0.05
        else (f"{value:.1f}".removesuffix(".0"))
    )


class Pen:
    """Collects marks. ``look`` is one of the classes in PAPER."""

    def __init__(self, paper: bool) -> None:
        self._paper = paper
        self._marks: list[str] = []

    def line(self, look: str, x1: float, y1: float, x2: float, y2: float) -> None:
        self._mark("line", look, x1=x1, y1=y1, x2=x2, y2=y2)

    def circle(self, look: str, cx: float, cy: float, r: float) -> None:
        self._mark("circle", look, cx=cx, cy=cy, r=r)

    def rect(self, look: str, x: float, y: float, width: float, height: float) -> None:
        self._mark("rect", look, x=x, y=y, width=max(width, 0), height=height)

    def ellipse(self, cx: float, cy: float, rx: float, ry: float, turn: str) -> None:
        self._mark("ellipse", "ellipse", cx=cx, cy=cy, rx=rx, ry=ry, transform=turn)

    def path(self, look: str, points: Sequence[tuple[float, float]]) -> None:
        d = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)
        self._mark("path", look, d=d)

    def bracket(self, look: str, x1: float, x2: float, y: float) -> None:
        """A measured distance between two places: a line with a tick at each end."""
        ends = f"M{number(x1)} {number(y - 5)}v10M{number(x2)} {number(y - 5)}v10"
        self._mark("path", look, d=f"M{number(x1)} {number(y)}H{number(x2)}{ends}")

    def text(self, look: str, x: float, y: float, words: str, anchor: str = "start") -> None:
        attributes = {"x": number(x), "y": number(y)}
        if anchor != "start":
            attributes["text-anchor"] = anchor
        self._marks.append(f"<text{self._dress(look, attributes)}>{escape(words)}</text>")

    def svg(self, title: str, description: str, width: float, height: float) -> str:
        """The whole picture, named by its title and described by the numbers in it."""
        key = "c" + hashlib.sha256(f"{title}|{description}".encode()).hexdigest()[:10]
        size = {"width": number(width), "height": number(height)}
        size["viewBox"] = f"0 0 {size['width']} {size['height']}"
        if self._paper:
            size["font-family"] = FONT
        else:
            size["class"] = "chart"
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="{key}-t"'
            f' aria-describedby="{key}-d"{_attributes(size)}>'
            f'<title id="{key}-t">{escape(title)}</title>'
            f'<desc id="{key}-d">{escape(description)}</desc>{"".join(self._marks)}</svg>'
        )

    def nothing(self, title: str, width: float) -> str:
        """The picture of no data: it says so."""
        self.text("soft", 0, 24, NOTHING.capitalize() + ".")
        return self.svg(title, NOTHING.capitalize() + ".", width, 40)

    def _mark(self, element: str, look: str, **places: float | str) -> None:
        shown = {k: v if isinstance(v, str) else number(v) for k, v in places.items()}
        self._marks.append(f"<{element}{self._dress(look, shown)}/>")

    def _dress(self, look: str, attributes: dict[str, str]) -> str:
        dress = PAPER[look] if self._paper else {"class": look}
        return _attributes({**dress, **attributes})


def _attributes(pairs: dict[str, str]) -> str:
    return "".join(f" {name}={quoteattr(value)}" for name, value in pairs.items())


def scale(low: float, high: float, start: float, end: float) -> Callable[[float], float]:
    """A straight scale from values to pixels; one single value lies in the middle."""
    if high == low:
        return lambda value: (start + end) / 2
    return lambda value: start + (value - low) / (high - low) * (end - start)


def ticks(low: float, high: float, wanted: int) -> list[float]:
    """Round numbers (1, 2 or 5 times a power of ten) within low to high, about as many as wanted.

    Never empty: a range without a round number in it gets its lower end.
    """
    rough = (high - low) / max(wanted, 1)
    if rough <= 0:
        return [low]
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(s * power for s in (1, 2, 5, 10) if s * power >= rough * 0.999)
    first = math.ceil(low / step - 1e-9)
    last = math.floor(high / step + 1e-9)
    return [round(i * step, 10) for i in range(first, last + 1)] or [low]


def shortened(words: str, room: float) -> str:
    """A label cut to the room it has; the description and the table hold it whole."""
    letters = max(int(room / LETTER), 2)
    return (
        words
        if len(words) <= letters
        else words[: letters - 1].rstrip() + "\N{HORIZONTAL ELLIPSIS}"
    )
