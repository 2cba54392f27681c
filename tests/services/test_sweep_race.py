"""Two sweepers at one queue, each with a connection of its own, held so that they really meet.

Both stand still between reading which letter is due and taking it, until the other stands there
too: whatever could go wrong between the two goes wrong every time.
"""

import contextlib
import threading
from datetime import UTC, datetime

import pytest
from django.db import connection, connections, transaction

from fitshop.actor import system_actor
from fitshop.models import MessageStatus, OutgoingMessage
from fitshop.services.messages import message_queue
from fitshop.services.sweep import messages_claim

NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
LETTERS = 30

pytestmark = [
    pytest.mark.django_db(transaction=True),
    pytest.mark.skipif(
        connection.vendor != "postgresql",
        reason="SQLite lets one connection write at a time: two can't meet between two statements",
    ),
]


class Meeting:
    """Where two sweepers wait for each other, until one of them has nothing left to do."""

    def __init__(self) -> None:
        self.barrier = threading.Barrier(2)
        self.is_over = False
        self.met = 0
        self.stood_alone = 0

    def before_taking(self, execute, sql, params, many, context):
        if sql.startswith('UPDATE "shop_outgoingmessage"'):
            try:
                self.met += self.barrier.wait(20) == 0
            except threading.BrokenBarrierError:
                self.stood_alone += not self.is_over
        return execute(sql, params, many, context)

    def end(self) -> None:
        self.is_over = True
        self.barrier.abort()


def thirty_letters() -> None:
    for number in range(LETTERS):
        message_queue(
            kind="summary", subject_type="visit", subject_id=str(number), occasion="spec 1",
            recipient_email="ada@players.invalid", recipient_name="Ada", mail_subject="Wedges",
            body_text="What we chose.", by=system_actor("test"), at=NOON,
        )  # fmt: skip


def raced(meeting: Meeting) -> list[list[str]]:
    """What each of two sweepers claimed, one letter at a time, until nothing waits."""
    claimed: list[list[str]] = [[], []]

    def claim(mine: list[str]) -> None:
        try:
            with connection.execute_wrapper(meeting.before_taking):
                while OutgoingMessage.objects.filter(status=MessageStatus.PENDING).exists():
                    mine += [str(row.pk) for row in messages_claim(limit=1, at=NOON)]
        finally:
            meeting.end()
            connections.close_all()

    sweepers = [threading.Thread(target=claim, args=(mine,)) for mine in claimed]
    for sweeper in sweepers:
        sweeper.start()
    for sweeper in sweepers:
        sweeper.join(60)
        assert not sweeper.is_alive()
    return claimed


def assert_each_was_claimed_once(claimed: list[list[str]]) -> None:
    letters = sorted(str(pk) for pk in OutgoingMessage.objects.values_list("pk", flat=True))
    assert sorted(claimed[0] + claimed[1]) == letters
    assert set(OutgoingMessage.objects.values_list("status", "attempts")) == {("sending", 1)}


def test_two_sweepers_share_thirty_letters_and_neither_waits_for_the_other():
    thirty_letters()
    meeting = Meeting()
    claimed = raced(meeting)
    assert_each_was_claimed_once(claimed)
    assert [len(mine) for mine in claimed] == [15, 15]
    assert (meeting.met, meeting.stood_alone) == (15, 0)


def test_without_locked_rows_both_see_the_same_letter_and_one_of_them_takes_it(monkeypatch):
    """A database that can't skip locked rows: there the conditional update alone decides."""
    monkeypatch.setattr(
        type(connection.features), "has_select_for_update_skip_locked", False, raising=True
    )
    thirty_letters()
    meeting = Meeting()
    claimed = raced(meeting)
    assert_each_was_claimed_once(claimed)
    assert meeting.met >= LETTERS / 2


def test_a_claim_that_is_not_committed_hides_its_letter_and_no_other():
    """One sweeper's transaction stays open: the other takes the next letter at once."""
    thirty_letters()
    taken, go_on = threading.Event(), threading.Event()

    def hold(execute, sql, params, many, context):
        answer = execute(sql, params, many, context)
        if sql.startswith('UPDATE "shop_outgoingmessage"'):
            taken.set()
            go_on.wait(10)
        return answer

    first: list[str] = []

    def claim() -> None:
        with contextlib.closing(connections["default"]), connection.execute_wrapper(hold):
            first.extend(str(row.pk) for row in messages_claim(limit=1, at=NOON))

    sweeper = threading.Thread(target=claim)
    sweeper.start()
    assert taken.wait(10)
    try:
        with transaction.atomic(), connection.cursor() as line:
            line.execute("set local lock_timeout = '500ms'")
            others = [str(row.pk) for row in messages_claim(limit=LETTERS, at=NOON)]
    finally:
        go_on.set()
        sweeper.join(60)
    assert len(others) == LETTERS - 1
    assert set(others).isdisjoint(first)
    assert_each_was_claimed_once([first, others])
