"""Where a page opens again after it refused a form: at what has to be put right."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, expect

from tests.browser.conftest import Shop, signed_in

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("size", [(1024, 768), (390, 844)])
def test_a_refusal_far_down_is_in_sight_where_the_page_opens_again(
    chromium: Browser, shop: Shop, size: tuple[int, int]
) -> None:
    viewport = {"width": size[0], "height": size[1]}
    page = signed_in(chromium, shop, "manager", viewport=viewport)
    page.goto("/set-up")
    page.evaluate("document.querySelectorAll('main details').forEach((one) => { one.open = true })")
    field = page.locator("main input[inputmode=decimal]").last
    name = field.get_attribute("name")
    field.fill("abc")
    page.get_by_role("button", name="Save").last.click()
    refused = page.locator(f"[name='{name}']")
    expect(refused).to_have_attribute("aria-invalid", "true")
    expect(refused).to_be_in_viewport()
    expect(refused).to_be_focused()
    assert page.evaluate("window.scrollY") > size[1]
    page.context.close()
