"""What every request passes: an id for the logs and the audit, no caching, the second factor."""

import re
import time
import uuid
from collections.abc import Callable

from allauth.mfa.utils import is_mfa_enabled
from django.conf import settings
from django.contrib.auth import logout
from django.db.models import prefetch_related_objects
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect

from fitshop.logs import request_id
from fitshop.selectors import settings_in_force

# When a sign-in was used last, and after how long it ends [s]; written at most so often.
LAST_USED, WRITTEN_EVERY_S = "last_used", 30
LOGOUT = "/account/logout/"
Answer = Callable[[HttpRequest], HttpResponse]
# The camera reads tickets' codes and takes photographs; nothing else is asked of a device.
NO_SENSORS = "camera=(self), geolocation=(), microphone=(), payment=(), usb=()"
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


class LimitsMiddleware:
    """Refuse what nobody who uses the pages sends: bodies past any limit, and the character NUL.

    A body is judged by the length it states: gunicorn reads no more than that. PostgreSQL stores
    no NUL, so that one in a search would be a fault.
    """

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        stated = request.META.get("CONTENT_LENGTH") or "0"
        if not stated.isdigit() or int(stated) > settings.MOST_BODY_BYTES:
            return _plain_refusal("That is more than this shop takes at once.", 413)
        if "\x00" in request.path or "%00" in request.META.get("QUERY_STRING", ""):
            return _plain_refusal("There is a character in it that can't be stored.", 400)
        response = self.get_response(request)
        response.setdefault("Permissions-Policy", NO_SENSORS)
        return response

    def process_view(
        self, request: HttpRequest, view: object, args: object, kwargs: object
    ) -> HttpResponse | None:
        if request.method != "POST" or request.content_type == "application/json":
            return None
        if any("\x00" in text for _, texts in request.POST.lists() for text in texts):
            return _plain_refusal("There is a character in it that can't be stored.", 400)
        return None


def _plain_refusal(sentence: str, status: int) -> HttpResponse:
    return HttpResponse(f"{sentence}\n", status=status, content_type="text/plain")


class NoStoreMiddleware:
    """Nothing that a signed-in person sees may be kept by a shared tablet's cache."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        response.setdefault("Cache-Control", "no-store")
        if request.path == LOGOUT and request.method == "POST":
            # Never "storage": what a tablet has recorded and not yet sent lies there.
            response["Clear-Site-Data"] = '"cache"'
        return response


class IdleMiddleware:
    """End a sign-in that nobody used for as long as the shop has set.

    The next request is that of a stranger: it is led to the sign-in and from there back to the very
    page, and a form that it carries is kept (`fitshop/views/kept.py`). What a page asks by itself
    (`is_polled`) is no use of it.
    """

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_view(
        self, request: HttpRequest, view: object, args: object, kwargs: object
    ) -> HttpResponse | None:
        if getattr(view, "is_anonymous_shell", False) or not request.user.is_authenticated:
            return None
        now = time.time()
        used_at, limit_s = request.session.get(LAST_USED, (now, 0))
        if limit_s and now - used_at > limit_s:
            logout(request)
        elif not is_polled(view) and (not limit_s or now - used_at > WRITTEN_EVERY_S):
            minutes = int(str(settings_in_force()["shop.idle_lock_minutes"]))
            request.session[LAST_USED] = (now, minutes * 60)
        return None


def is_polled(view: object) -> bool:
    """Whether a page asks this address by itself, say every few seconds."""
    return bool(getattr(getattr(view, "view_class", view), "is_polled", False))


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
