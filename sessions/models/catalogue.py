"""What can be built: heads, shafts and grips as their makers describe them."""

from django.db import models

from fitshop.models import Identified
from sessions.models.measures import (
    AngleField,
    LengthField,
    MassField,
    one_of,
    unmeasured,
    within,
)
from sessions.models.words import Availability, Camber, Hand, Relief, TipKind


class Head(Identified):
    """One head of one loft for one hand. The sole is described in words and millimetres."""

    maker = models.CharField(max_length=60)
    model = models.CharField(max_length=60)
    hand = models.CharField(max_length=5, choices=Hand.choices)
    stamped_loft_deg = AngleField()
    bounce_deg = AngleField()
    lie_deg = AngleField()
    mass_g = MassField()
    # A key of sessions.maths.bending.MAKING_LIMITS: it says how far such a head bends at all.
    making = models.CharField(max_length=40)
    finish = models.CharField(max_length=40, blank=True, default="")
    # The maker's own limits, each way, in degrees; NULL: the maker does not say.
    limit_weak_deg = unmeasured(AngleField)
    limit_strong_deg = unmeasured(AngleField)
    limit_upright_deg = unmeasured(AngleField)
    limit_flat_deg = unmeasured(AngleField)
    sole_width_mm = LengthField()
    camber = models.CharField(max_length=8, choices=Camber.choices)
    relief_heel = models.PositiveSmallIntegerField(choices=Relief.choices, default=Relief.NONE)
    relief_toe = models.PositiveSmallIntegerField(choices=Relief.choices, default=Relief.NONE)
    relief_leading = models.PositiveSmallIntegerField(choices=Relief.choices, default=Relief.NONE)
    relief_trailing = models.PositiveSmallIntegerField(choices=Relief.choices, default=Relief.NONE)
    leading_softened = models.BooleanField(default=False)
    bore_mm = LengthField()
    # From the bottom of the bore to the ground along the shaft; NULL: not gauged yet.
    bore_to_ground_mm = unmeasured(LengthField)
    # Square to the shaft, from its back to where the sole touches the bench; NULL: not gauged yet.
    sole_point_mm = unmeasured(LengthField)
    offset_mm = unmeasured(LengthField)
    # To the groove rule of 2010, as its maker or the governing bodies' list says; NULL: not known.
    grooves_conform = models.BooleanField(null=True, blank=True)
    is_matched_set = models.BooleanField(default=False, help_text="the set's own wedge")
    availability = models.CharField(
        max_length=12, choices=Availability.choices, default=Availability.AVAILABLE
    )

    class Meta:
        ordering = ["maker", "model", "stamped_loft_deg", "bounce_deg", "hand"]
        constraints = [
            models.UniqueConstraint(
                fields=["maker", "model", "hand", "stamped_loft_deg", "bounce_deg"],
                name="head_once",
            ),
            one_of("hand", Hand.values, "head_hand_is_known"),
            within("stamped_loft_deg", 15, 75, "head_loft_believable"),
            within("bounce_deg", -5, 25, "head_bounce_believable"),
            within("lie_deg", 40, 80, "head_lie_believable"),
            within("mass_g", 150, 450, "head_mass_believable"),
            within("sole_point_mm", 5, 70, "head_sole_point_believable"),
        ]

    def __str__(self) -> str:
        return f"{self.maker} {self.model} {self.stamped_loft_deg.normalize():f}"


class Shaft(Identified):
    class Material(models.TextChoices):
        STEEL = "steel", "steel"
        GRAPHITE = "graphite", "graphite"

    maker = models.CharField(max_length=60)
    model = models.CharField(max_length=60)
    material = models.CharField(max_length=10, choices=Material.choices)
    flex = models.CharField(max_length=20, help_text="as a word: soft, medium, firm")
    tip_kind = models.CharField(max_length=10, choices=TipKind.choices)
    tip_mm = LengthField()
    butt_mm = LengthField()
    raw_length_mm = LengthField()
    mass_g = MassField(help_text="uncut")
    balance_mm = unmeasured(LengthField, help_text="from the butt, uncut")
    availability = models.CharField(
        max_length=12, choices=Availability.choices, default=Availability.AVAILABLE
    )

    class Meta:
        ordering = ["maker", "model", "mass_g"]
        constraints = [
            models.UniqueConstraint(
                fields=["maker", "model", "flex", "tip_kind", "raw_length_mm"], name="shaft_once"
            ),
            within("mass_g", 20, 200, "shaft_mass_believable"),
            within("raw_length_mm", 600, 1250, "shaft_raw_length_believable"),
        ]

    def __str__(self) -> str:
        return f"{self.maker} {self.model}"


class Grip(Identified):
    maker = models.CharField(max_length=60)
    model = models.CharField(max_length=60)
    size = models.CharField(max_length=20, help_text="as a word")
    core_mm = LengthField()
    # As made, on a butt of its core's size, 2 in and 6 in under the cap; NULL: not known.
    outside_mm = unmeasured(LengthField)
    lower_outside_mm = unmeasured(LengthField)
    is_ribbed = models.BooleanField(default=False)
    mass_g = MassField()
    length_mm = LengthField()
    cap_mm = LengthField()
    availability = models.CharField(
        max_length=12, choices=Availability.choices, default=Availability.AVAILABLE
    )

    class Meta:
        ordering = ["maker", "model", "size"]
        constraints = [
            models.UniqueConstraint(
                fields=["maker", "model", "size", "core_mm", "is_ribbed"], name="grip_once"
            ),
            within("mass_g", 10, 150, "grip_mass_believable"),
            within("outside_mm", 15, 45, "grip_outside_believable"),
            within("lower_outside_mm", 15, 45, "grip_lower_outside_believable"),
        ]

    def __str__(self) -> str:
        return f"{self.maker} {self.model}, {self.size}"
