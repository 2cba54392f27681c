"""Who works here no longer: out of the door, never out of the record."""

import uuid

import pytest
from django.db import transaction

from fitshop.actor import Actor, ActorKind, Role
from fitshop.models import AuditEntry, Staff, StaffRole
from fitshop.policy import Refused
from fitshop.refusals import StateRefused
from fitshop.services.staff import staff_return, staff_stop
from tests.fixtures_desk import AT, PASSWORD, a_desk

pytestmark = pytest.mark.django_db


@pytest.fixture
def desk():
    return a_desk()


def manager(staff_id: uuid.UUID | None = None) -> Actor:
    return Actor(
        kind=ActorKind.STAFF,
        name="Mara Quill",
        staff_id=staff_id,
        roles=frozenset({Role.MANAGER}),
    )


def test_who_is_stopped_is_signed_out_and_can_not_sign_in_and_the_record_stays(client, desk):
    client.force_login(desk.odo)
    assert client.get("/").status_code == 200
    staff_stop(person=desk.odo, by=manager(), at=AT)
    assert client.get("/")["Location"].startswith("/account/login/")
    assert not client.login(username="odo", password=PASSWORD)
    assert Staff.objects.filter(username="odo").exists()
    entry = AuditEntry.objects.get(action="shop.staff.stopped")
    assert (entry.object_id, entry.actor_name) == (str(desk.odo.pk), "Mara Quill")
    assert entry.before == {"is_active": True}


def test_who_returns_signs_in_as_before_and_it_is_audited(client, desk):
    staff_stop(person=desk.odo, by=manager(), at=AT)
    staff_return(person=desk.odo, by=manager(), at=AT)
    assert client.login(username="odo", password=PASSWORD)
    assert AuditEntry.objects.filter(action="shop.staff.returned").count() == 1


def refused_stop(person: Staff, by: Actor, words: str) -> None:
    with pytest.raises((Refused, StateRefused), match=words), transaction.atomic():
        staff_stop(person=person, by=by, at=AT)
    assert not AuditEntry.objects.filter(action="shop.staff.stopped").exists()


def test_nobody_stops_oneself_even_beside_another_manager(desk):
    mara = Staff.objects.get(username="mara")
    StaffRole.objects.create(staff=desk.odo, role="manager")
    refused_stop(mara, manager(mara.pk), "can't end your own work")
    assert Staff.objects.get(username="mara").is_active


def test_the_last_manager_is_never_stopped(desk):
    mara = Staff.objects.get(username="mara")
    refused_stop(mara, manager(uuid.uuid4()), "Mara Quill is the last manager")
    StaffRole.objects.create(staff=desk.odo, role="manager")
    Staff.objects.filter(pk=desk.odo.pk).update(is_active=False)  # one who left counts for nobody
    refused_stop(mara, manager(uuid.uuid4()), "Mara Quill is the last manager")


def test_only_a_manager_may_and_only_once(desk):
    fitter = Actor(kind=ActorKind.STAFF, name="Odo Lark", roles=frozenset({Role.FITTER}))
    refused_stop(desk.odo, fitter, "change who works here. Ask a manager.")
    with pytest.raises(Refused):
        staff_return(person=desk.odo, by=fitter, at=AT)
    with pytest.raises(StateRefused, match="works here already"):
        staff_return(person=desk.odo, by=manager(), at=AT)
    Staff.objects.filter(pk=desk.odo.pk).update(is_active=False)
    refused_stop(desk.odo, manager(), "no longer works here already")
