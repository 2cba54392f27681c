"""Sets up and counts what a browser test needs, in a process of its own and through services.

    python -m tests.browser.seed shop             database, static files, staff, trial equipment
    python -m tests.browser.seed visits 20        walk-ins, open, with a bag: their ids as JSON
    python -m tests.browser.seed count VISIT      how many rows of each kind the visit has
    python -m tests.browser.seed pages            the demo shop, and where each page of it stands

Sync Playwright holds an event loop in the test's own process, where the ORM refuses to work.
"""

import json
import os
import sys
from uuid import UUID, uuid4

import django

from tests.browser.pages import demo_pages


def main(arguments: list[str]) -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "fitshop.settings")
    django.setup()
    match arguments:
        case ["shop"]:
            print(json.dumps(_shop()))
        case ["visits", count]:
            print(json.dumps([_visit() for _ in range(int(count))]))
        case ["count", visit_id]:
            print(json.dumps(_count(UUID(visit_id))))
        case ["pages"]:
            print(json.dumps(demo_pages(_visit()["visit"])))
        case _:
            raise SystemExit(__doc__)


def _shop() -> str:
    from django.core.management import call_command
    from django.db import transaction
    from django.utils import timezone

    from orders.demo.shop import shop_loaded
    from orders.demo.stock import catalogue_loaded, equipment_loaded

    call_command("migrate", verbosity=0)
    call_command("collectstatic", interactive=False, verbosity=0)
    at = timezone.now()
    with transaction.atomic():
        location = shop_loaded(at)
        catalogue_loaded(at)
        equipment_loaded(location, at)
    return location.name


def _visit() -> dict[str, str]:
    from django.utils import timezone

    from fitshop.actor import Actor, ActorKind, Role
    from fitshop.models import Bay, Staff
    from sessions.services.bag import bag_club_record
    from sessions.services.players import player_register
    from sessions.services.visits import visit_book

    at = timezone.now()
    person = Staff.objects.get(username="fitter")
    bay = Bay.objects.order_by("name").first()
    assert bay is not None
    by = Actor(
        kind=ActorKind.STAFF,
        name=str(person),
        staff_id=person.pk,
        roles=frozenset({Role.FITTER, Role.DESK}),
        location_ids=frozenset({bay.location_id}),
    )
    player = player_register(
        values={
            "given_name": "Maren", "family_name": f"Holtby {uuid4().hex[:4]}", "hand": "right",
            "kind": "woman", "carry_unit": "yd",
        },
        by=by,
        at=at,
    )  # fmt: skip
    visit = visit_book(
        player=player, location=bay.location, bay=None, fitter=None, starts_at=at, minutes=90,
        is_walk_in=True, by=by, at=at,
    )  # fmt: skip
    bag_club_record(
        visit=visit,
        entry_id=uuid4(),
        club_id=uuid4(),
        values={"kind": "pitching_wedge", "label": "Old pitching wedge", "loft_deg": 46},
        by=by,
        at=at,
    )
    return {"visit": str(visit.pk), "player": str(player.pk), "name": str(player)}


def _count(visit_id: UUID) -> dict[str, int]:
    from sessions.models import (
        Answer,
        BagEntry,
        Block,
        Command,
        Rating,
        Shot,
        ShotExclusion,
        Trial,
    )

    return {
        "answers": Answer.objects.filter(interview__visit=visit_id).count(),
        "bag_entries": BagEntry.objects.filter(visit=visit_id).count(),
        "blocks": Block.objects.filter(trial__visit=visit_id).count(),
        "commands": Command.objects.filter(visit=visit_id).count(),
        "exclusions": ShotExclusion.objects.filter(shot__block__trial__visit=visit_id).count(),
        "ratings": Rating.objects.filter(visit=visit_id).count(),
        "shots": Shot.objects.filter(block__trial__visit=visit_id).count(),
        "trials": Trial.objects.filter(visit=visit_id).count(),
    }


if __name__ == "__main__":
    main(sys.argv[1:])
