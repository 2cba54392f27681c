"""Letters: queued once, claimed once, tried with growing pauses, and never sent twice unasked."""

import contextlib
import email
import email.policy
import socket
import threading
import time
import uuid
from datetime import UTC, datetime, timedelta

import pytest
from django.db import connection, connections

from fitshop.actor import Actor, ActorKind, Role, system_actor
from fitshop.models import AuditEntry, Heartbeat, MessageAttachment, OutgoingMessage
from fitshop.policy import Refused
from fitshop.services.mail_transport import (
    Fate,
    FileTransport,
    Outcome,
    SmtpTransport,
    letter_from,
)
from fitshop.services.messages import MessageIsDecided, message_decide, message_queue
from fitshop.services.sweep import (
    doubtful_messages_settle,
    message_result_record,
    messages_claim,
    pause,
    sweep,
)

NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
CLOCKWORK = system_actor("message sweep")
DESK = Actor(kind=ActorKind.STAFF, name="Ines", staff_id=uuid.uuid4(), roles=frozenset({Role.DESK}))
SECOND = timedelta(seconds=1)
RENDERED: list[dict] = []


def plain_document(values: dict) -> bytes:
    RENDERED.append(values)
    return b"%PDF-1.7 " + values["text"].encode()


def queued(occasion: str = "visit closed", **changed) -> OutgoingMessage:
    row = {
        "kind": "summary",
        "subject_type": "visit",
        "subject_id": "17",
        "occasion": occasion,
        "recipient_email": "ada@players.invalid",
        "recipient_name": "Ada Löwe",
        "mail_subject": "Your wedges: what we chose and why",
        "body_text": "52 degrees, bent 1 degree weak.\n",
        "body_html": "<p>52 degrees, bent 1 degree weak.</p>",
        "by": CLOCKWORK,
        "at": NOON,
    }
    return message_queue(**{**row, **changed})


class Answers:
    """A transport that gives the prepared outcomes in turn, and keeps what it was given."""

    def __init__(self, *outcomes: Outcome) -> None:
        self.outcomes = list(outcomes)
        self.letters = []

    def send(self, letter, *, before_data):
        before_data()
        self.letters.append(letter)
        return self.outcomes.pop(0) if self.outcomes else Outcome(Fate.DELIVERED, "250 kept")


LATER = Outcome(Fate.LATER, "451 come back")


def swept(transport, at=NOON):
    return sweep(transport=transport, clock=lambda: at, by=CLOCKWORK).counts


@pytest.mark.django_db
def test_one_occasion_is_one_letter_however_often_it_is_asked_for():
    first = queued()
    again = queued(body_text="another text")
    assert again.pk == first.pk
    assert OutgoingMessage.objects.get().body_text == "52 degrees, bent 1 degree weak.\n"
    queued("spec version 2")
    assert OutgoingMessage.objects.count() == 2


@pytest.mark.django_db
def test_a_letter_is_claimed_once_and_counted_then():
    queued()
    (mine,) = messages_claim(limit=5, at=NOON)
    assert (mine.status, mine.attempts) == ("sending", 1)
    assert mine.lease_until == datetime(2026, 3, 2, 12, 1, tzinfo=UTC)
    assert messages_claim(limit=5, at=NOON + 59 * SECOND) == []


@pytest.mark.django_db
def test_nothing_is_claimed_before_it_is_due():
    queued(due_at=NOON + timedelta(hours=1))
    assert messages_claim(limit=5, at=NOON + timedelta(minutes=59)) == []
    assert len(messages_claim(limit=5, at=NOON + timedelta(minutes=60))) == 1


@pytest.mark.django_db(transaction=True)
def test_sweeps_that_run_at_once_send_each_letter_once():
    for number in range(12):
        queued(f"visit {number}")
    transport = Answers()
    ready = threading.Barrier(4)

    def run() -> None:
        ready.wait()
        try:
            swept(transport)
        finally:
            connections.close_all()

    threads = [threading.Thread(target=run) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    sent = [letter["Message-ID"] for letter in transport.letters]
    assert len(sent) == 12
    assert len(set(sent)) == 12
    assert set(OutgoingMessage.objects.values_list("status", "attempts")) == {("sent", 1)}


@pytest.mark.django_db
def test_a_sent_letter_keeps_its_time_its_answer_and_its_trace():
    row = queued()
    assert swept(Answers()) == {"sent": 1}
    row.refresh_from_db()
    assert (row.status, row.sent_at, row.last_reply) == ("sent", NOON, "250 kept")
    actions = list(AuditEntry.objects.order_by("id").values_list("action", flat=True))
    assert actions == ["shop.message.queued", "shop.message.sent"]
    assert Heartbeat.objects.get(name="messages").at == NOON


@pytest.mark.django_db
def test_a_result_without_the_lease_changes_nothing():
    queued()
    (mine,) = messages_claim(limit=1, at=NOON)
    (theirs,) = messages_claim(limit=1, at=NOON + 61 * SECOND)
    late = message_result_record(
        message=mine, outcome=Outcome(Fate.DELIVERED, "250"), by=CLOCKWORK, at=NOON + 62 * SECOND
    )
    assert late == "lease lost"
    assert OutgoingMessage.objects.get().status == "sending"
    assert (
        message_result_record(message=theirs, outcome=LATER, by=CLOCKWORK, at=NOON + 63 * SECOND)
        == "pending"
    )


@pytest.mark.django_db
def test_a_lease_lost_while_the_attachment_is_made_sends_nothing(settings):
    settings.DOCUMENT_RENDERERS = {"slow": f"{__name__}.slow_document"}
    queued(attachments=[{"name": "a.pdf", "document": "slow", "values": {}}])
    transport = Answers()
    assert swept(transport) == {}
    assert transport.letters == []
    assert OutgoingMessage.objects.get().attempts == 2


def slow_document(values: dict) -> bytes:
    assert len(messages_claim(limit=1, at=NOON + 61 * SECOND)) == 1  # meanwhile, another sweep
    return b"%PDF"


@pytest.mark.parametrize(
    ("tries", "seconds"),
    [(1, 30), (2, 60), (3, 120), (4, 240), (7, 1920), (8, 3600), (100, 3600)],
)
def test_the_pause_doubles_from_half_a_minute_to_an_hour(tries, seconds):
    assert pause(tries, 0.0) == timedelta(seconds=seconds)
    assert pause(tries, 1.0) == timedelta(seconds=seconds * 1.25)
    assert timedelta(seconds=seconds) <= pause(tries) <= timedelta(seconds=seconds * 1.25)


@pytest.mark.django_db
def test_a_letter_refused_for_now_waits_and_goes_at_a_later_try():
    row = queued()
    transport = Answers(LATER)
    assert swept(transport) == {"pending": 1}
    row.refresh_from_db()
    assert NOON + 30 * SECOND <= row.due_at <= NOON + 37.5 * SECOND
    assert (row.last_reply, row.data_started_at) == ("451 come back", None)
    assert swept(transport, NOON + 29 * SECOND) == {}
    assert swept(transport, NOON + 38 * SECOND) == {"sent": 1}


@pytest.mark.django_db
def test_an_outage_of_most_of_a_day_costs_time_and_no_letter():
    row = queued()
    at, states = NOON, []
    while at < NOON + timedelta(hours=23):
        states += list(swept(Answers(LATER), at))
        at += timedelta(minutes=10)
    assert set(states) == {"pending"}
    assert len(states) > 8
    row.refresh_from_db()
    assert swept(Answers(), row.due_at) == {"sent": 1}


@pytest.mark.django_db
def test_a_letter_sent_again_by_a_person_has_a_day_of_tries_anew():
    row = queued()
    swept(Answers(LATER))
    assert swept(Answers(LATER), NOON + timedelta(hours=25)) == {"dead": 1}
    again = NOON + timedelta(hours=26)
    message_decide(message=row, decision="resend", by=DESK, at=again)
    assert swept(Answers(LATER), again) == {"pending": 1}
    assert swept(Answers(LATER), again + timedelta(hours=23)) == {"pending": 1}


@pytest.mark.django_db
def test_after_a_day_of_trying_a_person_is_told():
    queued()
    assert swept(Answers(LATER)) == {"pending": 1}
    assert swept(Answers(LATER), NOON + timedelta(hours=23, minutes=59)) == {"pending": 1}
    assert swept(Answers(LATER), NOON + timedelta(hours=25)) == {"dead": 1}


@pytest.mark.django_db
def test_a_refusal_for_good_is_dead_at_once_and_blocks_an_address_that_does_not_exist():
    first = queued()
    refused = Outcome(Fate.REFUSED, "The address was refused: 550 no such person")
    assert swept(Answers(refused)) == {"dead": 1}
    queued("ready")
    transport = Answers()
    assert swept(transport) == {"dead": 1}
    assert transport.letters == []
    queued("ready, address corrected", recipient_email="ada.loewe@players.invalid")
    assert swept(transport) == {"sent": 1}
    message_decide(message=first, decision="resend", by=DESK, at=NOON)
    assert swept(transport) == {"sent": 1}


@pytest.mark.django_db
def test_a_letter_that_kills_its_sender_three_times_is_not_tried_a_fourth():
    queued()
    at = NOON
    for _ in range(3):
        assert len(messages_claim(limit=1, at=at)) == 1  # and the sender is killed here
        at += 61 * SECOND
    assert swept(Answers(), at) == {}
    row = OutgoingMessage.objects.get()
    assert (row.status, row.attempts, row.worker_deaths) == ("dead", 3, 3)


@pytest.mark.django_db
def test_a_sender_that_dies_before_the_content_is_offered_leaves_the_letter_to_the_next():
    queued()
    messages_claim(limit=1, at=NOON)
    assert swept(Answers(), NOON + 61 * SECOND) == {"sent": 1}


@pytest.mark.django_db
def test_a_sender_that_dies_while_it_hands_over_leaves_a_doubt_to_a_person():
    queued()
    (mine,) = messages_claim(limit=1, at=NOON)
    OutgoingMessage.objects.filter(pk=mine.pk).update(data_started_at=NOON)
    transport = Answers()
    assert swept(transport, NOON + 61 * SECOND) == {}
    assert transport.letters == []
    assert OutgoingMessage.objects.get().status == "unknown"
    assert doubtful_messages_settle(by=CLOCKWORK, at=NOON + 62 * SECOND) == 0


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("decision", "state"),
    [("resend", "pending"), ("was delivered", "sent"), ("cancel", "cancelled")],
)
def test_a_person_decides_about_a_doubt_once(decision, state):
    row = queued()
    assert swept(Answers(Outcome(Fate.UNKNOWN, "no answer"))) == {"unknown": 1}
    fitter = Actor(kind=ActorKind.STAFF, name="Tom", roles=frozenset({Role.BUILDER}))
    with pytest.raises(Refused):
        message_decide(message=row, decision=decision, by=fitter, at=NOON)
    assert message_decide(message=row, decision=decision, by=DESK, at=NOON).status == state
    with pytest.raises(MessageIsDecided):
        message_decide(message=row, decision=decision, by=DESK, at=NOON)


@pytest.mark.django_db
def test_attachments_are_rendered_once_from_the_frozen_values_and_sent_each_time(settings):
    settings.DOCUMENT_RENDERERS = {"plain": f"{__name__}.plain_document"}
    RENDERED.clear()
    values = {"text": "as it was then"}
    queued(attachments=[{"name": "spec.pdf", "document": "plain", "values": values}])
    values["text"] = "as it is now"
    transport = Answers(LATER)
    swept(transport)
    swept(transport, NOON + timedelta(minutes=1))
    assert RENDERED == [{"text": "as it was then"}]
    for letter in transport.letters:
        (file,) = letter.iter_attachments()
        assert file.get_content() == b"%PDF-1.7 as it was then"
        assert (file.get_filename(), file.get_content_type()) == ("spec.pdf", "application/pdf")
    # printf '%s' '%PDF-1.7 as it was then' | sha256sum
    assert MessageAttachment.objects.get().sha256 == (
        "af7c177a7e39bd274df46301beb7accbea037f60396a1101f622ba0b79d212a8"
    )


@pytest.mark.django_db
def test_a_letter_that_cannot_be_written_does_not_stop_those_behind_it():
    queued("broken", mail_subject="two\nlines")
    queued("whole", due_at=NOON + SECOND)
    assert swept(Answers(), NOON + SECOND) == {"dead": 1, "sent": 1}


@pytest.mark.django_db
def test_a_file_is_a_whole_letter_with_the_fixed_message_id(tmp_path):
    row = queued()
    assert swept(FileTransport(tmp_path)) == {"sent": 1}
    (path,) = tmp_path.iterdir()
    assert path.name == f"2026-03-02-{row.pk}.eml"
    letter = email.message_from_bytes(path.read_bytes(), policy=email.policy.default)
    assert letter["Message-ID"] == row.message_id
    assert letter["To"].addresses[0].display_name == "Ada Löwe"
    assert letter.get_body(("plain",)).get_content() == "52 degrees, bent 1 degree weak.\r\n"
    assert "bent 1 degree weak" in letter.get_body(("html",)).get_content()


# --- SMTP against a server on a socket: each line as the test writes it -----------------------


@contextlib.contextmanager
def server(
    *,
    greeting="220 here",
    mail="250 yes",
    rcpt="250 yes",
    data="354 go",
    end="250 kept",
    drip=False,
):
    """A mail server of few words. `data` or `end` None: it hangs up there in silence."""
    seen: list[str] = []
    listening = socket.create_server(("127.0.0.1", 0))

    def talk() -> None:
        with contextlib.suppress(OSError), listening.accept()[0] as line:
            if drip:
                while True:
                    line.sendall(b"2")
                    time.sleep(0.05)
            words = line.makefile("rb")
            line.sendall(greeting.encode() + b"\r\n")
            for said in words:
                seen.append(said.decode())
                verb = said[:4].upper()
                answer = {b"MAIL": mail, b"RCPT": rcpt, b"DATA": data}.get(verb, "250 yes")
                if answer is None:
                    return
                line.sendall(answer.encode() + b"\r\n")
                if verb == b"DATA" and data.startswith("354"):
                    for part in words:
                        seen.append(part.decode())
                        if part == b".\r\n":
                            break
                    if end is None:
                        return
                    line.sendall(end.encode() + b"\r\n")

    thread = threading.Thread(target=talk, daemon=True)
    thread.start()
    try:
        yield listening.getsockname()[1], seen
    finally:
        listening.close()


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("answers", "fate", "reply"),
    [
        ({}, Fate.DELIVERED, "250 kept"),
        ({"rcpt": "450 busy"}, Fate.LATER, "450 busy"),
        ({"rcpt": "550 nobody"}, Fate.REFUSED, "The address was refused: 550 nobody"),
        ({"rcpt": "554 not you"}, Fate.REFUSED, "554 not you"),
        ({"data": "451 full"}, Fate.LATER, "451 full"),
        ({"data": "554 no such content"}, Fate.REFUSED, "554 no such content"),
        ({"end": "251 kept elsewhere"}, Fate.DELIVERED, "251 kept elsewhere"),
        ({"end": "452 full"}, Fate.LATER, "452 full"),
        ({"end": "552 too big"}, Fate.REFUSED, "552 too big"),
    ],
)
def test_the_servers_answer_decides(answers, fate, reply):
    letter = letter_from(queued(), [])
    with server(**answers) as (port, seen):
        outcome = SmtpTransport("127.0.0.1", port, starttls=False).send(
            letter, before_data=lambda: None
        )
    assert outcome == Outcome(fate, reply)
    assert "RCPT TO:<ada@players.invalid>\r\n" in seen


@pytest.mark.django_db
@pytest.mark.parametrize(
    "answers", [{"greeting": "554 not from you"}, {"mail": "550 no such sender"}]
)
def test_a_refusal_of_the_connection_or_the_sender_is_the_shops_to_mend(answers):
    letter = letter_from(queued(), [])
    with server(**answers) as (port, _seen):
        outcome = SmtpTransport("127.0.0.1", port, starttls=False).send(
            letter, before_data=lambda: None
        )
    assert outcome.fate is Fate.LATER


@pytest.mark.django_db
def test_silence_before_the_content_was_asked_for_is_no_doubt():
    offered = []
    letter = letter_from(queued(), [])
    with server(data=None) as (port, _seen):
        outcome = SmtpTransport("127.0.0.1", port, starttls=False).send(
            letter, before_data=lambda: offered.append(1)
        )
    assert (outcome.fate, offered) == (Fate.LATER, [])


@pytest.mark.django_db
def test_a_line_that_begins_with_a_dot_arrives_whole():
    letter = letter_from(queued(body_text=".5 degrees weak\n.\nbent\n", body_html=""), [])
    with server() as (port, seen):
        outcome = SmtpTransport("127.0.0.1", port, starttls=False).send(
            letter, before_data=lambda: None
        )
    assert outcome.fate is Fate.DELIVERED
    assert [line for line in seen if line.startswith(".")] == [
        "..5 degrees weak\r\n",
        "..\r\n",
        ".\r\n",
    ]


@pytest.mark.django_db
def test_silence_after_the_content_is_a_doubt_and_silence_before_it_is_not():
    letter = letter_from(queued(), [])
    with server(end=None) as (port, _seen):
        transport = SmtpTransport("127.0.0.1", port, starttls=False)
        assert transport.send(letter, before_data=lambda: None).fate is Fate.UNKNOWN
    with socket.create_server(("127.0.0.1", 0)) as closed:
        port = closed.getsockname()[1]
    transport = SmtpTransport("127.0.0.1", port, starttls=False)
    assert transport.send(letter, before_data=lambda: None).fate is Fate.LATER


@pytest.mark.django_db
def test_a_server_that_drips_a_byte_now_and_then_does_not_hold_the_sweep():
    letter = letter_from(queued(), [])
    began = time.monotonic()
    with server(drip=True) as (port, _seen):
        transport = SmtpTransport("127.0.0.1", port, starttls=False, seconds_allowed=0.5)
        outcome = transport.send(letter, before_data=lambda: None)
    assert outcome.fate is Fate.LATER
    assert time.monotonic() - began < 3


@pytest.mark.django_db(transaction=True)
def test_the_start_is_written_down_first_and_the_talk_is_outside_any_transaction():
    row = queued()
    noted = []

    class Looks:
        def send(self, letter, *, before_data):
            before_data()
            assert not connection.in_atomic_block
            noted.append(OutgoingMessage.objects.get(pk=row.pk).data_started_at)
            return Outcome(Fate.DELIVERED, "250")

    swept(Looks())
    assert noted == [NOON]
