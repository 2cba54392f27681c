"""Refusals of the API as RFC 9457 problem documents."""

from __future__ import annotations

from typing import Any

from rest_framework.exceptions import (
    APIException,
    NotAuthenticated,
    ParseError,
    ValidationError,
)
from rest_framework.parsers import JSONParser
from rest_framework.response import Response
from rest_framework.views import exception_handler

from fitshop.policy import Refused

# An entry of a tablet is six deep.
DEEPEST = 20


class ShallowJSONParser(JSONParser):
    """Reads JSON that is no deeper than any of ours; the rest would use up the stack."""

    def parse(self, *args: Any, **kwargs: Any) -> Any:
        try:
            value = super().parse(*args, **kwargs)
        except RecursionError:
            value = None
            depth = DEEPEST + 1
        else:
            depth = _depth(value)
        if depth > DEEPEST:
            raise ParseError("This is nested too deeply.")
        return value


def _depth(value: Any) -> int:
    """How deep lists and objects lie in each other; without recursion."""
    level, depth = [value], 0
    while level := [inner for outer in level for inner in _inside(outer)]:
        depth += 1
        if depth > DEEPEST:
            break
    return depth


def _inside(value: Any) -> list[Any]:
    if isinstance(value, dict):
        return list(value.values())
    return value if isinstance(value, list) else []


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
