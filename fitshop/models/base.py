"""What every row of the house has."""

import uuid

from django.db import models


class Identified(models.Model):
    """A row whose id may be made on a tablet before the server hears of it."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)

    class Meta:
        abstract = True


class Kept(Identified):
    """A row that remembers when it was made and by whom, as the service was told."""

    created_at = models.DateTimeField()
    created_by = models.CharField(max_length=200, blank=True, default="")

    class Meta:
        abstract = True
