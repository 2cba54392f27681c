"""What a file's columns were chosen to be on the page, from a form or from the page's address."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from urllib.parse import urlencode

from sessions.rules.shot_mapping import CLUB, TIME
from sessions.rules.shot_table import Table

_FIELDS = ("measure_", "unit_", "club_", "name_")


def is_mapped(typed: Mapping[str, str]) -> bool:
    """True where something of a mapping was sent; an address without one asks for a suggestion."""
    return "decimal_mark" in typed or any(name.startswith(_FIELDS) for name in typed)


def posted_mapping(typed: Mapping[str, str], table: Table) -> dict[str, Any]:
    """The mapping as it was chosen on the page."""
    chosen = {index: typed.get(f"measure_{index}", "") for index in range(len(table.header))}
    roles = {role: _first(chosen, role) for role in (CLUB, TIME)}
    columns = [
        {"index": index, "measure": measure, "unit": typed.get(f"unit_{index}", "")}
        for index, measure in chosen.items()
        if measure and roles.get(measure) != index
    ]
    return {
        "columns": columns,
        "decimal_mark": typed.get("decimal_mark", ""),
        "right_is_positive": {"right": True, "left": False}.get(typed.get("positive", "")),
        "club_column": roles[CLUB],
        "time_column": roles[TIME],
    }


def mapping_query(typed: Mapping[str, str]) -> str:
    """What was chosen, as the beginning of an address's query: it survives a redirect."""
    kept = {
        name: value
        for name, value in typed.items()
        if value and (name.startswith(_FIELDS) or name in {"decimal_mark", "positive"})
    }
    return f"{urlencode(kept)}&" if kept else ""


def _first(chosen: Mapping[int, str], role: str) -> int | None:
    return next((index for index, measure in chosen.items() if measure == role), None)
