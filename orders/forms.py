"""What is typed at the bench, read with its unit."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from django import forms

from fitshop.forms import DayField
from orders.models import BuildOrder, Resin, Telling
from orders.models.bench import Measure, Stage, Step
from orders.services.checks import CAUSES
from orders.services.hand_over import HANDED_OVER_HOW
from orders.services.rounds import MOST_ROUNDS
from orders.services.tellings import BY_HAND
from sessions.maths.errors import UnitRefused
from sessions.maths.units import (
    parse_angle,
    parse_bounce,
    parse_length,
    parse_lie,
    parse_loft,
    parse_mass,
    parse_swing_weight,
)
from sessions.models import Head
from sessions.models.words import LengthMethod

HEAD_MASS = (Decimal(150), Decimal(450))
CLUB_MASS = (Decimal(250), Decimal(650))
LIE = (Decimal(50), Decimal(75))
DIAMETER_MM = (Decimal(10), Decimal(40))
# Believable for a head (the catalogue's own limits).
SOLE_POINT_MM = (Decimal(5), Decimal(70))


class OrderForm(forms.Form):
    due_on = DayField(label="Due", required=False)
    note = forms.CharField(label="Note for the bench", required=False, max_length=300)
    tell_by = forms.ChoiceField(
        label="When ready, tell the player by",
        choices=BuildOrder.TellBy.choices,
        required=False,
        widget=forms.RadioSelect,
    )


class DueForm(forms.Form):
    """Another promised day."""

    due_on = DayField(label="Promise it for")
    why = forms.CharField(label="Why", max_length=300)


class ReadyForm(forms.Form):
    """Asked of an order that is ready after its promised day."""

    day_moved = forms.TypedChoiceField(
        label="Did the promised day move?",
        choices=[("yes", "Yes: call the player"), ("no", "No: the player knows")],
        widget=forms.RadioSelect,
        required=False,
        coerce=lambda typed: typed == "yes",
        empty_value=None,
    )


class ReasonForm(forms.Form):
    why = forms.CharField(label="Why", max_length=300)


class WaitForm(forms.Form):
    """`wait_id` is made with the form, so that sent twice it is one wait."""

    wait_id = forms.UUIDField(widget=forms.HiddenInput)
    missing = forms.CharField(label="What is missing", max_length=200)
    expected_on = DayField(label="Expected", required=False)


class ArrivedForm(forms.Form):
    wait_id = forms.UUIDField(widget=forms.HiddenInput)


class CheckForm(forms.Form):
    result = forms.ChoiceField(
        label="The second look",
        choices=[("passed", "Passed"), ("rework", "Back to the bench")],
        widget=forms.RadioSelect,
    )
    cause = forms.ChoiceField(
        label="Cause, if it goes back",
        choices=[("", "Choose"), *[(cause, cause) for cause in CAUSES]],
        required=False,
    )
    slots = forms.TypedMultipleChoiceField(
        label="Which clubs go back (none ticked: all)",
        coerce=int,
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )
    note = forms.CharField(label="Note", required=False, max_length=300)

    def __init__(self, *args: Any, slots: list[tuple[int, str]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["slots"].choices = slots


class HandOverForm(forms.Form):
    how = forms.ChoiceField(
        label="How", choices=list(HANDED_OVER_HOW.items()), widget=forms.RadioSelect
    )


class ToldForm(forms.Form):
    """`telling_id` is made with the form, so that sent twice it is one telling."""

    telling_id = forms.UUIDField(widget=forms.HiddenInput)
    told_how = forms.ChoiceField(
        label="How",
        choices=[(how.value, Telling.HOW[how].capitalize()) for how in BY_HAND],
        widget=forms.RadioSelect,
    )
    outcome = forms.ChoiceField(
        label="Outcome", choices=list(Telling.OUTCOME.items()), widget=forms.RadioSelect
    )
    said = forms.CharField(label="What was said", required=False, max_length=300)


class LetterForm(forms.Form):
    """`telling_id` is made with the form, so that sent twice it is one letter."""

    telling_id = forms.UUIDField(widget=forms.HiddenInput)


class TellByForm(forms.Form):
    tell_by = forms.ChoiceField(
        label="When ready, tell the player by",
        choices=BuildOrder.TellBy.choices,
        required=False,
        widget=forms.RadioSelect,
    )


class RoundsForm(forms.Form):
    """`report_id` is made with the form, so that sent twice it is one report."""

    report_id = forms.UUIDField(widget=forms.HiddenInput)
    rounds = forms.IntegerField(
        label="Rounds played since the hand-over", min_value=0, max_value=MOST_ROUNDS
    )
    played_until = DayField(label="Up to which day, if not today", required=False)


class PlayerWordsForm(forms.Form):
    """What the player reads of an accepted figure: shown here exactly as it is sent."""

    player_words = forms.CharField(
        label="What the player reads, exactly so",
        max_length=300,
        widget=forms.Textarea(attrs={"rows": 3}),
        error_messages={"required": "Write what the player is to read."},
    )


class ConcessionForm(PlayerWordsForm):
    measure = forms.ChoiceField(choices=Measure.choices, widget=forms.HiddenInput)
    reason = forms.CharField(
        label="Why it is accepted (stays in the shop)",
        max_length=300,
        error_messages={"required": "Say why it is accepted: it stands on the ticket."},
    )
    field_order = ("measure", "reason", "player_words")


class SetConcessionForm(PlayerWordsForm):
    """A step between two clubs, accepted: which step it is goes with the form."""

    measure = forms.ChoiceField(
        choices=[(each.value, each.label) for each in (Measure.LOFT, Measure.LENGTH)],
        widget=forms.HiddenInput,
    )
    above = forms.IntegerField(min_value=0, widget=forms.HiddenInput)
    below = forms.IntegerField(min_value=0, widget=forms.HiddenInput)
    reason = forms.CharField(
        label="Why it is accepted (stays in the shop)",
        max_length=300,
        error_messages={"required": "Say why it is accepted: it stands on the ticket."},
    )
    field_order = ("measure", "above", "below", "reason", "player_words")

    def which(self) -> tuple[str, str, str]:
        """The step that was posted, as typed."""
        return (self["measure"].value(), str(self["above"].value()), str(self["below"].value()))


class HoldForm(forms.Form):
    """Accepting a figure that holds the work before the glue: the player reads none of it."""

    stage = forms.ChoiceField(
        choices=[(Stage.AS_RECEIVED, ""), (Stage.DRY, "")], widget=forms.HiddenInput
    )
    measure = forms.ChoiceField(choices=Measure.choices, widget=forms.HiddenInput)
    reason = forms.CharField(
        label="Why it is accepted",
        max_length=300,
        error_messages={"required": "Say why it is accepted: it stands on the ticket."},
    )


class ReadingForm(forms.Form):
    """One reading, typed as it is read. `length_unit` is what a number alone is in.

    `methods`: for a length, what each ruler is to show, by method: said behind each gauge, and
    asked for where the shop has no gauge for lengths.
    """

    reading_id = forms.UUIDField(widget=forms.HiddenInput)
    stage = forms.CharField(widget=forms.HiddenInput)
    measure = forms.ChoiceField(choices=Measure.choices, widget=forms.HiddenInput)
    value = forms.CharField(label="Reading", max_length=40)
    gauge = forms.ModelChoiceField(queryset=None, required=False, empty_label="Which gauge?")

    def __init__(
        self,
        *args: Any,
        gauges: Any,
        length_unit: Any,
        methods: Mapping[str, str] | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        has_gauges = gauges.exists()
        self.fields["gauge"].queryset = gauges
        self.fields["gauge"].required = has_gauges
        self.length_unit = length_unit
        if methods is None:
            return
        self.fields["gauge"].label_from_instance = lambda gauge: (
            f"{gauge.name}: {methods[gauge.length_method]}"
        )
        if not has_gauges:
            self.fields["length_method"] = forms.ChoiceField(
                label="Measured how", choices=[("", "Measured how?"), *methods.items()]
            )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        typed, measure = cleaned.get("value"), cleaned.get("measure")
        if typed and measure:
            try:
                cleaned["metric"] = figure_typed(measure, typed, self.length_unit)
            except UnitRefused as refusal:
                self.add_error("value", str(refusal))
        return cleaned


def figure_typed(measure: str, typed: str, length_unit: Any) -> Decimal:
    """Read a figure as degrees, millimetres, grams or points. Raises UnitRefused."""
    match measure:
        case Measure.LOFT:
            return parse_loft(typed)
        case Measure.LIE:
            return parse_lie(typed, limits=LIE)
        case Measure.BOUNCE:
            return parse_bounce(typed)
        case Measure.LENGTH:
            return parse_length(typed, unit=length_unit)
        case Measure.SWING_WEIGHT:
            return parse_swing_weight(typed)
        case Measure.HEAD_MASS:
            return parse_mass(typed, name="head mass", limits=HEAD_MASS)
        case Measure.TOTAL_MASS:
            return parse_mass(typed, name="whole club", limits=CLUB_MASS)
        case Measure.SOLE_POINT:
            return parse_length(typed, unit=length_unit, name="sole point", limits=SOLE_POINT_MM)
        case _:
            return parse_length(typed, unit=length_unit, name="diameter", limits=DIAMETER_MM)


def gluing_fields() -> dict[str, forms.Field]:
    """What is written down of an epoxy beside its temperature."""
    return {
        "resin": forms.ModelChoiceField(
            label="Which resin",
            queryset=Resin.objects.filter(in_use=True),
            widget=forms.RadioSelect,
            empty_label=None,
            error_messages={"required": "Which resin? Its sheet says how long."},
        ),
        "batch": forms.CharField(label="Batch on the tin", max_length=40),
        "expires_on": DayField(label="Use by, on the tin"),
        "hours": forms.DecimalField(
            label="Hours, if this batch's sheet says more", required=False, max_value=168
        ),
    }


class TemperatureForm(forms.Form):
    """A temperature read while it cures."""

    celsius = forms.DecimalField(label="Temperature now, °C", min_value=-20, max_value=60)


class CorrectForm(forms.Form):
    """What was typed at a gluing, to be put right; each temperature by its place."""

    def __init__(self, *args: Any, shown: list[str], **kwargs: Any) -> None:
        """`shown`: when each temperature was read, as it is said."""
        super().__init__(*args, **kwargs)
        for place, words in enumerate(shown):
            self.fields[self._name(place)] = forms.DecimalField(
                label=f"Temperature, {words}, °C", min_value=-20, max_value=60
            )
        self.places = range(len(shown))
        self.fields |= gluing_fields()
        self.fields["why"] = forms.CharField(label="What was mistyped", max_length=120)

    @staticmethod
    def _name(place: int) -> str:
        return "temperature_c" if place == 0 else f"temperature_{place}"

    def asked(self) -> dict[str, Any]:
        """The arguments of `cure_correct`."""
        typed = self.cleaned_data
        return {
            "values": {name: typed[name] for name in gluing_fields()},
            "temperatures": {place: typed[self._name(place)] for place in self.places},
            "why": typed["why"],
        }


class ResinForm(forms.Form):
    """A resin by its sheet."""

    name = forms.CharField(label="Name on the tin", max_length=60)
    speed = forms.ChoiceField(label="Kind", choices=Resin.Speed.choices, widget=forms.RadioSelect)
    hours = forms.DecimalField(label="Hours at full speed", max_value=168, decimal_places=2)
    least_hours = forms.DecimalField(
        label="Least hours, by its sheet", max_value=168, decimal_places=2
    )
    full_speed_c = forms.DecimalField(
        label="Full speed from, °C", min_value=0, max_value=60, decimal_places=1
    )
    double_at_c = forms.DecimalField(
        label="Twice as long at, °C", min_value=0, max_value=60, decimal_places=1
    )
    least_c = forms.DecimalField(
        label="No cure below, °C", min_value=0, max_value=60, decimal_places=1
    )


class GaugeForm(forms.Form):
    """A gauge; one for lengths says from where it reads. The same `gauge_id` is the same gauge."""

    gauge_id = forms.UUIDField(widget=forms.HiddenInput)
    name = forms.CharField(label="Name", max_length=60)
    measure = forms.ChoiceField(label="It reads", choices=[("", "Choose"), *Measure.choices])
    length_method = forms.ChoiceField(
        label="A length: measured how",
        required=False,
        choices=[("", "Reads no length"), *LengthMethod.choices],
    )
    repeatability = forms.DecimalField(
        label="Two readings of one thing differ by at most",
        help_text="In degrees, mm, g or swing weight points, as it reads.",
        min_value=0,
        max_value=100,
        decimal_places=4,
    )
    checked_on = DayField(label="Checked on", required=False)
    location = forms.ModelChoiceField(label="Where", queryset=None, empty_label=None)

    def __init__(self, *args: Any, places: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["location"].queryset = places


class GaugeChangeForm(forms.Form):
    """What can be put right of a gauge. What it measures never changes."""

    name = forms.CharField(label="Name", max_length=60)
    length_method = forms.ChoiceField(
        label="A length: measured how",
        required=False,
        choices=[("", "Reads no length"), *LengthMethod.choices],
    )
    repeatability = forms.DecimalField(
        label="Two readings of one thing differ by at most",
        min_value=0,
        max_value=100,
        decimal_places=4,
    )


class GaugeCheckForm(forms.Form):
    """How a gauge was found. The same `check_id` is the same check."""

    check_id = forms.UUIDField(widget=forms.HiddenInput)
    found = forms.ChoiceField(
        label="Found", choices=[("good", "Good"), ("off", "Off")], widget=forms.RadioSelect
    )
    off_by = forms.DecimalField(
        label="Reads over by; with a minus, under",
        required=False,
        min_value=-100,
        max_value=100,
        decimal_places=4,
    )
    note = forms.CharField(label="Note", required=False, max_length=300)

    def __init__(self, *args: Any, unit: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["off_by"].help_text = f"In {unit}; only if it is off."


class StepForm(forms.Form):
    """What a step asks for beside its tick; most ask for nothing."""

    def __init__(self, step: str, *args: Any, length_unit: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.step, self.length_unit = step, length_unit
        match step:
            case Step.PICKED:
                self.fields["hand"] = forms.ChoiceField(
                    label="Say the head's hand aloud, then choose it",
                    choices=[("right", "R  right"), ("left", "L  left")],
                    widget=forms.RadioSelect,
                )
            case Step.BENT_BARE | Step.BENT_BUILT:
                # Sent by the button that bends it once more, after it was read.
                self.fields["again"] = forms.BooleanField(required=False, widget=forms.HiddenInput)
            case Step.HOSEL:
                self.fields["depth_mm"] = self._typed("Hosel depth")
            case Step.BUTT_CUT:
                self.fields["butt_mm"] = self._typed("Butt diameter after the cut")
            case Step.DRY_WEIGHT:
                self.fields["added_g"] = self._typed("Weight put in the hosel, grams")
            case Step.EPOXY:
                self.fields["temperature_c"] = forms.DecimalField(
                    label="Temperature at the bench, °C", min_value=-20, max_value=60
                )
                self.fields |= gluing_fields()

    @staticmethod
    def _typed(label: str) -> forms.CharField:
        return forms.CharField(label=label, required=False, max_length=40)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        for name, typed in list(cleaned.items()):
            if isinstance(typed, str) and name not in ("hand", "batch") and typed:
                try:
                    cleaned[name] = self._read(name, typed)
                except UnitRefused as refusal:
                    self.add_error(name, str(refusal))
        return cleaned

    def _read(self, name: str, typed: str) -> Decimal:
        match name:
            case "added_g":
                return parse_mass(typed, name="weight added", limits=(Decimal(0), Decimal(60)))
            case "depth_mm":
                limits = (Decimal(10), Decimal(60))
                return parse_length(typed, unit=self.length_unit, name="depth", limits=limits)
            case "butt_mm":
                return parse_length(
                    typed, unit=self.length_unit, name="butt diameter", limits=DIAMETER_MM
                )
        return parse_angle(typed, name=name, limits=LIE)


class RecallForm(forms.Form):
    """A gauge that was found off, or a head that its maker calls back."""

    gauge = forms.ModelChoiceField(
        label="Gauge found off", queryset=None, required=False, empty_label="None"
    )
    head = forms.ModelChoiceField(
        label="Head recalled", queryset=Head.objects.all(), required=False, empty_label="None"
    )

    def __init__(self, *args: Any, gauges: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["gauge"].queryset = gauges
        # A model has one loft in several bounces: with the bounce each head is named once.
        self.fields["head"].label_from_instance = lambda head: (
            f"{head}, bounce {head.bounce_deg.normalize():f}, {head.hand} hand"
        )
