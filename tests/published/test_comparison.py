"""The pooled spread of two clubs, against certified values."""

from importlib.resources import files

import pytest

from sessions.maths.comparison import difference_of_clubs


@pytest.mark.published(
    key="nist-atmwtag",
    locator="certified residual standard deviation",
    value="1.51048314446410E-05",
)
def test_the_pooled_spread_of_two_instruments() -> None:
    text = (files("scipy.stats.tests") / "data/nist_anova/AtmWtAg.dat").read_text()
    pairs = [line.split() for line in text.splitlines()[60:]]
    one, two = ([float(weight) for name, weight in pairs if name == which] for which in "12")
    found = difference_of_clubs(one, two, margin=1e-3)
    # The binary representation of 107.868 leaves about nine digits of so small a spread.
    assert found.pooled_sd == pytest.approx(1.51048314446410e-05, rel=1e-9)
