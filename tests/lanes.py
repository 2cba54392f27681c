"""The tests' own PostgreSQL and Redis, in a temporary folder on free ports: never the machine's.

    python -m tests.lanes postgresql -- pytest -n 2      one command with a server behind it

The child finds the database in FITSHOP_DATABASE, as the shop does.
"""

from __future__ import annotations

import contextlib
import os
import pwd
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any


class MissingServer(RuntimeError):
    """A program the lane needs is not installed."""


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def postgresql_folder() -> Path | None:
    """Where initdb and postgres lie; the newest version where there are several."""
    versions = sorted(
        Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: float(path.parts[4])
    )
    if versions:
        return versions[-1].parent
    found = shutil.which("initdb")
    return Path(found).resolve().parent if found else None


@dataclass
class Server:
    """A process with an address, that can be killed and started again on the same port."""

    command: list[str]
    port: int
    url: str
    options: dict[str, Any] = field(default_factory=dict)
    process: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
        self.process = subprocess.Popen(self.command, **quiet, **self.options)
        deadline = time.monotonic() + 30
        while time.monotonic() < deadline:
            with (
                contextlib.suppress(OSError),
                socket.create_connection(("127.0.0.1", self.port), 1),
            ):
                return
            if self.process.poll() is not None:
                break
            time.sleep(0.05)
        raise RuntimeError(f"{self.command[0]} did not start on port {self.port}")

    def end(self, *, outright: bool = False) -> None:
        if self.process is None:
            return
        if outright:
            self.process.kill()
        else:
            self.process.terminate()
        self.process.wait(20)
        self.process = None


@contextlib.contextmanager
def postgresql() -> Iterator[Server]:
    """A fresh cluster with the database `fitshop`. Root hands it to the user postgres."""
    programs = postgresql_folder()
    if programs is None:
        raise MissingServer("PostgreSQL's server programs (initdb, postgres) are not installed.")
    with tempfile.TemporaryDirectory(prefix="fitshop-pg-") as folder:
        options: dict[str, Any] = {"cwd": folder}
        if os.geteuid() == 0:  # PostgreSQL refuses to run as root
            entry = pwd.getpwnam("postgres")
            os.chown(folder, entry.pw_uid, entry.pw_gid)
            options |= {"user": entry.pw_uid, "group": entry.pw_gid, "extra_groups": []}
        data, port = f"{folder}/data", free_port()
        initdb = [programs / "initdb", "-D", data, "-U", "fitshop", "-A", "trust", "--no-sync"]
        initdb += ["-E", "UTF8", "--locale=C.UTF-8"]
        subprocess.run(initdb, check=True, stdout=subprocess.DEVNULL, **options)
        settings = [f"port={port}", f"unix_socket_directories={folder}", "max_connections=60"]
        settings += ["listen_addresses=127.0.0.1", "fsync=off"]
        command = [str(programs / "postgres"), "-D", data]
        command += [part for setting in settings for part in ("-c", setting)]
        url = f"postgres://fitshop@127.0.0.1:{port}/fitshop"
        server = Server(command, port, url, options)
        server.start()
        try:
            _until_it_answers(programs, port)
            createdb = [programs / "createdb", "-h", "127.0.0.1", "-p", str(port), "-U", "fitshop"]
            subprocess.run([*createdb, "fitshop"], check=True, **options)
            yield server
        finally:
            if server.process is not None:
                server.process.send_signal(signal.SIGINT)  # the fast shutdown, whoever is connected
                server.process.wait(20)


def _until_it_answers(programs: Path, port: int) -> None:
    for _ in range(200):
        asked = [programs / "pg_isready", "-q", "-h", "127.0.0.1", "-p", str(port)]
        if subprocess.run(asked, check=False).returncode == 0:
            return
        time.sleep(0.05)
    raise RuntimeError("PostgreSQL does not answer")


@contextlib.contextmanager
def redis() -> Iterator[Server]:
    """A Redis that keeps nothing on disk."""
    program = shutil.which("redis-server")
    if program is None:
        raise MissingServer("redis-server is not installed.")
    port = free_port()
    with tempfile.TemporaryDirectory(prefix="fitshop-redis-") as folder:
        command = [program, "--port", str(port), "--bind", "127.0.0.1", "--save", ""]
        command += ["--appendonly", "no", "--dir", folder]
        server = Server(command, port, f"redis://127.0.0.1:{port}/0")
        server.start()
        try:
            yield server
        finally:
            server.end()


def main(arguments: list[str]) -> int:
    lane, dashes, *command = arguments
    if lane != "postgresql" or dashes != "--" or not command:
        print(__doc__)
        return 2
    with postgresql() as server:
        environment = os.environ | {"FITSHOP_DATABASE": server.url}
        return subprocess.run(command, env=environment, check=False).returncode


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
