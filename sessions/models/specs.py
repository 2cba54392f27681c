"""The final spec: every club in full and in absolute figures, its findings, its signature."""

from django.db import models

from fitshop.models import Identified
from sessions.flow import SpecState
from sessions.models.catalogue import Grip, Head, Shaft
from sessions.models.clubs import Club
from sessions.models.measures import (
    AngleField,
    LengthField,
    MassField,
    SwingWeightField,
    one_of,
    unmeasured,
    within,
)
from sessions.models.trials import Trial
from sessions.models.visits import Visit
from sessions.models.words import ClubSource, Hand, LengthMethod, SlotRole

# What can't be undone at the bench: read aloud, and confirmed by the player before the signature.
READ_BACK = ("hand", "length", "stamping")


class FinalSpec(Identified):
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="specs")
    version = models.PositiveSmallIntegerField()
    state = models.CharField(max_length=12, choices=SpecState.choices(), default=SpecState.DRAFT)
    # Rises with every change, so that two people can't sign over one another.
    edition = models.PositiveIntegerField(default=1)
    other_clubs_count = models.PositiveSmallIntegerField(null=True, blank=True)
    leaving_words = models.CharField(max_length=120, blank=True, default="")
    rule_set = models.CharField(max_length=40, blank=True, default="")
    settings_version = models.PositiveIntegerField(default=0)
    drafted_at = models.DateTimeField()
    drafted_by = models.CharField(max_length=200)
    checked_at = models.DateTimeField(null=True, blank=True)
    signed_at = models.DateTimeField(null=True, blank=True)
    signed_by = models.CharField(max_length=200, blank=True, default="")
    # What the player heard and confirmed before it was signed: some of READ_BACK.
    read_back = models.JSONField(default=list, blank=True)
    read_back_at = models.DateTimeField(null=True, blank=True)
    read_back_by = models.CharField(max_length=200, blank=True, default="")
    # What the player's sheet said when it was signed, as text: printed again, it says the same.
    sheet = models.JSONField(null=True, blank=True)

    class Meta:
        ordering = ["-version"]
        constraints = [
            models.UniqueConstraint(fields=["visit", "version"], name="spec_version_once"),
            models.UniqueConstraint(
                fields=["visit"], condition=models.Q(state="signed"), name="spec_one_signed"
            ),
            one_of("state", [s.value for s in SpecState], "spec_state_is_known"),
            models.CheckConstraint(
                condition=~models.Q(state="signed")
                | (models.Q(signed_at__isnull=False) & ~models.Q(signed_by="")),
                name="spec_signed_by_someone",
            ),
        ]

    def __str__(self) -> str:
        return f"spec {self.version} of {self.visit}"


class SpecClub(Identified):
    """One club of the spec. Stamped, as received and target are facts beside each other;
    planned bend and bend to make are worked out, never stored."""

    spec = models.ForeignKey(FinalSpec, on_delete=models.PROTECT, related_name="clubs")
    slot = models.PositiveSmallIntegerField()
    name = models.CharField(max_length=40, blank=True, default="")
    role = models.CharField(max_length=10, choices=SlotRole.choices)
    source = models.CharField(max_length=12, choices=ClubSource.choices)
    hand = models.CharField(max_length=5, choices=Hand.choices)
    trial = models.ForeignKey(
        Trial, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    club = models.ForeignKey(
        Club, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    head = models.ForeignKey(
        Head, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    stamped_loft_deg = unmeasured(AngleField)
    stamped_bounce_deg = unmeasured(AngleField)
    stock_lie_deg = unmeasured(AngleField)
    as_received_loft_deg = unmeasured(AngleField)
    as_received_lie_deg = unmeasured(AngleField)
    as_received_bounce_deg = unmeasured(AngleField)
    target_loft_deg = unmeasured(AngleField)
    target_lie_deg = unmeasured(AngleField)
    target_length_mm = unmeasured(LengthField)
    length_method = models.CharField(
        max_length=6, choices=LengthMethod.choices, default=LengthMethod.RULES
    )
    target_swing_weight_points = unmeasured(SwingWeightField)
    target_mass_g = unmeasured(MassField)
    shaft = models.ForeignKey(
        Shaft, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    shaft_is_pulled = models.BooleanField(default=False, help_text="out of an older club")
    tip_trim_mm = LengthField(default=0)
    grip = models.ForeignKey(
        Grip, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    grip_extra_wraps = models.PositiveSmallIntegerField(default=0)
    grip_lower_extra_wraps = models.PositiveSmallIntegerField(default=0)
    grip_logo = models.CharField(max_length=10, default="up")
    ferrule = models.CharField(max_length=60, blank=True, default="")
    stamping = models.CharField(max_length=40, blank=True, default="", help_text="exact, or none")
    notes = models.CharField(max_length=300, blank=True, default="")
    predicted_carry_m = unmeasured()
    predicted_sd_m = unmeasured()
    as_typed = models.JSONField(default=dict, blank=True)

    class Meta:
        ordering = ["slot"]
        constraints = [
            models.UniqueConstraint(fields=["spec", "slot"], name="spec_slot_once"),
            one_of("source", ClubSource.values, "spec_club_source_is_known"),
            one_of("hand", Hand.values, "spec_club_hand_is_known"),
            within("target_loft_deg", 15, 75, "spec_club_loft_believable"),
            within("target_lie_deg", 40, 80, "spec_club_lie_believable"),
            within("target_length_mm", 400, 1250, "spec_club_length_believable"),
        ]

    def __str__(self) -> str:
        return f"slot {self.slot}"


class SpecFinding(Identified):
    """What a rule said of this spec, under which rule set, with the numbers it judged."""

    spec = models.ForeignKey(FinalSpec, on_delete=models.CASCADE, related_name="findings")
    rule = models.CharField(max_length=20)
    severity = models.CharField(max_length=20)
    fields = models.JSONField(default=list)
    sentence = models.TextField()
    hint = models.TextField(blank=True, default="")
    source = models.CharField(max_length=60, blank=True, default="")
    numbers = models.JSONField(default=list)
    # (place, key) of the clubs that it is about; empty in rows from before this was kept.
    things = models.JSONField(default=list)
    found_at = models.DateTimeField()

    class Meta:
        ordering = ["rule"]

    def __str__(self) -> str:
        return f"{self.rule}: {self.sentence}"


class Acceptance(Identified):
    """Someone looked and accepted, and why. It lasts until a number or a club of it changes."""

    spec = models.ForeignKey(FinalSpec, on_delete=models.PROTECT, related_name="acceptances")
    rule = models.CharField(max_length=20)
    fields = models.JSONField(default=list)
    numbers = models.JSONField(default=list)
    things = models.JSONField(default=list)
    sentence = models.TextField()
    reason = models.CharField(max_length=300)
    accepted_at = models.DateTimeField()
    accepted_by = models.CharField(max_length=200)

    class Meta:
        ordering = ["accepted_at"]

    def __str__(self) -> str:
        return f"{self.rule} accepted by {self.accepted_by}"
