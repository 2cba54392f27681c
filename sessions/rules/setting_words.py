"""How a setting reads on the set-up page: the shop's length unit, sources, and sub-heads.

Named in `settings.SETTING_WORDS`, since the page belongs to the shop's building, which knows no
golf and imports nothing from here.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import cast

from fitshop.setting import Setting, SettingRefused, Value
from sessions.maths.errors import UnitRefused
from sessions.maths.references import BIBLIOGRAPHY
from sessions.maths.units import LengthUnit, Limits, parse_length, show_inches
from sessions.rules.rule_chapters import CHAPTERS, GROUP, switch_key

# The setting's own range refuses in its own words; this only keeps nonsense out of the arithmetic.
_ANY_LENGTH_MM: Limits = (Decimal(-100_000), Decimal(100_000))


class GolfSettingWords:
    """See `fitshop.setting.SettingWords`."""

    abouts: Mapping[str, str] = {
        GROUP: "One that is switched off says nothing; nothing else takes its place.",
    }
    heads: Mapping[str, tuple[str, str]] = {
        switch_key(one.id): (chapter.title, book.title)
        for chapter in CHAPTERS
        for book in chapter.books
        for one in book.printed
    }

    def shown(self, setting: Setting, value: Value, length_unit: str) -> tuple[str, str]:
        """A length in the shop's unit: `35 3/4` and `in`, if that reads back as the same length."""
        text = setting.shown(value)
        if not (setting.quantity == "length" and isinstance(value, Decimal)):
            return text, setting.unit
        if length_unit != "in":
            return text, "mm"
        inches = show_inches(value).removesuffix(" in")
        if parse_length(inches, unit="in", limits=_ANY_LENGTH_MM) == value:
            return inches, "in"
        return f"{text} mm", ""

    def read(self, setting: Setting, typed: str, length_unit: str) -> Value:
        """A length with its unit, or a number alone in the unit that stands behind the field."""
        if setting.unit != "mm" or setting.kind != "decimal":
            return setting.parsed(typed)
        unit = cast(LengthUnit, length_unit) if setting.quantity == "length" else "mm"
        try:
            length_mm = parse_length(typed, unit=unit, limits=_ANY_LENGTH_MM)
        except UnitRefused as refusal:
            raise SettingRefused(str(refusal)) from None
        if setting.low is not None and length_mm < setting.low:
            raise SettingRefused(f"At least {self._limit(setting, setting.low, length_unit)}.")
        if setting.high is not None and length_mm > setting.high:
            raise SettingRefused(f"At most {self._limit(setting, setting.high, length_unit)}.")
        return length_mm

    def source(self, setting: Setting) -> str:
        """A key of the bibliography as its citation; what is no key stays as it is."""
        known = BIBLIOGRAPHY.get(setting.source)
        return setting.source if known is None else known.text

    def _limit(self, setting: Setting, limit_mm: Decimal, length_unit: str) -> str:
        return " ".join(self.shown(setting, limit_mm, length_unit)).strip()


WORDS = GolfSettingWords()
