"""An independent check says by what: a library that the function does not import, and the call.

Where the module under test imports the same library for something else, the mark says what for.
What was worked by hand is a check too, but no library stands behind it: it has its own mark.
"""

import re
import sys
from pathlib import Path
from types import ModuleType

import pytest

HERE = Path(__file__).parent


def missing_outside(item_marks: dict[str, pytest.Mark | None], imports: set[str]) -> str:
    """Return what the marks of an outside check lack, in words, or nothing.

    Args:
        item_marks: the test's `independent` and `worked_by_hand` mark, None where it has none.
        imports: the libraries that the tested modules import, in small letters.
    """
    mark, by_hand = item_marks["independent"], item_marks["worked_by_hand"]
    if mark is None:
        return "" if by_hand is not None and by_hand.kwargs.get("how") else "says not by what"
    library = mark.kwargs.get("library", "")
    if not library or not mark.kwargs.get("call"):
        return "must name both library and call"
    if library.lower().startswith("none"):
        return "has no library: it is worked_by_hand"
    if library.lower() in imports and not mark.kwargs.get("though"):
        return f"must say though=..., since what it tests imports {library} too"
    return ""


def rooms_imports(module: ModuleType) -> set[str]:
    """Libraries imported by the rooms of the maths that a test module takes things from."""
    rooms = {
        name
        for thing in vars(module).values()
        for name in (getattr(thing, "__module__", None), getattr(thing, "__name__", None))
        if isinstance(name, str) and name.startswith("sessions.maths.") and name in sys.modules
    }
    found: set[str] = set()
    for room in rooms:
        path = sys.modules[room].__file__
        text = Path(path).read_text() if path else ""
        found.update(re.findall(r"^(?:import|from) (\w+)", text, re.MULTILINE))
    return {library.lower() for library in found}


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    wrong = []
    for item in items:
        if HERE in item.path.parents and isinstance(item, pytest.Function):
            marks = {
                name: item.get_closest_marker(name) for name in ("independent", "worked_by_hand")
            }
            lack = missing_outside(marks, rooms_imports(item.module))
            if lack:
                wrong.append(f"{item.nodeid} {lack}")
    if wrong:
        raise pytest.UsageError("\n".join(wrong))
