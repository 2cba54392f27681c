"""The ticket: the shop's own paper, read at arm's length. It never leaves the shop."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping
from io import BytesIO
from typing import Any

import segno
from django.template.loader import render_to_string

from fitshop.rendering import pdf_from

# Six dots of a 203 dpi printer (eight dots a millimetre), so that no edge falls between dots.
MODULE_MM = 0.75
QUIET_ZONE = 4


def html(values: Mapping[str, Any]) -> str:
    """The whole document; `values` come from `orders.selectors.ticket.ticket_values`."""
    return render_to_string("documents/ticket.html", {**values, **code_to_scan(values["code"])})


def pdf(values: Mapping[str, Any]) -> bytes:
    """The PDF. Raises RenderingFailed."""
    name = f"{values['number']} {values['letter']}"
    return pdf_from(
        html(values),
        css=["fitshop/paper.css"],
        identifier=f"ticket {name} {values['printed']}",
        title=f"Build order {name}",
    )


def code_to_scan(text: str) -> dict[str, str]:
    """A QR code at level M as a picture in the page, and its side in millimetres."""
    code = segno.make_qr(text, error="m", boost_error=False)
    picture = BytesIO()
    code.save(picture, kind="svg", border=QUIET_ZONE, omitsize=True, xmldecl=False)
    side = code.symbol_size(border=QUIET_ZONE)[0] * MODULE_MM
    return {
        "qr": f"data:image/svg+xml;base64,{b64encode(picture.getvalue()).decode()}",
        "qr_mm": f"{side:g}",
    }
