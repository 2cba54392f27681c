"""What a gauge found off has read, and who has a head that is recalled."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime, time

from django.db.models import QuerySet

from fitshop.actor import Actor
from orders.flow import OrderState
from orders.models import Gauge, OrderClub, Reading
from orders.selectors.orders import OVER
from orders.selectors.reading_words import reading_words
from sessions.models import Club, Head


@dataclass(slots=True)
class ClubRead:
    """One club of a ticket in force, and what the gauge read on it."""

    club: OrderClub
    readings: list[str] = field(default_factory=list)

    @property
    def is_out_of_the_house(self) -> bool:
        """True once it was handed over: the player has to be asked to bring it back."""
        return self.club.revision.order.state == OrderState.HANDED_OVER


def gauges_recalled(actor: Actor) -> QuerySet[Gauge]:
    """The gauges of the actor's locations, put away or not."""
    return Gauge.objects.filter(location_id__in=actor.location_ids).select_related("location")


def clubs_read_with(gauge: Gauge, actor: Actor) -> list[ClubRead]:
    """Each club read with this gauge since the day of its last good check, newest ticket first.

    Struck-out readings decided nothing and are left out; a gauge never checked has read it all.
    """
    readings = (
        Reading.objects.filter(
            gauge=gauge,
            struck_out_at=None,
            club__revision__is_current=True,
            club__revision__order__location_id__in=actor.location_ids,
        )
        .exclude(club__revision__order__state=OrderState.CANCELLED)
        .select_related("club__revision__order__visit__player")
        .order_by("-club__revision__order__number", "club__slot", "read_at")
    )
    if gauge.checked_on is not None:
        zone = gauge.location.zone_info
        since = datetime.combine(gauge.checked_on, time(), tzinfo=zone)
        readings = readings.filter(read_at__gte=since)
    found: dict[object, ClubRead] = {}
    for reading in readings:
        row = found.setdefault(reading.club_id, ClubRead(reading.club))
        row.readings.append(reading_words(reading))
    return list(found.values())


def owners_of(head: Head) -> list[Club]:
    """The players' clubs with this head, each with its player."""
    rows = Club.objects.filter(head=head).select_related("player")
    return list(rows.order_by("player__family_name", "player__given_name", "label"))


def tickets_with(head: Head, actor: Actor) -> list[OrderClub]:
    """The clubs of open tickets that are built with this head, by due day."""
    rows = OrderClub.objects.filter(
        spec_club__head=head,
        revision__is_current=True,
        revision__order__location_id__in=actor.location_ids,
    ).exclude(revision__order__state__in=OVER)
    return list(
        rows.select_related("revision__order__visit__player").order_by(
            "revision__order__due_on", "revision__order__number", "slot"
        )
    )
