"""What a change does to one club's swing weight, beside the trade's rule of thumb, as a table."""

from __future__ import annotations

from dataclasses import dataclass

from sessions.maths.balance_changes import ChangeBesideRule, changes_beside_rules
from sessions.maths.errors import MathsError
from sessions.rules.dry_weight import MM_PER_INCH, DryParts, Fixings, dry_club
from sessions.rules.wording import listed

# What a forecast needs, in the words of the bench.
NEEDED = (
    ("head_g", "the head's mass"),
    ("bore_to_ground_mm", "the head's bore to the ground"),
    ("shaft_g", "the shaft's mass"),
    ("shaft_raw_mm", "the shaft's uncut length"),
    ("shaft_balance_mm", "the shaft's balance point"),
    ("grip_g", "the grip's mass"),
    ("grip_length_mm", "the grip's length"),
    ("cap_mm", "the grip's cap"),
)


@dataclass(frozen=True, slots=True)
class ChangeRow:
    """A row of the table, in words: `up 1.3 points` is a head that feels heavier."""

    change: str
    this_club: str
    for_a_point: str
    rule_of_thumb: str


@dataclass(frozen=True, slots=True)
class ChangeTable:
    """The rows, or a sentence that says why there are none."""

    rows: tuple[ChangeRow, ...]
    missing: str = ""


def change_table(parts: DryParts, fixings: Fixings) -> ChangeTable:
    """What each usual change does to the club of these parts; else what is missing for it."""
    unknown = [words for name, words in NEEDED if getattr(parts, name) is None]
    if unknown:
        return not_worked_out(unknown)
    found = dry_club(parts, fixings)
    if found is None or parts.shaft_g is None or parts.shaft_raw_mm is None:
        return ChangeTable((), "Not worked out: the shaft is too short for this length.")
    per_inch = float(parts.shaft_g) / float(parts.shaft_raw_mm) * MM_PER_INCH
    try:
        changes = changes_beside_rules(found, shaft_g_per_in=per_inch)
    except MathsError as refusal:
        return ChangeTable((), f"Not worked out: {refusal}")
    return ChangeTable(tuple(_row(each) for each in changes))


def not_worked_out(missing: list[str]) -> ChangeTable:
    """A table without rows that names what is missing."""
    are = "is" if len(missing) == 1 else "are"
    return ChangeTable((), f"Not worked out: {listed(missing)} {are} not known.")


def _row(each: ChangeBesideRule) -> ChangeRow:
    is_mass = each.change.partition(" ")[2].startswith("g ")
    return ChangeRow(
        change=each.change,
        this_club=up_or_down(each.exact_points),
        for_a_point=f"{each.for_a_point:.1f} g for a point" if is_mass else "",
        rule_of_thumb=up_or_down(each.rule_points),
    )


def up_or_down(points: float) -> str:
    """`up 1.3 points`, `down 1 point`: rounded once, to a tenth."""
    size = f"{abs(points):.1f}".removesuffix(".0")
    if size == "0":
        return "no change"
    return f"{'up' if points > 0 else 'down'} {size} {'point' if size == '1' else 'points'}"
