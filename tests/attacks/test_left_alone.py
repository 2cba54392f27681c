"""A tablet left alone on the range, and a PIN that somebody looked over a shoulder for."""

import time
from urllib.parse import quote

import pytest
from django.core.cache import cache
from django.test import Client
from django.urls import reverse

from fitshop import middleware
from fitshop.models import AuditEntry, Staff, Tablet
from fitshop.selectors import settings_in_force
from fitshop.services.tablets import pin_set, tablet_withdraw
from sessions.models import Player
from tests.fixtures_desk import AT, CLOCKWORK, PASSWORD, a_desk, elsewhere, typed_player
from tests.services.test_staff import manager

pytestmark = pytest.mark.django_db
LOGIN = "/account/login/"
PIN = "4071"


class Clock:
    """A clock that goes on when it is told to."""

    def __init__(self) -> None:
        self.began, self.ahead_s = time.time(), 0.0

    def time(self) -> float:
        return self.began + self.ahead_s


@pytest.fixture
def clock(monkeypatch) -> Clock:
    clock = Clock()
    monkeypatch.setattr(middleware, "time", clock)
    return clock


@pytest.fixture
def desk(settings):
    settings.DEMO = True
    cache.clear()
    return a_desk()


@pytest.fixture
def tablet(client, desk, clock) -> Client:
    client.force_login(desk.odo)
    assert client.get("/").status_code == 200
    return client


def limit_s() -> int:
    return settings_in_force()["shop.idle_lock_minutes"] * 60


def is_asked(answer, page: str) -> bool:
    return answer.get("Location") == f"{LOGIN}?next={quote(page, safe='/')}"


def test_a_sign_in_left_alone_for_fifteen_minutes_is_over(tablet, clock):
    assert limit_s() == 900
    clock.ahead_s = 899
    assert tablet.get("/players").status_code == 200
    clock.ahead_s += 899
    assert tablet.get("/players").status_code == 200  # used in between
    clock.ahead_s += 901
    assert is_asked(tablet.get("/players?q=imke"), "/players?q=imke")
    clock.ahead_s = 0
    assert is_asked(tablet.get("/players"), "/players")


def test_what_a_page_asks_by_itself_is_no_use_of_it(tablet, desk, clock):
    visit = desk.book(Player.objects.create(
        given_name="Imke", family_name="Brandvold", hand="right", kind="woman", carry_unit="yd",
        created_at=AT,
    ))  # fmt: skip
    state = reverse("visit_state", args=[visit.pk])
    for _ in range(3):
        assert tablet.get(state).status_code == 200
        clock.ahead_s += 300
    clock.ahead_s += 1
    assert tablet.get(state).status_code == 401
    assert is_asked(tablet.get("/players"), "/players")


def test_a_form_sent_after_the_lock_is_kept_for_who_typed_it(tablet, clock):
    page = tablet.get(reverse("player_new")).text
    sealed = page.split('name="typed_by" value="')[1].split('"')[0]
    clock.ahead_s = 901
    typed = typed_player(given_name="Half-typed") | {"typed_by": sealed}
    answer = tablet.post(reverse("player_new"), typed)
    assert answer["Location"].startswith(LOGIN)
    assert not Player.objects.filter(given_name="Half-typed").exists()
    tablet.post(LOGIN, {"login": "odo", "password": PASSWORD, "next": reverse("player_new")})
    assert "Half-typed" in tablet.get(reverse("player_new")).text


def enrolled(client: Client, desk, name: str = "Bay 2"):
    client.force_login(Staff.objects.get(username="mara"))
    answer = client.post(
        reverse("tablets"),
        {"name": name, "location": str(desk.location.pk), "own_password": PASSWORD},
    )
    assert answer.status_code == 302
    client.post(reverse("account_logout"))
    return answer.cookies["tablet"]


def by_pin(client: Client, person: Staff, pin: str = PIN, page: str = "/players") -> bool:
    answer = client.post(
        reverse("pin_sign_in"), {"person": str(person.pk), "pin": pin, "next": page}
    )
    return answer["Location"] == page and client.get("/players").status_code == 200


@pytest.fixture
def with_pin(desk) -> Staff:
    return pin_set(person=desk.odo, pin=PIN, by=CLOCKWORK, at=AT)


def test_a_pin_leads_back_to_the_very_page_on_an_enrolled_tablet(client, desk, with_pin):
    cookie = enrolled(client, desk)
    assert (cookie["httponly"], cookie["samesite"]) == (True, "Strict")
    assert cookie.value not in str(list(Tablet.objects.values()))
    assert str(with_pin.pk) in client.get(LOGIN).text
    assert by_pin(client, with_pin)
    assert AuditEntry.objects.filter(action="shop.staff.changed_by_pin").count() == 1


def test_a_pin_opens_nothing_on_any_other_device(client, desk, with_pin):
    assert str(with_pin.pk) not in client.get(LOGIN).text
    assert not by_pin(client, with_pin)
    client.cookies["tablet"] = "a made up token"
    assert not by_pin(client, with_pin)


def test_a_withdrawn_tablet_asks_for_passwords(client, desk, with_pin):
    enrolled(client, desk)
    tablet_withdraw(tablet=Tablet.objects.get(), by=desk.actor(*manager().roles), at=AT)
    assert not by_pin(client, with_pin)


def test_five_wrong_pins_are_enough(client, desk, with_pin):
    enrolled(client, desk)
    for _ in range(5):
        assert not by_pin(client, with_pin, "0000")
    assert not by_pin(client, with_pin)
    assert AuditEntry.objects.filter(action="shop.staff.pin_failed").count() == 5
    signed_in = client.post(LOGIN, {"login": "odo", "password": PASSWORD})
    assert signed_in["Location"] == "/"


def test_nobody_signs_in_where_he_does_not_work(client, desk, with_pin):
    enrolled(client, desk)
    with_pin.location_rows.update(location=elsewhere())
    assert not by_pin(client, with_pin)


def test_somebody_stopped_has_no_pin_any_more(client, desk, with_pin):
    enrolled(client, desk)
    Staff.objects.filter(pk=with_pin.pk).update(is_active=False)
    assert not by_pin(client, with_pin)


def test_the_way_back_leads_to_no_other_host(client, desk, with_pin):
    enrolled(client, desk)
    answer = client.post(
        reverse("pin_sign_in"),
        {"person": str(with_pin.pk), "pin": PIN, "next": "https://elsewhere.invalid/"},
    )
    assert answer["Location"] == "/"


@pytest.mark.parametrize("pin", ["123", "1111", "2345", "9876", "12a4", "123456789", "٤٠٧١"])
def test_a_pin_that_is_guessed_at_once_is_refused(tablet, desk, pin):
    answer = tablet.post(reverse("own_pin"), {"pin": pin, "own_password": PASSWORD})
    assert answer.status_code == 422
    assert answer.context["form"].errors.keys() == {"pin"}
    assert Staff.objects.get(pk=desk.odo.pk).pin == ""


def test_a_pin_is_set_with_the_own_password_and_cleared_by_an_empty_one(tablet, desk):
    for pin, has_pin in ((PIN, True), ("", False)):
        wrong = tablet.post(reverse("own_pin"), {"pin": pin, "own_password": "a guess"})
        assert wrong.status_code == 422
        right = tablet.post(reverse("own_pin"), {"pin": pin, "own_password": PASSWORD})
        assert right.status_code == 302
        assert bool(Staff.objects.get(pk=desk.odo.pk).pin) is has_pin
    assert PIN not in str(list(AuditEntry.objects.values_list("after", flat=True)))
