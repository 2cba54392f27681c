"""Sign-in is for staff whom a manager has entered: nobody signs up."""

import base64
from typing import Any

from allauth.account.adapter import DefaultAccountAdapter
from allauth.core import ratelimit
from allauth.mfa.adapter import DefaultMFAAdapter
from cryptography.fernet import Fernet, MultiFernet
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.kdf.hkdf import HKDF
from django.conf import settings
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.utils import timezone

from fitshop.actor import Actor, ActorKind, system_actor
from fitshop.models import Staff
from fitshop.services.account_letters import AccountLetter, account_letter_queue
from fitshop.services.colleagues import own_password_set
from fitshop.services.sign_ins import sign_in_record


class StaffOnly(DefaultAccountAdapter):
    def is_open_for_signup(self, request: HttpRequest) -> bool:
        return False

    def pre_authenticate(self, request: HttpRequest, **credentials: Any) -> None:
        """Refuse after too many wrong passwords, for this name from here or from anywhere."""
        if not ratelimit.consume(
            request, action="login_failed_of_name", key=_name(credentials), dry_run=True
        ):
            self._write_down("locked_out", _named(credentials))
            raise self.validation_error("too_many_login_attempts")
        try:
            super().pre_authenticate(request, **credentials)
        except ValidationError:
            self._write_down("locked_out", _named(credentials))
            raise

    def authentication_failed(self, request: HttpRequest, **credentials: Any) -> None:
        ratelimit.consume(request, action="login_failed_of_name", key=_name(credentials))
        self._write_down("sign_in_failed", _named(credentials))

    def post_login(self, request: HttpRequest, user: Staff, **how: Any) -> HttpResponse:
        self._write_down("signed_in", user, by=_staff_actor(user))
        return super().post_login(request, user, **how)

    def _write_down(
        self, deed: str, person: Staff | None, *, what: str = "", by: Actor | None = None
    ) -> None:
        if person is not None:
            sign_in_record(
                person=person,
                deed=deed,
                from_address=self.get_client_ip(self.request),
                what=what,
                by=by or system_actor("sign-in"),
                at=timezone.now(),
            )

    def _get_login_attempts_cache_key(self, request: HttpRequest, **credentials: Any) -> str:
        return f"{_name(credentials)} from {self.get_client_ip(request)}"

    def send_password_reset_mail(self, user: Staff, email: str, context: dict[str, Any]) -> None:
        self._queue(AccountLetter.NEW_PASSWORD, user, email)

    def send_confirmation_mail(
        self, request: HttpRequest, emailconfirmation: Any, signup: bool
    ) -> None:
        address = emailconfirmation.email_address
        self._queue(AccountLetter.CONFIRM_ADDRESS, address.user, address.email)

    def clean_password(self, password: str, user: Staff | None = None) -> str:
        """Refuse the password that somebody else gave, and knows."""
        if user is not None and user.must_set_password and user.check_password(password):
            raise ValidationError("Choose another password than the one you were given.")
        return str(super().clean_password(password, user))

    def set_password(self, user: Staff, password: str) -> None:
        own_password_set(
            person=user, password=password, by=system_actor("sign-in"), at=timezone.now()
        )

    def send_notification_mail(self, template_prefix: str, user: Staff, *_: Any, **__: Any) -> None:
        """Write down what the library would have sent a letter about: a factor was changed.

        Changed passwords are written down by the service that sets them.
        """
        library, _, what = template_prefix.partition("/email/")
        if library == "mfa":
            self._write_down("factor_changed", user, what=what, by=_staff_actor(user))

    def send_mail(self, template_prefix: str, email: str, context: dict[str, Any]) -> None:
        """Send nothing else: an address that belongs to no sign-in gets no letter."""

    def _queue(self, letter: AccountLetter, person: Staff, address: str) -> None:
        account_letter_queue(
            letter=letter,
            person=person,
            address=address,
            by=system_actor("sign-in"),
            at=timezone.now(),
        )


def _named(credentials: dict[str, Any]) -> Staff | None:
    return Staff.objects.filter(username__iexact=_name(credentials)).first()


def _staff_actor(person: Staff) -> Actor:
    return Actor(kind=ActorKind.STAFF, name=str(person), staff_id=person.pk)


def _name(credentials: dict[str, Any]) -> str:
    return str(credentials.get("email", credentials.get("username", ""))).lower()


class SealedFactors(DefaultMFAAdapter):
    """Secrets of second factors, sealed with the shop's key: a copy of the database is no use.

    A secret that was stored before they were sealed is read as it is.
    """

    PREFIX = "sealed:"

    def encrypt(self, text: str) -> str:
        return self.PREFIX + _seal().encrypt(text.encode()).decode()

    def decrypt(self, encrypted_text: str) -> str:
        if not encrypted_text.startswith(self.PREFIX):
            return encrypted_text
        return _seal().decrypt(encrypted_text.removeprefix(self.PREFIX).encode()).decode()


def _seal() -> MultiFernet:
    """The key of today, and those before it that the shop still accepts."""
    keys = [settings.SECRET_KEY, *settings.SECRET_KEY_FALLBACKS]
    return MultiFernet([Fernet(_derived(key)) for key in keys])


def _derived(key: str) -> bytes:
    derive = HKDF(algorithm=SHA256(), length=32, salt=None, info=b"second factors")
    return base64.urlsafe_b64encode(derive.derive(key.encode()))
