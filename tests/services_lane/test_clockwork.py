"""Letters leave by the real clockwork, and survive its death and the broker's."""

import os
import signal
import sqlite3
import time
from pathlib import Path

import pytest
import redis as redis_client

from tests.services_lane.conftest import states, wait_until

pytestmark = pytest.mark.services_lane


def child_of(parent: int, word: str) -> int:
    """The one child process whose command holds the word."""
    children = Path(f"/proc/{parent}/task/{parent}/children").read_text().split()
    (found,) = [
        int(child)
        for child in children
        if word.encode() in Path(f"/proc/{child}/cmdline").read_bytes()
    ]
    return found


def test_a_letter_stays_while_worker_and_beat_are_dead_and_goes_when_they_are_back(
    shop, database, inbox
):
    shop.start("worker")
    shop.start("beat")
    shop.queue("first")
    assert wait_until(lambda: inbox.subjects() == ["first"]), shop.log.read_text()

    shop.kill("worker")
    shop.kill("beat")
    shop.queue("second")
    time.sleep(5)  # more than two of beat's rounds
    assert inbox.subjects() == ["first"]
    assert states(database.url) == {"first": "sent", "second": "pending"}

    shop.start("worker")
    shop.start("beat")
    assert wait_until(lambda: inbox.subjects() == ["first", "second"]), shop.log.read_text()
    assert wait_until(lambda: states(database.url) == {"first": "sent", "second": "sent"})


def test_a_flushed_broker_and_a_doubled_beat_lose_nothing_and_double_nothing(
    shop, database, broker, inbox
):
    shop.queue("before the flush")
    redis_client.Redis.from_url(broker.url).flushall()
    shop.start("worker")
    shop.start("beat")
    shop.start("second beat")
    assert wait_until(lambda: inbox.subjects() == ["before the flush"]), shop.log.read_text()
    redis_client.Redis.from_url(broker.url).flushall()
    shop.queue("after the flush")
    expected = ["after the flush", "before the flush"]
    assert wait_until(lambda: inbox.subjects() == expected), shop.log.read_text()
    time.sleep(5)
    assert inbox.subjects() == expected


def test_a_broker_that_was_killed_delays_letters_and_no_more(shop, database, broker, inbox):
    shop.start("worker")
    shop.start("beat")
    shop.queue("first")
    assert wait_until(lambda: inbox.subjects() == ["first"]), shop.log.read_text()
    broker.end(outright=True)
    shop.queue("second")
    time.sleep(3)
    assert states(database.url)["second"] == "pending"
    broker.start()
    assert wait_until(lambda: inbox.subjects() == ["first", "second"], 60), shop.log.read_text()


def test_the_embedded_loop_delivers_and_comes_back_after_being_killed(small_shop, inbox):
    small_shop.queue("first")
    small_shop.start("serve")
    assert wait_until(lambda: inbox.subjects() == ["first"]), small_shop.log.read_text()
    os.kill(child_of(small_shop.running["serve"].pid, "send_due"), signal.SIGKILL)
    small_shop.queue("second")
    assert wait_until(lambda: inbox.subjects() == ["first", "second"]), small_shop.log.read_text()
    with sqlite3.connect(small_shop.log.parent / "shop.sqlite3") as line:
        asked = "select distinct status from shop_outgoingmessage"
        assert wait_until(lambda: line.execute(asked).fetchall() == [("sent",)])


def test_one_sweep_by_hand_sends_what_is_due(small_shop, inbox):
    small_shop.queue("by hand")
    assert inbox.subjects() == []
    small_shop.manage("send_due")
    assert inbox.subjects() == ["by hand"]
    small_shop.manage("send_due")
    assert inbox.subjects() == ["by hand"]
