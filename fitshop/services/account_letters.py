"""Letters about a sign-in: set a new password, confirm an e-mail address.

Whoever reads such a letter can take the sign-in. So its row holds who asked for what and nothing
more: the link is made when the letter is sent, and is in no database, file or page. It works for
an hour at most. Every other letter is frozen when it is queued (`fitshop.services.messages`).
"""

from __future__ import annotations

import uuid
from datetime import datetime, timedelta
from enum import StrEnum
from typing import Any
from urllib.parse import urlsplit

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
from fitshop.public_address import is_loopback
from fitshop.selectors import settings_in_force
from fitshop.services.messages import message_queue

HOLDS_FOR = timedelta(hours=1)


class AccountLetter(StrEnum):
    """What somebody asked for; the value is the first word of the row's occasion."""

    NEW_PASSWORD = "new_password"
    CONFIRM_ADDRESS = "confirm_address"
    ADDRESS_CHANGED = "address_changed"


SUBJECTS = {
    AccountLetter.NEW_PASSWORD: "Set a new password",
    AccountLetter.CONFIRM_ADDRESS: "Confirm your e-mail address",
    AccountLetter.ADDRESS_CHANGED: "Your e-mail address was changed",
}


class NoLongerHolds(Exception):
    """The letter asks for something that is over; `args[0]` says what."""


def sign_in_address_set(*, person: Staff, email: str, by: Actor, at: datetime) -> None:
    """Set the address of a sign-in: unconfirmed until its owner follows the link.

    A letter goes to the address before. Writes Staff, EmailAddress, OutgoingMessage, AuditEntry.
    """
    if person.email:
        _queued(AccountLetter.ADDRESS_CHANGED, person, person.email, by=by, at=at)
    EmailAddress.objects.filter(user=person).delete()
    person.email = email
    person.save(update_fields=["email"])
    if email:
        EmailAddress.objects.create(user=person, email=email.lower(), primary=True)
        _queued(AccountLetter.CONFIRM_ADDRESS, person, email, by=by, at=at)


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
    return _queued(letter, person, known.email, by=by, at=at)


def account_letter_text(message: OutgoingMessage, at: datetime) -> str:
    """Make the letter with its link, for the mail server only; never store what this returns.

    Raises NoLongerHolds: a link was asked for over an hour ago, the person or the address is
    gone, or the shop has no public address that a link could lead to.
    """
    letter = AccountLetter(message.occasion.partition(" ")[0])
    person = Staff.objects.filter(pk=message.subject_id).first()
    if person is None:
        raise NoLongerHolds("The person is no longer known.")
    values: dict[str, Any] = {"person": person}
    if letter is not AccountLetter.ADDRESS_CHANGED:
        values["link"] = _link(letter, message, at)
    return render_to_string(f"messages/account_{letter}.txt", values)


def _queued(
    letter: AccountLetter, person: Staff, address: str, *, by: Actor, at: datetime
) -> OutgoingMessage:
    return message_queue(
        kind=ACCOUNT_KIND,
        subject_type="staff",
        subject_id=str(person.pk),
        occasion=f"{letter} {uuid.uuid4().hex}",
        recipient_email=address,
        recipient_name=str(person),
        mail_subject=SUBJECTS[letter],
        body_text="",
        by=by,
        at=at,
    )


def _link(letter: AccountLetter, message: OutgoingMessage, at: datetime) -> str:
    if at - message.created_at > HOLDS_FOR:
        raise NoLongerHolds("It was asked for over an hour ago.")
    address = (
        EmailAddress.objects.select_related("user")
        .filter(
            user=message.subject_id, user__is_active=True, email__iexact=message.recipient_email
        )
        .first()
    )
    if address is None or (letter is AccountLetter.NEW_PASSWORD and not address.verified):
        raise NoLongerHolds("The person or the address is no longer known.")
    # What only this machine reaches leads nobody anywhere.
    origins = [str(settings_in_force()["shop.public_address"]), *settings.CSRF_TRUSTED_ORIGINS]
    origin = next((o for o in origins if o and not is_loopback(urlsplit(o).hostname or "")), "")
    if not origin:
        raise NoLongerHolds("The shop has no public address yet: a manager sets it.")
    return origin.rstrip("/") + _path(letter, address)


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
