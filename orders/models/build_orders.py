"""A build order: one ticket number for its whole life, one revision for each signed spec.

Everything the bench needs is copied from the signed spec when a revision is made: what was
promised does not move when a catalogue does.
"""

from datetime import datetime

from django.db import models

from fitshop.models import Identified, Kept, Location
from orders.flow import ClubState, OrderState
from sessions.models import FinalSpec, SpecClub, Visit
from sessions.models.measures import (
    AngleField,
    LengthField,
    MassField,
    SwingWeightField,
    one_of,
    unmeasured,
    within,
)
from sessions.models.words import ClubSource, Hand, LengthMethod, SlotRole, TipKind


class BuildOrder(Kept):
    class TellBy(models.TextChoices):
        """How the player wants to hear that the clubs are ready."""

        USUAL = "", "Letter if agreed, otherwise telephone"
        TELEPHONE = "telephone", "Telephone, no letter"
        TEXT = "text", "Text message, no letter"

    number = models.PositiveIntegerField(unique=True)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="build_orders")
    location = models.ForeignKey(Location, on_delete=models.PROTECT, related_name="+")
    state = models.CharField(max_length=20, choices=OrderState.choices(), default=OrderState.DRAFT)
    due_on = models.DateField()
    # The day first promised, once it moved; since when somebody is to call about it; the call.
    promised_on = models.DateField(null=True, blank=True)
    call_since = models.DateTimeField(null=True, blank=True)
    called_at = models.DateTimeField(null=True, blank=True)
    bench = models.CharField(max_length=40, blank=True, default="")
    note = models.CharField(max_length=300, blank=True, default="")
    tell_by = models.CharField(max_length=12, choices=TellBy.choices, blank=True, default="")
    price = unmeasured(models.DecimalField, max_digits=9, decimal_places=2)
    deposit = unmeasured(models.DecimalField, max_digits=9, decimal_places=2)
    released_at = models.DateTimeField(null=True, blank=True)
    ready_at = models.DateTimeField(null=True, blank=True)
    handed_over_at = models.DateTimeField(null=True, blank=True)
    handed_over_how = models.CharField(max_length=20, blank=True, default="")
    cancelled_why = models.CharField(max_length=300, blank=True, default="")

    class Meta:
        ordering = ["due_on", "number"]
        constraints = [
            one_of("state", [s.value for s in OrderState], "order_state_is_known"),
            one_of("tell_by", ["", "telephone", "text"], "order_tell_by_is_known"),
            models.UniqueConstraint(
                fields=["visit"],
                condition=~models.Q(state="cancelled"),
                name="order_one_in_force_a_visit",
            ),
            models.CheckConstraint(
                condition=~models.Q(state="handed_over") | models.Q(handed_over_at__isnull=False),
                name="order_handed_over_has_its_time",
            ),
        ]

    def __str__(self) -> str:
        return f"build order {self.number}"

    @property
    def wants_call(self) -> bool:
        """Whether the promised day moved and nobody has told the player yet."""
        since, called = self.call_since, self.called_at
        return since is not None and (called is None or called < since)

    def is_late_on(self, at: datetime) -> bool:
        """Whether the promised day is over, on the location's own clock."""
        return bool(at.astimezone(self.location.zone_info).date() > self.due_on)


class PartsWait(Identified):
    """One wait of an order for a part: what is missing, when it is expected, when it came."""

    order = models.ForeignKey(BuildOrder, on_delete=models.PROTECT, related_name="waits")
    missing = models.CharField(max_length=200)
    expected_on = models.DateField(null=True, blank=True)
    began_at = models.DateTimeField()
    began_by = models.CharField(max_length=200)
    arrived_at = models.DateTimeField(null=True, blank=True)
    arrived_by = models.CharField(max_length=200, blank=True, default="")

    class Meta:
        ordering = ["-began_at"]
        constraints = [
            models.UniqueConstraint(
                fields=["order"],
                condition=models.Q(arrived_at__isnull=True),
                name="parts_wait_one_open_an_order",
            ),
            models.CheckConstraint(
                condition=~models.Q(missing=""), name="parts_wait_says_what_is_missing"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.order} waits for {self.missing}"


class RoundsReport(Identified):
    """What the player said was played with an order's clubs up to a day, since the hand-over.

    Added to, never edited: who was told wrong is told again, and the last word for a day counts.
    """

    order = models.ForeignKey(BuildOrder, on_delete=models.PROTECT, related_name="rounds_reports")
    played_until = models.DateField()
    rounds = models.PositiveSmallIntegerField()
    reported_at = models.DateTimeField()
    reported_by = models.CharField(max_length=200)

    class Meta:
        ordering = ["-played_until", "-reported_at"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(rounds__lte=2000), name="rounds_report_believable"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.rounds} rounds with {self.order} by {self.played_until}"


class OrderRevision(Identified):
    """One letter of a ticket. Only the current one is built."""

    order = models.ForeignKey(BuildOrder, on_delete=models.PROTECT, related_name="revisions")
    letter = models.CharField(max_length=2)
    spec = models.ForeignKey(FinalSpec, on_delete=models.PROTECT, related_name="+")
    is_current = models.BooleanField(default=True)
    why = models.CharField(max_length=300, blank=True, default="")
    # What differs from the letter before, and what was accepted, as sentences for the ticket.
    changes = models.JSONField(default=list, blank=True)
    accepted = models.JSONField(default=list, blank=True)
    player_name = models.CharField(max_length=170)
    hand = models.CharField(max_length=5, choices=Hand.choices)
    rule_set = models.CharField(max_length=40)
    settings_version = models.PositiveIntegerField(default=0)
    made_at = models.DateTimeField()
    made_by = models.CharField(max_length=200)

    class Meta:
        ordering = ["letter"]
        constraints = [
            models.UniqueConstraint(fields=["order", "letter"], name="revision_letter_once"),
            models.UniqueConstraint(
                fields=["order"],
                condition=models.Q(is_current=True),
                name="revision_one_current",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.order.number} {self.letter}"


class OrderClub(Identified):
    """One club to build. Stamped, as received, target, as built: four facts, four columns."""

    revision = models.ForeignKey(OrderRevision, on_delete=models.PROTECT, related_name="clubs")
    spec_club = models.ForeignKey(SpecClub, on_delete=models.PROTECT, related_name="+")
    slot = models.PositiveSmallIntegerField()
    name = models.CharField(max_length=40)
    role = models.CharField(max_length=10, choices=SlotRole.choices)
    source = models.CharField(max_length=12, choices=ClubSource.choices)
    hand = models.CharField(max_length=5, choices=Hand.choices)
    state = models.CharField(max_length=12, choices=ClubState.choices(), default=ClubState.TO_PICK)

    head_name = models.CharField(max_length=140)
    sole_words = models.CharField(max_length=200, blank=True, default="")
    making = models.CharField(max_length=40, blank=True, default="unknown")
    limit_weak_deg = AngleField(default=0)
    limit_strong_deg = AngleField(default=0)
    limit_upright_deg = AngleField(default=0)
    limit_flat_deg = AngleField(default=0)
    # Every bend the head has had before, oldest first: [loft, lie] in degrees, as text.
    earlier_bends = models.JSONField(default=list, blank=True)
    head_mass_g = unmeasured(MassField)
    bore_mm = unmeasured(LengthField)
    bore_to_ground_mm = unmeasured(LengthField)
    sole_point_mm = unmeasured(LengthField)

    stamped_loft_deg = unmeasured(AngleField)
    stamped_bounce_deg = unmeasured(AngleField)
    stock_lie_deg = unmeasured(AngleField)

    as_received_loft_deg = unmeasured(AngleField)
    as_received_lie_deg = unmeasured(AngleField)
    as_received_mass_g = unmeasured(MassField)
    as_received_sole_point_mm = unmeasured(LengthField)

    target_loft_deg = AngleField()
    target_lie_deg = AngleField()
    target_length_mm = LengthField()
    length_method = models.CharField(
        max_length=6, choices=LengthMethod.choices, default=LengthMethod.RULES
    )
    target_swing_weight_points = unmeasured(SwingWeightField)
    target_mass_g = unmeasured(MassField)

    as_built_loft_deg = unmeasured(AngleField)
    as_built_lie_deg = unmeasured(AngleField)
    as_built_bounce_deg = unmeasured(AngleField)
    as_built_length_mm = unmeasured(LengthField)
    as_built_swing_weight_points = unmeasured(SwingWeightField)
    as_built_mass_g = unmeasured(MassField)

    shaft_name = models.CharField(max_length=140, blank=True, default="")
    shaft_material = models.CharField(max_length=10, blank=True, default="")
    shaft_raw_length_mm = unmeasured(LengthField)
    shaft_mass_g = unmeasured(MassField)
    shaft_balance_mm = unmeasured(LengthField)
    shaft_butt_mm = unmeasured(LengthField)
    tip_kind = models.CharField(max_length=10, choices=TipKind.choices, blank=True, default="")
    tip_trim_mm = LengthField(default=0)
    grip_name = models.CharField(max_length=140, blank=True, default="")
    grip_core_mm = unmeasured(LengthField)
    # As made, 2 in and 6 in under the cap.
    grip_outside_mm = unmeasured(LengthField)
    grip_lower_outside_mm = unmeasured(LengthField)
    grip_mass_g = unmeasured(MassField)
    grip_length_mm = unmeasured(LengthField)
    grip_cap_mm = unmeasured(LengthField)
    grip_extra_wraps = models.PositiveSmallIntegerField(default=0)
    grip_lower_extra_wraps = models.PositiveSmallIntegerField(default=0)
    grip_logo = models.CharField(max_length=10, default="up")
    ferrule = models.CharField(max_length=60, blank=True, default="")
    stamping = models.CharField(max_length=40, blank=True, default="")
    notes = models.CharField(max_length=300, blank=True, default="")
    cure_until = models.DateTimeField(null=True, blank=True)
    # When a check last sent it back: what was measured before that is measured anew.
    reworked_at = models.DateTimeField(null=True, blank=True)
    # When the bench's work on an earlier revision was taken over.
    carried_at = models.DateTimeField(null=True, blank=True)
    # Which head and which shaft of this slot it is: what was done to them is theirs.
    head_number = models.PositiveSmallIntegerField(default=1)
    shaft_number = models.PositiveSmallIntegerField(default=1)

    class Meta:
        ordering = ["slot"]
        constraints = [
            models.UniqueConstraint(fields=["revision", "slot"], name="order_slot_once"),
            one_of("state", [s.value for s in ClubState], "order_club_state_is_known"),
            one_of("hand", Hand.values, "order_club_hand_is_known"),
            within("as_received_loft_deg", 15, 75, "order_club_received_loft_believable"),
            within("as_received_lie_deg", 40, 80, "order_club_received_lie_believable"),
            within("as_built_loft_deg", 15, 75, "order_club_built_loft_believable"),
            within("as_built_lie_deg", 40, 80, "order_club_built_lie_believable"),
        ]

    def __str__(self) -> str:
        return f"{self.revision} slot {self.slot}"
