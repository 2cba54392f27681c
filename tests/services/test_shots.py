"""Shots are facts: recorded once, left out by a row, counted on what they were hit with."""

import uuid

import pytest

from fitshop.refusals import FieldsRefused, StateRefused
from sessions.models import Rating, Shot, ShotExclusion, Visit
from sessions.services.shots import rating_record, shot_exclude, shot_record
from sessions.services.trials import block_start, trial_finish, trial_start
from tests.fixtures_capture import AT, SITUATION, a_fitting

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    return a_fitting()


@pytest.fixture
def trial(room):
    return trial_start(**room.trial())


def a_block(room, trial, **changes):
    return block_start(
        trial=trial, block_id=uuid.uuid4(), values={**SITUATION, **changes}, by=room.fitter, at=AT
    )


def hit(room, block, shot_id=None, **values):
    return shot_record(
        block=block, shot_id=shot_id or uuid.uuid4(), values={"carry_m": 90.0, **values},
        by=room.fitter, at=AT,
    )  # fmt: skip


def exclude(room, shot, reason):
    return shot_exclude(shot=shot, exclusion_id=uuid.uuid4(), reason=reason, by=room.fitter, at=AT)


def counted(room):
    rows = (room.head, room.shaft, room.adapter)
    for row in rows:
        row.refresh_from_db()
    return [row.shot_count for row in rows]


def test_a_fat_shot_is_kept_and_counted_though_it_is_out_of_the_mean(room, trial):
    shot = hit(room, a_block(room, trial), strike="fat", in_mean=False)
    assert (shot.strike, shot.in_mean, shot.number) == ("fat", False, 1)
    assert not ShotExclusion.objects.exists()
    assert counted(room) == [1, 1, 1]


def test_what_was_not_measured_is_none_and_nought_is_nought(room, trial):
    shot = hit(room, a_block(room, trial), side_m=0.0)
    shot.refresh_from_db()
    assert (shot.side_m, shot.spin_rpm) == (0.0, None)


def test_the_same_shot_twice_is_one_ball(room, trial):
    block, shot_id = a_block(room, trial), uuid.uuid4()
    assert hit(room, block, shot_id) == hit(room, block, shot_id)
    assert (Shot.objects.count(), counted(room)) == (1, [1, 1, 1])


def test_other_figures_under_the_same_id_are_refused(room, trial):
    block, shot_id = a_block(room, trial), uuid.uuid4()
    hit(room, block, shot_id)
    with pytest.raises(StateRefused, match="recorded before with other values"):
        hit(room, block, shot_id, carry_m=91.0)
    assert Shot.objects.get().carry_m == 90.0


def test_a_shot_of_which_nothing_was_said_is_refused(room, trial):
    with pytest.raises(FieldsRefused, match="Type a carry, or say how it was struck"):
        hit(room, a_block(room, trial), carry_m=None)


def test_a_chip_may_be_judged_by_its_strike_alone(room, trial):
    assert (
        hit(room, a_block(room, trial, swing="chip"), carry_m=None, strike="clean").carry_m is None
    )


def test_shots_of_a_warm_up_block_are_warm_up(room, trial):
    assert hit(room, a_block(room, trial, is_warm_up=True)).is_warm_up
    assert not hit(room, a_block(room, trial)).is_warm_up


def test_a_misread_is_left_out_and_stays_as_it_was_recorded(room, trial):
    shot = hit(room, a_block(room, trial))
    exclude(room, shot, "misread")
    shot.refresh_from_db()
    assert (shot.carry_m, shot.exclusion.reason) == (90.0, "misread")
    # The ball was hit, so the head has its wear.
    assert counted(room) == [1, 1, 1]


def test_what_was_mistyped_was_no_second_ball(room, trial):
    exclude(room, hit(room, a_block(room, trial)), "mistyped")
    assert counted(room) == [0, 0, 0]


def test_leaving_out_twice_is_leaving_out_once_and_another_reason_is_refused(room, trial):
    shot = hit(room, a_block(room, trial))
    assert exclude(room, shot, "undone") == exclude(room, shot, "undone")
    with pytest.raises(StateRefused, match="Shot 1 is left out already: undone"):
        exclude(room, shot, "misread")
    assert counted(room) == [0, 0, 0]


def test_a_bad_strike_is_no_reason_to_leave_out(room, trial):
    with pytest.raises(FieldsRefused, match="Choose one of: Misread, Mistyped, Undone"):
        exclude(room, hit(room, a_block(room, trial)), "fat")


def test_a_ball_hit_before_the_club_was_put_away_still_comes_in(room, trial):
    block = a_block(room, trial)
    trial_finish(trial=trial, by=room.fitter, at=AT)
    assert hit(room, block).number == 1


def test_a_closed_visit_takes_no_more_shots(room, trial):
    block = a_block(room, trial)
    Visit.objects.filter(pk=room.visit.pk).update(state="closed", closed_at=AT)
    with pytest.raises(StateRefused, match="The visit is not open"):
        hit(room, block)


@pytest.mark.parametrize("score", [0, 6])
def test_a_rating_is_one_to_five(room, trial, score):
    with pytest.raises(FieldsRefused, match="Choose 1 to 5"):
        rating_record(
            trial=trial, rating_id=uuid.uuid4(), about="feel", score=score, by=room.fitter, at=AT
        )
    assert not Rating.objects.exists()


@pytest.mark.parametrize("score", [1, 5])
def test_the_ends_of_the_scale_are_ratings(room, trial, score):
    rating = rating_record(
        trial=trial, rating_id=uuid.uuid4(), about="turf", score=score, by=room.fitter, at=AT
    )
    assert (rating.score, rating.before_reveal) == (score, False)
