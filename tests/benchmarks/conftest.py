"""`make bench` runs what is here; `make test` does not collect it (files are named bench_*.py)."""

from collections.abc import Iterator

import pytest

from tests.benchmarks.board import Board


@pytest.fixture(scope="session")
def board() -> Iterator[Board]:
    """Takes down what each benchmark found; the page is written when all have run."""
    page = Board()
    yield page
    page.write()
