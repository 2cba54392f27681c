"""Run the lanes of `make test` and print what each of them did.

One after another, but for a lane that mostly waits: it runs beside the others, and its output
comes at the end. All of them run even where one fails. With CI=true no lane may be missing;
otherwise a lane whose program is absent is named as missing, in the table, and the rest still
counts.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from io import StringIO
from pathlib import Path
from typing import TextIO

HOUSE = Path(__file__).resolve().parent.parent
STRICT = os.environ.get("CI", "").lower() in {"1", "true", "yes"}
BIN = Path(sys.executable).parent
PYTEST = [sys.executable, "-m", "pytest", "-q"]
ON_POSTGRESQL = [sys.executable, "-m", "tests.lanes", "postgresql", "--"]
QUICK = ["-n", "2", "-m", "not services_lane and not browser"]
# These touch no database: they run once, and everything else on both.
PURE = [f"tests/{name}" for name in ("maths", "rules", "published", "independent")]
BUT_PURE = [f"--ignore={folder}" for folder in PURE]


@dataclass(frozen=True)
class Lane:
    """Steps that belong together, the programs they need, and how long they may take."""

    name: str
    steps: list[list[str]]
    budget_s: int
    needs: tuple[str, ...] = ()
    # It mostly waits for processes to start and time to pass: the next lanes run meanwhile.
    is_waiting: bool = False


def python(*arguments: str) -> list[str]:
    return [sys.executable, *arguments]


LANES = [
    Lane(
        "lint",
        [
            [str(BIN / "ruff"), "check"],
            [str(BIN / "ruff"), "format", "--check"],
            [str(BIN / "mypy")],
            [str(BIN / "lint-imports")],
            python("manage.py", "makemigrations", "--check", "--dry-run"),
            # As a shop with a name on the network.
            [
                "env",
                "FITSHOP_HOSTS=shop.example.org",
                *python("manage.py", "check", "--deploy", "--fail-level", "WARNING"),
            ],
        ],
        90,
    ),
    Lane(
        "scripts",
        [
            ["npm", "ci", "--silent", "--no-fund", "--no-audit", "--prefix", ".ci"],
            ["npm", "run", "--silent", "--prefix", ".ci", "check"],
        ],
        60,
        needs=("npm",),
    ),
    Lane(
        "services",
        [[*PYTEST, "-m", "services_lane"]],
        300,
        needs=("redis-server",),
        is_waiting=True,
    ),
    Lane("pure", [[*PYTEST, "-n", "2", *PURE]], 120),
    Lane("sqlite", [[*PYTEST, *QUICK, *BUT_PURE]], 180),
    Lane("postgresql", [[*ON_POSTGRESQL, *PYTEST, *QUICK, *BUT_PURE]], 180),
    Lane("browser", [[*PYTEST, "-m", "browser"]], 240),
    Lane(
        "browser on postgresql",
        [[*ON_POSTGRESQL, *PYTEST, "-m", "browser", "tests/story"]],
        120,
    ),
]


def environment() -> dict[str, str]:
    """A real shop's settings for the checks outside pytest; nothing of the caller's shop."""
    ours = {key: value for key, value in os.environ.items() if not key.startswith("FITSHOP_")}
    ours.pop("DEMO", None)
    return ours | {
        "FITSHOP_SECRET_KEY": "a text for the checks only, never for a shop 0123456789 abcdefghij",
        "FITSHOP_VAR": os.environ["FITSHOP_LANES_FOLDER"],
        "PYTHONDONTWRITEBYTECODE": "1",
    }


def ran(lane: Lane, out: TextIO) -> tuple[bool, str, float]:
    """Run a lane's steps, their output going to `out`; whether all were good, counts and time."""
    began = time.monotonic()
    absent = [program for program in lane.needs if shutil.which(program) is None]
    if absent:
        return not STRICT, f"MISSING: {', '.join(absent)} is not installed", 0.0
    good, closing = True, ""
    for step in lane.steps:
        shown = " ".join(Path(part).name if part.startswith("/") else part for part in step)
        print(f"--- {lane.name}: {shown}", file=out, flush=True)
        process = subprocess.Popen(
            step,
            cwd=HOUSE,
            env=environment(),
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        assert process.stdout is not None
        for line in process.stdout:
            print(line, end="", file=out, flush=True)
            if re.search(r"\b\d+ (passed|failed|error)", line):
                closing = line.strip(" =\n")
        good &= process.wait() == 0
    return good, closing or f"{len(lane.steps)} checks", time.monotonic() - began


def main(wanted: list[str]) -> int:
    known = {lane.name.replace(" ", "-"): lane for lane in LANES}
    if unknown := set(wanted) - set(known):
        print(f"No such lane: {', '.join(sorted(unknown))}. There are: {', '.join(known)}")
        return 2
    began = time.monotonic()
    lanes = [known[name] for name in wanted] or LANES
    with tempfile.TemporaryDirectory(prefix="fitshop-lanes-") as folder, ThreadPoolExecutor() as by:
        os.environ["FITSHOP_LANES_FOLDER"] = folder
        (Path(folder) / "static").mkdir()
        beside = {lane.name: (out := StringIO(), by.submit(ran, lane, out)) for lane in lanes
                  if lane.is_waiting}  # fmt: skip
        found = {lane.name: ran(lane, sys.stdout) for lane in lanes if not lane.is_waiting}
        for name, (out, running) in beside.items():
            found[name] = running.result()
            print(out.getvalue(), flush=True)
    print()
    for lane in lanes:
        good, closing, took = found[lane.name]
        over = f"  over its budget of {lane.budget_s} s" if took > lane.budget_s else ""
        print(f"{'ok  ' if good else 'FAIL'}  {lane.name:22} {took:5.0f} s  {closing}{over}")
    all_good = all(good for good, _, _ in found.values())
    print(f"{'All lanes are good' if all_good else 'NOT GOOD'}: {time.monotonic() - began:.0f} s")
    return 0 if all_good else 1


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
