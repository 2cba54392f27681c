"""One table of clockwork: beat and the loop run the same, each at its own period."""

import os
import signal
import time

import pytest
from django.conf import settings
from django.core.management import CommandError, call_command
from django.test import override_settings
from django.utils.module_loading import import_string

from fitshop.celery import app
from fitshop.clockwork import Rounds, Work, beat_schedule

FAST = Work("fast", "tests.services.test_clockwork.fast", every_s=0.05, expires_s=1)
SLOW = Work("slow", "tests.services.test_clockwork.slow", every_s=600, expires_s=1)
FAILS = Work("fails", "tests.services.test_clockwork.fails", every_s=0.05, expires_s=1)
RAN: list[str] = []


def fast():
    RAN.append("fast")
    if RAN.count("fast") >= 4:
        os.kill(os.getpid(), signal.SIGTERM)


def slow():
    RAN.append("slow")


def fails():
    RAN.append("fails")
    raise RuntimeError("on purpose")


@pytest.fixture(autouse=True)
def nothing_ran():
    RAN.clear()
    kept = {number: signal.getsignal(number) for number in (signal.SIGTERM, signal.SIGINT)}
    yield
    for number, handler in kept.items():
        signal.signal(number, handler)


def test_beat_and_the_loop_read_one_table():
    assert beat_schedule(settings.CLOCKWORK) == settings.CELERY_BEAT_SCHEDULE
    assert {work.runs for work in settings.CLOCKWORK} == {
        "fitshop.tasks.sweep_messages",
        "orders.tasks.queue_due_reminders",
    }


def test_each_work_is_a_task_of_celery_and_a_function_to_call():
    app.loader.import_default_modules()
    for work in settings.CLOCKWORK:
        assert import_string(work.runs).name == work.runs
        assert work.runs in app.tasks


def test_a_work_is_due_at_the_start_and_then_after_its_own_period():
    rounds = Rounds((FAST, SLOW))
    assert rounds.due(100.0) == [FAST, SLOW]
    rounds.ran(FAST, 100.0)
    rounds.ran(SLOW, 100.0)
    assert rounds.due(100.04) == []
    assert rounds.pause(100.03) == pytest.approx(0.02)
    assert rounds.due(100.05) == [FAST]
    assert rounds.due(700.0) == [FAST, SLOW]


@override_settings(CLOCKWORK=(FAILS, SLOW, FAST))
def test_the_loop_runs_each_at_its_period_and_survives_one_that_fails(db):
    began = time.monotonic()
    call_command("send_due", loop=True)
    assert time.monotonic() - began < 30
    assert (RAN.count("fast"), RAN.count("slow")) == (4, 1)
    assert RAN.count("fails") >= 2


@override_settings(CLOCKWORK=(FAILS, SLOW))
def test_one_round_by_hand_runs_the_others_and_then_says_which_failed():
    with pytest.raises(CommandError, match="fails"):
        call_command("send_due")
    assert RAN == ["fails", "slow"]
