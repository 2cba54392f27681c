"""Guessing a password or using a code twice; and locking somebody else out by guessing."""

import pytest
from allauth.core import context
from allauth.mfa.totp.internal import auth as totp
from django.core.cache import cache
from django.urls import reverse

from fitshop.models import Staff
from tests.fixtures_desk import PASSWORD, a_desk

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def desk(settings):
    settings.DEMO = True  # no second factor before each page
    cache.clear()
    return a_desk()


def tried(client, password: str, **headers: str) -> bool:
    """Whether the name `odo` got in."""
    answer = client.post(
        reverse("account_login"), {"login": "odo", "password": password}, **headers
    )
    client.logout()
    return answer.status_code == 302


def test_ten_wrong_passwords_lock_out_their_own_address_only(client):
    for _ in range(10):
        assert not tried(client, "a guess", REMOTE_ADDR="10.0.0.66")
    assert not tried(client, PASSWORD, REMOTE_ADDR="10.0.0.66")
    assert tried(client, PASSWORD, REMOTE_ADDR="10.0.0.7")


def test_a_name_is_locked_when_it_is_guessed_at_from_many_addresses(client, settings):
    settings.ACCOUNT_RATE_LIMITS = settings.ACCOUNT_RATE_LIMITS | {
        "login_failed_of_name": "25/h/key"
    }
    for number in range(25):
        assert not tried(client, "a guess", REMOTE_ADDR=f"10.0.1.{number}")
    assert not tried(client, PASSWORD, REMOTE_ADDR="10.0.0.7")


def test_one_address_can_not_use_up_the_limit_of_a_name(settings):
    from allauth.core.internal.ratelimit import parse_rate

    here, anywhere = (
        parse_rate(settings.ACCOUNT_RATE_LIMITS[name])
        for name in ("login_failed", "login_failed_of_name")
    )
    assert here.amount / here.duration < anywhere.amount / anywhere.duration


def test_behind_a_front_its_clients_are_told_apart_and_a_made_up_header_is_not_believed(
    client, settings
):
    settings.ALLAUTH_TRUSTED_PROXY_COUNT = 1
    for number in range(10):
        # The guesser makes up a new address each time; the front adds the true one behind it.
        told = f"192.0.2.{number}, 10.0.0.66"
        assert not tried(client, "a guess", HTTP_X_FORWARDED_FOR=told)
    assert not tried(client, PASSWORD, HTTP_X_FORWARDED_FOR="10.0.0.66")
    assert tried(client, PASSWORD, HTTP_X_FORWARDED_FOR="10.0.0.7")


def test_a_code_is_good_once(rf):
    with context.request_context(rf.get("/")):
        secret = totp.generate_totp_secret()
        device = totp.TOTP.activate(Staff.objects.get(username="odo"), secret)
        [counter] = totp.yield_hotp_counters_from_time()
        code = totp.format_hotp_value(totp.hotp_value(secret, counter))
        again = totp.TOTP(type(device.instance).objects.get(pk=device.instance.pk))
        assert [device.validate_code(code), again.validate_code(code)] == [True, False]
