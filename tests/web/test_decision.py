"""The decision's page: what was hit on one side, one tap and a reason on the other."""

import re
from decimal import Decimal
from html import unescape
from uuid import uuid4

import pytest
from django.urls import reverse

from fitshop.services.shop_settings import settings_change
from sessions.forms.decide import DecisionForm
from sessions.models import Decision
from sessions.services.comparisons import (
    comparison_open,
    comparison_peek,
    comparison_rate,
    comparison_reveal,
)
from sessions.services.plans import WantedSlot, plan_choose
from tests.fixtures_decide import AT, Room

pytestmark = pytest.mark.django_db


@pytest.fixture
def room(client):
    room = Room()
    room.signed_in(client)
    return room


def page(room):
    return reverse("decision", args=[room.visit.pk]) + "?slot=2"


def tried(room):
    club = room.club("wedge", "56", "56")
    room.hit(room.block(room.own_trial(club, slot=2)), 84)
    trial = room.head_trial(room.head("54"), slot=2)
    room.hit(room.block(trial), 85)
    return club, trial


def test_with_nothing_tried_it_leads_to_the_plan(room, client):
    assert "Nothing to decide yet" in client.get(page(room)).content.decode()


def test_building_on_two_balls_asks_why_and_keeps_what_was_tapped(room, client):
    room.answer("fix", ["sand"])
    club, trial = tried(room)
    values = {"outcome": f"build:{trial.pk}", "wanted_0": "fixed", "leaves": f"club:{club.pk}"}
    answer = client.post(page(room), values)
    assert answer.status_code == 422
    assert "No measured difference speaks for building it" in answer.content.decode()
    client.post(page(room), values | {"reason": "Feel and sound"})
    row = Decision.objects.get()
    assert (row.outcome, row.reason, row.leaves_bag) == ("build", "Feel and sound", club)
    assert row.keep_fix[0]["answer"] == "fixed"
    assert "Build: " in client.get(page(room)).content.decode()


def test_keeping_the_club_played_now_is_one_tap(room, client):
    club, _ = tried(room)
    client.post(page(room), {"outcome": f"keep:{club.pk}"})
    assert Decision.objects.get().kept_club == club


def test_an_outcome_that_is_not_on_the_page_is_refused(room, client):
    tried(room)
    assert client.post(page(room), {"outcome": "keep:nobody"}).status_code == 422
    assert not Decision.objects.exists()


def pitches(room, **own_more):
    """Twelve pitches at 30 yards each: the own 56 all over the place, the 54 beside the hole."""
    club = room.club("wedge", "56", "56", **own_more)
    own = room.own_trial(club, slot=2)
    wide = room.block(own, swing="pitch", target_m=30 * 0.9144)
    room.hit(wide, 22, 38, 23, 37, 21, 39, 22, 38, 24, 36, 21, 39, side_yd=0)
    trial = room.head_trial(room.head("54"), slot=2)
    near = room.block(trial, swing="pitch", target_m=30 * 0.9144)
    room.hit(near, 29, 31, 30, 29, 31, 30, 30, 29, 31, 30, 29, 31, side_yd=0)
    return club, trial


def test_the_sheet_answers_what_was_wanted_with_the_numbers_behind_it(room, client):
    room.answer("keep", ["chip"])
    room.answer("fix", ["pitch"])
    pitches(room)
    text = client.get(page(room)).content.decode()
    sheet = text[text.index("Decision sheet, slot 2") : text.index("<h2>What was hit")]
    own, new = sheet[sheet.index("<tbody>") :].split("</tr>")[:2]
    assert "played now" in own
    assert "12 balls" in new
    answers = sheet[sheet.index("The player wants") :]
    (pitch,) = re.findall(r"<tr><th.*?</tr>", answers)
    assert re.findall(r">([\w ]+)</span>", pitch) == ["Not fixed", "Fixed"]
    assert "nearer than" in answers
    # Nobody chipped: the own club keeps no chip that it was not hit for.
    assert "Not shown, since nobody hit it here: Keep chip." in answers


def test_each_judgement_on_the_page_has_its_id_and_goes_when_it_is_switched_off(room, client):
    room.answer("keep", ["chip"])
    room.answer("fix", ["pitch"])
    pitches(room, lie_deg=Decimal("63"))
    text = client.get(page(room)).content.decode()
    ids = set(re.findall(r'class="why-id">(.*?)</small>', text))
    # Grooves; the own club came first; two things differ; not hit; stays; fixed.
    assert ids == {"DEC-C01", "DEC-C02", "DEC-L01", "DEC-W01", "DEC-W02", "DEC-W05"}
    assert "came after those with" in text
    off = {f"judgements.{one}": "off" for one in ("DEC-C02", "DEC-L01", "DEC-W05")}
    settings_change(typed=off, by=room.by, at=AT)
    text = client.get(page(room)).content.decode()
    assert "came after those with" not in text
    assert "no telling which" not in text
    (row,) = re.findall(r"<tr><th scope=\"row\">Fix pitch.*?</tr>", text)
    assert "Not shown" in row
    assert "The shop has switched off what would be said here." in row


def sheet_of(room, client):
    text = unescape(client.get(page(room)).content.decode())
    return text[text.index("Decision sheet, slot 2") : text.index("<h2>What was hit")]


def test_a_verdict_says_which_way_and_how_far_and_against_which_club(room, client):
    club = room.club("wedge", "56", "56")
    room.hit(room.block(room.own_trial(club, slot=2)), 83, 84, 85, 84, 83, 85, 84, 84)
    room.hit(room.block(room.head_trial(room.head("54"), slot=2)), 95, 96, 97, 96, 95, 97, 96, 96)
    sheet = sheet_of(room, client)
    assert "Against your 56" in sheet
    assert "carry: 12 yd longer, real" in sheet  # 96 against 84, by hand
    assert "others are held against it" in sheet[: sheet.index("Orrin Vale")]


def test_where_the_own_club_was_not_hit_the_heading_names_the_one_that_leads(room, client):
    room.club("wedge", "56", "56")
    for model, carry in (("Sedge", 84), ("Rush", 96)):
        trial = room.head_trial(room.head("56", model=model), slot=2)
        room.hit(room.block(trial), *[carry + one for one in (-1, 0, 1, 0, -1, 1, 0, 0)])
    sheet = sheet_of(room, client)
    assert "Against Orrin Vale Sedge 56°" in sheet
    assert "Against your 56" not in sheet
    own, leader, other = sheet[sheet.index("<tbody>") :].split("</tr>")[:3]
    assert "not hit" in own
    assert "nothing to compare" in own
    assert "others are held against it" in leader
    assert "carry: 12 yd longer, real" in other  # 96 against 84, by hand


def test_what_is_no_fair_comparison_says_why(room, client):
    club = room.club("wedge", "56", "56")
    room.hit(room.block(room.own_trial(club, slot=2), ball="range"), 83, 84, 85)
    room.hit(room.block(room.head_trial(room.head("54"), slot=2)), 95, 96, 97)
    assert "not compared. The balls differ: range ball against premium ball." in sheet_of(
        room, client
    ).replace("premium ball against range ball", "range ball against premium ball")


def test_a_wish_is_asked_in_the_slot_whose_job_it_is(room, client):
    room.answer("keep", ["full", "sand"])
    room.baseline()
    slots = [WantedSlot("full_shot", Decimal("50")), WantedSlot("touch", Decimal("55"))]
    plan_choose(visit=room.visit, slots=slots, is_own=True, why="x", by=room.by, at=AT)
    tried(room)
    sheet = sheet_of(room, client)
    assert "Keep sand" in sheet
    assert "Not this slot's job: Keep full." in sheet
    assert sheet.count("Keep full") == 1


def test_what_is_alike_and_what_is_not_stands_with_the_verdict(room, client):
    club = room.club("wedge", "56", "56", lie_deg=Decimal("63"))
    room.hit(room.block(room.own_trial(club, slot=2)), 84, 85)
    room.hit(room.block(room.head_trial(room.head("54"), slot=2)), 95, 96)
    text = client.get(page(room)).content.decode()
    # 54 against 56 degrees of loft, 64 against 63 of lie; nobody measured the own club's length.
    assert "Not alike: loft and lie. Not known: length, shaft, sole and grip." in text
    assert "2 things differ: there is no telling which of them did it." in text.replace(
        "&#x27;", "'"
    )
    assert "loft 54° against 56° and lie 64° against 63°" in text


def test_a_decision_says_against_what_and_on_which_evidence(room, client):
    club = room.club("wedge", "56", "56")
    own = room.own_trial(club, slot=2)
    room.hit(room.block(own), 83, 84, 85, 84, 83, 85, 84, 84)
    trial = room.head_trial(room.head("54"), slot=2)
    room.hit(room.block(trial), 95, 96, 97, 96, 95, 97, 96, 96)
    client.post(page(room), {"outcome": f"build:{trial.pk}", "against": str(own.pk),
                             "leaves": f"club:{club.pk}"})  # fmt: skip
    text = client.get(page(room)).content.decode()
    strip = text[text.index("decided") : text.index("Decision sheet")]
    assert "Build: Orrin Vale Sedge 54°</b>, against your 56. Leaves the bag: 56." in strip
    assert "Full from fairway: carry, 12 yd longer than your 56 (" in strip


def set_wedge(room, **more):
    return room.head("54", model="Tern", is_matched_set=True, **more).head


def test_the_sets_own_wedge_is_an_answer_though_nobody_hit_it(room, client):
    room.club("pitching_wedge", "PW", "45", maker="Orrin Vale", model="Tern")
    head = set_wedge(room)
    tried(room)
    sheet = sheet_of(room, client)
    row = sheet[sheet.index("Orrin Vale Tern 54") :]
    assert "not hit today" in row
    assert "Nothing to compare" in row
    assert "On the rack: Tern54." in row
    assert "if the irons are of that set" not in row
    client.post(page(room), {"outcome": f"try:{head.pk}"})
    decision = Decision.objects.get()
    assert (decision.outcome, decision.reason) == (
        "come_back", "To try the set's own wedge: Orrin Vale Tern 54.",
    )  # fmt: skip
    text = client.get(page(room)).content.decode()
    assert re.search(r"Come back for the set(&#x27;|')s own wedge: Orrin Vale Tern 54", text)
    assert re.search(rf'value="try:{head.pk}"[^>]* checked', text)


def test_only_the_makers_name_known_it_says_if_and_another_makers_irons_have_none(room, client):
    set_wedge(room)
    tried(room)
    assert "if the irons are of that set" in sheet_of(room, client)
    room.club("pitching_wedge", "PW", "45", maker="Fennbrook", model="Ruff")
    assert "not hit today" not in sheet_of(room, client)


def test_a_set_wedge_that_was_handed_over_is_a_line_like_any_other(room, client):
    tried(room)
    set_wedge(room)
    room.hit(room.block(room.head_trial(room.heads["Tern 54"], slot=2)), 85)
    sheet = sheet_of(room, client)
    assert "not hit today" not in sheet
    assert "the set" in sheet[sheet.index("Tern 54") :]


def test_nothing_tapped_stores_what_the_shots_show_and_a_tap_stands_beside_it(room, client):
    room.answer("fix", ["pitch"])
    _, trial = pitches(room)
    build = {"outcome": f"build:{trial.pk}"}
    client.post(page(room), build)
    (fixed,) = Decision.objects.get(is_current=True).keep_fix
    assert (fixed["answer"], fixed["shown"]) == ("fixed", "fixed")
    assert "nearer than" in fixed["because"][0]
    client.post(page(room), build | {"wanted_0": "not_fixed", "reason": "Feel and sound"})
    (otherwise,) = Decision.objects.get(is_current=True).keep_fix
    assert (otherwise["answer"], otherwise["shown"]) == ("not_fixed", "fixed")
    assert "the shots say: fixed" in client.get(page(room)).content.decode()


def decided_against_the_evidence(room, client):
    room.baseline()
    slots = [WantedSlot("full_shot", Decimal("50")), WantedSlot("touch", Decimal("56"))]
    plan_choose(visit=room.visit, slots=slots, is_own=True, why="x", by=room.by, at=AT)
    club = room.club("wedge", "56", "56")
    own = room.own_trial(club, slot=2)
    room.hit(room.block(own), 83, 84, 85, 84, 83, 85, 84, 84)
    new = room.head_trial(room.head("54"), slot=2)
    room.hit(room.block(new), 95, 96, 97, 96, 95, 97, 96, 96)
    return club, own, new


def test_a_reason_stands_for_the_choice_that_it_was_given_for_alone(room, client):
    club, own, new = decided_against_the_evidence(room, client)
    client.post(page(room), {"outcome": f"build:{new.pk}", "against": str(own.pk)})
    assert Decision.objects.get().reason == "As the numbers show."
    again = client.get(page(room)).content.decode()
    assert 'name="reason_words" value=' not in again
    answer = client.post(page(room), {"outcome": f"keep:{club.pk}", "against": str(new.pk)})
    assert answer.status_code == 422
    assert "Say why you choose otherwise." in answer.content.decode()


def test_what_speaks_against_a_choice_stands_with_its_judgement(room, client):
    club, own, _ = decided_against_the_evidence(room, client)
    # The page offers the own club to be held against: kept, it is held against nothing.
    values = {"outcome": f"keep:{club.pk}", "reason": "Feel and sound"}
    client.post(page(room), values | {"against": str(own.pk)})
    assert Decision.objects.get().against_trial is None
    text = client.get(page(room)).content.decode()
    (strip,) = re.findall(r"<p>Chosen although: (.*?)</p>", text)
    assert "carries nearer to the" in strip
    assert strip.endswith('<small class="why-id">DEC-E01</small>')
    assert "settings of then" not in text
    settings_change(typed={"judgements.DEC-C02": "off"}, by=room.by, at=AT)
    assert "Decided under the shop's settings of then." in client.get(page(room)).content.decode()
    # A decision of before the judgements were named keeps its sentence.
    row = Decision.objects.get()
    del row.numbers["speaks_against_rules"]
    row.save()
    (strip,) = re.findall(r"<p>Chosen although: (.*?)</p>", client.get(page(room)).content.decode())
    assert "why-id" not in strip


def test_a_wish_of_another_slot_is_asked_where_the_shop_says_so(room, client):
    room.answer("keep", ["full"])
    decided_against_the_evidence(room, client)
    assert "Not this slot's job: Keep full." in sheet_of(room, client)
    settings_change(typed={"judgements.DEC-A01": "off"}, by=room.by, at=AT)
    assert "Not this slot's job" not in sheet_of(room, client)


def test_what_is_worse_has_no_tick(room, client):
    club = room.club("wedge", "56", "56")
    straight = room.block(room.own_trial(club, slot=2))
    room.hit(straight, *[90] * 8, side_yd=0)
    off = room.block(room.head_trial(room.head("54"), slot=2))
    room.hit(off, *[90] * 8, side_yd=20)
    sheet = sheet_of(room, client)
    (said,) = re.findall(r'<span class="sheet-verdict is-real">(.*?)direction: worse', sheet)
    assert "#icon-warning" in said or "warning" in said
    assert "check" not in said


def test_whether_a_full_shot_stops_stands_with_its_figures(room, client):
    club = room.club("wedge", "50", "50")
    figures = {"landing_deg": 50.0, "ball_speed_ms": 42.0}
    room.hit(room.block(room.own_trial(club, slot=2)), 110, 111, 112, spin_rpm=6500.0, **figures)
    trial = room.head_trial(room.head("50"), slot=2)
    room.hit(room.block(trial), 110, 111, 112, spin_rpm=9000.0, **figures)
    text = client.get(page(room)).content.decode()
    own, new = text[text.index("<h2>What was hit") :].split("<h3>Orrin Vale")
    assert "6,500 rpm is little for a ball of 94 mph, which takes about 8,000 rpm." in own
    assert "DEC-S03" in own
    assert "A full shot stops: 9,000 rpm, landing at 50°." in new
    settings_change(typed={"comparison.stop_spin_low_rpm": "6000"}, by=room.by, at=AT)
    text = client.get(page(room)).content.decode()
    assert "A full shot stops: 6,500 rpm" in text
    settings_change(typed={"judgements.DEC-S01": "off"}, by=room.by, at=AT)
    assert "A full shot stops" not in client.get(page(room)).content.decode()


def test_a_narrower_spread_is_said_by_its_share_of_the_other(room, client):
    pitches(room)
    text = client.get(page(room)).content.decode()
    (said,) = re.findall(r"<p>(Less than 0\.\d|\d\.\d) times as wide as with your 56 \(", text)
    assert float(said.split()[-1]) < 0.5


def test_the_own_words_of_a_decision_say_who_reads_them():
    assert DecisionForm.base_fields["reason_words"].help_text == "The player reads this."


def compared(room, kind, *, covered=True, looks_at=False):
    """Two heads compared under numbers, rated once before the reveal and once after it."""
    trials = [room.head_trial(room.head("56", "8", "Sedge"), slot=2),
              room.head_trial(room.head("56", "12", "Rush"), slot=2)]  # fmt: skip
    for trial in trials:
        room.hit(room.block(trial), 84, 85, 86)
    run = comparison_open(visit=room.visit, comparison_id=uuid4(), slot=2, trials=trials,
                          covered=covered, seed=3, kind=kind, by=room.by, at=AT)  # fmt: skip
    code = run.order[0]
    if looks_at:
        comparison_peek(comparison=run, code=code, by=room.by, at=AT)
    rated = {"comparison": run, "code": code, "about": "feel", "by": room.by, "at": AT}
    comparison_rate(rating_id=uuid4(), score=4, **rated)
    comparison_reveal(comparison=run, by=room.by, at=AT)
    comparison_rate(rating_id=uuid4(), score=2, **rated)


@pytest.mark.parametrize(
    ("how", "said"),
    [
        ({"kind": "all_against_all"}, "compared blind, all against all; "),
        ({"kind": "head_to_head"}, "compared blind, head to head; "),
        ({"kind": "head_to_head", "covered": False},
         "compared in hidden order, not blind (sole and stamp are not covered), head to head; "),
        ({"kind": "all_against_all", "looks_at": True},
         "compared in hidden order, not blind, all against all, "
         "and somebody looked behind a number; "),
    ],
)  # fmt: skip
def test_how_a_comparison_was_run_stands_on_the_sheet(room, client, how, said):
    compared(room, **how)
    sheet = sheet_of(room, client)
    assert f"{said}rated once before the reveal and 1 after it." in sheet
    assert "Held the same: " in sheet
