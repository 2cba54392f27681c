"""What bends came to, and what is left of a head's travel. Worked out by hand."""

from decimal import Decimal

import pytest

from orders.rules.metal import BendMade, assumed_after, bends_made, travel_left
from sessions.maths.bending import Bend, BendLimits


def made(*rows):
    return [
        BendMade(
            None if loft is None else Decimal(loft),
            None if loft is None else Decimal(64),
            Decimal(planned),
            Decimal(0),
        )
        for loft, planned in rows
    ]


def lofts(rows, read):
    value = None if read is None else Decimal(read)
    bends = bends_made(
        made(*rows), loft_read_deg=value, lie_read_deg=None if value is None else Decimal(64)
    )
    return [bend.loft_deg for bend in bends]


@pytest.mark.parametrize(
    ("rows", "read", "came_to"),
    [
        ([("56", "-1.5")], None, ["-1.5"]),  # nobody read it: as meant
        ([("56", "-1.5")], "54.8", ["-1.2"]),
        ([("56", "-1.5"), ("54.8", "-0.3")], "54.5", ["-1.2", "-0.3"]),
        ([("56", "-1.5"), ("54.8", "-0.3")], None, ["-1.2", "-0.3"]),
        # Two bends between two readings: 2.1 in all, of which 1 was meant by the first.
        ([("56", "-1"), (None, "-1")], "53.9", ["-1", "-1.1"]),
        # Bent past it and back: both count.
        ([("56", "-2"), ("54", "1")], "55", ["-2", "1"]),
    ],
)
def test_a_bend_comes_to_the_difference_of_the_readings_around_it(rows, read, came_to):
    assert lofts(rows, read) == [Decimal(figure) for figure in came_to]


def test_an_unread_head_is_where_its_last_bends_were_meant_to_bring_it():
    assert assumed_after([Decimal("-1.5"), Decimal("0.5")], [Decimal(56), None]) == Decimal(55)


def test_what_is_left_is_the_limit_less_the_travel_of_both_axes():
    """1.5 strong of 2: 0.5 strong, 2 weak; of lie the root of 4 - 2.25, 1.32, so 1.3."""
    limits = BendLimits(Decimal(2), Decimal(2), Decimal(2), Decimal(2))
    left = travel_left([Bend(Decimal("-1.5"), Decimal(0))], limits)
    assert (left.weak_deg, left.strong_deg) == (Decimal(2), Decimal("0.5"))
    assert (left.upright_deg, left.flat_deg) == (Decimal("1.3"), Decimal("1.3"))


def test_a_head_past_its_limit_has_nothing_left_that_way():
    limits = BendLimits(Decimal(2), Decimal(2), Decimal(1), Decimal(1))
    left = travel_left([Bend(Decimal("-2.1"), Decimal(0))], limits)
    assert (left.strong_deg, left.upright_deg, left.flat_deg) == (0, 0, 0)
