"""A player's form: what is typed is read into metric, and kept as it was typed."""

from __future__ import annotations

import re
import uuid
from collections.abc import Callable
from decimal import Decimal
from typing import Any

from django import forms

from fitshop.forms import DayField
from fitshop.refusals import FieldsRefused
from sessions.maths.errors import UnitRefused
from sessions.maths.units import parse_distance, parse_length, show_length
from sessions.models import Player
from sessions.models.words import Hand, PlayerKind
from sessions.services.players import BELIEVABLE, PlayerValues, phone_normalised

FEET_AND_INCHES = re.compile(r"(\d)\s*(?:'|ft|feet|foot)\s*(\d{1,2}(?:[.,]\d+)?)?\s*(?:\"|in|'')?")
MISSING = {
    "given_name": "Type the given name.",
    "family_name": "Type the family name.",
    "hand": "Right or left: from which side does this player hit?",
    "kind": "Choose what lengths and weights are judged by.",
}
MEASURED = ("height_mm", "wrist_to_floor_mm", "finger_length_mm", "home_altitude_m")


def height_mm(typed: str, *, unit: str) -> Decimal:
    """Read a person's height: `180 cm`, `71 in`, `5 ft 11` or a number alone in ``unit``.

    Raises UnitRefused.
    """
    limits = _limits("height_mm")
    feet = FEET_AND_INCHES.fullmatch(typed.strip().lower())
    if feet:
        inches = Decimal(feet[1]) * 12 + Decimal((feet[2] or "0").replace(",", "."))
        return parse_length(f"{inches} in", name="height", limits=limits)
    try:
        return parse_length(typed, unit=_length_unit(unit), name="height", limits=limits)
    except UnitRefused as refused:
        if "not believable" in str(refused):
            raise
        raise UnitRefused("Type a height, for example 5 ft 11 or 180 cm.") from refused


class FigureField(forms.DecimalField):
    """A number with a point or a comma before its decimals."""

    def to_python(self, value: Any) -> Decimal | None:
        return super().to_python(value.replace(",", ".") if isinstance(value, str) else value)


class PlayerForm(forms.Form):
    """Who it is first; what can be measured later stands behind a fold.

    `length_unit` is the shop's: "in" or "mm". Measured fields hold texts in the form and
    metric values in `values()`.
    """

    id = forms.UUIDField(widget=forms.HiddenInput)
    given_name = forms.CharField(label="Given name", max_length=80)
    family_name = forms.CharField(label="Family name", max_length=80)
    phone = forms.CharField(
        label="Telephone", required=False, max_length=40, widget=forms.TextInput({"type": "tel"})
    )
    email = forms.EmailField(label="E-mail", required=False)
    hand = forms.ChoiceField(
        label="Hits", choices=[(h.value, f"{h.label}-handed") for h in Hand],
        widget=forms.RadioSelect,
    )  # fmt: skip
    kind = forms.ChoiceField(
        label="Lengths and weights as for a",
        choices=PlayerKind.choices,
        widget=forms.RadioSelect,
    )
    carry_unit = forms.ChoiceField(
        label="Speaks of carries in",
        choices=[("yd", "yards"), ("m", "metres")],
        widget=forms.RadioSelect,
    )
    guardian_name = forms.CharField(
        label="Guardian's name", required=False, max_length=160, help_text="Needed for a junior."
    )
    guardian_email = forms.EmailField(
        label="Guardian's e-mail",
        required=False,
        help_text="A junior's summary goes here, once the guardian agreed.",
    )
    birth_date = DayField(label="Born on", required=False)
    handicap = FigureField(
        label="Handicap", required=False, max_digits=4, decimal_places=1, localize=False,
        widget=forms.TextInput({"inputmode": "decimal"}),
    )  # fmt: skip
    height_mm = forms.CharField(label="Height", required=False, max_length=40)
    wrist_to_floor_mm = forms.CharField(label="Wrist to floor", required=False, max_length=40)
    finger_length_mm = forms.CharField(label="Longest finger", required=False, max_length=40)
    glove = forms.CharField(label="Glove", required=False, max_length=20)
    home_place = forms.CharField(label="Plays mostly at", required=False, max_length=120)
    home_altitude_m = forms.CharField(
        label="Height above the sea there", required=False, max_length=40
    )
    notes = forms.CharField(
        label="Notes", required=False, max_length=2000, widget=forms.Textarea({"rows": 3})
    )

    def __init__(self, *args: Any, length_unit: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.length_unit = length_unit
        person = "for example 5 ft 11 or 180 cm" if length_unit == "in" else "in cm, as in 180"
        reach = "in inches, as in 34 1/2" if length_unit == "in" else "in cm, as in 88"
        finger = "in inches, as in 3 1/4" if length_unit == "in" else "in mm, as in 82"
        self.fields["height_mm"].help_text = person
        self.fields["wrist_to_floor_mm"].help_text = reach
        self.fields["finger_length_mm"].help_text = finger
        self.fields["home_altitude_m"].help_text = "in metres, or with ft"
        for name, sentence in MISSING.items():
            self.fields[name].error_messages["required"] = sentence
        for name in ("given_name", "family_name", "phone", "email"):
            self.fields[name].widget.attrs["autocomplete"] = "off"

    def clean_phone(self) -> str:
        try:
            return phone_normalised(self.cleaned_data["phone"])
        except FieldsRefused as refused:
            raise forms.ValidationError(refused.errors["phone"]) from refused

    def clean_height_mm(self) -> Decimal | None:
        unit = self.length_unit
        return _read(self.cleaned_data["height_mm"], lambda text: height_mm(text, unit=unit))

    def clean_wrist_to_floor_mm(self) -> Decimal | None:
        return _read(
            self.cleaned_data["wrist_to_floor_mm"],
            lambda text: parse_length(
                text,
                unit=_length_unit(self.length_unit),
                name="wrist to floor",
                limits=_limits("wrist_to_floor_mm"),
            ),
        )

    def clean_finger_length_mm(self) -> Decimal | None:
        return _read(
            self.cleaned_data["finger_length_mm"],
            lambda text: parse_length(
                text,
                unit="in" if self.length_unit == "in" else "mm",
                name="finger length",
                limits=_limits("finger_length_mm"),
            ),
        )

    def clean_home_altitude_m(self) -> float | None:
        return _read(
            self.cleaned_data["home_altitude_m"],
            lambda text: parse_distance(
                text, unit="m", name="altitude", limits=_limits("home_altitude_m")
            ),
        )

    def values(self) -> PlayerValues:
        """What the services take. Call on a valid form."""
        cleaned = {name: value for name, value in self.cleaned_data.items() if name != "id"}
        typed = {name: self[name].value().strip() for name in MEASURED if self[name].value()}
        return PlayerValues(**cleaned, as_typed=typed)

    @staticmethod
    def initial_of(player: Player | None, *, carry_unit: str, length_unit: str) -> dict[str, Any]:
        """What stands in the fields: a new player's defaults, or the player as last typed."""
        if player is None:
            return {"id": uuid.uuid4(), "carry_unit": carry_unit}
        names = [name for name in PlayerForm.base_fields if name not in ("id", *MEASURED)]
        shown = {name: getattr(player, name) for name in names}
        for name in MEASURED:
            shown[name] = player.as_typed.get(name) or _shown(player, name, length_unit)
        return shown | {"id": player.pk}


def _read(text: str, parse: Callable[[str], Any]) -> Any:
    """None where nothing was typed; a refusal's sentence beside the field."""
    if not text.strip():
        return None
    try:
        return parse(text)
    except UnitRefused as refused:
        raise forms.ValidationError(str(refused)) from refused


def _shown(player: Player, name: str, length_unit: str) -> str:
    value = getattr(player, name)
    if value is None:
        return ""
    if name == "home_altitude_m":
        return f"{value:g} m"
    return show_length(value, "in" if length_unit == "in" else "mm")


def _length_unit(shop_unit: str) -> Any:
    """A person's measures are spoken of in inches or centimetres."""
    return "in" if shop_unit == "in" else "cm"


def _limits(name: str) -> tuple[Decimal, Decimal]:
    low, high, _unit = BELIEVABLE[name]
    return Decimal(low), Decimal(high)
