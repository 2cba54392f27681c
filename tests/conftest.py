"""What every test shares. The database is the lane's: see tests/lanes.py."""

import os
import shutil
import tempfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import hypothesis
import pytest
from playwright.sync_api import Browser, sync_playwright

# The same examples in every run, and no test that fails because the machine was busy.
hypothesis.settings.register_profile(
    "shop",
    derandomize=True,
    deadline=None,
    suppress_health_check=[hypothesis.HealthCheck.too_slow],
)
hypothesis.settings.load_profile("shop")


def pytest_configure(config: pytest.Config) -> None:
    """SQLite in a file, as in a shop: threads and processes see one database."""
    from django.conf import settings

    default = settings.DATABASES["default"]
    if default["ENGINE"].endswith("sqlite3"):
        folder = os.environ.setdefault("FITSHOP_TEST_FOLDER", tempfile.mkdtemp(prefix="fitshop-"))
        default.setdefault("TEST", {})["NAME"] = str(Path(folder) / "test.sqlite3")
    # Pages under test need no collected files, and passwords no slow hash.
    settings.STORAGES["staticfiles"]["BACKEND"] = (
        "django.contrib.staticfiles.storage.StaticFilesStorage"
    )
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


# How strongly an outside check holds the maths, strongest first.
GRADES = ("published", "independent", "worked_by_hand", "common_practice")


def pytest_itemcollected(item: pytest.Item) -> None:
    """A test's grade goes with its report, also out of a worker."""
    for grade in GRADES:
        if item.get_closest_marker(grade):
            item.user_properties.append(("grade", grade))


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say each printed value with its source under -v, and how many checks of each grade ran."""
    counts: Counter[str] = Counter()
    printed: list[str] = []
    for outcome in ("passed", "failed"):
        for report in terminalreporter.stats.get(outcome, ()):
            if getattr(report, "when", "") == "call":
                said = dict(report.user_properties)
                counts.update(filter(None, [said.get("grade")]))
                if "printed" in said:
                    printed.append(f"{outcome}  {said['printed']}")
    if not counts:
        return
    terminalreporter.section("outside checks")
    if terminalreporter.verbosity > 0:
        for line in sorted(printed):
            terminalreporter.write_line(line)
    grades = (f"{grade.replace('_', ' ')} {counts[grade]}" for grade in GRADES if counts[grade])
    terminalreporter.write_line("checks by grade: " + ", ".join(grades))


@pytest.fixture(autouse=True)
def _letters_in_a_folder_of_their_own(settings, tmp_path):
    """No test writes into the shop's own var/, and none talks to a real mail server."""
    settings.MESSAGES_DIR = tmp_path / "messages"
    settings.MESSAGES_SMTP_HOST = ""


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    """The system's Chromium, one a module: two at once in a process refuse each other."""
    program = shutil.which("chromium") or shutil.which("chromium-browser")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program)
        try:
            yield browser
        finally:
            browser.close()
