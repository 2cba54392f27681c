"""The ticket: the shop's own paper, read at arm's length. It never leaves the shop."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping
from io import BytesIO
from typing import Any

import segno
from django.template.loader import render_to_string

from fitshop.rendering import pdf_from

# A 203 dpi printer has eight dots a millimetre; a square of whole dots has no edge between them.
DOTS_A_MM = 8
# From the largest that is used to the smallest that a telephone still reads (common practice).
MODULE_DOTS = (6, 5, 4)
MOST_MM = 25
QUIET_ZONE = 4


def html(values: Mapping[str, Any]) -> str:
    """The whole document; `values` come from `orders.selectors.ticket.ticket_values`."""
    return render_to_string("documents/ticket.html", {**values, **code_to_scan(values["scan"])})


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
    """A QR code at level M as a picture in the page, and its side in millimetres.

    A longer text has more squares, and smaller ones: the sheet's head keeps its height.
    """
    code = segno.make_qr(text, error="m", boost_error=False)
    picture = BytesIO()
    code.save(picture, kind="svg", border=QUIET_ZONE, omitsize=True, xmldecl=False)
    squares = code.symbol_size(border=QUIET_ZONE)[0]
    fitting = [dots for dots in MODULE_DOTS if squares * dots <= MOST_MM * DOTS_A_MM]
    side = squares * (fitting or MODULE_DOTS[-1:])[0] / DOTS_A_MM
    return {
        "qr": f"data:image/svg+xml;base64,{b64encode(picture.getvalue()).decode()}",
        "qr_mm": f"{side:g}",
    }
