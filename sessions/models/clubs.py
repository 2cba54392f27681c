"""A player's own clubs. A club lives longer than any visit; a bag entry is it at one visit."""

from django.db import models

from fitshop.models import Identified, Kept
from sessions.models.catalogue import Head
from sessions.models.measures import (
    AngleField,
    LengthField,
    MassField,
    SwingWeightField,
    one_of,
    unmeasured,
    within,
)
from sessions.models.people import Player
from sessions.models.visits import Visit
from sessions.models.words import Grooves, Hand


class Club(Kept):
    class Kind(models.TextChoices):
        IRON = "iron", "iron"
        PITCHING_WEDGE = "pitching_wedge", "pitching wedge"
        WEDGE = "wedge", "wedge"

    player = models.ForeignKey(Player, on_delete=models.PROTECT, related_name="clubs")
    kind = models.CharField(max_length=16, choices=Kind.choices)
    label = models.CharField(max_length=40, help_text="what the player calls it")
    maker = models.CharField(max_length=60, blank=True, default="")
    model = models.CharField(max_length=60, blank=True, default="")
    hand = models.CharField(max_length=5, choices=Hand.choices)
    stamped_loft_deg = unmeasured(AngleField)
    stamped_bounce_deg = unmeasured(AngleField)
    making = models.CharField(max_length=40, blank=True, default="unknown")
    shaft = models.CharField(max_length=120, blank=True, default="")
    head = models.ForeignKey(
        Head, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    # The build order it came from, if it is one of ours. The workshop's rows are above this room.
    source_order_id = models.UUIDField(null=True, blank=True)
    source_slot = models.PositiveSmallIntegerField(null=True, blank=True)
    in_use_since = models.DateField(null=True, blank=True)
    left_bag_at = models.DateTimeField(null=True, blank=True)
    # Every bend it has had since it was made, oldest first: [loft, lie] in degrees, as text.
    bends = models.JSONField(default=list, blank=True)

    class Meta:
        ordering = ["stamped_loft_deg", "label"]
        constraints = [
            one_of("kind", ["iron", "pitching_wedge", "wedge"], "club_kind_is_known"),
            one_of("hand", Hand.values, "club_hand_is_known"),
            within("stamped_loft_deg", 15, 75, "club_loft_believable"),
            models.UniqueConstraint(
                fields=["source_order_id", "source_slot"], name="club_built_once"
            ),
        ]

    def __str__(self) -> str:
        return self.label


class BagEntry(Identified):
    """One own club as it was read and as it played at one visit; the last entry counts."""

    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="bag_entries")
    sequence = models.PositiveIntegerField()
    club = models.ForeignKey(Club, on_delete=models.PROTECT, related_name="entries")
    loft_deg = unmeasured(AngleField)
    lie_deg = unmeasured(AngleField)
    bounce_deg = unmeasured(AngleField)
    length_mm = unmeasured(LengthField)
    mass_g = unmeasured(MassField)
    swing_weight_points = unmeasured(SwingWeightField)
    stock_carry_m = unmeasured()
    flat_out_carry_m = unmeasured()
    grooves = models.CharField(max_length=8, choices=Grooves.choices, default=Grooves.UNKNOWN)
    # A crack at the hosel, looked for when it was measured; NULL: nobody looked.
    has_crack = models.BooleanField(null=True, blank=True)
    is_kept = models.BooleanField(null=True, blank=True)
    is_loved = models.BooleanField(null=True, blank=True)
    shots = models.CharField(max_length=120, blank=True, default="")
    note = models.CharField(max_length=300, blank=True, default="")
    recorded_at = models.DateTimeField()
    recorded_by = models.CharField(max_length=200)
    as_typed = models.JSONField(default=dict, blank=True)

    class Meta:
        ordering = ["sequence"]
        verbose_name_plural = "bag entries"
        constraints = [
            models.UniqueConstraint(fields=["visit", "sequence"], name="bag_entry_sequence_once"),
            within("loft_deg", 15, 75, "bag_loft_believable"),
            within("lie_deg", 40, 80, "bag_lie_believable"),
            within("stock_carry_m", 4, 320, "bag_stock_carry_believable"),
            within("flat_out_carry_m", 4, 320, "bag_flat_out_carry_believable"),
        ]

    def __str__(self) -> str:
        return f"{self.club} at {self.visit_id}"


class OtherClubs(Identified):
    """The rest of the bag as a count by kind: fourteen is the limit (Rule 4.1b)."""

    class Kind(models.TextChoices):
        DRIVER = "driver", "driver"
        FAIRWAY = "fairway", "fairway woods"
        HYBRID = "hybrid", "hybrids"
        LONG_IRON = "long_iron", "irons above the 9"
        PUTTER = "putter", "putter"
        OTHER = "other", "other"

    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="other_clubs")
    kind = models.CharField(max_length=10, choices=Kind.choices)
    count = models.PositiveSmallIntegerField()
    unused = models.PositiveSmallIntegerField(default=0, help_text="carried but hardly ever hit")

    class Meta:
        verbose_name_plural = "other clubs"
        constraints = [
            models.UniqueConstraint(fields=["visit", "kind"], name="other_clubs_kind_once"),
            models.CheckConstraint(
                condition=models.Q(count__lte=14) & models.Q(unused__lte=models.F("count")),
                name="other_clubs_believable",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.count} {self.get_kind_display()}"
