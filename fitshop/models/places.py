"""The shop, its locations and their bays."""

import zoneinfo

from django.db import models

from fitshop.models.base import Identified


class Shop(Identified):
    """The business: one row. It exists from the set-up page on."""

    class LengthUnit(models.TextChoices):
        INCHES = "in", "inches, in sixteenths"
        MILLIMETRES = "mm", "millimetres"

    class CarryUnit(models.TextChoices):
        YARDS = "yd", "yards"
        METRES = "m", "metres"

    class Paper(models.TextChoices):
        A4 = "A4", "A4"
        LETTER = "letter", "Letter"

    the_one = models.BooleanField(default=True, editable=False)
    name = models.CharField(max_length=120)
    length_unit = models.CharField(
        max_length=2, choices=LengthUnit.choices, default=LengthUnit.INCHES
    )
    carry_unit = models.CharField(max_length=2, choices=CarryUnit.choices, default=CarryUnit.YARDS)
    paper = models.CharField(max_length=6, choices=Paper.choices, default=Paper.A4)
    currency = models.CharField(max_length=3, default="EUR")
    email = models.EmailField(blank=True, default="")
    phone = models.CharField(max_length=40, blank=True, default="")

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["the_one"], name="shop_only_one"),
            models.CheckConstraint(condition=models.Q(the_one=True), name="shop_the_one_is_true"),
        ]

    def __str__(self) -> str:
        return self.name


class Location(Identified):
    """A place where fittings happen, with its own time zone."""

    name = models.CharField(max_length=120, unique=True)
    zone = models.CharField(max_length=64, help_text="An IANA time zone, for example Europe/Dublin")
    address = models.TextField(blank=True, default="")
    altitude_m = models.FloatField(null=True, blank=True)
    is_open = models.BooleanField(default=True)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name

    @property
    def zone_info(self) -> zoneinfo.ZoneInfo:
        """Its own clock: what is typed and shown here is in this zone."""
        return zoneinfo.ZoneInfo(self.zone)


class Bay(Identified):
    """Where one player hits: a bay, a strip of the range, a bunker."""

    location = models.ForeignKey(Location, on_delete=models.PROTECT, related_name="bays")
    name = models.CharField(max_length=60)
    is_indoors = models.BooleanField(default=False)

    class Meta:
        ordering = ["location__name", "name"]
        constraints = [
            models.UniqueConstraint(fields=["location", "name"], name="bay_name_once_a_location")
        ]

    def __str__(self) -> str:
        return self.name
