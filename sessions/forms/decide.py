"""What is typed and tapped on the pages of plan, files and decision, with its units."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from decimal import Decimal
from typing import Any

from django import forms

from sessions.maths.errors import UnitRefused
from sessions.maths.loft_binding import MOST_WEDGES
from sessions.maths.unit_factors import DistanceUnit
from sessions.maths.units import parse_distance, parse_loft
from sessions.models.words import (
    AsFlown,
    Ball,
    CarryGot,
    Face,
    Ground,
    HitFrom,
    SlotRole,
    SpinGot,
    Swing,
    Wetness,
)

OWN_PLAN_REASONS = (
    "The player wants these lofts",
    "A club the player loves stays",
    "The clubs are in stock",
    "Fewer clubs for the money",
    "The matched set's own wedge",
)
DECISION_REASONS = (
    "Turf: it goes through better",
    "The look at address",
    "Feel and sound",
    "The player trusts it",
    "Better in the sand",
    "Fits the gaps",
    "Price",
)
OVERRULE_REASONS = (
    "Seen or measured today",
    "The player wants it so",
    "It is at hand",
    "It works in the club played now",
    "An answer will change",
)
_DECIMAL = {"inputmode": "decimal", "autocomplete": "off"}
Choices = Sequence[tuple[str, str]]


class FigureField(forms.CharField):
    """A figure as typed, read by `reader`; empty is None."""

    def __init__(self, *, reader: Callable[[str], Any], **kwargs: Any) -> None:
        kwargs.setdefault("required", False)
        kwargs.setdefault("widget", forms.TextInput(_DECIMAL))
        super().__init__(max_length=40, **kwargs)
        self.reader = reader

    def clean(self, value: Any) -> Any:
        text = super().clean(value)
        if not text:
            return None
        try:
            return self.reader(text)
        except UnitRefused as refused:
            raise forms.ValidationError(str(refused)) from refused


def _step(text: str) -> Decimal:
    try:
        step = Decimal(text.replace(",", "."))
        is_within = Decimal(1) <= step <= Decimal(12)  # what is no number refuses here
    except ArithmeticError as error:
        raise UnitRefused("Type a step in degrees, for example 6.") from error
    if not is_within:
        raise UnitRefused("A step of loft is 1 to 12 degrees.")
    return step


class WishForm(forms.Form):
    """What is asked of a plan. What is left open follows the bag and the shop's settings."""

    wedges = forms.TypedChoiceField(
        label="Wedges below the pitching wedge",
        choices=[(str(n), str(n)) for n in range(1, MOST_WEDGES + 1)],
        coerce=int,
        empty_value=None,
        required=False,
        widget=forms.RadioSelect,
    )
    most = FigureField(label="Most lofted, if wished", reader=parse_loft)
    full_shots = forms.TypedChoiceField(
        label="Full-shot clubs among them",
        choices=[("", "by their loft"), *((str(n), str(n)) for n in range(MOST_WEDGES + 1))],
        coerce=int,
        empty_value=None,
        required=False,
    )
    step_low = FigureField(label="Steps from", reader=_step)
    step_high = FigureField(label="Steps up to", reader=_step)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        low, high = cleaned.get("step_low"), cleaned.get("step_high")
        if low is not None and high is not None and low > high:
            self.add_error("step_high", "The largest step is smaller than the smallest.")
        return cleaned


class OwnPlanForm(forms.Form):
    """Up to four lofts of the fitter's own, with a role each and one reason."""

    why = forms.ChoiceField(
        label="Why",
        choices=[(words, words) for words in OWN_PLAN_REASONS],
        required=False,
        widget=forms.RadioSelect,
    )
    why_words = forms.CharField(label="Or in your own words", max_length=200, required=False)

    def __init__(self, *args: Any, clubs: Choices, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for n in range(1, MOST_WEDGES + 1):
            self.fields[f"loft_{n}"] = FigureField(label=f"Loft {n}", reader=parse_loft)
            self.fields[f"role_{n}"] = forms.ChoiceField(
                label=f"Role {n}",
                choices=[("", "by its loft"), *SlotRole.choices],
                required=False,
            )
            self.fields[f"club_{n}"] = forms.ChoiceField(
                label=f"From {n}", choices=[("", "a new head"), *clubs], required=False
            )

    @property
    def reason(self) -> str:
        return self.cleaned_data.get("why_words") or self.cleaned_data.get("why") or ""

    def lofts(self) -> list[tuple[int, Decimal, str, str]]:
        """(row, loft, role, club id) of the rows that hold a loft."""
        data = self.cleaned_data
        return [
            (n, data[f"loft_{n}"], data.get(f"role_{n}", ""), data.get(f"club_{n}", ""))
            for n in range(1, MOST_WEDGES + 1)
            if data.get(f"loft_{n}") is not None
        ]

    @property
    def rows(self) -> list[tuple[Any, Any, Any]]:
        return [
            (self[f"loft_{n}"], self[f"role_{n}"], self[f"club_{n}"])
            for n in range(1, MOST_WEDGES + 1)
        ]


class OverruleForm(forms.Form):
    """A suggestion set aside: what instead (nothing takes it back), and why."""

    instead = forms.CharField(
        label="Begin with instead",
        max_length=200,
        required=False,
        help_text="Left empty, the suggestion counts again.",
        widget=forms.TextInput({"autocomplete": "off"}),
    )
    reason = forms.ChoiceField(
        label="Because",
        choices=[(words, words) for words in OVERRULE_REASONS],
        required=False,
        help_text="One of these, or your own words below.",
        widget=forms.RadioSelect,
    )
    reason_words = forms.CharField(
        label="Or in your own words",
        max_length=300,
        required=False,
        widget=forms.TextInput({"autocomplete": "off"}),
    )

    @property
    def why(self) -> str:
        """The reason in own words, else the chip, "" where there is neither."""
        return self.cleaned_data.get("reason_words") or self.cleaned_data.get("reason") or ""


class OverruleCountForm(OverruleForm):
    """The number of wedges set aside: another number, which the plan begins with."""

    instead = forms.ChoiceField(
        label="Begin with instead",
        choices=[("", "as suggested"), *((str(n), str(n)) for n in range(1, MOST_WEDGES + 1))],
        required=False,
        help_text="The loft plan begins with this number. “As suggested” takes it back.",
        widget=forms.RadioSelect,
    )


class FileForm(forms.Form):
    file = forms.FileField(
        label="File from the measuring device",
        help_text="CSV, up to 5 MB. Nothing is taken over before you have seen it.",
        error_messages={"empty": "This file is empty.", "required": "Choose a file first."},
        widget=forms.FileInput({"accept": ".csv,.txt,text/csv"}),
    )


class BlockForm(forms.Form):
    """A situation for a file's shots, where no block was begun while they were hit."""

    trial = forms.ChoiceField(label="Club")
    swing = forms.ChoiceField(label="Swing", choices=Swing.choices)
    hit_from = forms.ChoiceField(label="From", choices=HitFrom.choices)
    ground = forms.ChoiceField(label="Ground", choices=Ground.choices, initial=Ground.NORMAL)
    wetness = forms.ChoiceField(label="Dry or wet", choices=Wetness.choices)
    face = forms.ChoiceField(label="Face", choices=Face.choices)
    ball = forms.ChoiceField(label="Ball", choices=Ball.choices, initial=Ball.RANGE)
    carry_got = forms.ChoiceField(
        label="Carry is", choices=CarryGot.choices, initial=CarryGot.TRACKED
    )
    spin_got = forms.ChoiceField(label="Spin is", choices=SpinGot.choices)
    as_flown = forms.ChoiceField(label="Figures are", choices=AsFlown.choices)
    device = forms.ChoiceField(label="Device", required=False)

    def __init__(
        self, *args: Any, trials: Choices, devices: Choices, unit: DistanceUnit, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.fields["trial"].choices = list(trials)  # type: ignore[attr-defined]
        self.fields["device"].choices = [("", "not noted"), *devices]  # type: ignore[attr-defined]
        # The unit that the page showed: the player's may be another by now.
        shown = self.data.get("target_unit") if self.is_bound else unit
        shown_in: DistanceUnit = "m" if shown == "m" else "yd"
        self.fields["target_m"] = FigureField(
            label=f"Target in {shown_in}", reader=lambda text: parse_distance(text, unit=shown_in)
        )
        self.fields["target_unit"] = forms.CharField(
            widget=forms.HiddenInput, initial=shown_in, required=False
        )


class DecisionForm(forms.Form):
    """One slot's decision. `wanted` are what was to be kept and fixed, each with its answers."""

    outcome = forms.ChoiceField(label="What happens in this slot", widget=forms.RadioSelect)
    against = forms.ChoiceField(label="Against", required=False)
    reason = forms.ChoiceField(
        label="Why",
        choices=[(words, words) for words in DECISION_REASONS],
        required=False,
        widget=forms.RadioSelect,
    )
    reason_words = forms.CharField(
        label="Or in your own words",
        max_length=280,
        required=False,
        help_text="The player reads this.",
    )
    leaves = forms.ChoiceField(label="Leaves the bag", required=False)

    def __init__(
        self,
        *args: Any,
        outcomes: Choices,
        against: Choices,
        leaves: Choices,
        wanted: Sequence[tuple[Any, Choices]],
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.fields["outcome"].choices = list(outcomes)  # type: ignore[attr-defined]
        self.fields["against"].choices = [("", "nothing"), *against]  # type: ignore[attr-defined]
        self.fields["leaves"].choices = [("", "nothing"), *leaves]  # type: ignore[attr-defined]
        self.wanted = [want for want, _ in wanted]
        for index, (want, choices) in enumerate(wanted):
            self.fields[f"wanted_{index}"] = forms.ChoiceField(
                label=f"{want.kind.capitalize()}: {want.label}",
                choices=choices,
                required=False,
                widget=forms.RadioSelect,
            )

    @property
    def wanted_fields(self) -> list[Any]:
        return [self[f"wanted_{index}"] for index in range(len(self.wanted))]

    def keep_fix(self) -> list[dict[str, str]]:
        return [
            {
                "kind": want.kind,
                "what": want.what,
                "answer": self.cleaned_data.get(f"wanted_{index}", ""),
            }
            for index, want in enumerate(self.wanted)
        ]

    @property
    def why(self) -> str:
        return self.cleaned_data.get("reason_words") or self.cleaned_data.get("reason") or ""
