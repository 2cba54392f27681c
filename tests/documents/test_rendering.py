"""The renderer: what it reads, which fonts it knows, and that nothing can keep it for ever."""

import io
import os
import subprocess
import sys
import threading
import time

import pdfplumber
import pikepdf
import pytest

from fitshop.rendering import HOUSE, RenderingFailed, RenderingTimedOut, pdf_from

PAGE = """<!doctype html><html lang="en"><head><title>t</title><style>
body {{ font-family: {family} }}</style></head><body><h1>Work order 17</h1>{body}</body></html>"""

# Deeply nested floats around a very long text: a layout of many minutes.
ENDLESS = "<div style='float:left'>" * 40 + "<table><tr><td>x" * 40 + "word " * 200_000


def page(body: str = "", family: str = "'Atkinson Hyperlegible Next'") -> str:
    return PAGE.format(body=body, family=family)


def made(html: str, **changed: object) -> bytes:
    return pdf_from(html, **{"identifier": "one", "title": "Work order 17", **changed})


def test_the_text_is_there_and_so_are_title_language_and_tags():
    content = made(page("<p>Bend to make: 2.0 degrees weak</p>"))
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        assert pdf.pages[0].extract_text() == "Work order 17\nBend to make: 2.0 degrees weak"
    with pikepdf.open(io.BytesIO(content)) as pdf:
        assert str(pdf.Root.Lang) == "en"
        assert bool(pdf.Root.MarkInfo.Marked)
        assert str(pdf.docinfo["/Title"]) == "Work order 17"
        with pdf.open_metadata() as properties:
            assert properties["pdfuaid:part"] == "1"


@pytest.mark.parametrize("family", ["'Atkinson Hyperlegible Next'", "'DejaVu Sans'", "monospace"])
def test_no_font_but_the_shipped_ones_is_embedded_whatever_is_asked_for(family):
    content = made(page("<p>Loft <b>weak</b> <i>strong</i></p>", family))
    with pikepdf.open(io.BytesIO(content)) as pdf:
        names = {
            str(thing["/FontName"])
            for thing in pdf.objects
            if isinstance(thing, pikepdf.Dictionary) and thing.get("/Type") == "/FontDescriptor"
        }
    assert names
    assert all("Atkinson-Hyperlegible-Next" in name for name in names), names


def test_the_same_document_gives_the_same_bytes_in_another_process_at_another_second():
    ours = made(page("<p>x</p>"), created="2026-03-01T09:00:00Z")
    time.sleep(1.1)
    code = (
        "import sys; from tests.documents.test_rendering import made, page;"
        "sys.stdout.buffer.write(made(page('<p>x</p>'), created='2026-03-01T09:00:00Z'))"
    )
    environment = {**os.environ, "PYTHONPATH": str(HOUSE), "PYTHONHASHSEED": "7"}
    theirs = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, check=True, env=environment
    ).stdout
    assert theirs == ours
    assert made(page("<p>y</p>"), created="2026-03-01T09:00:00Z") != ours


@pytest.mark.parametrize(
    "address",
    [
        "http://127.0.0.1:9/logo.png",
        "https://example.org/logo.png",
        "file:///etc/hostname",
        "../settings.py",
        "%2e%2e/settings.py",
        "fitshop/no-such-picture.svg",
    ],
)
def test_an_address_outside_the_packaged_files_is_refused_aloud(address):
    with pytest.raises(RenderingFailed, match="Error fetching"):
        made(page(f'<img alt="" src="{address}">'))


def test_packaged_files_and_data_addresses_are_read():
    picture = (
        "data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg' width='9' height='9'/%3E"
    )
    body = f'<img alt="" src="{picture}"><img alt="" src="fitshop/icons/range.svg">'
    assert made(page(body), css=["fitshop/tokens.css"]).startswith(b"%PDF-1.7")


def test_an_endless_layout_is_stopped_in_time_and_the_next_document_is_made():
    began = time.monotonic()
    with pytest.raises(RenderingTimedOut):
        made(page(ENDLESS), seconds_allowed=2)
    assert time.monotonic() - began < 4
    assert made(page()).startswith(b"%PDF")


def test_a_renderer_that_was_killed_is_started_again():
    from fitshop.rendering import _renderer

    made(page())
    first = _renderer._child
    first.kill()
    first.wait()
    assert made(page()).startswith(b"%PDF")
    assert _renderer._child.pid != first.pid


def test_threads_wait_their_turn_and_each_gets_its_own_document():
    found: dict[int, str] = {}

    def render(number: int) -> None:
        with pdfplumber.open(io.BytesIO(made(page(f"<p>number {number}</p>")))) as pdf:
            found[number] = pdf.pages[0].extract_text()

    threads = [threading.Thread(target=render, args=[number]) for number in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert found == {number: f"Work order 17\nnumber {number}" for number in range(6)}


def test_the_renderer_ends_when_its_parent_is_killed():
    code = (
        "import sys, time; from tests.documents.test_rendering import made, page;"
        "from fitshop.rendering import _renderer; made(page());"
        "print(_renderer._child.pid, flush=True); time.sleep(60)"
    )
    parent = subprocess.Popen(
        [sys.executable, "-c", code],
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": str(HOUSE)},
    )
    with parent:
        child = int(parent.stdout.readline())
        parent.kill()
    deadline = time.monotonic() + 5
    while time.monotonic() < deadline:
        try:
            with open(f"/proc/{child}/stat") as status:
                if status.read().rsplit(")", 1)[1].split()[0] == "Z":
                    return  # ended; whoever adopted it has not yet asked
        except FileNotFoundError:
            return
        time.sleep(0.05)
    pytest.fail("the renderer outlived its parent")
