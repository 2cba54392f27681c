"""What was done last in the bay is taken back by a fact of its own; nothing is edited."""

import uuid

import pytest

from fitshop.models import AuditEntry
from sessions.models import Rating, Shot, ShotExclusion, TakenBack, Trial
from sessions.services.equipment import equipment_withdraw
from tests.api.test_commands import (
    block_id,  # noqa: F401
    block_start,
    entry,
    receipts,
    shot,
    trial_start,
)
from tests.fixtures_capture import AT

pytestmark = pytest.mark.django_db


def exclude(of_shot, reason):
    body = {"id": str(uuid.uuid4()), "shot_id": of_shot["body"]["id"], "reason": reason}
    return entry("shot.exclude", body)


def take_back(what, of_id):
    return entry("act.take_back", {"id": str(uuid.uuid4()), "what": what, "of_id": of_id})


def mend(of_shot, **said):
    return entry("shot.mend", {
        "id": str(uuid.uuid4()), "exclusion_id": str(uuid.uuid4()),
        "shot_id": of_shot["body"]["id"], "unit": "yd", **said,
    })  # fmt: skip


def rate(trial_id, score):
    body = {"id": str(uuid.uuid4()), "trial_id": trial_id, "about": "feel", "score": score}
    return entry("rating.record", body)


def state(tablet, room):
    return tablet.get(f"/api/v1/visits/{room.visit.pk}/state").json()


def balls(tablet, room):
    """Carry and why it is left out, ball by ball."""
    return [
        (one["carry"], one["left_out"])
        for trial in state(tablet, room)["trials"]
        for block in trial["blocks"]
        for one in block["shots"]
    ]


def stored(tablet, room, *entries):
    told = receipts(tablet, room, *entries)
    assert [one["outcome"] for one in told] == ["stored"] * len(entries), told
    return told


def wear(room):
    room.head.refresh_from_db()
    return room.head.shot_count


def test_a_misread_that_is_taken_back_leaves_its_ball(tablet, room, block_id):  # noqa: F811
    good, read_wrong = shot(block_id, "84"), shot(block_id, "85")
    left_out = exclude(read_wrong, "misread")
    stored(tablet, room, good, read_wrong, left_out)
    assert balls(tablet, room) == [(84, None), (85, "misread")]
    stored(tablet, room, take_back("exclusion", left_out["body"]["id"]))
    assert balls(tablet, room) == [(84, None), (85, None)]
    # The exclusion is still there: nothing was edited.
    assert (ShotExclusion.objects.get().reason, TakenBack.objects.count()) == ("misread", 1)
    assert (state(tablet, room)["clock"]["balls"], wear(room)) == (2, 2)


def test_a_ball_is_left_out_anew_after_that(tablet, room, block_id):  # noqa: F811
    ball = shot(block_id, "85")
    first = exclude(ball, "misread")
    stored(tablet, room, ball, first, take_back("exclusion", first["body"]["id"]))
    stored(tablet, room, exclude(ball, "undone"))
    assert balls(tablet, room) == [(85, "undone")]
    assert (state(tablet, room)["clock"]["balls"], wear(room)) == (0, 0)
    assert ShotExclusion.objects.count() == 2


def test_a_ball_that_was_undone_has_its_wear_again(tablet, room, block_id):  # noqa: F811
    ball = shot(block_id, "85")
    undone = exclude(ball, "undone")
    stored(tablet, room, ball, undone)
    assert wear(room) == 0
    back = take_back("exclusion", undone["body"]["id"])
    stored(tablet, room, back)
    # From another tablet, under an id of its own: it changes nothing.
    stored(tablet, room, take_back("exclusion", undone["body"]["id"]))
    assert (wear(room), TakenBack.objects.count()) == (1, 1)
    assert AuditEntry.objects.filter(action="fitting.shot.counted_again").count() == 1


def test_a_mended_ball_keeps_every_figure_it_had(tablet, room, block_id):  # noqa: F811
    ball = shot(block_id, "84", spin="8900", side="4 left", launch="29")
    right = mend(ball, strike="fat", in_mean=False)
    stored(tablet, room, ball, right)
    assert balls(tablet, room) == [(84, "mistyped"), (84, None)]
    mended = Shot.objects.get(pk=right["body"]["id"])
    assert (mended.strike, mended.in_mean) == ("fat", False)
    assert (mended.spin_rpm, mended.launch_deg, mended.side_m) == (8900, 29, -3.6576)
    assert mended.as_typed["spin"] == "8900"
    assert (state(tablet, room)["clock"]["balls"], wear(room)) == (1, 1)


def test_a_mend_that_is_taken_back_leaves_the_ball_as_it_was(tablet, room, block_id):  # noqa: F811
    ball = shot(block_id, "84")
    right = mend(ball, strike="fat", in_mean=False)
    stored(tablet, room, ball, right)
    stored(
        tablet,
        room,
        exclude(right, "undone"),
        take_back("exclusion", right["body"]["exclusion_id"]),
    )
    assert balls(tablet, room) == [(84, None), (84, "undone")]
    assert (state(tablet, room)["clock"]["balls"], wear(room)) == (1, 1)


def test_a_ball_is_put_where_it_was_hit(tablet, room, block_id):  # noqa: F811
    trial_id = str(Trial.objects.get().pk)
    chips = block_start(trial_id, swing="chip")
    ball = shot(block_id, "27")
    right = mend(ball, block_id=chips["body"]["id"])
    stored(tablet, room, ball, chips, right)
    blocks = state(tablet, room)["trials"][0]["blocks"]
    assert [(one["swing"], [each["left_out"] for each in one["shots"]]) for one in blocks] == [
        ("full", ["mistyped"]), ("chip", [None]),
    ]  # fmt: skip
    assert Shot.objects.get(pk=right["body"]["id"]).carry_m == pytest.approx(27 * 0.9144)


def test_a_ball_that_is_left_out_already_is_not_mended_into_two(tablet, room, block_id):  # noqa: F811
    ball = shot(block_id, "84")
    stored(tablet, room, ball, mend(ball, strike="fat"))
    (refused,) = receipts(tablet, room, mend(ball, strike="thin"))
    assert (refused["outcome"], refused["code"]) == ("refused", "shot.left_out")
    assert Shot.objects.count() == 2


def test_the_rating_before_counts_again(tablet, room, block_id):  # noqa: F811
    trial_id = str(Trial.objects.get().pk)
    first, second = rate(trial_id, "4"), rate(trial_id, "2")
    stored(tablet, room, first, second, take_back("rating", second["body"]["id"]))
    assert [one["score"] for one in state(tablet, room)["trials"][0]["rated"]] == [4]
    stored(tablet, room, take_back("rating", first["body"]["id"]))
    assert state(tablet, room)["trials"][0]["rated"] == []
    assert Rating.objects.count() == 2


def test_the_club_before_is_in_the_hand_again(tablet, room, block_id):  # noqa: F811
    before = state(tablet, room)["trials"][0]["id"]
    other = trial_start(room, trial_head_id=str(room.other_head.pk))
    stored(tablet, room, other, take_back("hand_over", other["body"]["id"]))
    assert [(one["id"], one["state"]) for one in state(tablet, room)["trials"]] == [
        (before, "open")
    ]
    taken_back = Trial.objects.get(pk=other["body"]["id"])
    assert taken_back.state == "taken_back"
    # The next one has a number of its own, and is held against the club that is in the hand.
    again = trial_start(room, trial_head_id=str(room.other_head.pk), changed=["sole"])
    stored(tablet, room, again)
    assert [one["number"] for one in state(tablet, room)["trials"]] == [1, 3]


def test_a_hand_over_whose_balls_count_is_not_taken_back(tablet, room, block_id):  # noqa: F811
    ball = shot(block_id, "84")
    stored(tablet, room, ball)
    trial_id = str(Trial.objects.get().pk)
    (refused,) = receipts(tablet, room, take_back("hand_over", trial_id))
    assert (refused["code"], Trial.objects.get().state) == ("trial.was_hit", "open")
    stored(tablet, room, exclude(ball, "undone"), take_back("hand_over", trial_id))
    assert Trial.objects.get().state == "taken_back"


def test_a_hand_over_is_not_taken_back_once_something_was_said_or_another_followed(tablet, room):
    first, second = trial_start(room), trial_start(room, trial_head_id=str(room.other_head.pk))
    stored(tablet, room, first, second, rate(second["body"]["id"], "3"))
    told = receipts(
        tablet, room,
        take_back("hand_over", first["body"]["id"]), take_back("hand_over", second["body"]["id"]),
    )  # fmt: skip
    assert [one["code"] for one in told] == ["trial.not_in_hand", "trial.was_judged"]


def test_a_club_that_left_the_hand_before_stays_out_of_it(tablet, room, block_id):  # noqa: F811
    first = state(tablet, room)["trials"][0]["id"]
    equipment_withdraw(item=room.head, why="loose", by=room.fitter, at=AT)
    out = entry("trial.finish", {"trial_id": first})
    other = trial_start(room, trial_head_id=str(room.other_head.pk))
    stored(tablet, room, out, other, take_back("hand_over", other["body"]["id"]))
    assert [one["state"] for one in state(tablet, room)["trials"]] == ["finished"]


def test_another_tablets_ball_brings_a_club_back_that_was_taken_back(tablet, room):
    club = trial_start(room)
    block = block_start(club["body"]["id"])
    stored(tablet, room, club, take_back("hand_over", club["body"]["id"]))
    stored(tablet, room, block, shot(block["body"]["id"], "84"))
    assert balls(tablet, room) == [(84, None)]


def test_nothing_of_another_visit_is_taken_back(tablet, room):
    told = receipts(
        tablet, room, *(take_back(what, str(uuid.uuid4())) for what in ("exclusion", "rating"))
    )
    assert [one["outcome"] for one in told] == ["refused", "refused"]
    (refused,) = receipts(tablet, room, take_back("visit", str(uuid.uuid4())))
    assert list(refused["errors"]) == ["what"]
