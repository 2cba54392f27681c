"""A session that ended while someone typed, in a real browser: signed in again, nothing is lost."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import PASSWORD, Shop

pytestmark = pytest.mark.browser


def typed(page: Page) -> None:
    page.goto("/players/new")
    page.get_by_label("Given name").fill("Signe")
    page.get_by_label("Family name").fill("O'Dún & Holm")
    page.get_by_label("Left-handed").check()
    page.get_by_label("woman", exact=True).check()
    page.get_by_text("Build, glove, home course").click()
    page.get_by_label("Height", exact=False).first.fill("5 ft 11")
    page.get_by_label("Notes").fill("likes a\nsofter sole")


def sign_in(page: Page, username: str) -> None:
    page.get_by_label("Username").fill(username)
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in", exact=True).click()


def test_what_was_typed_comes_back_after_signing_in_again_and_is_stored_when_pressed_again(
    fitter: Page, shop: Shop
) -> None:
    typed(fitter)
    fitter.context.clear_cookies(name="sessionid")
    fitter.get_by_role("button", name="Register").click()
    expect(fitter.get_by_text("nothing of it has been saved yet")).to_be_visible()
    assert "Signe" not in fitter.url
    assert "Signe" not in fitter.content()
    sign_in(fitter, "fitter")
    expect(fitter.get_by_role("alert")).to_contain_text(
        "You were signed out. Nothing has been saved yet: look it over and press Register again."
    )
    assert fitter.url.startswith(f"{shop.url}/players/new")
    expect(fitter.get_by_label("Given name")).to_have_value("Signe")
    expect(fitter.get_by_label("Family name")).to_have_value("O'Dún & Holm")
    expect(fitter.get_by_label("Left-handed")).to_be_checked()
    expect(fitter.get_by_label("Notes")).to_have_value("likes a\nsofter sole")
    expect(fitter.get_by_label("Height", exact=False).first).to_have_value("5 ft 11")
    fitter.get_by_role("button", name="Register").click()
    expect(fitter.get_by_role("heading", name="Signe O'Dún & Holm")).to_be_visible()
    fitter.goto("/players/new")
    expect(fitter.get_by_label("Given name")).to_have_value("")


def test_someone_else_at_the_same_tablet_sees_nothing_of_it(fitter: Page) -> None:
    typed(fitter)
    fitter.context.clear_cookies(name="sessionid")
    fitter.get_by_role("button", name="Register").click()
    sign_in(fitter, "desk")
    expect(fitter.get_by_text("It is not shown to you, and it is let go")).to_be_visible()
    expect(fitter.get_by_label("Given name")).to_have_value("")
    assert "Signe" not in fitter.content()
