"""Letters about a sign-in: set a new password, confirm an e-mail address.

Whoever reads such a letter can take the sign-in. So its row holds who asked for what and nothing
more: the link is made when the letter is sent, and is in no database, file or page. It works for
an hour at most. Every other letter is frozen when it is queued (`fitshop.services.messages`).
"""

from __future__ import annotations

import uuid
from datetime import datetime, timedelta
from enum import StrEnum

from allauth.account.models import EmailAddress, EmailConfirmationHMAC
from allauth.account.utils import user_pk_to_url_str
from django.conf import settings
from django.contrib.auth.tokens import PasswordResetTokenGenerator
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.module_loading import import_string

from fitshop.actor import Actor
from fitshop.models import OutgoingMessage, Staff
from fitshop.models.messages import ACCOUNT_KIND
from fitshop.services.messages import message_queue

HOLDS_FOR = timedelta(hours=1)


class AccountLetter(StrEnum):
    """What somebody asked for; the value is the first word of the row's occasion."""

    NEW_PASSWORD = "new_password"
    CONFIRM_ADDRESS = "confirm_address"


SUBJECTS = {
    AccountLetter.NEW_PASSWORD: "Set a new password",
    AccountLetter.CONFIRM_ADDRESS: "Confirm your e-mail address",
}


class NoLongerHolds(Exception):
    """The letter asks for something that is over; `args[0]` says what."""


def account_letter_queue(
    *, letter: AccountLetter, person: Staff, address: str, by: Actor, at: datetime
) -> OutgoingMessage | None:
    """Queue a letter without its link; None where no letter may go.

    A new password goes to a confirmed address only. Writes OutgoingMessage, AuditEntry.
    """
    known = EmailAddress.objects.filter(user=person, email__iexact=address).first()
    if not person.is_active or known is None:
        return None
    if letter is AccountLetter.NEW_PASSWORD and not known.verified:
        return None
    return message_queue(
        kind=ACCOUNT_KIND,
        subject_type="staff",
        subject_id=str(person.pk),
        occasion=f"{letter} {uuid.uuid4().hex}",
        recipient_email=known.email,
        recipient_name=str(person),
        mail_subject=SUBJECTS[letter],
        body_text="",
        by=by,
        at=at,
    )


def account_letter_text(message: OutgoingMessage, at: datetime) -> str:
    """Make the letter with its link, for the mail server only; never store what this returns.

    Raises NoLongerHolds: asked over an hour ago, the person or the address is gone, or the shop
    has no public address that a link could lead to.
    """
    if at - message.created_at > HOLDS_FOR:
        raise NoLongerHolds("It was asked for over an hour ago.")
    address = (
        EmailAddress.objects.select_related("user")
        .filter(
            user=message.subject_id, user__is_active=True, email__iexact=message.recipient_email
        )
        .first()
    )
    letter = AccountLetter(message.occasion.partition(" ")[0])
    if address is None or (letter is AccountLetter.NEW_PASSWORD and not address.verified):
        raise NoLongerHolds("The person or the address is no longer known.")
    origin = next(iter(settings.CSRF_TRUSTED_ORIGINS), "")
    if not origin:
        raise NoLongerHolds("The shop has no public address: set FITSHOP_ORIGINS.")
    return render_to_string(
        f"messages/account_{letter}.txt",
        {"person": address.user, "link": origin.rstrip("/") + _path(letter, address)},
    )


def _path(letter: AccountLetter, address: EmailAddress) -> str:
    if letter is AccountLetter.CONFIRM_ADDRESS:
        return reverse("account_confirm_email", args=[EmailConfirmationHMAC(address).key])
    tokens: PasswordResetTokenGenerator = import_string(
        settings.ACCOUNT_PASSWORD_RESET_TOKEN_GENERATOR
    )()
    return reverse(
        "account_reset_password_from_key",
        kwargs={
            "uidb36": user_pk_to_url_str(address.user),
            "key": tokens.make_token(address.user),
        },
    )
