"""The capture pages' shell: the same bytes for everyone and every visit, with nothing in it."""

from __future__ import annotations

from pathlib import Path
from uuid import UUID

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.views.decorators.http import require_safe

_STATIC = Path(__file__).resolve().parent.parent / "static"
# What app.js imports, and what that imports: told at once, so that nothing waits for its turn.
MODULES = (
    *("vendor/htm-preact.js", "vendor/preact.js", "vendor/preact-hooks.js", "vendor/htm.js"),
    *sorted(
        path.relative_to(_STATIC).as_posix()
        for path in (_STATIC / "capture").rglob("*.js")
        if path.name not in ("app.js", "types.js")
    ),
)


@require_safe
def room(request: HttpRequest, visit_id: UUID, step: str) -> HttpResponse:
    """The empty room. Rendered without the request: neither person nor database is asked."""
    page = render_to_string("sessions/room.html", {"demo": settings.DEMO, "modules": MODULES})
    return HttpResponse(page, headers={"Cache-Control": "public, max-age=300"})


room.is_anonymous_shell = True  # type: ignore[attr-defined]
