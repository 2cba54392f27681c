"""Real servers and real processes: PostgreSQL, Redis, a mail server, Celery's worker and beat."""

import os
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import psycopg
import pytest
from aiosmtpd.controller import Controller

from tests.lanes import Server, free_port, postgresql, redis
from tests.letters import Inbox

HOUSE = Path(__file__).resolve().parents[2]

QUEUE = """
from django.utils import timezone
from fitshop.actor import system_actor
from fitshop.services.messages import message_queue
message_queue(kind="summary", subject_type="visit", subject_id="1", occasion={occasion!r},
    recipient_email="ada@players.invalid", recipient_name="Ada", mail_subject={occasion!r},
    body_text="What we chose.", by=system_actor("test"), at=timezone.now())
"""


class House:
    """The shop's own processes, started and killed by name, on one database and one broker."""

    def __init__(self, environment: dict[str, str], log: Path) -> None:
        self.environment = os.environ | environment
        self.log = log
        self.running: dict[str, subprocess.Popen[bytes]] = {}

    def manage(self, *arguments: str) -> None:
        subprocess.run(
            [sys.executable, "manage.py", *arguments], cwd=HOUSE, env=self.environment, check=True
        )

    def queue(self, occasion: str) -> None:
        self.manage("shell", "--no-imports", "-c", QUEUE.format(occasion=occasion))

    def fitted(self, what: str = "closed") -> str:
        """A player's whole fitting, closed, in a process of its own; the visit's id.

        `what` "worn": an order whose clubs were played for more than a year; the order's id.
        """
        done = subprocess.run(
            [sys.executable, "-m", "tests.services_lane.fitting", what],
            cwd=HOUSE,
            env=self.environment,
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr
        return done.stdout.strip()

    def start(self, name: str) -> None:
        celery = [sys.executable, "-m", "celery", "-A", "fitshop", "-q"]
        command = {
            "worker": [*celery, "worker", "--loglevel=warning", "--without-gossip"],
            "beat": [*celery, "beat", f"--schedule={self.log.parent / 'beat'}", "--pidfile="],
            "second beat": [*celery, "beat", f"--schedule={self.log.parent / '2'}", "--pidfile="],
            "serve": [sys.executable, "manage.py", "serve", f"--port={free_port()}"],
        }[name]
        with self.log.open("ab") as log:
            self.running[name] = subprocess.Popen(
                command, cwd=HOUSE, env=self.environment, stdout=log, stderr=log
            )

    def kill(self, name: str) -> None:
        process = self.running.pop(name)
        process.kill()
        process.wait()

    def end(self) -> None:
        for process in self.running.values():
            process.terminate()
        for process in self.running.values():
            try:
                process.wait(15)
            except subprocess.TimeoutExpired:
                process.kill()
                process.wait()
        self.running.clear()


def wait_until(true: Callable[[], object], seconds: float = 90) -> bool:
    deadline = time.monotonic() + seconds
    while time.monotonic() < deadline:
        if true():
            return True
        time.sleep(0.1)
    return False


def states(url: str) -> dict[str, str]:
    with psycopg.connect(url) as line:
        return dict(line.execute("select occasion, status from shop_outgoingmessage").fetchall())


def row_of(url: str, asked: str) -> tuple[object, ...]:
    """The one row that an SQL question gives."""
    with psycopg.connect(url) as line:
        [row] = line.execute(asked).fetchall()
    return tuple(row)


@pytest.fixture(scope="session")
def database():
    with postgresql() as server:
        yield server


@pytest.fixture
def broker():
    with redis() as server:
        yield server


@pytest.fixture
def inbox():
    kept = Inbox()
    controller = Controller(kept, hostname="127.0.0.1", port=free_port())
    controller.start()
    kept.port = controller.port
    yield kept
    controller.stop()


def environment_of(database_url: str, inbox: Inbox, folder: Path, **more: str) -> dict[str, str]:
    return {
        "FITSHOP_DATABASE": database_url,
        "FITSHOP_VAR": str(folder),
        "FITSHOP_HTTPS": "0",
        "FITSHOP_SECRET_KEY": "for this test only " * 4,
        "FITSHOP_SMTP_HOST": "127.0.0.1",
        "FITSHOP_SMTP_PORT": str(inbox.port),
        "FITSHOP_SMTP_STARTTLS": "0",
        **more,
    }


@pytest.fixture
def shop(database: Server, broker: Server, inbox: Inbox, tmp_path: Path):
    """A real shop's processes against PostgreSQL and Redis; none of them is running yet."""
    with psycopg.connect(database.url, autocommit=True) as line:
        line.execute("drop schema public cascade; create schema public")
    house = House(
        environment_of(database.url, inbox, tmp_path, FITSHOP_REDIS=broker.url),
        tmp_path / "log.txt",
    )
    house.manage("migrate", "-v0")
    yield house
    house.end()


@pytest.fixture
def small_shop(inbox: Inbox, tmp_path: Path):
    """The embedded default: one SQLite file, no broker."""
    url = f"sqlite://{tmp_path / 'shop.sqlite3'}"
    house = House(environment_of(url, inbox, tmp_path), tmp_path / "log.txt")
    house.manage("migrate", "-v0")
    house.manage("collectstatic", "--noinput", "-v0")
    yield house
    house.end()
