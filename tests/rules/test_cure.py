"""How long epoxy keeps a club locked."""

from datetime import UTC, datetime
from decimal import Decimal as D

import pytest

from orders.declared import SETTINGS
from orders.rules.cure import CureLimits, cure_limits_from, cure_minutes, cured_at

LIMITS = CureLimits(hours=D(24), full_speed_c=D(20), double_at_c=D(15), least_c=D(10))


def test_the_defaults_are_the_trade_s_figures() -> None:
    assert cure_limits_from({setting.key: setting.default for setting in SETTINGS}) == LIMITS


@pytest.mark.common_practice
@pytest.mark.parametrize(
    ("celsius", "hours"), [("20", 24), ("21", 24), ("22", 24), ("30", 24), ("15", 48), ("10", 96)]
)
def test_it_cures_in_a_day_at_room_temperature_and_in_two_at_fifteen(
    celsius: str, hours: int
) -> None:
    assert cure_minutes(D(celsius), LIMITS) == hours * 60


@pytest.mark.common_practice
def test_nothing_cures_below_ten() -> None:
    assert cure_minutes(D("9.9"), LIMITS) is None
    assert cured_at(datetime(2025, 3, 3, tzinfo=UTC), D("9.9"), LIMITS) is None


def test_colder_never_cures_faster() -> None:
    minutes = [cure_minutes(D(tenths) / 10, LIMITS) for tenths in range(100, 260)]
    known = [one for one in minutes if one is not None]
    assert len(known) == 160
    assert known == sorted(known, reverse=True)


def test_the_lock_ends_at_an_hour_that_can_be_printed() -> None:
    mixed = datetime(2025, 3, 3, 9, 40, tzinfo=UTC)
    assert cured_at(mixed, D(21), LIMITS) == datetime(2025, 3, 4, 9, 40, tzinfo=UTC)
    assert cured_at(mixed, D(15), LIMITS) == datetime(2025, 3, 5, 9, 40, tzinfo=UTC)


def test_a_shop_with_two_equal_temperatures_gets_the_longer_time() -> None:
    odd = CureLimits(hours=D(24), full_speed_c=D(20), double_at_c=D(20), least_c=D(10))
    assert cure_minutes(D(20), odd) == 24 * 60
    assert cure_minutes(D("19.9"), odd) == 48 * 60
