"""Every page under axe, in both themes and both widths, with the strictest contrast and targets."""

from __future__ import annotations

from collections.abc import Iterator
from importlib.resources import files
from typing import Any

import pytest
from django.urls import URLPattern, URLResolver, get_resolver
from playwright.sync_api import Browser, Page

from tests.browser.conftest import Shop, signed_in

pytestmark = pytest.mark.browser

AXE = (files("axe_playwright_python") / "axe.min.js").read_text()
TABLET = {"width": 1024, "height": 768}
PHONE = {"width": 390, "height": 844}
STRICT = {"color-contrast-enhanced": {"enabled": True}, "target-size": {"enabled": True}}
# Standing for rules about the whole page, run once; a theme changes colours, a width the places.
COLOURS = {"runOnly": ["color-contrast", "color-contrast-enhanced"], "rules": STRICT}
PLACES = {"runOnly": ["target-size", "scrollable-region-focusable"], "rules": STRICT}
EVERYTHING = {"rules": STRICT}
# The other theme at once: a colour half-way to another is nobody's.
IN_DUSK = """() => {
  document.documentElement.dataset.theme = 'dusk';
  document.getAnimations().forEach(one => one.finish());
}"""

# Addresses that no page of its own stands at.
NOT_VISITED: dict[str, str] = {
    "livez": "a word for machines",
    "readyz": "a document for machines",
    "first_start": "only while there is no shop; its fields are those of the staff page",
    "fitting_today_panel": "a part of Today, which is visited with it",
    "fitting_search_panel": "a part of the search",
    "workshop_today_panel": "a part of Today",
    "workshop_search_panel": "a part of the search",
    "workshop_player_panel": "a part of the player's page",
    "workshop_clubs_panel": "a part of the player's page",
    "workshop_spec_panel": "a part of the spec's page",
    "workshop_reports_panel": "a part of the reports",
    "verdicts": "a part of the trials page",
    "visit_state": "a document for the capture pages",
    "visit_commands": "takes commands",
    "shot_file": "needs a file that was read: the sheet of columns is looked at in test_capture",
    "spec_sheet": "a PDF",
    "ticket": "a PDF",
    "sheet": "leads on to the order's page, or the club's",
    "as_built": "a PDF",
}


def names(resolver: Any = None) -> Iterator[str]:
    for pattern in (resolver or get_resolver()).url_patterns:
        if isinstance(pattern, URLResolver) and str(pattern.pattern) != "account/":
            yield from names(pattern)
        elif isinstance(pattern, URLPattern):
            yield str(pattern.name)


@pytest.fixture(scope="module")
def pages(shop: Shop) -> dict[str, str]:
    return shop.seed("pages")


@pytest.fixture
def manager(chromium: Browser, shop: Shop) -> Iterator[Page]:
    """May see every page. The policy is set aside in this context only, for axe to get in."""
    page = signed_in(chromium, shop, "manager", viewport=TABLET, bypass_csp=True)
    yield page
    page.context.close()


def found_by(page: Page, options: dict[str, Any]) -> list[str]:
    violations = page.evaluate("options => axe.run(options).then(r => r.violations)", options)
    return [
        f"{one['id']}: {node['target']} {node['failureSummary'].splitlines()[-1].strip()}"
        for one in violations
        for node in one["nodes"][:4]
    ]


def looked_at(page: Page, url: str) -> list[str]:
    page.goto(url)
    page.locator("h1").first.wait_for(state="attached")
    if page.locator("[hx-trigger^=load], #room").count():
        page.wait_for_load_state("networkidle")  # its parts are fetched
    page.evaluate("() => document.querySelectorAll('details').forEach(f => { f.open = true })")
    page.evaluate(AXE)
    found = [f"day {text}" for text in found_by(page, EVERYTHING)]
    page.evaluate(IN_DUSK)
    found += [f"dusk {text}" for text in found_by(page, COLOURS)]
    page.set_viewport_size(PHONE)
    found += [f"phone {text}" for text in found_by(page, PLACES)]
    if page.evaluate("() => document.documentElement.scrollWidth > window.innerWidth"):
        found.append("phone: the page is wider than the screen")
    page.set_viewport_size(TABLET)
    return found


def test_axe_finds_nothing_on_any_page(manager: Page, pages: dict[str, str]) -> None:
    wrong = {name: found for name, url in pages.items() if (found := looked_at(manager, url))}
    manager.context.clear_cookies()
    if found := looked_at(manager, "/account/login/"):
        wrong["sign-in"] = found
    assert not wrong, "\n".join(f"{name}: {text}" for name, each in wrong.items() for text in each)


def test_every_address_is_visited_or_has_a_reason(pages: dict[str, str]) -> None:
    visited = {name.partition(",")[0] for name in pages} - {"404"}
    takes_only_forms = set(names()) - visited - set(NOT_VISITED)
    assert takes_only_forms == TAKES_ONLY_FORMS
    assert not visited & set(NOT_VISITED)


TAKES_ONLY_FORMS = {
    "order_arrived", "order_letter", "order_rounds", "order_tell_by", "order_wait",
    "kept_form_let_go", "message_decide", "player_consent", "player_consent_withdraw",
    "visit_open", "visit_cancel", "visit_no_show", "equipment_withdraw", "spec_draft", "spec_club",
    "spec_check", "spec_accept", "spec_sign", "visit_close", "summary_send", "order_release",
    "order_revise", "order_cancel", "order_check", "order_ready", "order_told", "order_hand_over",
    "bench_step", "bench_reading", "reading_strike_out", "concession", "concession_words",
    "order_step_accept", "order_due", "order_called", "cure_temperature", "cure_correction",
    "pin_sign_in", "staff_help", "tablet_withdraw",
}  # fmt: skip
