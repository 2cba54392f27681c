"""How a letter leaves the house: over SMTP, or as a file in the embedded default."""

from __future__ import annotations

import asyncio
import re
import time
from collections.abc import Callable, Coroutine
from dataclasses import dataclass
from email.message import EmailMessage
from email.policy import SMTP
from email.utils import format_datetime, formataddr, parseaddr, parsedate_to_datetime
from enum import StrEnum
from pathlib import Path
from typing import Any, Protocol

import aiosmtplib
from django.conf import settings

from fitshop.models import MessageAttachment, OutgoingMessage

SECONDS_ALLOWED = 45.0  # for the whole conversation: a server that drips a byte must not hold it
ADDRESS_REFUSED = (550, 551, 553)
LEADING_DOT = re.compile(rb"(?m)^\.")
REFUSES_ADDRESS = "The address was refused: "


class Fate(StrEnum):
    """What became of a letter, as far as this side can know."""

    DELIVERED = "delivered"
    LATER = "later"
    REFUSED = "refused"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Outcome:
    fate: Fate
    reply: str


class Transport(Protocol):
    @property
    def is_private(self) -> bool:
        """True if nobody but the recipient reads what is handed over."""

    def send(self, letter: EmailMessage, *, before_data: Callable[[], None]) -> Outcome:
        """Hand the letter over. `before_data` runs just before its content is offered.

        Never raises for what the other side does; what `before_data` raises goes through, and
        then nothing was sent.
        """


def letter_from(message: OutgoingMessage, files: list[MessageAttachment]) -> EmailMessage:
    """Build the mail from the frozen row: the same row gives the same headers every time."""
    letter = EmailMessage(policy=SMTP)
    letter["Message-ID"] = message.message_id
    letter["Date"] = format_datetime(message.created_at)
    letter["From"] = settings.MESSAGES_FROM
    letter["To"] = formataddr((message.recipient_name, message.recipient_email))
    letter["Subject"] = message.mail_subject
    letter["Auto-Submitted"] = "auto-generated"
    letter.set_content(message.body_text)
    if message.body_html:
        letter.add_alternative(message.body_html, subtype="html")
    for file in files:
        main, _, sub = file.content_type.partition("/")
        letter.add_attachment(bytes(file.content), maintype=main, subtype=sub, filename=file.name)
    return letter


def transport_in_force() -> Transport:
    """SMTP where a server is named in the settings, files under `var/messages/` otherwise."""
    if not settings.MESSAGES_SMTP_HOST:
        return FileTransport(Path(settings.MESSAGES_DIR))
    return SmtpTransport(
        host=settings.MESSAGES_SMTP_HOST,
        port=settings.MESSAGES_SMTP_PORT,
        user=settings.MESSAGES_SMTP_USER,
        password=settings.MESSAGES_SMTP_PASSWORD,
        starttls=settings.MESSAGES_SMTP_STARTTLS,
    )


@dataclass(frozen=True, slots=True)
class FileTransport:
    """Writes each letter as one .eml file that any mail program opens."""

    folder: Path
    is_private: bool = False

    def send(self, letter: EmailMessage, *, before_data: Callable[[], None]) -> Outcome:
        day = parsedate_to_datetime(letter["Date"]).date()
        name = f"{day}-{letter['Message-ID'].strip('<>').partition('@')[0]}.eml"
        # No doubt to write down: the same letter written twice is one file.
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            unfinished = self.folder / f"{name}.part"
            unfinished.write_bytes(letter.as_bytes())
            unfinished.replace(self.folder / name)
        except OSError as error:
            return Outcome(Fate.LATER, f"The file could not be written: {error.strerror}")
        return Outcome(Fate.DELIVERED, f"Written to {name}")


@dataclass(frozen=True, slots=True)
class SmtpTransport:
    """One conversation per letter, under one time limit from greeting to last answer."""

    host: str
    port: int
    user: str = ""
    password: str = ""
    starttls: bool = True
    seconds_allowed: float = SECONDS_ALLOWED
    is_private: bool = True

    def send(self, letter: EmailMessage, *, before_data: Callable[[], None]) -> Outcome:
        deadline = time.monotonic() + self.seconds_allowed
        client = aiosmtplib.SMTP(
            hostname=self.host,
            port=self.port,
            username=self.user or None,
            password=self.password or None,
            start_tls=self.starttls,
            timeout=self.seconds_allowed,
        )
        # Two runs of one loop: the database is written between them, outside any running loop.
        # Only the second offers the letter's content, so only its silence leaves a doubt.
        with asyncio.Runner() as runner:
            try:
                try:
                    runner.run(_until(deadline, _envelope(client, letter)))
                except (aiosmtplib.SMTPException, OSError, TimeoutError, ValueError) as error:
                    return _fate_before_data(error)
                before_data()
                try:
                    answer = runner.run(_until(deadline, _content(client, letter)))
                except (aiosmtplib.SMTPException, OSError, TimeoutError) as error:
                    return Outcome(
                        Fate.UNKNOWN, f"No answer after the letter was handed over: {_said(error)}"
                    )
                return Outcome(_fate_of_answer(answer.code), f"{answer.code} {answer.message}")
            finally:
                client.close()


async def _until(deadline: float, talk: Coroutine[Any, Any, Any]) -> Any:
    async with asyncio.timeout(max(0.0, deadline - time.monotonic())):
        return await talk


async def _envelope(client: aiosmtplib.SMTP, letter: EmailMessage) -> None:
    """Go as far as the server's "now send it"."""
    await client.connect()
    await client.mail(parseaddr(letter["From"])[1])
    await client.rcpt(parseaddr(letter["To"])[1])
    answer = await client.execute_command(b"DATA")
    if answer.code != aiosmtplib.SMTPStatus.start_input:
        raise aiosmtplib.SMTPDataError(answer.code, answer.message)


async def _content(client: aiosmtplib.SMTP, letter: EmailMessage) -> aiosmtplib.SMTPResponse:
    """Send the letter itself and return the answer to its final dot."""
    protocol = client.protocol
    if protocol is None:
        raise aiosmtplib.SMTPServerDisconnected("The connection was lost.")
    # The library sends "DATA" and the content in one call, which hides between which of the two a
    # connection broke. It has no public way to say that an answer is awaited.
    protocol._response_pending = True
    protocol.write(LEADING_DOT.sub(b"..", letter.as_bytes()) + b".\r\n")
    return await protocol.read_response(timeout=client.timeout)


def _fate_before_data(error: Exception) -> Outcome:
    """Nothing was offered yet: the letter is certainly not delivered.

    A refusal of the recipient or of the content is the letter's. One of the connection, of the
    sign-in or of the sender is the shop's to mend: no letter dies of it at once.
    """
    if isinstance(error, UnicodeEncodeError):
        return Outcome(Fate.REFUSED, f"{REFUSES_ADDRESS}it holds letters mail can't carry.")
    if not isinstance(error, aiosmtplib.SMTPResponseException):
        return Outcome(Fate.LATER, _said(error))
    reply = f"{error.code} {error.message}"
    is_the_letters = isinstance(error, aiosmtplib.SMTPRecipientRefused | aiosmtplib.SMTPDataError)
    if error.code < 500 or not is_the_letters:
        return Outcome(Fate.LATER, reply)
    if isinstance(error, aiosmtplib.SMTPRecipientRefused) and error.code in ADDRESS_REFUSED:
        return Outcome(Fate.REFUSED, f"{REFUSES_ADDRESS}{reply}")
    return Outcome(Fate.REFUSED, reply)


def _fate_of_answer(code: int) -> Fate:
    """What the answer to the final dot says: any 2xx is success (RFC 5321, 4.2.1)."""
    if 200 <= code < 300:
        return Fate.DELIVERED
    return Fate.LATER if code < 500 else Fate.REFUSED


def _said(error: Exception) -> str:
    return str(error) or {"TimeoutError": "it took too long"}.get(type(error).__name__, "no answer")
