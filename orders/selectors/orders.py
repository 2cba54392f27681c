"""Orders and their clubs, as far as an actor may see them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from uuid import UUID

from django.db.models import Count, Prefetch, Q, QuerySet

from fitshop.actor import Actor
from orders.flow import OrderState
from orders.models import BuildOrder, Check, Gauge, OrderClub, OrderRevision, PartsWait
from orders.policy import ORDER_POLICY, OrderAction
from sessions.models import FinalSpec, Visit
from sessions.selectors.clubs_owned import BuiltKey, LoftBuilt

OVER = (OrderState.HANDED_OVER, OrderState.CANCELLED)
WRITTEN = re.compile(r"\b(\d{3,7})\b(?:\s*([a-z])\b)?", re.IGNORECASE)
# The address in a ticket's code, and an order's page copied from a browser. A port is no number.
ADDRESS = re.compile(
    r"https?://[^/\s]+/(?:t|orders)/(\d{3,7})\b(?:(?:/|\?rev=)([a-z])\b)?", re.IGNORECASE
)


def orders_for(actor: Actor) -> QuerySet[BuildOrder]:
    """The orders of the actor's locations, with their current revision and clubs at hand."""
    if not ORDER_POLICY.is_allowed(actor, OrderAction.ORDER_VIEW):
        return BuildOrder.objects.none()
    current = OrderRevision.objects.filter(is_current=True).prefetch_related("clubs")
    return (
        BuildOrder.objects.filter(location_id__in=actor.location_ids)
        .select_related("visit__player", "location")
        .prefetch_related(
            Prefetch("revisions", queryset=current, to_attr="in_force"),
            Prefetch(
                "waits", queryset=PartsWait.objects.filter(arrived_at=None), to_attr="open_waits"
            ),
        )
    )


def bench_orders(actor: Actor) -> QuerySet[BuildOrder]:
    """What is still to be done, by due date."""
    return orders_for(actor).exclude(state__in=OVER).order_by("due_on", "number")


def open_wait(order: BuildOrder) -> PartsWait | None:
    """What an order waits for now."""
    return order.waits.filter(arrived_at=None).first()


def order_for(actor: Actor, number: int) -> BuildOrder | None:
    return orders_for(actor).filter(number=number).first()


def revision_for(actor: Actor, number: int, letter: str = "") -> OrderRevision | None:
    """The named revision, or the one in force."""
    order = order_for(actor, number)
    if order is None:
        return None
    revisions = order.revisions.select_related("order__location", "order__visit__player")
    return (
        revisions.filter(letter=letter) if letter else revisions.filter(is_current=True)
    ).first()


def club_for(actor: Actor, number: int, slot: int) -> OrderClub | None:
    """One club of the revision in force."""
    if order_for(actor, number) is None:
        return None
    return (
        OrderClub.objects.filter(
            revision__order__number=number, revision__is_current=True, slot=slot
        )
        .select_related("revision__order__location", "spec_club")
        .prefetch_related(
            "revision__order__permanent_facts", "steps", "readings__gauge", "concessions"
        )
        .first()
    )


@dataclass(frozen=True, slots=True)
class Sheet:
    """A ticket as its code names it; `letter` is empty where none was typed."""

    number: int
    letter: str


def sheet_typed(text: str) -> Sheet | None:
    """The ticket in what was typed or scanned: `2041`, `ORDER 2041 B`, an address."""
    is_address = re.match(r"\s*https?://", text, re.IGNORECASE)
    found = (ADDRESS if is_address else WRITTEN).search(text.strip())
    return Sheet(int(found[1]), (found[2] or "").upper()) if found else None


def number_typed(text: str) -> int | None:
    """The ticket number in what was typed or scanned."""
    sheet = sheet_typed(text)
    return sheet.number if sheet is not None else None


def sheet_refusal(order: BuildOrder, letter: str) -> str:
    """Why nobody builds from this sheet of an order; empty for the sheet in force."""
    current = order.revisions.get(is_current=True).letter
    if letter in ("", current):
        return ""
    if not order.revisions.filter(letter=letter).exists():
        return f"There is no sheet {order.number} {letter}. {order.number} {current} is in force."
    return (
        f"Sheet {order.number} {letter} was replaced by {current}. "
        f"Build from {current}; throw {letter} away."
    )


def orders_found(actor: Actor, text: str) -> QuerySet[BuildOrder]:
    """By ticket number, or by any part of the player's name."""
    typed = text.strip()
    number = number_typed(typed)
    if number is not None:
        return orders_for(actor).filter(number=number)
    if len(typed) < 2:
        return orders_for(actor).none()
    return (
        orders_for(actor)
        .filter(visit__player__search_text__contains=typed.lower())
        .order_by("-number")
    )


def gauges_for(actor: Actor, measure: str) -> QuerySet[Gauge]:
    return Gauge.objects.filter(location_id__in=actor.location_ids, measure=measure, in_use=True)


def order_of_visit(visit: Visit) -> BuildOrder | None:
    """The order in force of a visit."""
    return visit.build_orders.exclude(state=OrderState.CANCELLED).first()


def spec_to_order(visit: Visit) -> FinalSpec | None:
    return visit.specs.filter(state="signed").first()


def visit_for(actor: Actor, visit_id: UUID) -> Visit | None:
    """The visit of this id, or the visit whose spec has it: the spec's page knows its spec."""
    if not ORDER_POLICY.is_allowed(actor, OrderAction.ORDER_VIEW):
        return None
    here = Visit.objects.filter(location_id__in=actor.location_ids)
    return here.filter(Q(pk=visit_id) | Q(specs=visit_id)).distinct().first()


def player_orders(actor: Actor, player_id: UUID) -> QuerySet[BuildOrder]:
    return orders_for(actor).filter(visit__player_id=player_id).order_by("-number")


def lofts_built(actor: Actor, player_id: UUID) -> dict[BuiltKey, LoftBuilt]:
    """The loft of every club of this player's that was handed over, by its order and slot."""
    orders = player_orders(actor, player_id).filter(handed_over_at__isnull=False)
    rows = OrderClub.objects.filter(
        revision__order__in=orders.order_by(),
        revision__is_current=True,
        as_built_loft_deg__isnull=False,
    ).select_related("revision__order")
    return {
        (row.revision.order_id, row.slot): LoftBuilt(row.as_built_loft_deg, handed_over_at)
        for row in rows
        if (handed_over_at := row.revision.order.handed_over_at) is not None
    }


def rework_causes(actor: Actor) -> list[tuple[str, int]]:
    """How often each cause sent clubs back, most often first."""
    rows = (
        Check.objects.filter(
            result=Check.Result.REWORK, revision__order__location_id__in=actor.location_ids
        )
        .values_list("cause")
        .annotate(times=Count("id"))
        .order_by("-times", "cause")
    )
    return [(cause, times) for cause, times in rows]


def turnarounds(actor: Actor) -> list[tuple[int, float]]:
    """(ticket number, days from release to the shelf), newest first."""
    rows = (
        orders_for(actor)
        .filter(released_at__isnull=False, ready_at__isnull=False)
        .order_by("-ready_at")
        .values_list("number", "released_at", "ready_at")
    )
    return [
        (number, (ready_at - released_at).total_seconds() / 86400)
        for number, released_at, ready_at in rows[:50]
        if ready_at is not None and released_at is not None
    ]
