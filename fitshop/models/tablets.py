"""Devices that stand in the shop: on them people change by PIN."""

from django.db import models

from fitshop.models.base import Identified
from fitshop.models.places import Location


class Tablet(Identified):
    """A device that a manager enrolled. It shows a random token; only its hash is kept here."""

    name = models.CharField(max_length=60)
    location = models.ForeignKey(Location, on_delete=models.PROTECT, related_name="tablets")
    token_sha256 = models.CharField(max_length=64, unique=True)
    enrolled_at = models.DateTimeField()
    enrolled_by = models.CharField(max_length=200)
    withdrawn_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["location__name", "name"]
        constraints = [
            models.UniqueConstraint(
                fields=["location", "name"],
                condition=models.Q(withdrawn_at__isnull=True),
                name="tablet_name_once_a_location",
            )
        ]

    def __str__(self) -> str:
        return self.name
