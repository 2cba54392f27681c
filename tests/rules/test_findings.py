"""Findings, their ids, and when two of them are the same."""

from collections.abc import Iterator
from decimal import Decimal as D

import pytest

from sessions.rules.findings import (
    Finding,
    Hit,
    Registry,
    RuleSet,
    Severity,
    Weights,
    is_still_accepted,
    number_text,
)


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


def weighed_book() -> RuleSet[int, int]:
    book = registry()

    def found(facts: int, limits: int) -> list[Hit]:
        return [Hit(("field",), "Found.")]

    book.rule("TEST-E001", Severity.STOPS, about="", source="s")(found)
    book.rule("TEST-W001", Severity.LOOK, about="", source="s")(found)
    book.rule("TEST-W002", Severity.LOOK, about="", source="s", is_fixed=True)(found)
    book.rule("TEST-N001", Severity.NOTE, about="", source="s")(found)
    return book.rule_set("1")


def severities(weights: Weights) -> dict[str, Severity]:
    return {found.id: found.severity for found in weighed_book().findings(0, 0, weights)}


def test_a_shop_makes_a_rule_stricter_or_milder_or_switches_it_off() -> None:
    found = severities(
        {"TEST-W001": Severity.NOTE, "TEST-N001": Severity.STOPS, "TEST-W002": Severity.STOPS}
    )
    assert found["TEST-W001"] is Severity.NOTE
    assert found["TEST-N001"] is Severity.STOPS
    assert found["TEST-W002"] is Severity.STOPS
    assert "TEST-W001" not in severities({"TEST-W001": None})


def test_what_stops_the_order_and_what_is_fixed_is_made_milder_by_nobody() -> None:
    milder = {"TEST-E001": Severity.NOTE, "TEST-W002": None}
    found = severities(milder)
    assert found["TEST-E001"] is Severity.STOPS
    assert found["TEST-W002"] is Severity.LOOK
    assert severities({"TEST-W002": Severity.NOTE})["TEST-W002"] is Severity.LOOK


def test_the_words_a_shop_may_choose_from_are_told_by_the_rule() -> None:
    choices = {rule.id: rule.choices for rule in weighed_book().rules}
    assert choices == {
        "TEST-E001": ("stops the order",),
        "TEST-W001": ("stops the order", "look at this", "note", "off"),
        "TEST-W002": ("stops the order", "look at this"),
        "TEST-N001": ("stops the order", "look at this", "note", "off"),
    }


def test_what_stops_comes_first_as_it_weighs_now() -> None:
    found = weighed_book().findings(0, 0, {"TEST-N001": Severity.STOPS})
    assert [one.id for one in found] == ["TEST-E001", "TEST-N001", "TEST-W001", "TEST-W002"]


def test_an_acceptance_ends_where_a_shop_makes_its_rule_stop_the_order() -> None:
    was = weighed_book().findings(0, 0)[1]
    now = weighed_book().findings(0, 0, {"TEST-W001": Severity.STOPS})[1]
    assert (was.id, now.id) == ("TEST-W001", "TEST-W001")
    assert is_still_accepted(was, was)
    assert not is_still_accepted(was, now)
