"""What is shown of clubs that are built: on the shelf, handed over, in the player's bag."""

import datetime as dt
from decimal import Decimal

import pytest
from django.urls import reverse

from orders.models import BuildOrder
from orders.services.hand_over import order_hand_over, order_ready
from orders.services.tellings import order_tell
from sessions.models import BagEntry, Club
from tests.order_room import CURED, Workshop
from tests.spec_room import shop, signed_in

pytestmark = pytest.mark.django_db


@pytest.fixture
def room(settings):
    settings.DEMO = True  # no second factor
    shop()
    return Workshop()


@pytest.fixture
def desk(client, room):
    client.force_login(signed_in(room.location, role="desk"))
    return client


def ready(room):
    return order_ready(order=room.passed(), by=room.desk, at=CURED)


def handed_over(room):
    return order_hand_over(order=ready(room), how="collected", by=room.desk, at=CURED)


def text_of(client, name, *args):
    return client.get(reverse(name, args=args)).content.decode()


def test_the_shelf_is_told_apart_from_the_bench_with_since_when_and_whether_told(desk, room):
    order = ready(room)
    text = text_of(desk, "workshop_today_panel")
    assert "0 tickets at the bench" in text
    assert "Ready on the shelf: 1" in text
    assert "Ivo Brandvold" in text
    assert "on the shelf since Sat 8 May" in text
    assert "Not told" in text
    order_tell(order=order, how="telephone", outcome="reached", by=room.desk, at=CURED)
    text = text_of(desk, "workshop_today_panel")
    assert "told by telephone" in text
    assert "Not told" not in text


def test_at_the_bench_nothing_is_on_the_shelf(desk, room):
    room.released()
    text = text_of(desk, "workshop_today_panel")
    assert "1 ticket at the bench" in text
    assert "Ready on the shelf" not in text


def test_a_handed_over_order_is_due_no_more_and_its_sheet_is_printed_again(desk, room):
    order = ready(room)
    BuildOrder.objects.update(note="Please telephone when ready.")
    url = reverse("as_built", args=[2001])
    before = text_of(desk, "order", 2001)
    assert ", due " in before
    assert url not in before
    refused = desk.get(url)
    assert refused.status_code == 409
    assert "printed once the clubs are handed over" in refused.content.decode()
    order_hand_over(order=order, how="collected", by=room.desk, at=CURED)
    after = text_of(desk, "order", 2001)
    assert ", due " not in after
    assert "Please telephone" not in after
    assert url in after
    rows = text_of(desk, "workshop_player_panel", room.player.pk)
    assert "handed over Sat 8 May" in rows
    assert "due " not in rows
    answer = desk.get(url)
    assert (answer.status_code, answer["Content-Type"]) == (200, "application/pdf")
    assert answer.content.startswith(b"%PDF")


def test_a_club_built_here_is_owned_with_its_loft_as_built(desk, room):
    """Stamped 56, built 55."""
    order = handed_over(room)
    url = reverse("workshop_clubs_panel", args=[room.player.pk])
    assert f'hx-get="{url}"' in text_of(desk, "player", room.player.pk)
    text = desk.get(url).content.decode()
    assert "55° as built (stamped 56)" in text
    club = Club.objects.get(source_order_id=order.pk)
    BagEntry.objects.create(
        visit=room.visit, sequence=9000, club=club, loft_deg=Decimal("55.4"),
        recorded_at=CURED + dt.timedelta(days=300), recorded_by="Mara Quill",
    )  # fmt: skip
    assert "measured 55.4° (stamped 56)" in desk.get(url).content.decode()


def test_a_club_that_was_measured_is_owned_with_what_it_measured(desk, room):
    """The own 50 was read in the bag of `tests/spec_room.py`; an unread one has its stamp."""
    entry = BagEntry.objects.get(club=room.fifty)
    entry.loft_deg = Decimal("50.7")
    entry.save()
    Club.objects.create(
        player=room.player, kind="wedge", label="Unread", hand="right",
        stamped_loft_deg=Decimal(58), created_at=CURED,
    )  # fmt: skip
    text = text_of(desk, "player", room.player.pk)
    assert "measured 50.7° (stamped 50)" in text
    assert "stamped 58°" in text
