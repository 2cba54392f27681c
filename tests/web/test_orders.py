"""The order's pages: made, released, checked, told, handed over; panels; other locations."""

from dataclasses import replace
from uuid import uuid4

import pytest
from django.urls import reverse

from fitshop.models import Location, OutgoingMessage
from fitshop.services.shop_settings import settings_change
from orders.models import BuildOrder, Check, OrderClub, RoundsReport, SetConcession
from orders.services.hand_over import order_hand_over, order_ready
from sessions.models import Answer, Interview
from tests.order_room import AT, CURED, Workshop
from tests.spec_room import shop, signed_in

pytestmark = pytest.mark.django_db


@pytest.fixture
def room(settings):
    settings.DEMO = True  # no second factor
    shop()
    return Workshop()


@pytest.fixture
def as_manager(client, room):
    client.force_login(signed_in(room.location, role="manager"))
    return client


def test_the_spec_panel_makes_the_order_and_the_form_sent_twice_makes_one(as_manager, room):
    panel = as_manager.get(reverse("workshop_spec_panel", args=[room.spec.pk]))
    url = reverse("order_new", args=[room.visit.pk])
    assert url in panel.content.decode()
    for _ in range(2):
        answer = as_manager.post(url, {"due_on": "", "note": "left shelf"})
        assert answer.status_code == 302
    assert BuildOrder.objects.get().note == "left shelf"
    panel = as_manager.get(reverse("workshop_spec_panel", args=[room.visit.pk]))
    assert "Order 2001 A" in panel.content.decode()


def test_an_unsigned_spec_is_refused_with_a_sentence(as_manager, room):
    type(room.spec).objects.update(state="checked")
    answer = as_manager.post(reverse("order_new", args=[room.visit.pk]), {})
    assert answer.status_code == 422
    assert "only a signed spec can be ordered" in answer.content.decode()


def test_a_past_due_day_is_said_beside_the_field_and_stays_typed(as_manager, room):
    url = reverse("order_new", args=[room.visit.pk])
    answer = as_manager.post(url, {"due_on": "2001-01-01", "note": "kept as typed"})
    assert answer.status_code == 422
    assert "This day is past" in answer.content.decode()
    assert "kept as typed" in answer.content.decode()


def test_released_from_its_page(as_manager, room):
    room.ordered()
    as_manager.post(reverse("order_release", args=[2001]))
    assert BuildOrder.objects.get().state == "released"


def test_a_check_over_what_is_out_is_refused_with_the_figure(as_manager, room):
    room.built(loft="56")
    answer = as_manager.post(reverse("order_check", args=[2001]), {"check-result": "passed"})
    assert answer.status_code == 422
    assert "Out by 0.5 degrees" in answer.content.decode()


def test_rework_without_a_cause_is_refused_beside_the_field(as_manager, room):
    room.built()
    answer = as_manager.post(reverse("order_check", args=[2001]), {"check-result": "rework"})
    assert answer.status_code == 422
    assert "Choose the cause" in answer.content.decode()


def test_from_the_check_to_the_players_hands(as_manager, room):
    room.agree_to_mail()
    room.passed()
    OrderClub.objects.update(cure_until=AT.replace(year=2001))  # the pages go by the real clock
    assert as_manager.post(reverse("order_ready", args=[2001])).status_code == 302
    called = {"told-telling_id": str(uuid4()), "told-told_how": "telephone",
              "told-outcome": "reached", "told-said": "comes on Friday"}  # fmt: skip
    for _ in range(2):
        assert as_manager.post(reverse("order_told", args=[2001]), called).status_code == 302
    as_manager.post(reverse("order_hand_over", args=[2001]), {"over-how": "collected"})
    order = BuildOrder.objects.get()
    assert order.state == "handed_over"
    assert [row.how for row in order.tellings.all()] == ["letter", "telephone"]
    assert OutgoingMessage.objects.count() == 2


def test_a_telling_without_its_outcome_is_refused_beside_the_field_and_stays_typed(
    as_manager, room
):
    order_ready(order=room.passed(), by=room.desk, at=CURED)
    url = reverse("order_told", args=[2001])
    typed = {"told-telling_id": str(uuid4()), "told-told_how": "telephone", "told-said": "kept"}
    answer = as_manager.post(url, typed)
    assert answer.status_code == 422
    assert "outcome" in answer.context["told_form"].errors
    assert 'value="kept"' in answer.content.decode()
    wrong = as_manager.post(
        url, typed | {"told-told_how": "in_person", "told-outcome": "no_answer"}
    )
    assert wrong.status_code == 422
    assert wrong.context["told_form"].has_error("outcome", "order.telling_in_person_not_reached")


def test_how_to_tell_is_chosen_with_the_order_and_changed_on_its_page(as_manager, room):
    as_manager.post(reverse("order_new", args=[room.visit.pk]), {"tell_by": "telephone"})
    assert BuildOrder.objects.get().tell_by == "telephone"
    as_manager.post(reverse("order_tell_by", args=[2001]), {"way-tell_by": "text"})
    assert BuildOrder.objects.get().tell_by == "text"
    assert as_manager.get(reverse("order", args=[2001])).context["told"].offered_first == "text"


def test_the_letter_is_sent_by_hand_once_however_often_the_form_comes(as_manager, room):
    room.agree_to_mail()
    room.ordered()
    BuildOrder.objects.update(tell_by="telephone")
    order_ready(order=room.passed(), by=room.desk, at=CURED)
    assert not OutgoingMessage.objects.exists()
    form = as_manager.get(reverse("order", args=[2001])).context["letter_form"]
    sent = {"letter-telling_id": str(form["telling_id"].value())}
    for _ in range(2):
        assert as_manager.post(reverse("order_letter", args=[2001]), sent).status_code == 302
    assert OutgoingMessage.objects.get().kind == "order_ready"


def test_rounds_are_told_on_the_order_and_move_the_groove_check(as_manager, room):
    order = order_ready(order=room.passed(), by=room.desk, at=CURED)
    order_hand_over(order=order, how="collected", by=room.desk, at=CURED)
    BuildOrder.objects.update(handed_over_at=AT.replace(year=2025))
    page, url = reverse("order", args=[2001]), reverse("order_rounds", args=[2001])
    assert "how many rounds a year" in as_manager.get(page).content.decode()
    interview = Interview.objects.create(visit=room.visit, started_at=AT)
    Answer.objects.create(
        interview=interview, sequence=1, question="rounds_a_year", value="10", said_at=AT,
        recorded_by="Mara Quill",
    )  # fmt: skip
    seen = as_manager.get(page)
    assert "A check falls due about" in seen.content.decode()
    form = {"played-report_id": seen.context["rounds_form"]["report_id"].value()}
    wrong = as_manager.post(url, form | {"played-rounds": "-3"})
    assert wrong.status_code == 422
    assert 'value="-3"' in wrong.content.decode()
    tomorrow = form | {"played-rounds": "80", "played-played_until": "2199-05-12"}
    assert "That day is still to come." in as_manager.post(url, tomorrow).content.decode()
    for _ in range(2):
        assert as_manager.post(url, form | {"played-rounds": "80"}).status_code == 302
    text = as_manager.get(page).content.decode()
    assert "80 rounds by" in text
    assert "<b>A check is due</b>" in text
    assert RoundsReport.objects.count() == 1


def test_a_cancelling_without_reason_is_refused(as_manager, room):
    room.ordered()
    answer = as_manager.post(reverse("order_cancel", args=[2001]), {"cancel-why": ""})
    assert answer.status_code == 422
    assert BuildOrder.objects.get().state == "draft"


def test_the_ticket_is_a_pdf(as_manager, room):
    room.ordered()
    answer = as_manager.get(reverse("ticket", args=[2001]))
    assert answer["Content-Type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")
    assert as_manager.get(reverse("ticket", args=[2001]), {"rev": "C"}).status_code == 404


def test_an_order_of_another_location_is_not_found(client, room):
    room.ordered()
    elsewhere = Location.objects.create(name="High Meadow", zone="Europe/Dublin")
    client.force_login(signed_in(elsewhere, role="manager"))
    assert client.get(reverse("order", args=[2001])).status_code == 404
    assert client.post(reverse("order_release", args=[2001])).status_code == 404
    assert client.get(reverse("ticket", args=[2001])).status_code == 404


def test_panels_answer_without_a_frame(as_manager, room):
    room.released()
    for name, args in (
        ("workshop_today_panel", []), ("workshop_reports_panel", []),
        ("workshop_player_panel", [room.player.pk]), ("workshop_spec_panel", [room.visit.pk]),
    ):  # fmt: skip
        answer = as_manager.get(reverse(name, args=args))
        assert answer.status_code == 200
        assert "<html" not in answer.content.decode()
    assert as_manager.get(reverse("workshop_spec_panel", args=[uuid4()])).status_code == 404


def test_late_orders_stand_on_the_days_panel(as_manager, room):
    room.released()
    BuildOrder.objects.update(due_on=AT.date().replace(year=2001))
    text = as_manager.get(reverse("workshop_today_panel")).content.decode()
    assert "Late" in text
    assert "2001 A" in text


@pytest.mark.parametrize("day", ["9999-12-31", "0001-01-01"])
def test_a_day_at_the_end_of_the_calendar_is_refused_beside_its_field(as_manager, room, day):
    order = room.released()
    waits = {"wait-wait_id": uuid4(), "wait-missing": "a head", "wait-expected_on": day}
    answer = as_manager.post(reverse("order_wait", args=[2001]), waits)
    assert answer.status_code == 422
    assert answer.context["wait_form"].has_error("expected_on", "day.out_of_range")
    BuildOrder.objects.update(state="handed_over", handed_over_at=AT.replace(year=2025))
    told = {"played-report_id": uuid4(), "played-rounds": "3", "played-played_until": day}
    answer = as_manager.post(reverse("order_rounds", args=[2001]), told)
    assert answer.status_code == 422
    assert answer.context["rounds_form"].has_error("played_until", "day.out_of_range")
    assert not order.waits.exists()


def test_an_order_waits_and_the_day_shows_for_what_until_it_is_here(as_manager, room):
    room.released()
    page = as_manager.get(reverse("order", args=[2001]))
    form = {"wait-wait_id": page.context["wait_form"]["wait_id"].value()}
    url = reverse("order_wait", args=[2001])
    assert as_manager.post(url, form | {"wait-missing": ""}).status_code == 422
    form |= {"wait-missing": "head, Sedge 56", "wait-expected_on": "2199-05-12"}
    for _ in range(2):
        assert as_manager.post(url, form).status_code == 302
    text = as_manager.get(reverse("workshop_today_panel")).content.decode()
    assert "Waiting for head, Sedge 56, expected" in text
    assert "head, Sedge 56" in as_manager.get(reverse("bench")).content.decode()

    page = as_manager.get(reverse("order", args=[2001]))
    here = {"arrived-wait_id": page.context["arrived_form"]["wait_id"].value()}
    for _ in range(2):
        assert as_manager.post(reverse("order_arrived", args=[2001]), here).status_code == 302
    # The first form again, from a page that was left open: it begins no second wait.
    as_manager.post(url, form)
    assert BuildOrder.objects.get().state == "released"
    assert "Waiting for" not in as_manager.get(reverse("workshop_today_panel")).content.decode()


def test_nothing_arrives_at_an_order_that_waits_for_nothing(as_manager, room):
    room.released()
    answer = as_manager.post(reverse("order_arrived", args=[2001]), {"arrived-wait_id": uuid4()})
    assert answer.status_code == 422
    assert "waits for no part" in answer.content.decode()


def test_who_built_reads_what_the_setting_says_before_signing(client, room):
    order = room.released()
    builder = signed_in(room.location, username="odo", role="builder")
    room.builder = replace(room.builder, staff_id=builder.pk)
    room.glued(room.club(order))
    room.measured(room.club(order))
    client.force_login(builder)
    text = client.get(reverse("order", args=[2001])).content.decode()
    assert "your check is written down as the same person's" in text.replace("&#x27;", "'")
    assert "No other builder works here." in text
    signed_in(room.location, username="ines", role="builder")
    text = client.get(reverse("order", args=[2001])).content.decode()
    assert "another person passes it" in text
    assert "2 builders work here." in " ".join(text.split())
    settings_change(typed={"check.same_person": "refused"}, by=room.manager, at=AT)
    text = client.get(reverse("order", args=[2001])).content.decode()
    assert "another person passes it" in text
    answer = client.post(reverse("order_check", args=[2001]), {"check-result": "passed"})
    assert answer.status_code == 422
    assert "another person checks" in answer.content.decode()


@pytest.mark.parametrize("q", ["2001", "ORDER 2001 A", "https://shop.invalid/orders/2001?rev=A"])
def test_the_search_knows_a_ticket_by_its_number_or_its_code(as_manager, room, q):
    room.ordered()
    text = as_manager.get(reverse("workshop_search_panel"), {"q": q}).content.decode()
    assert "2001 A" in text
    assert (
        "2001 A"
        not in as_manager.get(reverse("workshop_search_panel"), {"q": "9999"}).content.decode()
    )


@pytest.fixture
def a_set(settings):
    """1 Sand of 55 came out 54.5 and 2 Gap of 49 came out 49.5: a step of 5 where 6 was planned."""
    settings.DEMO = True  # no second factor
    shop()
    room = Workshop(clubs=2)
    order = room.released()
    for slot, received in ((2, "50"), (1, "56")):
        room.glued(room.club(order, slot), loft=received)
    for slot, loft in ((2, "49.5"), (1, "54.5")):
        room.measured(room.club(order, slot), loft=loft)
    return room, order.number


def test_a_step_that_is_off_is_accepted_on_the_order_s_page_beside_its_fields(client, a_set):
    room, number = a_set
    client.force_login(signed_in(room.location, username="fay", role="fitter"))
    page, url = reverse("order", args=[number]), reverse("order_step_accept", args=[number])
    text = client.get(page).content.decode()
    assert "Loft from 2 Gap to 1 Sand: the step is 5°, planned 6°." in text
    assert "came out at 5° instead of 6°; Mara Quill accepted it." in text
    which = {"measure": "loft", "above": "2", "below": "1", "player_words": "A small gap."}
    answer = client.post(url, {**which, "reason": ""})
    assert answer.status_code == 422
    refused = answer.content.decode()
    assert 'id="id_step_loft_2_1_reason_error"' in refused
    assert "A small gap.</textarea>" in refused
    assert client.post(url, {**which, "reason": "the last heads"}).status_code == 302
    assert client.post(url, {**which, "reason": "again"}).status_code == 302
    assert (SetConcession.objects.get().reason, SetConcession.objects.get().player_words) == (
        "the last heads",
        "A small gap.",
    )
    assert "<q>A small gap.</q>" in client.get(page).content.decode()


@pytest.mark.parametrize(
    "which",
    [{}, {"measure": "lie"}, {"measure": "loft", "above": "two", "below": "1"},
     {"measure": "loft", "above": "1", "below": "9"}],
)  # fmt: skip
def test_a_step_that_is_none_is_refused_and_written_nowhere(client, a_set, which):
    room, number = a_set
    client.force_login(signed_in(room.location, username="fay", role="fitter"))
    data = {"reason": "why", "player_words": "words"} | which
    answer = client.post(reverse("order_step_accept", args=[number]), data)
    assert answer.status_code == 422
    assert not SetConcession.objects.exists()


def test_the_check_of_a_set_that_is_off_is_refused_and_the_club_s_page_says_so(client, a_set):
    room, number = a_set
    client.force_login(signed_in(room.location, username="ines", role="builder"))
    assert (
        "the step is 5°, planned 6°"
        in client.get(reverse("bench_club", args=[number, 1])).content.decode()
    )
    answer = client.post(reverse("order_check", args=[number]), {"check-result": "passed"})
    assert answer.status_code == 422
    assert not Check.objects.exists()


def test_ready_after_its_day_is_asked_beside_the_choice_and_the_desk_finds_whom_to_call(
    as_manager, room
):
    room.passed()
    BuildOrder.objects.update(due_on=AT.date().replace(year=2025))
    page, ready = reverse("order", args=[2001]), reverse("order_ready", args=[2001])
    OrderClub.objects.update(cure_until=AT.replace(year=2001))
    assert 'name="ready-day_moved"' in as_manager.get(page).text
    asked = as_manager.post(ready, {})
    assert asked.status_code == 422
    assert asked.context["ready_form"].has_error("day_moved", "orders.day_moved_unasked")
    assert as_manager.post(ready, {"ready-day_moved": "yes"}).status_code == 302
    panel = reverse("workshop_today_panel")
    assert [row.number for row in as_manager.get(panel).context["to_call"]] == [2001]
    assert reverse("order_called", args=[2001]) in as_manager.get(page).text
    for _ in range(2):
        assert as_manager.post(reverse("order_called", args=[2001])).status_code == 302
    assert as_manager.get(panel).context["to_call"] == []


@pytest.mark.parametrize("day", ["9999-12-31", "0001-01-01", "soon", "2020-01-01"])
def test_a_promised_day_that_is_none_is_refused_beside_it_and_the_reason_stays(
    as_manager, room, day
):
    order = room.released()
    answer = as_manager.post(
        reverse("order_due", args=[2001]), {"due-due_on": day, "due-why": "no grips"}
    )
    assert answer.status_code == 422
    assert answer.context["due_form"].has_error("due_on")
    assert 'value="no grips"' in answer.text
    before = order.due_on
    order.refresh_from_db()
    assert (order.due_on, order.wants_call) == (before, False)


@pytest.mark.parametrize(("role", "is_linked"), [("desk", True), ("builder", False)])
def test_a_letter_is_linked_only_for_those_who_may_read_it(client, room, role, is_linked):
    room.agree_to_mail()
    order_ready(order=room.passed(), by=room.desk, at=CURED)
    client.force_login(signed_in(room.location, "someone", role))
    url = reverse("message", args=[OutgoingMessage.objects.get().pk])
    assert (url in client.get(reverse("order", args=[2001])).content.decode()) is is_linked
