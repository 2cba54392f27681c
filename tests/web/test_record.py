"""Who did what, and which letters went: found by person, thing, day and state."""

import datetime as dt

import pytest
from allauth.mfa.models import Authenticator
from django.core.cache import cache
from django.urls import reverse

from fitshop.models import AuditEntry, OutgoingMessage, Staff
from tests.fixtures_desk import AT, PASSWORD, a_desk, a_player
from tests.services.test_messages import queued

pytestmark = pytest.mark.django_db


@pytest.fixture
def desk(settings):
    settings.DEMO = True
    cache.clear()
    return a_desk()


@pytest.fixture
def manager(client, desk):
    client.force_login(Staff.objects.get(username="mara"))
    return client


def shown(client, **asked) -> list[AuditEntry]:
    answer = client.get(reverse("record"), asked)
    assert answer.status_code == 200
    return answer.context["rows"]


def test_the_sign_in_leaves_its_traces(client, desk):
    def sign_in(name: str, password: str) -> None:
        client.post(reverse("account_login"), {"login": name, "password": password})

    for _ in range(10):
        sign_in("odo", "a guess")
    sign_in("odo", PASSWORD)
    sign_in("my secret passphrase", "x")
    cache.clear()
    sign_in("odo", PASSWORD)
    rows = AuditEntry.objects.filter(action__startswith="shop.staff.").order_by("id")
    assert [row.action.split(".")[2] for row in rows] == [
        "entered",
        *["sign_in_failed"] * 10,
        "locked_out",
        "signed_in",
    ]
    assert {row.object_id for row in rows} == {str(desk.odo.pk)}
    assert rows.last().after == {"from": "127.0.0.1"}


def test_a_changed_factor_is_written_down(client, desk, monkeypatch):
    client.post(reverse("account_login"), {"login": "odo", "password": PASSWORD})
    Authenticator.objects.create(user=desk.odo, type="totp", data={"secret": "X"})
    asked = client.post(reverse("mfa_deactivate_totp"))
    assert asked["Location"].startswith(reverse("account_reauthenticate"))
    client.post(asked["Location"], {"password": PASSWORD}, follow=True)
    assert not Authenticator.objects.exists()
    entry = AuditEntry.objects.get(action="shop.staff.factor_changed")
    assert (entry.after["what"], entry.staff_id) == ("totp_deactivated", desk.odo.pk)


def test_entries_are_found_by_person_thing_deed_and_day(manager, desk):
    mara = Staff.objects.get(username="mara")
    player = a_player()
    AuditEntry.objects.create(
        at=dt.datetime(2027, 3, 9, 23, 30, tzinfo=dt.UTC),
        actor_kind="staff",
        actor_name="Mara Quill",
        staff_id=mara.pk,
        action="fitting.player.changed",
        object_type="fitting.player",
        object_id=str(player.pk),
    )
    assert {row.action for row in shown(manager, about=str(player.pk))} == {
        "fitting.player.registered",
        "fitting.player.changed",
    }
    assert [row.object_id for row in shown(manager, person=str(mara.pk))] == [str(player.pk)]
    assert len(shown(manager, action="shop.staff.entered")) == 1
    assert len(shown(manager, day="2027-03-09")) == 1
    assert shown(manager, day="2027-03-10") == []


def test_older_entries_are_one_page_on_and_none_is_shown_twice(manager):
    AuditEntry.objects.bulk_create(
        AuditEntry(at=AT, actor_kind="system", actor_name="a test", action="shop.a.b")
        for _ in range(120)
    )
    seen, query = [], ""
    while True:
        answer = manager.get(f"{reverse('record')}?action=shop.a.b&{query}")
        seen += [row.pk for row in answer.context["rows"]]
        query = answer.context["older"]
        if not query:
            break
    assert len(seen) == len(set(seen)) == 120


@pytest.mark.parametrize(
    ("name", "typed"),
    [
        ("day", "9999-12-31"),
        ("day", "soon"),
        ("person", "nobody"),
        ("about", "x"),
        ("before", "-1"),
    ],
)
def test_a_filter_that_is_none_is_said_and_is_no_fault(manager, name, typed):
    answer = manager.get(reverse("record"), {name: typed})
    assert answer.status_code == 422
    assert answer.context["form"].errors.keys() == {name}


def test_a_failed_letter_is_found_however_many_came_after_it(manager):
    failed = queued("the failed one", recipient_name="Nora Fenwick", at=AT - dt.timedelta(days=900))
    OutgoingMessage.objects.filter(pk=failed.pk).update(status="dead")
    for number in range(60):
        queued(f"later {number}")
    page = reverse("messages")
    assert failed not in manager.get(page).context["rows"]
    assert manager.get(page, {"state": "dead"}).context["rows"] == [failed]
    assert manager.get(page, {"q": "fenw"}).context["rows"] == [failed]
    first = manager.get(page).context
    second = manager.get(f"{page}?{first['older']}").context["rows"]
    assert len(first["rows"]) + len(second) == 61
    assert failed in second


def test_a_waiting_letter_says_why_it_waits(manager):
    waiting = queued("tried once")
    OutgoingMessage.objects.filter(pk=waiting.pk).update(attempts=1, last_reply="451 come back")
    assert "451 come back" in manager.get(reverse("messages")).text
