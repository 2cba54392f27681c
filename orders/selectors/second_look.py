"""Who may pass a ticket: the one who built it, or only another person."""

from __future__ import annotations

from dataclasses import dataclass

from fitshop.actor import Actor, Role
from fitshop.models import Location, Staff
from fitshop.selectors import settings_in_force
from orders.models import OrderRevision
from orders.rules.second_look import wants_second_person
from orders.selectors.figures import is_built_by


@dataclass(frozen=True, slots=True)
class SecondLook:
    """`is_own`: this person built on the ticket. `wants_another`: then another one passes it."""

    is_own: bool
    builders: int
    wants_another: bool

    @property
    def is_refused(self) -> bool:
        return self.is_own and self.wants_another


def second_look(revision: OrderRevision, actor: Actor) -> SecondLook:
    builders = builders_at(revision.order.location)
    choice = str(settings_in_force()["check.same_person"])
    return SecondLook(
        is_own=is_built_by(revision, actor),
        builders=builders,
        wants_another=wants_second_person(choice, builders=builders),
    )


def builders_at(location: Location) -> int:
    """How many active builders work at a location."""
    return (
        Staff.objects.filter(
            is_active=True, role_rows__role=Role.BUILDER.value, location_rows__location=location
        )
        .distinct()
        .count()
    )
