"""Good calls of the maths' public functions, and every bad value that can stand in one of them.

A bad value takes the place of one figure at a time, also inside a sequence or a value's fields.
"""

from __future__ import annotations

import dataclasses
import importlib
import inspect
import math
import pkgutil
from collections.abc import Callable, Iterator, Mapping, Sequence
from decimal import Decimal as D
from typing import Any

import numpy as np

import sessions.maths
from sessions.maths.carry_line import CarryLine

NO_NUMBERS = (math.nan, math.inf, -math.inf)


def public_functions() -> dict[str, Callable[..., Any]]:
    """Every function of the maths without an underscore, by module and name."""
    found = {}
    for info in pkgutil.iter_modules(sessions.maths.__path__):
        module = importlib.import_module(f"sessions.maths.{info.name}")
        for name, function in inspect.getmembers(module, callable):
            is_here = getattr(function, "__module__", "") == module.__name__
            if is_here and not name.startswith("_") and not inspect.isclass(function):
                found[f"{info.name}.{name}"] = function
    return found


def spoiled(kwargs: Mapping[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """The same call with one thing wrong, each in turn, and what is wrong."""
    for name, value in kwargs.items():
        for said, bad in _bad(value):
            yield f"{name} {said}", {**kwargs, name: bad}


def _bad(value: Any) -> Iterator[tuple[str, Any]]:
    match value:
        case bool() | None | str() | CarryLine():
            # A line is made by the maths, and refused there.
            return
        case float() | int() if not isinstance(value, bool):
            for wrong in NO_NUMBERS:
                if isinstance(value, float):
                    yield f"{wrong}", wrong
            yield "negative", type(value)(-abs(value) - 1)
            yield "absurd", 1e9 if isinstance(value, float) else 10**4
        case D():
            for wrong in ("NaN", "Infinity", "-Infinity"):
                yield wrong, D(wrong)
            yield "negative", -abs(value) - 1
            yield "absurd", D(10**9)
        case np.ndarray():
            yield "NaN inside", np.full_like(value, np.nan)
            yield "empty", value[:0]
        case list() | tuple():
            # A pair is a shape, not a number of things: only what is in it can be wrong.
            if len(value) != 2 or isinstance(value, list):
                yield "empty", type(value)()
            if len(value) > 2 or (value and isinstance(value, list)):
                yield "one", type(value)(value[:1])
                yield "all equal", type(value)([value[0]] * len(value))
            if value:
                for said, wrong in _bad(value[0]):
                    yield f"first {said}", type(value)([wrong, *value[1:]])
        case _ if dataclasses.is_dataclass(value) and not isinstance(value, type):
            for field in dataclasses.fields(value):
                if field.init:
                    yield from (
                        (f"{field.name} {said}", wrong)
                        for said, wrong in _replaced(value, field.name)
                    )


def _replaced(value: Any, name: str) -> Iterator[tuple[str, Any]]:
    """A value that refuses its own bad figure is as good as a refusal by the function."""
    for said, bad in _bad(getattr(value, name)):
        try:
            yield said, dataclasses.replace(value, **{name: bad})
        except sessions.maths.errors.MathsError:
            continue


def no_numbers_in(found: Any, where: str = "") -> Iterator[str]:
    """Where an answer holds something that is no finite number."""
    match found:
        case float() | np.floating():
            if not math.isfinite(found):
                yield f"{where}: {found}"
        case D():
            if not found.is_finite():
                yield f"{where}: {found}"
        case np.ndarray():
            if found.dtype.kind == "f" and not np.isfinite(found).all():
                yield f"{where}: {found}"
        case str() | bytes():
            if "nan" in str(found).lower().split() or "inf" in str(found).lower().split():
                yield f"{where}: {found}"
        case Mapping():
            for key, each in found.items():
                yield from no_numbers_in(each, f"{where}[{key}]")
        case Sequence():
            for number, each in enumerate(found):
                yield from no_numbers_in(each, f"{where}[{number}]")
        case _ if dataclasses.is_dataclass(found) and not isinstance(found, type):
            for field in dataclasses.fields(found):
                yield from no_numbers_in(getattr(found, field.name), f"{where}.{field.name}")
