"""Locking an order, and moving it or one of its clubs to another state."""

from __future__ import annotations

from fitshop.refusals import StateRefused
from orders.flow import ClubState, OrderState, can_move, refusal
from orders.models import BuildOrder, OrderClub, OrderRevision


def locked_order(order: BuildOrder) -> BuildOrder:
    """The order's row as it is now, locked until the transaction ends."""
    return (
        BuildOrder.objects.select_for_update(of=("self",))
        .select_related("visit__player", "location")
        .get(pk=order.pk)
    )


def current_revision(order: BuildOrder) -> OrderRevision:
    return order.revisions.select_related("spec").get(is_current=True)


def locked_club(club: OrderClub) -> tuple[BuildOrder, OrderClub]:
    """The club and its order, the order's row locked first: one lock, one order of locking."""
    order = locked_order(club.revision.order)
    row = OrderClub.objects.select_for_update(of=("self",)).get(pk=club.pk)
    if not OrderRevision.objects.filter(pk=row.revision_id, is_current=True).exists():
        raise StateRefused(
            "This ticket was replaced by a later revision. Fetch the new one from the bench."
        )
    return order, row


def order_follows(order: BuildOrder) -> None:
    """The order's state follows its clubs: begun, and all of them built. Saves the order.

    What waits for a part goes on waiting, whatever is done meanwhile on its other clubs.
    """
    if order.state == OrderState.RELEASED:
        order_move(order, OrderState.IN_BUILD)
    clubs = OrderClub.objects.filter(revision__order=order, revision__is_current=True)
    if (
        order.state in (OrderState.IN_BUILD, OrderState.REWORK)
        and not clubs.exclude(state=ClubState.TO_CHECK).exists()
    ):
        order_move(order, OrderState.TO_CHECK)
    order.save(update_fields=["state"])


def order_move(order: BuildOrder, to: OrderState) -> str:
    """Change the state in memory; answer the word it had. Raises StateRefused."""
    now = OrderState(order.state)
    if not can_move(now, to):
        raise StateRefused(refusal(now, to))
    order.state = to
    return now.value


def club_move(club: OrderClub, to: ClubState) -> str:
    """Change the club's state in memory; answer the word it had. Raises StateRefused."""
    now = ClubState(club.state)
    if not can_move(now, to):
        raise StateRefused(refusal(now, to))
    club.state = to
    return now.value
