"""Loads the whole demo in one transaction: all of it is there, or none."""

from __future__ import annotations

from datetime import datetime

from django.db import transaction

from orders.demo.closed_visit import first_fitting_loaded
from orders.demo.diary import diary_loaded, players_loaded
from orders.demo.first_fitting import PLAYER
from orders.demo.presence import is_first_fitting_over
from orders.demo.shop import shop_loaded
from orders.demo.stock import catalogue_loaded, equipment_loaded


@transaction.atomic
def demo_loaded(at: datetime) -> None:
    """Load what is missing. Raises DemoRefused in a real shop's database."""
    location = shop_loaded(at)
    catalogue_loaded(at)
    equipment_loaded(location, at)
    players = players_loaded(at)
    if not is_first_fitting_over():
        first_fitting_loaded(location, players[PLAYER], at)
    diary_loaded(location, players, at)
