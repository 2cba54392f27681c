"""What a degree of lie and another length do, beside the spec's figures."""

from decimal import Decimal

import pytest
from django.urls import reverse

from sessions.models import SpecClub
from tests.spec_room import Room, shop, signed_in
from tests.web.test_swing_weight import words_of

pytestmark = pytest.mark.django_db


@pytest.fixture
def room(client):
    shop()
    room = Room()
    client.force_login(signed_in(room.location))
    client.post(reverse("spec_draft", args=[room.visit.pk]))
    return room


def test_lie_and_length_say_what_they_do_once_folded_away_and_once_at_their_field(client, room):
    new = SpecClub.objects.filter(source="new").get()
    new.target_loft_deg, new.predicted_carry_m, new.hand = Decimal(56), 90.0, "right"
    new.target_length_mm = Decimal("36") * Decimal("25.4")
    new.save()
    trial = new.trial
    trial.lie_deg, trial.length_mm = Decimal(64), Decimal("35.5") * Decimal("25.4")
    trial.save()
    text = words_of(client.get(reverse("spec", args=[room.visit.pk])))
    # tan(face) = tan 56 x sin 1 = 0.0258743; 90 m is 98.425 yd, so 2.547 yd.
    lie = "A degree too upright points the face 1.5° left, at 98 yd about 2.5 yd aside at most"
    # sin(new) = 35.5 / 36 x sin 64 = 0.886311: 62.4 degrees.
    length = (
        "The club tried has 64° at 35 1/2 in: at 36 in, the hands as high, 62.4° plays as level"
    )
    assert text.count(lie) == text.count(length) == 2
    assert f"Score lines level. {lie}" in text
