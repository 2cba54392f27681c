"""What every request passes: an id for the logs and the audit, no caching, the second factor."""

import re
import uuid
from collections.abc import Callable

from allauth.mfa.utils import is_mfa_enabled
from django.conf import settings
from django.db.models import prefetch_related_objects
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect

from fitshop.logs import request_id

Answer = Callable[[HttpRequest], HttpResponse]
A_GIVEN_ID = re.compile(r"^[A-Za-z0-9-]{8,64}$")


class RequestIdMiddleware:
    """Name each request once, and say the name in the answer."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        given = request.headers.get("X-Request-Id", "")
        name = given if A_GIVEN_ID.match(given) else uuid.uuid4().hex
        request.id = name  # type: ignore[attr-defined]
        token = request_id.set(name)
        try:
            response = self.get_response(request)
        finally:
            request_id.reset(token)
        response["X-Request-Id"] = name
        return response


class NoStoreMiddleware:
    """Nothing that a signed-in person sees may be kept by a shared tablet's cache."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        response.setdefault("Cache-Control", "no-store")
        return response


class FirstPasswordMiddleware:
    """Somebody who was given a password sets another before anything else."""

    OPEN_NAMES = ("account_change_password", "account_logout", "livez", "readyz")

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_view(
        self, request: HttpRequest, view: object, args: object, kwargs: object
    ) -> HttpResponse | None:
        if getattr(view, "is_anonymous_shell", False) or not request.user.is_authenticated:
            return None
        name = (request.resolver_match.url_name if request.resolver_match else "") or ""
        if name in self.OPEN_NAMES or not request.user.must_set_password:
            return None
        return redirect("account_change_password")


class SecondFactorMiddleware:
    """A manager or the desk sets up a second factor before anything else.

    The demo shop, which refuses any host but this machine, does without.
    """

    OPEN_NAMES = ("account_", "mfa_", "livez", "readyz")

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_view(
        self, request: HttpRequest, view: object, args: object, kwargs: object
    ) -> HttpResponse | None:
        if getattr(view, "is_anonymous_shell", False):
            return None  # the same bytes for everyone: nobody is asked for
        user = request.user
        if settings.DEMO or not user.is_authenticated:
            return None
        name = (request.resolver_match.url_name if request.resolver_match else "") or ""
        if name.startswith(self.OPEN_NAMES):
            return None
        prefetch_related_objects([user], "role_rows")  # read once: the door asks for them too
        roles = {row.role for row in user.role_rows.all()}
        if roles.isdisjoint(settings.SECOND_FACTOR_ROLES):
            return None
        return None if is_mfa_enabled(user) else redirect("mfa_activate_totp")
