"""What a shop may set: the declaration of one setting, as a value.

Each building declares its own in `declared.py` as a tuple named `SETTINGS`; the store in
`fitshop.models.settings_store` keeps what a shop chose, by version. No threshold stands
anywhere else.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import Literal, Protocol

from fitshop.public_address import origin_read

Value = Decimal | int | bool | str


class SettingRefused(ValueError):
    """The typed value does not fit the setting's kind or range; the message is for a person."""


@dataclass(frozen=True, slots=True)
class Setting:
    """One thing a shop may set.

    `sentence` says what it does, as a manager would read it; `source` is a key of the
    bibliography or "common practice". `choices` is used by kind "choice" only; `choice_names`
    are their names in the same order where the choices themselves are codes. A `quantity` of
    "length" is shown and typed in the shop's own length unit, whatever it is stored in.
    """

    key: str
    kind: Literal["decimal", "whole", "yes_no", "text", "choice", "origin"]
    default: Value
    sentence: str
    unit: str = ""
    low: Decimal | None = None
    high: Decimal | None = None
    choices: tuple[str, ...] = ()
    choice_names: tuple[str, ...] = ()
    source: str = "common practice"
    quantity: Literal["", "length"] = ""

    @property
    def group(self) -> str:
        """The part of the key before the first dot: where it stands on the page."""
        return self.key.split(".", 1)[0]

    @property
    def named_choices(self) -> tuple[tuple[str, str], ...]:
        """What is stored and what is read: by name where they have names, else as declared."""
        if not self.choice_names:
            return tuple((choice, choice) for choice in self.choices)
        named = zip(self.choices, self.choice_names, strict=True)
        return tuple(sorted(named, key=lambda pair: pair[1]))

    def parsed(self, typed: str) -> Value:
        """Read what a manager typed. Raises SettingRefused with a sentence for the field."""
        text = typed.strip()
        match self.kind:
            case "yes_no":
                if text not in {"yes", "no"}:
                    raise SettingRefused("Answer yes or no.")
                return text == "yes"
            case "choice":
                if text not in self.choices:
                    raise SettingRefused(f"Choose one of: {', '.join(self.choices)}.")
                return text
            case "text":
                return text
            case "origin":
                try:
                    return origin_read(text) if text else ""
                except ValueError as refusal:
                    raise SettingRefused(str(refusal)) from None
            case "whole":
                if not text.lstrip("-").isdigit():
                    raise SettingRefused(f"Type a whole number{self._in_unit()}.")
                return int(self._within(Decimal(text)))
            case "decimal":
                try:
                    number = Decimal(text.replace(",", "."))
                except InvalidOperation:
                    raise SettingRefused(f"Type a number{self._in_unit()}.") from None
                if not number.is_finite():
                    raise SettingRefused(f"Type a number{self._in_unit()}.")
                return self._within(number)

    def shown(self, value: Value) -> str:
        """The value as it is typed and stored: `parsed(shown(value)) == value`."""
        if isinstance(value, bool):
            return "yes" if value else "no"
        if not isinstance(value, Decimal):
            return str(value)
        text = format(value, "f")
        return text.rstrip("0").rstrip(".") if "." in text else text

    def _in_unit(self) -> str:
        return f" in {self.unit}" if self.unit else ""

    def _within(self, number: Decimal) -> Decimal:
        if self.low is not None and number < self.low:
            raise SettingRefused(f"At least {self.low}{' ' + self.unit if self.unit else ''}.")
        if self.high is not None and number > self.high:
            raise SettingRefused(f"At most {self.high}{' ' + self.unit if self.unit else ''}.")
        return number


class SettingWords(Protocol):
    """How the buildings above say a setting: what the shop's own building can't know of golf."""

    def shown(self, setting: Setting, value: Value, length_unit: str) -> tuple[str, str]:
        """The value as it is typed in this shop, and the unit that stands behind it."""
        ...

    def read(self, setting: Setting, typed: str, length_unit: str) -> Value:
        """Read what was typed in this shop. Raises SettingRefused."""
        ...

    def source(self, setting: Setting) -> str:
        """Where its default comes from, as a person reads it."""
        ...

    @property
    def abouts(self) -> Mapping[str, str]:
        """A sentence for the top of a group, by the group's name."""
        ...

    @property
    def heads(self) -> Mapping[str, tuple[str, str]]:
        """The chapter and the section under which a setting stands, by its key."""
        ...
