"""The fitter's hands on the capture pages."""

from __future__ import annotations

import re
from typing import Any

from playwright.sync_api import Page, expect


class Tablet:
    """One visit's rooms on one page."""

    def __init__(self, page: Page, visit: str) -> None:
        self.page, self.visit = page, visit

    def room(self, step: str) -> None:
        self.page.goto(f"/visits/{self.visit}/room/{step}")
        expect(self.page.locator("#main")).to_be_visible()

    def all_sent(self) -> None:
        expect(self.page.locator(".sent")).to_contain_text("All sent")

    def state(self) -> dict[str, Any]:
        answer = self.page.request.get(f"/api/v1/visits/{self.visit}/state")
        assert answer.ok
        found: dict[str, Any] = answer.json()
        return found

    def press(self, name: str | re.Pattern[str], group: str = "", *, exact: bool = True) -> None:
        place = self.page.get_by_role("group", name=group, exact=True) if group else self.page
        place.get_by_role(
            "button", name=name, exact=exact if isinstance(name, str) else None
        ).click()

    # The interview

    def answer(self, question: str, *chips: str) -> None:
        asked = self.page.get_by_role("region", name=question)
        for chip in chips:
            asked.get_by_role("button", name=chip, exact=True).click()

    def answer_typed(self, question: str, text: str) -> None:
        line = self.page.get_by_role("region", name=question).get_by_role("textbox")
        line.fill(text)
        line.blur()

    def part(self, label: str) -> None:
        parts = self.page.get_by_role("navigation", name="Parts of the interview")
        parts.get_by_role("button", name=re.compile(f"^{label}")).click()

    # The bag

    def own_club(self, label: str, kind: str, *, kept: str, **figures: str) -> None:
        page = self.page
        page.get_by_role("button", name="Add a club").first.click()
        self.press(kind, "Kind")
        page.get_by_label("What the player calls it").fill(label)
        for name, typed in figures.items():
            page.locator(f"#bag-{name}").fill(typed)
        self.press(kept, "Stays in the bag")
        page.get_by_role("button", name="Record this club").click()
        expect(page.get_by_role("button", name=re.compile(f"^{label}"))).to_be_visible()

    # Balls

    def hand_over_own(self, label: str, slot: int | None = None) -> None:
        if slot is not None:
            self.press("Player's own", "Where it comes from")
        self.press(re.compile(f"^{label}"), "Own club")
        if slot is not None:
            self.press(re.compile(f"^Slot {slot}"), "For")
        self.press("Hand it over")

    def hand_over_trial(
        self, head: str, shaft: str, adapter: str, slot: int, *changed: str
    ) -> None:
        """The button waits for the tick: head tight, checked."""
        page = self.page
        self.press(re.compile(f"^{head}"), "Head")
        self._chosen("Shaft", shaft)
        self._chosen("Adapter", adapter)
        self.press(re.compile(f"^Slot {slot}"), "For")
        for word in changed:
            self.press(word, "What did you choose to change?")
        expect(page.get_by_role("button", name="Hand it over")).to_be_disabled()
        page.get_by_label("Head tight: checked").check()
        self.press("Hand it over")
        expect(page.get_by_role("region", name="Club in hand")).to_contain_text("Head tight")

    def _chosen(self, group: str, mark: str) -> None:
        part = self.page.get_by_role("group", name=group, exact=True)
        part.get_by_role("button", name=re.compile(f"^{mark}")).click()

    def typed(self, carry: str) -> None:
        """The first ball of a club: its carry on the pad."""
        for digit in carry:
            self.press(digit, "Carry, typed")
        self.press(f"Record {carry}")

    def tap(self, carry: int) -> None:
        self.press(str(carry), "Carry: one tap records")

    def tally(self, words: str) -> None:
        expect(self.page.locator(".tally")).to_contain_text(words)

    def situation(self, **words: str) -> None:
        """Pick words in the sheet of the situation, by the name of their group."""
        self.page.locator("button.standing").click()
        for group, word in words.items():
            self.press(word, group.replace("_", " "))
        self.page.get_by_role("button", name="Back to the balls").first.click()
