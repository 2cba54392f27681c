"""A sea-level pressure is not taken for the place's own."""

import pytest

from sessions.rules.air_noted import NO_ALTITUDE, pressure_doubt, pressure_noted

# The standard atmosphere at 1,600 m on the map, by hand: geopotential 1600 x 6356766 / 6358366 =
# 1599.6 m; 1 - 0.0065 x 1599.6 / 288.15 = 0.9639167, its logarithm -0.0367504, times 5.25588
# -0.193156: 0.824354; 1013.25 x 0.824354 = 835.28 hPa. Four per cent more 868.69, less 801.87.


def test_a_sea_level_figure_high_up_is_named_with_the_way_out() -> None:
    assert pressure_doubt(1013, 1600) == (
        "1013 hPa is a sea-level figure: at this place, 1,600 m up, it is about 835 hPa. "
        "From a weather report, type: 1013 sea level."
    )


@pytest.mark.parametrize("pressure", [868.6, 801.9, 835.0])
def test_what_weather_may_do_passes(pressure: float) -> None:
    assert pressure_doubt(pressure, 1600) == ""
    assert pressure_noted(pressure, 1600).pressure_hpa == pressure


@pytest.mark.parametrize("pressure", [868.8, 801.7])
def test_what_no_weather_does_is_asked_about(pressure: float) -> None:
    assert pressure_doubt(pressure, 1600)
    assert pressure_noted(pressure, 1600).pressure_hpa is None


def test_a_pressure_too_low_is_said_to_fit_nothing() -> None:
    assert pressure_doubt(835, 0) == (
        "835 hPa does not fit: at this place, 0 m up, it is about 1013 hPa. "
        "Look at both figures again."
    )


def test_without_an_altitude_a_pressure_is_taken_and_a_report_is_asked_for_it() -> None:
    assert pressure_noted(1013, None).pressure_hpa == 1013
    assert pressure_noted(1013, None, is_from_report=True).refusal == NO_ALTITUDE
    assert pressure_noted(None, 1600, is_from_report=True).refusal == ""


def test_a_report_s_pressure_is_taken_down_to_the_place() -> None:
    # 1020 x 0.824354 = 840.84.
    noted = pressure_noted(1020, 1600, is_from_report=True)
    assert noted.pressure_hpa == pytest.approx(840.84, abs=0.01)


def test_a_report_that_is_none_is_refused_in_words() -> None:
    assert "not believable" in pressure_noted(835, 1600, is_from_report=True).refusal
