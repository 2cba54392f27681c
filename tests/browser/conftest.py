"""A shop that is really served, on a database in a temporary folder, and a real browser in it."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.lanes import free_port

HOUSE = Path(__file__).parents[2]
PASSWORD = "wedges and sand"  # of everyone in the demo shop
READY_WITHIN_S = 60.0


@dataclass
class Shop:
    """`manage.py serve` with the demo shop behind it; it can be ended and started again."""

    folder: Path
    port: int = field(default_factory=free_port)
    process: subprocess.Popen[bytes] | None = None

    @property
    def url(self) -> str:
        return f"http://localhost:{self.port}"

    @property
    def environment(self) -> dict[str, str]:
        kept = {key: value for key, value in os.environ.items() if not key.startswith("FITSHOP_")}
        kept.pop("DJANGO_SETTINGS_MODULE", None)
        return kept | {"FITSHOP_VAR": str(self.folder), "DEMO": "1"}

    def start(self) -> None:
        command = [sys.executable, "manage.py", "serve", f"--port={self.port}"]
        self.process = subprocess.Popen(
            command,
            cwd=HOUSE,
            env=self.environment,
            stdout=subprocess.DEVNULL,
            stderr=(self.folder / "serve.log").open("ab"),
        )
        deadline = time.monotonic() + READY_WITHIN_S
        while time.monotonic() < deadline:
            if self.process.poll() is not None:
                break
            try:
                with urllib.request.urlopen(f"{self.url}/livez", timeout=2):
                    return
            except (urllib.error.URLError, OSError):
                time.sleep(0.1)
        raise RuntimeError((self.folder / "serve.log").read_text()[-2000:])

    def end(self) -> None:
        if self.process is None:
            return
        self.process.send_signal(signal.SIGTERM)
        self.process.wait(30)
        self.process = None

    def seed(self, *arguments: str) -> Any:
        """What `tests.browser.seed` prints: it works through services, in its own process."""
        command = [sys.executable, "-m", "tests.browser.seed", *arguments]
        done = subprocess.run(
            command, cwd=HOUSE, env=self.environment, capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, done.stderr
        return json.loads(done.stdout)


@pytest.fixture(scope="session")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    served = Shop(tmp_path_factory.mktemp("shop"))
    served.seed("shop")
    served.start()
    try:
        yield served
    finally:
        served.end()


@pytest.fixture(scope="session")
def visits(shop: Shop) -> list[dict[str, str]]:
    """Open visits that nobody has used yet; each start of Python costs seconds."""
    return shop.seed("visits", "80")


@pytest.fixture
def visit(visits: list[dict[str, str]]) -> dict[str, str]:
    """An open visit of its own, with one pitching wedge in the bag."""
    return visits.pop()


def signed_in(chromium: Browser, shop: Shop, username: str, **options: Any) -> Page:
    """A page in a context of its own, signed in at the sign-in page as a person would."""
    options.setdefault("viewport", {"width": 1024, "height": 768})
    page = chromium.new_context(base_url=shop.url, **options).new_page()
    page.goto("/account/login/")
    page.get_by_label("Username").fill(username)
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in", exact=True).click()
    page.wait_for_url(lambda url: "/account/login" not in url)
    return page


@pytest.fixture
def fitter(chromium: Browser, shop: Shop) -> Iterator[Page]:
    """A fitter's tablet. Anything refused by the content security policy fails the test."""
    page = signed_in(chromium, shop, "fitter")
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text))
    page.on("pageerror", lambda error: complaints.append(f"uncaught: {error}"))
    yield page
    page.context.close()
    against = [text for text in complaints if "Content Security Policy" in text]
    assert against + [text for text in complaints if text.startswith("uncaught")] == []
