"""A club of the spec as it is typed: read into metric, and kept as it was typed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any

from django import forms

from sessions.maths.errors import UnitRefused
from sessions.maths.shown import show_inches, show_swing_weight
from sessions.maths.units import (
    CLUB_MASS_LIMITS_G,
    parse_length,
    parse_lie,
    parse_loft,
    parse_mass,
    parse_swing_weight,
)
from sessions.models import Grip, Shaft, SpecClub
from sessions.models.specs import READ_BACK
from sessions.models.words import ClubSource, LengthMethod, SlotRole

# A wedge of 15 degrees is a typing mistake; the rules speak of what is merely unusual.
WEDGE_LOFTS_DEG = (Decimal(35), Decimal(70))
TRIM_LIMITS_MM = (Decimal(0), Decimal(150))
REASONS = (
    "Tried and liked",
    "The player wants it so",
    "Right for the home ground",
    "Few clubs wanted",
    "Asked its maker",
    "Will be checked on grass",
)
FIGURES = ("target_loft_deg", "target_lie_deg", "target_length_mm",
           "target_swing_weight_points", "target_mass_g", "tip_trim_mm")  # fmt: skip
NEW_ONLY = ("shaft", "shaft_is_pulled", "tip_trim_mm", "ferrule", "target_mass_g")


def _text(label: str, help_text: str = "", length: int = 40) -> forms.CharField:
    widget = forms.TextInput({"autocomplete": "off"})
    return forms.CharField(
        label=label, required=False, max_length=length, help_text=help_text, widget=widget
    )


class SpecClubForm(forms.Form):
    """One club. `unit` is the shop's unit of club lengths, "in" or "mm".

    Figures are text, so that letters and odd units are answered in words beside the field.
    """

    edition = forms.IntegerField(widget=forms.HiddenInput)
    name = _text("What the player calls it")
    role = forms.ChoiceField(label="Role", choices=SlotRole.choices)
    target_loft_deg = _text("Target loft, degrees")
    target_lie_deg = _text("Target lie, degrees", "Score lines level.")
    target_length_mm = _text("Length")
    length_method = forms.ChoiceField(label="Length measured", choices=LengthMethod.choices)
    target_swing_weight_points = _text("Swing weight", "As D2.5; empty: what comes.")
    target_mass_g = _text("Total mass, g", "Empty: what comes.")
    shaft = forms.ModelChoiceField(label="Shaft", queryset=Shaft.objects.none(), required=False)
    shaft_is_pulled = forms.BooleanField(label="Shaft comes out of an older club", required=False)
    tip_trim_mm = _text("Trim at the tip", "0 for a taper tip, always.")
    grip = forms.ModelChoiceField(label="Grip", queryset=Grip.objects.none(), required=False)
    grip_extra_wraps = forms.IntegerField(
        label="Extra wraps, beyond the base tape", min_value=0, max_value=10
    )
    grip_lower_extra_wraps = forms.IntegerField(
        label="More under the lower hand", min_value=0, max_value=10
    )
    grip_logo = forms.ChoiceField(label="Logo", choices=[("up", "up"), ("down", "down")])
    ferrule = _text("Ferrule", length=60)
    stamping = _text("Stamping", "The exact text, or: none.")
    notes = _text("Notes for bench and player", length=300)

    def __init__(
        self,
        *args: Any,
        club: SpecClub,
        unit: str,
        edition: int,
        beside: Mapping[str, str] | None = None,
        **kwargs: Any,
    ) -> None:
        """`beside`: sentences that stand beside a field, by its name."""
        kwargs.setdefault("initial", _as_shown(club, unit, edition))
        kwargs.setdefault("prefix", f"slot{club.slot}")
        super().__init__(*args, **kwargs)
        self.club, self.unit = club, unit
        self.fields["target_length_mm"].label = f"Length, {_unit_words(unit)}"
        self.fields["tip_trim_mm"].label = f"Trim at the tip, {_unit_words(unit)}"
        self.fields["shaft"].queryset = Shaft.objects.all()  # type: ignore[attr-defined]
        self.fields["grip"].queryset = Grip.objects.all()  # type: ignore[attr-defined]
        if club.source != ClubSource.NEW:
            for name in NEW_ONLY:
                del self.fields[name]
        for name, words in (beside or {}).items():
            self.fields[name].help_text = f"{self.fields[name].help_text} {words}".strip()

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        for name, read in self._readers().items():
            if name not in self.fields or name not in cleaned:
                continue
            text = cleaned[name].strip()
            try:
                cleaned[name] = read(text) if text else self._empty(name)
            except UnitRefused as refused:
                self.add_error(name, str(refused))
        return cleaned

    def values(self) -> dict[str, Any]:
        """What the service takes: columns in metric, and the figures as they were typed."""
        typed = {
            name: self.data.get(self.add_prefix(name), "")
            for name in FIGURES
            if name in self.fields
        }
        return {k: v for k, v in self.cleaned_data.items() if k != "edition"} | {"as_typed": typed}

    def _readers(self) -> dict[str, Callable[[str], Decimal]]:
        unit = "mm" if self.unit == "mm" else "in"
        return {
            "target_loft_deg": lambda text: parse_loft(text, limits=WEDGE_LOFTS_DEG),
            "target_lie_deg": parse_lie,
            "target_length_mm": lambda text: parse_length(text, unit=unit),  # type: ignore[arg-type]
            "target_swing_weight_points": parse_swing_weight,
            "target_mass_g": lambda text: parse_mass(
                text, name="total mass", limits=CLUB_MASS_LIMITS_G
            ),
            "tip_trim_mm": lambda text: parse_length(
                text,
                unit=unit,
                name="tip trim",
                limits=TRIM_LIMITS_MM,  # type: ignore[arg-type]
            ),
        }

    @staticmethod
    def _empty(name: str) -> Decimal | None:
        return Decimal(0) if name == "tip_trim_mm" else None


class AcceptForm(forms.Form):
    """Why something that wants a look is right: a chip, own words, or both."""

    rule = forms.CharField(max_length=20)
    fields_said = forms.CharField(max_length=400, required=False)
    chip = forms.ChoiceField(choices=[(text, text) for text in REASONS], required=False)
    words = forms.CharField(max_length=300, required=False)

    def reason(self) -> str:
        said = [self.cleaned_data.get("chip", ""), self.cleaned_data.get("words", "").strip()]
        return ": ".join(text for text in said if text)

    def finding_fields(self) -> list[str]:
        return [name for name in self.cleaned_data.get("fields_said", "").split(" ") if name]


def _unit_words(unit: str) -> str:
    return "millimetres" if unit == "mm" else "inches"


def _as_shown(club: SpecClub, unit: str, edition: int) -> dict[str, Any]:
    points = club.target_swing_weight_points
    return {
        "edition": edition,
        "name": club.name,
        "role": club.role,
        "target_loft_deg": _figure(club.target_loft_deg),
        "target_lie_deg": _figure(club.target_lie_deg),
        "target_length_mm": _length(club.target_length_mm, unit),
        "length_method": club.length_method,
        "target_swing_weight_points": "" if points is None else show_swing_weight(points),
        "target_mass_g": _figure(club.target_mass_g),
        "shaft": club.shaft_id,
        "shaft_is_pulled": club.shaft_is_pulled,
        "tip_trim_mm": _length(club.tip_trim_mm, unit),
        "grip": club.grip_id,
        "grip_extra_wraps": club.grip_extra_wraps,
        "grip_lower_extra_wraps": club.grip_lower_extra_wraps,
        "grip_logo": club.grip_logo,
        "ferrule": club.ferrule,
        "stamping": club.stamping,
        "notes": club.notes,
    }


def _figure(value: Decimal | None) -> str:
    return "" if value is None else f"{value.normalize():f}"


def _length(value: Decimal | None, unit: str) -> str:
    """In sixteenths where that is exact, else in millimetres: saving again changes nothing."""
    if value is None:
        return ""
    if unit == "mm":
        return _figure(value)
    shown = show_inches(value).removesuffix(" in")
    return (
        shown
        if parse_length(shown, limits=(Decimal(0), Decimal(2000))) == value
        else (f"{_figure(value)} mm")
    )


class SignForm(forms.Form):
    """The signature, with what the player heard and confirmed before it: all of READ_BACK.

    The service refuses what was not ticked, after everything else that stands in the way.
    """

    edition = forms.CharField(widget=forms.HiddenInput, required=False)
    hand = forms.BooleanField(label="Hand confirmed", required=False)
    length = forms.BooleanField(label="Lengths confirmed", required=False)
    stamping = forms.BooleanField(label="Stamping confirmed", required=False)

    def edition_seen(self) -> int:
        edition = self.cleaned_data["edition"]
        return int(edition) if edition.isdecimal() else -1

    def read_back(self) -> list[str]:
        return [what for what in READ_BACK if self.cleaned_data[what]]
