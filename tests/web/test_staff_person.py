"""A manager helps a colleague: each change asks for the own password and is audited."""

import re
from io import StringIO

import pytest
from allauth.account.models import EmailAddress
from allauth.mfa.models import Authenticator
from django.core.cache import cache
from django.core.management import CommandError, call_command
from django.test import Client
from django.urls import reverse

from fitshop.models import AuditEntry, OutgoingMessage, Staff
from tests.fixtures_desk import PASSWORD, a_desk, elsewhere

pytestmark = pytest.mark.django_db
GIVEN = re.compile(r'class="given-password"><b>(\w+)</b>')
CHOSEN = "leading edge softened"


@pytest.fixture
def desk(settings):
    settings.DEMO = True  # no second factor before each page
    cache.clear()
    return a_desk()


@pytest.fixture
def manager(client, desk):
    client.force_login(Staff.objects.get(username="mara"))
    return client


def page_of(person: Staff) -> str:
    return reverse("staff_person", args=[person.pk])


def details(person: Staff, **changes) -> dict:
    return {
        "display_name": person.display_name,
        "email": person.email,
        "roles": [row.role for row in person.role_rows.all()],
        "locations": [str(place.pk) for place in person.locations.all()],
        "own_password": PASSWORD,
    } | changes


def helped(client: Client, person: Staff, deed: str, password: str = PASSWORD):
    return client.post(
        reverse("staff_help", args=[person.pk, deed]), {f"{deed}-own_password": password}
    )


def deeds() -> list[str]:
    return [
        name.removeprefix("shop.staff.")
        for name in AuditEntry.objects.order_by("id").values_list("action", flat=True)
        if name.startswith("shop.staff.") and name != "shop.staff.entered"
    ]


def test_roles_places_and_address_change_and_both_addresses_hear_of_it(manager, desk):
    desk.odo.email = "odo@old.invalid"
    desk.odo.save()
    fellside = elsewhere()
    changed = details(
        desk.odo,
        display_name="Odo Larkin",
        email="odo@new.invalid",
        roles=["builder", "desk"],
        locations=[str(fellside.pk)],
    )
    assert manager.post(page_of(desk.odo), changed).status_code == 302
    odo = Staff.objects.get(pk=desk.odo.pk)
    assert (odo.display_name, odo.email) == ("Odo Larkin", "odo@new.invalid")
    assert sorted(odo.role_rows.values_list("role", flat=True)) == ["builder", "desk"]
    assert list(odo.locations.all()) == [fellside]
    assert EmailAddress.objects.get(user=odo).verified is False
    letters = OutgoingMessage.objects.filter(kind="account").values_list(
        "recipient_email", "occasion"
    )
    assert {(address, occasion.split()[0]) for address, occasion in letters} == {
        ("odo@old.invalid", "address_changed"),
        ("odo@new.invalid", "confirm_address"),
    }
    assert deeds() == ["changed"]


@pytest.mark.parametrize("typed", ["", "not my password"])
def test_nothing_changes_without_the_managers_own_password(manager, desk, typed):
    before = Staff.objects.get(pk=desk.odo.pk)
    answer = manager.post(
        page_of(desk.odo), details(desk.odo, display_name="Odo Larkin", own_password=typed)
    )
    assert answer.status_code == 422
    assert answer.context["own"].errors.keys() == {"own_password"}
    assert answer.context["form"]["display_name"].value() == "Odo Larkin"
    for deed in ("password", "factor", "sign-out", "stop"):
        assert helped(manager, desk.odo, deed, typed).status_code == 422
    after = Staff.objects.get(pk=desk.odo.pk)
    assert (after.password, after.sign_in_epoch) == (before.password, before.sign_in_epoch)
    assert (after.display_name, after.is_active) == (before.display_name, True)
    assert deeds() == []


def test_guesses_at_the_managers_password_are_limited(manager, desk):
    for _ in range(10):
        helped(manager, desk.odo, "sign-out", "a guess")
    assert helped(manager, desk.odo, "sign-out").status_code == 422
    assert deeds() == []


def test_a_given_password_is_shown_once_and_changed_before_anything_else(manager, desk):
    answer = helped(manager, desk.odo, "password")
    given = GIVEN.search(answer.text)[1]
    assert given not in manager.get(page_of(desk.odo)).text
    tablet = Client()
    assert not tablet.login(username="odo", password=PASSWORD)
    assert tablet.login(username="odo", password=given)
    change = reverse("account_change_password")
    assert tablet.get("/")["Location"] == change
    assert tablet.get(reverse("players"))["Location"] == change
    kept = {"oldpassword": given, "password1": given, "password2": given}
    assert tablet.post(change, kept).status_code == 200  # the given one again: refused
    chosen = kept | {"password1": CHOSEN, "password2": CHOSEN}
    assert tablet.post(change, chosen).status_code == 302
    assert Client().login(username="odo", password=CHOSEN)
    assert Staff.objects.get(pk=desk.odo.pk).must_set_password is False
    assert deeds() == ["password_given", "password_set"]
    assert not any(given in str(row.after) for row in AuditEntry.objects.all())


def test_somebody_entered_on_the_page_sets_a_password_first(manager, desk):
    typed = {
        "display_name": "Nell Ardagh",
        "username": "nell",
        "password": "a heel relief too far",
        "roles": ["fitter"],
        "locations": [str(desk.location.pk)],
    }
    assert manager.post(reverse("staff"), typed).status_code == 302
    tablet = Client()
    tablet.login(username="nell", password=typed["password"])
    assert tablet.get("/")["Location"] == reverse("account_change_password")


@pytest.mark.parametrize("deed", ["password", "factor", "sign-out", "stop"])
def test_every_help_ends_the_sessions_there_are(manager, desk, deed):
    tablet = Client()
    tablet.force_login(desk.odo)
    assert tablet.get("/").status_code == 200
    helped(manager, desk.odo, deed)
    assert tablet.get("/")["Location"].startswith("/account/login/")
    assert len(deeds()) == 1


def test_a_lost_factor_is_removed_and_asked_for_again(manager, desk):
    Authenticator.objects.create(user=desk.odo, type="totp", data={"secret": "X"})
    assert helped(manager, desk.odo, "factor").status_code == 302
    assert not Authenticator.objects.filter(user=desk.odo).exists()


def test_nobody_gives_up_the_own_managers_role_or_helps_the_own_sign_in(manager, desk):
    mara = Staff.objects.get(username="mara")
    answer = manager.post(page_of(mara), details(mara, roles=["fitter"]))
    [error] = answer.context["form"].errors["roles"].data
    assert error.code == "staff.own_manager_role"
    for deed in ("password", "factor", "stop"):
        assert helped(manager, mara, deed).status_code == 422
    assert deeds() == []


def test_an_unknown_deed_or_person_is_not_found(manager, desk):
    assert helped(manager, desk.odo, "promote").status_code == 404
    nobody = page_of(desk.odo).replace(str(desk.odo.pk), str(desk.location.pk))
    assert manager.get(nobody).status_code == 404


def test_a_lone_manager_is_rescued_on_the_shops_machine(desk):
    mara = Staff.objects.get(username="mara")
    Authenticator.objects.create(user=mara, type="totp", data={"secret": "X"})
    printed = StringIO()
    call_command("staff_rescue", "Mara", stdout=printed)
    given = printed.getvalue().split()[-1]
    assert Client().login(username="mara", password=given)
    assert not Authenticator.objects.filter(user=mara).exists()
    assert deeds() == ["password_given", "factor_removed"]
    with pytest.raises(CommandError):
        call_command("staff_rescue", "odo")
