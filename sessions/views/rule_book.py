"""The rule book: what a spec is judged by, printed from the rules themselves."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from fitshop.actor import Actor
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.selectors import settings_in_force
from fitshop.views.doors import staff_page
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.rules.findings import Severity
from sessions.selectors.rule_book import has_settings_version, rule_book_in_force


@staff_page(FITTING_POLICY, FittingAction.RULE_BOOK_VIEW)
@require_safe
def rule_book(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """The book in force, or with `?settings=7` as it was under those settings."""
    asked = request.GET.get("settings", "")
    if asked and not (asked.isdecimal() and has_settings_version(int(asked))):
        raise Http404
    book = rule_book_in_force(int(asked) if asked else None)
    return render(
        request,
        "sessions/rule_book.html",
        {
            "book": book,
            "severities": [
                (severity, sum(r.weight is severity for c in book.chapters for r in c.rules))
                for severity in Severity
            ],
            "is_old": bool(asked) and int(asked) != settings_in_force().version,
            "may_change": SHOP_POLICY.is_allowed(actor, ShopAction.SETTING_CHANGE),
        },
    )
