"""The loft plan and the decision for each slot, with the numbers as they were then."""

from django.db import models

from fitshop.models import Identified
from sessions.models.catalogue import Head
from sessions.models.clubs import Club
from sessions.models.measures import AngleField, one_of, unmeasured, within
from sessions.models.trials import Trial
from sessions.models.visits import Visit
from sessions.models.words import Outcome, SlotRole


class LoftPlan(Identified):
    """A chosen plan; a later choice makes a new one and the last one counts."""

    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="loft_plans")
    baseline_loft_deg = AngleField()
    baseline_carry_m = models.FloatField()
    baseline_balls = models.PositiveSmallIntegerField()
    is_current = models.BooleanField(default=True)
    is_own = models.BooleanField(default=False, help_text="typed by the fitter, not suggested")
    why = models.CharField(max_length=300, blank=True, default="")
    settings_version = models.PositiveIntegerField(default=0)
    chosen_at = models.DateTimeField()
    chosen_by = models.CharField(max_length=200)

    class Meta:
        ordering = ["-chosen_at"]
        constraints = [
            models.UniqueConstraint(
                fields=["visit"], condition=models.Q(is_current=True), name="plan_one_current"
            )
        ]

    def __str__(self) -> str:
        return f"loft plan of {self.visit}"


class PlanSlot(Identified):
    plan = models.ForeignKey(LoftPlan, on_delete=models.PROTECT, related_name="slots")
    slot = models.PositiveSmallIntegerField()
    role = models.CharField(max_length=10, choices=SlotRole.choices)
    target_loft_deg = AngleField()
    head = models.ForeignKey(
        Head, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    club = models.ForeignKey(
        Club, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    bounce_after_deg = unmeasured(AngleField)
    predicted_carry_m = unmeasured()
    predicted_sd_m = unmeasured()
    # Nine times in ten the club's mean carry lies between these, as it was said when chosen.
    predicted_low_m = unmeasured()
    predicted_high_m = unmeasured()
    why = models.CharField(max_length=300, blank=True, default="")

    class Meta:
        ordering = ["slot"]
        constraints = [
            models.UniqueConstraint(fields=["plan", "slot"], name="plan_slot_once"),
            one_of("role", SlotRole.values, "plan_slot_role_is_known"),
            within("target_loft_deg", 30, 70, "plan_slot_loft_believable"),
        ]

    def __str__(self) -> str:
        return f"slot {self.slot}: {self.target_loft_deg}"


class Decision(Identified):
    """What was decided for a slot, against what, on which evidence: frozen when it is taken."""

    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="decisions")
    slot = models.PositiveSmallIntegerField()
    role = models.CharField(max_length=10, choices=SlotRole.choices)
    outcome = models.CharField(max_length=12, choices=Outcome.choices)
    chosen_trial = models.ForeignKey(
        Trial, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    against_trial = models.ForeignKey(
        Trial, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    kept_club = models.ForeignKey(
        Club, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    leaves_bag = models.ForeignKey(
        Club, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    leaves_bag_words = models.CharField(max_length=60, blank=True, default="")
    # Keep and Fix as named in the interview, each with its answer.
    keep_fix = models.JSONField(default=list, blank=True)
    reason = models.CharField(max_length=300)
    against_evidence = models.BooleanField(default=False)
    numbers = models.JSONField(default=dict)
    code_version = models.CharField(max_length=40)
    settings_version = models.PositiveIntegerField(default=0)
    is_current = models.BooleanField(default=True)
    decided_at = models.DateTimeField()
    decided_by = models.CharField(max_length=200)

    class Meta:
        ordering = ["slot", "-decided_at"]
        constraints = [
            models.UniqueConstraint(
                fields=["visit", "slot"],
                condition=models.Q(is_current=True),
                name="decision_one_current_a_slot",
            ),
            one_of("outcome", Outcome.values, "decision_outcome_is_known"),
            models.CheckConstraint(
                condition=~models.Q(outcome="build") | models.Q(chosen_trial__isnull=False),
                name="decision_build_names_its_trial",
            ),
            models.CheckConstraint(
                condition=~models.Q(outcome="keep") | models.Q(kept_club__isnull=False),
                name="decision_keep_names_its_club",
            ),
        ]

    def __str__(self) -> str:
        return f"slot {self.slot}: {self.get_outcome_display()}"
