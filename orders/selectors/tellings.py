"""What was done to tell a player, and where it stands now: read from the letter's own row."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from uuid import UUID

from django.db.models import QuerySet

from fitshop.models import MessageStatus
from orders.models import BuildOrder, Telling
from orders.rules.telling import Attempt, How, Standing, standing_of


@dataclass(frozen=True, slots=True)
class Told:
    """One order on the shelf: its tellings, oldest first, and where they stand."""

    order: BuildOrder
    tellings: tuple[Telling, ...]
    standing: Standing

    @property
    def is_told(self) -> bool:
        return self.standing is Standing.TOLD

    @property
    def by(self) -> Telling | None:
        """The first telling that counts."""
        return next((each for each in self.tellings if _attempt(each).counts()), None)

    @property
    def calls(self) -> int:
        return sum(telling.how != How.LETTER for telling in self.tellings)

    @property
    def offered_first(self) -> str:
        """How to tell now: as the order asks, and by telephone once a letter failed."""
        return self.order.tell_by or How.TELEPHONE.value


def told_of(order: BuildOrder) -> Told:
    return tolds_of([order])[0]


def tolds_of(orders: Iterable[BuildOrder]) -> list[Told]:
    """Read the tellings of all orders with one question."""
    rows = list(orders)
    by_order: dict[UUID, list[Telling]] = {row.pk: [] for row in rows}
    for telling in _with_letters().filter(order__in=rows):
        by_order[telling.order_id].append(telling)
    return [
        Told(row, tuple(by_order[row.pk]), standing_of([_attempt(one) for one in by_order[row.pk]]))
        for row in rows
    ]


def letter_under_way(order: BuildOrder) -> Telling | None:
    """A letter that waits, is being sent, or may have left: another one would double it."""
    open_states = [MessageStatus.PENDING, MessageStatus.SENDING, MessageStatus.UNKNOWN]
    return _with_letters().filter(order=order, letter__status__in=open_states).last()


def _attempt(telling: Telling) -> Attempt:
    letter = telling.letter.status if telling.letter is not None else None
    return Attempt(telling.how, telling.outcome, letter)


def _with_letters() -> QuerySet[Telling]:
    return Telling.objects.select_related("letter").defer(
        "letter__body_text", "letter__body_html", "letter__attachments"
    )
