"""The numbers of a chart as words: figures, descriptions, tables."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

NOTHING = "nothing measured yet"
NOT_MEASURED = "not measured"
NOISE = 9  # decimals; what differs further on is the computer's, not the ball's
MINUS = "\N{MINUS SIGN}"


@dataclass(frozen=True)
class ChartTable:
    """The same numbers as rows of text, for people who read tables or listen to them."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def finite(values: Iterable[float | None]) -> list[float]:
    """What was measured. Raises ValueError for a number that is none (NaN or infinite)."""
    measured = [value for value in values if value is not None]
    if not all(math.isfinite(value) for value in measured):
        raise ValueError("a chart takes finite numbers; not measured is None")
    return measured


def figure(value: float | None, decimals: int) -> str:
    """A value as shown, "not measured" for none; no minus before a zero.

    Rounded half away from zero like every figure in a page's text; float noise is not told.
    """
    if value is None:
        return NOT_MEASURED
    exact = Decimal(repr(round(abs(float(value)), NOISE)))
    text = str(exact.quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP))
    return MINUS + text if value < 0 and float(text) != 0 else text


def signed(value: float | None, decimals: int) -> str:
    """A difference: with its plus or minus, none before a zero."""
    text = figure(value, decimals)
    return f"+{text}" if value is not None and value > 0 and float(text) != 0 else text


def sided(side: float, decimals: int) -> str:
    """How far to which side: "3 left", "4 right", "0"; positive is right."""
    text = figure(abs(side), decimals)
    if float(text) == 0:
        return text
    return f"{text} right" if side > 0 else f"{text} left"


def between(low: float | None, high: float | None, decimals: int, with_sign: bool = False) -> str:
    """An interval in words, nothing when there is none."""
    if low is None or high is None:
        return ""
    show = signed if with_sign else figure
    return f"{show(low, decimals)} to {show(high, decimals)}"


def plain(value: float) -> str:
    """A tick: as few figures as it needs."""
    return f"{value:g}".replace("-", MINUS)


def chart_table(caption: str, head: Sequence[str], rows: Iterable[Sequence[str]]) -> ChartTable:
    """The table without the columns that are empty throughout, but for the first two."""
    body = [tuple(row) for row in rows]
    kept = [i for i in range(len(head)) if i < 2 or any(row[i] for row in body)]
    return ChartTable(
        caption=caption,
        head=tuple(head[i] for i in kept),
        rows=tuple(tuple(row[i] for i in kept) for row in body),
    )


def said(table: ChartTable) -> str:
    """The table's rows as one description: "55: 97, likely between 94 to 100; ..."."""
    sentences = []
    for row in table.rows:
        parts = [row[1]]
        for name, cell in zip(table.head[2:], row[2:], strict=True):
            if cell:
                parts.append(cell if name in ("Note", "Side") else f"{name.lower()} {cell}")
        sentences.append(f"{row[0]}: {', '.join(parts)}")
    unit = table.head[1]
    return f"{unit}. {'; '.join(sentences)}."
