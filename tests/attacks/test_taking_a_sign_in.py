"""Taking somebody else's sign-in: by a letter that others can read, or by an old session."""

import json
import re

import pytest
from allauth.account.models import EmailAddress
from django.core.cache import cache
from django.core.management import call_command
from django.urls import reverse
from django.utils import timezone

from fitshop.actor import Role, system_actor
from fitshop.models import OutgoingMessage, Staff, StaffRole
from fitshop.services.account_letters import HOLDS_FOR
from fitshop.services.mail_transport import Fate, FileTransport, Outcome
from fitshop.services.shop_settings import settings_change
from fitshop.services.staff import staff_return, staff_stop
from fitshop.services.sweep import sweep
from tests.fixtures_desk import AT, a_desk
from tests.services.test_staff import manager

pytestmark = pytest.mark.django_db
LINK = re.compile(r"https://shop\.example\.org(\S+)")
ADDRESS = "mara@shop.example.org"


class MailServer:
    """Takes every letter and keeps it."""

    is_private = True

    def __init__(self) -> None:
        self.letters = []

    def send(self, letter, *, before_data):
        before_data()
        self.letters.append(letter)
        return Outcome(Fate.DELIVERED, "250 kept")

    @property
    def link(self) -> str:
        return LINK.search(self.letters[-1].get_content())[1]


@pytest.fixture
def mara(settings) -> Staff:
    """The manager, with a confirmed address."""
    settings.CSRF_TRUSTED_ORIGINS = ["https://shop.example.org"]
    cache.clear()  # the limits on asking are counted there
    settings.ALLOWED_HOSTS = ["testserver", "shop.example.org"]
    a_desk()
    person = Staff.objects.get(username="mara")
    person.email = ADDRESS
    person.save()
    EmailAddress.objects.create(user=person, email=ADDRESS, verified=True, primary=True)
    return person


def asked(client, address: str = ADDRESS) -> list[OutgoingMessage]:
    assert client.post(reverse("account_reset_password"), {"email": address}).status_code == 302
    return list(OutgoingMessage.objects.filter(kind="account"))


def swept(transport, at=None):
    return sweep(
        transport=transport, clock=lambda: at or timezone.now(), by=system_actor("message sweep")
    ).counts


def test_the_link_reaches_its_reader_and_sets_a_password_once(client, mara):
    asked(client)
    server = MailServer()
    assert swept(server) == {"sent": 1}
    page = client.get(server.link, follow=True)
    new = "bent one degree strong"
    answer = client.post(page.request["PATH_INFO"], {"password1": new, "password2": new})
    assert answer.status_code == 302
    mara.refresh_from_db()
    assert mara.check_password(new)
    assert client.get(server.link).status_code == 200  # the page that says: no longer works
    assert client.get(server.link).context["token_fail"] is True


def test_a_link_leads_to_the_shops_public_address_and_never_to_this_machine(client, mara, settings):
    settings.CSRF_TRUSTED_ORIGINS = ["https://localhost"]
    asked(client)
    server = MailServer()
    assert swept(server) == {"dead": 1}
    settings_change(typed={"shop.public_address": "https://shop.example.org"}, by=manager(), at=AT)
    asked(client)
    assert swept(server) == {"sent": 1}
    assert server.link.startswith("/account/")


@pytest.mark.parametrize("role", list(Role))
def test_no_page_shows_an_account_letter(client, mara, role):
    [row] = asked(client)
    reader = Staff.objects.create_user(username=f"reader-{role}", password="turf under nails")
    StaffRole.objects.create(staff=reader, role=role.value)
    client.force_login(reader)
    for name, arguments in (("messages", []), ("message", [row.pk])):
        answer = client.get(reverse(name, args=arguments), follow=True)
        assert ADDRESS not in answer.text
        assert str(row.pk) not in answer.text


def test_no_link_is_in_the_database_after_the_letter_left(client, mara, tmp_path):
    asked(client)
    server = MailServer()
    swept(server)
    dump = tmp_path / "dump.json"
    call_command("dumpdata", "shop", output=str(dump), verbosity=0)
    key = server.link.rstrip("/").rpartition("/")[2]
    assert len(key) > 20
    assert key not in dump.read_text()
    [row] = OutgoingMessage.objects.filter(kind="account")
    assert (row.body_text, row.body_html, row.attachments) == ("", "", [])


def test_no_link_is_left_in_a_file(client, mara, tmp_path):
    asked(client)
    assert swept(FileTransport(tmp_path)) == {"dead": 1}
    assert list(tmp_path.iterdir()) == []


def test_no_letter_names_this_machine(client, mara, settings):
    settings.CSRF_TRUSTED_ORIGINS = ["https://localhost", "http://127.0.0.1:8000"]
    asked(client)
    server = MailServer()
    assert swept(server) == {"dead": 1}
    assert server.letters == []
    settings.CSRF_TRUSTED_ORIGINS += ["https://shop.example.org"]
    asked(client)
    swept(server)
    [letter] = server.letters
    assert "https://shop.example.org/" in letter.get_content()
    assert "localhost" not in letter.get_content()


def test_a_letter_asked_for_an_hour_ago_is_not_sent(client, mara):
    [row] = asked(client)
    server = MailServer()
    assert swept(server, at=row.created_at + HOLDS_FOR + HOLDS_FOR / 60) == {"dead": 1}
    assert server.letters == []


def test_a_link_older_than_an_hour_is_refused(client, mara, settings):
    asked(client)
    server = MailServer()
    swept(server)
    assert HOLDS_FOR.total_seconds() >= settings.PASSWORD_RESET_TIMEOUT
    settings.PASSWORD_RESET_TIMEOUT = -1
    assert client.get(server.link).context["token_fail"] is True


@pytest.mark.parametrize("address", ["nobody@shop.example.org", "odo@shop.example.org"])
def test_an_address_unknown_or_unconfirmed_gets_no_letter(client, mara, address):
    odo = Staff.objects.get(username="odo")
    EmailAddress.objects.create(user=odo, email="odo@shop.example.org", verified=False)
    assert asked(client, address) == []


def test_somebody_who_was_stopped_gets_no_letter_that_was_waiting(client, mara):
    asked(client)
    Staff.objects.filter(pk=mara.pk).update(is_active=False)
    server = MailServer()
    assert swept(server) == {"dead": 1}
    assert server.letters == []


def test_a_confirmation_is_made_at_sending_too(client, mara):
    client.force_login(mara)
    EmailAddress.objects.create(user=mara, email="new@shop.example.org", verified=False)
    client.post(reverse("account_email"), {"email": "new@shop.example.org", "action_send": ""})
    [row] = OutgoingMessage.objects.filter(kind="account")
    server = MailServer()
    swept(server)
    assert server.letters[0]["To"].endswith("<new@shop.example.org>")
    key = server.link.rstrip("/").rpartition("/")[2]
    row.refresh_from_db()
    assert key not in json.dumps([row.body_text, row.body_html, row.last_reply])
    client.post(server.link)
    assert EmailAddress.objects.get(email="new@shop.example.org").verified


def test_an_old_session_of_somebody_who_returns_stays_dead(client, mara):
    odo = Staff.objects.get(username="odo")
    client.force_login(odo)
    assert client.get("/").status_code == 200
    staff_stop(person=odo, by=manager(), at=AT)
    staff_return(person=odo, by=manager(), at=AT)
    assert client.get("/")["Location"].startswith("/account/login/")
