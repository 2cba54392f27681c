"""The epoxies a shop glues with: what each one's own sheet says of its cure."""

from django.db import models

from fitshop.models import Kept
from sessions.models.measures import one_of


class Resin(Kept):
    """One epoxy by its name. A cure copies these figures: changing them moves no cure."""

    class Speed(models.TextChoices):
        SLOW = "slow", "slow"
        QUICK = "quick", "quick"

    name = models.CharField(max_length=60, unique=True)
    speed = models.CharField(max_length=5, choices=Speed.choices)
    # From this temperature on it cures in `hours`; at `double_at_c` it takes twice as long.
    hours = models.DecimalField(max_digits=5, decimal_places=2)
    full_speed_c = models.DecimalField(max_digits=4, decimal_places=1)
    double_at_c = models.DecimalField(max_digits=4, decimal_places=1)
    # The sheet's own minimum, which nobody overrides, and the temperature below which it stands.
    least_hours = models.DecimalField(max_digits=5, decimal_places=2)
    least_c = models.DecimalField(max_digits=4, decimal_places=1)
    in_use = models.BooleanField(default=True)

    class Meta:
        ordering = ["name"]
        constraints = [
            one_of("speed", ["slow", "quick"], "resin_speed_is_known"),
            models.CheckConstraint(
                condition=models.Q(least_hours__gt=0, hours__gte=models.F("least_hours")),
                name="resin_hours_reach_the_sheets_minimum",
            ),
            models.CheckConstraint(
                condition=models.Q(
                    least_c__lte=models.F("double_at_c"), double_at_c__lte=models.F("full_speed_c")
                ),
                name="resin_temperatures_in_order",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.name}, {self.speed}"
