"""The fragment of verdicts: numbers with their doubt, turf counted, no head named too soon."""

import re
from dataclasses import replace
from datetime import timedelta
from uuid import uuid4

import pytest
from django.urls import reverse

from fitshop.selectors import settings_in_force
from sessions.charts import carry_intervals, carry_ladder
from sessions.rules.decision_sheet import decision_sheet
from sessions.rules.evidence import SlotEvidence
from sessions.rules.verdict_words import kind_of, verdict_boxes
from sessions.rules.verdicts import compared
from sessions.selectors.capture_clock import clock_document
from sessions.selectors.evidence import visit_evidence
from sessions.selectors.visit_rows import trials_hit
from sessions.services.comparisons import comparison_open
from sessions.services.shot_files import shot_file_import, shot_file_read
from sessions.services.shots import shot_record
from sessions.views.club_lines import club_line, mean_words
from tests.fixtures_decide import AT, YARD, Room

pytestmark = pytest.mark.django_db


@pytest.fixture
def room(client):
    room = Room()
    room.signed_in(client)
    return room


def fragment(room, client, slot="2"):
    return client.get(reverse("verdicts", args=[room.visit.pk]), {"slot": slot}).content.decode()


def ladder(room):
    return carry_ladder(visit_evidence(room.visit).clubs, "yd").table


def test_the_ladder_takes_the_balls_hit_like_the_pitching_wedges(room):
    room.baseline()
    trial = room.head_trial(room.head("54"), slot=2)
    room.hit(room.block(trial, wetness="wet"), 90, 91, 92, 91, 90, 92)
    room.hit(room.block(trial), 96, 97, 98)
    shown = ladder(room)
    assert [row[1] for row in shown.rows] == ["128", "97"]
    assert shown.caption == "Full swings: carry and gaps"


@pytest.mark.parametrize(
    ("otherwise", "word"),
    [({"wetness": "wet"}, "wet"), ({"ball": "range"}, "range ball"),
     ({"as_flown": "normalised"}, "normalised"), ({"hit_from": "mat"}, "mat")],
)  # fmt: skip
def test_the_ladders_title_says_that_balls_were_not_hit_alike(room, otherwise, word):
    room.baseline()
    room.hit(room.block(room.head_trial(room.head("54"), slot=2), **otherwise), 90, 91, 92)
    shown = ladder(room)
    assert shown.caption == "Full swings: carry and gaps, not all hit alike"
    assert word in shown.rows[1][-1]
    assert word not in shown.rows[0][-1]


def test_balls_that_the_plan_does_not_speak_of_are_not_past_it(room, client):
    room.baseline()
    trial = room.head_trial(room.head("54"), slot=2)
    room.hit(room.block(trial, wetness="wet"), 90, 91, 92)

    def line():
        club = visit_evidence(room.visit).clubs[-1]
        there = SlotEvidence(2, (club,), None, (), planned_carry_m=80 * YARD)
        (found,) = decision_sheet(there, (), "yd", compared={})
        return found

    assert (line().off_plan, line().apart) == ("", ("wet",))
    page = client.get(reverse("decision", args=[room.visit.pk]), {"slot": "2"})
    assert page.context["is_mixed"] is True
    room.hit(room.block(trial), 96, 97, 98)
    assert (line().off_plan, line().apart) == ("17 yd past the plan", ())


def test_one_mean_is_one_figure_on_the_ladder_and_in_the_text(room):
    room.hit(room.block(room.head_trial(room.head("54"), slot=2)), 86, 87)
    assert ladder(room).rows[0][1] == "87"
    (there,) = visit_evidence(room.visit).clubs[0].situations
    assert mean_words(there.figures.carry, "yd").startswith("87 yd")


def test_a_side_typed_for_one_ball_of_six_is_one_ball(room):
    block = room.block(room.head_trial(room.head("54"), slot=2))
    room.hit(block, 96)
    for carry in (95, 96, 97, 98, 99):
        shot_record(block=block, shot_id=uuid4(), values={"carry_m": carry * YARD},
                    by=room.by, at=AT)  # fmt: skip
    evidence = visit_evidence(room.visit)
    (shown,) = club_line(evidence.clubs[0], evidence.slot(2), "yd")["situations"]
    assert shown["side"] == "2 yd left (1 ball)"
    assert shown["carry_doubt"].startswith("6 balls")


def test_one_ball_a_side_says_nothing_of_the_difference(room):
    room.hit(room.block(room.own_trial(room.club("wedge", "56", "56"), slot=2)), 84)
    room.hit(room.block(room.head_trial(room.head("54"), slot=2)), 95)
    (pair,) = visit_evidence(room.visit).slot(2).pairs
    said = {box.what: box.sentence for box in verdict_boxes(pair, "yd")}
    assert not any("11" in sentence or "In line" in sentence for sentence in said.values())
    assert carry_intervals([pair], "yd").table.rows == ()


def test_a_shop_that_builds_on_one_ball_still_gets_no_verdict_of_one(room):
    room.hit(room.block(room.own_trial(room.club("wedge", "56", "56"), slot=2)), 84, 85)
    room.hit(room.block(room.head_trial(room.head("54"), slot=2)), 95, 96)
    evidence = visit_evidence(room.visit)
    margins = replace(evidence.margins, least_balls=1)
    there = evidence.slot(2)
    (pair,) = compared(there.candidates, there.against, margins)
    assert {kind_of(each.found) for each in pair.judged} == {"few"}
    assert pair.carry.more_balls >= 1


def imported(room, block, carries, *, clock=""):
    times = [f"10:{n // 10:02}:{n % 10:02}" if clock else "" for n in range(20, 20 + len(carries))]
    rows = "".join(f"{at},{carry}\n" for at, carry in zip(times, carries, strict=True))
    row = shot_file_read(visit=room.visit, name="x.csv", by=room.by, at=AT,
                         content=f"Time,Carry (yd)\n{rows}".encode())  # fmt: skip
    how = {"columns": [{"index": 1, "measure": "carry", "unit": "yd"}], "decimal_mark": ".",
           "time_column": 0 if clock else None}  # fmt: skip
    return shot_file_import(shot_file=row, mapping=how, block=block, by=room.by,
                            at=AT + timedelta(hours=1))  # fmt: skip


FALLING = [100 - n / 2 for n in range(20)]


def test_a_files_rows_without_times_tell_no_drift(room):
    block = room.block(room.head_trial(room.head("54"), slot=2))
    imported(room, block, FALLING)
    evidence = visit_evidence(room.visit)
    assert evidence.drift is None
    assert evidence.clubs[0].situations[0].order == ()


def test_a_files_rows_with_times_are_balls_in_order(room):
    # 10:02 on the wall in Dublin in May is 09:02 UTC: a visit opened at nine.
    room.visit.opened_at = AT - timedelta(minutes=30)
    room.visit.save(update_fields=["opened_at"])
    block = room.block(room.head_trial(room.head("54"), slot=2))
    imported(room, block, FALLING, clock="yes")
    found = visit_evidence(room.visit).drift
    # Half a yard shorter from ball to ball: five in ten.
    assert found.per_ten == pytest.approx(-5 * YARD)


def test_a_device_whose_clock_is_wrong_gives_no_order(room):
    block = room.block(room.head_trial(room.head("54"), slot=2))
    imported(room, block, FALLING, clock="yes")
    assert visit_evidence(room.visit).drift is None


def test_imported_balls_without_times_never_tire_the_player(room):
    block = room.block(room.head_trial(room.head("54"), slot=2))
    imported(room, block, [96] * 200)
    clock = clock_of(room)
    assert (clock["full_swings"], clock["is_tiring"]) == (200, False)
    imported(room, block, [97] * 200, clock="yes")
    assert clock_of(room)["is_tiring"] is True


def clock_of(room):
    trials = trials_hit(room.visit)
    return clock_document(room.visit, trials, (), {}, settings_in_force(), AT)


def test_before_the_first_ball_it_says_so(room, client):
    assert "after the first ball" in fragment(room, client)


def test_it_says_real_differences_turf_and_worn_grooves(room, client):
    club = room.club("wedge", "56", "56", grooves="worn")
    room.hit(room.block(room.own_trial(club, slot=2)), 83, 84, 85, 84, 83, 85, 84, 84)
    block = room.block(room.head_trial(room.head("54"), slot=2))
    room.hit(block, 95, 96, 97, 96, 95, 97, 96, 96, turf="clean")
    text = fragment(room, client)
    assert "Carry: real difference" in text
    assert "12 yd longer than your 56" in text
    assert "Turf: clean 8" in text
    assert "Fresh grooves beat worn ones" in text


def test_a_sole_on_a_mat_reads_not_tested_on_turf(room, client):
    room.hit(room.block(room.head_trial(room.head("54"), slot=2), hit_from="mat"), 96, 97)
    assert "Not tested on turf" in fragment(room, client)


def test_no_head_is_named_while_a_comparison_runs(room, client):
    trials = [room.head_trial(room.head("56", "8", "Sedge"), slot=2),
              room.head_trial(room.head("56", "12", "Rush"), slot=2)]  # fmt: skip
    room.hit(room.block(trials[0]), 84, 85)
    room.hit(room.block(trials[1]), 86, 85)
    comparison_open(visit=room.visit, comparison_id=uuid4(), slot=2, trials=trials, covered=True,
                    seed=3, by=room.by, at=AT)  # fmt: skip
    text = fragment(room, client)
    assert "Number " in text
    for secret in ("Sedge", "Rush", "Orrin Vale"):
        assert secret not in text


def test_the_club_in_hand_is_judged_first_and_gaps_are_between_slots(room, client):
    own = room.block(room.own_trial(room.club("wedge", "56", "56"), slot=2))
    room.hit(own, 83, 84, 85, 84, 83, 85, 84, 84)
    room.hit(room.block(room.head_trial(room.head("50"), slot=1)), 103, 104, 105)
    room.hit(room.block(room.head_trial(room.head("54", "8", "Sedge"), slot=2)), 92, 93, 94)
    trial = room.head_trial(room.head("54", "12", "Rush"), slot=2)
    block = room.block(trial)
    room.hit(block, 90, 91, 92, turf="digs")
    text = client.get(
        reverse("verdicts", args=[room.visit.pk]),
        {"slot": "2", "trial": str(trial.pk), "block": str(block.pk)},
    ).content.decode()
    first, rest = text.split("Full swings: carry and gaps", 1)
    assert "against your 56" in first
    assert "Turf: <b>digs 3</b>" in first
    assert "Sedge" not in first
    # 104 of slot 1 to 91 in the hand; the rivals of slot 2 carry 93 and 84.
    assert re.findall(r"gap (\d+)", rest.split("</svg>")[0]) == ["13"]
    assert rest.count("(instead)") >= 2
