"""On the shelf, told, handed over: letters, clubs on record, as built as the record."""

from decimal import Decimal

import pytest

from fitshop.models import OutgoingMessage
from fitshop.refusals import FieldsRefused, StateRefused
from orders.documents.as_built import pdf
from orders.services.checks import check_sign
from orders.services.hand_over import order_hand_over, order_ready
from sessions.models import Club, SpecClub
from tests.order_room import CURED, Workshop

pytestmark = pytest.mark.django_db


def ready(room):
    return order_ready(order=room.passed(), by=room.desk, at=CURED)


def test_an_unchecked_order_does_not_reach_the_shelf():
    room = Workshop()
    with pytest.raises(StateRefused, match="check is not signed"):
        order_ready(order=room.built(), by=room.desk, at=CURED)


def test_the_player_is_written_to_where_he_agreed():
    room = Workshop()
    room.agree_to_mail()
    order = ready(room)
    letter = OutgoingMessage.objects.get()
    assert (letter.kind, letter.recipient_email) == ("order_ready", "ivo@players.invalid")
    assert "Your clubs are built, checked and on our shelf (order 2001)" in letter.body_text
    assert order.tellings.get().letter == letter


def test_without_consent_nothing_is_queued_and_nobody_was_told():
    order = ready(Workshop())
    assert not OutgoingMessage.objects.exists()
    assert not order.tellings.exists()


def test_on_the_shelf_twice_is_once():
    room = Workshop()
    room.agree_to_mail()
    order = ready(room)
    order_ready(order=order, by=room.desk, at=CURED)
    assert OutgoingMessage.objects.count() == 1


def test_handed_over_clubs_become_the_players_own_with_their_bend():
    """Came 56 and 64, built 55 and 63: one strong, one flat."""
    room = Workshop()
    order = order_hand_over(order=ready(room), how="collected", by=room.desk, at=CURED)
    club = Club.objects.get(source_order_id=order.pk)
    assert (club.player, club.source_slot, club.label) == (room.player, 1, "Sand")
    assert [[Decimal(x) for x in bend] for bend in club.bends] == [[Decimal(-1), Decimal(-1)]]
    assert str(club.in_use_since) == "2027-05-08"


def test_handed_over_twice_is_once():
    room = Workshop()
    room.agree_to_mail()
    order = order_hand_over(order=ready(room), how="posted", by=room.desk, at=CURED)
    order_hand_over(order=order, how="posted", by=room.desk, at=CURED)
    assert Club.objects.filter(source_order_id=order.pk).count() == 1
    assert OutgoingMessage.objects.filter(kind="order_as_built").count() == 1


def test_how_it_left_must_be_said():
    room = Workshop()
    with pytest.raises(FieldsRefused):
        order_hand_over(order=ready(room), how="", by=room.desk, at=CURED)


def test_the_as_built_sheet_is_frozen_with_the_letter_and_renders():
    room = Workshop()
    room.agree_to_mail()
    order_hand_over(order=ready(room), how="collected", by=room.desk, at=CURED)
    letter = OutgoingMessage.objects.get(kind="order_as_built")
    (sheet,) = letter.attachments
    club = sheet["values"]["clubs"][0]
    assert (club["loft"], club["lie"], club["length"]) == ("55°", "63°", "35 1/4 in")
    assert club["bounce"] == "11° (worked out, not measured)"
    assert pdf(sheet["values"]).startswith(b"%PDF")


def test_an_own_club_that_was_bent_keeps_its_row_and_gains_its_bend():
    room = Workshop()
    SpecClub.objects.filter(spec=room.spec).update(
        source="own_adjusted", club=room.old, head=None, shaft=None, grip=None, stamping="none"
    )
    order = room.released()
    club = room.club(order)
    room.step(club, "picked", hand="right")
    room.read(club, "as_received", "loft", "55.5")
    room.read(club, "as_received", "lie", "63")
    for step in ("bare_head", "bent_built"):
        room.step(club, step)
    for measure, value in (
        ("loft", "55"), ("lie", "63"), ("length", "895.35"), ("swing_weight", "4"),
    ):  # fmt: skip
        room.read(club, "as_built", measure, value)
    for step in ("measured", "cleaned"):
        room.step(club, step)
    check_sign(order=order, result="passed", by=room.second, at=CURED)
    order_ready(order=order, by=room.desk, at=CURED)
    order_hand_over(order=order, how="collected", by=room.desk, at=CURED)
    room.old.refresh_from_db()
    assert [Decimal(x) for x in room.old.bends[-1]] == [Decimal("-0.5"), Decimal(0)]
    assert room.old.source_order_id == order.pk
