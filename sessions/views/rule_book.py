"""The rule book: what a spec is judged by, printed from the rules themselves."""

from __future__ import annotations

from itertools import groupby

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from fitshop.actor import Actor
from fitshop.selectors import declared_settings, settings_in_force
from fitshop.views.doors import staff_page
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.rules.findings import Severity
from sessions.rules.spec import SPEC_RULES


@staff_page(FITTING_POLICY, FittingAction.RULE_BOOK_VIEW)
@require_safe
def rule_book(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    weight = list(Severity)
    rules = sorted(SPEC_RULES.rules, key=lambda rule: (weight.index(rule.severity), rule.id))
    groups = [
        (severity, list(members))
        for severity, members in groupby(rules, key=lambda rule: rule.severity)
    ]
    in_force = settings_in_force()
    limits = [
        {"setting": setting, "value": setting.shown(in_force[setting.key])}
        for setting in declared_settings()
        if setting.key.startswith("spec.")
    ]
    return render(
        request,
        "sessions/rule_book.html",
        {
            "groups": groups,
            "version": SPEC_RULES.version,
            "limits": limits,
            "settings_version": in_force.version,
        },
    )
