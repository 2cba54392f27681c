"""What a player reads of a spec: no word of the workshop, and nothing that isn't so."""

from decimal import Decimal

import pytest

from sessions.rules.player_words import (
    degrees_said,
    leaves_the_bag,
    plainly,
    said_to_the_player,
    to_its_owner,
    wish_answered,
)


@pytest.mark.parametrize(
    ("degrees", "said"),
    [
        ("0.25", "a quarter of a degree"),
        ("0.5", "half a degree"),
        ("0.7", "0.7 of a degree"),
        ("1", "one degree"),
        ("1.0", "one degree"),
        ("1.5", "1.5 degrees"),
    ],
)
def test_degrees_are_said_as_one_says_them(degrees: str, said: str) -> None:
    assert degrees_said(Decimal(degrees)) == said


@pytest.mark.parametrize(
    ("trade", "plain"),
    [
        # Weak is more loft, strong is less; upright and flat are of the lie.
        ("54.5° (stamped 54, bent 0.5 weak)", "54.5° (stamped 54, half a degree of loft added)"),
        ("53° (stamped 54, bent 1 strong)", "53° (stamped 54, one degree of loft taken off)"),
        ("65° (head 64, bent 1 upright)", "65° (head 64, one degree more upright)"),
        ("62° (measured 64, bent 2 flat)", "62° (measured 64, 2 degrees flatter)"),
        (
            "35 1/4 in, on the 60 degree plane (Rules)",
            "35 1/4 in, sole to grip end, as the Rules measure it",
        ),
        ("54°", "54°"),
    ],
)
def test_a_line_of_a_club_is_said_plainly(trade: str, plain: str) -> None:
    assert plainly(trade) == plain


def test_what_is_the_player_s_own_is_your_club() -> None:
    assert to_its_owner("Own 60") == "Your 60"
    assert to_its_owner("own Old 56, Skerrow") == "your old 56, Skerrow"
    assert to_its_owner("Owner's edge") == "Owner's edge"
    assert to_its_owner("Sand wedge") == "Sand wedge"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("52", "Your old 52 leaves the bag."),
        ("Old 52", "Your old 52 leaves the bag."),
        ("driver", "Your driver leaves the bag."),
        ("hybrids", "One of your hybrids leaves the bag."),
        ("another of the hybrids", "Another of your hybrids leaves the bag."),
    ],
)
def test_what_leaves_the_bag_is_a_sentence(words: str, said: str) -> None:
    assert leaves_the_bag(words) == said


@pytest.mark.parametrize(
    ("row", "said"),
    [
        (("Keep", "Chip", "kept"), "Your chips: as good as before."),
        (("Keep", "Pitch", "lost"), "Your pitches: not as good as before."),
        (
            ("Keep", "Chip", "not shown"),
            "Your chips: that day's balls don't show it, so we can't say.",
        ),
        (("Fix", "Full", "fixed"), "Your full shots: better than before."),
        (("Fix", "Half", "not fixed"), "Your half shots: no better than before."),
        (
            ("Fix", "Sand", "not_shown"),
            "Your shots from sand: that day's balls don't show it, so we can't say.",
        ),
        (("Fix", "Flop", ""), "You wanted to improve your flop shots."),
    ],
)
def test_a_wish_is_answered_to_a_golfer(row: tuple[str, str, str], said: str) -> None:
    assert wish_answered(*row) == said


def test_the_frozen_values_are_left_as_they_were_signed() -> None:
    club = {
        "slot": 3, "name": "Own 60", "source": "yours, stays as it is", "loft": "60.1°",
        "lines": [["Head", "own 60, Skerrow"]], "why": "The player trusts it",
    }  # fmt: skip
    values = {
        "clubs": [club],
        "gaps": [["Own 60, 60.1°", "86 yd", ""]],
        "leaving": ["52"],
        "keep_fix": [],
    }
    said = said_to_the_player(values)
    assert said["clubs"][0]["name"] == "Your 60"
    assert said["clubs"][0]["lines"] == [["Head", "your 60, Skerrow"]]
    assert said["clubs"][0]["why"] == "You trust it"
    assert said["rows_before"] == [["Your 60, 60.1°", "86 yd", ""]]
    assert (club["name"], values["leaving"]) == ("Own 60", ["52"])
