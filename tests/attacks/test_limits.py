"""What nobody who uses the pages sends: refused before it costs anything, and never a fault."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from allauth.core import context
from allauth.mfa.adapter import get_adapter
from allauth.mfa.models import Authenticator
from allauth.mfa.totp.internal import auth as totp
from django.core.cache import cache
from django.urls import reverse

from fitshop.models import Staff
from tests.fixtures_desk import a_desk

HOUSE = Path(__file__).resolve().parents[2]
pytestmark = pytest.mark.django_db


@pytest.fixture
def fitter(client, settings):
    settings.DEMO = True
    cache.clear()
    client.force_login(a_desk().odo)
    return client


class Unread:
    """A body that fails the test if somebody reads it."""

    def read(self, *_):
        raise AssertionError("the body was read")

    readline = read


def test_a_body_past_the_limit_is_refused_unread(fitter, settings):
    answer = fitter.generic(
        "POST",
        reverse("player_new"),
        CONTENT_LENGTH=str(settings.MOST_BODY_BYTES + 1),
        **{"wsgi.input": Unread()},
    )
    assert answer.status_code == 413


@pytest.mark.parametrize("stated", ["-1", "a lot", "1e9"])
def test_a_length_that_is_none_is_refused(fitter, stated):
    assert fitter.get("/", CONTENT_LENGTH=stated).status_code == 413


@pytest.mark.parametrize("name", ["players", "search", "messages", "today"])
def test_nul_in_a_search_is_a_refusal(fitter, name):
    assert fitter.get(reverse(name), {"q": "im\x00ke", "day": "2027\x00"}).status_code == 400


def test_nul_in_a_form_is_a_refusal(fitter):
    assert fitter.post(reverse("player_new"), {"given_name": "Im\x00ke"}).status_code == 400


@pytest.mark.parametrize("depth", [21, 900, 20_000, 200_000])
def test_json_nested_without_end_is_not_understood(fitter, depth):
    body = '{"commands": ' + "[" * depth + "]" * depth + "}"
    url = reverse("visit_commands", args=["00000000-0000-4000-8000-000000000000"])
    answer = fitter.post(url, body, content_type="application/json")
    assert answer.status_code in {400, 404}


def test_signing_out_clears_the_cache_and_never_what_was_recorded(fitter):
    answer = fitter.post(reverse("account_logout"))
    assert answer["Clear-Site-Data"] == '"cache"'


def test_no_page_asks_for_a_place_or_a_microphone(fitter):
    policy = fitter.get("/")["Permissions-Policy"]
    assert {"geolocation=()", "microphone=()", "camera=(self)"} <= set(policy.split(", "))


def test_the_secret_of_a_factor_is_sealed_and_still_checks_codes(rf, settings):
    a_desk()
    cache.clear()
    with context.request_context(rf.get("/")):
        secret = totp.generate_totp_secret()
        device = totp.TOTP.activate(Staff.objects.get(username="odo"), secret)
        stored = json.dumps(Authenticator.objects.get().data)
        assert secret not in stored
        [counter] = totp.yield_hotp_counters_from_time()
        assert device.validate_code(totp.format_hotp_value(totp.hotp_value(secret, counter)))
        adapter = get_adapter()
        assert adapter.decrypt("AN OLD PLAIN SECRET") == "AN OLD PLAIN SECRET"
        sealed = adapter.encrypt(secret)
        settings.SECRET_KEY_FALLBACKS = [settings.SECRET_KEY]
        settings.SECRET_KEY = "another long random text of this shop, 0123456789 and more"
        assert adapter.decrypt(sealed) == secret


ON_THE_NETWORK = """
from django.conf import settings
print(settings.SESSION_COOKIE_NAME, settings.CSRF_COOKIE_NAME,
      getattr(settings, "SECURE_HSTS_PRELOAD", False), settings.SECURE_HSTS_SECONDS > 0)
"""


def test_on_the_network_no_other_host_can_set_its_cookies():
    done = subprocess.run(
        [sys.executable, "manage.py", "shell", "--no-imports", "-c", ON_THE_NETWORK],
        cwd=HOUSE,
        env={
            "FITSHOP_HOSTS": "shop.example.org",
            "FITSHOP_SECRET_KEY": "for this test only " * 4,
            "PATH": "",
        },
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.split() == ["__Host-sessionid", "__Host-csrftoken", "False", "True"]


def test_a_file_the_shop_writes_is_nobody_elses_to_read(tmp_path):
    code = f"open({str(tmp_path / 'kept.txt')!r}, 'w').close()"
    subprocess.run(
        [sys.executable, "manage.py", "shell", "--no-imports", "-c", code],
        cwd=HOUSE,
        env={"FITSHOP_VAR": str(tmp_path), "PATH": ""},
        check=True,
    )
    assert (tmp_path / "kept.txt").stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize("ignore", [".gitignore", ".dockerignore"])
def test_the_shops_secrets_are_not_taken_along(ignore):
    assert "shop.env" in (HOUSE / ignore).read_text().splitlines()
