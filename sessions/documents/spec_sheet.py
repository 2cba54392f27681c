"""The player's spec sheet on paper, from frozen values. The shop's ticket is another document."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.template.loader import render_to_string

from fitshop.rendering import pdf_from
from sessions.rules.player_words import said_to_the_player


def html(values: Mapping[str, Any]) -> str:
    """The sheet as one HTML document; `values` as `sessions.selectors.spec_sheet` builds them."""
    said = said_to_the_player(values)
    return render_to_string("documents/spec_sheet.html", {"sheet": said, "title": title(values)})


def pdf(values: Mapping[str, Any]) -> bytes:
    """The sheet as PDF, A4 or Letter as the shop has it. Raises RenderingFailed."""
    return pdf_from(
        html(values),
        css=["fitshop/paper.css"],
        identifier=str(values["identifier"]),
        title=title(values),
        created=str(values["created"]),
    )


def title(values: Mapping[str, Any]) -> str:
    return f"Spec sheet for {values['player']}, version {values['version']}"
