"""The demo's shop: its location, bays and staff, or a refusal where a real shop is at work."""

from __future__ import annotations

from datetime import datetime

from fitshop.models import Bay, Location, Shop, Staff
from fitshop.selectors import audit_of, the_shop
from fitshop.services.places import bay_enter
from fitshop.services.staff import ShopIsSetUp, shop_set_up, staff_enter
from orders.demo.identity import DEMO_ACTOR, demo_id
from orders.demo.people import (
    BAYS,
    LOCATION_NAME,
    MANAGER,
    PASSWORD,
    SHOP_NAME,
    STAFF,
    ZONE,
)

SET_UP = "shop.shop.set_up"


class DemoRefused(Exception):
    """This database belongs to a real shop."""


def is_demo_shop(shop: Shop) -> bool:
    """Whether the demo set this shop up: the audit trail says so, whatever it is named now."""
    trail = audit_of(shop._meta.label_lower, str(shop.pk))
    return trail.filter(
        action=SET_UP, actor_kind=DEMO_ACTOR.kind.value, actor_name=DEMO_ACTOR.name
    ).exists()


def shop_loaded(at: datetime) -> Location:
    """Set up what is missing of the shop and return its location. Raises DemoRefused."""
    shop = the_shop()
    if shop is None:
        _set_up(at)
    elif not is_demo_shop(shop):
        raise DemoRefused(
            f"This database belongs to {shop.name}: the demo is never mixed into a real shop."
        )
    location = Location.objects.get(name=LOCATION_NAME)
    _bays(location, at)
    _staff(location, at)
    return location


def _set_up(at: datetime) -> None:
    username, display_name = MANAGER
    try:
        shop_set_up(
            shop_name=SHOP_NAME,
            location_name=LOCATION_NAME,
            zone=ZONE,
            length_unit=Shop.LengthUnit.INCHES,
            carry_unit=Shop.CarryUnit.YARDS,
            paper=Shop.Paper.A4,
            username=username,
            display_name=display_name,
            password=PASSWORD,
            by=DEMO_ACTOR,
            at=at,
        )
    except ShopIsSetUp as refusal:
        raise DemoRefused(
            "Someone can sign in here already: the demo begins with an empty database."
        ) from refusal


def _bays(location: Location, at: datetime) -> None:
    known = set(Bay.objects.filter(location=location).values_list("name", flat=True))
    for name, is_indoors in BAYS:
        if name not in known:
            bay_enter(
                bay_id=demo_id("bay", name),
                location=location,
                name=name,
                is_indoors=is_indoors,
                by=DEMO_ACTOR,
                at=at,
            )


def _staff(location: Location, at: datetime) -> None:
    known = set(Staff.objects.values_list("username", flat=True))
    for username, display_name, roles in STAFF:
        if username not in known:
            staff_enter(
                username=username,
                display_name=display_name,
                email="",
                password=PASSWORD,
                roles=roles,
                locations=[location],
                by=DEMO_ACTOR,
                at=at,
            )
