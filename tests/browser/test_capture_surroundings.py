"""Each swing has its own surroundings; what the next ball is recorded with is in sight."""

from __future__ import annotations

import re
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.test_capture import (
    all_sent,
    own_club_in_hand,
    room,
    state_of,
    tap,
    trial_club_in_hand,
    typed,
)
from tests.browser.test_capture_taking_back import DRAWN, undo

pytestmark = pytest.mark.browser


def line(page: Page) -> Locator:
    return page.locator(".standing")


def swing(page: Page, name: str) -> None:
    page.get_by_role("group", name="Swing", exact=True).get_by_role(
        "button", name=re.compile(f"^{name}(,|$)")
    ).click()


def choose(page: Page, *words: tuple[str, str], target: str = "") -> None:
    """On the sheet behind the line: group and word."""
    line(page).click()
    for group, word in words:
        page.get_by_role("group", name=group, exact=True).get_by_role(
            "button", name=word, exact=True
        ).click()
    if target:
        page.get_by_label("Target").fill(target)
    page.get_by_role("button", name="Back to the balls").first.click()


def blocks(page: Page, visit: dict[str, str]) -> list[dict[str, Any]]:
    page.evaluate(DRAWN)
    all_sent(page)
    return [block for trial in state_of(page, visit)["trials"] for block in trial["blocks"]]


def on_the_pad(page: Page, figure: str) -> None:
    """Beside the ratings, whose keys are figures as well."""
    pad = page.get_by_role("group", name="Carry, typed")
    for digit in figure:
        pad.get_by_role("button", name=digit, exact=True).click()
    page.get_by_role("button", name=f"Record {figure}").click()


def full_from_the_fairway(page: Page, visit: dict[str, str]) -> None:
    room(page, visit, "trials")
    trial_club_in_hand(page, "Oak 5")
    choose(page, ("From", "fairway"), ("Ball", "premium"))
    typed(page, "84")


def test_one_tap_from_full_to_sand_and_back_restores_each_ones_own(
    fitter: Page, visit: dict[str, str]
) -> None:
    full_from_the_fairway(fitter, visit)
    swing(fitter, "Sand")
    expect(line(fitter)).to_contain_text("New here: Sand, firm")
    choose(fitter, ("From", "sand, wet"), ("Face", "wide open"), target="20")
    typed(fitter, "18")
    swing(fitter, "Full")
    expect(line(fitter)).to_contain_text("Fairway, normal, dry. Face square. Premium ball.")
    tap(fitter, 85)
    swing(fitter, "Sand")
    expect(line(fitter)).to_contain_text("Sand, wet, normal, dry. Face wide open.")
    tap(fitter, 19)
    told = [(one["swing"], one["hit_from"], one["face"], one["target"])
            for one in blocks(fitter, visit)]  # fmt: skip
    assert told == [
        ("full", "fairway", "square", ""),
        ("sand", "sand_wet", "wide_open", "20"),
        ("full", "fairway", "square", ""),
        ("sand", "sand_wet", "wide_open", "20"),
    ]


def test_a_change_that_was_not_hit_in_survives_a_page_load_and_is_no_fact(
    fitter: Page, visit: dict[str, str]
) -> None:
    full_from_the_fairway(fitter, visit)
    choose(fitter, ("Dry or wet", "wet"))
    swing(fitter, "Chip")
    choose(fitter, ("From", "rough"))
    all_sent(fitter)
    assert [one["swing"] for one in blocks(fitter, visit)] == ["full"]
    fitter.reload()
    expect(line(fitter)).to_contain_text("Rough, normal, wet.")
    swing(fitter, "Full")
    expect(line(fitter)).to_contain_text("Fairway, normal, wet.")
    assert [one["swing"] for one in blocks(fitter, visit)] == ["full"]
    typed(fitter, "85")
    assert [(one["swing"], one["wetness"]) for one in blocks(fitter, visit)] == [
        ("full", "dry"), ("full", "wet"),
    ]  # fmt: skip


def test_a_tablet_that_knows_nothing_has_each_swings_surroundings_from_the_shop(
    fitter: Page, visit: dict[str, str]
) -> None:
    full_from_the_fairway(fitter, visit)
    swing(fitter, "Sand")
    choose(fitter, ("From", "sand, fluffy"))
    typed(fitter, "18")
    all_sent(fitter)
    fitter.evaluate("localStorage.clear()")
    fitter.reload()
    expect(line(fitter)).to_contain_text("Sand, fluffy")
    swing(fitter, "Full")
    expect(line(fitter)).to_contain_text("Fairway, normal, dry.")


def test_all_that_the_next_ball_is_recorded_with_can_be_read(
    fitter: Page, visit: dict[str, str]
) -> None:
    full_from_the_fairway(fitter, visit)
    choose(fitter, ("Spin is", "estimated"), ("The device's figures are", "as flown"), target="90")
    swings = fitter.get_by_role("group", name="Swing", exact=True)
    expect(swings.get_by_role("button", name="Full, 90")).to_be_visible()
    for width, height in ((1024, 768), (390, 844)):
        fitter.set_viewport_size({"width": width, "height": height})
        for words in (
            "Fairway, normal, dry", "Face square", "Premium ball", "Seen to land",
            "Spin estimated", "As flown",
        ):  # fmt: skip
            expect(line(fitter)).to_contain_text(words)
        cut = "(one) => one.scrollWidth > one.clientWidth || one.scrollHeight > one.clientHeight"
        assert not line(fitter).locator("> span").first.evaluate(cut)


def test_a_hidden_club_carries_its_blocks_surroundings_over_a_page_load_and_a_turn(
    fitter: Page, visit: dict[str, str]
) -> None:
    full_from_the_fairway(fitter, visit)
    fitter.get_by_role("button", name="Next club").click()
    trial_club_in_hand(fitter, "Elm 3", "Sole")
    expect(line(fitter)).to_contain_text("Fairway, normal, dry. Face square. Premium ball.")
    typed(fitter, "86")
    fitter.get_by_role("link", name="Compare").click()
    for club in fitter.get_by_role("group", name="Clubs to compare").get_by_role("button").all():
        club.click()
    fitter.get_by_role("button", name="Draw the order").click()
    expect(fitter.locator(".neutral")).to_be_visible()
    all_sent(fitter)
    fitter.evaluate("localStorage.clear()")
    fitter.reload()
    expect(line(fitter)).to_contain_text("Fairway, normal, dry. Face square. Premium ball.")
    on_the_pad(fitter, "85")
    fitter.get_by_role("button", name=re.compile("^Next: ")).click()
    on_the_pad(fitter, "85")
    found = blocks(fitter, visit)
    assert [(one["hit_from"], one["ball"]) for one in found] == [("fairway", "premium")] * 2


def test_undo_takes_a_change_of_the_surroundings_back(fitter: Page, visit: dict[str, str]) -> None:
    full_from_the_fairway(fitter, visit)
    swing(fitter, "Sand")
    expect(undo(fitter)).to_contain_text("Sand, back to Full")
    undo(fitter).click()
    expect(line(fitter)).to_contain_text("Fairway")
    choose(fitter, ("Dry or wet", "wet"))
    expect(undo(fitter)).to_contain_text("wet")
    undo(fitter).click()
    expect(line(fitter)).to_contain_text("Fairway, normal, dry.")
    expect(undo(fitter)).to_contain_text("ball 84")


def chip_among_full_swings(page: Page, visit: dict[str, str]) -> None:
    room(page, visit, "baseline")
    own_club_in_hand(page)
    typed(page, "84")
    for carry in (82, 86):
        tap(page, carry)
    page.get_by_role("button", name="Other figure").click()
    typed(page, "27")
    expect(page.get_by_text("27: was that a chip?")).to_be_visible()
    # A third of a second on, the same place is armed again.
    expect(page.locator(".is-arming")).to_have_count(0)


def test_a_chip_among_full_swings_is_put_where_it_was_hit_in_one_tap(
    fitter: Page, visit: dict[str, str]
) -> None:
    chip_among_full_swings(fitter, visit)
    fitter.get_by_role("button", name="Yes, a chip").click()
    expect(fitter.get_by_text("was that a chip?")).to_have_count(0)
    expect(fitter.locator(".tally")).to_contain_text("3 balls, mean 84 yd")
    # What is hit next stays as it was.
    expect(line(fitter)).to_contain_text("Mat")
    found = [
        (one["swing"], [(shot["carry"], shot["left_out"]) for shot in one["shots"]])
        for one in blocks(fitter, visit)
    ]
    assert found == [
        ("full", [(84, None), (82, None), (86, None), (27, "mistyped")]),
        ("chip", [(27, None)]),
    ]
    undo(fitter).click()
    expect(fitter.locator(".tally")).to_contain_text("4 balls")


def test_a_ball_that_stays_is_asked_about_once(fitter: Page, visit: dict[str, str]) -> None:
    chip_among_full_swings(fitter, visit)
    fitter.get_by_role("button", name="No, it stays").click()
    question = fitter.get_by_text("was that a chip?")
    expect(question).to_have_count(0)
    all_sent(fitter)
    fitter.reload()
    expect(fitter.locator(".tally")).to_contain_text("4 balls")
    expect(question).to_have_count(0)


def test_the_question_is_in_nobodys_way(fitter: Page, visit: dict[str, str]) -> None:
    chip_among_full_swings(fitter, visit)
    fitter.get_by_role("button", name="Other figure").click()
    typed(fitter, "85")
    expect(fitter.get_by_text("27: was that a chip?")).to_be_visible()
    shots = [shot["carry"] for one in blocks(fitter, visit) for shot in one["shots"]]
    assert shots == [84, 82, 86, 27, 85]
