"""Players and what they agreed to."""

from django.db import models

from fitshop.models import Kept
from sessions.models.measures import LengthField, one_of, unmeasured, within
from sessions.models.words import Hand, PlayerKind


class Player(Kept):
    given_name = models.CharField(max_length=80)
    family_name = models.CharField(max_length=80)
    email = models.EmailField(blank=True, default="")
    phone = models.CharField(max_length=20, blank=True, default="", help_text="E.164")
    hand = models.CharField(max_length=5, choices=Hand.choices)
    kind = models.CharField(max_length=8, choices=PlayerKind.choices)
    birth_date = models.DateField(null=True, blank=True)
    handicap = unmeasured(models.DecimalField, max_digits=4, decimal_places=1)
    height_mm = unmeasured(LengthField)
    wrist_to_floor_mm = unmeasured(LengthField)
    finger_length_mm = unmeasured(LengthField)
    glove = models.CharField(max_length=20, blank=True, default="")
    carry_unit = models.CharField(max_length=2, choices=[("yd", "yards"), ("m", "metres")])
    home_place = models.CharField(max_length=120, blank=True, default="")
    home_altitude_m = unmeasured()
    guardian_name = models.CharField(max_length=160, blank=True, default="")
    guardian_email = models.EmailField(blank=True, default="")
    notes = models.TextField(blank=True, default="")
    as_typed = models.JSONField(default=dict, blank=True)
    # Name, phone and e-mail folded for search; written by the services that write those.
    search_text = models.TextField(blank=True, default="", db_index=True)
    merged_into = models.ForeignKey(
        "self", null=True, blank=True, on_delete=models.PROTECT, related_name="merged_from"
    )

    class Meta:
        ordering = ["family_name", "given_name"]
        constraints = [
            one_of("hand", Hand.values, "player_hand_is_known"),
            one_of("kind", PlayerKind.values, "player_kind_is_known"),
            within("height_mm", 700, 2500, "player_height_believable"),
            within("wrist_to_floor_mm", 300, 1300, "player_wrist_to_floor_believable"),
            models.CheckConstraint(
                condition=~models.Q(merged_into=models.F("id")), name="player_not_merged_into_self"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.given_name} {self.family_name}"


class Consent(Kept):
    """What was agreed, to which text, by whom; withdrawing it is a time, not a deletion."""

    class About(models.TextChoices):
        RECORD = "record", "keep the fitting record"
        EMAIL = "email", "send the summary and reminders by e-mail"

    class GivenBy(models.TextChoices):
        PLAYER = "player", "the player"
        GUARDIAN = "guardian", "a guardian"

    player = models.ForeignKey(Player, on_delete=models.PROTECT, related_name="consents")
    about = models.CharField(max_length=10, choices=About.choices)
    text_version = models.CharField(max_length=20)
    given_by = models.CharField(max_length=10, choices=GivenBy.choices)
    given_at = models.DateTimeField()
    withdrawn_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["-given_at"]
        constraints = [
            one_of("about", ["record", "email"], "consent_about_is_known"),
            models.UniqueConstraint(
                fields=["player", "about"],
                condition=models.Q(withdrawn_at__isnull=True),
                name="consent_one_in_force",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_about_display()} ({self.text_version})"
