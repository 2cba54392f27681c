"""The cure: by its resin, at its coldest, put right while it lasts, never under the sheet."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from functools import partial

import pytest

from fitshop.models import AuditEntry
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from orders.models import BenchStep, OrderClub, Resin
from orders.selectors.cures import cure_of, epoxy_step, glued_with
from orders.selectors.ticket import ticket_values
from orders.services.bench import reading_strike_out
from orders.services.checks import check_sign
from orders.services.cure import cure_correct, cure_read
from orders.services.hand_over import order_hand_over, order_ready
from orders.services.resins import resin_change, resin_enter
from tests.order_room import AT, CURED, MIXED, Workshop
from tests.spec_room import shop

pytestmark = pytest.mark.django_db

D = Decimal
HOUR = timedelta(hours=1)


@pytest.fixture
def room():
    return Workshop()


@pytest.fixture
def club(room):
    """Glued at 21 degrees with the slow resin: 24 hours."""
    row = room.club(room.released())
    room.glued(row)
    row.refresh_from_db()
    return row


def read(room, club, celsius, at):
    cure_read(club=club, celsius=D(celsius), by=room.builder, at=at)
    club.refresh_from_db()
    return club.cure_until


def correct(room, club, *, at=MIXED + HOUR, temperature="21", why="mistyped", **values):
    typed = room.tin(hours=None) | values
    cure_correct(
        club=club, values=typed, temperatures={0: D(temperature)}, why=why, by=room.builder, at=at
    )
    club.refresh_from_db()
    return club.cure_until


def code_of(call):
    with pytest.raises((FieldsRefused, StateRefused)) as refusal:
        call()
    return refusal.value.code, getattr(refusal.value, "errors", {}).keys()


def test_the_hours_are_the_resins(room):
    """Common practice: a quick epoxy of 6 hours is twice that five degrees colder."""
    quick = room.resin("Harrow Quick", speed="quick", hours=D(6), least_hours=D(4), least_c=D(15))
    row = room.club(room.released())
    room.glued(row, temperature="15", resin=quick)
    row.refresh_from_db()
    assert row.cure_until == MIXED + 12 * HOUR


def test_a_colder_reading_during_the_cure_lengthens_it_and_a_warmer_one_does_nothing(room, club):
    assert club.cure_until == MIXED + 24 * HOUR
    assert read(room, club, "15", MIXED + 10 * HOUR) == MIXED + 48 * HOUR
    assert read(room, club, "25", MIXED + 20 * HOUR) == MIXED + 48 * HOUR
    assert cure_of(epoxy_step(club)).end.coldest_c == 15


def test_below_the_resins_least_temperature_it_stands_until_it_is_warm_again(room, club):
    read(room, club, "8", MIXED + 10 * HOUR)
    assert cure_of(epoxy_step(club)).end.is_too_cold
    much_later = MIXED + 300 * HOUR
    assert code_of(lambda: room.step(club, "cured", at=much_later))[0] == "cure.too_cold"
    # Warm again at 310 h: 24 h doubled twice at 10 degrees is 96 h from then.
    assert read(room, club, "21", MIXED + 310 * HOUR) == MIXED + 406 * HOUR
    assert code_of(lambda: room.step(club, "cured", at=much_later + HOUR))[0] == "cure.not_over"


@pytest.mark.parametrize("hours", ["0.5", "5.99", "-1", "0"])
def test_hours_below_the_resins_sheet_are_refused_beside_the_field(room, hours):
    row = room.club(room.released())
    assert code_of(lambda: room.glued(row, hours=D(hours))) == ("cure.below_sheet", {"hours"})
    row.refresh_from_db()
    assert (row.cure_until, row.state) == (None, "to_build")


def test_the_sheets_minimum_holds_where_the_resin_is_as_quick_as_its_sheet(room):
    """6 hours typed at 25 degrees: the sheet's 6, though nothing is faster when it is warmer."""
    row = room.club(room.released())
    room.glued(row, temperature="25", hours=D(6))
    row.refresh_from_db()
    assert row.cure_until == MIXED + 6 * HOUR


@pytest.mark.parametrize(
    ("left_out", "code", "field"),
    [
        ({"resin": None}, "cure.resin", "resin"),
        ({"batch": " "}, "cure.no_batch", "batch"),
        ({"expires_on": None}, "cure.no_expiry", "expires_on"),
        # Mixed on 7 May 2027, on its last day it may still be used.
        ({"expires_on": date(2027, 5, 6)}, "cure.expired", "expires_on"),
    ],
)
def test_what_is_missing_or_expired_is_refused_beside_its_field(room, left_out, code, field):
    row = room.club(room.released())
    assert code_of(lambda: room.glued(row, **left_out)) == (code, {field})
    room.step(row, "epoxy", temperature_c=D(21), expires_on=date(2027, 5, 7))
    assert room.club(row.revision.order).state == "curing"


def test_a_mistyped_temperature_is_put_right_while_the_cure_lasts_and_the_old_one_kept(room):
    row = room.club(room.released())
    room.glued(row, temperature="12")
    row.refresh_from_db()
    # 24 h doubled 8 / 5 times: 72.75 h, three days.
    assert timedelta(hours=72) < row.cure_until - MIXED < timedelta(hours=73)
    assert correct(room, row, temperature="21", why="typed 12 for 21") == MIXED + 24 * HOUR
    step = epoxy_step(row)
    [note] = step.values["corrections"]
    assert (note["before"], note["why"]) == ({"temperature_c": "12"}, "typed 12 for 21")
    entry = AuditEntry.objects.get(action="orders.cure.corrected")
    assert (entry.before["temperature_c"], entry.after["temperature_c"]) == ("12", "21")


def test_a_mistyped_resin_time_batch_or_later_temperature_is_put_right(room, club):
    quick = room.resin("Harrow Quick", speed="quick", hours=D(6), least_hours=D(4), least_c=D(15))
    read(room, club, "18", MIXED + HOUR)
    assert correct(room, club, resin=quick, batch="Q 9") < MIXED + 9 * HOUR
    assert correct(room, club, hours=D(12)) == MIXED + timedelta(minutes=951)  # 12 h * 2 ** 0.4
    cure_correct(
        club=club, values=room.tin(hours=D(12)), temperatures={0: D(21), 1: D(20)}, why="18 was 20",
        by=room.builder, at=MIXED + 2 * HOUR,
    )  # fmt: skip
    club.refresh_from_db()
    assert club.cure_until == MIXED + 12 * HOUR
    assert [len(c["before"]) for c in epoxy_step(club).values["corrections"]] == [2, 3, 1]


def test_a_correction_never_goes_below_the_sheet_or_the_least_temperature(room, club):
    was = club.cure_until
    low = [
        (lambda: correct(room, club, hours=D("0.5")), ("cure.below_sheet", {"hours"})),
        (lambda: correct(room, club, temperature="9"), ("cure.too_cold", {"temperature_c"})),
        (lambda: correct(room, club, why=" "), ("cure.no_reason", {"why"})),
        (
            lambda: correct(room, club, expires_on=date(2027, 5, 6)),
            ("cure.expired", {"expires_on"}),
        ),
    ]
    for call, refused in low:
        assert code_of(call) == refused
    club.refresh_from_db()
    assert club.cure_until == was
    assert "corrections" not in epoxy_step(club).values


def test_only_the_bench_puts_a_cure_right_and_only_while_it_lasts(room, club):
    with pytest.raises(Refused):
        cure_read(club=club, celsius=D(5), by=room.desk, at=MIXED + HOUR)
    assert code_of(lambda: read(room, club, "5", CURED))[0] == "cure.over"
    room.step(club, "cured", at=CURED)
    assert code_of(lambda: correct(room, club, at=CURED))[0] == "cure.over"


def test_the_same_figures_again_are_no_correction(room, club):
    correct(room, club)
    assert "corrections" not in epoxy_step(club).values
    assert not AuditEntry.objects.filter(action="orders.cure.corrected").exists()


def test_a_resin_that_is_changed_later_moves_no_cure_that_goes_on(room, club):
    resin = room.resin()
    values = {name: getattr(resin, name) for name in
              ("name", "speed", "full_speed_c", "double_at_c", "least_c")}  # fmt: skip
    resin_change(
        resin=resin, values=values | {"hours": D(1), "least_hours": D(1)}, in_use=False,
        by=room.builder, at=AT,
    )  # fmt: skip
    assert read(room, club, "20", MIXED + HOUR) == MIXED + 24 * HOUR


def test_nobody_readies_or_hands_over_before_the_sheets_minimum(room):
    """Whatever state the order was brought to, the clubs' own lock is asked."""
    order = room.passed()
    OrderClub.objects.update(cure_until=CURED + HOUR)
    for by in (room.builder, room.desk, room.manager):
        early = partial(order_ready, order=order, by=by, at=CURED)
        assert code_of(early)[0] == "cure.not_over"
    order_ready(order=order, by=room.manager, at=CURED + HOUR)
    OrderClub.objects.update(cure_until=CURED + 2 * HOUR)
    for by in (room.desk, room.fitter, room.manager):
        early = partial(order_hand_over, order=order, how="collected", by=by, at=CURED + HOUR)
        assert code_of(early)[0] == "cure.not_over"


def test_as_received_is_read_no_more_once_the_head_is_glued(room, club):
    assert code_of(lambda: room.read(club, "as_received", "loft", "57"))[0] == "bench.glued"
    [loft] = club.readings.filter(measure="loft")
    strike = partial(reading_strike_out, reading=loft, why="x", by=room.builder, at=CURED)
    assert code_of(strike)[0] == "bench.glued_last_reading"


def test_every_club_that_was_glued_with_a_batch_is_listed(room, club):
    assert [each.club.pk for each in glued_with(room.desk, " h 117 ")] == [club.pk]
    assert glued_with(room.desk, "H 11") == []
    assert glued_with(room.desk, "") == []
    assert glued_with(replace(room.desk, location_ids=frozenset()), "H 117") == []


def test_the_ticket_says_resin_coldest_temperature_and_until(room, club):
    shop()
    read(room, club, "15", MIXED + HOUR)
    revision = club.revision
    [words] = ticket_values(revision, printed_at=MIXED)["clubs"]
    assert words["epoxy"] == {
        "resin": "Harrow Slow", "batch": "H 117", "mixed": "Fri 12:30", "temperature": "15",
        "until": "Sun 9 May 12:30", "is_too_cold": False,
    }  # fmt: skip


def test_a_gluing_from_before_resins_were_kept_is_still_read_and_put_right(room, club):
    """What such a row holds: a temperature, perhaps hours, and when the cure ends."""
    until = club.cure_until.isoformat()
    BenchStep.objects.filter(club=club, step="epoxy").update(
        values={"temperature_c": "21", "cure_until": until}
    )
    cure = cure_of(epoxy_step(room.club(club.revision.order)))
    assert (cure.resin, cure.batch, cure.end.until) == ("", "", club.cure_until)
    assert read(room, club, "15", MIXED + HOUR) == MIXED + 48 * HOUR
    correct(room, club)
    assert cure_of(epoxy_step(club)).resin == "Harrow Slow"


def test_a_rework_that_glues_anew_keeps_the_first_batch_beside_the_second(room):
    order = room.built()
    check_sign(order=order, result="rework", cause="epoxy", by=room.second, at=CURED)
    room.step(room.club(order), "epoxy", at=CURED + HOUR, temperature_c=D(21), batch="H 118")
    step = epoxy_step(room.club(order))
    assert (step.values["batch"], step.values["earlier"][0]["batch"]) == ("H 118", "H 117")
    assert [len(glued_with(room.desk, batch)) for batch in ("H 118", "H 117")] == [1, 0]


SHEET = {
    "name": "Tarn", "speed": "quick", "hours": D(6), "least_hours": D(4), "full_speed_c": D(20),
    "double_at_c": D(15), "least_c": D(15),
}  # fmt: skip


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"name": " "}, "name"),
        ({"name": "harrow slow"}, "name"),
        ({"speed": "soon"}, "speed"),
        ({"hours": D("3.9")}, "hours"),
        ({"least_hours": D(0)}, "least_hours"),
        ({"double_at_c": D(21)}, "double_at_c"),
        ({"least_c": D("15.1")}, "least_c"),
    ],
)
def test_a_sheet_that_contradicts_itself_is_refused_beside_its_field(room, change, field):
    room.resin()
    enter = partial(resin_enter, values=SHEET | change, by=room.builder, at=AT)
    assert code_of(enter) == ("resins.figures", {field})
    assert Resin.objects.count() == 1


def test_the_bench_and_the_manager_enter_resins_and_nobody_else(room):
    for by in (room.desk, room.fitter):
        with pytest.raises(Refused):
            resin_enter(values=SHEET, by=by, at=AT)
    resin_enter(values=SHEET, by=room.manager, at=AT)
