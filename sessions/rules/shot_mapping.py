"""What the columns of a device's file are, and its rows as shots in metric.

A unit is mandatory, one decimal mark holds for the whole file, and the sign of sideways is asked:
none of it is guessed in silence. A row that doesn't fit is rejected with its reason.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import time
from decimal import Decimal

from sessions.maths.unit_factors import (
    ATTACK_LIMITS_DEG,
    CARRY_LIMITS_M,
    HEIGHT_LIMITS_M,
    KMH_PER_MPS,
    LAUNCH_LIMITS_DEG,
    M_PER_FOOT,
    M_PER_YARD,
    MPS_PER_MPH,
    SIDE_LIMITS_M,
    SPEED_LIMITS_MPS,
    SPIN_LIMITS_RPM,
    Limits,
)
from sessions.rules.shot_table import Row, Table

ONE = Decimal(1)
_DISTANCE = {"yd": M_PER_YARD, "m": ONE, "ft": M_PER_FOOT}
_SPEED = {"mph": MPS_PER_MPH, "m/s": ONE, "km/h": ONE / KMH_PER_MPS}
_SPIN = {"rpm": ONE}
_ANGLE = {"deg": ONE}
UNIT_LABELS = {
    "yd": "yards", "m": "metres", "ft": "feet", "mph": "miles per hour", "m/s": "metres a second",
    "km/h": "kilometres per hour", "rpm": "turns a minute", "deg": "degrees",
}  # fmt: skip
# Believable ends of angles that no typed field has: data-entry guards of ours.
_LANDING_LIMITS: Limits = (Decimal(0), Decimal(90))
_AXIS_LIMITS: Limits = (Decimal(-60), Decimal(60))
_LEAN_LIMITS: Limits = (Decimal(-20), Decimal(40))


@dataclass(frozen=True)
class Measure:
    """One thing a column may be: where it is stored, its units' factors, what is believable."""

    key: str
    column: str
    label: str
    factors: Mapping[str, Decimal]
    limits: Limits
    is_sideways: bool = False


MEASURES: tuple[Measure, ...] = (
    Measure("carry", "carry_m", "Carry", _DISTANCE, CARRY_LIMITS_M),
    Measure("side", "side_m", "Left or right", _DISTANCE, SIDE_LIMITS_M, is_sideways=True),
    Measure("total", "total_m", "Total", _DISTANCE, CARRY_LIMITS_M),
    Measure("ball_speed", "ball_speed_ms", "Ball speed", _SPEED, SPEED_LIMITS_MPS),
    Measure("launch", "launch_deg", "Launch angle", _ANGLE, LAUNCH_LIMITS_DEG),
    Measure("spin", "spin_rpm", "Spin", _SPIN, SPIN_LIMITS_RPM),
    Measure("spin_axis", "spin_axis_deg", "Spin axis", _ANGLE, _AXIS_LIMITS, is_sideways=True),
    Measure("apex", "apex_m", "Greatest height", _DISTANCE, HEIGHT_LIMITS_M),
    Measure("landing", "landing_deg", "Landing angle", _ANGLE, _LANDING_LIMITS),
    Measure("club_speed", "club_speed_ms", "Club speed", _SPEED, SPEED_LIMITS_MPS),
    Measure("attack", "attack_deg", "Angle of attack", _ANGLE, ATTACK_LIMITS_DEG),
    Measure("lean", "lean_deg", "Shaft lean", _ANGLE, _LEAN_LIMITS),
)
BY_KEY: dict[str, Measure] = {measure.key: measure for measure in MEASURES}
_SUMMARY_WORDS = frozenset({
    "average", "avg", "mean", "median", "std dev", "std. dev.", "standard deviation", "sd",
    "min", "max", "total", "consistency",
})  # fmt: skip
# What a column may be besides a measure: no unit belongs to these.
CLUB, TIME = "club", "time"
_CLUB_NAMES = frozenset({"club", "club name", "club type"})
_TIME_NAMES = frozenset({"time", "time of day", "shot time"})
LEFT_OUT = "club_left_out"
_CLOCK = re.compile(
    r"(?<![\d:])(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?\s*(?:([ap])\.?m\.?)?(?![\d:])",
    re.IGNORECASE,
)
_SIDED = re.compile(r"(?:([LR])\s*)?([+\-]?[\d.,' ]+?)\s*([LR])?", re.IGNORECASE)


@dataclass(frozen=True)
class MappedColumn:
    """A column of the file taken for a measure, in a unit."""

    index: int
    measure: Measure
    unit: str


@dataclass(frozen=True)
class ColumnMapping:
    """How a file is read. `right_is_positive` matters only where a column is sideways.

    `club_column` holds each row's club, `time_column` the time of day; None for neither.
    """

    columns: tuple[MappedColumn, ...]
    decimal_mark: str
    right_is_positive: bool | None = None
    club_column: int | None = None
    time_column: int | None = None


@dataclass(frozen=True)
class ReadShot:
    """A row as a shot: columns of Shot in metric, and the cells as they stood.

    `club` is the file's own name for the club, `time` the time of day; empty where none is mapped.
    """

    number: int
    values: dict[str, float]
    as_typed: dict[str, str]
    cells: tuple[str, ...] = ()
    club: str = ""
    time: time | None = None


@dataclass(frozen=True)
class Reject:
    """A row that is no shot, and why."""

    number: int
    reason: str
    cells: tuple[str, ...]


@dataclass(frozen=True)
class Reading:
    shots: tuple[ReadShot, ...]
    rejects: tuple[Reject, ...]
    hints: tuple[str, ...]

    @property
    def clubs(self) -> Counter[str]:
        """How many shots go by each name of a club, in the order of the file."""
        return Counter(shot.club for shot in self.shots)


def mapping_errors(table: Table, given: Mapping[str, object]) -> dict[str, str]:
    """A sentence by field for what a mapping still lacks; empty where it can be read."""
    errors: dict[str, str] = {}
    columns = given.get("columns")
    rows = columns if isinstance(columns, list) else []
    used: set[str] = set()
    for row in rows:
        index, key, unit = row.get("index"), row.get("measure"), row.get("unit")
        measure = BY_KEY.get(str(key))
        if key in {CLUB, TIME}:
            errors[f"measure_{index}"] = f"Another column is the {key} already."
            continue
        if measure is None or not isinstance(index, int) or not 0 <= index < len(table.header):
            errors["columns"] = "A column is taken for something unknown."
            continue
        if measure.key in used:
            errors[f"measure_{index}"] = f"{measure.label} is taken from another column already."
        used.add(measure.key)
        if unit not in measure.factors:
            errors[f"unit_{index}"] = f"Choose the unit of {measure.label.lower()}."
    for name in ("club_column", "time_column"):
        index = given.get(name)
        if index is not None and not (isinstance(index, int) and 0 <= index < len(table.header)):
            errors["columns"] = "A column is taken for something unknown."
    if not used and not errors:
        errors["columns"] = "Say of at least one column what it is."
    if given.get("decimal_mark") not in {".", ","}:
        errors["decimal_mark"] = "Say what stands before the decimals: a point or a comma."
    if any(BY_KEY[key].is_sideways for key in used) and not isinstance(
        given.get("right_is_positive"), bool
    ):
        errors["right_is_positive"] = "Say which side is positive: left or right."
    return errors


def mapping_of(given: Mapping[str, object]) -> ColumnMapping:
    """Build a mapping that `mapping_errors` found nothing wrong with."""
    columns = given["columns"]
    assert isinstance(columns, list)
    right = given.get("right_is_positive")
    club, clock = given.get("club_column"), given.get("time_column")
    return ColumnMapping(
        columns=tuple(
            MappedColumn(int(row["index"]), BY_KEY[row["measure"]], str(row["unit"]))
            for row in columns
        ),
        decimal_mark=str(given["decimal_mark"]),
        right_is_positive=right if isinstance(right, bool) else None,
        club_column=club if isinstance(club, int) else None,
        time_column=clock if isinstance(clock, int) else None,
    )


def guessed_roles(table: Table) -> dict[str, int | None]:
    """The columns whose names say that they hold the club, of several, and the time of day."""

    def found(names: frozenset[str]) -> int | None:
        return next((i for i, n in enumerate(table.header) if n.casefold() in names), None)

    club, clock = found(_CLUB_NAMES), found(_TIME_NAMES)
    if club is not None and len(set(table.column(club))) < 2:
        club = None
    return {"club_column": club, "time_column": clock}


def time_of_day(cell: str) -> time | None:
    """The one time of day in a cell, whatever date stands beside it; None without one.

    >>> time_of_day("7/5/2027 2:05:09 PM"), time_of_day("14.30")
    (datetime.time(14, 5, 9), None)
    """
    found = _CLOCK.findall(cell)
    if len(found) != 1:
        return None
    hour, minute, second, half = found[0]
    hours = int(hour)
    if half:
        if not 1 <= hours <= 12:
            return None
        hours = hours % 12 + (12 if half.lower() == "p" else 0)
    if hours > 23 or int(minute) > 59 or int(second or 0) > 59:
        return None
    return time(hours, int(minute), int(second or 0))


def reject_words(reject: Mapping[str, object]) -> str:
    """Why a row of a stored import was not taken."""
    if reject.get("code") == LEFT_OUT:
        return f"Left out: {club_words(str(reject['club']))}."
    return str(reject["reason"])


def club_words(name: str) -> str:
    """A club as the file calls it; a row may name none."""
    return f"“{name}”" if name else "no club named"


def read_shots(table: Table, mapping: ColumnMapping) -> Reading:
    """Read every row: shots, rows rejected with a reason, hints where a whole column is odd."""
    shots: list[ReadShot] = []
    rejects: list[Reject] = []
    for row in table.rows:
        found = _read_row(row, table, mapping)
        if isinstance(found, ReadShot):
            shots.append(found)
        else:
            rejects.append(Reject(row.number, found, row.cells))
    return Reading(tuple(shots), tuple(rejects), _hints(table, mapping))


def cell_value(cell: str, column: MappedColumn, mapping: ColumnMapping) -> Decimal | None:
    """A cell in metric, positive to the right where it is sideways; None for no figure."""
    text = cell.strip().replace("\N{MINUS SIGN}", "-")
    sign = ONE
    if column.measure.is_sideways:
        sided = _SIDED.fullmatch(text)
        if sided is None:
            return None
        letter = (sided[1] or sided[3] or "").upper()
        text = sided[2]
        if letter:
            sign = ONE if letter == "R" else -ONE
        elif mapping.right_is_positive is False:
            sign = -ONE
    number = _number(text.strip(), mapping.decimal_mark)
    return None if number is None else sign * number * column.measure.factors[column.unit]


def _number(text: str, decimal_mark: str) -> Decimal | None:
    """A figure whose decimals stand behind `decimal_mark`; thousands may be set off in threes."""
    mark = re.escape(decimal_mark)
    thousands = "," if decimal_mark == "." else r"\."
    plain = rf"[+\-]?\d*(?:{mark}\d+)?"
    grouped = rf"[+\-]?\d{{1,3}}(?:(?:{thousands}|[ ' ])\d{{3}})+(?:{mark}\d+)?"
    if not any(ch.isdigit() for ch in text):
        return None
    if re.fullmatch(plain, text):
        return Decimal(text.replace(decimal_mark, "."))
    if re.fullmatch(grouped, text):
        kept = "".join(ch for ch in text if ch.isdigit() or ch in f"+-{decimal_mark}")
        return Decimal(kept.replace(decimal_mark, "."))
    return None


def _read_row(row: Row, table: Table, mapping: ColumnMapping) -> ReadShot | str:
    if len(row.cells) != len(table.header) and not _is_padded(row, table):
        return f"{len(row.cells)} columns where the file has {len(table.header)}."
    first = next((cell for cell in row.cells if cell), "")
    if first.casefold().rstrip(":") in _SUMMARY_WORDS:
        return f"It looks like a line of sums, not a shot: “{first}”."
    values: dict[str, float] = {}
    as_typed: dict[str, str] = {}
    for column in mapping.columns:
        cell = row.cells[column.index] if column.index < len(row.cells) else ""
        if cell in {"", "-", "--", "n/a", "N/A"}:
            continue
        value = cell_value(cell, column, mapping)
        if value is None:
            return f"{column.measure.label}: “{cell[:40]}” is no figure as decimals were chosen."
        low, high = column.measure.limits
        if not low <= value <= high:
            return f"{column.measure.label}: {cell[:40]} {column.unit} is not believable."
        values[column.measure.column] = float(value)
        as_typed[column.measure.key] = f"{cell[:40]} {column.unit}"
    if not values:
        return "No figure stands in the columns that were chosen."
    club = _cell(row, mapping.club_column)
    clock = _cell(row, mapping.time_column)
    when = time_of_day(clock)
    if clock and when is None:
        return f"“{clock[:40]}” is no time of day."
    as_typed |= {key: cell[:40] for key, cell in ((CLUB, club), (TIME, clock)) if cell}
    return ReadShot(row.number, values, as_typed, row.cells, club, when)


def _cell(row: Row, index: int | None) -> str:
    return row.cells[index] if index is not None and index < len(row.cells) else ""


def _is_padded(row: Row, table: Table) -> bool:
    """True where only empty cells are missing or too many: a trailing delimiter."""
    return all(not cell for cell in row.cells[len(table.header) :]) and (
        len(row.cells) >= len(table.header) - 1
    )


def _hints(table: Table, mapping: ColumnMapping) -> tuple[str, ...]:
    """Where most of a column is not believable, name the unit in which it all would be."""
    said = []
    for column in mapping.columns:
        raw = [
            value / column.measure.factors[column.unit]
            for cell in table.column(column.index)
            if (value := cell_value(cell, column, mapping)) is not None
        ]
        low, high = column.measure.limits
        inside = {
            unit: sum(1 for value in raw if low <= value * factor <= high)
            for unit, factor in column.measure.factors.items()
        }
        if not raw or 2 * inside[column.unit] >= len(raw):
            continue
        better = [unit for unit, count in inside.items() if count == len(raw)]
        advice = (
            f" All would be in {UNIT_LABELS[better[0]]}: {better[0]}?"
            if better
            else " Is it the right column?"
        )
        said.append(
            f"{column.measure.label}: {len(raw) - inside[column.unit]} of {len(raw)} figures are "
            f"not believable in {UNIT_LABELS[column.unit]}.{advice}"
        )
    return tuple(said)


def guessed_decimal_mark(table: Table, indexes: Sequence[int]) -> str:
    """A comma where a figure has one and none has a point; else a point."""
    cells = [cell for index in indexes for cell in table.column(index)]
    figures = [cell for cell in cells if re.fullmatch(r"[+\-−LR ]*[\d.,]+[LR ]*", cell)]
    has_comma = any("," in cell for cell in figures)
    has_point = any("." in cell for cell in figures)
    return "," if has_comma and not has_point else "."
