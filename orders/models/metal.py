"""What was done to a club's metal: facts of a head or a shaft, which outlive a revision.

A fact is added to, never edited. It belongs to one head and one shaft of a slot, counted from 1:
another head begins without facts, and what was glued holds for this head on this shaft.
"""

from django.db import models

from fitshop.models import Identified
from orders.models.build_orders import BuildOrder, OrderClub
from sessions.models.measures import AngleField, LengthField, one_of, unmeasured


class FactKind(models.TextChoices):
    STAMPED = "stamped", "stamped"
    BENT = "bent", "bent"
    TIP_TRIMMED = "tip_trimmed", "tip trimmed"
    BUTT_CUT = "butt_cut", "cut"
    GLUED = "glued", "glued"


class PermanentFact(Identified):
    """One deed at the bench that can't be undone."""

    order = models.ForeignKey(BuildOrder, on_delete=models.PROTECT, related_name="permanent_facts")
    slot = models.PositiveSmallIntegerField()
    head_number = models.PositiveSmallIntegerField()
    shaft_number = models.PositiveSmallIntegerField()
    # Within the order, in the sequence of the deeds.
    sequence = models.PositiveIntegerField()
    # The club as it was ordered when it was done.
    club = models.ForeignKey(OrderClub, on_delete=models.PROTECT, related_name="+")
    kind = models.CharField(max_length=12, choices=FactKind.choices)
    step = models.CharField(max_length=12)
    stamping = models.CharField(max_length=40, blank=True, default="")
    # What the shaft was cut to, or what came off its tip.
    length_mm = unmeasured(LengthField)
    # A bend: what was read on the head since the bend before, and what was meant.
    from_loft_deg = unmeasured(AngleField)
    from_lie_deg = unmeasured(AngleField)
    planned_loft_deg = unmeasured(AngleField)
    planned_lie_deg = unmeasured(AngleField)
    made_at = models.DateTimeField()
    made_by = models.CharField(max_length=200)

    class Meta:
        ordering = ["sequence"]
        constraints = [
            one_of("kind", FactKind.values, "permanent_fact_kind_is_known"),
            models.UniqueConstraint(fields=["order", "sequence"], name="permanent_fact_in_order"),
            models.CheckConstraint(
                condition=~models.Q(kind="bent")
                | models.Q(planned_loft_deg__isnull=False, planned_lie_deg__isnull=False),
                name="permanent_bend_says_what_was_meant",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_kind_display()}: {self.club}"
