"""What is put into the player's hand: checked, copied, and compared with the club before."""

import datetime as dt
import importlib
import uuid
from decimal import Decimal

import pytest
from django.apps import apps

from fitshop.models import AuditEntry
from fitshop.refusals import FieldsRefused, StateRefused
from sessions.models import BagEntry, Block, Command, Head, Trial
from sessions.services.bag import bag_club_record
from sessions.services.equipment import equipment_withdraw
from sessions.services.shots import shot_record
from sessions.services.trials import block_start, trial_finish, trial_start
from tests.fixtures_capture import AT, SITUATION, a_fitting

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    return a_fitting()


def own_club(room, **values):
    return bag_club_record(
        visit=room.visit, entry_id=uuid.uuid4(), club_id=uuid.uuid4(),
        values={"kind": "pitching_wedge", "label": "pitching wedge", **values},
        by=room.fitter, at=AT,
    ).club  # fmt: skip


def start_own(room, club, **changes):
    return trial_start(
        visit=room.visit, trial_id=uuid.uuid4(), purpose="baseline", club=club, by=room.fitter,
        at=AT, **changes,
    )  # fmt: skip


def test_a_trial_head_plays_as_it_was_measured_and_its_bounce_follows_the_loft(room):
    trial = trial_start(**room.trial())
    # Stamped 54 with 10, measured a degree strong: the bounce is a degree less. Common practice.
    assert (trial.stamped_loft_deg, trial.loft_deg, trial.loft_is_measured) == (54, 53, True)
    assert (trial.stamped_bounce_deg, trial.bounce_deg) == (10, 9)
    assert (trial.lie_deg, trial.length_mm) == (Decimal("63.5"), Decimal("895.35"))
    # 301.5 + 150 + 7.5, by hand.
    assert trial.mass_g == Decimal("459.0")
    assert trial.sole_words == "20 mm wide, medium camber, no relief"
    assert (trial.number, trial.head_tight_checked_by) == (1, "Odo")
    assert AuditEntry.objects.filter(action="fitting.trial.started").count() == 1


def test_what_was_not_weighed_makes_no_total(room):
    trial = trial_start(**room.trial(trial_head=room.other_head))
    assert trial.mass_g is None
    assert (trial.loft_deg, trial.loft_is_measured, trial.bounce_deg) == (56, False, 12)
    assert trial.sole_words == "20 mm wide, medium camber, heel clearly relieved"


def test_a_loft_read_now_wins_over_the_last_check(room):
    trial = trial_start(**room.trial(loft_deg=Decimal("54.5"), lie_deg=Decimal("64.5")))
    assert (trial.loft_deg, trial.lie_deg, trial.bounce_deg) == (
        Decimal("54.5"), Decimal("64.5"), Decimal("10.5"),
    )  # fmt: skip


def test_what_the_scale_says_now_wins_over_the_sum_of_the_parts(room):
    read = {"swing_weight_points": Decimal("22.5"), "mass_g": Decimal("461.2")}
    trial = trial_start(**room.trial(**read))
    assert (trial.swing_weight_points, trial.mass_g) == (Decimal("22.5"), Decimal("461.2"))
    assert AuditEntry.objects.last().after["swing_weight_points"] == "22.5"
    # The next club was not put on the scale: nothing of the one before is said of it.
    again = trial_start(**room.trial())
    assert (again.swing_weight_points, again.mass_g) == (None, Decimal("459.0"))


def test_one_club_off_the_scale_and_then_added_up_is_not_called_different(room):
    trial_start(**room.trial(mass_g=Decimal("461.2")))
    again = trial_start(**room.trial())
    assert (again.mass_g, again.mass_is_measured, again.also_different) == (459, False, [])
    # And the other way round.
    assert trial_start(**room.trial(mass_g=Decimal("461.2"))).also_different == []


def test_two_readings_are_compared_and_so_are_two_sums(room):
    trial_start(**room.trial(mass_g=Decimal("461.2")))
    read = trial_start(**room.trial(mass_g=Decimal("464")))
    assert (read.mass_is_measured, read.also_different) == (True, ["mass 464 g, was 461.2 g"])
    trial_start(**room.trial())
    room.shaft.measured_mass_g = Decimal("141")
    # 301.5 + 141 + 7.5, by hand.
    assert trial_start(**room.trial()).also_different == ["mass 450 g, was 459 g"]


def test_an_own_club_s_mass_is_a_reading(room):
    club = own_club(room, loft_deg=Decimal(45))
    assert start_own(room, club).mass_is_measured is False
    BagEntry.objects.update(mass_g=Decimal("455.5"))
    trial = start_own(room, club)
    assert (trial.mass_g, trial.mass_is_measured) == (Decimal("455.5"), True)


def test_masses_from_before_are_marked_as_what_they_were(room):
    """The migration: an own club's was read, a trial club's only where a tablet sent it along."""
    club = own_club(room, loft_deg=Decimal(45), mass_g=Decimal("455.5"))
    own, added_up = start_own(room, club), trial_start(**room.trial())
    read = trial_start(**room.trial(mass_g=Decimal("461.2")))
    for trial, mass in ((added_up, " "), (read, "461.2")):
        Command.objects.create(
            id=uuid.uuid4(), visit=room.visit, kind="trial.start", sha256="", receipt={},
            body={"id": str(trial.pk), "mass": mass}, staff_id=room.fitter.staff_id,
            received_at=AT, sequence=100 + trial.number,
        )  # fmt: skip
    Trial.objects.update(mass_is_measured=False)
    step = importlib.import_module("sessions.migrations.0014_whole_clubs_on_the_scale")
    step.readings_marked(apps, None)
    marked = {trial.pk for trial in Trial.objects.filter(mass_is_measured=True)}
    assert marked == {own.pk, read.pk}


def test_a_head_that_was_not_checked_for_tightness_is_not_handed_over(room):
    with pytest.raises(FieldsRefused) as refused:
        trial_start(**room.trial(head_tight=False))
    assert refused.value.errors == {"head_tight": "Check that the head is tight, then tick it."}
    assert not Trial.objects.exists()


def test_a_withdrawn_head_is_refused_with_when_and_why(room):
    equipment_withdraw(item=room.head, why="loose head", by=room.fitter, at=AT)
    room.head.refresh_from_db()
    with pytest.raises(FieldsRefused) as refused:
        trial_start(**room.trial(at=AT + dt.timedelta(minutes=5)))
    # 10:42 of the example is 10:40 here; Dublin is on GMT in March.
    assert refused.value.errors == {
        "trial_head_id": "T-17 was withdrawn 10:40: loose head. Take another."
    }


def test_the_day_is_said_when_it_was_withdrawn_on_another(room):
    equipment_withdraw(item=room.adapter, why="thread worn", by=room.builder, at=AT)
    room.adapter.refresh_from_db()
    with pytest.raises(FieldsRefused) as refused:
        trial_start(**room.trial(at=AT + dt.timedelta(days=1)))
    assert refused.value.errors == {
        "adapter_id": "A-3 was withdrawn on 2 March 2027, 10:40: thread worn. Take another."
    }


STOPPED = "A-3: Withdrawn 10:40 by Bram: adapter cracked. Stop and take it out of the bay."


def withdraw_the_adapter(room):
    equipment_withdraw(item=room.adapter, why="adapter cracked", by=room.builder, at=AT)
    room.adapter.refresh_from_db()


@pytest.mark.parametrize("heard_s", [None, 0, 5])
def test_a_club_whose_adapter_was_withdrawn_takes_no_new_situation(room, heard_s):
    trial = trial_start(**room.trial())
    withdraw_the_adapter(room)
    heard = None if heard_s is None else AT + dt.timedelta(seconds=heard_s)
    with pytest.raises(StateRefused) as refused:
        block_start(
            trial=Trial.objects.get(pk=trial.pk), block_id=uuid.uuid4(), values=SITUATION,
            heard_at=heard, by=room.fitter, at=AT + dt.timedelta(seconds=9),
        )  # fmt: skip
    assert refused.value.sentence == STOPPED


def test_what_was_begun_before_the_tablet_could_be_told_is_a_fact(room):
    trial = trial_start(**room.trial())
    withdraw_the_adapter(room)
    block = block_start(
        trial=Trial.objects.get(pk=trial.pk), block_id=uuid.uuid4(), values=SITUATION,
        heard_at=AT - dt.timedelta(seconds=1), by=room.fitter, at=AT + dt.timedelta(minutes=9),
    )  # fmt: skip
    later = AT + dt.timedelta(minutes=10)
    shot = shot_record(
        block=block, shot_id=uuid.uuid4(), values={"carry_m": 80.0}, by=room.fitter, at=later
    )
    assert shot.number == 1


@pytest.mark.parametrize(("silent_s", "is_taken"), [(60, False), (61, True)])
def test_only_a_tablet_without_a_line_has_handed_a_withdrawn_club_over(room, silent_s, is_taken):
    withdraw_the_adapter(room)
    told = {"heard_at": AT - dt.timedelta(seconds=1)}
    told["at"] = told["heard_at"] + dt.timedelta(seconds=silent_s)
    if is_taken:
        assert trial_start(**room.trial(**told)).adapter == room.adapter
        return
    with pytest.raises(FieldsRefused) as refused:
        trial_start(**room.trial(**told))
    assert list(refused.value.errors) == ["adapter_id"]


def test_a_head_for_the_other_hand_is_refused(room):
    Head.objects.filter(pk=room.head.head_id).update(hand="left")
    room.head.head.refresh_from_db()
    with pytest.raises(FieldsRefused) as refused:
        trial_start(**room.trial())
    assert refused.value.errors == {
        "trial_head_id": "T-17 is a left-hand head; the player is right-hand."
    }


def test_an_adapter_past_its_inspection_is_refused_and_on_the_day_it_is_not(room):
    room.adapter.inspect_by = dt.date(2027, 3, 2)
    assert trial_start(**room.trial()).number == 1
    room.adapter.inspect_by = dt.date(2027, 3, 1)
    with pytest.raises(FieldsRefused, match="A-3 was to be inspected by 1 March 2027"):
        trial_start(**room.trial())


def test_a_trial_head_needs_a_shaft(room):
    with pytest.raises(FieldsRefused, match="Choose the shaft it is on"):
        trial_start(**room.trial(trial_shaft=None))


def test_the_next_club_finishes_the_one_before(room):
    first = trial_start(**room.trial())
    second = trial_start(**room.trial(trial_head=room.other_head, changed=["sole"]))
    first.refresh_from_db()
    assert (first.state, first.finished_at, second.state, second.number) == (
        "finished", AT, "open", 2,
    )  # fmt: skip


def test_what_came_along_with_the_chosen_change_is_listed(room):
    trial_start(**room.trial())
    second = trial_start(**room.trial(trial_head=room.other_head, changed=["sole"]))
    assert second.changed == ["sole"]
    # The sole was chosen, so head and bounce are not said again; the mass of one is not known.
    assert second.also_different == ["loft 56 degrees, was 53 degrees", "lie 64 degrees, was 63.5 "
                                     "degrees"]  # fmt: skip


def test_the_same_club_again_changes_nothing(room):
    trial_start(**room.trial())
    assert trial_start(**room.trial()).also_different == []


def test_lengths_are_said_in_the_shops_unit(room):
    trial_start(**room.trial())
    room.shaft.playing_length_mm = Decimal("901.7")
    second = trial_start(**room.trial(changed=["loft"]))
    # 901.7 / 25.4 = 35.5; 895.35 / 25.4 = 35.25, by hand.
    assert second.also_different == ["length 35 1/2 in, was 35 1/4 in"]


def test_a_change_that_is_none_is_refused(room):
    with pytest.raises(FieldsRefused, match="Choose from: loft, length, shaft"):
        trial_start(**room.trial(changed=["colour"]))


def test_an_own_club_plays_as_the_bag_has_it(room):
    club = own_club(
        room, stamped_loft_deg=Decimal(46), stamped_bounce_deg=Decimal(6), loft_deg=Decimal(45),
        length_mm=Decimal("908.05"), grooves="worn", shaft="Ferrin Reed 95",
    )  # fmt: skip
    trial = start_own(room, club)
    assert (trial.loft_deg, trial.loft_is_measured, trial.bounce_deg) == (45, True, 5)
    assert (trial.length_mm, trial.grooves, trial.shaft_name) == (
        Decimal("908.05"), "worn", "Ferrin Reed 95",
    )  # fmt: skip
    assert trial.head_tight_checked_at is None


def test_the_same_trial_twice_is_stored_once_and_another_under_its_id_is_refused(room):
    values = room.trial()
    assert trial_start(**values) == trial_start(**values)
    assert Trial.objects.count() == 1
    with pytest.raises(StateRefused, match="recorded before"):
        trial_start(**{**values, "trial_head": room.other_head})


def test_finishing_twice_keeps_the_first_time(room):
    trial = trial_start(**room.trial())
    trial_finish(trial=trial, by=room.fitter, at=AT)
    later = trial_finish(trial=trial, by=room.fitter, at=AT + dt.timedelta(minutes=3))
    assert later.finished_at == AT


def test_a_block_carries_its_situation_and_is_numbered_within_its_trial(room):
    trial = trial_start(**room.trial())
    for swing in ("full", "chip"):
        block_start(
            trial=trial, block_id=uuid.uuid4(),
            values={**SITUATION, "swing": swing, "target_m": 27.4, "device": room.device},
            by=room.fitter, at=AT,
        )  # fmt: skip
    blocks = Block.objects.order_by("sequence")
    assert [(block.number, block.swing) for block in blocks] == [(1, "full"), (2, "chip")]
    assert (blocks[0].target_m, blocks[0].device) == (27.4, room.device)


def test_a_block_without_its_ground_is_refused_beside_the_field(room):
    trial = trial_start(**room.trial())
    with pytest.raises(FieldsRefused) as refused:
        block_start(
            trial=trial, block_id=uuid.uuid4(), values={**SITUATION, "hit_from": ""},
            by=room.fitter, at=AT,
        )  # fmt: skip
    assert refused.value.errors == {"hit_from": "Say what it is hit from."}


def test_a_word_that_is_in_no_list_is_refused(room):
    trial = trial_start(**room.trial())
    with pytest.raises(FieldsRefused) as refused:
        block_start(
            trial=trial, block_id=uuid.uuid4(), values={**SITUATION, "wetness": "damp"},
            by=room.fitter, at=AT,
        )  # fmt: skip
    assert refused.value.errors == {"wetness": "Choose one of: dry, wet."}
