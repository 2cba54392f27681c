"""Django's mail goes the same way as every other letter: it becomes a message row."""

import uuid
from collections.abc import Sequence

from django.core.mail import EmailMessage
from django.core.mail.backends.base import BaseEmailBackend
from django.utils import timezone

from fitshop.actor import system_actor
from fitshop.services.messages import message_queue


class MessageRows(BaseEmailBackend):
    """For the sign-in letters: each is an occasion of its own."""

    def send_messages(self, email_messages: Sequence[EmailMessage]) -> int:
        letters = [(letter, address) for letter in email_messages for address in letter.to]
        for letter, address in letters:
            message_queue(
                kind="account",
                subject_type="account",
                subject_id=address[:64],
                occasion=uuid.uuid4().hex,
                recipient_email=address,
                recipient_name="",
                mail_subject=letter.subject[:200],
                body_text=str(letter.body),
                by=system_actor("sign-in"),
                at=timezone.now(),
            )
        return len(email_messages)
