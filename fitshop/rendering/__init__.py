"""HTML to PDF in one long-lived child process, the same for web, loop and worker.

WeasyPrint has no way to stop a layout that never ends, so it runs in a child that is killed on
its time limit; the next call starts another. The child sees packaged static files and `data:`
addresses only, and no font but the shipped ones. The same HTML, style sheets, identifier, title
and time give the same bytes.

    pdf = pdf_from(html, css=["fitshop/paper.css"], identifier="ticket-0042-2", title="Ticket 42")
"""

from __future__ import annotations

import json
import os
import struct
import subprocess
import sys
import threading
from collections.abc import Sequence
from pathlib import Path
from typing import IO

SECONDS_ALLOWED = 20.0
HOUSE = Path(__file__).resolve().parent.parent.parent


class RenderingFailed(Exception):
    """The document could not be made; the message says why."""


class RenderingTimedOut(RenderingFailed):
    """The layout did not end within its limit and was stopped."""


def pdf_from(
    html: str,
    *,
    css: Sequence[str] = (),
    identifier: str,
    title: str,
    created: str | None = None,
    seconds_allowed: float = SECONDS_ALLOWED,
) -> bytes:
    """The PDF (tagged, PDF/UA-1 metadata) of a whole HTML document.

    `css`: names below a building's `static/`, such as "fitshop/paper.css". `identifier`: fixed
    for one state of one document. `created`: W3C date or date-time shown in the file's
    properties. Relative addresses in the HTML are read below `static/` as well. One document is
    made at a time per process; waiting for one's turn counts towards the limit.

    Raises RenderingTimedOut, or RenderingFailed for anything else, a refused address included.
    """
    order = {
        "html": html,
        "css": list(css),
        "identifier": identifier,
        "title": title,
        "created": created,
        "seconds": seconds_allowed,
    }
    return _renderer.answer(json.dumps(order).encode(), seconds_allowed)


class _Renderer:
    """Keeps the child: starts it when first wanted, kills it when late, starts it again."""

    def __init__(self) -> None:
        self._turn = threading.Lock()
        self._child: subprocess.Popen[bytes] | None = None
        self._owner = 0  # a forked process must not write into its parent's child

    def answer(self, order: bytes, seconds: float) -> bytes:
        if not self._turn.acquire(timeout=seconds):
            raise RenderingTimedOut("The documents before this one took too long. Try again.")
        try:
            child = self._running()
            late = threading.Event()
            alarm = threading.Timer(seconds, self._killed, [child, late])
            alarm.start()
            try:
                made = self._asked(child, order)
            except (OSError, EOFError):
                self._stop()
                if late.is_set():
                    raise RenderingTimedOut(f"Stopped after {seconds:g} seconds.") from None
                raise RenderingFailed("The renderer ended without an answer.") from None
            finally:
                alarm.cancel()
        finally:
            self._turn.release()
        if made[:1] != b"+":
            raise RenderingFailed(made[1:].decode())
        return made[1:]

    @staticmethod
    def _killed(child: subprocess.Popen[bytes], late: threading.Event) -> None:
        late.set()
        child.kill()

    @staticmethod
    def _asked(child: subprocess.Popen[bytes], order: bytes) -> bytes:
        assert child.stdin is not None
        assert child.stdout is not None
        put(child.stdin, order)
        answer = got(child.stdout)
        if answer is None:
            raise EOFError
        return answer

    def _running(self) -> subprocess.Popen[bytes]:
        if self._owner != os.getpid():
            self._child, self._owner = None, os.getpid()
        if self._child is None or self._child.poll() is not None:
            self._stop()
            self._child = subprocess.Popen(
                [sys.executable, "-m", "fitshop.rendering.child"],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                cwd=HOUSE,
            )
        return self._child

    def _stop(self) -> None:
        child, self._child = self._child, None
        if child is not None:
            child.kill()
            child.wait()
            for pipe in (child.stdin, child.stdout):
                if pipe is not None:
                    pipe.close()


_renderer = _Renderer()
os.register_at_fork(after_in_child=_renderer.__init__)  # type: ignore[misc]


def put(pipe: IO[bytes], content: bytes) -> None:
    pipe.write(struct.pack(">Q", len(content)) + content)
    pipe.flush()


def got(pipe: IO[bytes]) -> bytes | None:
    """One message: its length in eight bytes, then itself; None when the other side is gone."""
    head = pipe.read(8)
    if len(head) < 8:
        return None
    (length,) = struct.unpack(">Q", head)
    content = pipe.read(length)
    return content if len(content) == length else None
