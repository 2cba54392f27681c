"""A published check without its source is not one: collection fails without key and locator."""

from pathlib import Path

import pytest

from sessions.maths.references import BIBLIOGRAPHY

HERE = Path(__file__).parent


def missing_source(mark: pytest.Mark | None) -> str:
    """Return what a published mark lacks, in words, or nothing."""
    if mark is None:
        return "has no published(key=..., locator=...) marker"
    if mark.args:
        return "must name key and locator as keywords"
    key, locator = mark.kwargs.get("key"), mark.kwargs.get("locator")
    if not key or not locator:
        return "must name both key and locator"
    if key not in BIBLIOGRAPHY:
        return f"names {key!r}, which is not in the bibliography"
    if BIBLIOGRAPHY[key].how_read == "from memory":
        return f"rests on {key!r}, which was only remembered: that is no published value"
    return ""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    wrong = []
    for item in items:
        if HERE in item.path.parents:
            lack = missing_source(item.get_closest_marker("published"))
            if lack:
                wrong.append(f"{item.nodeid} {lack}")
    if wrong:
        raise pytest.UsageError("\n".join(wrong))
