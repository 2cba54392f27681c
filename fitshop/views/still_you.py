"""Is it still you? The own password again, before something that matters to a sign-in."""

from __future__ import annotations

from allauth.core import ratelimit
from django.http import HttpRequest

from fitshop.forms import OwnPasswordForm


def is_still_you(request: HttpRequest, own: OwnPasswordForm) -> bool:
    """True if the own password was typed; tries are limited like those at sign-in."""
    if not own.is_valid():
        return False
    if not ratelimit.consume(request, action="reauthenticate", user=request.user):
        own.add_error("own_password", "Too many tries. Wait a minute.")
    elif not request.user.check_password(own.cleaned_data["own_password"]):
        own.add_error("own_password", "This is not your password.")
    return own.is_valid()
