"""Bytes from a measuring device into a table of text: encoding, delimiter, header, units row.

No maker's layout is built in: the table is found by its shape. Everything stays text until
somebody has said what each column is.
"""

from __future__ import annotations

import csv
import hashlib
import io
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

DELIMITERS = (",", ";", "\t", "|")
DELIMITER_WORDS = {",": "commas", ";": "semicolons", "\t": "tabs", "|": "upright lines"}
MOST_ROWS = 5000
# Spellings of the units a file may state, in a row of their own or behind a column's name.
UNIT_SPELLINGS = {
    "yd": "yd", "yds": "yd", "yard": "yd", "yards": "yd",
    "m": "m", "meter": "m", "meters": "m", "metre": "m", "metres": "m",
    "ft": "ft", "feet": "ft", "foot": "ft",
    "mph": "mph", "m/s": "m/s", "mps": "m/s", "km/h": "km/h", "kmh": "km/h", "kph": "km/h",
    "rpm": "rpm", "deg": "deg", "degs": "deg", "degree": "deg", "degrees": "deg", "°": "deg",
}  # fmt: skip
_NUMBER = re.compile(r"[+\-−]?\s?(\d[\d .,']*|[.,]\d+)\s*[A-Za-z°]{0,2}")
_BEHIND = re.compile(r"[\[(]\s*([^\])]+?)\s*[\])]\s*$|[,_ ]\s*([A-Za-z/°]+)\s*$")
_CONTROL = re.compile(r"[\x00-\x08\x0e-\x1f]")


class FileUnreadable(Exception):
    """The file holds no table of shots. `sentence` says what it is and what would help."""

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence


@dataclass(frozen=True)
class Row:
    """One line of shots: its number in the file, from 1, and its cells as text."""

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True)
class Table:
    """A file as a table of text. `units` holds a unit per column where the file states one."""

    encoding: str
    note: str
    delimiter: str
    header: tuple[str, ...]
    units: tuple[str, ...]
    rows: tuple[Row, ...]

    @property
    def key(self) -> str:
        """What a saved mapping goes by: the header and its units."""
        text = "\x1f".join(name.casefold().strip() for name in (*self.header, *self.units))
        return hashlib.sha256(text.encode()).hexdigest()

    def column(self, index: int) -> list[str]:
        return [row.cells[index] for row in self.rows if index < len(row.cells)]


def shot_table(content: bytes) -> Table:
    """Read a file.

    Raises:
        FileUnreadable: it is empty, no text, no table, or holds no numbers.
    """
    if not content.strip():
        raise FileUnreadable("This file is empty.")
    text, encoding, note = decoded(content)
    if not text.strip():
        raise FileUnreadable("This file is empty.")
    delimiter, records = _records(text)
    header_at, width = _header(records)
    header = _named(records[header_at][1] if header_at >= 0 else (), width)
    units, first = _units(header, records, header_at + 1)
    rows = tuple(
        Row(number, tuple(cell.strip() for cell in cells))
        for number, cells in records[first:]
        if any(cell.strip() for cell in cells)
    )
    if not any(is_number(cell) for row in rows for cell in row.cells):
        raise FileUnreadable("No column of this file holds numbers: there are no shots in it.")
    if len(rows) > MOST_ROWS:
        raise FileUnreadable(f"This file has {len(rows)} rows; {MOST_ROWS} are the most at once.")
    return Table(encoding, note, delimiter, header, units, rows)


def decoded(content: bytes) -> tuple[str, str, str]:
    """Return the text, the encoding, and a note where it had to be guessed."""
    if content.startswith(b"PK\x03\x04"):
        raise FileUnreadable("This is a workbook or an archive. Save it as CSV and try again.")
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return _checked(content, "utf-16", "")
    if content.startswith(b"\xef\xbb\xbf"):
        return _checked(content, "utf-8-sig", "")
    if b"\x00" in content:
        raise FileUnreadable("This is no text file. Export the shots as CSV and try again.")
    try:
        return _checked(content, "utf-8", "")
    except UnicodeDecodeError:
        note = "The letters were read as Windows text (cp1252): look at names with accents."
    try:
        return _checked(content, "cp1252", note)
    except UnicodeDecodeError as error:
        raise FileUnreadable(
            "This is no text file. Export the shots as CSV and try again."
        ) from error


def is_number(cell: str) -> bool:
    """True for a cell that begins as a figure, whatever its decimal mark."""
    return _NUMBER.fullmatch(cell.strip()) is not None


def stated_unit(words: str) -> str:
    """The unit in a unit's cell or behind a column's name; "" where none is known.

    >>> stated_unit("Carry (yds)"), stated_unit("[mph]"), stated_unit("Club")
    ('yd', 'mph', '')
    """
    plain = words.strip().strip("[]()").casefold()
    if plain in UNIT_SPELLINGS:
        return UNIT_SPELLINGS[plain]
    behind = _BEHIND.search(words.strip())
    if behind is None:
        return ""
    return UNIT_SPELLINGS.get((behind[1] or behind[2]).strip().casefold(), "")


def _checked(content: bytes, encoding: str, note: str) -> tuple[str, str, str]:
    try:
        text = content.decode(encoding)
    except UnicodeDecodeError:
        if encoding in {"utf-8", "cp1252"}:
            raise
        raise FileUnreadable(
            "This file begins like a text file and then isn't one. Export it again."
        ) from None
    if len(_CONTROL.findall(text[:4000])) > len(text[:4000]) // 50:
        raise FileUnreadable("This is no text file. Export the shots as CSV and try again.")
    return text, encoding, note


Record = tuple[int, Sequence[str]]


def _records(text: str) -> tuple[str, list[Record]]:
    """The delimiter under which most lines have the same number of columns, and the lines."""
    best: tuple[tuple[float, int], str, list[Record]] | None = None
    for delimiter in DELIMITERS:
        try:
            lines = list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter))
        except csv.Error:
            continue
        found: list[Record] = [
            (n, cells) for n, cells in enumerate(lines, start=1) if any(map(str.strip, cells))
        ]
        width = _usual_width(found)
        if width < 2:
            continue
        share = sum(1 for _, cells in found if len(cells) == width) / len(found)
        if best is None or (share, width) > best[0]:
            best = (share, width), delimiter, found
    if best is None:
        single = [(n, [line]) for n, line in enumerate(text.splitlines(), start=1) if line.strip()]
        if sum(1 for _, cells in single if is_number(cells[0])) < 2:
            raise FileUnreadable(
                "No columns were found: the lines hold neither commas, semicolons, tabs nor "
                "upright lines."
            )
        return ",", list(single)
    return best[1], best[2]


def _usual_width(records: Sequence[Record]) -> int:
    """The number of columns that most lines have; of equals the larger."""
    widths = Counter(len(cells) for _, cells in records)
    return max(widths, key=lambda width: (widths[width], width), default=0)


def _header(records: Sequence[Record]) -> tuple[int, int]:
    """Where the header stands, -1 for none, and the table's width.

    It is the first line of the usual width with names and no figures.
    """
    width = _usual_width(records)
    for index, (_, cells) in enumerate(records):
        filled = [cell for cell in cells if cell.strip()]
        if len(cells) != width or not filled:
            continue
        if any(is_number(cell) for cell in filled):
            return (-1, width) if index == 0 else (_name_line_above(records, index, width), width)
        return index, width
    return -1, width


def _name_line_above(records: Sequence[Record], index: int, width: int) -> int:
    """A line of names right above the first figures, a trailing delimiter short or long."""
    cells = records[index - 1][1]
    is_names = abs(len(cells) - width) <= 1 and not any(is_number(cell) for cell in cells)
    return index - 1 if is_names else -1


def _named(cells: Sequence[str], width: int) -> tuple[str, ...]:
    names = [cell.strip() for cell in cells][:width]
    names += [""] * (width - len(names))
    return tuple(name or f"Column {index}" for index, name in enumerate(names, start=1))


def _units(
    header: tuple[str, ...], records: Sequence[Record], first: int
) -> tuple[tuple[str, ...], int]:
    """A unit per column, from a row of units or from behind the names; where the shots begin."""
    behind = [stated_unit(name) for name in header]
    if first < len(records):
        cells = [cell.strip() for cell in records[first][1]]
        filled = [cell for cell in cells if cell]
        known = [cell for cell in filled if stated_unit(cell)]
        if filled and not any(is_number(cell) for cell in filled) and 2 * len(known) >= len(filled):
            row = [stated_unit(cell) for cell in cells] + [""] * len(header)
            return tuple(a or b for a, b in zip(row, behind, strict=False)), first + 1
    return tuple(behind), first
