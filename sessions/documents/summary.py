"""The fitting summary as a letter: plain text, and HTML with its styles inlined for mail."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import css_inline
from django.template.loader import render_to_string

from sessions.rules.player_words import said_to_the_player


def subject(values: Mapping[str, Any]) -> str:
    return f"Your wedge fitting at {values['shop'] or values['place']}, {values['day']}"


def text(values: Mapping[str, Any]) -> str:
    """The letter without any mark-up: whole in itself, for those who read mail so."""
    said = render_to_string("messages/summary.txt", {"letter": said_to_the_player(values)})
    lines = [line.rstrip() for line in said.strip().splitlines()]
    kept: list[str] = []
    for line in lines:
        if line or (kept and kept[-1]):
            kept.append(line)
    return "\n".join(kept) + "\n"


def html(values: Mapping[str, Any]) -> str:
    """The same letter as HTML, styles inlined, no picture and nothing loaded from elsewhere."""
    letter = said_to_the_player(values)
    page = render_to_string("messages/summary.html", {"letter": letter, "subject": subject(values)})
    inliner = css_inline.CSSInliner(load_remote_stylesheets=False)
    inlined: str = inliner.inline(page)
    return inlined
