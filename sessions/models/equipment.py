"""Trial equipment: the things themselves, with their own measured figures and their checks."""

from django.db import models

from fitshop.models import Identified, Location
from sessions.models.catalogue import Grip, Head, Shaft
from sessions.models.measures import (
    AngleField,
    LengthField,
    MassField,
    unmeasured,
)


class Equipment(Identified):
    """A thing with a mark of its own, that is checked, counted and can be withdrawn."""

    mark = models.CharField(max_length=20, unique=True, help_text="the shop's mark on it")
    location = models.ForeignKey(Location, on_delete=models.PROTECT, related_name="+")
    checked_on = models.DateField(null=True, blank=True)
    shot_count = models.PositiveIntegerField(default=0)
    withdrawn_at = models.DateTimeField(null=True, blank=True)
    withdrawn_why = models.CharField(max_length=200, blank=True, default="")
    withdrawn_by = models.CharField(max_length=200, blank=True, default="")

    class Meta:
        abstract = True
        ordering = ["mark"]

    def __str__(self) -> str:
        return self.mark


class TrialHead(Equipment):
    head = models.ForeignKey(Head, on_delete=models.PROTECT, related_name="trial_heads")
    measured_loft_deg = unmeasured(AngleField)
    measured_lie_deg = unmeasured(AngleField)
    measured_bounce_deg = unmeasured(AngleField)
    measured_mass_g = unmeasured(MassField)


class TrialShaft(Equipment):
    """A shaft with its grip, ready for an adapter."""

    shaft = models.ForeignKey(Shaft, on_delete=models.PROTECT, related_name="trial_shafts")
    grip = models.ForeignKey(Grip, on_delete=models.PROTECT, related_name="+")
    playing_length_mm = LengthField()
    measured_mass_g = unmeasured(MassField)


class Adapter(Equipment):
    mass_g = MassField()
    inspect_by = models.DateField(null=True, blank=True)


class MeasuringDevice(Identified):
    """What measures the flight, and the shop's own words for how it does so."""

    name = models.CharField(max_length=80, unique=True)
    location = models.ForeignKey(Location, on_delete=models.PROTECT, related_name="+")
    measures_spin = models.BooleanField(default=False)
    tracks_flight = models.BooleanField(default=False)
    note = models.CharField(max_length=200, blank=True, default="")
    in_use = models.BooleanField(default=True)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name
