"""What the tablets' API shares: who is it, the visit in sight, and 401 for who is not signed in."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.http import Http404
from rest_framework.authentication import SessionAuthentication
from rest_framework.request import Request
from rest_framework.views import APIView

from fitshop.actor import Actor
from fitshop.policy import Refused
from fitshop.views.doors import actor_of
from sessions.models import Visit
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.selectors.visits import visit_for


class SignedIn(SessionAuthentication):
    """The shop's own sign-in. With a challenge to name, so that its lack is 401 and not 403."""

    def authenticate_header(self, request: Request) -> str:
        return "Session"


class VisitDoor(APIView):
    """A door to one visit: `actor` and `visit` are there, or the request was refused."""

    authentication_classes = [SignedIn]
    actor: Actor
    visit: Visit

    def initial(self, request: Request, *args: Any, **kwargs: Any) -> None:
        super().initial(request, *args, **kwargs)
        self.actor = actor_of(request._request)
        sentence = FITTING_POLICY.refusal(self.actor, FittingAction.VISIT_VIEW)
        if sentence is not None:
            raise Refused(sentence)
        self.visit = self._visit(kwargs["visit_id"])

    def _visit(self, visit_id: UUID) -> Visit:
        visit = visit_for(self.actor, visit_id)
        if visit is None:
            raise Http404
        return visit
