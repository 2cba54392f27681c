"""A whole fitting in the shop's own database, through its services, in a process of its own.

    python -m tests.services_lane.fitting closed    shop, parts, players; one of them fitted

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


if __name__ == "__main__":
    main(sys.argv[1:])
