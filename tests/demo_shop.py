"""The demo shop, loaded once for a module of tests: each test's own changes are rolled back."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from io import StringIO

import pytest
from django.core.management import call_command
from django.db import transaction
from django.test import override_settings
from django.utils import timezone


def load() -> str:
    """Run the command, as `DEMO=1` does; what it told."""
    told = StringIO()
    with override_settings(DEMO=True):
        call_command("load_demo", stdout=told)
    return told.getvalue()


@contextmanager
def demo_loaded(django_db_blocker, at: datetime | None = None) -> Iterator[None]:
    """Hold the demo in an outer transaction that is rolled back in the end."""
    with django_db_blocker.unblock():
        outer = transaction.atomic()
        outer.__enter__()
        try:
            with pytest.MonkeyPatch.context() as patch:
                if at is not None:
                    patch.setattr(timezone, "now", lambda: at)
                load()
        except BaseException:
            transaction.set_rollback(True)
            outer.__exit__(None, None, None)
            raise
    yield
    with django_db_blocker.unblock():
        transaction.set_rollback(True)
        outer.__exit__(None, None, None)
