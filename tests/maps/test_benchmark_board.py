"""The page of benchmarks: each writes its own section and leaves the others alone."""

from pathlib import Path

import pytest

from tests.benchmarks.board import Board
from tests.benchmarks.stopwatch import Timed, race


def test_a_benchmark_replaces_its_own_section_only(tmp_path: Path) -> None:
    page = tmp_path / "benchmarks.md"
    before = Board(page)
    before.table("Stopping", ["difference", "stopped"], [["0", "4.8 %"]], note="Simulated.")
    before.race("Flight", "ten", Timed((1.0,), (90.0,)), baseline="one by one", at_least=80)
    before.write()
    again = Board(page)
    again.race("Flight", "ten", Timed((0.5,), (50.0,)), baseline="one by one", at_least=80)
    again.race("Flight", "two", Timed((0.5,), (45.0,)), baseline="one by one", at_least=80)
    again.write()
    text = page.read_text()
    assert "| 0 | 4.8 % |" in text
    assert "Simulated." in text
    assert "| ten | 500.00 ms | one by one | 50.00 s | 100.0 | 80 |" in text
    assert "| two | 500.00 ms | one by one | 45.00 s | 90.0 | 80 |" in text
    assert "1.00 s" not in text
    assert text.count("## Flight") == 1
    assert text.count("| times as fast |") == 1


def test_a_ratio_below_what_is_wanted_fails_and_is_written_all_the_same(tmp_path: Path) -> None:
    board = Board(tmp_path / "benchmarks.md")
    slow = Timed((1.0, 1.0, 9.0), (79.0, 79.0, 900.0))
    with pytest.raises(AssertionError, match=r"79\.0 times, 80 wanted"):
        board.race("Flight", "ten", slow, baseline="one by one", at_least=80)
    board.write()
    assert "| 79.0 | 80 |" in board.page.read_text()


def test_a_race_to_another_result_is_refused() -> None:
    with pytest.raises(AssertionError, match="another result"):
        race(ours=lambda: 1, baseline=lambda: 2, is_same=lambda one, two: one == two)


def test_a_race_times_both_seven_times_after_the_warm_up() -> None:
    calls: list[str] = []

    def ours() -> int:
        calls.append("ours")
        return 1

    def baseline() -> int:
        calls.append("baseline")
        return 1

    timed = race(ours=ours, baseline=baseline, is_same=lambda one, two: one == two)
    assert calls == ["ours", "baseline"] * 8
    assert len(timed.ours_s) == len(timed.baseline_s) == 7
