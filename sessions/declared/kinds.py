"""How a setting of the fitting room is declared: one function for each kind of figure."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from fitshop.setting import Setting

MM_PER_INCH = Decimal("25.4")


def degrees(key: str, default: str, sentence: str, *, low: str = "0", high: str = "10") -> Setting:
    """An angle."""
    return Setting(
        key=key,
        kind="decimal",
        default=Decimal(default),
        sentence=sentence,
        unit="degrees",
        low=Decimal(low),
        high=Decimal(high),
    )


def inches(key: str, default_in: str, sentence: str, *, low_in: str, high_in: str) -> Setting:
    """A length whose default is spoken of in inches; stored and typed in millimetres."""
    return Setting(
        key=key,
        kind="decimal",
        default=Decimal(default_in) * MM_PER_INCH,
        sentence=sentence,
        unit="mm",
        low=Decimal(low_in) * MM_PER_INCH,
        high=Decimal(high_in) * MM_PER_INCH,
    )


def length_step(key: str, default_in: str, sentence: str, *, low_in: str, high_in: str) -> Setting:
    """A difference between two clubs' lengths: the shop reads it in its own length unit."""
    step = inches(key, default_in, sentence, low_in=low_in, high_in=high_in)
    return replace(step, quantity="length")


def club_length(key: str, default_in: str, sentence: str) -> Setting:
    """A length that a club can have by the Equipment Rules: 18 to 48 inches."""
    return length_step(key, default_in, sentence, low_in="18", high_in="48")


def whole(key: str, default: int, sentence: str, *, unit: str, low: int, high: int) -> Setting:
    """A whole number of something."""
    return Setting(
        key=key,
        kind="whole",
        default=default,
        sentence=sentence,
        unit=unit,
        low=Decimal(low),
        high=Decimal(high),
    )


def percent(key: str, default: str, sentence: str, *, high: str = "100") -> Setting:
    """A share in percent, from nought."""
    return Setting(
        key=key,
        kind="decimal",
        default=Decimal(default),
        sentence=sentence,
        unit="%",
        low=Decimal(0),
        high=Decimal(high),
    )


def rpm(key: str, default: str, sentence: str, *, low: str, high: str) -> Setting:
    """A spin."""
    return Setting(
        key=key,
        kind="decimal",
        default=Decimal(default),
        sentence=sentence,
        unit="rpm",
        low=Decimal(low),
        high=Decimal(high),
    )
