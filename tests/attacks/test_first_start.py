"""A shop that is not set up yet, or is started in a way that would let strangers in."""

import os
import subprocess
import sys
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from fitshop.models import Staff
from fitshop.selectors import first_start_code
from tests.fixtures_desk import a_desk

HOUSE = Path(__file__).resolve().parents[2]
A_KEY = "a long random text of this very shop, 0123456789 abcdefghij"


def started(*arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run a command with this environment alone."""
    return subprocess.run(
        [sys.executable, "manage.py", *arguments],
        cwd=HOUSE,
        env={"PATH": os.environ["PATH"], **environment},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


@pytest.mark.django_db
def test_migrate_prints_the_code_until_there_is_a_shop():
    told = StringIO()
    call_command("migrate", stdout=told)
    assert first_start_code() in told.getvalue()
    a_desk()
    assert first_start_code() is None
    told = StringIO()
    call_command("migrate", stdout=told)
    assert "code" not in told.getvalue()


@pytest.mark.django_db
def test_the_code_is_another_under_another_key(settings):
    here = first_start_code()
    settings.SECRET_KEY = A_KEY
    assert first_start_code() != here


@pytest.mark.django_db
def test_the_demo_is_not_loaded_into_a_real_shop(settings):
    settings.DEMO = False
    with pytest.raises(CommandError):
        call_command("load_demo", stdout=StringIO())
    assert not Staff.objects.exists()


@pytest.mark.parametrize("host", ["0.0.0.0", "192.0.2.7", "::"])
def test_nobody_else_is_let_in_before_the_shop_has_a_name_and_a_key(host, tmp_path):
    done = started("serve", "--host", host, "--port", "0", FITSHOP_VAR=str(tmp_path))
    assert done.returncode != 0
    assert "FITSHOP_HOSTS" in done.stderr


@pytest.mark.parametrize(
    ("wrong", "named"),
    [
        ({"FITSHOP_SECRET_KEY": ""}, "FITSHOP_SECRET_KEY"),
        ({"FITSHOP_SECRET_KEY": "short"}, "FITSHOP_SECRET_KEY"),
        ({"FITSHOP_SECRET_KEY": "ab" * 40}, "FITSHOP_SECRET_KEY"),
        ({"FITSHOP_DEBUG": "1"}, "FITSHOP_DEBUG"),
        ({"FITSHOP_HTTPS": "0"}, "FITSHOP_HTTPS"),
        ({"DEMO": "1"}, "DEMO"),
    ],
)
def test_a_shop_on_the_network_does_not_start_unsafely(wrong, named, tmp_path):
    safe = {
        "FITSHOP_HOSTS": "shop.example.org",
        "FITSHOP_SECRET_KEY": A_KEY,
        "FITSHOP_VAR": str(tmp_path),
    }
    assert started("check", **safe).returncode == 0
    done = started("check", **(safe | wrong))
    assert done.returncode != 0
    assert named in done.stderr
