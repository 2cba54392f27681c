"""Every letter to a player speaks in one way: one greeting, whole sentences, a closing line."""

import re

import pytest

from fitshop.models import OutgoingMessage
from orders.services.hand_over import order_hand_over, order_ready
from orders.services.reminders import reminders_queue_due
from sessions.models import Answer, Interview
from sessions.services.summaries import summary_queue
from tests.order_room import CURED, Workshop
from tests.spec_room import AT, shop

pytestmark = pytest.mark.django_db


def letters_of(room) -> dict[str, OutgoingMessage]:
    """All four: the summary, ready, as built, and the groove check years later."""
    Answer.objects.create(
        interview=Interview.objects.create(visit=room.visit, started_at=AT), sequence=1,
        question="rounds_a_year", value="70", said_at=AT, recorded_by="Mara Quill",
    )  # fmt: skip
    summary_queue(visit=room.visit, by=room.fitter, at=AT)
    order = order_ready(order=room.passed(), by=room.desk, at=CURED)
    order_hand_over(order=order, how="collected", by=room.desk, at=CURED)
    reminders_queue_due(by=room.manager, at=CURED.replace(year=CURED.year + 5))
    return {letter.kind: letter for letter in OutgoingMessage.objects.all()}


def test_every_letter_greets_alike_begins_with_a_capital_and_ends_with_a_wish():
    shop()
    room = Workshop()
    room.agree_to_mail()
    letters = letters_of(room)
    assert len(letters) == 4
    for kind, letter in letters.items():
        assert re.match(r"Hello Ivo,\n\n[A-Z]", letter.body_text), kind
        assert re.search(r"<p[^>]*>Hello Ivo,</p>\s*<p[^>]*>[A-Z]", letter.body_html), kind
        closing = [p for p in letter.body_text.strip().split("\n\n") if p][-2]
        assert re.match(r"(We wish|We look|Enjoy|See you)", closing), (kind, closing)


def test_every_letter_about_a_child_greets_the_guardian_alike():
    shop()
    room = Workshop(kind="junior")
    room.player.guardian_name, room.player.guardian_email = "Ane Brandvold", "ane@players.invalid"
    room.player.save()
    room.agree_to_mail("guardian")
    letters = letters_of(room)
    assert len(letters) == 4
    for kind, letter in letters.items():
        assert letter.body_text.startswith("Hello Ane Brandvold, about Ivo's clubs,\n\n"), kind
