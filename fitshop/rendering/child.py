"""The renderer itself: the only process that imports WeasyPrint. Started by the package."""

from __future__ import annotations

import hashlib
import json
import mimetypes
import os
import resource
import signal
import sys
import tempfile
from pathlib import Path
from typing import Any
from urllib.parse import unquote

from fitshop.rendering import HOUSE, got, put

MOST_MEMORY = 1 << 30  # bytes; an endless layout must not take the machine with it
# What a relative address in a document is joined to. The `.invalid` name resolves nowhere
# (RFC 2606), and the child maps it to the buildings' own static folders.
PACKAGED = "https://packaged.invalid/"
# fontconfig's own grammar: no <include>, so nothing of the machine's fonts is seen.
FONTCONFIG = """<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig><dir>{folder}/fonts</dir><cachedir>{folder}/cache</cachedir></fontconfig>
"""


def answer_orders() -> None:
    """Answer orders until the parent is gone."""
    orders, answers = sys.stdin.buffer, os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # a stray print must not spoil an answer
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is the parent's to handle
    resource.setrlimit(resource.RLIMIT_DATA, (MOST_MEMORY, MOST_MEMORY))
    with tempfile.TemporaryDirectory(prefix="fitshop-fonts-") as folder:
        _fonts_shipped_only(Path(folder))
        while (order := got(orders)) is not None:
            asked = json.loads(order)
            # Should the parent have been killed in the middle, the child still ends.
            signal.alarm(int(asked["seconds"]) + 5)
            try:
                answer = b"+" + _made(asked)
            except Exception as error:
                answer = b"-" + (str(error) or type(error).__name__).encode()
            signal.alarm(0)
            put(answers, answer)


def _fonts_shipped_only(folder: Path) -> None:
    """Unpack the shipped fonts and let fontconfig see nothing else. Before WeasyPrint's import."""
    from fontTools.ttLib import woff2  # type: ignore[import-untyped]

    (folder / "fonts").mkdir()
    for packed in (HOUSE / "fitshop/static/fitshop/fonts").glob("*.woff2"):
        woff2.decompress(packed, folder / "fonts" / f"{packed.stem}.ttf")
    config = folder / "fonts.conf"
    config.write_text(FONTCONFIG.format(folder=folder))
    os.environ.update(FONTCONFIG_FILE=str(config), FONTCONFIG_PATH=str(folder))
    os.environ["SOURCE_DATE_EPOCH"] = "0"  # else the hour stands in every subset of a font


def _made(asked: dict[str, Any]) -> bytes:
    from weasyprint import CSS, HTML  # type: ignore[import-untyped]
    from weasyprint.urls import FatalURLFetchingError  # type: ignore[import-untyped]

    fetcher = _packaged_only()
    identifier = hashlib.sha256(asked["identifier"].encode()).digest()[:16]
    try:
        document = HTML(string=asked["html"], base_url=PACKAGED, url_fetcher=fetcher).render(
            stylesheets=[CSS(url=PACKAGED + name, url_fetcher=fetcher) for name in asked["css"]],
            pdf_variant="pdf/ua-1",
        )
        document.metadata.title = asked["title"]
        document.metadata.created = document.metadata.modified = asked["created"]
        return bytes(document.write_pdf(pdf_identifier=identifier, pdf_variant="pdf/ua-1"))
    except FatalURLFetchingError as error:  # not an Exception, so that the layout stops
        raise ValueError(f"{error}: {error.__cause__}") from error


def _packaged_only() -> Any:
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class PackagedOnly(URLFetcher):  # type: ignore[misc]
        """Reads `data:` and the buildings' own static files; refuses the rest, aloud."""

        def fetch(self, url: str, headers: Any = None) -> Any:
            if url.startswith("data:"):
                return super().fetch(url, headers)
            if not url.startswith(PACKAGED):
                raise ValueError("only packaged files and data: addresses are read")
            name = unquote(url.removeprefix(PACKAGED).split("?")[0].split("#")[0])
            for static in sorted(HOUSE.glob("*/static")):
                path = (static / name).resolve()
                if path.is_relative_to(static) and path.is_file():
                    kind = mimetypes.guess_type(name)[0] or "application/octet-stream"
                    return URLFetcherResponse(url, path.read_bytes(), {"Content-Type": kind})
            raise ValueError("no such packaged file")

    return PackagedOnly(fail_on_errors=True)


if __name__ == "__main__":
    answer_orders()
