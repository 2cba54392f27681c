"""The size of a point of swing weight, as printed."""

import pytest

from sessions.maths.balance import G_PER_OUNCE, moment_of_swing_weight


@pytest.mark.published(
    key="swing-weight-text", locator="a point is about 50 gram-inches", value="50 g in"
)
def test_a_point_is_about_fifty_gram_inches() -> None:
    point = (moment_of_swing_weight(1) - moment_of_swing_weight(0)) * G_PER_OUNCE
    # Printed as a round figure: half of its last digit.
    assert point == pytest.approx(50, abs=0.5)
