"""Appointments: typed in the location's own time, and turned into a moment here."""

from __future__ import annotations

import datetime as dt
import uuid
from typing import Any
from zoneinfo import ZoneInfo

from django import forms

from fitshop.actor import Actor
from fitshop.forms import DayField
from fitshop.models import Location, Staff
from fitshop.selectors import bays_for, fitters_for, locations_for, settings_in_force
from sessions.models import Visit

MISSING = {
    "day": "Choose the day.",
    "time": "Choose the time.",
    "minutes": "How many minutes?",
}


class WhenForm(forms.Form):
    """Where, when, how long and with whom: the part that booking and moving share.

    A field stays away where there is nothing to choose: `location` for one location.
    `doubts` are the keys of what the desk was asked about: a button sends them back.
    """

    doubts: str = ""

    location = forms.ModelChoiceField(label="Location", queryset=None, empty_label=None)
    day = DayField(label="Day")
    time = forms.TimeField(
        label="Time", widget=forms.TimeInput({"type": "time", "step": 300}, format="%H:%M")
    )
    minutes = forms.IntegerField(
        label="Length", min_value=5, max_value=600,
        widget=forms.TextInput({"inputmode": "numeric"}),
    )  # fmt: skip
    bay = forms.ModelChoiceField(
        label="Bay", queryset=None, required=False, empty_label="Not decided yet"
    )
    fitter = forms.ModelChoiceField(
        label="Fitter", queryset=None, required=False, empty_label="Not decided yet"
    )

    def __init__(self, *args: Any, actor: Actor, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        locations = locations_for(actor)
        self.fields["location"].queryset = locations  # type: ignore[attr-defined]
        self.fields["bay"].queryset = bays_for(actor)  # type: ignore[attr-defined]
        self.fields["fitter"].queryset = fitters_for(actor)  # type: ignore[attr-defined]
        for name in ("day", "time", "minutes"):
            self.fields[name].error_messages["required"] = MISSING[name]
        self.only_location = locations[0] if len(locations) == 1 else None
        if self.only_location is not None:
            del self.fields["location"]
        else:
            self.fields["bay"].label_from_instance = (  # type: ignore[attr-defined]
                lambda bay: f"{bay.location.name}, {bay.name}"
            )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        cleaned.setdefault("location", self.only_location)
        if cleaned.get("location") and cleaned.get("day") and cleaned.get("time"):
            zone = cleaned["location"].zone_info
            moment = moment_at(cleaned["day"], cleaned["time"], zone)
            if moment is None:
                self.add_error("time", "The clocks are put forward then: this time does not exist.")
            cleaned["starts_at"] = moment
        return cleaned


class VisitForm(WhenForm):
    """A new appointment, or with `walk_in` a visit that begins now."""

    id = forms.UUIDField(widget=forms.HiddenInput)
    kind = forms.ChoiceField(label="For", choices=Visit.Kind.choices, widget=forms.RadioSelect)
    note = forms.CharField(
        label="Note for the fitter", required=False, max_length=500,
        widget=forms.Textarea({"rows": 2}),
    )  # fmt: skip

    guardian_agrees = forms.BooleanField(required=False)

    def __init__(
        self, *args: Any, actor: Actor, walk_in: bool, guardian: str | None = None, **kwargs: Any
    ) -> None:
        """`guardian` is who has to agree to a child's record before it opens; None asks nobody."""
        super().__init__(*args, actor=actor, **kwargs)
        self.walk_in = walk_in
        if walk_in and guardian is not None:
            self.fields["guardian_agrees"].label = guardian_label(guardian)
        else:
            del self.fields["guardian_agrees"]
        if walk_in:
            del self.fields["day"], self.fields["time"]

    @staticmethod
    def initial_for(
        *, day: dt.date, bay_id: str, fitter: Staff | None, time: dt.time | None = None
    ) -> dict[str, Any]:
        return {
            "id": uuid.uuid4(),
            "day": day,
            "time": time,
            "minutes": settings_in_force()["visit.minutes"],
            "bay": bay_id or None,
            "fitter": fitter,
            "kind": Visit.Kind.WEDGES,
        }


def guardian_label(guardian: str) -> str:
    """What stands beside the tick: who agrees."""
    return f"{guardian or 'The guardian'} agrees"


class MoveForm(WhenForm):
    """Another time, length, bay or fitter at the same location."""

    def __init__(self, *args: Any, actor: Actor, visit: Visit, **kwargs: Any) -> None:
        super().__init__(*args, actor=actor, **kwargs)
        self.fields.pop("location", None)
        self.only_location: Location = visit.location
        self.fields["bay"].queryset = bays_for(actor).filter(  # type: ignore[attr-defined]
            location=visit.location
        )
        self.fields["bay"].label_from_instance = str  # type: ignore[attr-defined]

    @staticmethod
    def initial_of(visit: Visit) -> dict[str, Any]:
        begins = visit.starts_at.astimezone(visit.location.zone_info)
        return {
            "day": begins.date(),
            "time": begins.time().replace(second=0, microsecond=0),
            "minutes": visit.minutes,
            "bay": visit.bay_id,
            "fitter": visit.fitter_id,
        }


def moment_at(day: dt.date, time: dt.time, zone: ZoneInfo) -> dt.datetime | None:
    """The moment of a local day and time; None in the hour that is skipped in spring.

    In the hour that comes twice in autumn the first is meant.
    """
    local = dt.datetime.combine(day, time, tzinfo=zone)
    moment = local.astimezone(dt.UTC)
    there_and_back = moment.astimezone(zone)
    return moment if there_and_back.replace(tzinfo=None) == local.replace(tzinfo=None) else None
