"""Home figures: bands only, only when nothing is missing, and each missing thing is said."""

import re
from dataclasses import replace

import pytest

from sessions.maths.air import Air
from sessions.maths.other_air import FlownCarry
from sessions.rules.home_air import (
    HomeFacts,
    air_sentences,
    home_air,
    home_carries,
    home_gap_words,
    home_words,
)

YARD = 0.9144
KNOWN = HomeFacts(
    home_place="A plateau course",
    home_altitude_m=1800,
    temperature_c=15,
    altitude_m=0,
    figures=("as flown",),
)


def test_two_airs_come_of_facts_that_are_all_there() -> None:
    air = home_air(KNOWN)
    assert air.missing == ()
    assert air.here == Air(15, 1013.25, 50)
    assert air.there is not None
    assert air.there.temperature_c == pytest.approx(3.3)
    assert air.place == "A plateau course, 1,800 m"


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"figures": ("as flown", None)}, "Were these as flown, or did the device normalise them?"),
        ({"figures": ("normalised by the device", "as flown")}, "would correct them twice"),
        ({"figures": ()}, "nothing to take home"),
        ({"home_altitude_m": None}, "how high A plateau course lies"),
        ({"home_altitude_m": None, "home_place": ""}, "where he or she plays"),
        ({"temperature_c": None}, "Note the air of the visit"),
        ({"altitude_m": None}, "Note the air of the visit"),
        ({"altitude_m": 1600, "pressure_hpa": 1013}, "1013 hPa is a sea-level figure"),
        ({"home_altitude_m": 9000.0}, "altitude of 9000 m is not believable"),
    ],
)
def test_each_missing_thing_is_said_and_no_figure_is_given(changed, said: str) -> None:
    air = home_air(replace(KNOWN, **changed))
    assert any(said in sentence for sentence in air.missing)
    assert home_carries(air, [FlownCarry(120, 46)]) == {}
    assert air_sentences(air) == ()


def test_everything_that_is_missing_is_said_at_once() -> None:
    facts = HomeFacts(home_place="A course", figures=(None, "normalised by the device"))
    assert len(home_air(facts).missing) == 4


def test_nothing_is_asked_for_a_home_nobody_spoke_of() -> None:
    air = home_air(HomeFacts(figures=(None,)))
    assert not air.is_wanted
    assert air.missing == (
        "Write on the player's page where he or she plays and how high it lies.",
    )
    assert home_air(KNOWN).is_wanted


def test_zero_is_a_figure() -> None:
    air = home_air(replace(KNOWN, temperature_c=0, humidity_pct=0, home_altitude_m=0, altitude_m=0))
    assert air.missing == ()
    assert air.here == air.there == Air(0, 1013.25, 0)


def test_a_pressure_goes_before_the_altitude_and_tells_how_high_the_place_lies() -> None:
    air = home_air(replace(KNOWN, pressure_hpa=898.75, altitude_m=None))
    assert air.there is not None
    # A thousand metres up already: the climb is 800 m, 5.2 degrees.
    assert air.there.temperature_c == pytest.approx(15 - 5.2, abs=0.01)


def test_the_band_is_said_as_a_band_and_gaps_grow() -> None:
    air = home_air(KNOWN)
    wedge = FlownCarry(140 * YARD, 47, 46, 25, 9800)
    next_one = FlownCarry(127 * YARD, 51.5)
    bands = home_carries(air, [wedge, next_one])
    # A good fitter expects about 153 to 157; the band of the three models may be a little wider.
    low, high = map(
        int, re.fullmatch(r"about (\d+) to (\d+) yd", home_words(bands[wedge], "yd")).groups()
    )
    assert 151 <= low <= 154
    assert 156 <= high <= 158
    assert home_gap_words(bands[wedge], bands[next_one], "yd") == "about 14 to 15 yd"


def test_the_same_air_is_said_without_a_spread() -> None:
    air = home_air(replace(KNOWN, home_altitude_m=0))
    flown = FlownCarry(140 * YARD, 47)
    assert home_words(home_carries(air, [flown])[flown], "yd") == "about 140 yd"


def test_a_carry_without_a_plausible_launch_is_left_out_and_the_others_stay() -> None:
    known, short = FlownCarry(110, 50), FlownCarry(12, 56)
    assert set(home_carries(home_air(KNOWN), [known, short])) == {known}


def test_the_sentences_say_that_nothing_was_measured_there() -> None:
    said = air_sentences(home_air(replace(KNOWN, wind_ms=4)))
    assert said[0].startswith("Worked out from the air, not measured")
    assert "16 % thinner than here" in said[1]
    assert "15 °C here, 3 °C there" in said[1]
    assert "Today's wind" in said[2]
    assert len(air_sentences(home_air(replace(KNOWN, wind_ms=1)))) == 2


def test_a_later_answer_fills_the_gap_and_overrules_no_block() -> None:
    later = replace(KNOWN, figures=("as flown", None), answered_later="as flown")
    assert home_air(later).missing == ()
    assert home_air(later).has_unanswered
    assert home_air(replace(later, answered_later="normalised by the device")).missing
    own = replace(KNOWN, figures=("normalised by the device",), answered_later="as flown")
    assert home_air(own).missing
