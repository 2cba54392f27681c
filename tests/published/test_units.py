"""Factors as printed in the guide to the SI: exact, so nothing is tolerated but float."""

from decimal import Decimal as D

import pytest

from sessions.maths import units


@pytest.mark.published(
    key="nist-sp-811", locator="Appendix B.8, inch (in): 2.54 E-02 m, exact", value="2.54 E-02 m"
)
def test_an_inch() -> None:
    assert units.parse_length("35 in") == 35 * D("0.0254") * 1000


@pytest.mark.published(
    key="nist-sp-811", locator="Appendix B.8, yard (yd): 9.144 E-01 m, exact", value="9.144 E-01 m"
)
def test_a_yard() -> None:
    assert units.parse_distance("100 yd") == pytest.approx(91.44, abs=1e-12)


@pytest.mark.published(
    key="nist-sp-811",
    locator="Appendix B.8, mile per hour (mi/h): 4.4704 E-01 m/s, exact",
    value="4.4704 E-01 m/s",
)
def test_a_mile_per_hour() -> None:
    assert units.parse_speed("100 mph") == pytest.approx(44.704, abs=1e-12)


@pytest.mark.published(
    key="club-length-protocol", locator="clause 4.1: 48.0 in = 1.2192 m", value="1.2192 m"
)
def test_the_longest_club() -> None:
    assert units.parse_length("48") == D("1219.2")
