"""What happened at the bench: steps done, readings taken, the check and what was conceded."""

from django.db import models

from fitshop.models import Identified, Location
from orders.models.build_orders import OrderClub, OrderRevision
from sessions.models.measures import one_of
from sessions.models.words import LengthMethod


class Measure(models.TextChoices):
    LOFT = "loft", "loft"
    LIE = "lie", "lie"
    BOUNCE = "bounce", "bounce"
    HEAD_MASS = "head_mass", "head mass"
    LENGTH = "length", "length"
    SWING_WEIGHT = "swing_weight", "swing weight"
    TOTAL_MASS = "total_mass", "total mass"
    GRIP_DIAMETER = "grip_diameter", "grip diameter"
    # Square to the shaft, from its back to where the sole touches the ground.
    SOLE_POINT = "sole_point", "sole point"


class Gauge(Identified):
    """A gauge by its name. Its repeatability says when to measure twice."""

    name = models.CharField(max_length=60, unique=True)
    measure = models.CharField(max_length=14, choices=Measure.choices)
    # From where a gauge for lengths reads; no other gauge has one.
    length_method = models.CharField(
        max_length=6, choices=LengthMethod.choices, blank=True, default=""
    )
    location = models.ForeignKey(Location, on_delete=models.PROTECT, related_name="+")
    # In the unit the measure is stored in: degrees, millimetres, grams or points.
    repeatability = models.DecimalField(max_digits=9, decimal_places=4)
    in_use = models.BooleanField(default=True)

    class Meta:
        ordering = ["name"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(repeatability__gte=0), name="gauge_repeatability_not_negative"
            ),
            models.CheckConstraint(
                condition=(
                    models.Q(measure="length", length_method__in=LengthMethod.values)
                    | ~models.Q(measure="length") & models.Q(length_method="")
                ),
                name="gauge_for_lengths_has_its_method",
            ),
        ]

    def __str__(self) -> str:
        return self.name


class GaugeCheck(Identified):
    """A gauge held against something known: added to, never edited.

    `off_by` is how much it reads over [its measure's stored unit]; below nought it reads under.
    Nought is a good check.
    """

    gauge = models.ForeignKey(Gauge, on_delete=models.PROTECT, related_name="checks")
    off_by = models.DecimalField(max_digits=9, decimal_places=4, default=0)
    note = models.CharField(max_length=300, blank=True, default="")
    checked_at = models.DateTimeField()
    checked_by = models.CharField(max_length=200)

    class Meta:
        ordering = ["checked_at"]

    def __str__(self) -> str:
        return f"{self.gauge}: {self.off_by} off"

    @property
    def is_good(self) -> bool:
        return self.off_by == 0


class Step(models.TextChoices):
    PICKED = "picked", "Picked, hand said aloud"
    BARE_HEAD = "bare_head", "Bare head measured"
    STAMPED = "stamped", "Stamped and painted"
    BENT_BARE = "bent_bare", "Bent over 1 degree, hosel looked at"
    READ_BENT = "read_bent", "Read after the bend"
    HOSEL = "hosel", "Hosel prepared"
    TIP_TRIM = "tip_trim", "Tip trimmed"
    TIP = "tip", "Tip prepared"
    BUTT_CUT = "butt_cut", "Dry fit, butt cut"
    DRY_WEIGHT = "dry_weight", "Dry swing weight read, weight added"
    EPOXY = "epoxy", "Epoxy"
    CURED = "cured", "Cured, pull and rattle test"
    BENT_BUILT = "bent_built", "Bent up to 1 degree, hosel looked at"
    GRIPPED = "gripped", "Gripped and aligned"
    MEASURED = "measured", "Measured"
    CLEANED = "cleaned", "Cleaned"


class BenchStep(Identified):
    """One step of the bench's order, done for one club."""

    club = models.ForeignKey(OrderClub, on_delete=models.PROTECT, related_name="steps")
    step = models.CharField(max_length=12, choices=Step.choices)
    values = models.JSONField(default=dict, blank=True)
    done_at = models.DateTimeField()
    done_by = models.CharField(max_length=200)
    staff_id = models.UUIDField(null=True, blank=True)

    class Meta:
        ordering = ["done_at"]
        constraints = [
            models.UniqueConstraint(fields=["club", "step"], name="bench_step_once"),
            one_of("step", Step.values, "bench_step_is_known"),
        ]

    def __str__(self) -> str:
        return f"{self.get_step_display()}: {self.club}"


class Stage(models.TextChoices):
    AS_RECEIVED = "as_received", "as received"
    # Shaft in, ferrule, grip and tape on, no epoxy yet.
    DRY = "dry", "dry"
    BENT = "bent", "after the bare bend"
    AS_BUILT = "as_built", "as built"


class Reading(Identified):
    """One reading of one gauge: added to, never edited. A mistyped one is struck out."""

    club = models.ForeignKey(OrderClub, on_delete=models.PROTECT, related_name="readings")
    stage = models.CharField(max_length=12, choices=Stage.choices)
    measure = models.CharField(max_length=14, choices=Measure.choices)
    # Degrees, millimetres, grams or points, as the measure says.
    value = models.DecimalField(max_digits=9, decimal_places=4)
    # How a length was read, whatever its target's method; empty in rows from before this was kept.
    length_method = models.CharField(
        max_length=6, choices=LengthMethod.choices, blank=True, default=""
    )
    gauge = models.ForeignKey(
        Gauge, on_delete=models.PROTECT, null=True, blank=True, related_name="readings"
    )
    as_typed = models.CharField(max_length=40, blank=True, default="")
    read_at = models.DateTimeField()
    read_by = models.CharField(max_length=200)
    struck_out_at = models.DateTimeField(null=True, blank=True)
    struck_out_why = models.CharField(max_length=120, blank=True, default="")

    class Meta:
        ordering = ["read_at"]
        constraints = [
            one_of("stage", Stage.values, "reading_stage_is_known"),
            one_of("measure", Measure.values, "reading_measure_is_known"),
        ]

    def __str__(self) -> str:
        return f"{self.get_measure_display()} {self.value} {self.get_stage_display()}"


class Check(Identified):
    """A second look at the whole revision, signed. One person may build and check: it is said."""

    class Result(models.TextChoices):
        PASSED = "passed", "passed"
        REWORK = "rework", "rework"

    revision = models.ForeignKey(OrderRevision, on_delete=models.PROTECT, related_name="checks")
    result = models.CharField(max_length=8, choices=Result.choices)
    cause = models.CharField(max_length=60, blank=True, default="")
    note = models.CharField(max_length=300, blank=True, default="")
    same_person_built = models.BooleanField(default=False)
    signed_at = models.DateTimeField()
    signed_by = models.CharField(max_length=200)
    staff_id = models.UUIDField(null=True, blank=True)

    class Meta:
        ordering = ["-signed_at"]
        constraints = [
            one_of("result", ["passed", "rework"], "check_result_is_known"),
            models.CheckConstraint(
                condition=~models.Q(result="rework") | ~models.Q(cause=""),
                name="check_rework_has_its_cause",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_result_display()}: {self.revision}"


class Concession(Identified):
    """A figure out of tolerance that someone accepted, with the figure and the reason.

    The reason is the shop's own and never leaves it. What the player reads is `player_words`;
    empty, in rows from before there were two texts, it is worded from the figures.
    Dry, the figure is what the club comes to when glued.
    """

    club = models.ForeignKey(OrderClub, on_delete=models.PROTECT, related_name="concessions")
    stage = models.CharField(max_length=12, choices=Stage.choices, default=Stage.AS_BUILT)
    measure = models.CharField(max_length=14, choices=Measure.choices)
    target = models.DecimalField(max_digits=9, decimal_places=4)
    accepted_value = models.DecimalField(max_digits=9, decimal_places=4)
    reason = models.CharField(max_length=300)
    player_words = models.CharField(max_length=300, blank=True, default="")
    signed_at = models.DateTimeField()
    signed_by = models.CharField(max_length=200)

    class Meta:
        ordering = ["signed_at"]
        constraints = [one_of("stage", Stage.values, "concession_stage_is_known")]

    def __str__(self) -> str:
        return f"{self.get_measure_display()} accepted for {self.club}"


class SetConcession(Identified):
    """A step between two clubs of the set that someone accepted, with the step and the reason.

    The reason is the shop's own and never leaves it; `player_words` is what the player reads.
    """

    revision = models.ForeignKey(
        OrderRevision, on_delete=models.PROTECT, related_name="set_concessions"
    )
    measure = models.CharField(max_length=14, choices=Measure.choices)
    # By planned loft: an own club of the spec that stays may be one of the two.
    slot_above = models.PositiveSmallIntegerField()
    slot_below = models.PositiveSmallIntegerField()
    planned = models.DecimalField(max_digits=9, decimal_places=4)
    accepted_value = models.DecimalField(max_digits=9, decimal_places=4)
    reason = models.CharField(max_length=300)
    player_words = models.CharField(max_length=300, blank=True, default="")
    signed_at = models.DateTimeField()
    signed_by = models.CharField(max_length=200)

    class Meta:
        ordering = ["signed_at"]
        constraints = [
            one_of("measure", [Measure.LOFT, Measure.LENGTH], "set_concession_measure_is_known"),
        ]

    def __str__(self) -> str:
        return f"{self.get_measure_display()} from {self.slot_above} to {self.slot_below} accepted"
