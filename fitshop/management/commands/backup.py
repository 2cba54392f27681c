"""Copy the shop's database into one file while it runs, and check the copy."""

import os
import sqlite3
import subprocess
from contextlib import closing
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db import connection
from django.utils import timezone


class Command(BaseCommand):
    help = "Back up the database to a file under var/backups, or to the file named."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--to", type=Path, help="the file to write; it must not exist")

    def handle(self, *args: Any, to: Path | None = None, **options: Any) -> None:
        ending = "sqlite3" if connection.vendor == "sqlite" else "pgdump"
        stamp = f"{timezone.now():%Y%m%d-%H%M%S}"
        target = to or Path(settings.VAR_DIR) / "backups" / f"fitshop-{stamp}.{ending}"
        if target.exists():
            raise CommandError(f"{target} exists already.")
        target.parent.mkdir(parents=True, exist_ok=True)
        unfinished = target.with_name(target.name + ".part")
        unfinished.touch(mode=0o600)
        try:
            if connection.vendor == "sqlite":
                self._copy_sqlite(unfinished)
            else:
                self._dump_postgresql(unfinished)
            unfinished.replace(target)
        finally:
            unfinished.unlink(missing_ok=True)
        self.stdout.write(f"Backed up to {target} ({target.stat().st_size:,} bytes).")

    def _copy_sqlite(self, target: Path) -> None:
        """SQLite's own online backup: whole, even while someone writes."""
        connection.ensure_connection()
        with closing(sqlite3.connect(target)) as copy:
            connection.connection.backup(copy)
            (verdict,) = copy.execute("PRAGMA integrity_check").fetchone()
        if verdict != "ok":
            raise CommandError(f"The copy is damaged: {verdict}")

    def _dump_postgresql(self, target: Path) -> None:
        """pg_dump's custom format, then its table of contents read back."""
        known = connection.settings_dict
        named = {"PGHOST": "HOST", "PGPORT": "PORT", "PGUSER": "USER", "PGPASSWORD": "PASSWORD"}
        environment = os.environ | {
            variable: str(known[key]) for variable, key in named.items() if known[key]
        }
        for command in (
            ["pg_dump", "--format=custom", f"--file={target}", str(known["NAME"])],
            ["pg_restore", "--list", str(target)],
        ):
            try:
                subprocess.run(command, env=environment, check=True, stdout=subprocess.DEVNULL)
            except FileNotFoundError:
                raise CommandError("pg_dump is missing: install PostgreSQL's client.") from None
            except subprocess.CalledProcessError as error:
                raise CommandError(f"{command[0]} failed ({error.returncode}).") from None
