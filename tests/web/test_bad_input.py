"""What goes wrong at the fields: each trouble on each page where it can happen, and its test.

A refusal is a clear sentence beside the field, keeps what was typed and loses nothing. The table
names the test for every pair; those that stand elsewhere are named with their module.
"""

from __future__ import annotations

import re
import uuid
from importlib import import_module

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

from fitshop.models import Staff
from fitshop.selectors import declared_settings, settings_in_force
from orders.models import BuildOrder
from sessions.models import LoftPlan, Player, Shot, ShotFile, SpecClub, TrialHead, Visit
from sessions.services.equipment import equipment_withdraw
from tests import fixtures_decide, spec_room
from tests.fixtures_desk import a_desk, a_player, typed_player
from tests.order_room import Workshop

pytestmark = pytest.mark.django_db

HERE = "test_bad_input"
API = "tests.api.test_commands"
# Trouble -> page -> (module, test). A module without a dot stands beside this one.
TABLE: dict[str, dict[str, tuple[str, str]]] = {
    "letters in numbers": {
        "player": (HERE, "test_a_figure_of_the_player_that_is_none"),
        "visit": (HERE, "test_a_length_of_a_visit_that_is_none"),
        "plan, what is asked": (HERE, "test_a_wish_that_is_no_figure"),
        "plan, own lofts": (HERE, "test_own_lofts_that_are_none"),
        "spec": (
            "test_spec",
            "test_a_loft_nobody_makes_is_refused_beside_the_field_and_stays_as_typed",
        ),
        "parts, check": (
            "test_parts",
            "test_a_loft_that_is_none_is_refused_beside_its_field_and_stays_typed",
        ),
        "settings": ("test_set_up", "test_a_value_that_does_not_fit_is_kept_and_said_beside_it"),
        "file, target": (HERE, "test_a_target_that_is_no_distance"),
        "order": (HERE, "test_a_due_day_that_is_none"),
        "bench, reading": ("test_bench", "test_a_reading_that_is_none_is_refused_and_stays_typed"),
        "gauge, check": (
            "test_gauges",
            "test_a_check_that_makes_no_sense_is_refused_beside_its_field",
        ),
        "bench, epoxy": (
            "test_cure",
            "test_what_a_cure_can_not_begin_with_is_refused_beside_its_field",
        ),
        "tablet, shot": (HERE, "test_a_shot_that_is_no_figure"),
        "tablet, bag": (HERE, "test_a_club_that_nobody_makes"),
    },
    "comma decimals": {
        "player": (HERE, "test_a_comma_in_the_players_figures"),
        "plan, own lofts": (HERE, "test_a_comma_in_own_lofts"),
        "spec": ("test_spec", "test_a_comma_is_a_decimal_point_and_is_kept_as_typed"),
        "parts, check": (HERE, "test_a_comma_at_the_check_of_a_head"),
        "settings": (HERE, "test_a_comma_in_a_setting"),
        "file": (HERE, "test_a_file_with_decimal_commas"),
        "bench, reading": (
            "test_bench",
            "test_readings_are_typed_as_they_are_read_and_the_bend_shows_at_once",
        ),
        "tablet, shot": (API, "test_a_comma_is_a_decimal_mark"),
        "tablet, bag": (API, "test_a_bag_club_comes_in_with_its_units"),
    },
    "absurd values": {
        "player": (HERE, "test_a_figure_of_the_player_that_is_none"),
        "visit": (HERE, "test_a_length_of_a_visit_that_is_none"),
        "plan, what is asked": (HERE, "test_a_wish_that_is_no_figure"),
        "plan, own lofts": (HERE, "test_own_lofts_that_are_none"),
        "spec": (
            "test_spec",
            "test_a_loft_nobody_makes_is_refused_beside_the_field_and_stays_as_typed",
        ),
        "parts, check": (
            "test_parts",
            "test_a_loft_that_is_none_is_refused_beside_its_field_and_stays_typed",
        ),
        "file": ("test_shot_files", "test_a_file_is_read_looked_at_taken_over_and_undone"),
        "file, target": (HERE, "test_a_target_that_is_no_distance"),
        "order": ("test_orders", "test_a_past_due_day_is_said_beside_the_field_and_stays_typed"),
        "bench, reading": (HERE, "test_a_reading_nobody_believes"),
        "gauge": (
            "test_gauges",
            "test_a_gauge_that_makes_no_sense_is_refused_beside_its_field_and_stays_typed",
        ),
        "bench, epoxy": (
            "test_cure",
            "test_what_a_cure_can_not_begin_with_is_refused_beside_its_field",
        ),
        "tablet, shot": (HERE, "test_a_shot_that_is_no_figure"),
        "tablet, 500 yd": (
            API,
            "test_a_shot_of_500_yards_is_refused_beside_its_field_and_a_new_one_follows",
        ),
        "tablet, bag": (HERE, "test_a_club_that_nobody_makes"),
    },
    "a bend past the limit": {
        "spec": (HERE, "test_a_bend_past_the_limit_stops_the_spec_beside_its_figure"),
        "bench": ("test_bench", "test_a_bend_past_the_limit_stands_on_the_page"),
    },
    "an empty, binary or wrong-column file": {
        "file": ("test_shot_files", "test_what_is_no_table_is_said_beside_the_file"),
        "file, columns": (HERE, "test_a_column_of_words_taken_for_carries"),
        "file, none chosen": (HERE, "test_no_file_chosen"),
    },
    "the same form twice": {
        "player": (
            "test_players",
            "test_a_player_is_registered_once_however_often_the_form_is_sent",
        ),
        "visit": ("test_visits", "test_a_visit_is_booked_in_the_locations_time_and_only_once"),
        "consent": (HERE, "test_a_consent_given_twice_is_one"),
        "plan": (HERE, "test_own_lofts_sent_twice_leave_one_plan_in_force"),
        "spec": ("test_spec", "test_it_is_signed_once_and_then_only_drafted_anew"),
        "parts": ("test_parts", "test_withdrawing_twice_keeps_the_first_reason"),
        "file": (HERE, "test_a_file_read_twice_is_one_file"),
        "staff": ("test_set_up", "test_someone_is_entered_and_a_taken_name_is_refused"),
        "first start": ("test_set_up", "test_a_new_shop_is_led_to_its_first_start_and_set_up_once"),
        "message": (HERE, "test_a_letter_decided_twice_says_so"),
        "order": (
            "test_orders",
            "test_the_spec_panel_makes_the_order_and_the_form_sent_twice_makes_one",
        ),
        "order, told": ("test_orders", "test_from_the_check_to_the_players_hands"),
        "order, letter": (
            "test_orders",
            "test_the_letter_is_sent_by_hand_once_however_often_the_form_comes",
        ),
        "bench, reading": ("test_bench", "test_a_form_sent_twice_is_one_reading"),
        "gauge, check": (
            "test_gauges",
            "test_a_check_sent_twice_is_one_and_the_bench_asks_about_a_gauge_found_off",
        ),
        "bench, step": (HERE, "test_a_step_ticked_twice_stands_once"),
        "tablet": (API, "test_the_same_entry_twice_is_stored_once_with_the_same_receipt"),
    },
    "two people": {
        "spec, changed": ("test_spec", "test_the_second_of_two_people_sees_both_figures"),
        "spec, signed": (HERE, "test_two_people_sign_the_same_spec"),
        "plan": ("test_plan", "test_a_plan_that_is_no_longer_suggested_is_not_taken"),
        "tablet": (API, "test_two_tablets_unite"),
    },
    "a head withdrawn while in use": {
        "parts": (HERE, "test_a_head_withdrawn_while_its_check_is_open"),
        "tablet": (
            API,
            "test_with_a_withdrawn_head_in_the_hand_balls_are_stored_and_a_new_situation_is_not",
        ),
    },
    "no e-mail, no consent": {
        "player": ("test_players", "test_a_consent_that_has_no_address_says_so"),
        "child": (
            "test_visits",
            "test_a_childs_visit_opens_only_with_the_guardians_consent_to_the_record",
        ),
        "finish": ("test_finish", "test_without_consent_the_page_says_why_nothing_will_go"),
        "finish, no address": (HERE, "test_a_summary_without_an_address_says_so_and_sends_nothing"),
    },
    "a session that expired": {
        "every page": (
            "test_kept_forms_everywhere",
            "test_every_door_keeps_what_was_typed_and_asks_for_the_sign_in",
        ),
        "player": ("test_kept_forms", "test_the_same_person_finds_the_form_as_it_was_typed"),
        "spec": (
            "test_kept_forms_everywhere",
            "test_a_club_of_the_spec_comes_back_as_typed_in_its_own_form",
        ),
        "bench": (
            "test_kept_forms_everywhere",
            "test_a_reading_comes_back_among_many_forms_with_the_same_address",
        ),
        "tablet": (API, "test_who_is_not_signed_in_is_told_so_and_nothing_is_stored"),
    },
}


def test_every_pair_in_the_table_has_its_test():
    missing = []
    for trouble, places in TABLE.items():
        for place, (module, name) in places.items():
            path = module if "." in module else f"tests.web.{module}"
            if not callable(getattr(import_module(path), name, None)):
                missing.append(f"{trouble} / {place}: {path}.{name}")
    assert not missing, "\n".join(missing)


def said_beside(answer, field, *, typed, sentence):
    """422, the sentence in the list of errors of that field, and what was typed still in it."""
    assert answer.status_code == 422
    errors = re.search(
        rf'<ul class="errorlist" id="id_{field}_error">(.*?)</ul>', answer.text, re.S
    )
    assert errors, f"no sentence beside {field}"
    assert sentence in errors[1]
    assert re.search(rf'<[^>]*name="[^"]*{field}"[^>]*value="{re.escape(typed)}"', answer.text)


# --- Players and visits ---------------------------------------------------------------------


@pytest.fixture
def desk(settings):
    settings.DEMO = True  # no second factor
    return a_desk()


@pytest.fixture
def browser(client, desk):
    client.force_login(Staff.objects.get(username="mara"))
    return client


@pytest.mark.parametrize(
    ("field", "typed", "sentence"),
    [
        ("height_mm", "tall", "Type a height, for example 5 ft 11 or 180 cm."),
        ("height_mm", "9 ft 2", "not believable"),
        ("wrist_to_floor_mm", "a lot", "wrist to floor"),
        ("wrist_to_floor_mm", "100", "not believable"),
        ("finger_length_mm", "three", "finger length"),
        ("handicap", "scratch", "Enter a number."),
        ("handicap", "1000", "3 digits"),
        ("home_altitude_m", "high", "altitude"),
        ("home_altitude_m", "9000", "not believable"),
        ("birth_date", "31 February", "Enter a valid date."),
        ("birth_date", "9999-12-31", "1900 to 2199"),
        ("birth_date", "0001-01-01", "1900 to 2199"),
        ("birth_date", "2199-12-31", "still to come"),
    ],
)
def test_a_figure_of_the_player_that_is_none(browser, field, typed, sentence):
    answer = browser.post(reverse("player_new"), typed_player(**{field: typed}, notes="kept"))
    said_beside(answer, field, typed=typed, sentence=sentence)
    assert "kept</textarea>" in answer.text
    assert not Player.objects.exists()


def test_a_comma_in_the_players_figures(browser):
    typed = typed_player(height_mm="180,5 cm", handicap="12,4")
    assert browser.post(reverse("player_new"), typed).status_code == 302
    player = Player.objects.get()
    assert (f"{player.height_mm:.1f}", f"{player.handicap}") == ("1805.0", "12.4")


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [("an hour", "whole number"), ("0", "5"), ("5000", "600"), ("-60", "5"), ("", "How many")],
)
def test_a_length_of_a_visit_that_is_none(browser, typed, sentence):
    url = reverse("visit_new") + f"?player={a_player().pk}"
    answer = browser.post(
        url,
        {"id": str(uuid.uuid4()), "day": "2027-03-02", "time": "10:00", "minutes": typed,
         "kind": "wedges", "bay": "", "fitter": "", "note": "kept"},
    )  # fmt: skip
    assert answer.status_code == 422
    errors = re.search(r'<ul class="errorlist" id="id_minutes_error">(.*?)</ul>', answer.text, re.S)
    assert sentence in errors[1]
    assert "kept</textarea>" in answer.text
    assert not Visit.objects.exists()


def test_a_consent_given_twice_is_one(browser):
    player = a_player(email="imke@players.invalid")
    for _ in range(2):
        browser.post(
            reverse("player_consent", args=[player.pk]), {"about": "email", "given_by": "player"}
        )
    assert player.consents.count() == 1


def test_a_comma_in_a_setting(browser):
    key = decimal_setting()
    answer = browser.post(reverse("set_up"), {key: "1,5"}, follow=True)
    assert "Saved as version 1." in answer.text
    assert float(settings_in_force()[key]) == 1.5


def decimal_setting() -> str:
    """A setting that takes 1.5."""
    for one in declared_settings():
        try:
            if one.kind == "decimal" and float(one.parsed("1.5")) == 1.5:
                return one.key
        except (ValueError, TypeError):
            continue
    raise AssertionError("no such setting")


def test_a_letter_decided_twice_says_so(browser):
    from tests.web.test_set_up import a_letter

    letter = a_letter()
    letter.status = "unknown"
    letter.save()
    url = reverse("message_decide", args=[letter.pk])
    browser.post(url, {"decision": "cancel"})
    again = browser.post(url, {"decision": "send_again"}, follow=True)
    assert "strip error" in again.text
    letter.refresh_from_db()
    assert letter.status == "cancelled"


# --- The fitting room -----------------------------------------------------------------------


@pytest.fixture
def fitting(client):
    room = fixtures_decide.Room()
    room.signed_in(client)
    return room


@pytest.mark.parametrize(
    ("field", "typed"),
    [("most", "lots"), ("most", "90"), ("most", "5"), ("step_low", "nan"), ("step_high", "40"),
     ("step_low", "wide")],
)  # fmt: skip
def test_a_wish_that_is_no_figure(fitting, client, field, typed):
    fitting.baseline()
    answer = client.get(reverse("plan", args=[fitting.visit.pk]), {field: typed})
    assert answer.status_code == 200
    assert f'id="id_{field}_error"' in answer.text
    assert f'value="{typed}"' in answer.text


@pytest.mark.parametrize("typed", ["lots", "5", "90", "51.2.3"])
def test_own_lofts_that_are_none(fitting, client, typed):
    fitting.baseline()
    answer = client.post(
        reverse("plan", args=[fitting.visit.pk]),
        {"action": "own", "loft_1": "51", "loft_2": typed, "why_words": "He likes them"},
    )
    said_beside(answer, "loft_2", typed=typed, sentence="")
    assert 'value="He likes them"' in answer.text
    assert not LoftPlan.objects.exists()


def test_a_comma_in_own_lofts(fitting, client):
    fitting.baseline()
    client.post(
        reverse("plan", args=[fitting.visit.pk]),
        {"action": "own", "loft_1": "51,5", "why_words": "He likes it"},
    )
    assert str(LoftPlan.objects.get().slots.get().target_loft_deg) == "51.50"


def test_own_lofts_sent_twice_leave_one_plan_in_force(fitting, client):
    fitting.baseline()
    for _ in range(2):
        client.post(
            reverse("plan", args=[fitting.visit.pk]),
            {"action": "own", "loft_1": "51", "why_words": "He likes it"},
        )
    assert LoftPlan.objects.filter(is_current=True).count() == 1


def upload(room, client, content):
    return client.post(
        reverse("shot_files", args=[room.visit.pk]),
        {"file": SimpleUploadedFile("range.csv", content)},
    )


def test_no_file_chosen(fitting, client):
    answer = client.post(reverse("shot_files", args=[fitting.visit.pk]), {})
    assert answer.status_code == 422
    assert "Choose a file first." in answer.text


def test_a_file_read_twice_is_one_file(fitting, client):
    content = b"Carry (yd),Side\n100,1\n101,2\n"
    first, second = (upload(fitting, client, content) for _ in range(2))
    assert first["Location"] == second["Location"]
    assert ShotFile.objects.count() == 1


def test_a_file_with_decimal_commas(fitting, client):
    block = fitting.block(fitting.head_trial(fitting.head("54"), slot=2))
    page = upload(fitting, client, b"Carry (yd);Side\n100,5;1,5\n101,5;2,5\n")["Location"]
    mapping = {"measure_0": "carry", "unit_0": "yd", "decimal_mark": ",", "positive": "right"}
    client.post(page, mapping | {"action": "take", "block": str(block.pk)})
    # 100.5 yd at 0.9144 m: by hand.
    assert [round(shot.carry_m, 4) for shot in Shot.objects.order_by("number")] == [
        91.8972,
        92.8116,
    ]


def test_a_column_of_words_taken_for_carries(fitting, client):
    """The words are of no use as carries: nothing is taken, and the page says why for each row."""
    block = fitting.block(fitting.head_trial(fitting.head("54"), slot=2))
    page = upload(fitting, client, b"Carry (yd),Note\n100,low\n101,high\n")["Location"]
    mapping = {"measure_1": "carry", "unit_1": "yd", "decimal_mark": ".", "positive": "right"}
    looked = client.post(page, mapping | {"action": "look"})
    assert "0 shots, 2 rows not taken" in looked.text
    client.post(page, mapping | {"action": "take", "block": str(block.pk)})
    assert not Shot.objects.exists()


@pytest.mark.parametrize("typed", ["far", "0", "500"])
def test_a_target_that_is_no_distance(fitting, client, typed):
    trial = fitting.head_trial(fitting.head("54"), slot=2)
    page = upload(fitting, client, b"Carry (yd),Side\n100,1\n101,2\n")["Location"]
    answer = client.post(page, {
        "action": "block", "trial": str(trial.pk), "swing": "full", "hit_from": "fairway",
        "ground": "normal", "wetness": "dry", "face": "square", "ball": "premium",
        "carry_got": "tracked", "spin_got": "none", "as_flown": "as_flown", "target_m": typed,
    })  # fmt: skip
    said_beside(answer, "target_m", typed=typed, sentence="")
    assert not trial.blocks.exists()


def test_a_comma_at_the_check_of_a_head(fitting, client):
    head = fitting.head("54")
    client.post(reverse("equipment_check", args=["head", head.pk]), {"measured_loft_deg": "53,5"})
    head.refresh_from_db()
    assert str(head.measured_loft_deg) == "53.50"


def test_a_head_withdrawn_while_its_check_is_open(fitting, client):
    """What was measured is kept; it stays withdrawn, since nobody ticked that it may be used."""
    head = fitting.head("54")
    url = reverse("equipment_check", args=["head", head.pk])
    assert "back_in_use" not in client.get(url).text
    equipment_withdraw(item=head, why="Head loose", by=fitting.by, at=fitting.at)
    assert client.post(url, {"measured_loft_deg": "53.5"}).status_code == 302
    row = TrialHead.objects.get(pk=head.pk)
    assert row.withdrawn_why == "Head loose"
    assert str(row.measured_loft_deg) == "53.50"


# --- Spec, finish, orders, bench ------------------------------------------------------------


@pytest.fixture
def room(client):
    spec_room.shop()
    room = spec_room.Room()
    client.force_login(spec_room.signed_in(room.location))
    return room


def drafted(client, room):
    client.post(reverse("spec_draft", args=[room.visit.pk]))
    return room.visit.specs.get()


def test_a_bend_past_the_limit_stops_the_spec_beside_its_figure(client, room):
    """Stamped 56 and to be 50: six strong, past what any head of this making goes."""
    spec = drafted(client, room)
    SpecClub.objects.filter(spec=spec, slot=2).update(target_loft_deg=50)
    text = client.post(
        reverse("spec_check", args=[room.visit.pk, spec.pk]), follow=True
    ).content.decode()
    loft = text[text.index("Slot 2") if "Slot 2" in text else 0 :]
    assert "Stops the order" in loft
    assert "6 strong" in loft
    spec.refresh_from_db()
    signed = client.post(
        reverse("spec_sign", args=[room.visit.pk, spec.pk]), {"edition": str(spec.edition)},
        follow=True,
    )  # fmt: skip
    assert "Not signed:" in signed.text


def test_two_people_sign_the_same_spec(client, room):
    """Both look at the same edition; the second is told who signed it, and nothing is doubled."""
    spec = drafted(client, room)
    other = Client()
    second = spec_room.signed_in(room.location, username="ines")
    second.display_name = "Ines Ravn"
    second.save()
    other.force_login(second)
    client.post(reverse("spec_check", args=[room.visit.pk, spec.pk]))
    for row in spec.findings.filter(severity="look at this"):
        client.post(
            reverse("spec_accept", args=[room.visit.pk, spec.pk]),
            {"rule": row.rule, "fields_said": " ".join(row.fields), "words": "as he plays it"},
        )
    spec.refresh_from_db()
    sign = reverse("spec_sign", args=[room.visit.pk, spec.pk])
    heard = {"edition": str(spec.edition), "hand": "on", "length": "on", "stamping": "on"}
    first = client.post(sign, heard, follow=True)
    again = other.post(sign, heard, follow=True)
    assert "Version 1 is signed." in first.text
    assert "Mara Quill signed version 1" in again.text
    spec.refresh_from_db()
    assert (spec.state, spec.signed_by) == ("signed", "Mara Quill")


def test_a_summary_without_an_address_says_so_and_sends_nothing(client, room):
    from fitshop.models import OutgoingMessage
    from tests.web.test_finish import signed

    Player.objects.filter(pk=room.player.pk).update(email="")
    room.agree_to_mail()
    signed(room)
    page = client.get(reverse("finish", args=[room.visit.pk])).text
    assert "e-mail address is not recorded. Print the spec sheet instead." in page
    client.post(reverse("visit_close", args=[room.visit.pk]))
    answer = client.post(reverse("summary_send", args=[room.visit.pk]), follow=True)
    assert "e-mail address is not recorded" in answer.text
    assert not OutgoingMessage.objects.exists()


@pytest.fixture
def workshop(client):
    spec_room.shop()
    workshop = Workshop()
    client.force_login(spec_room.signed_in(workshop.location, username="odo", role="builder"))
    return workshop


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("soon", "Enter a valid date."),
        ("9999-12-31", "1900 to 2199"),
        ("0001-01-01", "1900 to 2199"),
    ],
)
def test_a_due_day_that_is_none(client, settings, typed, sentence):
    settings.DEMO = True
    spec_room.shop()
    workshop = Workshop()
    client.force_login(spec_room.signed_in(workshop.location, role="manager"))
    answer = client.post(
        reverse("order_new", args=[workshop.visit.pk]), {"due_on": typed, "note": "kept"}
    )
    said_beside(answer, "due_on", typed=typed, sentence=sentence)
    assert 'value="kept"' in answer.text
    assert not BuildOrder.objects.exists()


@pytest.mark.parametrize(
    ("measure", "typed"), [("loft", "5"), ("loft", "90"), ("lie", "20"), ("head_mass", "3000")]
)
def test_a_reading_nobody_believes(client, workshop, measure, typed):
    workshop.released()
    answer = client.post(
        reverse("bench_reading", args=[2001, 1]),
        {"reading_id": str(uuid.uuid4()), "stage": "as_received", "measure": measure,
         "value": typed},
    )  # fmt: skip
    assert answer.status_code == 422
    assert f'value="{typed}"' in answer.text
    assert f'id="id_as_received_{measure}_value_error"' in answer.text


def test_a_step_ticked_twice_stands_once(client, workshop):
    workshop.released()
    url = reverse("bench_step", args=[2001, 1, "picked"])
    answers = [client.post(url, {"picked-hand": "right"}, follow=True) for _ in range(2)]
    assert answers[0].status_code == 200
    assert answers[1].status_code in {200, 422}
    assert workshop.club(BuildOrder.objects.get()).steps.filter(step="picked").count() == 1


# --- The tablet's entries -------------------------------------------------------------------


@pytest.fixture
def tablet():
    from tests.api.test_commands import PASSWORD
    from tests.fixtures_capture import a_fitting

    fitting = a_fitting()
    browser = Client()
    assert browser.login(username="odo", password=PASSWORD)
    return browser, fitting


@pytest.mark.parametrize(
    ("carry", "sentence"),
    [("abc", "carry"), ("0", "not believable"), ("", "carry"), ("1e3", "carry"), ("-5", "carry")],
)
def test_a_shot_that_is_no_figure(tablet, carry, sentence):
    from tests.api.test_commands import block_start, receipts, shot, trial_start

    browser, fitting = tablet
    trial = trial_start(fitting)
    block = block_start(trial["body"]["id"])
    bad = shot(block["body"]["id"], carry=carry)
    *_, said = receipts(browser, fitting, trial, block, bad)
    if carry == "":
        # A ball whose carry nobody read is a fact too: not measured, and counted.
        assert said["outcome"] == "stored"
        assert Shot.objects.get().carry_m is None
        return
    assert said["status"] == 422
    assert sentence in said["errors"]["carry"].lower()
    assert not Shot.objects.exists()


@pytest.mark.parametrize("loft", ["5", "90", "fifty", "54 cm"])
def test_a_club_that_nobody_makes(tablet, loft):
    from tests.api.test_commands import entry, receipts

    browser, fitting = tablet
    body = {
        "id": str(uuid.uuid4()), "club_id": str(uuid.uuid4()), "kind": "wedge", "label": "54",
        "stamped_loft": "54", "stamped_bounce": "", "loft": loft, "lie": "", "bounce": "",
        "length": "", "swing_weight": "", "stock_carry": "", "flat_out_carry": "", "unit": "yd",
        "grooves": "worn", "is_kept": True, "is_loved": None, "making": "unknown",
    }  # fmt: skip
    (said,) = receipts(browser, fitting, entry("bag.club", body))
    assert said["status"] == 422
    assert set(said["errors"]) == {"loft"}
    assert "loft" in said["errors"]["loft"].lower()
