"""A part withdrawn elsewhere while its club is in the hand: said on the tablet without a tap."""

from __future__ import annotations

import re
import time

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import Shop, signed_in
from tests.browser.test_capture import (
    all_sent,
    room,
    state_of,
    trial_club_in_hand,
    typed,
)

pytestmark = pytest.mark.browser
WITHIN_S = 15  # a look every 5 s, on a busy machine


def withdraw(page: Page, mark: str, why: str) -> None:
    """At the Parts page, as a manager does."""
    page.goto("/parts")
    page.get_by_text(f"Withdraw now {mark}", exact=True).click()
    thing = page.locator("details.withdraw[open]")
    thing.get_by_label("Or in words").fill(why)
    thing.get_by_role("button", name=f"Withdraw {mark}").click()
    expect(page.get_by_text(f"{mark} is withdrawn on every tablet")).to_be_visible()


def test_a_withdrawal_reaches_the_tablet_without_a_tap_and_disturbs_no_typing(
    chromium: Browser, fitter: Page, shop: Shop, visit: dict[str, str]
) -> None:
    room(fitter, visit, "trials")
    trial_club_in_hand(fitter, "Elm 1")
    typed(fitter, "104")
    all_sent(fitter)
    # In the middle of a figure on the pad.
    fitter.get_by_role("button", name="Other figure").click()
    for digit in "10":
        fitter.get_by_role("button", name=digit, exact=True).click()
    manager = signed_in(chromium, shop, "manager")
    withdraw(manager, "Elm 1", "Hosel cracked")
    began = time.monotonic()

    stop = fitter.get_by_role("alert", name="Stop")
    expect(stop).to_be_visible(timeout=WITHIN_S * 1000)
    print(f"told after {time.monotonic() - began:.1f} s")
    expect(stop).to_contain_text(
        re.compile(
            r"^Elm 1: Withdrawn \d\d:\d\d by .+: Hosel cracked\. "
            r"Stop and take it out of the bay\."
        )
    )
    expect(fitter.locator(".pad-figure")).to_have_text("10")
    # What was hit before is a fact and is still taken.
    fitter.get_by_role("button", name="3", exact=True).click()
    fitter.get_by_role("button", name="Record 103").click()
    expect(fitter.locator(".tally")).to_contain_text("2 balls")
    all_sent(fitter)
    # Another situation with it is not.
    fitter.get_by_role("group", name="Swing").get_by_role("button", name="Half").click()
    expect(fitter.get_by_text("Nothing new with this club")).to_be_visible()
    expect(fitter.get_by_role("button", name=re.compile("^Record"))).to_be_disabled()

    stop.get_by_role("button", name="It is out of the bay").click()
    expect(stop).to_have_count(0)
    all_sent(fitter)
    [trial] = state_of(fitter, visit)["trials"]
    assert trial["state"] == "finished"
    assert [shot["carry"] for block in trial["blocks"] for shot in block["shots"]] == [104, 103]
    # It is on no shelf any more.
    head = fitter.get_by_role("group", name="Head", exact=True)
    expect(head.get_by_role("button", name=re.compile("Elm 2"))).to_be_visible()
    expect(head.get_by_role("button", name=re.compile("Elm 1"))).to_have_count(0)
    manager.context.close()


def test_an_unchanged_visit_is_asked_about_lightly(fitter: Page, visit: dict[str, str]) -> None:
    room(fitter, visit, "baseline")
    # Only where the minute changes between two looks is the clock told anew: then the one after.
    with fitter.expect_response(
        lambda answer: answer.url.endswith("/state") and answer.status == 304, timeout=20_000
    ):
        pass


def test_a_closed_visit_says_that_it_is_closed(fitter: Page, visit: dict[str, str]) -> None:
    def closed(route) -> None:  # type: ignore[no-untyped-def]
        answer = route.fetch()
        told = answer.json()
        told["visit"]["state"] = "closed"
        told["me"]["may_capture"] = False
        route.fulfill(response=answer, json=told)

    fitter.route("**/state", closed)
    room(fitter, visit, "trials")
    expect(fitter.get_by_text("This visit is closed.")).to_be_visible()
    expect(fitter.get_by_text("Recording is for the fitters")).to_have_count(0)
    expect(fitter.get_by_role("button", name="Hand it over")).to_have_count(0)
    fitter.get_by_role("link", name="Interview").click()
    expect(fitter.get_by_role("button", name="Ask later").first).to_be_disabled()


def test_the_first_club_again_is_offered_to_show_drift(fitter: Page, visit: dict[str, str]) -> None:
    room(fitter, visit, "trials")
    trial_club_in_hand(fitter, "Oak 5")
    typed(fitter, "84")
    fitter.get_by_role("button", name="Next club").click()
    expect(fitter.get_by_role("button", name="The first again")).to_have_count(0)
    trial_club_in_hand(fitter, "Elm 3", "Sole")
    typed(fitter, "86")
    all_sent(fitter)
    fitter.get_by_role("button", name="Next club").click()
    fitter.get_by_role("button", name="The first again").click()
    hand_over = fitter.get_by_role("button", name="Hand it over")
    expect(hand_over).to_be_disabled()
    fitter.get_by_label("Head tight: checked").check()
    hand_over.click()
    expect(fitter.get_by_role("region", name="Club in hand")).to_contain_text("Pellowick Marram")


def test_two_chosen_changes_are_said_and_what_comes_along_is_small(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "trials")
    trial_club_in_hand(fitter, "Oak 5")
    typed(fitter, "84")
    all_sent(fitter)
    fitter.get_by_role("button", name="Next club").click()
    head = fitter.get_by_role("group", name="Head", exact=True)
    head.get_by_role("button", name=re.compile("^Oak 2")).click()
    changes = fitter.get_by_role("group", name="What did you choose to change?")
    changes.get_by_role("button", name="Loft").click()
    expect(fitter.locator(".chosen-change")).to_have_text(["loft 50°, was 56.1°"])
    expect(fitter.locator(".next-part .also")).to_contain_text("Also different: ")
    expect(fitter.get_by_text("nothing is proved about either")).to_have_count(0)
    changes.get_by_role("button", name="Shaft").click()
    expect(
        fitter.get_by_text("2 chosen changes at once: nothing is proved about either.")
    ).to_be_visible()
