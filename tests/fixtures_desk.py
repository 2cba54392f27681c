"""A small invented shop for the desk's tests: one location with two bays, and its people."""

import datetime as dt
import uuid
from dataclasses import dataclass
from typing import Any

from fitshop.actor import Actor, ActorKind, Role, system_actor
from fitshop.models import Bay, Location, Staff
from fitshop.services.staff import shop_set_up, staff_enter
from sessions.models import Player, Visit
from sessions.services.players import player_register
from sessions.services.visits import visit_book

# A Tuesday in winter: Dublin's clock is UTC.
AT = dt.datetime(2027, 3, 2, 9, 30, tzinfo=dt.UTC)
TEN = dt.datetime(2027, 3, 2, 10, 0, tzinfo=dt.UTC)
PASSWORD = "turf under the nails"
CLOCKWORK = system_actor("a test")


@dataclass
class Desk:
    location: Location
    bay: Bay
    strip: Bay
    odo: Staff

    def actor(self, *roles: Role, at: Location | None = None) -> Actor:
        return Actor(
            kind=ActorKind.STAFF,
            name="Mara Quill",
            roles=frozenset(roles),
            location_ids=frozenset({(at or self.location).pk}),
        )

    def book(self, player: Player, **changes: Any) -> Visit:
        values = {
            "location": self.location,
            "bay": self.bay,
            "fitter": None,
            "starts_at": TEN,
            "minutes": 60,
        }
        return visit_book(player=player, **(values | changes), by=CLOCKWORK, at=AT)


def a_desk() -> Desk:
    shop_set_up(
        shop_name="Larkhill",
        location_name="Larkhill range",
        zone="Europe/Dublin",
        length_unit="in",
        carry_unit="yd",
        paper="A4",
        username="mara",
        display_name="Mara Quill",
        password=PASSWORD,
        by=CLOCKWORK,
        at=AT,
    )
    location = Location.objects.get()
    odo = staff_enter(
        username="odo",
        display_name="Odo Lark",
        email="",
        password=PASSWORD,
        roles=[Role.FITTER],
        locations=[location],
        by=CLOCKWORK,
        at=AT,
    )
    strip = Bay.objects.create(location=location, name="Grass strip")
    return Desk(location, Bay.objects.get(name="Bay 1"), strip, odo)


def elsewhere() -> Location:
    location = Location.objects.create(name="Fellside", zone="Europe/Lisbon")
    Bay.objects.create(location=location, name="Bay 1")
    return location


def a_player(given: str = "Imke", family: str = "Brandvold", **values: Any) -> Player:
    return player_register(
        player_id=values.pop("player_id", None),
        values={"given_name": given, "family_name": family, "hand": "right", "kind": "woman"}
        | values,
        by=CLOCKWORK,
        at=AT,
    )


def typed_player(**changes: str) -> dict[str, str]:
    """What a browser sends from the player's form."""
    return {
        "id": str(uuid.uuid4()),
        "given_name": "Imke",
        "family_name": "Brandvold",
        "hand": "right",
        "kind": "woman",
        "carry_unit": "yd",
    } | changes
