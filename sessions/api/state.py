"""`GET /api/v1/visits/<id>/state`: the visit as it stands, for the capture pages."""

from __future__ import annotations

from uuid import UUID

from django.urls import NoReverseMatch, reverse
from django.utils import timezone
from django.utils.decorators import method_decorator
from django.views.decorators.csrf import ensure_csrf_cookie
from rest_framework.request import Request
from rest_framework.response import Response

from sessions.api.doors import VisitDoor
from sessions.selectors.capture_state import capture_state

IN_THE_ROOM = ("interview", "bag", "baseline", "trials", "compare")


@method_decorator(ensure_csrf_cookie, name="dispatch")
class VisitState(VisitDoor):
    """The state, and the cookie with the token that the commands are sent with."""

    def get(self, request: Request, visit_id: UUID) -> Response:
        document = capture_state(self.visit, actor=self.actor, at=timezone.now())
        for step in document["steps"]:
            step["url"] = step_address(visit_id, step["key"])
        return Response(document)


def step_address(visit_id: UUID, step: str) -> str:
    """Where a step lives: in the room, or on a page of its own; the visit's own page otherwise."""
    if step in IN_THE_ROOM:
        return reverse("room", args=[visit_id, step])
    try:
        return reverse(step, args=[visit_id])
    except NoReverseMatch:
        return f"/visits/{visit_id}"
