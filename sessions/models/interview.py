"""The interview: answers are added to, the last one in the server's order counts."""

from django.db import models

from fitshop.models import Identified
from sessions.models.measures import one_of
from sessions.models.visits import Visit


class Interview(Identified):
    visit = models.OneToOneField(Visit, on_delete=models.PROTECT, related_name="interview")
    started_at = models.DateTimeField()
    closed_at = models.DateTimeField(null=True, blank=True)
    closed_by = models.CharField(max_length=200, blank=True, default="")

    def __str__(self) -> str:
        return f"interview of {self.visit}"


class Answer(Identified):
    class SaidBy(models.TextChoices):
        PLAYER = "player", "the player"
        GUARDIAN = "guardian", "a guardian"
        FITTER = "fitter", "seen by the fitter"

    class SaidWhere(models.TextChoices):
        HOME = "home", "at home"
        SHOP = "shop", "in the fitting room"

    interview = models.ForeignKey(Interview, on_delete=models.PROTECT, related_name="answers")
    sequence = models.PositiveIntegerField()
    question = models.CharField(max_length=60)
    # None with `ask_later`: the question was met and put off, which is not the same as unmet.
    # A value with `ask_later`: it stands, and somebody wants to ask again.
    value = models.JSONField(null=True, blank=True)
    ask_later = models.BooleanField(default=False)
    said_by = models.CharField(max_length=10, choices=SaidBy.choices, default=SaidBy.PLAYER)
    said_where = models.CharField(max_length=10, choices=SaidWhere.choices, default=SaidWhere.SHOP)
    said_at = models.DateTimeField()
    recorded_by = models.CharField(max_length=200)

    class Meta:
        ordering = ["sequence"]
        constraints = [
            models.UniqueConstraint(fields=["interview", "sequence"], name="answer_sequence_once"),
            one_of("said_by", ["player", "guardian", "fitter"], "answer_said_by_is_known"),
        ]

    def __str__(self) -> str:
        return f"{self.question}: {self.value}"


class Overruling(Identified):
    """A suggestion set aside by a person with a reason. The last one of a slot's topic counts,
    for as long as the suggestion says the same; an empty `instead` takes an earlier one back.
    Slot 0 is the set as a whole: how many wedges, and what is tried first."""

    interview = models.ForeignKey(Interview, on_delete=models.PROTECT, related_name="overrulings")
    sequence = models.PositiveIntegerField()
    slot = models.PositiveSmallIntegerField()
    topic = models.CharField(max_length=10)
    suggested = models.CharField(max_length=2000)
    instead = models.CharField(max_length=200, blank=True, default="")
    reason = models.CharField(max_length=300)
    overruled_by = models.CharField(max_length=200)
    overruled_at = models.DateTimeField()

    class Meta:
        ordering = ["sequence"]
        constraints = [
            models.UniqueConstraint(
                fields=["interview", "sequence"], name="overruling_sequence_once"
            ),
            one_of(
                "topic",
                ["sole", "lie", "shaft", "wedges", "try_first"],
                "overruling_topic_is_known",
            ),
            models.CheckConstraint(condition=~models.Q(reason=""), name="overruling_has_a_reason"),
        ]

    def __str__(self) -> str:
        return f"slot {self.slot}, {self.topic}: {self.instead}"
