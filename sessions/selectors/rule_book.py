"""The rule book as it is in force: each rule with how it weighs, its thresholds and its source;
before them what is judged of an interview and a plan, on or off.

Printed from the rules themselves. Under an older version of the settings it is what a spec that
was judged then was judged by, as far as the rules' code is the same.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields, replace
from decimal import Decimal

from django.db.models import Max, Q

from fitshop.models import SettingsVersion, SettingValue
from fitshop.selectors import SettingsInForce, declared_settings, settings_in_force
from fitshop.setting import Setting, Value
from sessions.maths.references import BIBLIOGRAPHY
from sessions.maths.shown import show_length
from sessions.rules.facts import SpecFacts, SpecLimits, setting_of
from sessions.rules.findings import OFF, Rule, Severity, number_text
from sessions.rules.judgements import Off, PrintedBook
from sessions.rules.rule_chapters import CHAPTERS as CHAPTERS_BEFORE_A_SPEC
from sessions.rules.rule_chapters import RuleChapter, off_from
from sessions.rules.spec import (
    RULE_FILES,
    SPEC_RULES,
    WEIGHT_GROUP,
    rule_set_name,
    weights_from,
)

LIMIT_KEYS = frozenset(setting_of(limit.name) for limit in fields(SpecLimits))
# What the files of the rule book are about, in the order in which they are printed.
CHAPTERS = {
    "spec_bending": "Bending and bounce",
    "spec_gaps": "Lofts, gaps and overlap",
    "spec_parts": "Parts of one club",
    "spec_evidence": "Evidence",
    "spec_set": "The set and the bag",
    "spec_soles": "Soles, turf and sand",
    "spec_run": "Lie, length and swing weight through the set",
    "spec_shafts": "Shafts and grips",
    "spec_safety": "Safety, stamping and the groove rule",
}


@dataclass(frozen=True, slots=True)
class PrintedLimit:
    """A threshold as it is in force; `is_changed` where the shop moved it."""

    setting: Setting
    value: Value

    @property
    def words(self) -> str:
        """In its unit: `4 degrees`, `1 point`, `889 mm (35 in)`."""
        return _in_its_unit(self.value, self.setting)

    @property
    def default_words(self) -> str:
        return _in_its_unit(self.setting.default, self.setting)

    @property
    def is_changed(self) -> bool:
        return self.value != self.setting.default


@dataclass(frozen=True, slots=True)
class PrintedRule:
    """One line of the rule book. `weight` is None where the shop switched the rule off.

    `limits_as` is the id of an earlier rule of the chapter that has the same limits, "" where none
    has: they are printed once.
    """

    id: str
    about: str
    weight: Severity | None
    born: Severity
    is_fixed: bool
    limits: tuple[PrintedLimit, ...]
    limits_as: str
    source: str
    where: str

    @property
    def weight_words(self) -> str:
        return OFF.capitalize() if self.weight is None else self.weight.label

    @property
    def is_changed(self) -> bool:
        return self.weight is not self.born


@dataclass(frozen=True, slots=True)
class PrintedJudgement:
    """One line of a chapter beside the spec's: on or off, or never to be switched off."""

    id: str
    about: str
    is_on: bool
    is_fixed: bool
    limits: tuple[PrintedLimit, ...]
    limits_as: str
    source: str
    where: str

    @property
    def state_words(self) -> str:
        if self.is_fixed:
            return "Always on"
        return "On" if self.is_on else "Off"


@dataclass(frozen=True, slots=True)
class JudgementSection:
    title: str
    judgements: tuple[PrintedJudgement, ...]


@dataclass(frozen=True, slots=True)
class JudgementChapter:
    """What is judged before there is a spec, in sections."""

    title: str
    about: str
    sections: tuple[JudgementSection, ...]

    @property
    def count(self) -> int:
        return sum(len(section.judgements) for section in self.sections)


@dataclass(frozen=True, slots=True)
class Chapter:
    title: str
    rules: tuple[PrintedRule, ...]


@dataclass(frozen=True, slots=True)
class RuleBook:
    """All of it, and under which version of the settings."""

    name: str
    settings_version: int
    chapters: tuple[Chapter, ...]
    before_a_spec: tuple[JudgementChapter, ...]

    @property
    def count(self) -> int:
        return sum(len(chapter.rules) for chapter in self.chapters)


def rule_book_in_force(version: int | None = None) -> RuleBook:
    """The whole rule book, now or under an older version of the settings."""
    settings = settings_in_force(version)
    weighed = SPEC_RULES.weighed(weights_from(settings.values))
    declared = {setting.key: setting for setting in declared_settings()}
    by_file: dict[str, list[PrintedRule]] = {file.__name__: [] for file in RULE_FILES}
    for rule in SPEC_RULES.rules:
        limits = tuple(
            _printed_limit(declared[setting_of(name)], settings) for name in rule.thresholds
        )
        by_file[rule.hits.__module__].append(_printed(rule, weighed[rule.id], limits))
    return RuleBook(
        name=rule_set_name(rule_settings_version(settings)),
        settings_version=settings.version,
        chapters=tuple(
            Chapter(CHAPTERS[name.rsplit(".", 1)[-1]], _by_weight(rules))
            for name, rules in by_file.items()
        ),
        before_a_spec=tuple(_chapter(one, settings, declared) for one in CHAPTERS_BEFORE_A_SPEC),
    )


def rule_settings_version(settings: SettingsInForce) -> int:
    """The version in which a limit or a weight of a rule was last changed, 0 where none was."""
    rows = SettingValue.objects.filter(version__number__lte=settings.version).filter(
        Q(key__in=LIMIT_KEYS) | Q(key__startswith=f"{WEIGHT_GROUP}.")
    )
    return rows.aggregate(last=Max("version__number"))["last"] or 0


def has_settings_version(version: int) -> bool:
    """Whether there was such a version; 0 is the defaults."""
    return version == 0 or SettingsVersion.objects.filter(number=version).exists()


def _chapter(
    chapter: RuleChapter, settings: SettingsInForce, declared: Mapping[str, Setting]
) -> JudgementChapter:
    off = off_from(settings.values)
    return JudgementChapter(
        chapter.title,
        chapter.about,
        tuple(
            JudgementSection(book.title, _judgements(book, off, settings, declared))
            for book in chapter.books
        ),
    )


def _judgements(
    book: PrintedBook, off: Off, settings: SettingsInForce, declared: Mapping[str, Setting]
) -> tuple[PrintedJudgement, ...]:
    """By id; limits that an earlier one of the section has are printed once."""
    first: dict[tuple[str, ...], str] = {}
    printed = []
    for one in book.printed:
        said = first.setdefault(one.thresholds, one.id)
        source, where = _source(one.source)
        printed.append(
            PrintedJudgement(
                id=one.id,
                about=one.about,
                is_on=one.id not in off,
                is_fixed=one.is_fixed,
                limits=tuple(_printed_limit(declared[key], settings) for key in one.thresholds),
                limits_as="" if said == one.id or not one.thresholds else said,
                source=source,
                where=where,
            )
        )
    return tuple(printed)


def _source(key: str) -> tuple[str, str]:
    """A source as it is read, and where it is found."""
    citation = BIBLIOGRAPHY.get(key)
    if citation is None:
        return key, ""
    return citation.text, f"{citation.where}; {citation.how_read}"


def _printed(
    rule: Rule[SpecFacts, SpecLimits],
    weight: Severity | None,
    limits: tuple[PrintedLimit, ...],
) -> PrintedRule:
    source, where = _source(rule.source)
    return PrintedRule(
        id=rule.id,
        about=rule.about,
        weight=weight,
        born=rule.severity,
        is_fixed=len(rule.choices) == 1 or rule.is_fixed,
        limits=limits,
        limits_as="",
        source=source,
        where=where,
    )


def _printed_limit(setting: Setting, settings: SettingsInForce) -> PrintedLimit:
    return PrintedLimit(setting, settings[setting.key])


def _in_its_unit(value: Value, setting: Setting) -> str:
    text, unit = number_text(value), setting.unit
    if text == "1":
        unit = unit.removesuffix("s")
    said = f"{text} {unit}".strip()
    if setting.key.startswith("spec.length") and isinstance(value, Decimal):
        return f"{said} ({show_length(value, 'in')})"
    return said


def _by_weight(rules: Sequence[PrintedRule]) -> tuple[PrintedRule, ...]:
    """What stops first, as it weighs now; what is off comes last."""
    order: list[Severity | None] = [*Severity, None]
    first: dict[tuple[PrintedLimit, ...], str] = {}
    ordered = sorted(rules, key=lambda rule: (order.index(rule.weight), rule.id))
    return tuple(
        replace(rule, limits_as="" if said == rule.id or not rule.limits else said)
        for rule in ordered
        if (said := first.setdefault(rule.limits, rule.id))
    )
