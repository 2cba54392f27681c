"""Send the letters that are due: one sweep, or with --every a sweep every so many seconds."""

import logging
import signal
import threading
from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.db import DatabaseError, close_old_connections
from django.utils import timezone

from fitshop.actor import system_actor
from fitshop.services.mail_transport import transport_in_force
from fitshop.services.sweep import sweep

logger = logging.getLogger(__name__)


class Command(BaseCommand):
    help = "Send the letters that are due."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--every", type=float, help="go on, with this pause in seconds")

    def handle(self, *args: Any, every: float | None = None, **options: Any) -> None:
        if every is None:
            self.stdout.write(f"Letters now: {self._swept()}")
            return
        enough = threading.Event()
        for number in (signal.SIGTERM, signal.SIGINT):
            signal.signal(number, lambda *_: enough.set())
        while not enough.is_set():
            try:
                self._swept()
            except DatabaseError:  # the rows wait; so does this
                logger.exception("The sweep could not reach the database.")
            finally:
                close_old_connections()
            enough.wait(every)

    def _swept(self) -> str:
        done = sweep(
            transport=transport_in_force(), clock=timezone.now, by=system_actor("message sweep")
        )
        return str(done)
