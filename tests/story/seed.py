"""Sets the story's shop up and reads its database, in a process of its own.

    python -m tests.story.seed shop             tables, static files, people, parts, gauges
    python -m tests.story.seed trace            what was audited, and a sum over each table's rows
    python -m tests.story.seed epoxy 2001       glue each club of the order, a day and more ago
    python -m tests.story.seed letters          kind and state of every letter

Only `shop` and `epoxy` change anything, and both through services. Sync Playwright holds an
event loop in the test's own process, where the ORM refuses to work.
"""

import hashlib
import json
import os
import sys
from datetime import timedelta
from decimal import Decimal
from typing import Any

import django


def main(arguments: list[str]) -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "fitshop.settings")
    django.setup()
    match arguments:
        case ["shop"]:
            print(json.dumps(_shop()))
        case ["trace"]:
            print(json.dumps(_trace()))
        case ["epoxy", number]:
            print(json.dumps(_epoxy(int(number))))
        case ["letters"]:
            print(json.dumps(_letters()))
        case _:
            raise SystemExit(__doc__)


def _shop() -> str:
    from django.core.management import call_command
    from django.db import transaction
    from django.utils import timezone

    from fitshop.actor import Role, system_actor
    from fitshop.services.staff import staff_enter
    from orders.demo.people import PASSWORD
    from orders.demo.shop import shop_loaded
    from orders.demo.stock import catalogue_loaded, equipment_loaded

    call_command("migrate", verbosity=0)
    call_command("collectstatic", interactive=False, verbosity=0)
    at = timezone.now()
    with transaction.atomic():
        location = shop_loaded(at)
        staff_enter(
            username="checker",
            display_name="Ruud Ahlgren",
            email="",
            password=PASSWORD,
            roles=[Role.BUILDER],
            locations=[location],
            by=system_actor("story"),
            at=at,
        )
        catalogue_loaded(at)
        equipment_loaded(location, at)
    return location.name


def _trace() -> dict[str, Any]:
    """How often each action was audited; for each model a sum that any change of a row moves."""
    from django.apps import apps
    from django.db.models import Count

    from fitshop.models import AuditEntry

    actions = AuditEntry.objects.order_by().values_list("action").annotate(Count("id"))
    sums = {}
    for label in ("shop", "fitting", "orders"):
        for model in apps.get_app_config(label).get_models():
            rows = model._default_manager.order_by("pk").values_list()
            seen = hashlib.sha256()
            for row in rows.iterator():
                seen.update(repr([_plain(value) for value in row]).encode())
            sums[model.__name__] = seen.hexdigest()
    return {"actions": dict(actions), "sums": sums}


def _plain(value: Any) -> Any:
    return bytes(value) if isinstance(value, memoryview) else value


def _epoxy(number: int) -> list[int]:
    """The builder mixes at 21 degrees, 26 hours ago: the resin's 24 hours of cure are over.

    A cure can't be waited for in a test, nor may it be typed away: the same service as the
    bench's page, with an earlier `at`.
    """
    from django.utils import timezone

    from fitshop.actor import Actor, ActorKind, Role
    from fitshop.models import Staff
    from orders.models import OrderClub, Resin
    from orders.services.bench import step_finish

    person = Staff.objects.get(username="builder")
    clubs = OrderClub.objects.filter(
        revision__order__number=number, revision__is_current=True, source="new"
    ).select_related("revision__order")
    for club in clubs:
        by = Actor(
            kind=ActorKind.STAFF,
            name=str(person),
            staff_id=person.pk,
            roles=frozenset({Role.BUILDER}),
            location_ids=frozenset({club.revision.order.location_id}),
        )
        step_finish(
            club=club,
            step="epoxy",
            values={
                "temperature_c": Decimal(21),
                "resin": Resin.objects.get(name="Harrow Slow"),
                "batch": "H 117",
                "expires_on": timezone.localdate() + timedelta(days=90),
            },
            by=by,
            at=timezone.now() - timedelta(hours=26),
        )
    return [club.slot for club in clubs]


def _letters() -> list[list[str]]:
    from fitshop.models import OutgoingMessage

    return [list(row) for row in OutgoingMessage.objects.values_list("kind", "status")]


if __name__ == "__main__":
    main(sys.argv[1:])
