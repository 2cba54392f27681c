"""A backup is worth what can be restored from it."""

import os
import sqlite3
import stat
import subprocess

import psycopg
import pytest

from tests.lanes import postgresql_folder
from tests.services_lane.conftest import states

pytestmark = pytest.mark.services_lane


def test_a_small_shops_backup_opens_as_a_whole_database(small_shop, tmp_path):
    small_shop.queue("kept")
    copy = tmp_path / "copy.sqlite3"
    small_shop.manage("backup", f"--to={copy}")
    with sqlite3.connect(copy) as line:
        found = line.execute("select occasion from shop_outgoingmessage").fetchall()
    assert found == [("kept",)]
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    with pytest.raises(subprocess.CalledProcessError):
        small_shop.manage("backup", f"--to={copy}")  # never over an older one


def test_a_real_shops_backup_is_restored_into_an_empty_database(shop, database, tmp_path):
    shop.queue("kept")
    copy = tmp_path / "copy.pgdump"
    shop.environment["PATH"] = f"{postgresql_folder()}:{os.environ['PATH']}"
    shop.manage("backup", f"--to={copy}")
    with psycopg.connect(database.url, autocommit=True) as line:
        line.execute("drop database if exists restored")
        line.execute("create database restored")
    restored = database.url.rsplit("/", 1)[0] + "/restored"
    subprocess.run(
        [f"{postgresql_folder()}/pg_restore", "--exit-on-error", "-d", restored, str(copy)],
        check=True,
    )
    assert states(restored) == {"kept": "pending"}
