"""The regression behind the line of carry, against certified values."""

from importlib.resources import files

import pytest

from sessions.maths.carry_line import LinePrior, LoftCarry, posterior_line


@pytest.mark.published(
    key="nist-norris",
    locator="lines 31 to 46, certified estimates",
    value="-0.262323073774029, 1.00211681802045, 0.884796396144373",
)
def test_with_no_belief_before_the_shots_the_line_is_least_squares() -> None:
    text = (files("scipy.stats.tests") / "data/nist_linregress/Norris.dat").read_text()
    pairs = [tuple(map(float, line.split())) for line in text.splitlines()[60:96]]
    assert len(pairs) == 36
    # Doubts so wide that nothing is believed; two degrees of freedom go to the two parameters.
    nothing = LinePrior(0.0, 0.0, 1e6, 1e6, spread=1e-6, spread_belief=-2.0)
    line = posterior_line(0.0, 1.0, [LoftCarry(x, y) for y, x in pairs], nothing)
    assert line.intercept_m == pytest.approx(-0.262323073774029, rel=1e-9)
    assert line.slope_m_per_deg == pytest.approx(1.00211681802045, rel=1e-12)
    assert line.shot_sd_m == pytest.approx(0.884796396144373, rel=1e-9)
    assert line.shot_sd_m * line.covariance[0][0] ** 0.5 == pytest.approx(
        0.232818234301152, rel=1e-9
    )
    assert line.shot_sd_m * line.covariance[1][1] ** 0.5 == pytest.approx(
        0.429796848199937e-3, rel=1e-9
    )
