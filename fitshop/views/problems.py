"""Refusals of the API as RFC 9457 problem documents."""

from __future__ import annotations

from typing import Any

from rest_framework.exceptions import APIException, NotAuthenticated, ValidationError
from rest_framework.response import Response
from rest_framework.views import exception_handler

from fitshop.policy import Refused


def problem(status: int, title: str, detail: str = "", **members: Any) -> Response:
    """One problem answer. `status` is the HTTP status used, as the RFC asks."""
    return Response(
        {"type": "about:blank", "title": title, "status": status, "detail": detail, **members},
        status=status,
        content_type="application/problem+json",
    )


def problem_answer(error: Exception, context: dict[str, Any]) -> Response | None:
    """DRF's exception handler."""
    if isinstance(error, Refused):
        return problem(403, "Not allowed", error.sentence)
    answer = exception_handler(error, context)
    if answer is None:
        return None
    if isinstance(error, ValidationError):
        return problem(400, "Not understood", "Some fields don't fit.", errors=answer.data)
    if isinstance(error, NotAuthenticated):
        return problem(401, "Not signed in", "Sign in again; what you recorded is kept.")
    detail = str(error.detail) if isinstance(error, APIException) else ""
    return problem(answer.status_code, "Not possible", detail)
