"""A real mail server that keeps what it is given, and what a letter and its sheets say."""

from __future__ import annotations

import io
import time
from email import message_from_bytes
from email.message import EmailMessage
from email.policy import default

import pdfplumber
from aiosmtpd.smtp import SMTP, Envelope, Session


class Inbox:
    """The mail server's hands: keeps every letter that arrives."""

    def __init__(self) -> None:
        self.letters: list[EmailMessage] = []
        self.port = 0

    async def handle_DATA(self, server: SMTP, session: Session, envelope: Envelope) -> str:
        content = envelope.original_content or b""
        self.letters.append(message_from_bytes(content, EmailMessage, policy=default))
        return "250 kept"

    def subjects(self) -> list[str]:
        return sorted(letter["Subject"] for letter in self.letters)

    def wait_for(self, count: int, within_s: float = 40) -> list[EmailMessage]:
        """The letters, as soon as there are so many; however many there are, after that time."""
        deadline = time.monotonic() + within_s
        while len(self.letters) < count and time.monotonic() < deadline:
            time.sleep(0.05)
        return list(self.letters)


def plain_text(letter: EmailMessage) -> str:
    body = letter.get_body(("plain",))
    assert body is not None
    text: str = body.get_content()
    return text.replace("\r\n", "\n")


def attached(letter: EmailMessage) -> dict[str, bytes]:
    """The files of a letter by name."""
    return {
        part.get_filename() or "": part.get_payload(decode=True)
        for part in letter.iter_attachments()
    }


def words_of(sheet: bytes) -> str:
    """A PDF's text, all white space as one blank."""
    with pdfplumber.open(io.BytesIO(sheet)) as document:
        return " ".join(" ".join(page.extract_text() for page in document.pages).split())
