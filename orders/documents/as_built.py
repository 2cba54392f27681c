"""The player's as-built sheet, from the values frozen with its letter."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.template.loader import render_to_string

from fitshop.rendering import pdf_from


def pdf(values: Mapping[str, Any]) -> bytes:
    """The PDF; `values` come from `orders.selectors.as_built.as_built_values`."""
    return pdf_from(
        render_to_string("documents/as_built.html", dict(values)),
        css=["fitshop/paper.css"],
        identifier=f"as built {values['number']} {values['letter']} {values['date']}",
        title=f"As built, order {values['number']}",
    )
