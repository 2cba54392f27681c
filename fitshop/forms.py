"""Types and ranges at the shop's own doors."""

import zoneinfo
from datetime import date
from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.crypto import constant_time_compare

from fitshop.actor import Role
from fitshop.models import Location, MessageStatus, Shop, Staff
from fitshop.models.audit import deed_words
from fitshop.selectors import first_start_code

MISSING = {
    "code": "Type the code that the shop's machine printed.",
    "shop_name": "Type the name of the shop.",
    "location_name": "Type the name of the location, as people there say it.",
    "zone": "Type a zone such as Europe/Dublin.",
    "display_name": "Type the name, as colleagues say it.",
    "username": "Type a name to sign in with: letters, digits, - and _.",
    "password": "Type a password of at least ten characters.",
    "own_password": "Type your own password, to show that it is you.",
    "name": "Type a name, as in Bay 2.",
    "location": "Choose where it stands.",
    "roles": "Tick one role at least.",
    "locations": "Tick one location at least.",
}


class DayField(forms.DateField):
    """A calendar day, far from the ends of the calendar: every time zone has its hours.

    Refuses the code `day.out_of_range`.
    """

    FIRST, LAST = date(1900, 1, 1), date(2199, 12, 31)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**({"widget": forms.DateInput({"type": "date"})} | kwargs))

    def validate(self, value: Any) -> None:
        super().validate(value)
        if value is not None and not self.FIRST <= value <= self.LAST:
            raise forms.ValidationError(
                f"Type a year from {self.FIRST.year} to {self.LAST.year}.", code="day.out_of_range"
            )


class SpokenForm(forms.Form):
    """Says in the shop's own words what is missing."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name, sentence in MISSING.items():
            if name in self.fields:
                self.fields[name].error_messages["required"] = sentence


class FirstStartForm(SpokenForm):
    """What a real shop says of itself before anything else."""

    code = forms.CharField(
        label="Code",
        max_length=20,
        help_text="The shop's machine printed it when it started.",
        widget=forms.TextInput({"autocomplete": "off"}),
    )
    shop_name = forms.CharField(label="Name of the shop", max_length=120)
    location_name = forms.CharField(label="Name of the first location", max_length=120)
    zone = forms.CharField(
        label="Time zone of that location",
        max_length=64,
        help_text="As in Europe/Dublin or America/Denver.",
    )
    length_unit = forms.ChoiceField(label="Club lengths in", choices=Shop.LengthUnit.choices)
    carry_unit = forms.ChoiceField(label="Carries in", choices=Shop.CarryUnit.choices)
    paper = forms.ChoiceField(label="Paper", choices=Shop.Paper.choices)
    display_name = forms.CharField(label="Your name", max_length=120)
    username = forms.SlugField(label="Sign-in name", max_length=60)
    password = forms.CharField(
        label="Password", widget=forms.PasswordInput(render_value=False), max_length=128
    )

    def clean_code(self) -> str:
        typed, wanted = self.cleaned_data["code"].strip().lower(), first_start_code()
        if wanted is None or not constant_time_compare(typed, wanted):
            raise forms.ValidationError("This is not the code that the shop's machine printed.")
        return typed

    def clean_zone(self) -> str:
        zone = self.cleaned_data["zone"].strip()
        if zone not in zoneinfo.available_timezones():
            raise forms.ValidationError("Type a zone such as Europe/Dublin.")
        return zone


class ColleagueForm(SpokenForm):
    """What a manager may change of somebody who works here."""

    display_name = forms.CharField(label="Name", max_length=120)
    email = forms.EmailField(label="E-mail", required=False)
    roles = forms.MultipleChoiceField(
        label="Roles",
        choices=[(role.value, role.value) for role in Role],
        widget=forms.CheckboxSelectMultiple,
    )
    locations = forms.ModelMultipleChoiceField(
        label="Works at", queryset=Location.objects.all(), widget=forms.CheckboxSelectMultiple
    )

    def clean_roles(self) -> list[Role]:
        return [Role(role) for role in self.cleaned_data["roles"]]


class StaffForm(ColleagueForm):
    """Somebody new, with a password that holds for one sign-in."""

    username = forms.SlugField(label="Sign-in name", max_length=60)
    password = forms.CharField(
        label="First password", widget=forms.PasswordInput(render_value=False), max_length=128
    )


class OwnPasswordForm(SpokenForm):
    """Is it still you? Asked with each change to somebody's sign-in."""

    own_password = forms.CharField(
        label="Your own password",
        widget=forms.PasswordInput(render_value=False, attrs={"autocomplete": "current-password"}),
        max_length=128,
    )


class TabletForm(SpokenForm):
    """The device in the hand, by the name that people here give it."""

    name = forms.CharField(label="Name of this device", max_length=60)
    location = forms.ModelChoiceField(label="Stands at", queryset=Location.objects.none())

    def __init__(self, *args: Any, locations: QuerySet[Location], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["location"].queryset = locations
        self.fields["location"].initial = locations.first()


class PinForm(SpokenForm):
    pin = forms.CharField(
        label="New PIN",
        required=False,
        max_length=8,
        widget=forms.PasswordInput(
            render_value=False, attrs={"inputmode": "numeric", "autocomplete": "off"}
        ),
        help_text="4 to 8 digits. Leave it empty to have none.",
    )


class RecordForm(forms.Form):
    """What of the record is wanted; all of it can be left open."""

    person = forms.ModelChoiceField(
        label="Who", queryset=Staff.objects.none(), required=False, empty_label="anybody"
    )
    action = forms.ChoiceField(label="What", required=False)
    day = forms.DateField(label="Day", required=False, widget=forms.DateInput({"type": "date"}))
    about = forms.UUIDField(required=False, widget=forms.HiddenInput)
    before = forms.IntegerField(required=False, widget=forms.HiddenInput, min_value=1)

    def __init__(
        self, *args: Any, people: QuerySet[Staff], actions: list[str], **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.fields["person"].queryset = people
        words = [(action, deed_words(action)) for action in actions]
        self.fields["action"].choices = [("", "anything"), *words]

    def clean_day(self) -> date | None:
        day = self.cleaned_data["day"]
        if day is not None and not 2000 <= day.year <= 2100:
            raise forms.ValidationError("Choose a day between 2000 and 2100.")
        return day


class MessagesForm(forms.Form):
    """Which letters are wanted: by their state, by whom they go to."""

    state = forms.ChoiceField(
        label="State", required=False, choices=[("", "any"), *MessageStatus.choices]
    )
    q = forms.CharField(label="To", required=False, max_length=120)
    after = forms.UUIDField(required=False, widget=forms.HiddenInput)
