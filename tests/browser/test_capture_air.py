"""The air of the day, written down between two clubs."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.test_capture import all_sent, own_club_in_hand, room, state_of

pytestmark = pytest.mark.browser


def test_the_air_is_recorded_and_said_and_a_wrong_figure_stays_beside_its_field(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "baseline")
    own_club_in_hand(fitter)
    fitter.get_by_role("button", name="The air").click()
    expect(fitter.get_by_role("button", name="Record the air")).to_be_disabled()
    fitter.get_by_label("Temperature").fill("12,5")
    fitter.get_by_label("Pressure").fill("mild")
    fitter.get_by_role("button", name="Record the air").click()
    expect(fitter.locator("#air-pressure-error")).to_contain_text(
        "Type a pressure in hPa, for example 1013."
    )
    expect(fitter.get_by_label("Pressure")).to_have_value("mild")
    assert state_of(fitter, visit)["air"] == ""

    fitter.get_by_label("Pressure").fill("1009")
    fitter.get_by_label("Wind", exact=True).fill("10 mph")
    fitter.get_by_role("button", name="Record the air").click()
    expect(fitter.locator("#air-pressure-error")).to_have_count(0)
    all_sent(fitter)
    expect(fitter.get_by_text("12.5 °C, 1009 hPa, 4.5 m/s wind")).to_be_visible()
