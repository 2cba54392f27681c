"""The values that the spec's rules take, read from rows; each new one from where it is kept."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from sessions.maths.block_context import BlockContext
from sessions.maths.dispersion import ShotFigures, block_figures
from sessions.models import Answer, BagEntry, Head, Interview, OtherClubs, SpecClub
from sessions.rules.club_evidence import (
    Baseline,
    ClubEvidence,
    Margins,
    Situation,
    SituationFigures,
)
from sessions.rules.evidence import VisitEvidence
from sessions.rules.facts import Attack, Hands, Often, ShaftMaterial
from sessions.rules.spec_set import clubs_in_the_bag
from sessions.selectors.spec_facts import baseline_figures, leaving, spec_facts
from sessions.selectors.spec_page import spec_page
from sessions.services.specs import spec_check, spec_club_change, spec_draft
from tests.spec_room import AT, Room

pytestmark = pytest.mark.django_db

ANSWERS = {
    "attack_deg": "-6.5",
    "attack": "shallow",
    "ground_summer": "firm",
    "ground_winter": "not_played",
    "sand": ["fluffy", "soft"],
    "face_opened": "often",
    "hands_in_sand": "low",
    "chips_on": "on_the_toe",
    "hands": "a_little",
    "groove_rule": "yes",
    "iron_lie_deg": "-1",
    "iron_shaft_g": 120,
    "iron_shaft_material": "steel",
    "irons_changing": "perhaps",
    "wedge_age": 18,
}


@pytest.fixture
def room():
    return Room()


def answer(room: Room, **answers: object) -> None:
    interview, _ = Interview.objects.get_or_create(visit=room.visit, started_at=AT)
    for question, value in answers.items():
        Answer.objects.create(
            interview=interview, sequence=room.next(), question=question, value=value,
            said_at=AT, recorded_by="Mara Quill",
        )  # fmt: skip


def drafted(room: Room):
    return spec_draft(visit=room.visit, by=room.fitter, at=AT)


def test_what_was_said_is_what_the_rules_hear(room):
    answer(room, **ANSWERS)
    player = spec_facts(drafted(room)).player
    assert (player.attack_deg, player.attack_seen) == (Decimal("-6.5"), Attack.SHALLOW)
    assert (player.ground, player.sand) == ({"firm"}, {"fluffy", "soft"})
    assert (player.face_opened, player.hands_in_sand) == (Often.OFTEN, Hands.LOW)
    assert (player.chips_on_the_toe, player.hands_hurt, player.groove_events) == (True, True, "yes")
    assert (player.iron_lie_deg, player.iron_shaft_g) == (-1, 120)
    assert (player.iron_shaft_material, player.irons_changing) == (ShaftMaterial.STEEL, True)


def test_what_nobody_said_is_not_made_up(room):
    answer(room, divot="deep", sand=None, face_opened="odd")
    player = spec_facts(drafted(room)).player
    assert player.attack_seen is Attack.STEEP
    assert (player.ground, player.sand, player.face_opened) == (frozenset(), frozenset(), None)
    assert (player.iron_lie_deg, player.iron_shaft_g, player.groove_events) == (None, None, "")


def test_a_new_club_brings_its_sole_its_parts_and_how_it_was_measured(room):
    room.head.trial_heads.update(checked_on=date(2027, 5, 1))
    club = spec_facts(drafted(room)).clubs[1]
    assert (club.sole.width_mm, club.sole.heel, club.sole.trailing) == (21, 2, 0)
    assert (club.shaft.mass_g, club.shaft.butt_mm, club.grip.core_mm) == (
        125, Decimal("15.24"), Decimal("15.24"),
    )  # fmt: skip
    # The trial of 7 May, six days after the check; its loft was read from the stamp.
    assert (club.evidence.days_since_check, club.evidence.is_loft_measured) == (6, False)
    assert club.evidence.figures == {"unanswered"}
    # The demo's shaft has no balance point: no swing weight is foretold.
    assert club.dry is None


def test_with_every_figure_of_the_parts_a_swing_weight_is_foretold(room):
    room.head.__class__.objects.update(bore_to_ground_mm=Decimal("26.5"))
    room.shaft.__class__.objects.update(balance_mm=Decimal(460))
    dry = spec_facts(drafted(room)).clubs[1].dry
    assert (dry.head_g, dry.shaft_g, dry.length_mm) == (305, 125, Decimal("895.35"))


def test_parts_that_are_gone_or_to_be_ordered_are_named(room):
    room.head.__class__.objects.update(availability="discontinued")
    room.shaft.__class__.objects.update(availability="to_order")
    club = spec_facts(drafted(room)).clubs[1]
    assert (club.discontinued, club.to_order) == (("head",), ("shaft",))


def test_an_own_club_brings_its_bounce_its_crack_and_its_age(room):
    answer(room, wedge_age=18)
    entry = BagEntry.objects.get(club=room.fifty)
    BagEntry.objects.filter(pk=entry.pk).update(bounce_deg=Decimal("7.5"), has_crack=True)
    spec = drafted(room)
    assert spec.clubs.get(slot=1).as_received_bounce_deg == Decimal("7.5")
    club = spec_facts(spec).clubs[0]
    assert (club.has_crack, club.made_year, club.own_key) == (True, 2009, str(room.fifty.pk))
    found = {f.id for f in spec_check(spec=spec, by=room.fitter, at=AT)}
    assert "SPEC-E080" in found
    lines = {line.label: line for line in spec_page(spec, length_unit="in").clubs[0].lines}
    assert lines["Bounce"].words == "7.5° (stamped 8)"
    assert [shown.finding.id for shown in lines["Head"].findings] == ["SPEC-E080"]


def test_the_age_on_record_counts_before_the_one_that_was_said(room):
    answer(room, wedge_age=18)
    room.fifty.in_use_since = date(2021, 4, 1)
    room.fifty.save()
    assert spec_facts(drafted(room)).clubs[0].made_year == 2021


def test_a_club_that_leaves_and_stays_is_seen(room):
    room.visit.decisions.filter(slot=2).update(leaves_bag=room.fifty)
    facts = spec_facts(drafted(room))
    assert [club.is_leaving for club in facts.clubs] == [True, False]


@pytest.mark.parametrize(
    ("hybrids", "left"), [(3, ("hybrids", "another of the hybrids")), (1, ("hybrids",))]
)
def test_two_slots_that_each_take_one_of_a_kind_take_two_where_there_are_two(room, hybrids, left):
    """Sixteen clubs, two of them hybrids that are hardly ever hit: each slot names one."""
    OtherClubs.objects.create(visit=room.visit, kind="hybrid", count=hybrids, unused=hybrids - 1)
    room.visit.decisions.update(leaves_bag=None, leaves_bag_words="hybrids")
    facts = spec_facts(drafted(room))
    assert facts.leaving == left
    assert leaving(room.visit) == left
    before = replace(facts, leaving=())
    assert clubs_in_the_bag(before) - clubs_in_the_bag(facts) == len(left)


def test_an_own_club_named_twice_leaves_once(room):
    room.visit.decisions.update(leaves_bag=room.old)
    assert spec_facts(drafted(room)).leaving == (room.old.label,)


def test_the_pitching_wedge_and_what_is_hardly_hit_are_read_from_the_bag(room):
    BagEntry.objects.filter(club=room.pitching).update(
        length_mm=Decimal("908.05"), swing_weight_points=Decimal(2)
    )
    OtherClubs.objects.filter(kind="long_iron").update(unused=1)
    facts = spec_facts(drafted(room))
    assert (facts.baseline_length_mm, facts.baseline_swing_weight_points) == (
        Decimal("908.05"), 2,
    )  # fmt: skip
    assert facts.unused == ("1 of the irons above the 9",)
    assert facts.line is not None


def test_what_the_pitching_wedge_s_carries_are_is_read_from_its_own_balls(room):
    shots = (ShotFigures(carry_m=100.0), ShotFigures(carry_m=102.0))
    figures = block_figures(shots)
    flown = SituationFigures(
        situation=Situation("full", "Full", "fairway", "fairway", None),
        context=BlockContext(figures="normalised by the device"), figures=figures, shots=shots,
        carries_m=(100.0, 102.0), sides_m=(), turf={},
    )  # fmt: skip
    pitching = ClubEvidence("pw", (), "your PW", True, club_id=room.pitching.pk,
                            situations=(flown,))  # fmt: skip
    fifty = ClubEvidence("50", (), "your 50", True, club_id=room.fifty.pk, situations=(
        replace(flown, context=BlockContext(figures="as flown")),
    ))  # fmt: skip
    baseline = Baseline(room.pitching.pk, "PW", Decimal(46), True, 101.0, figures.carry)
    margins = Margins(2.7, 2.7, 5, 12)
    evidence = VisitEvidence((pitching, fifty), margins, baseline=baseline)
    assert baseline_figures(evidence) == {"normalised"}
    # A carry that was only said was measured by nobody.
    assert not baseline_figures(replace(evidence, baseline=replace(baseline, carry=None)))


def test_the_heads_that_can_be_had_are_those_of_his_hand_that_are_still_made(room):
    def another(**changes):
        head = Head.objects.get(pk=room.head.pk)
        head.pk = None
        for name, value in changes.items():
            setattr(head, name, value)
        head.save(force_insert=True)

    another(stamped_loft_deg=Decimal(52), bounce_deg=Decimal(10), limit_strong_deg=Decimal(1))
    another(stamped_loft_deg=Decimal(48), availability="discontinued")
    another(stamped_loft_deg=Decimal(54), is_matched_set=True)
    another(hand="left")
    spec = drafted(room)
    heads = {head.loft_deg: head for head in spec_facts(spec).heads}
    assert sorted(heads) == [52, 56]
    assert (heads[52].bounce_deg, heads[52].limits.maker.strong_deg) == (10, 1)
    assert heads[56].model == spec_facts(spec).clubs[1].head_model
    SpecClub.objects.filter(spec=spec, source="new").delete()
    assert spec_facts(spec).heads == ()


def test_a_pulled_shaft_is_typed_kept_and_found(room):
    spec = drafted(room)
    club = spec.clubs.get(slot=2)
    spec_club_change(
        spec_club=club, values={"shaft_is_pulled": True}, edition=1, by=room.fitter, at=AT
    )
    found = {f.id for f in spec_check(spec=spec, by=room.fitter, at=AT)}
    assert "SPEC-W081" in found
    again = spec_draft(visit=room.visit, by=room.fitter, at=AT, instead_of=1)
    assert SpecClub.objects.get(spec=again, slot=2).shaft_is_pulled is True
    lines = {line.label: line.words for line in spec_page(again, length_unit="in").clubs[1].lines}
    assert "taper tip, out of an older club" in lines["Shaft"]
