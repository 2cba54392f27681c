"""The files that pages are made of: others' code as listed, icons that exist, nothing inline."""

import hashlib
import re
from pathlib import Path

import pytest

HOUSE = Path(__file__).parents[2]
VENDOR = HOUSE / "fitshop/static/vendor"
SPRITE = HOUSE / "fitshop/static/fitshop/icons/sprite.svg"
# Documents carry their style on paper; mails carry theirs inlined.
PAGES = [
    path
    for path in sorted((HOUSE / "templates").rglob("*.html"))
    if not {"documents", "messages"} & set(path.relative_to(HOUSE / "templates").parts)
]
STYLES = sorted(
    path
    for place in ("fitshop", "sessions", "orders")
    for path in HOUSE.glob(f"{place}/static/**/*.css")
)


def test_the_code_of_others_is_byte_for_byte_what_the_list_says():
    listed = dict(re.findall(r"(\S+\.js)\s+([0-9a-f]{64})", (VENDOR / "VERSIONS.txt").read_text()))
    assert set(listed) == {"htmx.min.js", "preact.js", "preact-hooks.js", "htm.js"}
    for name, expected in listed.items():
        assert hashlib.sha256((VENDOR / name).read_bytes()).hexdigest() == expected, name


def test_the_capture_pages_library_evaluates_no_text_as_code():
    for name in ("preact.js", "preact-hooks.js", "htm.js", "htm-preact.js"):
        assert not re.search(r"\beval\s*\(|\bFunction\s*\(", (VENDOR / name).read_text()), name


def test_every_page_tells_htmx_to_evaluate_nothing():
    base = (HOUSE / "templates/base.html").read_text()
    for setting in (
        '"allowEval":false',
        '"selfRequestsOnly":true',
        '"includeIndicatorStyles":false',
        '"historyCacheSize":0',
    ):
        assert setting in base


@pytest.mark.parametrize("page", PAGES, ids=lambda path: path.relative_to(HOUSE).as_posix())
def test_a_page_has_no_inline_script_or_style_and_only_icons_that_exist(page):
    text = page.read_text()
    assert not re.search(r"\sstyle\s*=\s*[\"']|<style\b", text)
    assert not re.search(r"\son[a-z]+\s*=\s*[\"']|hx-on", text)
    assert not re.search(r"<script(?![^>]*\bsrc=)(?![^>]*application/json)", text)
    drawn = set(re.findall(r'id="([a-z-]+)" viewBox', SPRITE.read_text()))
    assert set(re.findall(r'parts/icon\.html" with name="([a-z-]+)"', text)) <= drawn


@pytest.mark.parametrize("style", STYLES, ids=lambda path: path.relative_to(HOUSE).as_posix())
def test_every_file_that_a_style_sheet_names_lies_beside_it(style):
    for address in re.findall(r'url\("?([^")]+)"?\)', style.read_text()):
        assert (style.parent / address).is_file(), address
