"""B.T., 12, growing: what the six players' page asks beyond the rules (`tests/rules/players`).

Must: a guardian's consent before any e-mail. Pure rules know no consent, so it stands here.
"""

from decimal import Decimal

import pytest

from fitshop.models import OutgoingMessage
from fitshop.refusals import FieldsRefused
from sessions.models import Visit
from sessions.selectors.people import addressee_of, letter_refusal
from sessions.services.players import consent_record, player_register
from sessions.services.visits import visit_open
from tests.spec_room import AT, Room, shop

pytestmark = pytest.mark.django_db

BT = {
    "given_name": "Bex",
    "family_name": "Tarn",
    "hand": "right",
    "kind": "junior",
    "height_mm": Decimal(1480),
    "email": "bex@players.invalid",
}
GUARDIAN = {"guardian_name": "Nell Tarn", "guardian_email": "nell@players.invalid"}


@pytest.fixture
def room():
    shop()
    return Room()


def agree(player, room, *, about, given_by):
    return consent_record(
        player=player, about=about, text_version=f"{about}-1", given_by=given_by,
        by=room.fitter, at=AT,
    )  # fmt: skip


def test_bt_is_not_registered_without_a_guardian(room):
    with pytest.raises(FieldsRefused) as refused:
        player_register(values=BT, by=room.fitter, at=AT)
    assert refused.value.errors == {"guardian_name": "A child needs a guardian's name."}


def test_bt_hears_nothing_by_e_mail_before_a_guardian_agreed(room):
    child = player_register(values={**BT, **GUARDIAN}, by=room.fitter, at=AT)
    visit = Visit.objects.create(
        player=child, location=room.location, starts_at=AT, state="booked", created_at=AT
    )
    # No fitting is recorded before the guardian agrees to the record.
    with pytest.raises(FieldsRefused, match="guardian"):
        visit_open(visit=visit, by=room.fitter, at=AT)
    visit = visit_open(visit=visit, guardian_agrees=True, by=room.fitter, at=AT)
    # The record is not the mail: that is agreed to apart, and not by the child.
    with pytest.raises(FieldsRefused) as refused:
        agree(child, room, about="email", given_by="player")
    assert refused.value.errors == {"given_by": "For a child a guardian agrees."}
    assert "guardian has not agreed to e-mail" in letter_refusal(child)
    assert addressee_of(child) is None
    assert not OutgoingMessage.objects.exists()
    agree(child, room, about="email", given_by="guardian")
    # And then the letters are the guardian's, though the child has an address.
    told = addressee_of(child)
    assert (told.name, told.email) == ("Nell Tarn", "nell@players.invalid")
