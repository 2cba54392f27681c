"""Taking over what a tablet recorded: one transaction an entry, refusals as receipts."""

import dataclasses
import uuid

import pytest
from django.db import IntegrityError

from fitshop.actor import system_actor
from sessions.models import Answer, Command, Interview
from sessions.services import commands
from sessions.services.commands import Device, Sent, command_hash, command_take, commands_take
from tests.fixtures_capture import AT, a_fitting

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    return a_fitting()


def answer(value="steep", **changes):
    body = {"id": str(uuid.uuid4()), "question": "attack", "value": value}
    values = {
        "id": uuid.UUID(body["id"]), "question": "attack", "value": value, "ask_later": False,
        "said_by": "player", "said_where": "shop",
    }  # fmt: skip
    return Sent(
        id=uuid.uuid4(), kind="interview.answer", body=body, values=values,
        sha256=command_hash("interview.answer", body), **changes,
    )  # fmt: skip


def take(room, sent, **changes):
    return command_take(visit=room.visit, sent=sent, device=Device("tablet 4"), at=AT,
                        **{"by": room.fitter, **changes})  # fmt: skip


def test_the_check_sum_is_that_of_the_canonical_text():
    # printf 'shot.exclude\n{"id":"1","reason":"misread"}' | sha256sum
    assert command_hash("shot.exclude", {"reason": "misread", "id": "1"}) == (
        "aefd354a3cb9a41d57ec0e7703fe2791a868d6a496caeb665a1070d88abb3c01"
    )


def test_a_refused_entry_leaves_no_row_behind(room):
    receipt = take(room, answer(value="upwards"))
    assert receipt["errors"] == {"value": "Choose one of: Steep, Medium, Shallow."}
    assert not Answer.objects.exists()
    assert not Interview.objects.exists()
    assert not Command.objects.exists()
    room.visit.refresh_from_db()
    assert room.visit.last_sequence == 0


def test_the_clockwork_has_no_tablet(room):
    assert take(room, answer(), by=system_actor("sweep"))["status"] == 403
    assert not Command.objects.exists()


def test_an_entry_known_to_another_visit_is_refused(room):
    sent = answer()
    take(room, sent)
    visit = room.visit
    visit.pk, visit._state.adding = uuid.uuid4(), True
    visit.save()
    assert take(room, sent)["status"] == 422
    assert Answer.objects.count() == 1


def test_an_insert_that_loses_the_race_answers_with_the_winners_receipt(room, monkeypatch):
    """Two requests with the same entry at the same moment: the second insert is refused."""
    sent = answer()
    winner = take(room, sent)

    def too_late(**_):
        raise IntegrityError("UNIQUE constraint failed: fitting_command.id")

    monkeypatch.setattr(commands, "_stored", too_late)
    assert take(room, sent) == {**winner, "status": 200}


def test_a_constraint_that_says_no_is_a_refusal_and_not_a_crash(room, monkeypatch):
    def contradicts(*_):
        raise IntegrityError("CHECK constraint failed: shot_carry_believable")

    monkeypatch.setattr(commands, "HANDLERS", {"interview.answer": contradicts})
    receipt = take(room, answer())
    assert (receipt["outcome"], receipt["status"]) == ("refused", 422)
    assert not Command.objects.exists()


def test_entries_are_numbered_in_the_order_they_came(room):
    sent = [answer(), answer(value="upwards"), answer(value="medium")]
    receipts = commands_take(
        visit=room.visit, sent=sent, device=Device("tablet 4"), by=room.fitter, at=AT
    )
    first, refused, third = receipts
    assert refused["sequence"] is None
    assert first["sequence"] < third["sequence"]
    assert list(Command.objects.values_list("pk", flat=True)) == [sent[0].id, sent[2].id]


def test_what_the_door_could_not_read_is_refused_before_the_service_is_asked(room):
    sent = dataclasses.replace(answer(), errors={"value": "Type it in words."})
    receipt = take(room, sent)
    assert (receipt["status"], receipt["sentence"]) == (422, "Type it in words.")
    assert not Answer.objects.exists()
