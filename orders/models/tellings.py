"""What was done to tell a player that the clubs are ready. Added to, never edited."""

from django.db import models

from fitshop.models import Identified, OutgoingMessage
from orders.models.build_orders import BuildOrder
from orders.rules.telling import How, Outcome
from sessions.models.measures import one_of


class Telling(Identified):
    """One attempt: how, by whom, when, what was said, and its outcome.

    A letter's outcome is the state of its row; a letter without a row is one that was written
    down by hand.
    """

    HOW = {
        How.LETTER.value: "e-mail",
        How.TELEPHONE.value: "telephone",
        How.TEXT.value: "text message",
        How.IN_PERSON.value: "in person",
    }
    OUTCOME = {
        Outcome.REACHED.value: "Player told",
        Outcome.NO_ANSWER.value: "No answer",
        Outcome.MESSAGE_LEFT.value: "Message left",
    }

    order = models.ForeignKey(BuildOrder, on_delete=models.PROTECT, related_name="tellings")
    how = models.CharField(max_length=12, choices=list(HOW.items()))
    outcome = models.CharField(max_length=12, choices=list(OUTCOME.items()), blank=True, default="")
    said = models.CharField(max_length=300, blank=True, default="")
    letter = models.OneToOneField(
        OutgoingMessage, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    at = models.DateTimeField()
    by = models.CharField(max_length=200)

    class Meta:
        ordering = ["at", "id"]
        constraints = [
            one_of("how", [how.value for how in How], "telling_how_is_known"),
            models.CheckConstraint(
                condition=models.Q(how="letter", letter__isnull=False, outcome="")
                | models.Q(letter__isnull=True, outcome__in=[each.value for each in Outcome]),
                name="telling_has_its_outcome_or_its_letter",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.order} told by {self.get_how_display()}"
