"""A real shop for the story: its own database, a real mail server, `manage.py serve`, Chromium."""

from __future__ import annotations

import contextlib
import json
import os
import signal
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import psycopg
import pytest
from aiosmtpd.controller import Controller
from playwright.sync_api import Browser, Page

from tests.lanes import free_port
from tests.letters import Inbox

HOUSE = Path(__file__).parents[2]
READY_WITHIN_S = 60.0
PASSWORD = "wedges and sand"


class StoryShop:
    """`manage.py serve` without DEMO: letters leave by SMTP, sent by its own loop."""

    def __init__(self, folder: Path, database: str, smtp_port: int) -> None:
        self.folder, self.port = folder, free_port()
        kept = {key: value for key, value in os.environ.items() if not key.startswith("FITSHOP_")}
        for name in ("DJANGO_SETTINGS_MODULE", "DEMO"):
            kept.pop(name, None)
        self.environment = kept | {
            "FITSHOP_VAR": str(folder),
            "FITSHOP_DATABASE": database,
            "FITSHOP_SMTP_HOST": "127.0.0.1",
            "FITSHOP_SMTP_PORT": str(smtp_port),
            "FITSHOP_SMTP_STARTTLS": "0",
        }
        self.process: subprocess.Popen[bytes] | None = None

    @property
    def url(self) -> str:
        return f"http://localhost:{self.port}"

    @property
    def log(self) -> str:
        return (self.folder / "serve.log").read_text()

    def seed(self, *arguments: str) -> Any:
        """What `tests.story.seed` prints: it works through services, in its own process."""
        done = subprocess.run(
            [sys.executable, "-m", "tests.story.seed", *arguments],
            cwd=HOUSE,
            env=self.environment,
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr
        return json.loads(done.stdout)

    def start(self) -> None:
        with (self.folder / "serve.log").open("ab") as log:
            self.process = subprocess.Popen(
                [sys.executable, "manage.py", "serve", f"--port={self.port}"],
                cwd=HOUSE,
                env=self.environment,
                stdout=subprocess.DEVNULL,
                stderr=log,
            )
        deadline = time.monotonic() + READY_WITHIN_S
        while time.monotonic() < deadline and self.process.poll() is None:
            with (
                contextlib.suppress(urllib.error.URLError, OSError),
                urllib.request.urlopen(f"{self.url}/readyz", timeout=2),
            ):
                return
            time.sleep(0.1)
        raise RuntimeError(self.log[-2000:])

    def end(self) -> None:
        if self.process is not None:
            self.process.send_signal(signal.SIGTERM)
            self.process.wait(30)


@contextlib.contextmanager
def a_database(folder: Path) -> Iterator[str]:
    """SQLite in the folder, or a new database on the lane's own PostgreSQL; never the lane's."""
    lane = os.environ.get("FITSHOP_DATABASE", "")
    if not lane.startswith("postgres"):
        yield f"sqlite://{folder / 'story.sqlite3'}"
        return
    name = f"story_{free_port()}"
    with psycopg.connect(lane, autocommit=True) as line:
        line.execute(f"create database {name}")
    try:
        yield urlsplit(lane)._replace(path=f"/{name}").geturl()
    finally:
        with psycopg.connect(lane, autocommit=True) as line:
            line.execute(f"drop database {name} with (force)")


@pytest.fixture
def inbox() -> Iterator[Inbox]:
    kept = Inbox()
    controller = Controller(kept, hostname="127.0.0.1", port=free_port())
    controller.start()
    kept.port = controller.port
    yield kept
    controller.stop()


@pytest.fixture
def shop(tmp_path: Path, inbox: Inbox) -> Iterator[StoryShop]:
    with a_database(tmp_path) as database:
        served = StoryShop(tmp_path, database, inbox.port)
        served.seed("shop")
        served.start()
        try:
            yield served
        finally:
            served.end()


class People:
    """Signed-in pages, and everything their consoles complained about."""

    def __init__(self, chromium: Browser, shop: StoryShop) -> None:
        self.chromium, self.shop = chromium, shop
        self.complaints: list[str] = []
        self.pages: list[Page] = []
        self.expected_refusals = 0  # forms sent with letters in a figure answer 422 on purpose

    def sign_in(self, username: str) -> Page:
        """At the sign-in page, as a person would."""
        context = self.chromium.new_context(
            base_url=self.shop.url,
            viewport={"width": 1024, "height": 768},
            reduced_motion="reduce",
        )
        context.set_default_timeout(10_000)
        page = context.new_page()
        page.on("console", self._heard)
        page.on("pageerror", lambda error: self.complaints.append(f"uncaught: {error}"))
        self.pages.append(page)
        page.goto("/account/login/")
        page.get_by_label("Username").fill(username)
        page.get_by_label("Password").fill(PASSWORD)
        page.get_by_role("button", name="Sign in", exact=True).click()
        page.wait_for_url(lambda url: "/account/" not in url)
        return page

    def _heard(self, message: Any) -> None:
        if "status of 422" in message.text and self.expected_refusals:
            self.expected_refusals -= 1  # Chromium itself writes a line for a page that is a 422
        elif message.type in {"error", "warning"} or "Content Security Policy" in message.text:
            self.complaints.append(f"{message.type}: {message.text}")


@pytest.fixture
def people(chromium: Browser, shop: StoryShop) -> Iterator[People]:
    signed_in = People(chromium, shop)
    yield signed_in
    folder = os.environ.get("STORY_PICTURES")
    for number, page in enumerate(signed_in.pages):
        if folder:  # to look at where it stopped
            page.screenshot(path=Path(folder) / f"story-{number}.png", full_page=True)
        page.context.close()
