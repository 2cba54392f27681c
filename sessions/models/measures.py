"""Columns for measured things: the unit is in the column's name, the precision stands here.

Lengths hold 35 7/16 in exactly (900.1125 mm). Flight figures are floats: their doubt is far
above their digits. Not measured is NULL, never zero.
"""

from collections.abc import Iterable
from typing import Any

from django.db import models
from django.db.models import Q


class AngleField(models.DecimalField):  # type: ignore[type-arg]
    """Degrees, to a hundredth."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        kwargs.setdefault("max_digits", 5)
        kwargs.setdefault("decimal_places", 2)
        super().__init__(*args, **kwargs)


class LengthField(models.DecimalField):  # type: ignore[type-arg]
    """Millimetres, to a ten-thousandth: every sixty-fourth of an inch is exact."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        kwargs.setdefault("max_digits", 9)
        kwargs.setdefault("decimal_places", 4)
        super().__init__(*args, **kwargs)


class MassField(models.DecimalField):  # type: ignore[type-arg]
    """Grams, to a hundredth."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        kwargs.setdefault("max_digits", 6)
        kwargs.setdefault("decimal_places", 2)
        super().__init__(*args, **kwargs)


class SwingWeightField(models.DecimalField):  # type: ignore[type-arg]
    """Points above D0 on the 14-inch scale: C9 is -1, D0 is 0, D2.5 is 2.50."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        kwargs.setdefault("max_digits", 5)
        kwargs.setdefault("decimal_places", 2)
        super().__init__(*args, **kwargs)


def unmeasured(field: Any = models.FloatField, **kwargs: Any) -> Any:
    """A column that may not have been measured."""
    return field(null=True, blank=True, **kwargs)


def within(field: str, low: float, high: float, name: str) -> models.CheckConstraint:
    """A figure that is believable, or not measured."""
    inside = Q(**{f"{field}__gte": low, f"{field}__lte": high})
    return models.CheckConstraint(condition=inside | Q(**{f"{field}__isnull": True}), name=name)


def one_of(field: str, values: Iterable[str], name: str) -> models.CheckConstraint:
    """A word from a list."""
    return models.CheckConstraint(condition=Q(**{f"{field}__in": list(values)}), name=name)


__all__ = [
    "AngleField",
    "LengthField",
    "MassField",
    "SwingWeightField",
    "one_of",
    "unmeasured",
    "within",
]
