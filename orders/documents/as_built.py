"""The player's as-built sheet, from the values frozen with its letter."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.template.loader import render_to_string

from fitshop.rendering import pdf_from


def html(values: Mapping[str, Any]) -> str:
    """The whole document."""
    clubs = [{**club, "accepted": _accepted(club["accepted"])} for club in values["clubs"]]
    said = {
        **values,
        "clubs": clubs,
        "any_accepted": any(club["accepted"] for club in clubs) or values.get("steps_accepted"),
    }
    return render_to_string("documents/as_built.html", said)


def _accepted(kept: Any) -> list[dict[str, str]]:
    """What was accepted, as this sheet says it.

    Letters queued before it said who accepted what hold a text there: it isn't printed. Those
    from before there was a sentence for the player hold the shop's own reason: nor is that.
    """
    if not isinstance(kept, list):
        return []
    return [
        each
        if "said" in each
        else {
            **each,
            "said": f"Asked for {each['asked']}; the difference was accepted by {each['by']}.",
        }
        for each in kept
    ]


def pdf(values: Mapping[str, Any]) -> bytes:
    """The PDF; `values` come from `orders.selectors.as_built.as_built_values`."""
    return pdf_from(
        html(values),
        css=["fitshop/paper.css"],
        identifier=f"as built {values['number']} {values['letter']} {values['date']}",
        title=f"As built, order {values['number']}",
    )
