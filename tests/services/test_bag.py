"""The bag now: each club as it is read, the rest as a count."""

import uuid
from decimal import Decimal

import pytest

from fitshop.models import AuditEntry
from fitshop.refusals import FieldsRefused, StateRefused
from sessions.models import BagEntry, Club, OtherClubs, Player
from sessions.services.bag import bag_club_record, other_clubs_record
from sessions.services.trials import trial_start
from tests.fixtures_capture import AT, a_fitting

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    return a_fitting()


def read(room, club_id=None, entry_id=None, **values):
    return bag_club_record(
        visit=room.visit,
        entry_id=entry_id or uuid.uuid4(),
        club_id=club_id or uuid.uuid4(),
        values={"kind": "wedge", "label": "54", **values},
        by=room.fitter,
        at=AT,
    )


def test_a_club_is_made_at_first_sight_with_the_players_hand(room):
    entry = read(room, stamped_loft_deg=Decimal(54), loft_deg=Decimal("53.5"), stock_carry_m=80.5)
    assert (entry.club.player, entry.club.hand, entry.club.stamped_loft_deg) == (
        room.player, "right", Decimal(54),
    )  # fmt: skip
    assert (entry.loft_deg, entry.stock_carry_m, entry.lie_deg) == (Decimal("53.5"), 80.5, None)
    assert AuditEntry.objects.filter(action="fitting.bag_club.recorded").count() == 1


def test_reading_a_club_again_adds_an_entry_to_the_same_club(room):
    club_id = uuid.uuid4()
    read(room, club_id, loft_deg=Decimal(53))
    read(room, club_id, loft_deg=Decimal("53.5"), label="old 54")
    assert Club.objects.get().label == "old 54"
    assert [entry.loft_deg for entry in BagEntry.objects.order_by("sequence")] == [
        Decimal(53), Decimal("53.5"),
    ]  # fmt: skip


def test_the_same_entry_twice_is_stored_once(room):
    club_id, entry_id = uuid.uuid4(), uuid.uuid4()
    assert read(room, club_id, entry_id) == read(room, club_id, entry_id)
    assert BagEntry.objects.count() == 1


def test_a_club_without_a_name_is_refused_beside_its_field(room):
    with pytest.raises(FieldsRefused) as refused:
        read(room, label="")
    assert refused.value.errors == {
        "label": "Say what the player calls it, for example pitching wedge or 54."
    }
    assert not Club.objects.exists()


def test_an_unknown_making_is_refused(room):
    with pytest.raises(FieldsRefused, match="17-4 stainless"):
        read(room, making="cheese")


def test_another_players_club_is_refused(room):
    entry = read(room)
    other = Player.objects.create(
        given_name="Nils", family_name="Orme", hand="right", kind="man", carry_unit="m",
        created_at=AT,
    )  # fmt: skip
    Club.objects.filter(pk=entry.club_id).update(player=other)
    with pytest.raises(StateRefused, match="another player"):
        read(room, entry.club_id)


def test_other_clubs_are_counted_by_kind_and_the_last_count_counts(room):
    for drivers in (2, 1):
        other_clubs_record(
            visit=room.visit, counts={"driver": (drivers, 0), "hybrid": (2, 1)},
            by=room.fitter, at=AT,
        )  # fmt: skip
    rows = OtherClubs.objects.order_by("kind").values_list("kind", "count", "unused")
    assert list(rows) == [("driver", 1, 0), ("hybrid", 2, 1)]


def test_more_unused_than_there_are_is_refused(room):
    with pytest.raises(FieldsRefused) as refused:
        other_clubs_record(visit=room.visit, counts={"hybrid": (1, 2)}, by=room.fitter, at=AT)
    assert refused.value.errors == {
        "hybrid": "2 unused of 1: there can't be more unused than there are."
    }
    assert not OtherClubs.objects.exists()


def test_a_loft_read_after_the_hand_over_reaches_the_trial(room):
    club = read(room, kind="pitching_wedge", label="pitching wedge",
                stamped_loft_deg=Decimal(46), stamped_bounce_deg=Decimal(6)).club  # fmt: skip
    trial = trial_start(visit=room.visit, trial_id=uuid.uuid4(), purpose="baseline", club=club,
                        by=room.fitter, at=AT)  # fmt: skip
    assert (trial.loft_deg, trial.loft_is_measured) == (46, False)
    read(room, club.pk, kind="pitching_wedge", label="pitching wedge", loft_deg=Decimal("44.5"))
    trial.refresh_from_db()
    assert (trial.loft_deg, trial.loft_is_measured) == (Decimal("44.5"), True)
    # A degree and a half stronger takes as much off the bounce: 6 becomes 4.5. Common practice.
    assert (trial.bounce_deg, trial.bounce_is_measured) == (Decimal("4.5"), False)
    told = AuditEntry.objects.filter(action="fitting.bag_club.recorded").order_by("pk").last()
    assert told.after["trials_read"] == [str(trial.pk)]


def test_a_trial_whose_loft_was_read_keeps_its_own_reading(room):
    club = read(room, kind="pitching_wedge", label="pitching wedge", loft_deg=Decimal(46)).club
    trial = trial_start(visit=room.visit, trial_id=uuid.uuid4(), purpose="baseline", club=club,
                        by=room.fitter, at=AT)  # fmt: skip
    read(room, club.pk, kind="pitching_wedge", label="pitching wedge", loft_deg=Decimal(45))
    trial.refresh_from_db()
    assert trial.loft_deg == 46
