"""What tablets send: stored once, refused beside the field, by whoever is signed in."""

import datetime as dt
import hashlib
import json
import uuid
from decimal import Decimal

import pytest
from django.test import Client
from django.utils import timezone

from fitshop.models import AuditEntry
from sessions.maths.shown import show_swing_weight
from sessions.models import BagEntry, Block, Command, Comparison, Shot, Trial, Visit
from tests.fixtures_capture import PASSWORD, SITUATION

pytestmark = pytest.mark.django_db


def entry(kind, body, **changes):
    """One entry with its check sum, worked out here and not by the code under test."""
    canonical = json.dumps(body, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    sum_of_it = hashlib.sha256(f"{kind}\n{canonical}".encode()).hexdigest()
    return {
        "id": str(uuid.uuid4()), "kind": kind, "counter": 12, "at": "2027-03-02T10:41:00+00:00",
        "sha256": sum_of_it, "body": body, **changes,
    }  # fmt: skip


def post(tablet, room, *entries, **envelope):
    return tablet.post(
        f"/api/v1/visits/{room.visit.pk}/commands",
        data=json.dumps({"device": "tablet 4", "commands": list(entries), **envelope}),
        content_type="application/json",
    )


def receipts(tablet, room, *entries, **envelope):
    answer = post(tablet, room, *entries, **envelope)
    assert answer.status_code == 200, answer.content
    return answer.json()["receipts"]


def trial_start(room, **changes):
    body = {
        "id": str(uuid.uuid4()), "purpose": "candidate", "club_id": "",
        "trial_head_id": str(room.head.pk), "trial_shaft_id": str(room.shaft.pk),
        "adapter_id": str(room.adapter.pk), "slot": "2", "role": "touch", "loft": "", "lie": "",
        "changed": [], "head_tight": True, **changes,
    }  # fmt: skip
    return entry("trial.start", body)


def test_a_trial_club_is_weighed_as_it_is_handed_over(tablet, room):
    (receipt,) = receipts(tablet, room, trial_start(room, swing_weight="D2.5", mass="461.2"))
    assert receipt["outcome"] == "stored"
    trial = Trial.objects.get()
    assert show_swing_weight(trial.swing_weight_points) == "D2.5"
    assert str(trial.mass_g) == "461.20"
    [told] = tablet.get(f"/api/v1/visits/{room.visit.pk}/state").json()["trials"]
    assert (told["swing_weight_words"], told["mass_words"]) == ("D2.5", "461.2 g")
    (refused,) = receipts(tablet, room, trial_start(room, swing_weight="heavy", mass="90"))
    assert set(refused["errors"]) == {"swing_weight", "mass"}
    assert Trial.objects.count() == 1


def test_a_mass_that_was_added_up_is_not_shown_as_a_reading(tablet, room):
    receipts(tablet, room, trial_start(room, swing_weight="d2,5"))
    [told] = tablet.get(f"/api/v1/visits/{room.visit.pk}/state").json()["trials"]
    assert Trial.objects.get().mass_g is not None
    assert (told["swing_weight_words"], told["mass_words"]) == ("D2.5", "")


def block_start(trial_id, **changes):
    body = {
        "id": str(uuid.uuid4()), "trial_id": trial_id, "target": "", "unit": "yd",
        "device_id": "", "is_warm_up": False, **SITUATION, **changes,
    }  # fmt: skip
    return entry("block.start", body)


def shot(block_id, carry="100", **changes):
    return entry(
        "shot.record",
        {
            "id": str(uuid.uuid4()), "block_id": block_id, "carry": carry, "side": "", "unit": "yd",
            "ball_speed": "", "speed_unit": "mph", "strike": "clean", "in_mean": True, **changes,
        },
    )  # fmt: skip


@pytest.fixture
def block_id(tablet, room):
    trial = trial_start(room)
    block = block_start(trial["body"]["id"])
    first, second = receipts(tablet, room, trial, block)
    assert (first["status"], second["status"]) == (201, 201)
    return block["body"]["id"]


def test_a_shot_is_stored_in_metres_with_what_was_typed(tablet, room, block_id):
    (receipt,) = receipts(tablet, room, shot(block_id, side="4 left", spin="8900"))
    stored = Shot.objects.get()
    # 100 yd and 4 yd at 0.9144 m each, exactly.
    assert (stored.carry_m, stored.side_m, stored.spin_rpm) == (91.44, -3.6576, 8900)
    assert stored.as_typed["side"] == "4 left"
    assert receipt["outcome"] == "stored"
    assert receipt["version"] == Visit.objects.get().last_sequence


def test_a_comma_is_a_decimal_mark(tablet, room, block_id):
    receipts(tablet, room, shot(block_id, carry="98,5", unit="m"))
    assert Shot.objects.get().carry_m == 98.5


def test_the_same_entry_twice_is_stored_once_with_the_same_receipt(tablet, room, block_id):
    sent = shot(block_id)
    (first,) = receipts(tablet, room, sent)
    (again,) = receipts(tablet, room, sent)
    assert (first.pop("status"), again.pop("status")) == (201, 200)
    assert first == again
    assert Shot.objects.count() == 1


def test_the_same_entry_twice_in_one_request_is_stored_once(tablet, room, block_id):
    sent = shot(block_id)
    assert [one["status"] for one in receipts(tablet, room, sent, sent)] == [201, 200]
    assert Shot.objects.count() == 1


def test_the_same_id_with_other_content_is_refused_and_nothing_changes(tablet, room, block_id):
    sent = shot(block_id)
    receipts(tablet, room, sent)
    other = shot(block_id, carry="110")
    (receipt,) = receipts(tablet, room, {**other, "id": sent["id"]})
    assert (receipt["outcome"], receipt["status"]) == ("refused", 422)
    assert receipt["sentence"].startswith("An entry with this id was stored with other content")
    assert Shot.objects.get().carry_m == 91.44


def test_a_damaged_entry_is_refused(tablet, room, block_id):
    sent = shot(block_id)
    sent["body"]["carry"] = "101"
    (receipt,) = receipts(tablet, room, sent)
    assert (receipt["status"], Shot.objects.count()) == (422, 0)
    assert receipt["sentence"] == "The entry was damaged on the way: its check sum differs."


def test_a_shot_of_500_yards_is_refused_beside_its_field_and_a_new_one_follows(
    tablet, room, block_id
):
    bad, good = shot(block_id, carry="500"), shot(block_id, carry="50")
    first, second = receipts(tablet, room, bad, good)
    assert first["errors"] == {"carry": "A carry of 500 yd is not believable: 2 to 349."}
    assert (first["status"], second["outcome"]) == (422, "stored")
    assert not Command.objects.filter(pk=bad["id"]).exists()
    assert receipts(tablet, room, bad) == [first]


def test_the_longest_and_the_shortest_believable_carry_are_stored(tablet, room, block_id):
    said = receipts(
        tablet, room, *(shot(block_id, carry=c, unit="m") for c in ("320", "1", "321", "0.9"))
    )
    assert [one["status"] for one in said] == [201, 201, 422, 422]


def test_what_belongs_to_a_refused_entry_waits(tablet, room):
    loose = trial_start(room, head_tight=False)
    block = block_start(loose["body"]["id"])
    ball = shot(block["body"]["id"])
    answer = entry("interview.answer", {
        "id": str(uuid.uuid4()), "question": "attack", "value": "steep", "ask_later": False,
        "said_by": "player", "said_where": "shop",
    })  # fmt: skip
    first, second, third, fourth = receipts(tablet, room, loose, block, ball, answer)
    assert first["errors"] == {"head_tight": "Check that the head is tight, then tick it."}
    assert (second["status"], second["sentence"]) == (
        409, "This waits for its club, which is not recorded.",
    )  # fmt: skip
    assert (third["status"], third["sentence"]) == (
        409, "This waits for its block, which is not recorded.",
    )  # fmt: skip
    assert fourth["outcome"] == "stored"
    assert not Trial.objects.exists()


def test_two_tablets_unite(tablet, room, block_id):
    second = Client()
    second.force_login(room.fitter_person)
    one, two = shot(block_id, carry="101"), shot(block_id, carry="102")
    receipts(tablet, room, one)
    receipts(second, room, two, one, device="tablet 7")
    assert [s.number for s in Shot.objects.order_by("sequence")] == [1, 2]
    assert set(Command.objects.filter(kind="shot.record").values_list("device", flat=True)) == {
        "tablet 4", "tablet 7",
    }  # fmt: skip


def test_the_author_is_who_is_signed_in(tablet, room, block_id):
    sent = shot(block_id, recorded_by="Somebody Else")
    receipts(tablet, room, sent)
    command = Command.objects.get(pk=sent["id"])
    assert command.staff_id == room.fitter_person.pk
    assert Shot.objects.get().recorded_by == "Odo"
    trace = AuditEntry.objects.get(action="fitting.shot.recorded")
    assert (trace.command_id, trace.device) == (command.pk, "tablet 4")


def test_the_tablets_clock_is_written_down_and_not_believed(tablet, room, block_id):
    sent = shot(block_id)
    receipts(tablet, room, sent, device_time="2020-01-01T00:00:00+00:00")
    command = Command.objects.get(pk=sent["id"])
    assert command.clock_offset_s < -3600 * 24 * 365
    assert command.device_counter == 12
    assert Shot.objects.get().recorded_at == command.received_at


@pytest.mark.parametrize(
    "told", ["9999-12-31T23:59:59-07:00", "0001-01-01T00:00:00+09:00", "2300-01-01T00:00:00Z"]
)
def test_a_clock_at_the_end_of_the_calendar_loses_no_ball(tablet, room, block_id, told):
    sent = shot(block_id) | {"at": told, "heard_at": told}
    (receipt,) = receipts(tablet, room, sent, device_time=told)
    assert receipt["outcome"] == "stored"
    command = Command.objects.get(pk=sent["id"])
    assert (command.device_time, command.clock_offset_s) == (None, None)


def test_a_closed_visit_refuses_with_its_sentence_and_old_receipts_still_come(
    tablet, room, block_id
):
    stored, late = shot(block_id), shot(block_id)
    receipts(tablet, room, stored)
    Visit.objects.update(state="closed", closed_at="2027-03-02T12:00:00+00:00")
    first, second = receipts(tablet, room, stored, late)
    assert first["outcome"] == "stored"
    assert (second["status"], second["sentence"]) == (
        409, "The visit is not open. Open it first; what you typed is kept.",
    )  # fmt: skip


def test_a_builder_may_not_record_but_may_withdraw_a_loose_head(room, block_id):
    client = Client()
    assert client.login(username="bram", password=PASSWORD)
    loose = entry(
        "equipment.withdraw", {"what": "head", "item_id": str(room.head.pk), "why": "loose head"}
    )
    first, second = receipts(client, room, shot(block_id), loose)
    assert (first["status"], first["sentence"]) == (
        403, "Your account can't record a fitting. Ask a manager.",
    )  # fmt: skip
    assert second["outcome"] == "stored"
    room.head.refresh_from_db()
    assert room.head.withdrawn_why == "loose head"


def test_with_a_withdrawn_head_in_the_hand_balls_are_stored_and_a_new_situation_is_not(
    tablet, room, block_id
):
    trial_id = str(Trial.objects.get().pk)
    loose = entry(
        "equipment.withdraw", {"what": "head", "item_id": str(room.head.pk), "why": "loose head"}
    )
    new = entry("block.start", {**SITUATION, "swing": "half", "id": str(uuid.uuid4()),
                                "trial_id": trial_id, "device_id": "", "target": "",
                                "is_warm_up": False})  # fmt: skip
    kept, stopped = receipts(tablet, room, loose, shot(block_id), new)[1:]
    assert kept["outcome"] == "stored"
    assert (stopped["outcome"], stopped["status"]) == ("refused", 409)
    assert stopped["sentence"].startswith("T-17: Withdrawn ")
    assert stopped["sentence"].endswith(" by Odo: loose head. Stop and take it out of the bay.")
    # The same from a tablet that was told the state an hour before: it could not know.
    before = (timezone.now() - dt.timedelta(hours=1)).isoformat()
    (unheard,) = receipts(tablet, room, {**new, "id": str(uuid.uuid4()), "heard_at": before})
    assert unheard["outcome"] == "stored"


def test_who_is_not_signed_in_is_told_so_and_nothing_is_stored(room):
    answer = post(Client(), room, trial_start(room))
    assert answer.status_code == 401
    assert answer["Content-Type"] == "application/problem+json"
    assert answer.json()["detail"] == "Sign in again; what you recorded is kept."
    assert not Trial.objects.exists()


def test_without_the_forms_token_nothing_is_taken(room):
    client = Client(enforce_csrf_checks=True)
    client.force_login(room.fitter_person)
    assert post(client, room, trial_start(room)).status_code == 403
    client.get(f"/api/v1/visits/{room.visit.pk}/state")
    token = client.cookies["csrftoken"]
    assert not token["httponly"]
    answer = client.post(
        f"/api/v1/visits/{room.visit.pk}/commands",
        data=json.dumps({"commands": [trial_start(room)]}),
        content_type="application/json",
        headers={"X-CSRFToken": token.value},
    )
    assert answer.json()["receipts"][0]["outcome"] == "stored"


def test_another_locations_visit_is_not_found(tablet, room):
    room.fitter_person.location_rows.all().delete()
    assert post(tablet, room, trial_start(room)).status_code == 404


@pytest.mark.parametrize(
    "body", [[], {"commands": 3}, {"commands": [{"id": "x"}]}, {"commands": [7]}]
)
def test_what_can_not_be_read_is_answered_as_such(tablet, room, body):
    answer = tablet.post(
        f"/api/v1/visits/{room.visit.pk}/commands",
        data=json.dumps(body),
        content_type="application/json",
    )
    assert answer.status_code == 400


def test_fifty_entries_at_once_are_taken_and_one_more_is_not(tablet, room, block_id):
    assert post(tablet, room, *[shot(block_id) for _ in range(51)]).status_code == 400
    assert not Shot.objects.exists()
    assert len(receipts(tablet, room, *[shot(block_id) for _ in range(50)])) == 50
    assert Shot.objects.count() == 50


def test_a_number_or_a_character_that_can_not_be_stored_is_refused(tablet, room, block_id):
    as_number = shot(block_id, carry=100)
    with_nought = shot(block_id, strike="a\x00")
    first, second = receipts(tablet, room, as_number, with_nought)
    assert first["sentence"] == "Figures are sent as they were typed, as text."
    assert second["sentence"] == "There is a character in it that can't be stored."


def test_letters_beyond_ascii_have_the_same_check_sum_on_both_sides(tablet, room):
    # SHA-256 of 'interview.answer\n{"ask_later":false,"id":"…","question":"ball","said_by":"",
    # "said_where":"","value":"weich, größer 😀"}', worked out with `sha256sum`.
    body = {
        "id": "7b0e9c62-3f0b-4a4e-9a53-2d6a34f1c001", "question": "ball",
        "value": "weich, größer 😀", "ask_later": False, "said_by": "", "said_where": "",
    }  # fmt: skip
    sent = entry("interview.answer", body, sha256=SUM_BY_HAND)
    (receipt,) = receipts(tablet, room, sent)
    assert receipt["outcome"] == "stored"


SUM_BY_HAND = "1a56e259b837e835c44bdbab19c5a4bf6026fb6353d2e9e69201c3ef853d1e84"


def test_an_unknown_kind_is_refused_by_name(tablet, room):
    (receipt,) = receipts(tablet, room, entry("shot.bend", {"id": str(uuid.uuid4())}))
    assert receipt["errors"] == {
        "kind": "This shop's server does not know “shot.bend”. Load the page anew."
    }


def test_a_bag_club_comes_in_with_its_units(tablet, room):
    body = {
        "id": str(uuid.uuid4()), "club_id": str(uuid.uuid4()), "kind": "wedge", "label": "54",
        "stamped_loft": "54", "stamped_bounce": "10", "loft": "53,5", "lie": "", "bounce": "",
        "length": "35 1/4", "swing_weight": "D2", "stock_carry": "88", "flat_out_carry": "",
        "unit": "yd", "grooves": "worn", "is_kept": True, "is_loved": None, "making": "unknown",
    }  # fmt: skip
    bad = {**body, "id": str(uuid.uuid4()), "loft": "540", "length": "90 in"}
    first, second = receipts(tablet, room, entry("bag.club", body), entry("bag.club", bad))
    kept = BagEntry.objects.get()
    # 35.25 in at 25.4 mm; 88 yd at 0.9144 m: by hand.
    assert (str(kept.length_mm), kept.stock_carry_m) == ("895.3500", 80.4672)
    assert (kept.swing_weight_points, kept.lie_deg, kept.is_loved) == (2, None, None)
    assert first["outcome"] == "stored"
    assert set(second["errors"]) == {"loft", "length"}
    assert second["errors"]["loft"] == "A loft of 540 degrees is not believable: 15 to 75."


def test_counts_and_conditions_come_in(tablet, room):
    others = entry("bag.others", {"counts": {"driver": "1", "hybrid": "2"}, "unused": {}})
    air = entry("conditions.record", {
        "id": str(uuid.uuid4()), "temperature": "59 F", "pressure": "1009", "altitude": "",
        "humidity": "60 %", "wind": "10 mph", "wind_to": "",
    })  # fmt: skip
    assert [one["outcome"] for one in receipts(tablet, room, others, air)] == ["stored"] * 2
    stored = room.visit.conditions.get()
    # 59 F is 15 C; a mile an hour is 0.44704 m/s.
    assert (stored.temperature_c, stored.altitude_m) == (15.0, None)
    assert stored.wind_ms == pytest.approx(4.4704)


@pytest.mark.parametrize(
    ("field", "typed", "sentence"),
    [
        ("pressure", "mild", "Type a pressure in hPa, for example 1013."),
        ("pressure", "29.9", "A pressure of 29.9 hPa is not believable: 600 to 1100."),
        ("humidity", "101", "A humidity of 101 per cent is not believable: 0 to 100."),
        ("altitude", "high", "Type an altitude in metres, for example 120."),
        ("temperature", "70", "A temperature of 70 degrees C is not believable: -20 to 50."),
    ],
)
def test_air_that_is_not_believable_is_refused_in_its_own_unit(
    tablet, room, field, typed, sentence
):
    figures = dict.fromkeys(("temperature", "pressure", "altitude", "humidity", "wind"), "")
    air = entry(
        "conditions.record", {"id": str(uuid.uuid4()), "wind_to": "", **figures, field: typed}
    )
    receipt = receipts(tablet, room, air)[0]
    assert (receipt["outcome"], receipt["errors"]) == ("refused", {field: sentence})
    assert not room.visit.conditions.exists()


def test_a_sea_level_pressure_high_up_is_refused_beside_its_field_and_taken_when_it_says_so(
    tablet, room
):
    """The standard atmosphere at 1,600 m is 0.824354 of sea level's: 1013 becomes 835.07."""
    figures = dict.fromkeys(("temperature", "humidity", "wind", "wind_to"), "")
    taken = entry(
        "conditions.record",
        {**figures, "id": str(uuid.uuid4()), "altitude": "1600", "pressure": "1013"},
    )
    receipt = receipts(tablet, room, taken)[0]
    assert (receipt["outcome"], list(receipt["errors"])) == ("refused", ["pressure"])
    assert "about 835 hPa" in receipt["errors"]["pressure"]
    said = entry(
        "conditions.record",
        {
            **figures,
            "id": str(uuid.uuid4()),
            "altitude": "1600",
            "pressure": "1013 hPa at sea level",
        },
    )
    assert receipts(tablet, room, said)[0]["outcome"] == "stored"
    assert room.visit.conditions.get().pressure_hpa == pytest.approx(835.07, abs=0.01)


@pytest.mark.parametrize(
    ("lie", "stored"), [("49", True), ("40", True), ("39.9", False), ("80.1", False)]
)
def test_a_seated_players_lie_is_taken_and_an_absurd_one_refused(tablet, room, lie, stored):
    said = entry("bag.club", {
        "id": str(uuid.uuid4()), "club_id": str(uuid.uuid4()), "kind": "wedge", "label": "56",
        "stamped_loft": "56", "lie": lie,
    })  # fmt: skip
    bent = trial_start(room, lie=lie)
    for receipt in receipts(tablet, room, said, bent):
        assert receipt["outcome"] == ("stored" if stored else "refused"), receipt
        assert list(receipt["errors"]) == ([] if stored else ["lie"])
        assert receipt.get("code", "") == ("" if stored else "entry.not_readable")
    lies = [*BagEntry.objects.values_list("lie_deg", flat=True),
            *Trial.objects.values_list("lie_deg", flat=True)]  # fmt: skip
    assert lies == ([Decimal(lie)] * 2 if stored else [])


@pytest.mark.parametrize(
    ("lie", "stored"),
    [("-12", True), ("12", True), ("-20", True), ("-20.1", False), ("15.1", False)],
)
def test_a_seated_players_irons_are_taken_and_absurd_ones_refused(tablet, room, lie, stored):
    (receipt,) = receipts(tablet, room, entry("interview.answer", {
        "id": str(uuid.uuid4()), "question": "iron_lie_deg", "value": lie, "said_by": "player",
    }))  # fmt: skip
    assert receipt["outcome"] == ("stored" if stored else "refused")
    assert (receipt.get("code", ""), list(receipt["errors"])) == (
        ("", []) if stored else ("interview.no_answer", ["value"])
    )


def test_a_comparison_runs_over_the_same_door(tablet, room):
    one = trial_start(room)
    two = trial_start(room, trial_head_id=str(room.other_head.pk), changed=["sole"])
    opened = entry("comparison.open", {
        "id": str(uuid.uuid4()), "slot": "2", "covered": False, "knowingly": True,
        "trial_ids": [one["body"]["id"], two["body"]["id"]],
    })  # fmt: skip
    assert [r["outcome"] for r in receipts(tablet, room, one, two, opened)] == ["stored"] * 3
    comparison = Comparison.objects.get()
    code = comparison.order[0]
    about = {"comparison_id": str(comparison.pk)}
    said = receipts(
        tablet, room,
        entry("comparison.rate", {"id": str(uuid.uuid4()), "code": str(code), "about": "feel",
                                  "score": "4", **about}),
        entry("comparison.peek", {"id": str(uuid.uuid4()), "code": str(code), **about}),
        entry("comparison.rate", {"id": str(uuid.uuid4()), "code": str(code), "about": "feel",
                                  "score": "6", **about}),
        entry("comparison.reveal", about),
    )  # fmt: skip
    assert [r["outcome"] for r in said] == ["stored", "stored", "refused", "stored"]
    arm = comparison.arms.get(code=code)
    assert said[1]["shown"] == f"{arm.trial.trial_head.mark}, {arm.trial.head_name}"
    # The tablet said nothing of the kind of draw, like one that was loaded before the choice.
    assert comparison.kind == "all_against_all"
    assert receipts(tablet, room, opened)[0]["outcome"] == "stored"
    assert Comparison.objects.count() == 1


def test_a_rating_comes_with_its_turn_and_where_it_was_given(tablet, room):
    one = trial_start(room)
    two = trial_start(room, trial_head_id=str(room.other_head.pk), changed=["sole"])
    about = {"slot": "2", "covered": False, "trial_ids": [one["body"]["id"], two["body"]["id"]]}
    unasked = entry("comparison.open", {"id": str(uuid.uuid4()), **about})
    knowingly = entry("comparison.open", {"id": str(uuid.uuid4()), "knowingly": True, **about})
    said = receipts(tablet, room, one, two, unasked, knowingly)
    assert [r["outcome"] for r in said] == ["stored", "stored", "refused", "stored"]
    assert said[2]["code"] == "comparison.several_differ"
    comparison = Comparison.objects.get()
    where = {"swing": "half", "target": "50", "hit_from": "tight", "ground": "firm",
             "wetness": "dry", "face": "square"}  # fmt: skip
    rating = {"comparison_id": str(comparison.pk), "code": str(comparison.order[0]),
              "about": "feel", "score": "4", **where}  # fmt: skip
    turns = [entry("comparison.rate", {"id": str(uuid.uuid4()), "turn": turn, **rating})
             for turn in ("0", "2", "1", "9")]  # fmt: skip
    outcomes = receipts(tablet, room, *turns)
    assert [r["outcome"] for r in outcomes] == ["stored", "stored", "refused", "refused"]
    assert [list(r["errors"]) for r in outcomes[2:]] == [["turn"], ["turn"]]
    rows = comparison.ratings.order_by("sequence")
    assert [(r.turn, r.swing, r.hit_from, r.ground) for r in rows] == [
        (0, "half", "tight", "firm"), (2, "half", "tight", "firm"),
    ]  # fmt: skip
    assert rows[0].target_m == pytest.approx(45.72)


def test_a_tablet_chooses_head_to_head_and_no_other_kind(tablet, room):
    one = trial_start(room)
    two = trial_start(room, trial_head_id=str(room.other_head.pk), changed=["sole"])
    about = {
        "slot": "2",
        "covered": False,
        "knowingly": True,
        "trial_ids": [one["body"]["id"], two["body"]["id"]],
    }
    said = receipts(
        tablet, room, one, two,
        entry("comparison.open", {"id": str(uuid.uuid4()), "kind": "knockout", **about}),
        entry("comparison.open", {"id": str(uuid.uuid4()), "kind": "head_to_head", **about}),
    )  # fmt: skip
    assert [r["outcome"] for r in said] == ["stored", "stored", "refused", "stored"]
    assert said[2]["errors"] == {"kind": "Choose one of: all against all, head to head."}
    assert Comparison.objects.get().kind == "head_to_head"


def test_a_shot_left_out_and_a_block_on_a_device(tablet, room, block_id):
    ball = shot(block_id)
    out = entry("shot.exclude", {
        "id": str(uuid.uuid4()), "shot_id": ball["body"]["id"], "reason": "misread",
    })  # fmt: skip
    trial_id = str(Trial.objects.get().pk)
    block = block_start(trial_id, device_id=str(room.device.pk), target="30", swing="chip")
    assert [r["outcome"] for r in receipts(tablet, room, ball, out, block)] == ["stored"] * 3
    chip = Block.objects.get(swing="chip")
    assert (chip.device, chip.target_m) == (room.device, pytest.approx(27.432))
