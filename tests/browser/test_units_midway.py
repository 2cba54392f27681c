"""The player's unit is changed while a tablet is on the range."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.test_capture import all_sent, own_club_in_hand, room, state_of, typed

pytestmark = pytest.mark.browser


def test_fifty_yards_never_become_fifty_metres(fitter: Page, visit: dict[str, str]) -> None:
    room(fitter, visit, "baseline")
    own_club_in_hand(fitter)
    fitter.get_by_role("button", name="Face square").click()
    fitter.get_by_label("Target").fill("50")
    fitter.get_by_role("button", name="Back to the balls").first.click()
    typed(fitter, "48")
    all_sent(fitter)

    desk = fitter.context.new_page()
    desk.goto(f"/players/{visit['player']}/edit")
    desk.get_by_label("metres").check()
    desk.get_by_role("button", name="Save").click()
    desk.wait_for_url(lambda url: not url.endswith("/edit"))
    desk.close()
    expect(fitter.locator(".visit-who")).to_contain_text("metres", timeout=20_000)

    fitter.get_by_role("group", name="Carry: one tap records").get_by_role("button").first.click()
    all_sent(fitter)
    (trial,) = state_of(fitter, visit)["trials"]
    # 50 yd are 45.72 m (NIST SP 811), shown to a tenth.
    assert {round(float(block["target"]), 1) for block in trial["blocks"]} == {45.7}
    assert sum(len(block["shots"]) for block in trial["blocks"]) == 2
