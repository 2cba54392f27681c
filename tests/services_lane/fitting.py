"""A whole fitting in the shop's own database, through its services, in a process of its own.

    python -m tests.services_lane.fitting closed       shop, parts, players; one of them fitted
    python -m tests.services_lane.fitting worn         clubs handed over, more than a year played

The invented player of the demo is interviewed, hits every ball, and his visit is closed: that
queues the summary. Prints the visit's id. The test's process has no database of its own to touch.
"""

import os
import sys

import django


def main(arguments: list[str]) -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "fitshop.settings")
    django.setup()
    match arguments:
        case ["closed"]:
            print(_closed())
        case ["worn"]:
            print(_worn())
        case _:
            raise SystemExit(__doc__)


def _closed() -> str:
    from django.db import transaction
    from django.utils import timezone

    from orders.demo.closed_visit import first_fitting_loaded
    from orders.demo.diary import players_loaded
    from orders.demo.first_fitting import PLAYER
    from orders.demo.presence import FIRST_FITTING_ID
    from orders.demo.shop import shop_loaded
    from orders.demo.stock import catalogue_loaded, equipment_loaded

    at = timezone.now()
    with transaction.atomic():
        location = shop_loaded(at)
        catalogue_loaded(at)
        equipment_loaded(location, at)
        players = players_loaded(at)
        first_fitting_loaded(location, players[PLAYER], at)
    return str(FIRST_FITTING_ID)


def _worn() -> str:
    """An order handed over 400 days ago to a player of 70 rounds a year; the order's id."""
    from datetime import timedelta

    from django.db import transaction
    from django.utils import timezone

    from orders.models import BuildOrder
    from orders.services.hand_over import order_hand_over, order_ready
    from sessions.models import Answer, Interview
    from tests.order_room import AT, CURED, Workshop

    with transaction.atomic():
        room = Workshop()
        room.agree_to_mail()
        interview = Interview.objects.create(visit=room.visit, started_at=AT)
        Answer.objects.create(
            interview=interview, sequence=1, question="rounds_a_year", value="70", said_at=AT,
            recorded_by="Mara Quill",
        )  # fmt: skip
        order = order_ready(order=room.passed(), by=room.desk, at=CURED)
        order_hand_over(order=order, how="collected", by=room.desk, at=CURED)
        long_ago = timezone.now() - timedelta(days=400)
        BuildOrder.objects.filter(pk=order.pk).update(handed_over_at=long_ago)
    return str(order.pk)


if __name__ == "__main__":
    main(sys.argv[1:])
