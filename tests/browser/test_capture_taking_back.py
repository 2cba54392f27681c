"""Undo takes back the last act and says which; a double tap is one ball; Fat may mean the last."""

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

pytestmark = pytest.mark.browser


def undo(page: Page) -> Locator:
    return page.locator("button.undo")


DRAWN = "() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))"


def shots(page: Page, visit: dict[str, str]) -> list[dict[str, Any]]:
    page.evaluate(DRAWN)
    all_sent(page)
    return [
        shot
        for trial in state_of(page, visit)["trials"]
        for block in trial["blocks"]
        for shot in block["shots"]
    ]


def balls(page: Page, visit: dict[str, str]) -> list[tuple[float, str, str | None]]:
    return [(one["carry"], one["strike"], one["left_out"]) for one in shots(page, visit)]


def two_balls(page: Page, visit: dict[str, str]) -> None:
    room(page, visit, "baseline")
    own_club_in_hand(page)
    typed(page, "84")
    tap(page, 86)
    expect(undo(page)).to_contain_text("ball 86")


def test_undo_after_misread_takes_back_the_misread_and_not_a_ball(
    fitter: Page, visit: dict[str, str]
) -> None:
    two_balls(fitter, visit)
    fitter.get_by_role("button", name=re.compile("^Ball 2: 86")).click()
    fitter.get_by_role("button", name="Misread: leave it out").click()
    expect(undo(fitter)).to_contain_text("misread on 86")
    assert balls(fitter, visit) == [(84, "", None), (86, "", "misread")]
    undo(fitter).click()
    expect(undo(fitter)).to_contain_text("ball 86")
    assert balls(fitter, visit) == [(84, "", None), (86, "", None)]
    undo(fitter).click()
    expect(undo(fitter)).to_contain_text("ball 84")
    assert balls(fitter, visit) == [(84, "", None), (86, "", "undone")]


def test_a_ball_that_was_recorded_as_misread_is_taken_back_as_one_act(
    fitter: Page, visit: dict[str, str]
) -> None:
    two_balls(fitter, visit)
    fitter.get_by_role("button", name="Misread", exact=True).click()
    expect(undo(fitter)).to_contain_text("misread, next ball")
    tap(fitter, 87)
    undo(fitter).click()
    assert balls(fitter, visit) == [(84, "", None), (86, "", None), (87, "", "undone")]


def test_a_word_that_is_said_of_the_next_ball_is_taken_back_before_the_last_ball(
    fitter: Page, visit: dict[str, str]
) -> None:
    two_balls(fitter, visit)
    fat = fitter.get_by_role("button", name="Fat", exact=True)
    fat.click()
    expect(undo(fitter)).to_contain_text("fat, next ball")
    undo(fitter).click()
    expect(fat).to_have_attribute("aria-pressed", "false")
    assert balls(fitter, visit) == [(84, "", None), (86, "", None)]


def test_what_undo_would_take_back_survives_a_page_load(
    fitter: Page, visit: dict[str, str]
) -> None:
    two_balls(fitter, visit)
    fitter.get_by_role("button", name=re.compile("^Ball 1: 84")).click()
    fitter.get_by_role("button", name="Misread: leave it out").click()
    all_sent(fitter)
    fitter.reload()
    expect(undo(fitter)).to_contain_text("misread on 84")
    # A tablet that did none of it offers the last ball it sees, and says so.
    fitter.evaluate("localStorage.clear()")
    fitter.reload()
    expect(undo(fitter)).to_contain_text("ball 86")


def test_a_hand_over_is_taken_back_and_the_club_before_is_in_the_hand_again(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "trials")
    trial_club_in_hand(fitter, "Oak 5")
    typed(fitter, "84")
    fitter.get_by_role("button", name="Next club").click()
    trial_club_in_hand(fitter, "Elm 3", "Sole")
    expect(undo(fitter)).to_contain_text("the hand-over")
    undo(fitter).click()
    hand = fitter.get_by_role("region", name="Club in hand")
    expect(hand).to_contain_text("Pellowick Marram")
    expect(undo(fitter)).to_contain_text("ball 84")
    all_sent(fitter)
    [trial] = state_of(fitter, visit)["trials"]
    assert trial["state"] == "open"


def test_a_rating_is_taken_back_and_the_one_before_it_counts(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "trials")
    trial_club_in_hand(fitter, "Oak 5")
    fitter.get_by_role("button", name="Player says").click()
    feel = fitter.get_by_role("group", name="Feel")
    for score in ("4", "2"):
        feel.get_by_role("button", name=score).click()
    for says, left in (("feel 2", [4]), ("feel 4", [])):
        expect(undo(fitter)).to_contain_text(says)
        undo(fitter).click()
        all_sent(fitter)
        rated = state_of(fitter, visit)["trials"][0]["rated"]
        assert [one["score"] for one in rated] == left


def test_an_act_that_cant_be_taken_back_is_said_and_nothing_else_goes(
    fitter: Page, visit: dict[str, str]
) -> None:
    two_balls(fitter, visit)
    fitter.get_by_role("button", name="The air").click()
    fitter.get_by_label("Temperature").fill("18")
    fitter.get_by_role("button", name="Record the air").click()
    expect(undo(fitter)).to_contain_text("note the air anew")
    expect(undo(fitter)).to_be_disabled()
    assert balls(fitter, visit) == [(84, "", None), (86, "", None)]


def test_a_double_tap_is_one_ball_wherever_the_figures_went(
    fitter: Page, visit: dict[str, str]
) -> None:
    two_balls(fitter, visit)
    keys = fitter.get_by_role("group", name="Carry: one tap records")
    keys.get_by_role("button", name="88", exact=True).dblclick()
    assert balls(fitter, visit) == [(84, "", None), (86, "", None), (88, "", None)]
    expect(fitter.get_by_text("Tapped twice, recorded once: 88.")).to_be_visible()


def test_there_were_two_records_the_second_ball_of_a_double_tap(
    fitter: Page, visit: dict[str, str]
) -> None:
    two_balls(fitter, visit)
    keys = fitter.get_by_role("group", name="Carry: one tap records")
    keys.get_by_role("button", name="88", exact=True).dblclick()
    fitter.get_by_role("button", name="There were two").click()
    assert [one[0] for one in balls(fitter, visit)] == [84, 86, 88, 88]


def test_an_honest_second_ball_within_a_second_is_a_ball(
    fitter: Page, visit: dict[str, str]
) -> None:
    two_balls(fitter, visit)
    keys = fitter.get_by_role("group", name="Carry: one tap records")
    place = keys.get_by_role("button", name="85", exact=True).bounding_box()
    assert place is not None
    # The same place half a second later, and another place at once: 85 stays the mean.
    x, y = place["x"] + place["width"] / 2, place["y"] + place["height"] / 2
    fitter.mouse.click(x, y)
    fitter.wait_for_timeout(500)
    fitter.mouse.click(x, y)
    keys.get_by_role("button", name="86", exact=True).click()
    assert [one[0] for one in balls(fitter, visit)] == [84, 86, 85, 85, 86]


def test_a_double_tap_on_the_pad_records_one_ball_and_touches_nothing_else(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "baseline")
    own_club_in_hand(fitter)
    for digit in "84":
        fitter.get_by_role("button", name=digit, exact=True).click()
    fitter.get_by_role("button", name="Record 84").dblclick()
    expect(fitter.get_by_role("group", name="Carry: one tap records")).to_be_visible()
    assert balls(fitter, visit) == [(84, "", None)]


def test_fat_after_the_figure_mends_the_ball_that_was_just_hit(
    fitter: Page, visit: dict[str, str]
) -> None:
    two_balls(fitter, visit)
    fat = fitter.get_by_role("button", name="Fat", exact=True)
    fat.click()
    fitter.get_by_role("button", name="No, the 86 just hit").click()
    expect(fat).to_have_attribute("aria-pressed", "false")
    expect(fitter.locator(".tally")).to_contain_text("2 balls, mean 84 yd of 1, 1 fat")
    expect(undo(fitter)).to_contain_text("fat on 86")
    assert balls(fitter, visit) == [(84, "", None), (86, "", "mistyped"), (86, "fat", None)]
    undo(fitter).click()
    assert balls(fitter, visit) == [(84, "", None), (86, "", None), (86, "fat", "undone")]


def test_misread_after_the_figure_leaves_the_ball_out_that_was_just_hit(
    fitter: Page, visit: dict[str, str]
) -> None:
    two_balls(fitter, visit)
    fitter.get_by_role("button", name="Misread", exact=True).click()
    fitter.get_by_role("button", name="No, the 86 just hit").click()
    assert balls(fitter, visit) == [(84, "", None), (86, "", "misread")]
    tap(fitter, 84)
    assert balls(fitter, visit)[-1] == (84, "", None)


def test_fat_before_the_figure_still_goes_with_the_next_ball_in_one_tap(
    fitter: Page, visit: dict[str, str]
) -> None:
    two_balls(fitter, visit)
    fitter.get_by_role("button", name="Fat", exact=True).click()
    tap(fitter, 85)
    assert balls(fitter, visit) == [(84, "", None), (86, "", None), (85, "fat", None)]


def test_a_corrected_ball_keeps_what_stands_in_no_field(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "baseline")
    own_club_in_hand(fitter)
    fitter.get_by_role("button", name="More numbers").click()
    fitter.get_by_label("Carry", exact=True).fill("84")
    fitter.get_by_label("Spin", exact=True).fill("8900")
    fitter.get_by_role("group", name="Divot").get_by_role("button", name="Deep").click()
    fitter.get_by_role("button", name="Record this ball").click()
    fitter.get_by_role("button", name=re.compile("^Ball 1: 84")).click()
    fitter.get_by_label("Carry", exact=True).fill("85")
    fitter.get_by_role("button", name="Record it right").click()
    first, second = shots(fitter, visit)
    assert (first["left_out"], second["carry"], second["divot"]) == ("mistyped", 85, "deep")
