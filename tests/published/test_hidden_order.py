"""Balanced orders as printed."""

import pytest

from sessions.maths.hidden_order import williams_rows


def as_printed(rows: tuple[tuple[int, ...], ...]) -> list[str]:
    return ["".join(str(place + 1) for place in row) for row in rows]


@pytest.mark.published(
    key="bradley-1958",
    locator="square of order 6 made by the algorithm of the paper",
    value="126354 231465 342516 453621 564132 615243",
)
def test_the_square_of_order_six() -> None:
    assert as_printed(williams_rows(6)) == [
        "126354",
        "231465",
        "342516",
        "453621",
        "564132",
        "615243",
    ]


@pytest.mark.published(
    key="crossdes", locator="williams(4), printed output", value="1243 2314 3421 4132"
)
def test_the_square_of_order_four() -> None:
    # The package prints the same rows in another order of rows.
    assert sorted(as_printed(williams_rows(4))) == sorted(["1243", "2314", "3421", "4132"])
