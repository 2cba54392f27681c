"""Fills an empty database with the demo shop; a second run keeps what is there."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.db import transaction
from django.utils import timezone

from orders.demo.diary import diary_loaded, is_first_fitting_over, players_loaded
from orders.demo.first_fitting import PLAYER
from orders.demo.people import ACCOUNTS, PASSWORD, SHOP_NAME
from orders.demo.shop import DemoRefused, shop_loaded
from orders.demo.stock import catalogue_loaded, equipment_loaded


class Command(BaseCommand):
    help = "Load the demo shop. Refuses a database in which a real shop works."
    requires_system_checks = []  # they import every page: a second run has a second to spend

    def handle(self, *args: Any, **options: Any) -> None:
        at = timezone.now()
        try:
            with transaction.atomic():
                location = shop_loaded(at)
                catalogue_loaded(at)
                equipment_loaded(location, at)
                players = players_loaded(at)
                if not is_first_fitting_over():
                    # Only now: what judges shots takes a second to import.
                    from orders.demo.closed_visit import first_fitting_loaded

                    first_fitting_loaded(location, players[PLAYER], at)
                diary_loaded(location, players, at)
        except DemoRefused as refusal:
            raise CommandError(str(refusal)) from refusal
        self.stdout.write(f"{SHOP_NAME}: sign in as {', '.join(ACCOUNTS[:-1])} or {ACCOUNTS[-1]},")
        self.stdout.write(f"each with the password: {PASSWORD}")
