"""A published check without its source is not one: collection fails without key, locator, value.

What was printed, where and how it was read goes with each test's report: the summary lists it.
"""

from pathlib import Path

import pytest

from sessions.maths.references import BIBLIOGRAPHY

HERE = Path(__file__).parent


def missing_source(mark: pytest.Mark | None) -> str:
    """Return what a published mark lacks, in words, or nothing."""
    if mark is None:
        return "has no published(key=..., locator=..., value=...) marker"
    if mark.args:
        return "must name key, locator and value as keywords"
    key, locator = mark.kwargs.get("key"), mark.kwargs.get("locator")
    if not key or not locator:
        return "must name both key and locator"
    if key not in BIBLIOGRAPHY:
        return f"names {key!r}, which is not in the bibliography"
    if BIBLIOGRAPHY[key].how_read == "from memory":
        return f"rests on {key!r}, which was only remembered: that is no published value"
    if not mark.kwargs.get("value"):
        return "must name the value as printed"
    return ""


def printed_words(mark: pytest.Mark) -> str:
    """`Thompson and Taylor, ...; Appendix B.8, inch; second hand: 2.54 E-02 m`."""
    source = BIBLIOGRAPHY[mark.kwargs["key"]]
    where, value = mark.kwargs["locator"], mark.kwargs["value"]
    return f"{source.text}; {where}; read {source.how_read}: {value}"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    wrong = []
    for item in items:
        if HERE in item.path.parents:
            mark = item.get_closest_marker("published")
            lack = missing_source(mark)
            if lack:
                wrong.append(f"{item.nodeid} {lack}")
            elif mark is not None:
                item.user_properties.append(("printed", printed_words(mark)))
    if wrong:
        raise pytest.UsageError("\n".join(wrong))
