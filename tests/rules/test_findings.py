"""Findings, their ids, and when two of them are the same."""

from collections.abc import Iterator
from decimal import Decimal as D

import pytest

from sessions.rules.findings import Finding, Hit, Registry, Severity, number_text


def nothing(facts: int, limits: int) -> Iterator[Hit]:
    return iter(())


def registry(retired: frozenset[str] = frozenset()) -> Registry[int, int]:
    return Registry("TEST", retired)


def test_an_id_is_given_once() -> None:
    book = registry()
    book.rule("TEST-E001", Severity.STOPS, about="", source="")(nothing)
    with pytest.raises(ValueError, match="never used again"):
        book.rule("TEST-E001", Severity.STOPS, about="", source="")(nothing)


def test_an_id_that_was_retired_is_not_given_again() -> None:
    with pytest.raises(ValueError, match="never used again"):
        registry(frozenset({"TEST-E001"})).rule("TEST-E001", Severity.STOPS, about="", source="")


@pytest.mark.parametrize(
    ("rule_id", "severity"),
    [
        ("TEST-E01", Severity.STOPS),
        ("TEST-E0011", Severity.STOPS),
        ("TEST-Eabc", Severity.STOPS),
        ("OTHER-E001", Severity.STOPS),
        ("TEST-E001", Severity.LOOK),
        ("TEST-W001", Severity.NOTE),
        ("TEST-N001", Severity.STOPS),
    ],
)
def test_an_id_tells_its_book_and_its_severity(rule_id: str, severity: Severity) -> None:
    with pytest.raises(ValueError, match="should read"):
        registry().rule(rule_id, severity, about="", source="")


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (D("54.00"), "54"),
        (D("54"), "54"),
        (54, "54"),
        (54.0, "54"),
        (D("50.25"), "50.25"),
        (D("0.00"), "0"),
        (D("100"), "100"),
        (D("-1.50"), "-1.5"),
        (0.1, "0.1"),
        (None, "none"),
        (True, "yes"),
        (False, "no"),
        ("D2", "D2"),
        (float("nan"), "NaN"),
        (float("inf"), "Infinity"),
    ],
)
def test_equal_numbers_have_one_text(value: object, text: str) -> None:
    assert number_text(value) == text  # type: ignore[arg-type]


def test_nought_is_a_number_and_not_measured_is_none() -> None:
    assert number_text(0) != number_text(None)


def test_every_rule_runs_whatever_the_others_found() -> None:
    book = registry()
    for number in (3, 1, 2):
        book.rule(f"TEST-E00{number}", Severity.STOPS, about="", source="s")(
            lambda facts, limits: [Hit(("field",), "Found.", numbers=(("n", facts),))]
        )
    found = book.rule_set("7").findings(5, 0)
    assert [finding.id for finding in found] == ["TEST-E001", "TEST-E002", "TEST-E003"]
    assert found[0] == Finding(
        "TEST-E001", Severity.STOPS, ("field",), "Found.", "", "s", (("n", "5"),)
    )


def test_a_rule_is_found_by_its_id() -> None:
    book = registry()
    book.rule("TEST-N001", Severity.NOTE, about="A note.", source="s")(nothing)
    rules = book.rule_set("1")
    assert rules.rule("TEST-N001").about == "A note."
    with pytest.raises(KeyError):
        rules.rule("TEST-N002")
