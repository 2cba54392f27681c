"""What a rule says: a finding, and the set of rules that says it.

A rule takes values and yields what it found. It never raises, repairs or queries, and every
rule of a set is run whatever the others found; what is missing is a finding of its own.
An id is permanent: a rule that goes leaves its id in `retired`, and no other may take it. Its
letter tells how the rule was born; a shop may weigh it otherwise, or switch it off, where it is
not fixed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import Generic, TypeVar


class Severity(StrEnum):
    """How much a finding weighs. What stops the order can't be accepted away."""

    STOPS = "stops the order"
    LOOK = "look at this"
    NOTE = "note"

    @property
    def label(self) -> str:
        """The words on the screen."""
        return self.value.capitalize()


# What a shop chooses for a rule that is not to be run.
OFF = "off"

# By rule id: how a shop weighs it, None where it is switched off. What is absent is as it was born.
Weights = Mapping[str, Severity | None]

_LETTER = {Severity.STOPS: "E", Severity.LOOK: "W", Severity.NOTE: "N"}

Number = Decimal | float | int | str | bool | None

F = TypeVar("F")
L = TypeVar("L")


def number_text(value: Number) -> str:
    """A value as text that is the same for equal values: 54, 54.0 and Decimal("54.00") agree.

    Not measured is the word "none", so that measuring later changes the finding.
    """
    if value is None:
        return "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    number = value if isinstance(value, Decimal) else Decimal(str(value))
    if not number.is_finite():
        return str(number)
    return format(number.normalize(), "f") if number else "0"


@dataclass(frozen=True, slots=True)
class Hit:
    """What a rule's function yields; the registration adds id, severity and source.

    `besides` are fields of other things that it speaks of, where `fields` name one of two.
    """

    fields: tuple[str, ...]
    sentence: str
    hint: str = ""
    numbers: tuple[tuple[str, Number], ...] = ()
    besides: tuple[str, ...] = ()


# What things a finding on these fields is about, as (name, key): a finding about the same figures
# of another thing is another finding.
NameThings = Callable[[F, tuple[str, ...]], tuple[tuple[str, str], ...]]


def _no_things(facts: object, fields: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    return ()


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that a rule found.

    `fields` are dotted names of what it is about ("club.2.target_loft_deg": the number is
    the slot). `numbers` are (name, value as text), `things` (name, key) of what it is about: an
    acceptance holds as long as both do.
    """

    id: str
    severity: Severity
    fields: tuple[str, ...]
    sentence: str
    hint: str
    source: str
    numbers: tuple[tuple[str, str], ...]
    things: tuple[tuple[str, str], ...] = ()

    @property
    def stops(self) -> bool:
        """True where it can't be accepted away."""
        return self.severity is Severity.STOPS

    @property
    def wants_a_look(self) -> bool:
        """True where a person must accept it, with a reason, before the signature."""
        return self.severity is Severity.LOOK

    @property
    def place(self) -> tuple[str, tuple[str, ...]]:
        """The same rule on the same fields."""
        return (self.id, self.fields)

    @property
    def doubt(self) -> tuple[str, tuple[str, ...], tuple[tuple[str, str], ...]]:
        """The same doubt about the same numbers, whatever club stands there."""
        return (*self.place, self.numbers)

    @property
    def identity(self) -> tuple[object, ...]:
        """Two findings with the same identity are the same doubt about the same thing."""
        return (*self.doubt, self.things)


def is_still_accepted(accepted: Finding, now: Finding) -> bool:
    """Tell whether an acceptance given for one finding still covers the one found now."""
    return accepted.identity == now.identity and not now.stops


@dataclass(frozen=True, slots=True)
class Rule(Generic[F, L]):
    """One registered rule over facts F and limits L. `about` is its line in the rule book.

    `thresholds` names the limits that it reads. What stops the order stops it in every shop; a
    rule that is fixed may be made stricter but never milder.
    """

    id: str
    severity: Severity
    about: str
    source: str
    hits: Callable[[F, L], Iterable[Hit]]
    thresholds: tuple[str, ...] = ()
    is_fixed: bool = False
    things: NameThings[F] = _no_things

    @property
    def choices(self) -> tuple[str, ...]:
        """How a shop may weigh it, as words, the strictest first; one where it may not."""
        if self.severity is Severity.STOPS:
            return (Severity.STOPS.value,)
        if self.is_fixed:
            return tuple(severity.value for severity in Severity)[: self._place + 1]
        return (*(severity.value for severity in Severity), OFF)

    @property
    def _place(self) -> int:
        return list(Severity).index(self.severity)

    def findings(
        self, facts: F, limits: L, severity: Severity | None = None
    ) -> tuple[Finding, ...]:
        """What this rule finds, in the order in which it looked, weighed as the shop does."""
        return tuple(
            Finding(
                id=self.id,
                severity=severity or self.severity,
                fields=hit.fields,
                sentence=hit.sentence,
                hint=hit.hint,
                source=self.source,
                numbers=tuple((name, number_text(value)) for name, value in hit.numbers),
                things=self.things(facts, (*hit.fields, *hit.besides)),
            )
            for hit in self.hits(facts, limits)
        )


@dataclass(frozen=True, slots=True)
class RuleSet(Generic[F, L]):
    """Rules under one version. A spec keeps the version under which it was judged."""

    version: str
    rules: tuple[Rule[F, L], ...]

    def findings(self, facts: F, limits: L, weights: Weights | None = None) -> tuple[Finding, ...]:
        """Run every rule that is on: what stops first, then what wants a look, then notes; by id
        within."""
        weighed = self.weighed(weights or {})
        found = [
            finding
            for rule in self.rules
            if (severity := weighed[rule.id]) is not None
            for finding in rule.findings(facts, limits, severity)
        ]
        weight = list(Severity)
        return tuple(sorted(found, key=lambda f: (weight.index(f.severity), f.id)))

    def weighed(self, weights: Weights) -> dict[str, Severity | None]:
        """By id: how each rule weighs now, None where it is off. A weight that the rule does not
        allow is passed over."""
        return {
            rule.id: weights[rule.id]
            if rule.id in weights and (weights[rule.id] or OFF) in rule.choices
            else rule.severity
            for rule in self.rules
        }

    def rule(self, rule_id: str) -> Rule[F, L]:
        """The rule of an id. Raises KeyError where there is none."""
        for rule in self.rules:
            if rule.id == rule_id:
                return rule
        raise KeyError(rule_id)


class Registry(Generic[F, L]):
    """Collects rules by decorator and refuses an id that is taken, retired or misshapen.

    `things` says of what a finding on some fields speaks, for all its rules alike.

    >>> shop: Registry[int, int] = Registry("SHOP", retired=frozenset({"SHOP-E002"}))
    >>> @shop.rule("SHOP-E001", Severity.STOPS, about="Too many.", source="common practice")
    ... def too_many(count: int, most: int) -> Iterable[Hit]:
    ...     if count > most:
    ...         yield Hit(("count",), f"{count} is more than {most}.", numbers=(("n", count),))
    >>> shop.rule_set("1").findings(3, 2)[0].sentence
    '3 is more than 2.'
    """

    def __init__(
        self,
        prefix: str,
        retired: frozenset[str] = frozenset(),
        things: NameThings[F] = _no_things,
    ) -> None:
        self.prefix = prefix
        self.retired = retired
        self._things = things
        self._rules: dict[str, Rule[F, L]] = {}

    def rule(
        self,
        rule_id: str,
        severity: Severity,
        *,
        about: str,
        source: str,
        thresholds: tuple[str, ...] = (),
        is_fixed: bool = False,
    ) -> Callable[[Callable[[F, L], Iterable[Hit]]], Callable[[F, L], Iterable[Hit]]]:
        """Register the decorated function. Raises ValueError for an id that can't be used."""
        shape = f"{self.prefix}-{_LETTER[severity]}"
        digits = rule_id.removeprefix(shape)
        if digits == rule_id or len(digits) != 3 or not digits.isdigit():
            raise ValueError(f"{rule_id} should read {shape} and three digits.")
        if rule_id in self._rules or rule_id in self.retired:
            raise ValueError(f"{rule_id} is taken or was; ids are never used again.")

        def registered(hits: Callable[[F, L], Iterable[Hit]]) -> Callable[[F, L], Iterable[Hit]]:
            self._rules[rule_id] = Rule(
                rule_id, severity, about, source, hits, thresholds, is_fixed, self._things
            )
            return hits

        return registered

    def rule_set(self, version: str) -> RuleSet[F, L]:
        """Freeze what was registered so far, by id."""
        return RuleSet(version, tuple(self._rules[key] for key in sorted(self._rules)))
