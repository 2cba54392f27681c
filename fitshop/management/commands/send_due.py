"""Run the clockwork: each work once, or with --loop each at its own period until stopped."""

import logging
import signal
import threading
import time
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db import close_old_connections
from django.utils.module_loading import import_string

from fitshop.clockwork import Rounds, Work

logger = logging.getLogger(__name__)


class Command(BaseCommand):
    help = "Queue the reminders and send the letters that are due."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--loop", action="store_true", help="go on, each at its own period")

    def handle(self, *args: Any, loop: bool = False, **options: Any) -> None:
        if loop:
            self._loop()
            return
        failed = []
        for work in settings.CLOCKWORK:
            if self._ran(work):
                self.stdout.write(f"Done: {work.name}.")
            else:
                failed.append(work.name)
        if failed:
            raise CommandError(f"Failed: {', '.join(failed)}. The log says why.")

    def _loop(self) -> None:
        enough = threading.Event()
        for number in (signal.SIGTERM, signal.SIGINT):
            signal.signal(number, lambda *_: enough.set())
        rounds = Rounds(settings.CLOCKWORK)
        while not enough.is_set():
            for work in rounds.due(time.monotonic()):
                if enough.is_set():
                    return
                self._ran(work)
                close_old_connections()
                rounds.ran(work, time.monotonic())
            enough.wait(rounds.pause(time.monotonic()))

    def _ran(self, work: Work) -> bool:
        """Run one work; a failure is logged and must not stop the others."""
        try:
            import_string(work.runs)()
        except Exception:
            logger.exception("The clockwork failed to %s.", work.name)
            return False
        return True
