"""What a wrong lie does at a distance, as printed."""

import pytest

from sessions.maths.delivery import lie_error


@pytest.mark.published(
    key="lie-angle-text",
    locator="worked example: 46 degrees of loft, 4 too upright, 120 yards",
    value="about 26 ft",
)
def test_a_lie_four_degrees_too_upright_at_a_hundred_and_twenty_yards() -> None:
    feet = 3 * abs(lie_error(46.0, 4.0, "right").side_m(120))
    assert feet == pytest.approx(26, abs=0.5)
