"""Means, spreads and intervals as printed."""

from importlib.resources import files

import pytest

from sessions.maths.dispersion import spread


@pytest.mark.published(
    key="berthouex-brown",
    locator="table 21.1, n = 5: interval of the mean +/- 1.24 s",
    value="1.24 s",
)
def test_the_interval_of_five_values() -> None:
    five = spread([1.0, 2.0, 3.0, 4.0, 5.0])
    assert five is not None
    assert five.sd is not None
    assert five.high is not None
    assert (five.high - five.mean) / five.sd == pytest.approx(1.24, abs=0.005)


@pytest.mark.published(
    key="student-1908", locator="Welch t of the sleep data: t = -1.8608", value="t = -1.8608"
)
def test_means_and_spreads_of_students_sleep_data() -> None:
    one = spread([0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0])
    two = spread([1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4])
    assert one is not None
    assert two is not None
    assert one.sd is not None
    assert two.sd is not None
    welch_t = (one.mean - two.mean) / (one.sd**2 / one.n + two.sd**2 / two.n) ** 0.5
    assert welch_t == pytest.approx(-1.8608, abs=5e-5)


@pytest.mark.published(
    key="nist-atmwtag",
    locator="line 44 on: within instrument, 46 df, sum of squares",
    value="1.04951729166667E-08",
)
def test_spread_of_the_silver_atomic_weights() -> None:
    # Seven leading digits are the same in every value: one-pass formulas lose them. The binary
    # representation of 107.868 leaves about nine digits of a spread of 0.000015.
    text = (files("scipy.stats.tests") / "data/nist_anova/AtmWtAg.dat").read_text()
    lines = text.splitlines()[60:]
    groups: dict[str, list[float]] = {}
    for line in lines:
        instrument, weight = line.split()
        groups.setdefault(instrument, []).append(float(weight))
    assert [len(group) for group in groups.values()] == [24, 24]
    within = 0.0
    for group in groups.values():
        found = spread(group)
        assert found is not None
        assert found.sd is not None
        within += found.sd**2 * (found.n - 1)
    assert within == pytest.approx(1.04951729166667e-08, rel=1e-9)
