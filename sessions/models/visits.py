"""A visit: from the booking to the closed record, and the air it happened in."""

from django.conf import settings
from django.db import models

from fitshop.models import Bay, Identified, Kept, Location
from sessions.flow import VisitState
from sessions.models.measures import one_of, unmeasured, within
from sessions.models.people import Player
from sessions.models.words import AsFlown


class Visit(Kept):
    class Kind(models.TextChoices):
        WEDGES = "wedges", "wedge fitting"
        CHECK = "check", "groove, loft and lie check"
        COLLECTION = "collection", "collection"

    player = models.ForeignKey(Player, on_delete=models.PROTECT, related_name="visits")
    location = models.ForeignKey(Location, on_delete=models.PROTECT, related_name="+")
    bay = models.ForeignKey(Bay, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    fitter = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    kind = models.CharField(max_length=12, choices=Kind.choices, default=Kind.WEDGES)
    starts_at = models.DateTimeField()
    minutes = models.PositiveIntegerField(default=60)
    is_walk_in = models.BooleanField(default=False)
    state = models.CharField(max_length=10, choices=VisitState.choices(), default=VisitState.BOOKED)
    opened_at = models.DateTimeField(null=True, blank=True)
    closed_at = models.DateTimeField(null=True, blank=True)
    # Set when an order made from it is released: from then on the record is not reopened.
    locked_at = models.DateTimeField(null=True, blank=True)
    note = models.TextField(blank=True, default="")
    # The server's order of everything captured in this visit, taken under its lock.
    last_sequence = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["starts_at"]
        indexes = [models.Index(fields=["location", "starts_at"], name="visit_by_day")]
        constraints = [
            one_of("state", [s.value for s in VisitState], "visit_state_is_known"),
            models.CheckConstraint(
                condition=models.Q(minutes__gte=5, minutes__lte=600), name="visit_length_believable"
            ),
            models.CheckConstraint(
                condition=~models.Q(state="closed") | models.Q(closed_at__isnull=False),
                name="visit_closed_has_its_time",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.player}, {self.starts_at:%Y-%m-%d %H:%M}"


class Conditions(Identified):
    """The air at one moment. Pressure as measured at the place, not brought to sea level."""

    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="conditions")
    sequence = models.PositiveIntegerField()
    measured_at = models.DateTimeField()
    temperature_c = unmeasured()
    pressure_hpa = unmeasured()
    altitude_m = unmeasured()
    humidity_pct = unmeasured()
    wind_ms = unmeasured()
    # Where it blows to, from the target line: 0 helps, positive to the player's right.
    wind_to_deg = unmeasured()
    recorded_by = models.CharField(max_length=200)
    as_typed = models.JSONField(default=dict, blank=True)

    class Meta:
        ordering = ["sequence"]
        verbose_name_plural = "conditions"
        constraints = [
            models.UniqueConstraint(fields=["visit", "sequence"], name="conditions_sequence_once"),
            within("temperature_c", -20, 50, "conditions_temperature_believable"),
            within("pressure_hpa", 600, 1100, "conditions_pressure_believable"),
            within("altitude_m", -430, 5000, "conditions_altitude_believable"),
            within("humidity_pct", 0, 100, "conditions_humidity_believable"),
            within("wind_ms", 0, 40, "conditions_wind_believable"),
        ]

    def __str__(self) -> str:
        return f"conditions at {self.measured_at:%H:%M}"


class FiguresAnswer(Identified):
    """What the device's figures are, answered after the balls were hit.

    For every block of the visit that has no answer of its own, which stays as it was; the last one
    counts.
    """

    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="figures_answers")
    sequence = models.PositiveIntegerField()
    answer = models.CharField(max_length=12, choices=AsFlown.choices)
    answered_at = models.DateTimeField()
    answered_by = models.CharField(max_length=200)

    class Meta:
        ordering = ["sequence"]
        constraints = [
            models.UniqueConstraint(
                fields=["visit", "sequence"], name="figures_answer_sequence_once"
            ),
            one_of("answer", ["as_flown", "normalised"], "figures_answer_is_one"),
        ]

    def __str__(self) -> str:
        return self.get_answer_display()
