"""The one writer of docs/benchmarks.md: a section per benchmark, written anew when it ran.

A benchmark asks for the fixture `board` and hands over what it found:

    board.race("Flight", "1,000 flights", timed, baseline="solve_ivp one by one", at_least=80)
    board.table("Early stopping", ["true difference", "stopped"], [["0", "4.8 %"]], note="...")

Both may be called several times for a section; the order of the calls is the order on the page.
Sections of benchmarks that were not run stay as they are.
"""

from __future__ import annotations

import os
import platform
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from importlib.metadata import version
from pathlib import Path

from tests.benchmarks.stopwatch import Timed

PAGE = Path(__file__).resolve().parents[2] / "docs" / "benchmarks.md"
OPENING = """# Benchmarks

Written by `make bench`. A line of times compares two ways to the same result, in one run, warmed
up, turn by turn, medians of seven; that the results are the same is asserted. Times are processor
time where nothing else is said. The ratio is what counts: the machine is small and shared.
"""
RACE_HEAD = ["what", "ours", "baseline", "its time", "times as fast", "wanted"]


@dataclass
class Board:
    """What the benchmarks of this run found, by section."""

    page: Path = PAGE
    sections: dict[str, list[str]] = field(default_factory=dict)

    def race(
        self, section: str, what: str, timed: Timed, *, baseline: str, at_least: float
    ) -> None:
        """Take a row of times down, then hold the ratio against what is wanted of it."""
        row = [
            what,
            time_words(timed.our_median_s),
            baseline,
            time_words(timed.baseline_median_s),
            f"{timed.ratio:.1f}",
            f"{at_least:g}",
        ]
        self.table(section, RACE_HEAD, [row])
        assert timed.ratio >= at_least, f"{what}: {timed.ratio:.1f} times, {at_least:g} wanted"

    def table(
        self, section: str, head: Sequence[str], rows: Sequence[Sequence[str]], *, note: str = ""
    ) -> None:
        """Take rows down; under the last table of the section where that has the same head."""
        lines = self.sections.setdefault(section, [])
        heading = [_row(head), _row(["---"] * len(head))]
        if heading[0] not in lines:
            lines += ["", *heading]
        lines += [_row(row) for row in rows]
        if note:
            self.note(section, note)

    def note(self, section: str, words: str) -> None:
        """Add a paragraph: what was assumed, what the figures mean."""
        self.sections.setdefault(section, []).extend(["", words])

    def write(self) -> None:
        """Put this run's sections in the place of their older selves."""
        if not self.sections:
            return
        kept = _sections_of(self.page.read_text()) if self.page.exists() else {}
        for title, lines in self.sections.items():
            kept[title] = "\n".join([f"*{_machine()}*", *lines])
        body = "\n\n".join(f"## {title}\n\n{kept[title].strip()}" for title in sorted(kept))
        self.page.write_text(f"{OPENING}\n{body}\n")


def time_words(seconds: float) -> str:
    """Return a time in the unit that suits it."""
    if seconds >= 1:
        return f"{seconds:.2f} s"
    if seconds >= 1e-3:
        return f"{seconds * 1e3:.2f} ms"
    return f"{seconds * 1e6:.1f} µs"


def _row(cells: Sequence[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _sections_of(text: str) -> dict[str, str]:
    parts = re.split(r"^## (.+)$", text, flags=re.MULTILINE)
    return {
        title.strip(): body.strip() for title, body in zip(parts[1::2], parts[2::2], strict=True)
    }


def _machine() -> str:
    return (
        f"Python {platform.python_version()}, NumPy {version('numpy')}, SciPy {version('scipy')}, "
        f"{os.cpu_count()} cores, {platform.machine()}"
    )
