"""Clubs put side by side: hidden or open, in a drawn order, under neutral numbers."""

from django.db import models

from fitshop.models import Identified
from sessions.flow import ComparisonState
from sessions.models.measures import one_of
from sessions.models.trials import Trial
from sessions.models.visits import Visit


class Comparison(Identified):
    class Hiding(models.TextChoices):
        BLIND = "blind", "blind"
        HIDDEN_ORDER = "hidden_order", "hidden order"
        OPEN = "open", "open"

    class Kind(models.TextChoices):
        ALL_AGAINST_ALL = "all_against_all", "all against all"
        HEAD_TO_HEAD = "head_to_head", "head to head"

    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="comparisons")
    sequence = models.PositiveIntegerField()
    slot = models.PositiveSmallIntegerField(null=True, blank=True)
    state = models.CharField(
        max_length=10,
        choices=ComparisonState.choices(),
        default=ComparisonState.DRAWN,
    )
    # Blind only where sole and stamp were covered and finish, grip and shaft are the same.
    hiding = models.CharField(max_length=12, choices=Hiding.choices)
    covered = models.BooleanField(default=False)
    kind = models.CharField(max_length=15, choices=Kind.choices, default=Kind.ALL_AGAINST_ALL)
    seed = models.BigIntegerField()
    # What it was drawn among: of a head to head, two of these meet. Older comparisons say nothing.
    chosen = models.JSONField(default=list, blank=True, help_text="ids of the trials, sorted")
    row = models.PositiveSmallIntegerField(
        null=True, blank=True, help_text="which of all the orders of these clubs, from 0"
    )
    order = models.JSONField(help_text="the neutral numbers in the order they are handed over")
    drawn_at = models.DateTimeField()
    drawn_by = models.CharField(max_length=200)
    revealed_at = models.DateTimeField(null=True, blank=True)
    revealed_by = models.CharField(max_length=200, blank=True, default="")

    class Meta:
        ordering = ["sequence"]
        constraints = [
            models.UniqueConstraint(fields=["visit", "sequence"], name="comparison_sequence_once"),
            one_of("state", [s.value for s in ComparisonState], "comparison_state_is_known"),
            one_of("kind", ["all_against_all", "head_to_head"], "comparison_kind_is_known"),
            models.CheckConstraint(
                condition=~models.Q(state="revealed") | models.Q(revealed_at__isnull=False),
                name="comparison_revealed_has_its_time",
            ),
        ]

    def __str__(self) -> str:
        return f"comparison of {self.visit}"

    def trials_in_turn(self) -> tuple[str, ...]:
        """The ids of its clubs in the drawn order, without the first one's return at the end."""
        behind = {arm.code: str(arm.trial_id) for arm in self.arms.all()}
        return tuple(behind[code] for code in self.order[:-1])


class ComparisonArm(Identified):
    """One club of a comparison under its neutral number."""

    comparison = models.ForeignKey(Comparison, on_delete=models.PROTECT, related_name="arms")
    trial = models.ForeignKey(Trial, on_delete=models.PROTECT, related_name="arms")
    code = models.PositiveSmallIntegerField()

    class Meta:
        ordering = ["code"]
        constraints = [
            models.UniqueConstraint(fields=["comparison", "code"], name="arm_code_once"),
            models.UniqueConstraint(fields=["comparison", "trial"], name="arm_trial_once"),
            models.CheckConstraint(
                condition=models.Q(code__gte=10, code__lte=99), name="arm_code_two_digits"
            ),
        ]

    def __str__(self) -> str:
        return str(self.code)


class Peek(Identified):
    """Someone looked behind a neutral number before the reveal. It is recorded, not forbidden."""

    comparison = models.ForeignKey(Comparison, on_delete=models.PROTECT, related_name="peeks")
    code = models.PositiveSmallIntegerField()
    peeked_at = models.DateTimeField()
    peeked_by = models.CharField(max_length=200)

    def __str__(self) -> str:
        return f"{self.code} seen by {self.peeked_by}"
