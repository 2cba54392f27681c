"""Fills an empty database with the demo shop; a second run keeps what is there."""

from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from orders.demo.people import ACCOUNTS, PASSWORD, SHOP_NAME
from orders.demo.presence import is_whole


class Command(BaseCommand):
    help = "Load the demo shop. Refuses a database in which a real shop works."
    requires_system_checks = []  # they import every page: a second run is to be quick

    def handle(self, *args: Any, **options: Any) -> None:
        if not settings.DEMO:
            raise CommandError("The demo's password is known to all: set DEMO=1, here only.")
        at = timezone.now()
        if not is_whole(at):
            self._load(at)
        self.stdout.write(f"{SHOP_NAME}: sign in as {', '.join(ACCOUNTS[:-1])} or {ACCOUNTS[-1]},")
        self.stdout.write(f"each with the password: {PASSWORD}")

    def _load(self, at: Any) -> None:
        # Imported only now: the services bring what judges shots, which takes seconds to import.
        from orders.demo.loading import demo_loaded
        from orders.demo.shop import DemoRefused

        try:
            demo_loaded(at)
        except DemoRefused as refusal:
            raise CommandError(str(refusal)) from refusal
