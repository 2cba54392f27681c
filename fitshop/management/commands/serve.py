"""The whole shop on one machine: a web process with threads and the clockwork's loop.

Either is started again when it ends, with a pause that grows; SIGTERM and Ctrl-C end both.
"""

import ctypes
import hashlib
import os
import signal
import socket
import subprocess
import sys
import threading
import time
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from django.conf import settings
from django.contrib.staticfiles.finders import get_finders
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db import connection
from django.db.migrations.executor import MigrationExecutor

from fitshop.selectors import first_start_code

SECONDS_TO_END = 10
FIRST_PAUSE, LONGEST_PAUSE = 1.0, 60.0
LASTED = 30.0  # a process that ran this long was well: its next pause is the first again
THREADS = 8
HERE = {"127.0.0.1", "localhost", "::1"}


def end_with_parent() -> None:
    """Ask Linux to end this process when its parent is killed outright (prctl(2))."""
    if sys.platform == "linux":
        set_parent_death_signal = 1
        ctypes.CDLL(None).prctl(set_parent_death_signal, signal.SIGTERM)


@dataclass
class Part:
    """One process to be kept running."""

    name: str
    command: list[str]
    process: subprocess.Popen[bytes] | None = None
    started: float = 0.0
    next_start: float = 0.0
    pause: float = field(default=FIRST_PAUSE)

    def keep(self, now: float) -> str | None:
        """Start it where it isn't running and its pause is over; a sentence where it ended."""
        if self.process is not None:
            if (code := self.process.poll()) is None:
                return None
            self.pause = FIRST_PAUSE if now - self.started > LASTED else self.pause
            self.process, self.next_start = None, now + self.pause
            ended = f"{self.name} ended ({code}); it starts again in {self.pause:g} s."
            self.pause = min(self.pause * 2, LONGEST_PAUSE)
            return ended
        if now >= self.next_start:
            # Its own session: Ctrl-C reaches this process only, which then ends both in order.
            self.process = subprocess.Popen(
                self.command, start_new_session=True, preexec_fn=end_with_parent
            )
            self.started = now
        return None

    def end(self) -> None:
        if self.process is None:
            return
        self.process.terminate()
        try:
            self.process.wait(SECONDS_TO_END)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()


class Command(BaseCommand):
    requires_system_checks = []  # the web process checks itself; here they cost a second
    help = "Run the shop on this machine: web pages and the clockwork."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--host", default="127.0.0.1")
        parser.add_argument("--port", type=int, default=int(os.environ.get("PORT") or 8000))
        parser.add_argument("--cert", type=Path, help="certificate (PEM), with its chain")
        parser.add_argument("--key", type=Path, help="private key (PEM)")
        parser.add_argument(
            "--prepare",
            action="store_true",
            help="first bring database and static files up to date, and fill the demo shop",
        )

    def handle(self, *args: Any, prepare: bool = False, **options: Any) -> None:
        _refuse_strangers(options["host"])
        _refuse_a_port_in_use(options["host"], options["port"])
        if prepare:
            self._prepare()
        parts = [
            Part("The web process", self._web(**options)),
            Part(
                "The clockwork",
                [sys.executable, "manage.py", "send_due", "--loop"],
            ),
        ]
        enough = threading.Event()
        for number in (signal.SIGTERM, signal.SIGINT):
            signal.signal(number, lambda *_: enough.set())
        os.chdir(settings.BASE_DIR)
        if (code := first_start_code()) is not None:
            self.stdout.write(f"The first start asks for this code: {code}")
        self.stdout.write(f"Fitting room on {self._address(**options)}  (Ctrl-C ends it)")
        try:
            while not enough.wait(0.2):
                for part in parts:
                    if ended := part.keep(time.monotonic()):
                        self.stderr.write(ended)
        finally:
            for part in parts:
                part.end()

    def _prepare(self) -> None:
        """One process for all of it: each start of Python would cost a second."""
        Path(settings.VAR_DIR).mkdir(parents=True, exist_ok=True)
        executor = MigrationExecutor(connection)
        if executor.migration_plan(executor.loader.graph.leaf_nodes()):
            call_command("migrate", verbosity=0)
        _collect_static_files()
        if settings.DEMO:
            call_command("load_demo", stdout=self.stdout)
        connection.close()

    def _web(
        self, *, host: str, port: int, cert: Path | None, key: Path | None, **_: Any
    ) -> list[str]:
        if (cert is None) != (key is None):
            raise CommandError("Give both --cert and --key, or neither.")
        bound = f"[{host}]:{port}" if ":" in host else f"{host}:{port}"
        command = [sys.executable, "-m", "gunicorn", "fitshop.wsgi:application"]
        command += [f"--bind={bound}", "--workers=1", f"--threads={THREADS}"]
        command += ["--worker-class=gthread", "--log-level=warning", "--timeout=60"]
        if cert is not None and key is not None:
            command += [f"--certfile={cert.resolve()}", f"--keyfile={key.resolve()}"]
        return command

    def _address(self, *, host: str, port: int, cert: Path | None, **_: Any) -> str:
        shown = "localhost" if host in {"127.0.0.1", "::1", "0.0.0.0"} else host
        return f"{'https' if cert else 'http'}://{shown}:{port}"


def _refuse_strangers(host: str) -> None:
    """Others are let in by a shop that has a name and a key of its own, never by the demo."""
    if host in HERE:
        return
    if settings.DEMO:
        raise CommandError("DEMO=1 is for this machine only: it listens on localhost.")
    if settings.IS_HERE_ONLY:
        raise CommandError(
            f"--host {host} lets others in. Set FITSHOP_HOSTS to the shop's name on the network "
            "and FITSHOP_SECRET_KEY to a long random text first."
        )


def _refuse_a_port_in_use(host: str, port: int) -> None:
    try:
        family = socket.AF_INET6 if ":" in host else socket.AF_INET
        socket.create_server((host, port), family=family).close()
    except OSError as error:
        raise CommandError(
            f"Port {port} can't be had ({error.strerror}). Take another: PORT={port + 1}"
        ) from None


def _collect_static_files() -> None:
    """Collect, hash and compress the static files, but only where one has changed: it takes 5 s."""
    mark = Path(settings.STATIC_ROOT) / ".collected"
    seen = hashlib.sha256()
    for finder in get_finders():
        for name, storage in finder.list([]):
            status = os.stat(storage.path(name))
            seen.update(f"{storage.path(name)} {status.st_mtime_ns} {status.st_size}\n".encode())
    if mark.exists() and mark.read_text() == seen.hexdigest():
        return
    call_command("collectstatic", interactive=False, clear=True, verbosity=0)
    mark.write_text(seen.hexdigest())
