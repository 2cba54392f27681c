"""What a gauge found off has read, and who has a head that is recalled."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from uuid import UUID

from django.db.models import QuerySet

from fitshop.actor import Actor
from fitshop.selectors import the_shop
from fitshop.setting import Value
from orders.flow import OrderState
from orders.models import Gauge, OrderClub, Reading
from orders.models.bench import Stage
from orders.selectors.figures import Figure, figures_of, settings_of
from orders.selectors.gauges import gauge_found
from orders.selectors.orders import OVER
from orders.selectors.reading_words import reading_words
from sessions.models import Club, Head


@dataclass(slots=True)
class ClubRead:
    """One club of a ticket in force, and what the gauge read on it."""

    club: OrderClub
    readings: list[str] = field(default_factory=list)
    # Each reading less the error found, in the unit it is stored in; empty where none was found.
    put_right: list[Decimal] = field(default_factory=list)
    # What its figures as built would come to with the readings put right.
    figures: list[Figure] = field(default_factory=list)

    @property
    def is_out_of_the_house(self) -> bool:
        """True once it was handed over: the player has to be asked to bring it back."""
        return self.club.revision.order.state == OrderState.HANDED_OVER


def gauges_recalled(actor: Actor) -> QuerySet[Gauge]:
    """The gauges of the actor's locations, put away or not."""
    return Gauge.objects.filter(location_id__in=actor.location_ids).select_related("location")


def clubs_read_with(gauge: Gauge, actor: Actor) -> list[ClubRead]:
    """Each club read with this gauge since its last good check, newest ticket first.

    Of a gauge found off and then good again: what it read between the two good checks.
    Struck-out readings decided nothing and are left out; a gauge never good has read it all.
    """
    found = gauge_found(gauge)
    readings = Reading.objects.filter(gauge=gauge, struck_out_at=None)
    if found.since is not None:
        readings = readings.filter(read_at__gte=found.since)
    if found.until is not None:
        readings = readings.filter(read_at__lt=found.until)
    touched = set(readings.values_list("pk", flat=True))
    clubs = (
        OrderClub.objects.filter(
            readings__in=readings,
            revision__is_current=True,
            revision__order__location_id__in=actor.location_ids,
        )
        .exclude(revision__order__state=OrderState.CANCELLED)
        .select_related("revision__order__visit__player")
        .prefetch_related("readings__gauge", "concessions", "steps")
        .order_by("-revision__order__number", "slot")
        .distinct()
    )
    shop = the_shop()
    unit = shop.length_unit if shop is not None else "in"
    settings: dict[int, Mapping[str, Value]] = {}
    rows = []
    for club in clubs:
        version = club.revision.settings_version
        if version not in settings:
            settings[version] = settings_of(club.revision).values
        rows.append(_club_read(club, touched, found.error, settings[version], unit))
    return rows


def _club_read(
    club: OrderClub,
    touched: set[UUID],
    error: Decimal | None,
    settings: Mapping[str, Value],
    length_unit: str,
) -> ClubRead:
    """The club's row. The readings put right live on this row's copy only and are never saved."""
    mine = [reading for reading in club.readings.all() if reading.pk in touched]
    row = ClubRead(club, [reading_words(reading) for reading in mine])
    if error is None:
        return row
    for reading in mine:
        reading.value -= error
        row.put_right.append(reading.value)
    judged = {reading.measure for reading in mine if reading.stage == Stage.AS_BUILT}
    figures = figures_of(club, settings, length_unit=length_unit) if judged else []
    row.figures = [figure for figure in figures if figure.measure in judged]
    return row


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
