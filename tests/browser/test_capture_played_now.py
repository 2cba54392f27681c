"""One change at a time: counted against the last club, and against the one played now."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.test_capture import all_sent, room, trial_club_in_hand

pytestmark = pytest.mark.browser


def test_the_club_in_hand_is_counted_against_the_last_one_and_the_one_played_now(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "bag")
    fitter.get_by_role("button", name="Add a club").click()
    fitter.get_by_label("What the player calls it").fill("old 56")
    fitter.get_by_label("Loft, stamped").fill("56")
    fitter.get_by_label("Loft, measured").fill("54")
    fitter.get_by_label("Bounce, stamped").fill("14")
    fitter.get_by_role("button", name="Record this club").click()
    all_sent(fitter)
    fitter.get_by_role("link", name="Trials").click()
    trial_club_in_hand(fitter, "Oak 5")
    hand = fitter.get_by_role("region", name="Club in hand")
    # Oak 5 reads 56.1 with 10; the old 56 was read as 54, so its 14 of bounce has become 12.
    hand.get_by_text("Against your old 56, played now: 2 things differ").click()
    expect(hand).to_contain_text("2 things differ: there is no telling which of them did it.")
    expect(hand).to_contain_text("loft 56.1° against 54°")
    expect(hand).to_contain_text("Not known: length, shaft, lie and grip.")

    # Before the next is handed over, how it would stand; once it is the old 56 itself, nothing.
    fitter.get_by_role("button", name="Next club").click()
    fitter.get_by_role("group", name="Head").get_by_role("button", name=re.compile("Elm 3")).click()
    choosing = fitter.get_by_role("region", name="Next club")
    # Elm 3 reads 56.2 with 12.1: a tenth more bounce than the old 56's 12 is no other sole.
    expect(choosing).to_contain_text(
        "Against your old 56, played now: loft 56.2° against 54°. "
        "Not known: length, shaft, lie, sole and grip."
    )
    choosing.get_by_role("button", name="Player's own").click()
    choosing.get_by_role("button", name=re.compile("old 56")).click()
    expect(choosing).not_to_contain_text("played now")
    choosing.get_by_role("button", name="Hand it over").click()
    expect(hand).to_contain_text("old 56")
    expect(hand).not_to_contain_text("played now")
