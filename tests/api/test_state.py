"""The document the capture pages are drawn from, and the empty room that asks for it."""

import datetime as dt
import gzip
import json
import uuid
from decimal import Decimal

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from fitshop.actor import Role
from fitshop.services.audit import audit_record
from sessions.models import LoftPlan, PlanSlot, Trial, TrialHead, Visit
from sessions.selectors.evidence import trial_loft_words
from sessions.services.bag import bag_club_record, other_clubs_record
from sessions.services.comparisons import comparison_open, comparison_rate, comparison_reveal
from sessions.services.equipment import equipment_withdraw
from sessions.services.interviews import interview_answer, interview_close
from sessions.services.shots import shot_exclude, shot_record
from sessions.services.trials import block_start, trial_start
from tests.fixtures_capture import AT, SITUATION, head, staff

pytestmark = pytest.mark.django_db


def state(tablet, room):
    answer = tablet.get(f"/api/v1/visits/{room.visit.pk}/state")
    assert answer.status_code == 200, answer.content
    return answer.json()


def hit(room, block, carry_m=91.44, **values):
    return shot_record(
        block=block, shot_id=uuid.uuid4(), values={"carry_m": carry_m, **values},
        by=room.fitter, at=AT,
    )  # fmt: skip


def a_block(room, **changes):
    return block_start(
        trial=trial_start(**room.trial(**changes)), block_id=uuid.uuid4(),
        values={**SITUATION, "target_m": 91.44}, by=room.fitter, at=AT,
    )  # fmt: skip


def test_the_visit_begins_with_nothing_recorded(tablet, room):
    told = state(tablet, room)
    assert told["player"] == {
        "id": str(room.player.pk), "name": "Imke Brandvold", "hand": "right", "unit": "yd",
        "kind": "woman",
    }  # fmt: skip
    assert told["me"] == {"name": "Odo", "may_capture": True}
    assert (told["trials"], told["plan"], told["comparisons"]) == ([], None, [])
    assert told["clock"]["balls"] == 0
    assert [step["key"] for step in told["steps"]] == [
        "interview", "bag", "baseline", "plan", "trials", "compare", "decision", "spec", "finish",
    ]  # fmt: skip
    assert {step["state"] for step in told["steps"]} == {"todo"}
    assert told["steps"][0]["url"] == f"/visits/{room.visit.pk}/room/interview"


def test_the_club_in_hand_is_told_in_words_with_its_stamp_apart(tablet, room):
    hit(room, a_block(room), side_m=-3.6576, strike="fat", in_mean=False)
    (trial,) = state(tablet, room)["trials"]
    assert (trial["loft_words"], trial["bounce_words"], trial["stamped_words"]) == (
        "53°", "about 9°", "Stamped 54 with 10, bent 1 strong",
    )  # fmt: skip
    assert (trial["length_words"], trial["head_name"]) == ("35 1/4 in", "Corvane Delta")
    (block,) = trial["blocks"]
    assert (block["words"], block["target"]) == ("Full from fairway", "100")
    (shot,) = block["shots"]
    assert (shot["carry"], shot["side"], shot["strike"], shot["in_mean"]) == (100, -4, "fat", False)


def test_a_head_that_reads_a_hair_off_its_stamp_was_measured_not_bent(tablet, room):
    room.head.measured_loft_deg = Decimal("53.8")
    room.head.save()
    a_block(room)
    (trial,) = state(tablet, room)["trials"]
    assert trial["stamped_words"] == "Stamped 54 with 10, measured 0.2 strong"
    assert trial_loft_words(Trial.objects.get()) == "53.8° (stamped 54)"


@pytest.mark.parametrize(
    ("loft", "bounce", "now", "said"),
    [
        ("53.8", "9.7", None, "9.7°"),  # both measured at the last check
        ("53.8", None, None, "about 10°"),  # 9.8 from the stamp: nobody measured tenths
        ("53.3", None, None, "about 9.5°"),
        (None, "9.7", None, "9.7°"),
        ("53.8", "9.7", "52.8", "about 8.5°"),  # bent one strong since: 8.7
        (None, None, None, "10°"),  # as stamped
    ],
)
def test_a_bounce_that_nobody_measured_has_no_tenths(tablet, room, loft, bounce, now, said):
    room.head.measured_loft_deg = loft and Decimal(loft)
    room.head.measured_bounce_deg = bounce and Decimal(bounce)
    room.head.save()
    room.head.refresh_from_db()
    trial_start(**room.trial(loft_deg=now and Decimal(now)))
    (trial,) = state(tablet, room)["trials"]
    assert trial["bounce_words"] == said


def test_a_misread_is_told_as_left_out_and_what_was_undone_is_no_ball(tablet, room):
    block = a_block(room)
    for reason in ("misread", "undone"):
        shot_exclude(
            shot=hit(room, block), exclusion_id=uuid.uuid4(), reason=reason, by=room.fitter, at=AT
        )
    told = state(tablet, room)
    shots = told["trials"][0]["blocks"][0]["shots"]
    assert [shot["left_out"] for shot in shots] == ["misread", "undone"]
    assert told["clock"]["balls"] == 1


def test_the_last_answer_of_a_question_counts(tablet, room):
    for value in ("steep", "shallow"):
        interview_answer(
            visit=room.visit, answer_id=uuid.uuid4(), question="attack", value=value,
            by=room.fitter, at=AT,
        )  # fmt: skip
    told = state(tablet, room)["interview"]
    assert told["answers"] == {
        "attack": {"value": "shallow", "ask_later": False, "said_by": "player"}
    }
    assert told["closed"] is False
    assert told["groups"][0]["questions"][0]["label"] == "What brings you here?"


def test_the_bag_shows_what_was_typed(tablet, room):
    bag_club_record(
        visit=room.visit, entry_id=uuid.uuid4(), club_id=uuid.uuid4(),
        values={
            "kind": "wedge", "label": "54", "stamped_loft_deg": Decimal("54.00"),
            "loft_deg": Decimal("53.50"), "stock_carry_m": 80.4672,
            "length_mm": Decimal("895.35"), "as_typed": {"length": "35,25", "unit": "yd"},
        },
        by=room.fitter, at=AT,
    )  # fmt: skip
    other_clubs_record(visit=room.visit, counts={"driver": (1, 0)}, by=room.fitter, at=AT)
    bag = state(tablet, room)["bag"]
    (club,) = bag["clubs"]
    assert (club["label"], club["stamped_loft"]) == ("54", "54")
    assert (club["entry"]["loft"], club["entry"]["length"], club["entry"]["stock_carry"]) == (
        "53.5", "35,25", "88",
    )  # fmt: skip
    assert club["entry"]["lie"] == ""
    assert bag["others"] == {"driver": {"count": 1, "unused": 0}}


def test_the_current_plan_is_told(tablet, room):
    plan = LoftPlan.objects.create(
        visit=room.visit, baseline_loft_deg=46, baseline_carry_m=110, baseline_balls=5,
        chosen_at=AT, chosen_by="Odo",
    )  # fmt: skip
    PlanSlot.objects.create(plan=plan, slot=2, role="touch", target_loft_deg=Decimal("55.5"))
    assert state(tablet, room)["plan"] == {
        "slots": [
            {"slot": 2, "role": "touch", "target_loft": "55.5",
             "label": "Slot 2: 55.5°, touch club"}
        ]
    }  # fmt: skip


def test_fifty_shots_cost_no_more_queries_than_one(tablet, room):
    block = a_block(room)
    hit(room, block)
    with CaptureQueriesContext(connection) as one:
        state(tablet, room)
    other = a_block(room, trial_head=room.other_head)
    for _ in range(49):
        hit(room, other)
    with CaptureQueriesContext(connection) as fifty:
        told = state(tablet, room)
    assert sum(len(b["shots"]) for t in told["trials"] for b in t["blocks"]) == 50
    assert len(fifty) == len(one)
    assert len(one) <= 35


PLANTED = ("Corvane", "Delta", "Oskel", "Bract", "T-17", "T-18")


@pytest.fixture
def running(room):
    trials = [
        trial_start(**room.trial()),
        trial_start(**room.trial(trial_head=room.other_head, changed=["sole"])),
    ]
    return comparison_open(
        visit=room.visit, comparison_id=uuid.uuid4(), slot=2, trials=trials, covered=False,
        seed=7, knowingly=True, by=room.fitter, at=AT,
    )  # fmt: skip


def test_while_hidden_no_byte_names_a_head(tablet, room, running):
    before = json.dumps(state(tablet, room), ensure_ascii=False)
    for planted in PLANTED:
        assert planted not in before, planted
    trials = state(tablet, room)["trials"]
    assert {trial["code"] for trial in trials} == {arm.code for arm in running.arms.all()}
    for trial in trials:
        for words in ("head_name", "loft_words", "bounce_words", "sole_words", "stamped_words"):
            assert trial[words] == "", words
        assert trial["also_different"] == []
        assert trial["trial_head_id"] is None
    (comparison,) = state(tablet, room)["comparisons"]
    assert sorted(set(comparison["order"])) == sorted(arm.code for arm in running.arms.all())
    assert all("trial_id" not in arm for arm in comparison["arms"])
    # With seed or row, and the clubs, the order could be worked out.
    assert not {"seed", "row", "chosen"} & comparison.keys()
    assert comparison["balance"] == "1 of 2 orders used; balanced when all are."


def test_earlier_balls_of_a_hidden_club_would_tell_it_and_are_kept_back(tablet, room):
    before = a_block(room)
    hit(room, before)
    other = trial_start(**room.trial(trial_head=room.other_head, changed=["sole"]))
    comparison_open(
        visit=room.visit, comparison_id=uuid.uuid4(), slot=2, trials=[before.trial, other],
        covered=True, seed=7, knowingly=True, by=room.fitter, at=AT,
    )  # fmt: skip
    assert [trial["blocks"] for trial in state(tablet, room)["trials"]] == [[], []]

    since = block_start(
        trial=before.trial, block_id=uuid.uuid4(),
        values={**SITUATION, "target_m": 91.44}, by=room.fitter, at=AT,
    )  # fmt: skip
    hit(room, since)
    told = {trial["id"]: trial["blocks"] for trial in state(tablet, room)["trials"]}
    (block,) = told[str(before.trial_id)]
    assert (block["id"], len(block["shots"])) == (str(since.pk), 1)


def test_a_club_that_bears_a_hidden_name_is_hidden_too(tablet, room, running):
    again = trial_start(**room.trial())
    told = {trial["id"]: trial for trial in state(tablet, room)["trials"]}
    assert (told[str(again.pk)]["code"], told[str(again.pk)]["head_name"]) == (None, "")
    assert told[str(again.pk)]["hidden"] is True


def test_another_head_stays_on_the_shelf_while_one_is_hidden(tablet, room, running):
    TrialHead.objects.create(mark="T-30", location=room.location, head=head("Oskel", "Lorn", "58"))
    heads = state(tablet, room)["equipment"]["heads"]
    assert [one["name"] for one in heads] == ["Oskel Lorn"]


def test_the_reveal_names_them_again(tablet, room, running):
    comparison_reveal(comparison=running, by=room.fitter, at=AT)
    after = state(tablet, room)
    (comparison,) = after["comparisons"]
    assert {arm["head_name"] for arm in comparison["arms"]} == {"Corvane Delta", "Oskel Bract"}
    assert [trial["code"] for trial in after["trials"]] == [None, None]
    assert after["trials"][0]["loft_words"] == "53°"


def two_soles(room):
    """Two trial heads of one model and loft, with another sole, in one visit's hand."""
    wide = TrialHead.objects.create(
        mark="T-31", location=room.location, measured_loft_deg=Decimal(53),
        measured_lie_deg=Decimal("63.5"),
        head=head("Corvane", "Delta", "54", bounce_deg=Decimal(12), sole_width_mm=Decimal(24)),
    )  # fmt: skip
    return [trial_start(**room.trial()), trial_start(**room.trial(trial_head=wide))]


def rated(room, comparison, code, score, **more):
    comparison_rate(
        comparison=comparison, rating_id=uuid.uuid4(), code=code, about="feel", score=score,
        by=room.fitter, at=AT, **more,
    )  # fmt: skip


def test_the_reveal_tells_two_soles_of_one_model_apart_with_what_was_hit_and_said(tablet, room):
    trials = two_soles(room)
    hit(room, block_of(room, trials[0]), 60.0)  # before the draw: not under a number
    drawn = comparison_open(
        visit=room.visit, comparison_id=uuid.uuid4(), slot=2, trials=trials, covered=True, seed=7,
        by=room.fitter, at=AT,
    )  # fmt: skip
    by_trial = {arm.trial_id: arm.code for arm in drawn.arms.all()}
    for trial, carries in ((trials[0], (90, 94)), (trials[1], (80, 82, 90))):
        begun = block_of(room, trial)
        for yards in carries:
            strike = "thin" if yards == 90 else ""
            hit(room, begun, yards * 0.9144, strike=strike, turf="digs", in_mean=not strike)
    first = drawn.order[0]
    rated(room, drawn, first, 5, turn=0)
    rated(room, drawn, drawn.order[1], 3, turn=1)
    rated(room, drawn, first, 2, turn=2)
    running_bytes = json.dumps(state(tablet, room), ensure_ascii=False)
    for planted in ("Corvane", "Delta", "T-17", "T-31"):
        assert planted not in running_bytes, planted

    comparison_reveal(comparison=drawn, by=room.fitter, at=AT)
    shot_record(  # after it: nor is this
        block=block_of(room, trials[0], swing="half"), shot_id=uuid.uuid4(),
        values={"carry_m": 40.0}, by=room.fitter, at=AT + dt.timedelta(minutes=1),
    )  # fmt: skip
    (told,) = [one for one in state(tablet, room)["comparisons"] if one["state"] == "revealed"]
    arms = {arm["code"]: arm for arm in told["arms"]}
    one, other = (arms[by_trial[trial.pk]] for trial in trials)
    assert one["head_name"] == other["head_name"] == "Corvane Delta"
    assert (one["mark"], other["mark"]) == ("T-17", "T-31")
    assert (one["hand"], one["loft_words"], other["loft_words"]) == ("right", "53°", "53°")
    assert (one["bounce_words"], other["bounce_words"]) == ("about 9°", "about 11°")
    assert one["sole_words"] != other["sole_words"]
    assert "24 mm" in other["sole_words"]
    assert told["held"].startswith("Held the same: ")
    assert told["held"].endswith("Not the same: sole.")

    (row,) = other["rows"]
    # 80 and 82 yards: mean 81, standard deviation the root of 2; the thin one counts, not in them.
    assert (row["carry"], row["spread"]) == (pytest.approx(81), pytest.approx(2**0.5, abs=1e-3))
    assert (row["balls"], row["in_mean"]) == (3, 2)
    assert (row["situation"], row["strikes"], row["turf"]) == (
        "Full from fairway",
        "thin 1",
        "digs 3",
    )
    assert [one_row["balls"] for one_row in one["rows"]] == [2]
    # The block had a target of 100 yards, the rating too: what was said stands with what was hit.
    assert [arms[first]["rows"][0]["ratings"], arms[drawn.order[1]]["rows"][0]["ratings"]] == [
        {"feel": {"first": 5, "again": 2}}, {"feel": {"first": 3}},
    ]  # fmt: skip


def block_of(room, trial, **more):
    return block_start(
        trial=trial, block_id=uuid.uuid4(), values={**SITUATION, **more}, by=room.fitter, at=AT
    )


def test_an_earlier_reveal_is_silent_while_the_same_clubs_are_hidden_again(tablet, room, running):
    comparison_reveal(comparison=running, by=room.fitter, at=AT)
    assert "Oskel" in json.dumps(state(tablet, room)["comparisons"])
    comparison_open(
        visit=room.visit, comparison_id=uuid.uuid4(), slot=2, covered=False, seed=8,
        trials=[arm.trial for arm in running.arms.all()], knowingly=True, by=room.fitter, at=AT,
    )  # fmt: skip
    told = json.dumps(state(tablet, room), ensure_ascii=False)
    for planted in PLANTED:
        assert planted not in told, planted


def test_a_hidden_order_says_what_spoils_its_blindness(tablet, room):
    def spoiled(trials, covered):
        run = comparison_open(
            visit=room.visit, comparison_id=uuid.uuid4(), slot=2, trials=trials, covered=covered,
            seed=7, knowingly=True, by=room.fitter, at=AT,
        )  # fmt: skip
        comparison_reveal(comparison=run, by=room.fitter, at=AT)
        return state(tablet, room)["comparisons"][-1]

    soles = two_soles(room)
    blind, bare = spoiled(soles, covered=True), spoiled(soles, covered=False)
    assert (blind["hiding"], blind["spoiled"]) == ("blind", "")
    assert (bare["hiding"], bare["spoiled"]) == ("hidden_order", "sole and stamp are not covered")
    Trial.objects.filter(pk=soles[1].pk).update(finish="black", grip_name="")
    looks = spoiled([Trial.objects.get(pk=one.pk) for one in soles], covered=True)
    assert (looks["hiding"], looks["spoiled"]) == (
        "hidden_order", "finish differs; grip not known of every club",
    )  # fmt: skip


def test_a_withdrawn_head_is_told_as_withdrawn(tablet, room):
    type(room.head).objects.filter(pk=room.head.pk).update(
        withdrawn_at=AT, withdrawn_why="loose head"
    )
    heads = {one["mark"]: one for one in state(tablet, room)["equipment"]["heads"]}
    assert heads["T-17"]["withdrawn"] is True
    assert heads["T-17"]["withdrawn_words"].endswith("10:40: loose head. Take another.")
    assert heads["T-17"]["loft_words"] == "53° (stamped 54, 1 strong)"
    assert heads["T-18"]["loft_words"] == "56° as stamped, not measured"


def test_an_overdue_check_is_told_on_the_shelf(tablet, room):
    long_ago, not_yet = dt.date(2020, 3, 1), dt.date(2040, 3, 1)
    for item, checked in ((room.head, not_yet), (room.shaft, long_ago), (room.adapter, not_yet)):
        item.checked_on = checked
        item.save(update_fields=["checked_on"])
    room.adapter.inspect_by = long_ago
    room.adapter.save(update_fields=["inspect_by"])
    shelf = state(tablet, room)["equipment"]
    kinds = ("heads", "shafts", "adapters")
    due = {one["mark"]: one["due"] for kind in kinds for one in shelf[kind]}
    assert due[room.shaft.mark] == "Check overdue"
    assert due[room.adapter.mark] == "Inspection overdue"
    assert due[room.head.mark] == ""


def test_a_part_withdrawn_while_in_the_hand_is_told_with_who_when_and_why(tablet, room):
    hit(room, a_block(room))
    assert state(tablet, room)["trials"][0]["stops"] == []
    equipment_withdraw(item=room.adapter, why="adapter cracked", by=room.builder, at=AT)
    (stop,) = state(tablet, room)["trials"][0]["stops"]
    assert (stop["what"], stop["mark"]) == ("Adapter", "A-3")
    assert stop["sentence"].endswith(
        "10:40 by Bram: adapter cracked. Stop and take it out of the bay."
    )


def test_a_club_that_is_no_longer_in_the_hand_stops_nobody(tablet, room):
    a_block(room)
    trial_start(**room.trial(trial_head=room.other_head))
    equipment_withdraw(item=room.head, why="loose head", by=room.builder, at=AT)
    assert [trial["stops"] for trial in state(tablet, room)["trials"]] == [[], []]


def test_a_hidden_club_is_stopped_without_a_word_that_would_tell_it(tablet, room, running):
    equipment_withdraw(item=room.head, why="the Delta is loose", by=room.builder, at=AT)
    told = state(tablet, room)
    assert all(planted not in json.dumps(told, ensure_ascii=False) for planted in PLANTED)
    stops = [stop for trial in told["trials"] for stop in trial["stops"]]
    (stop,) = stops
    assert (stop["what"], stop["mark"]) == ("Head", "")
    assert stop["sentence"].endswith("10:40 by Bram. Stop and take it out of the bay.")


def test_a_tablet_that_holds_the_state_is_not_sent_it_again(tablet, room):
    url = f"/api/v1/visits/{room.visit.pk}/state"
    first = tablet.get(url)
    assert dt.datetime.fromisoformat(first["X-Told-At"]).tzinfo is not None
    with CaptureQueriesContext(connection) as queries:
        again = tablet.get(url, headers={"If-None-Match": first["ETag"]})
    assert (again.status_code, again.content, again["ETag"]) == (304, b"", first["ETag"])
    # The session, the person with roles and places, the visit, and two looks at the trail.
    assert len(queries) <= 8


def test_the_state_travels_squeezed_and_is_still_known_by_its_tag(tablet, room):
    url = f"/api/v1/visits/{room.visit.pk}/state"
    plain, first = tablet.get(url), tablet.get(url, headers={"Accept-Encoding": "gzip"})
    assert first["Content-Encoding"] == "gzip"
    assert len(first.content) < len(plain.content) / 3
    told = gzip.decompress(first.content)
    assert json.loads(told)["player"]["name"] == "Imke Brandvold"
    again = tablet.get(url, headers={"Accept-Encoding": "gzip", "If-None-Match": first["ETag"]})
    assert again.status_code == 304


def test_what_was_written_for_another_visit_does_not_send_the_state_again(tablet, room):
    url = f"/api/v1/visits/{room.visit.pk}/state"
    first = tablet.get(url)
    audit_record(action="shop.test", subject=room.location, by=room.fitter, at=AT)
    again = tablet.get(url, headers={"If-None-Match": first["ETag"]})
    assert again.status_code == 304
    assert again["ETag"] != first["ETag"]


def test_a_withdrawal_sends_the_state_again(tablet, room):
    a_block(room)
    url = f"/api/v1/visits/{room.visit.pk}/state"
    first = tablet.get(url)
    equipment_withdraw(item=room.shaft, why="grip turned", by=room.builder, at=AT)
    again = tablet.get(url, headers={"If-None-Match": first["ETag"]})
    assert again.status_code == 200
    assert again.json()["trials"][0]["stops"][0]["what"] == "Shaft"


def test_an_interview_that_was_begun_is_in_progress_until_it_is_closed(tablet, room):
    interview_answer(
        visit=room.visit, answer_id=uuid.uuid4(), question="attack", value="steep",
        by=room.fitter, at=AT,
    )  # fmt: skip
    assert state(tablet, room)["steps"][0]["state"] == "open"
    interview_close(visit=room.visit, by=room.fitter, at=AT)
    assert state(tablet, room)["steps"][0]["state"] == "done"


def test_the_clock_counts_full_swings_without_the_warm_up(tablet, room):
    warm = block_start(
        trial=trial_start(**room.trial()), block_id=uuid.uuid4(),
        values={**SITUATION, "is_warm_up": True}, by=room.fitter, at=AT,
    )  # fmt: skip
    half = block_start(
        trial=warm.trial, block_id=uuid.uuid4(), values={**SITUATION, "swing": "half"},
        by=room.fitter, at=AT,
    )  # fmt: skip
    full = block_start(
        trial=warm.trial, block_id=uuid.uuid4(), values=SITUATION, by=room.fitter, at=AT
    )
    for block in (warm, warm, half, full, full, full):
        hit(room, block)
    clock = state(tablet, room)["clock"]
    assert (clock["balls"], clock["warm_up_balls"], clock["full_swings"]) == (6, 2, 3)
    assert (clock["full_swings_most"], clock["is_tiring"]) == (80, False)
    assert clock["not_started"] == ["Interview", "Bag", "Baseline", "Loft plan", "Sand", "Compare"]


@pytest.mark.parametrize(
    ("kind", "pain", "most"),
    [("man", "", 80), ("senior", "", 40), ("man", "my left wrist", 40), ("man", "No.", 80)],
)
def test_who_is_to_be_spared_has_a_lower_limit(tablet, room, kind, pain, most):
    room.player.kind = kind
    room.player.save()
    if pain:
        interview_answer(
            visit=room.visit, answer_id=uuid.uuid4(), question="pain", value=pain,
            by=room.fitter, at=AT,
        )  # fmt: skip
    assert state(tablet, room)["clock"]["full_swings_most"] == most


def test_who_may_not_record_sees_and_is_told_so(room):
    client = Client()
    client.force_login(staff("wim", Role.BUILDER, at=room.location))
    assert state(client, room)["me"]["may_capture"] is False


def test_nobody_records_in_a_closed_visit(tablet, room):
    Visit.objects.update(state="closed", closed_at=AT)
    assert state(tablet, room)["me"]["may_capture"] is False


def test_without_a_sign_in_it_is_401(room):
    answer = Client().get(f"/api/v1/visits/{room.visit.pk}/state")
    assert answer.status_code == 401
    assert b"Brandvold" not in answer.content


def test_another_locations_visit_is_not_found(tablet, room):
    room.fitter_person.location_rows.all().delete()
    assert tablet.get(f"/api/v1/visits/{room.visit.pk}/state").status_code == 404


def test_the_empty_room_is_the_same_for_everyone_and_asks_nobody(
    tablet, room, django_assert_num_queries
):
    with django_assert_num_queries(0):
        signed_in = tablet.get(f"/visits/{room.visit.pk}/room/trials")
        anyone = Client().get(f"/visits/{uuid.uuid4()}/room/interview")
    assert signed_in.content == anyone.content
    for answer in (signed_in, anyone):
        assert answer["Cache-Control"] == "public, max-age=300"
        assert "Set-Cookie" not in answer
        assert "Cookie" not in answer.get("Vary", "")
    assert b"capture/app.js" in anyone.content
    assert b"csrf" not in anyone.content
