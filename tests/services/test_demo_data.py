"""What the demo shop holds: enough for every fitting, and one that is over."""

from datetime import UTC, date, datetime
from decimal import Decimal

import pytest

from fitshop.models import AuditEntry, OutgoingMessage
from orders.models import BuildOrder, Gauge, OrderClub
from sessions.maths.bending import MAKING_LIMITS
from sessions.models import (
    Adapter,
    Answer,
    Consent,
    Decision,
    Grip,
    Head,
    MeasuringDevice,
    Player,
    Shaft,
    Shot,
    ShotExclusion,
    TrialHead,
    TrialShaft,
    Visit,
)
from sessions.selectors.catalogue import head_sole
from tests.demo_shop import demo_loaded

NOON = datetime(2027, 5, 7, 11, 10, tzinfo=UTC)


@pytest.fixture(scope="module")
def demo(django_db_setup, django_db_blocker):
    with demo_loaded(django_db_blocker, NOON):
        yield


pytestmark = [pytest.mark.usefixtures("demo"), pytest.mark.django_db]


def test_the_catalogue_is_what_a_fitting_needs():
    heads = Head.objects.all()
    assert heads.count() >= 28
    assert {head.hand for head in heads} == {"right", "left"}
    lofts = [head.stamped_loft_deg for head in heads]
    assert (min(lofts), max(lofts)) == (Decimal(44), Decimal(62))
    assert len({head_sole(head) for head in heads}) == 4
    assert all(Decimal(290) <= head.mass_g <= Decimal(310) for head in heads)
    assert all(Decimal(4) <= head.bounce_deg <= Decimal(14) for head in heads)
    assert {"hollow", "17-4 stainless"} <= {head.making for head in heads}
    assert {head.making for head in heads} <= set(MAKING_LIMITS)
    assert heads.filter(limit_weak_deg=0, limit_strong_deg=0, stamped_loft_deg=57).exists()
    assert heads.filter(is_matched_set=True).exists()
    assert heads.filter(availability="discontinued").count() == 1
    assert Shaft.objects.count() == 10
    assert Shaft.objects.filter(availability="discontinued").count() == 1
    assert Shaft.objects.filter(tip_kind="parallel").exists()
    assert Grip.objects.count() == 6
    assert {grip.core_mm for grip in Grip.objects.all()} == {
        Decimal("14.732"), Decimal("15.24"), Decimal("15.748"),
    }  # fmt: skip


def test_a_heavier_loft_is_a_heavier_head_within_one_model():
    for maker, model in {(head.maker, head.model) for head in Head.objects.all()}:
        rows = Head.objects.filter(maker=maker, model=model, hand="right")
        masses = [row.mass_g for row in rows.order_by("stamped_loft_deg", "bounce_deg")]
        lofts = [row.stamped_loft_deg for row in rows.order_by("stamped_loft_deg", "bounce_deg")]
        for (loft, mass), (next_loft, next_mass) in zip(
            zip(lofts, masses, strict=True), zip(lofts[1:], masses[1:], strict=True), strict=False
        ):
            assert next_loft == loft or next_mass > mass, (maker, model, next_loft)


def test_every_bore_has_a_shaft_that_fits_it_and_can_be_bought():
    tips = {shaft.tip_mm for shaft in Shaft.objects.filter(availability="available")}
    assert {head.bore_mm for head in Head.objects.all()} <= tips


def test_trial_heads_are_measured_and_one_is_withdrawn():
    assert TrialHead.objects.filter(head__hand="right").count() >= 14
    assert TrialHead.objects.filter(measured_loft_deg__isnull=True).count() == 0
    withdrawn = TrialHead.objects.get(withdrawn_at__isnull=False)
    assert withdrawn.withdrawn_why
    off = [
        abs(row.measured_loft_deg - row.head.stamped_loft_deg) for row in TrialHead.objects.all()
    ]
    assert max(off) <= Decimal("0.5")
    assert any(off)
    counted = (TrialShaft.objects.count(), Adapter.objects.count(), MeasuringDevice.objects.count())
    assert counted == (4, 3, 2)
    assert {gauge.measure for gauge in Gauge.objects.all()} >= {
        "loft", "lie", "length", "swing_weight", "head_mass", "total_mass",
    }  # fmt: skip


def test_twelve_players_of_several_kinds_agreed_to_what_they_agreed_to():
    players = Player.objects.all()
    assert players.count() == 12
    assert {player.kind for player in players} == {"man", "woman", "junior", "senior"}
    assert players.filter(hand="left").count() == 2
    junior = players.get(kind="junior")
    assert junior.guardian_name
    assert {consent.given_by for consent in junior.consents.all()} == {"guardian"}
    assert Consent.objects.filter(about="record").count() == 11
    assert not Consent.objects.get_queryset().filter(player__given_name="Yusra").exists()


def test_everything_was_entered_by_the_demo_and_left_a_trace():
    """But for the fitting's decisions and spec: the player reads who signed them."""
    signed = AuditEntry.objects.filter(actor_name="Tadhg Sweetman")
    assert {entry.action.split(".")[1] for entry in signed} == {"decision", "spec", "warning"}
    others = AuditEntry.objects.exclude(actor_name="Tadhg Sweetman")
    assert set(others.values_list("actor_name", flat=True)) == {"demo shop"}
    entered = AuditEntry.objects.filter(action="fitting.head.entered").count()
    assert entered == Head.objects.count()


def test_one_fitting_is_over_with_everything_from_interview_to_released_order():
    visit = Visit.objects.get(state="closed")
    assert (str(visit.player), visit.starts_at < NOON) == ("Gwilym Vaughan-Tate", True)
    assert visit.starts_at.date() == date(2027, 5, 2)
    assert Answer.objects.filter(interview__visit=visit).count() == 28
    assert Shot.objects.filter(block__trial__visit=visit).count() == 51
    assert ShotExclusion.objects.get().reason == "misread"
    assert [decision.outcome for decision in visit.decisions.order_by("slot")] == [
        "build", "build", "keep",
    ]  # fmt: skip
    spec = visit.specs.get()
    assert spec.state == "signed"
    clubs = list(spec.clubs.order_by("slot"))
    assert [club.source for club in clubs] == ["new", "new", "own_kept"]
    # The second is a head stamped 54 that is to be bent half a degree weak.
    assert (clubs[1].stamped_loft_deg, clubs[1].target_loft_deg) == (Decimal(54), Decimal("54.5"))
    order = BuildOrder.objects.get()
    assert (order.state, order.visit_id, order.due_on > NOON.date()) == ("released", visit.pk, True)
    assert OrderClub.objects.filter(revision__order=order).count() == 2
    assert OutgoingMessage.objects.get().kind == "summary"


def test_keep_and_fix_of_that_fitting_are_answered_as_its_shots_show():
    answered = [
        (decision.slot, each["what"], each["answer"])
        for decision in Decision.objects.filter(visit__state="closed").order_by("slot")
        for each in decision.keep_fix
        if each["answer"] == each["shown"]
    ]
    assert len(answered) == 12  # four wishes in three slots, and nobody said otherwise
    assert [one for one in answered if one[2] != "not_shown"] == [(1, "full", "fixed")]


def test_trial_equipment_counted_the_balls_of_that_fitting():
    # 377, 455 and 602 stand in the table; 9 balls were hit with the first and 6 with the second.
    marks = ("Oak 2", "Oak 4", "Oak 7")
    hit = {mark: TrialHead.objects.get(mark=mark).shot_count for mark in marks}
    assert hit == {"Oak 2": 464, "Oak 4": 608, "Oak 7": 377}


def test_each_thing_done_in_that_fitting_has_its_own_moment_in_order():
    visit = Visit.objects.get(state="closed")
    shots = Shot.objects.filter(block__trial__visit=visit).order_by("sequence")
    moments = [shot.recorded_at for shot in shots]
    assert moments == sorted(set(moments))
    assert visit.opened_at < moments[0] < moments[-1] < visit.closed_at
