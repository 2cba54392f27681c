"""What was measured at a check of trial equipment, typed as it was read."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

from django import forms

from fitshop.forms import DayField
from sessions.maths.errors import UnitRefused
from sessions.maths.units import (
    HEAD_MASS_LIMITS_G,
    PART_MASS_LIMITS_G,
    parse_bounce,
    parse_length,
    parse_lie,
    parse_loft,
    parse_mass,
)

Reader = Callable[[str], Decimal]


class CheckForm(forms.Form):
    """One field for each figure that is measured on such a thing; empty: not measured this time.

    `kind` is head, shaft or adapter, `unit` the shop's unit of club lengths, "in" or "mm".
    """

    def __init__(self, *args: Any, kind: str, unit: str, is_withdrawn: bool, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.readers: dict[str, Reader] = {}
        for name, label, shown_unit, reader in _figures(kind, unit):
            self.readers[name] = reader
            self.fields[name] = forms.CharField(
                label=label,
                required=False,
                max_length=40,
                widget=forms.TextInput({"inputmode": "decimal", "autocomplete": "off"}),
            )
            self.fields[name].unit = shown_unit  # type: ignore[attr-defined]
        if kind == "adapter":
            self.fields["inspect_by"] = DayField(label="Inspect again by", required=False)
        if is_withdrawn:
            self.fields["back_in_use"] = forms.BooleanField(
                label="Put back in use: what it was withdrawn for is put right", required=False
            )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        for name, reader in self.readers.items():
            text = cleaned.get(name, "").strip()
            if not text:
                cleaned[name] = None
                continue
            try:
                cleaned[name] = reader(text)
            except UnitRefused as refused:
                self.add_error(name, str(refused))
        return cleaned

    def measured(self) -> dict[str, Decimal]:
        """Metric figures by column: what was left empty stays as it was."""
        typed = {name: self.cleaned_data[name] for name in self.readers}
        return {name: value for name, value in typed.items() if value is not None}

    @property
    def figures(self) -> list[tuple[forms.BoundField, str]]:
        """The fields of figures with the unit that stands behind each."""
        return [(self[name], self.fields[name].unit) for name in self.readers]  # type: ignore[attr-defined]


def _figures(kind: str, unit: str) -> list[tuple[str, str, str, Reader]]:
    if kind == "head":
        return [
            ("measured_loft_deg", "Loft", "degrees", parse_loft),
            ("measured_lie_deg", "Lie, score lines level", "degrees", parse_lie),
            ("measured_bounce_deg", "Bounce", "degrees", parse_bounce),
            ("measured_mass_g", "Mass", "g", _head_mass),
        ]
    if kind == "shaft":
        return [
            ("playing_length_mm", "Playing length", unit, _length_reader(unit)),
            ("measured_mass_g", "Mass with its grip", "g", _shaft_mass),
        ]
    return [("mass_g", "Mass", "g", _adapter_mass)]


def _head_mass(text: str) -> Decimal:
    return parse_mass(text, name="head mass", limits=HEAD_MASS_LIMITS_G)


def _shaft_mass(text: str) -> Decimal:
    return parse_mass(text, name="mass", limits=(Decimal(50), Decimal(300)))


def _adapter_mass(text: str) -> Decimal:
    return parse_mass(text, name="mass", limits=PART_MASS_LIMITS_G)


def _length_reader(unit: str) -> Reader:
    return lambda text: parse_length(text, unit="mm" if unit == "mm" else "in", name="length")
