"""`GET /api/v1/visits/<id>/state`: the visit as it stands, for the capture pages.

A tablet asks every few seconds. What it holds has an ETag; where nothing was written anywhere in
the shop since, it is answered 304 from one small query, without reading the visit.
"""

from __future__ import annotations

import hashlib
import json
from datetime import datetime
from uuid import UUID

from django.urls import NoReverseMatch, reverse
from django.utils import timezone
from django.utils.decorators import method_decorator
from django.views.decorators.csrf import ensure_csrf_cookie
from django.views.decorators.gzip import gzip_page
from rest_framework.request import Request
from rest_framework.response import Response

from fitshop.selectors import audit_mark
from sessions.api.doors import VisitDoor
from sessions.selectors.capture_state import capture_state

IN_THE_ROOM = ("interview", "bag", "baseline", "trials", "compare")


# A fifth of its size on poor Wi-Fi. Nothing in it is secret to who may read it.
@method_decorator(gzip_page, name="dispatch")
@method_decorator(ensure_csrf_cookie, name="dispatch")
class VisitState(VisitDoor):
    """The state, and the cookie with the token that the commands are sent with.

    `X-Told-At` is this server's time before anything was read: what was written after it may be
    missing. A tablet sends it back with what it records (see `Sent.heard_at`).
    """

    is_polled = True

    def get(self, request: Request, visit_id: UUID) -> Response:
        now = timezone.now()
        # Squeezed on its way, a tag comes back as a weak one.
        held = request.headers.get("If-None-Match", "").removeprefix("W/")
        written = self._written(now)
        if held.startswith(f'"{written}.'):
            return _told(Response(status=304), held, now)
        document = capture_state(self.visit, actor=self.actor, at=now)
        for step in document["steps"]:
            step["url"] = step_address(visit_id, step["key"])
        content = hashlib.sha256(json.dumps(document, sort_keys=True).encode()).hexdigest()[:16]
        tag = f'"{written}.{content}"'
        is_held = held.rpartition(".")[2] == f'{content}"'
        return _told(Response(status=304) if is_held else Response(document), tag, now)

    def _written(self, now: datetime) -> str:
        """Changes with every write in the shop, with the minute, and with who asks for what."""
        who = f"{self.visit.pk}{self.actor.staff_id}{sorted(self.actor.roles)}"
        seen = f"{audit_mark()}{now:%Y%m%d%H%M}{who}"
        return hashlib.sha256(seen.encode()).hexdigest()[:16]


def _told(answer: Response, tag: str, now: datetime) -> Response:
    answer["ETag"] = tag
    answer["X-Told-At"] = now.isoformat()
    return answer


def step_address(visit_id: UUID, step: str) -> str:
    """Where a step lives: in the room, or on a page of its own; the visit's own page otherwise."""
    if step in IN_THE_ROOM:
        return reverse("room", args=[visit_id, step])
    try:
        return reverse(step, args=[visit_id])
    except NoReverseMatch:
        return f"/visits/{visit_id}"
