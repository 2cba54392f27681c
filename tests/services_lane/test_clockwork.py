"""Letters leave by the real clockwork, and survive its death and the broker's."""

import os
import signal
import sqlite3
import time
from email.message import EmailMessage
from pathlib import Path

import pytest
import redis as redis_client

from tests.letters import attached, plain_text, words_of
from tests.services_lane.conftest import row_of, states, wait_until

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


SUMMARY = """
select status, attempts, message_id from shop_outgoingmessage where kind = 'summary'
"""


def test_a_fitting_closed_while_worker_and_beat_are_dead_is_summed_up_once_they_are_back(
    shop, database, inbox
):
    shop.start("worker")
    shop.start("beat")
    beats = "select count(*) from shop_heartbeat"
    assert wait_until(lambda: row_of(database.url, beats) == (1,)), shop.log.read_text()
    shop.kill("beat")
    shop.kill("worker")

    visit = shop.fitted()
    time.sleep(5)  # more than two of beat's rounds
    asked = f"select state from fitting_visit where id = '{visit}'"
    assert row_of(database.url, asked) == ("closed",)
    status, attempts, message_id = row_of(database.url, SUMMARY)
    assert (status, attempts) == ("pending", 0)
    assert inbox.letters == []

    shop.start("worker")
    shop.start("beat")
    sent = ("sent", 1, message_id)
    assert wait_until(lambda: row_of(database.url, SUMMARY) == sent), shop.log.read_text()
    time.sleep(5)
    assert row_of(database.url, SUMMARY) == sent
    [letter] = inbox.letters
    assert letter["Message-ID"] == message_id
    summary_says_what_was_chosen(letter)


def summary_says_what_was_chosen(letter: EmailMessage) -> None:
    """Balls and figures are in `orders/demo/first_fitting.py`; what is expected is typed here."""
    assert letter["To"] == "Gwilym Vaughan-Tate <gwilym@players.invalid>"
    assert letter["Subject"].startswith("Your wedge fitting at Saltings Wedge Room, ")
    text = plain_text(letter)
    for said in (
        "Hello Gwilym,",
        "2. Sand wedge, 54.5° (stamped 54, half a degree of loft added): new, to be built.",
        "Why: Cleaner out of the turf.",
        "3. Your 60, 60.1° (stamped 60): yours, stays as it is.",
        # Eight balls of 125, 123, 126, 121, 124, 127, 122 and 124 yards: 992 / 8.
        "- Pitching wedge, 45.8°: 124 yd, from 8 balls",
        "YOUR BAG\n- Your old 52 leaves the bag.\n- Your old 56 leaves the bag.\n",
    ):
        assert said in text, text
    [(name, sheet)] = attached(letter).items()
    assert name == "spec-sheet-version-1.pdf"
    words = words_of(sheet)
    for said in (
        "Gwilym Vaughan-Tate R Spec sheet, version 1",
        "right hand",
        # A row of the table is read across its columns; what is bent goes on in a second line.
        "1 Gap wedge 2 Sand wedge 3 Your 60",
        "Loft 50° 54.5° (stamped 54, half",
        "Bounce 8° 10.5° (stamped 10, half",
        "Swing weight D3 D4 D5",
        "Stamping none “GVT” none",
        "Pitching wedge, 45.8° 124 yd",
        "Your old 52 leaves the bag.",
    ):
        assert said in words, words


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


def test_a_groove_reminder_leaves_from_a_small_shop_without_a_broker(small_shop, inbox):
    order = small_shop.fitted("worn")
    assert inbox.letters == []
    small_shop.start("serve")
    asked = """
    select status from shop_outgoingmessage
    where kind = 'groove_check' and replace(subject_id, '-', '') = ?
    """
    with sqlite3.connect(small_shop.log.parent / "shop.sqlite3") as line:
        key = (order.replace("-", ""),)
        assert wait_until(lambda: line.execute(asked, key).fetchall() == [("sent",)], 30), (
            small_shop.log.read_text()
        )
    assert "ivo@players.invalid" in {
        letter["To"].addresses[0].addr_spec for letter in inbox.letters
    }


def test_one_sweep_by_hand_sends_what_is_due(small_shop, inbox):
    small_shop.queue("by hand")
    assert inbox.subjects() == []
    small_shop.manage("send_due")
    assert inbox.subjects() == ["by hand"]
    small_shop.manage("send_due")
    assert inbox.subjects() == ["by hand"]
