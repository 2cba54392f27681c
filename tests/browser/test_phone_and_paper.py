"""What a phone cuts off, what paper parts, and what the script says of one club."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

pytestmark = pytest.mark.browser

LONG_NAME = "The Saltings Wedge Room and Workshop"


def test_the_shop_s_name_is_whole_on_a_phone(fitter: Page) -> None:
    fitter.set_viewport_size({"width": 390, "height": 844})
    fitter.goto("/")
    name = fitter.locator(".mark .shop-name")
    name.evaluate("(one, text) => { one.textContent = text }", LONG_NAME)
    expect(name).to_be_visible()
    assert name.evaluate("(one) => one.scrollWidth <= one.clientWidth")
    assert fitter.evaluate("document.documentElement.scrollWidth") <= 390
    for button in fitter.locator(".shop-bar .bar-button").all():
        if button.is_visible():
            box = button.bounding_box()
            assert box
            assert box["x"] + box["width"] <= 390
            assert min(box["width"], box["height"]) >= 43.5


def test_the_printed_rule_book_keeps_a_heading_with_its_first_rule(fitter: Page) -> None:
    fitter.goto("/rule-book")
    expect(fitter.locator(".demo-strip")).to_be_visible()
    fitter.emulate_media(media="print")
    expect(fitter.locator(".demo-strip")).to_be_hidden()
    after = fitter.locator(".rule-chapter").evaluate_all(
        """(chapters) => chapters.flatMap((one) => [...one.children]
          .filter((child) => child.nextElementSibling && child.tagName !== 'UL')
          .map((child) => getComputedStyle(child).breakAfter))"""
    )
    assert len(after) > 20
    assert set(after) == {"avoid"}


def test_one_club_in_the_bag_is_spoken_of_as_one(fitter: Page, visit: dict[str, str]) -> None:
    fitter.goto(f"/visits/{visit['visit']}/room/bag")
    expect(fitter.locator(".tally")).to_contain_text("1 wedge or short iron,")
