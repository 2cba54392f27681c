"""What each swing was last hit in, and which balls look like another swing."""

import uuid

import pytest

from sessions.services.comparisons import comparison_open
from sessions.services.shots import shot_exclude, shot_record
from sessions.services.trials import block_start, trial_start
from tests.fixtures_capture import AT, SITUATION

pytestmark = pytest.mark.django_db

YARD_M = 0.9144


def state(tablet, room):
    return tablet.get(f"/api/v1/visits/{room.visit.pk}/state").json()


def block(room, trial, **changes):
    return block_start(
        trial=trial, block_id=uuid.uuid4(), values={**SITUATION, **changes}, by=room.fitter, at=AT
    )


def hit(room, into, *carries_yd, **values):
    return [
        shot_record(
            block=into,
            shot_id=uuid.uuid4(),
            values={"carry_m": carry * YARD_M, **values},
            by=room.fitter,
            at=AT,
        )
        for carry in carries_yd
    ]


def test_a_visit_without_a_ball_has_no_surroundings_yet(tablet, room):
    told = state(tablet, room)["surroundings"]
    assert (told["now"], told["by_swing"]) == (None, {})
    assert told["first"]["sand"] == {"hit_from": "sand_firm", "face": "little_open"}


def test_each_swing_remembers_its_own_surroundings_over_all_clubs(tablet, room):
    first = trial_start(**room.trial())
    block(room, first, target_m=100 * YARD_M, device=room.device)
    block(room, first, swing="sand", hit_from="sand_wet", face="wide_open", target_m=20 * YARD_M)
    second = trial_start(**room.trial(trial_head=room.other_head))
    block(room, second, swing="chip", hit_from="tight", wetness="wet")
    # The older club again, on another tablet: the server's order counts, not the club's.
    block(room, first, swing="chip", hit_from="rough")
    told = state(tablet, room)["surroundings"]
    assert (told["now"]["swing"], told["now"]["hit_from"]) == ("chip", "rough")
    full, sand, chip = (told["by_swing"][swing] for swing in ("full", "sand", "chip"))
    assert (full["hit_from"], full["face"], full["target"]) == ("fairway", "square", "100")
    assert full["device_id"] == str(room.device.pk)
    assert (sand["hit_from"], sand["face"], sand["target"]) == ("sand_wet", "wide_open", "20")
    assert (chip["hit_from"], chip["wetness"]) == ("rough", "dry")
    assert list(told["by_swing"]) == ["full", "sand", "chip"]


def test_a_hidden_comparison_keeps_the_surroundings_and_names_nothing(tablet, room):
    trials = [trial_start(**room.trial()), trial_start(**room.trial(trial_head=room.other_head))]
    for trial in trials:
        block(room, trial, hit_from="tight", ball="premium", device=room.device)
    comparison_open(
        visit=room.visit, comparison_id=uuid.uuid4(), slot=2, trials=trials, covered=True, seed=3,
        knowingly=True, by=room.fitter, at=AT,
    )  # fmt: skip
    told = state(tablet, room)
    # What was hit before the draw would tell a hidden club; how it was hit doesn't.
    assert [one["blocks"] for one in told["trials"]] == [[], []]
    now = told["surroundings"]["now"]
    assert (now["hit_from"], now["ball"], now["carry_got"]) == ("tight", "premium", "tracked")
    assert now["device_id"] == str(room.device.pk)
    assert not {"id", "trial_id", "shots"} & set(now)


def test_a_chip_among_full_swings_is_told_with_the_swing_that_it_fits(tablet, room):
    trial = trial_start(**room.trial())
    hit(room, block(room, trial, swing="chip"), 24, 26, 28)
    full = block(room, trial)
    hit(room, full, 82, 84, 86)
    (odd,) = hit(room, full, 27)
    assert state(tablet, room)["other_swings"] == [{"shot_id": str(odd.pk), "swing": "chip"}]
    shot_exclude(shot=odd, exclusion_id=uuid.uuid4(), reason="misread", by=room.fitter, at=AT)
    assert state(tablet, room)["other_swings"] == []


def test_a_club_with_too_few_balls_is_held_against_the_visits(tablet, room):
    first = trial_start(**room.trial())
    hit(room, block(room, first, swing="chip"), 24, 26, 28)
    hit(room, block(room, first), 82, 84, 86)
    second = trial_start(**room.trial(trial_head=room.other_head))
    (odd,) = hit(room, block(room, second), 27)
    assert state(tablet, room)["other_swings"] == [{"shot_id": str(odd.pk), "swing": "chip"}]


def test_a_fat_ball_and_a_warm_up_ball_are_not_asked_about(tablet, room):
    trial = trial_start(**room.trial())
    full = block(room, trial)
    hit(room, full, 82, 84, 86)
    hit(room, full, 27, strike="fat", in_mean=False)
    hit(room, block(room, trial, is_warm_up=True), 27)
    assert state(tablet, room)["other_swings"] == []


def test_a_club_that_left_the_hand_is_not_asked_about(tablet, room):
    trial = trial_start(**room.trial())
    hit(room, block(room, trial), 82, 84, 86, 27)
    assert len(state(tablet, room)["other_swings"]) == 1
    trial_start(**room.trial(trial_head=room.other_head))
    assert state(tablet, room)["other_swings"] == []
