"""A form sent after its session had ended: kept for who typed it, and shown again as typed.

Every form carries a seal: who was signed in when it was shown, and on which page. Where it comes
back signed out, or with the token of an earlier sign-in, its fields wait in the browser's session
on the server, never in an address, for half an hour. After the same person has signed in, the page
comes back with the form filled; nothing is stored until it is sent again. Anyone else who signs in
there is not shown it, and it is let go. Passwords and files are not kept.
"""

from __future__ import annotations

import re
from dataclasses import asdict, dataclass
from datetime import datetime, timedelta
from typing import Any
from urllib.parse import urlsplit

from django.contrib import messages
from django.contrib.auth.views import redirect_to_login
from django.core.signing import BadSignature, Signer
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.utils import timezone

from fitshop.models import Staff
from fitshop.views.filling import Found, filled

SEAL = "typed_by"
IN_SESSION = "kept_forms"
PLACE = "kept-form"  # the id of the strip above the filled form
KEPT_FOR = timedelta(minutes=30)
MOST_FORMS = 5
MOST_LETTERS = 200_000
NEVER_KEPT = {SEAL, "csrfmiddlewaretoken"}
SECRET = re.compile(r"password|passphrase|secret|otp|(?<![a-z])pin$", re.IGNORECASE)
AN_ID = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")
# How Django begins its reasons where a form comes from another site: that is never kept.
FOREIGN = ("Origin checking", "Referer checking")
SIGNED_OUT, SIGNED_IN_AGAIN = "signed_out", "signed_in_again"


@dataclass(frozen=True, slots=True)
class KeptForm:
    """What was sent: by whom, from which page, to which address, and when."""

    who: str
    page: str
    action: str
    fields: dict[str, list[str]]
    at: str
    why: str

    def is_too_old(self, now: datetime) -> bool:
        return now - datetime.fromisoformat(self.at) > KEPT_FOR


def seal_of(request: HttpRequest) -> str:
    """The seal that every form shown to a signed-in person carries beside its token."""
    cached: str | None = getattr(request, "_typed_by", None)
    if cached is None:
        cached = _signer().sign_object([str(request.user.pk), page_of(request)])
        request._typed_by = cached  # type: ignore[attr-defined]
    return cached


def page_of(request: HttpRequest) -> str:
    """The page a person looks at: for a fragment the page around it, for a refused form its own."""
    if request.method == "POST":
        sealed = _sealed(request)
        if sealed is not None:
            return sealed[1]
    around = request.headers.get("HX-Current-URL", "")
    if around:
        parts = urlsplit(around)
        return parts.path + (f"?{parts.query}" if parts.query else "")
    return request.get_full_path()


def signed_out(request: HttpRequest) -> HttpResponse:
    """Ask for the sign-in; what was typed waits, and a fragment sends the whole page there."""
    page = page_of(request)
    if request.method == "POST" and _keep(request, SIGNED_OUT):
        request.session.set_expiry(KEPT_FOR)  # the sign-in gives it its own age again
        request.session.clear_expired()
        page += f"#{PLACE}"
    return _sent_to(request, redirect_to_login(page)["Location"])


def csrf_failure(request: HttpRequest, reason: str = "") -> HttpResponse:
    """A token of an earlier sign-in loses nothing where the same person typed it."""
    sealed = None if reason.startswith(FOREIGN) else _sealed(request)
    if sealed is not None and not request.user.is_authenticated:
        return signed_out(request)
    is_own = sealed is not None and sealed[0] == str(request.user.pk)
    if is_own and _keep(request, SIGNED_IN_AGAIN):
        return _sent_to(request, f"{page_of(request)}#{PLACE}")
    context = {"is_of_another": sealed is not None and not is_own}
    return render(request, "403_csrf.html", context, status=403)


def kept_for(request: HttpRequest) -> Staff | None:
    """Whose form waits for the sign-in, for the sign-in page to say."""
    if request.user.is_authenticated or IN_SESSION not in request.session:
        return None
    waiting = _forms(request)
    return Staff.objects.filter(pk=waiting[-1].who, is_active=True).first() if waiting else None


def let_go_of_others(request: HttpRequest) -> None:
    """What someone else typed in this browser is dropped unseen, and that is said."""
    if IN_SESSION not in request.session:
        return
    waiting = _forms(request)
    own = [form for form in waiting if form.who == str(request.user.pk)]
    if len(own) < len(waiting):
        messages.warning(
            request,
            "A form that someone else had typed here was not saved. It is not shown to you, "
            "and it is let go.",
        )
        _store(request, own)


def let_go(request: HttpRequest, *, action: str | None = None) -> None:
    """Drop what waits for that address, or all of it."""
    if IN_SESSION in request.session:
        _store(request, [f for f in _forms(request) if action is not None and f.action != action])


def taken_up(request: HttpRequest, response: HttpResponse) -> HttpResponse:
    """The page just made, with the form that waits for it filled in as it was typed.

    Where the page no longer holds that form, what was typed is listed instead, once.
    """
    if request.method != "GET" or IN_SESSION not in request.session:
        return response
    page = request.get_full_path()
    one = next((form for form in _forms(request) if form.page == page), None)
    if one is None:
        return response
    is_page = response.status_code == 200 and response.get("Content-Type", "").startswith(
        "text/html"
    )
    html = is_page and filled(
        response.content.decode(),
        page=page,
        action=one.action,
        fields=one.fields,
        strip=lambda found: _strip(request, one, found),
    )
    if html:
        let_go_form = render_to_string("fitshop/parts/kept_let_go.html", {}, request)
        response.content = html.replace("</main>", f"{let_go_form}</main>", 1)
        return response
    let_go(request, action=one.action)
    context = {"page": page, "shown": _readable(one.fields), "kept": one}
    return render(request, "fitshop/kept_form.html", context)


def _readable(fields: dict[str, list[str]]) -> list[tuple[str, str]]:
    """What a person typed, without the ids that only pages read."""
    shown = []
    for name, texts in fields.items():
        text = ", ".join(each for each in texts if each.strip() and not AN_ID.fullmatch(each))
        if text:
            shown.append((name.replace("_", " "), text))
    return shown


def _strip(request: HttpRequest, one: KeptForm, found: Found) -> str:
    return render_to_string(
        "fitshop/parts/kept_strip.html",
        {
            "why": one.why,
            "found": found,
            "not_kept": " and ".join(found.not_kept),
            "place": PLACE,
        },
        request,
    )


def _keep(request: HttpRequest, why: str) -> bool:
    """Put the fields aside under the seal of who typed them; False without a seal, or too long."""
    sealed = _sealed(request)
    fields = {
        name: [str(value) for value in values]
        for name, values in request.POST.lists()
        if name not in NEVER_KEPT and not SECRET.search(name)
    }
    if sealed is None or sum(len(v) for values in fields.values() for v in values) > MOST_LETTERS:
        return False
    action = request.get_full_path()
    one = KeptForm(sealed[0], sealed[1], action, fields, timezone.now().isoformat(), why)
    others = [form for form in _forms(request) if form.action != action and form.who == one.who]
    _store(request, [*others, one][-MOST_FORMS:])
    return True


def _forms(request: HttpRequest) -> list[KeptForm]:
    """Those that still wait, oldest first."""
    now = timezone.now()
    rows: list[dict[str, Any]] = request.session.get(IN_SESSION, [])
    return [form for form in (KeptForm(**row) for row in rows) if not form.is_too_old(now)]


def _store(request: HttpRequest, forms: list[KeptForm]) -> None:
    if forms:
        request.session[IN_SESSION] = [asdict(form) for form in forms]
    else:
        request.session.pop(IN_SESSION, None)


def _sealed(request: HttpRequest) -> tuple[str, str] | None:
    """Who and on which page, as this server once sealed it; None for anything else."""
    try:
        who, page = _signer().unsign_object(request.POST.get(SEAL, ""))
    except (BadSignature, ValueError):
        return None
    return str(who), str(page)


def has_seal(request: HttpRequest) -> bool:
    return _sealed(request) is not None


def _sent_to(request: HttpRequest, url: str) -> HttpResponse:
    if request.headers.get("HX-Request"):
        return HttpResponse(status=401, headers={"HX-Redirect": url})
    return redirect(url)


def _signer() -> Signer:
    return Signer(salt="who typed this form")
