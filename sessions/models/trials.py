"""Trials, blocks and shots. What was captured is a fact: added to, never edited."""

from django.db import models

from fitshop.models import Identified
from sessions.flow import TrialState
from sessions.models.clubs import Club
from sessions.models.equipment import Adapter, MeasuringDevice, TrialHead, TrialShaft
from sessions.models.measures import (
    AngleField,
    LengthField,
    MassField,
    SwingWeightField,
    one_of,
    unmeasured,
    within,
)
from sessions.models.visits import Visit
from sessions.models.words import (
    AsFlown,
    Ball,
    CarryGot,
    Divot,
    Face,
    FlightWindow,
    Grooves,
    Ground,
    HitFrom,
    LeftOut,
    SlotRole,
    SpinGot,
    Strike,
    Swing,
    Turf,
    Wetness,
)


class Trials(models.QuerySet["Trial"]):
    def standing(self) -> "Trials":
        """Without hand-overs that were taken back before anything was hit."""
        return self.exclude(state=TrialState.TAKEN_BACK)


class Trial(Identified):
    """One club in the player's hand, from hand-over to the next club.

    The played values are copied when it starts: a later measurement or bend of the same head
    changes nothing that was hit before.
    """

    class Purpose(models.TextChoices):
        BASELINE = "baseline", "baseline"
        OWN = "own", "own club"
        CANDIDATE = "candidate", "candidate"

    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="trials")
    sequence = models.PositiveIntegerField()
    number = models.PositiveSmallIntegerField()
    purpose = models.CharField(max_length=10, choices=Purpose.choices)
    slot = models.PositiveSmallIntegerField(null=True, blank=True)
    role = models.CharField(max_length=10, choices=SlotRole.choices, blank=True, default="")
    state = models.CharField(max_length=10, choices=TrialState.choices(), default=TrialState.OPEN)

    club = models.ForeignKey(
        Club, on_delete=models.PROTECT, null=True, blank=True, related_name="trials"
    )
    trial_head = models.ForeignKey(
        TrialHead, on_delete=models.PROTECT, null=True, blank=True, related_name="trials"
    )
    trial_shaft = models.ForeignKey(
        TrialShaft, on_delete=models.PROTECT, null=True, blank=True, related_name="trials"
    )
    adapter = models.ForeignKey(
        Adapter, on_delete=models.PROTECT, null=True, blank=True, related_name="trials"
    )

    head_name = models.CharField(max_length=140)
    stamped_loft_deg = unmeasured(AngleField)
    stamped_bounce_deg = unmeasured(AngleField)
    loft_deg = unmeasured(AngleField)
    loft_is_measured = models.BooleanField(default=False)
    bounce_deg = unmeasured(AngleField)
    bounce_is_measured = models.BooleanField(default=False)
    lie_deg = unmeasured(AngleField)
    sole_words = models.CharField(max_length=200, blank=True, default="")
    finish = models.CharField(max_length=40, blank=True, default="")
    shaft_name = models.CharField(max_length=140, blank=True, default="")
    shaft_mass_g = unmeasured(MassField)
    grip_name = models.CharField(max_length=140, blank=True, default="")
    length_mm = unmeasured(LengthField)
    swing_weight_points = unmeasured(SwingWeightField)
    mass_g = unmeasured(MassField)
    # The whole club on the scale. Else it was added up from its parts, which rarely agrees with it.
    mass_is_measured = models.BooleanField(default=False)
    grooves = models.CharField(max_length=8, choices=Grooves.choices, default=Grooves.UNKNOWN)

    # What was chosen to change since the last club, and what came along with it.
    changed = models.JSONField(default=list, blank=True)
    also_different = models.JSONField(default=list, blank=True)
    head_tight_checked_at = models.DateTimeField(null=True, blank=True)
    head_tight_checked_by = models.CharField(max_length=200, blank=True, default="")
    started_at = models.DateTimeField()
    started_by = models.CharField(max_length=200)
    finished_at = models.DateTimeField(null=True, blank=True)

    objects = Trials.as_manager()

    class Meta:
        ordering = ["sequence"]
        constraints = [
            models.UniqueConstraint(fields=["visit", "sequence"], name="trial_sequence_once"),
            models.UniqueConstraint(fields=["visit", "number"], name="trial_number_once"),
            models.UniqueConstraint(
                fields=["visit"],
                condition=models.Q(state="open"),
                name="trial_one_club_in_the_hand",
            ),
            one_of("state", [s.value for s in TrialState], "trial_state_is_known"),
            models.CheckConstraint(
                condition=models.Q(club__isnull=False, trial_head__isnull=True)
                | models.Q(club__isnull=True, trial_head__isnull=False),
                name="trial_own_club_or_trial_head",
            ),
            # A head on an adapter is never handed over unchecked.
            models.CheckConstraint(
                condition=models.Q(trial_head__isnull=True)
                | models.Q(head_tight_checked_at__isnull=False),
                name="trial_head_tight_checked",
            ),
        ]

    def __str__(self) -> str:
        return f"trial {self.number}: {self.head_name}"


class Block(Identified):
    """One club in one situation. Every word is carried over and changed in one tap."""

    trial = models.ForeignKey(Trial, on_delete=models.PROTECT, related_name="blocks")
    sequence = models.PositiveIntegerField()
    number = models.PositiveSmallIntegerField()
    swing = models.CharField(max_length=14, choices=Swing.choices)
    target_m = unmeasured()
    hit_from = models.CharField(max_length=12, choices=HitFrom.choices)
    ground = models.CharField(max_length=8, choices=Ground.choices)
    wetness = models.CharField(max_length=4, choices=Wetness.choices)
    face = models.CharField(max_length=12, choices=Face.choices)
    ball = models.CharField(max_length=8, choices=Ball.choices)
    device = models.ForeignKey(
        MeasuringDevice, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    carry_got = models.CharField(max_length=12, choices=CarryGot.choices)
    spin_got = models.CharField(max_length=10, choices=SpinGot.choices, default=SpinGot.NONE)
    as_flown = models.CharField(max_length=12, choices=AsFlown.choices, default=AsFlown.UNANSWERED)
    is_warm_up = models.BooleanField(default=False)
    started_at = models.DateTimeField()
    started_by = models.CharField(max_length=200)

    class Meta:
        ordering = ["sequence"]
        constraints = [
            models.UniqueConstraint(fields=["trial", "sequence"], name="block_sequence_once"),
            models.UniqueConstraint(fields=["trial", "number"], name="block_number_once"),
            one_of("swing", Swing.values, "block_swing_is_known"),
            one_of("hit_from", HitFrom.values, "block_from_is_known"),
            one_of("wetness", Wetness.values, "block_wetness_is_known"),
            one_of("as_flown", AsFlown.values, "block_as_flown_is_known"),
            within("target_m", 1, 320, "block_target_believable"),
        ]

    def __str__(self) -> str:
        return f"{self.get_swing_display()} from {self.get_hit_from_display()}"


class Shots(models.QuerySet["Shot"]):
    def counted(self) -> "Shots":
        """Without what is left out: a misread, mistyped, taken back."""
        left_out = ShotExclusion.objects.standing().filter(shot=models.OuterRef("pk"))
        return self.exclude(models.Exists(left_out))


class Shot(Identified):
    """One ball, raw and for ever. Sideways figures are positive to the player's right.

    A misread is left out by a row of its own. A bad strike is a fact about the club: it stays
    and is counted, even where it is left out of the mean.
    """

    class Source(models.TextChoices):
        HAND = "hand", "typed"
        FILE = "file", "from a file"

    block = models.ForeignKey(Block, on_delete=models.PROTECT, related_name="shots")
    sequence = models.PositiveIntegerField()
    number = models.PositiveSmallIntegerField()
    carry_m = unmeasured()
    side_m = unmeasured()
    total_m = unmeasured()
    ball_speed_ms = unmeasured()
    launch_deg = unmeasured()
    spin_rpm = unmeasured()
    spin_axis_deg = unmeasured()
    apex_m = unmeasured()
    landing_deg = unmeasured()
    club_speed_ms = unmeasured()
    attack_deg = unmeasured()
    lean_deg = unmeasured()
    # On the face, from its middle: positive towards the crown and towards the toe.
    strike_up_mm = unmeasured()
    strike_toe_mm = unmeasured()
    strike = models.CharField(max_length=6, choices=Strike.choices, blank=True, default="")
    in_mean = models.BooleanField(default=True)
    turf = models.CharField(max_length=6, choices=Turf.choices, blank=True, default="")
    divot = models.CharField(max_length=6, choices=Divot.choices, blank=True, default="")
    flight = models.CharField(max_length=8, choices=FlightWindow.choices, blank=True, default="")
    is_warm_up = models.BooleanField(default=False)
    source = models.CharField(max_length=5, choices=Source.choices, default=Source.HAND)
    file = models.ForeignKey(
        "ShotFile", on_delete=models.PROTECT, null=True, blank=True, related_name="shots"
    )
    file_row = models.PositiveIntegerField(null=True, blank=True)
    device_time = models.DateTimeField(null=True, blank=True)
    device_counter = models.PositiveIntegerField(null=True, blank=True)
    recorded_at = models.DateTimeField()
    recorded_by = models.CharField(max_length=200)
    as_typed = models.JSONField(default=dict, blank=True)

    objects = Shots.as_manager()

    class Meta:
        ordering = ["sequence"]
        constraints = [
            models.UniqueConstraint(fields=["block", "sequence"], name="shot_sequence_once"),
            models.UniqueConstraint(fields=["file", "file_row"], name="shot_once_a_file_row"),
            within("carry_m", 1, 320, "shot_carry_believable"),
            within("side_m", -150, 150, "shot_side_believable"),
            within("ball_speed_ms", 1, 100, "shot_ball_speed_believable"),
            within("launch_deg", -10, 80, "shot_launch_believable"),
            within("spin_rpm", 0, 16000, "shot_spin_believable"),
            models.CheckConstraint(
                condition=models.Q(source="hand", file__isnull=True)
                | models.Q(source="file", file__isnull=False, file_row__isnull=False),
                name="shot_from_a_file_names_its_row",
            ),
        ]

    def __str__(self) -> str:
        return f"shot {self.number}"

    @property
    def exclusion(self) -> "ShotExclusion | None":
        """What leaves it out now; None where it counts. Read `exclusions__taken_back` along."""
        return next((one for one in self.exclusions.all() if not one.is_taken_back), None)


class ShotExclusions(models.QuerySet["ShotExclusion"]):
    def standing(self) -> "ShotExclusions":
        return self.filter(taken_back__isnull=True)


class ShotExclusion(Identified):
    """A shot left out of everything, and why. The shot itself stays as it was recorded.

    One that was taken back leaves nothing out any more, and another may follow.
    """

    shot = models.ForeignKey(Shot, on_delete=models.PROTECT, related_name="exclusions")
    reason = models.CharField(max_length=10, choices=LeftOut.choices)
    sequence = models.PositiveIntegerField()
    excluded_at = models.DateTimeField()
    excluded_by = models.CharField(max_length=200)

    objects = ShotExclusions.as_manager()

    class Meta:
        ordering = ["sequence"]
        constraints = [one_of("reason", LeftOut.values, "exclusion_reason_is_known")]

    def __str__(self) -> str:
        return f"{self.get_reason_display()}: {self.shot}"

    @property
    def is_taken_back(self) -> bool:
        return getattr(self, "taken_back", None) is not None


class ShotFile(Identified):
    """A device's file, byte for byte, with what its columns were taken for."""

    class State(models.TextChoices):
        READ = "read", "read, not taken over"
        IMPORTED = "imported", "taken over"
        UNDONE = "undone", "undone"

    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="shot_files")
    block = models.ForeignKey(
        Block, on_delete=models.PROTECT, null=True, blank=True, related_name="shot_files"
    )
    name = models.CharField(max_length=200)
    sha256 = models.CharField(max_length=64)
    content = models.BinaryField()
    encoding = models.CharField(max_length=20)
    delimiter = models.CharField(max_length=2)
    header_key = models.CharField(max_length=64)
    mapping = models.JSONField(default=dict, blank=True)
    rejects = models.JSONField(default=list, blank=True)
    state = models.CharField(max_length=10, choices=State.choices, default=State.READ)
    read_at = models.DateTimeField()
    read_by = models.CharField(max_length=200)
    imported_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["-read_at"]
        constraints = [
            # Once undone, the same bytes may be taken over again under another mapping.
            models.UniqueConstraint(
                fields=["visit", "sha256"],
                condition=~models.Q(state="undone"),
                name="shot_file_once_a_visit",
            ),
            one_of("state", ["read", "imported", "undone"], "shot_file_state_is_known"),
        ]

    def __str__(self) -> str:
        return self.name


class FileMapping(Identified):
    """How this shop reads files with a certain header. No maker's layout is built in."""

    header_key = models.CharField(max_length=64, unique=True)
    mapping = models.JSONField()
    saved_at = models.DateTimeField()
    saved_by = models.CharField(max_length=200)

    def __str__(self) -> str:
        return self.header_key


class Ratings(models.QuerySet["Rating"]):
    def standing(self) -> "Ratings":
        return self.filter(taken_back__isnull=True)


class Rating(Identified):
    """What the player said of one club, one to five; ordinal, never averaged over people."""

    class About(models.TextChoices):
        FEEL = "feel", "feel"
        SOUND = "sound", "sound"
        LOOK = "look", "look at address"
        TURF = "turf", "through the turf"
        TRUST = "trust", "trust in it"

    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="ratings")
    sequence = models.PositiveIntegerField()
    trial = models.ForeignKey(Trial, on_delete=models.PROTECT, related_name="ratings")
    comparison = models.ForeignKey(
        "Comparison", on_delete=models.PROTECT, null=True, blank=True, related_name="ratings"
    )
    about = models.CharField(max_length=8, choices=About.choices)
    score = models.PositiveSmallIntegerField()
    before_reveal = models.BooleanField(default=False)
    turn = models.PositiveSmallIntegerField(
        null=True, blank=True, help_text="which place of the comparison's order, from 0"
    )
    # Where it was given. "" where it isn't known, as in older ratings.
    swing = models.CharField(max_length=14, choices=Swing.choices, blank=True, default="")
    target_m = unmeasured()
    hit_from = models.CharField(max_length=12, choices=HitFrom.choices, blank=True, default="")
    ground = models.CharField(max_length=8, choices=Ground.choices, blank=True, default="")
    wetness = models.CharField(max_length=4, choices=Wetness.choices, blank=True, default="")
    face = models.CharField(max_length=12, choices=Face.choices, blank=True, default="")
    rated_at = models.DateTimeField()
    recorded_by = models.CharField(max_length=200)

    objects = Ratings.as_manager()

    class Meta:
        ordering = ["sequence"]
        constraints = [
            models.UniqueConstraint(fields=["visit", "sequence"], name="rating_sequence_once"),
            within("score", 1, 5, "rating_score_one_to_five"),
            one_of("about", ["feel", "sound", "look", "turf", "trust"], "rating_about_is_known"),
            one_of("swing", ["", *Swing.values], "rating_swing_is_known"),
            one_of("hit_from", ["", *HitFrom.values], "rating_from_is_known"),
            within("target_m", 1, 320, "rating_target_believable"),
        ]

    def __str__(self) -> str:
        return f"{self.get_about_display()}: {self.score}"


class TakenBack(Identified):
    """A fact beside another that no longer holds: an exclusion or a rating. Both stay."""

    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="taken_back")
    sequence = models.PositiveIntegerField()
    exclusion = models.OneToOneField(
        ShotExclusion,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="taken_back",
    )
    rating = models.OneToOneField(
        Rating, on_delete=models.PROTECT, null=True, blank=True, related_name="taken_back"
    )
    taken_back_at = models.DateTimeField()
    taken_back_by = models.CharField(max_length=200)

    class Meta:
        ordering = ["sequence"]
        constraints = [
            models.UniqueConstraint(fields=["visit", "sequence"], name="taken_back_sequence_once"),
            models.CheckConstraint(
                condition=models.Q(exclusion__isnull=False, rating__isnull=True)
                | models.Q(exclusion__isnull=True, rating__isnull=False),
                name="taken_back_one_thing",
            ),
        ]

    def __str__(self) -> str:
        return f"taken back: {self.exclusion or self.rating}"
