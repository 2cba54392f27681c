"""Told is what happened: a letter that left, a call that reached the player."""

import importlib
from datetime import timedelta
from uuid import uuid4

import pytest
from django.apps import apps
from django.db import IntegrityError, transaction

from fitshop.actor import system_actor
from fitshop.models import MessageStatus, OutgoingMessage
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.services.mail_transport import Fate, Outcome
from fitshop.services.messages import message_decide
from fitshop.services.sweep import sweep
from orders.models import BuildOrder, Telling
from orders.rules import telling as rules
from orders.selectors.tellings import told_of
from orders.services.build_orders import order_cancel, order_create
from orders.services.hand_over import order_hand_over, order_ready
from orders.services.tellings import order_letter_send, order_tell, order_tell_by_choose
from tests.order_room import CURED, Workshop

pytestmark = pytest.mark.django_db
LATER = CURED + timedelta(minutes=5)


class Server:
    """A mail server that answers the same to every letter."""

    def __init__(self, fate):
        self.fate = fate
        self.offered = 0

    def send(self, letter, *, before_data):
        before_data()
        self.offered += 1
        return Outcome(self.fate, "its reply")


def swept(fate, at=LATER):
    server = Server(fate)
    sweep(transport=server, clock=lambda: at, by=system_actor("test"))
    return server


@pytest.fixture
def room():
    made = Workshop()
    made.agree_to_mail()
    return made


def ready(room, tell_by=""):
    order = room.passed()
    BuildOrder.objects.filter(pk=order.pk).update(tell_by=tell_by)
    return order_ready(order=order, by=room.desk, at=CURED)


def standing(order):
    return told_of(BuildOrder.objects.get(pk=order.pk)).standing


def called(order, room, outcome, **more):
    values = {"how": "telephone", "outcome": outcome, "by": room.desk, "at": LATER} | more
    return order_tell(order=order, **values)


def test_a_queued_letter_has_told_nobody_yet(room):
    assert standing(ready(room)) == "letter_waits"


@pytest.mark.parametrize(
    ("fate", "expected"),
    [
        (Fate.DELIVERED, "told"),
        (Fate.REFUSED, "letter_failed"),
        (Fate.UNKNOWN, "letter_unknown"),
        (Fate.LATER, "letter_waits"),
    ],
)
def test_told_follows_the_fate_of_the_letter(room, fate, expected):
    order = ready(room)
    swept(fate)
    assert standing(order) == expected


def test_a_letter_that_somebody_knows_was_delivered_counts_after_all(room):
    order = ready(room)
    swept(Fate.UNKNOWN)
    message_decide(
        message=OutgoingMessage.objects.get(), decision="was delivered", by=room.manager, at=LATER
    )
    assert standing(order) == "told"


def test_a_call_counts_only_when_the_player_was_reached(room):
    order = ready(room, tell_by="telephone")
    assert standing(order) == "not_tried"
    called(order, room, "no_answer")
    called(order, room, "message_left")
    assert standing(order) == "tried"
    called(order, room, "reached", said="comes on Friday")
    assert standing(order) == "told"
    assert told_of(order).by.said == "comes on Friday"


def test_a_call_after_a_refused_letter_tells_and_both_are_kept(room):
    order = ready(room)
    swept(Fate.REFUSED)
    called(order, room, "reached")
    assert standing(order) == "told"
    kept = [(row.how, row.outcome, row.by) for row in order.tellings.all()]
    assert kept == [("letter", "", "Pia Holm"), ("telephone", "reached", "Pia Holm")]


def test_an_order_that_asks_for_a_call_sends_no_letter(room):
    order = order_create(spec=room.spec, tell_by="telephone", by=room.fitter, at=CURED)
    assert BuildOrder.objects.get(pk=order.pk).tell_by == "telephone"
    order = ready(room, tell_by="telephone")
    assert not OutgoingMessage.objects.exists()
    assert told_of(order).offered_first == "telephone"


def test_a_letter_goes_out_all_the_same_if_somebody_chooses_to(room):
    order = ready(room, tell_by="telephone")
    telling_id = uuid4()
    for _ in range(2):
        order_letter_send(order=order, telling_id=telling_id, by=room.desk, at=LATER)
    assert OutgoingMessage.objects.get().kind == "order_ready"
    with pytest.raises(StateRefused) as refused:
        order_letter_send(order=order, telling_id=uuid4(), by=room.desk, at=LATER)
    assert refused.value.code == "order.letter_under_way"
    swept(Fate.REFUSED)
    order_letter_send(order=order, telling_id=uuid4(), by=room.desk, at=LATER)
    assert OutgoingMessage.objects.count() == 2
    assert standing(order) == "letter_waits"


def test_a_letter_of_unknown_fate_is_not_doubled(room):
    order = ready(room)
    swept(Fate.UNKNOWN)
    with pytest.raises(StateRefused) as refused:
        order_letter_send(order=order, by=room.desk, at=LATER)
    assert refused.value.code == "order.letter_unknown"


def test_without_consent_no_letter_can_be_chosen():
    room = Workshop()
    with pytest.raises(StateRefused) as refused:
        order_letter_send(order=ready(room), by=room.desk, at=LATER)
    assert refused.value.code == "order.letter_not_allowed"


def test_a_letter_that_waits_is_stopped_when_a_call_is_chosen(room):
    order = ready(room)
    order_tell_by_choose(order=order, tell_by="telephone", by=room.desk, at=LATER)
    assert OutgoingMessage.objects.get().status == MessageStatus.CANCELLED
    assert standing(order) == "letter_stopped"
    assert swept(Fate.DELIVERED).offered == 0


@pytest.mark.parametrize("end", ["handed over", "cancelled"])
def test_a_letter_that_says_ready_does_not_leave_after_the_clubs_have(room, end):
    order = ready(room)
    if end == "cancelled":
        order_cancel(order=order, why="changed his mind", by=room.desk, at=LATER)
    else:
        order_hand_over(order=order, how="collected", by=room.desk, at=LATER)
    letter = OutgoingMessage.objects.get(kind="order_ready")
    assert letter.status == MessageStatus.CANCELLED


@pytest.mark.parametrize(
    ("values", "code"),
    [
        ({"how": "smoke", "outcome": "reached"}, "order.telling_how_unknown"),
        ({"how": "letter", "outcome": "reached"}, "order.telling_how_unknown"),
        ({"how": "telephone", "outcome": ""}, "order.telling_without_outcome"),
        ({"how": "in_person", "outcome": "no_answer"}, "order.telling_in_person_not_reached"),
    ],
)
def test_a_telling_that_says_too_little_is_refused(room, values, code):
    with pytest.raises(FieldsRefused) as refused:
        order_tell(order=ready(room), by=room.desk, at=LATER, **values)
    assert refused.value.code == code
    assert not Telling.objects.filter(letter=None).exists()


def test_an_unknown_way_is_refused(room):
    with pytest.raises(FieldsRefused) as refused:
        order_create(spec=room.spec, tell_by="pigeon", by=room.fitter, at=CURED)
    assert refused.value.code == "order.tell_by_unknown"


def test_nobody_is_told_of_clubs_still_at_the_bench(room):
    with pytest.raises(Refused):
        called(room.released(), room, "reached")


def test_a_telling_has_an_outcome_or_a_letter_in_the_database_too(room):
    order = ready(room)
    with pytest.raises(IntegrityError), transaction.atomic():
        Telling.objects.create(order=order, how="telephone", outcome="", at=LATER, by="Pia Holm")


def test_the_rule_knows_every_state_of_a_letter():
    for status in MessageStatus.values:
        rules.standing_of([rules.Attempt("letter", letter=status)])


def test_what_was_written_down_before_becomes_tellings(room):
    """The letter queued at the shelf, and each call that the audit kept."""
    order = ready(room)
    for outcome in ("no_answer", "reached"):
        called(order, room, outcome)
    Telling.objects.all().delete()
    order.told_at, order.told_how = LATER, "telephone"
    migration = importlib.import_module("orders.migrations.0007_tellings")
    migration.tellings_from_before(apps, None)
    kept = [(row.how, row.outcome, row.by) for row in order.tellings.order_by("at", "how")]
    assert kept == [
        ("letter", "", "Pia Holm"),
        ("telephone", "reached", "Pia Holm"),
        ("telephone", "reached", "Pia Holm"),
    ]
