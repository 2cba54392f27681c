"""The final spec: drafted from decisions, changed, checked, accepted, signed."""

from datetime import timedelta
from decimal import Decimal
from itertools import pairwise

import pytest

from fitshop.actor import Role
from fitshop.models import AuditEntry, Location
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from sessions.models import Acceptance, Decision, FinalSpec, PlanSlot, Shaft
from sessions.models.specs import READ_BACK
from sessions.selectors.evidence import visit_evidence
from sessions.selectors.spec_page import shown_findings
from sessions.selectors.spec_words import gap_rows
from sessions.selectors.specs import accepted_of
from sessions.services.specs import (
    DraftIsOpen,
    SpecHasErrors,
    SpecMoved,
    spec_check,
    spec_club_change,
    spec_draft,
    spec_sign,
    warning_accept,
)
from tests.spec_room import AT, Room, a_shaft, staff_actor

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    return Room()


def drafted(room: Room) -> FinalSpec:
    return spec_draft(visit=room.visit, by=room.fitter, at=AT)


def accept_all(room: Room, spec: FinalSpec) -> None:
    for finding in spec_check(spec=spec, by=room.fitter, at=AT):
        if finding.wants_a_look:
            warning_accept(
                spec=spec, rule=finding.id, fields=finding.fields, reason="tried and liked",
                by=room.fitter, at=AT,
            )  # fmt: skip


def signed(room: Room) -> FinalSpec:
    spec = drafted(room)
    accept_all(room, spec)
    return spec_sign(spec=spec, edition=spec.edition, read_back=READ_BACK, by=room.fitter, at=AT)


def test_the_chosen_trial_becomes_a_new_club_in_full(room):
    club = drafted(room).clubs.get(slot=2)
    assert (club.source, club.head, club.shaft, club.grip) == (
        "new", room.head, room.shaft, room.grip,
    )  # fmt: skip
    assert (club.stamped_loft_deg, club.stamped_bounce_deg, club.stock_lie_deg) == (56, 12, 64)
    # Played at 55.2, planned at 55: the plan stands. Lie 63.1 to the bench's half degree.
    assert (club.target_loft_deg, club.target_lie_deg) == (Decimal("55"), Decimal("63.0"))
    assert club.target_length_mm == Decimal("895.35")
    assert club.target_swing_weight_points == 4


def test_a_kept_club_stands_in_the_spec_as_it_was_measured(room):
    club = drafted(room).clubs.get(slot=1)
    assert (club.source, club.club, club.trial) == ("own_kept", room.fifty, None)
    assert (club.as_received_loft_deg, club.as_received_lie_deg) == (
        Decimal("50.5"), Decimal("63.5"),
    )  # fmt: skip
    assert (club.target_loft_deg, club.target_lie_deg) == (None, None)


def test_a_kept_club_that_the_plan_wants_bent_is_adjusted(room):
    PlanSlot.objects.filter(slot=1).update(target_loft_deg=Decimal("51"), club=room.fifty)
    club = drafted(room).clubs.get(slot=1)
    assert (club.source, club.target_loft_deg) == ("own_adjusted", 51)
    assert club.target_lie_deg == Decimal("63.5")


def test_every_club_has_a_carry_with_its_doubt(room):
    spec = drafted(room)
    fifty, sand = spec.clubs.get(slot=1), spec.clubs.get(slot=2)
    # Five balls at 55.2 degrees carried 87 to 91 m; the pitching wedge at 46 carries 110.
    assert 86 < sand.predicted_carry_m < 92
    assert 95 < fifty.predicted_carry_m < 103
    assert 0 < sand.predicted_sd_m < 4


def test_a_carry_follows_the_loft_when_it_is_changed(room):
    spec = drafted(room)
    club = spec.clubs.get(slot=2)
    before = club.predicted_carry_m
    after = spec_club_change(
        spec_club=club, values={"target_loft_deg": Decimal("57")}, edition=1,
        by=room.fitter, at=AT,
    )  # fmt: skip
    assert after.predicted_carry_m < before - 2


def test_nothing_decided_nothing_drafted(room):
    Decision.objects.all().delete()
    with pytest.raises(StateRefused, match="Nothing is decided yet"):
        drafted(room)
    assert not FinalSpec.objects.exists()


def test_what_was_typed_is_kept_beside_the_value(room):
    spec = drafted(room)
    club = spec_club_change(
        spec_club=spec.clubs.get(slot=2),
        values={"target_loft_deg": Decimal("54.5"), "as_typed": {"target_loft_deg": "54,5"}},
        edition=1, by=room.fitter, at=AT,
    )  # fmt: skip
    club.refresh_from_db()
    assert (club.target_loft_deg, club.as_typed) == (
        Decimal("54.5"), {"target_loft_deg": "54,5"},
    )  # fmt: skip
    entry = AuditEntry.objects.get(action="fitting.spec.changed")
    assert entry.before["target_loft_deg"] == "55"
    assert entry.after["target_loft_deg"] == "54.5"


def test_the_second_of_two_people_is_told_who_was_first_and_stores_nothing(room):
    spec = drafted(room)
    club = spec.clubs.get(slot=2)
    first = staff_actor(room.location, "Tove Lind")
    spec_club_change(
        spec_club=club, values={"target_loft_deg": Decimal("54")}, edition=1, by=first, at=AT
    )
    with pytest.raises(SpecMoved, match="Tove Lind changed it"):
        spec_club_change(
            spec_club=club, values={"target_loft_deg": Decimal("57")}, edition=1,
            by=room.fitter, at=AT,
        )  # fmt: skip
    club.refresh_from_db()
    assert club.target_loft_deg == 54


def test_an_own_club_is_adjusted_while_something_else_is_asked_of_it(room):
    spec = drafted(room)
    club = spec_club_change(
        spec_club=spec.clubs.get(slot=1),
        values={"target_loft_deg": Decimal("51")}, edition=1, by=room.fitter, at=AT,
    )  # fmt: skip
    assert club.source == "own_adjusted"
    club = spec_club_change(
        spec_club=club, values={"target_loft_deg": Decimal("50.5")}, edition=2,
        by=room.fitter, at=AT,
    )  # fmt: skip
    assert club.source == "own_kept"


def test_a_figure_nobody_believes_is_refused_by_field(room):
    with pytest.raises(FieldsRefused) as refusal:
        spec_club_change(
            spec_club=drafted(room).clubs.get(slot=2),
            values={"grip_extra_wraps": -1}, edition=1, by=room.fitter, at=AT,
        )  # fmt: skip
    assert list(refusal.value.errors) == ["grip_extra_wraps"]


def test_a_check_keeps_what_was_found_with_rule_set_and_settings(room):
    spec = drafted(room)
    findings = spec_check(spec=spec, by=room.fitter, at=AT)
    spec.refresh_from_db()
    assert (spec.state, spec.rule_set, spec.settings_version) == ("checked", "SPEC 4.0", 0)
    assert spec.other_clubs_count == 12  # ten by count, and PW and 56 of his own
    assert spec.leaving_words == "56"
    assert [row.rule for row in spec.findings.all()] == sorted(f.id for f in findings)
    assert "SPEC-W023" in {f.id for f in findings}  # nobody said what is stamped


def test_a_change_after_the_check_makes_it_a_draft_again(room):
    spec = drafted(room)
    spec_check(spec=spec, by=room.fitter, at=AT)
    spec_club_change(
        spec_club=spec.clubs.get(slot=2), values={"stamping": "I B"}, edition=1,
        by=room.fitter, at=AT,
    )  # fmt: skip
    spec.refresh_from_db()
    assert (spec.state, spec.edition) == ("draft", 2)


def test_what_stops_the_order_stops_the_signature_and_cannot_be_accepted(room):
    spec = drafted(room)
    club = spec.clubs.get(slot=2)
    # 56 bent 3.5 strong; forged steel goes 3.
    spec_club_change(
        spec_club=club, values={"target_loft_deg": Decimal("52.5")}, edition=1,
        by=room.fitter, at=AT,
    )  # fmt: skip
    accept_all(room, spec)
    with pytest.raises(StateRefused, match="can't be accepted"):
        warning_accept(
            spec=spec, rule="SPEC-E001", fields=["club.2.target_loft_deg"], reason="he wants it",
            by=room.fitter, at=AT,
        )  # fmt: skip
    with pytest.raises(SpecHasErrors, match="1 thing stops the order") as refusal:
        spec_sign(spec=spec, edition=2, read_back=READ_BACK, by=room.fitter, at=AT)
    assert [f.id for f in refusal.value.findings] == ["SPEC-E001"]
    spec.refresh_from_db()
    assert spec.state == "checked"


def test_a_look_must_be_accepted_before_the_signature(room):
    spec = drafted(room)
    with pytest.raises(SpecHasErrors, match="a look"):
        spec_sign(spec=spec, edition=1, read_back=READ_BACK, by=room.fitter, at=AT)
    accept_all(room, spec)
    spec = spec_sign(spec=spec, edition=1, read_back=READ_BACK, by=room.fitter, at=AT)
    assert (spec.state, spec.signed_by, spec.signed_at) == ("signed", "Mara Quill", AT)


@pytest.mark.parametrize("missing", READ_BACK)
def test_a_signature_wants_hand_length_and_stamping_confirmed_by_the_player(room, missing):
    spec = drafted(room)
    accept_all(room, spec)
    heard = [what for what in READ_BACK if what != missing]
    with pytest.raises(FieldsRefused) as refused:
        spec_sign(spec=spec, edition=1, read_back=heard, by=room.fitter, at=AT)
    assert (refused.value.code, list(refused.value.errors)) == ("spec.not_read_back", [missing])
    spec.refresh_from_db()
    assert (spec.state, spec.read_back_at) == ("checked", None)


def test_what_was_read_to_the_player_is_kept_with_who_and_when(room):
    spec = FinalSpec.objects.get(pk=signed(room).pk)
    assert (spec.read_back, spec.read_back_by, spec.read_back_at) == (
        ["hand", "length", "stamping"], "Mara Quill", AT,
    )  # fmt: skip


def test_an_acceptance_needs_a_reason(room):
    spec = drafted(room)
    spec_check(spec=spec, by=room.fitter, at=AT)
    with pytest.raises(FieldsRefused) as refusal:
        warning_accept(
            spec=spec, rule="SPEC-W023", fields=["club.2.stamping"], reason="  ",
            by=room.fitter, at=AT,
        )  # fmt: skip
    assert list(refusal.value.errors) == ["reason"]
    assert not Acceptance.objects.exists()


def test_an_acceptance_ends_when_its_number_changes(room):
    spec = drafted(room)
    club = spec.clubs.get(slot=2)
    # 2.5 strong is within the head's 3 and more than the 2 that are usual.
    spec_club_change(
        spec_club=club, values={"target_loft_deg": Decimal("53.5")}, edition=1,
        by=room.fitter, at=AT,
    )  # fmt: skip
    accept_all(room, spec)
    spec_club_change(
        spec_club=club, values={"target_loft_deg": Decimal("53.25")}, edition=2,
        by=room.fitter, at=AT,
    )  # fmt: skip
    with pytest.raises(SpecHasErrors) as refusal:
        spec_sign(spec=spec, edition=3, read_back=READ_BACK, by=room.fitter, at=AT)
    assert "SPEC-W001" in {f.id for f in refusal.value.findings}


def test_two_people_sign_and_the_second_learns_who_signed(room):
    spec = signed(room)
    second = staff_actor(room.location, "Tove Lind")
    with pytest.raises(StateRefused, match="Mara Quill signed version 1 on 7 May at"):
        spec_sign(
            spec=spec, edition=1, read_back=READ_BACK, by=second, at=AT + timedelta(seconds=1)
        )
    assert AuditEntry.objects.filter(action="fitting.spec.signed").count() == 1


def test_a_signature_on_figures_one_did_not_see_is_refused(room):
    spec = drafted(room)
    spec_club_change(
        spec_club=spec.clubs.get(slot=2), values={"stamping": "none"}, edition=1,
        by=room.fitter, at=AT,
    )  # fmt: skip
    accept_all(room, spec)
    with pytest.raises(SpecMoved):
        spec_sign(spec=spec, edition=1, read_back=READ_BACK, by=room.fitter, at=AT)


def test_a_signed_spec_is_changed_by_a_new_version_that_replaces_it(room):
    first = signed(room)
    with pytest.raises(StateRefused, match="Draft a new version"):
        spec_club_change(
            spec_club=first.clubs.get(slot=2), values={"stamping": "I B"}, edition=1,
            by=room.fitter, at=AT,
        )  # fmt: skip
    second = spec_draft(visit=room.visit, by=room.fitter, at=AT + timedelta(hours=1))
    accept_all(room, second)
    spec_sign(
        spec=second, edition=1, read_back=READ_BACK, by=room.fitter, at=AT + timedelta(hours=1)
    )
    first.refresh_from_db()
    assert (first.state, second.version) == ("superseded", 2)


def test_an_open_draft_is_withdrawn_only_where_it_is_named(room):
    first = drafted(room)
    for named in (None, 2):
        with pytest.raises(DraftIsOpen, match="Version 1 is drafted already and not signed"):
            spec_draft(visit=room.visit, by=room.fitter, at=AT, instead_of=named)
    first.refresh_from_db()
    assert (first.state, FinalSpec.objects.count()) == ("draft", 1)


def test_a_new_version_keeps_what_was_typed_and_what_was_accepted(room):
    first = drafted(room)
    spec_club_change(
        spec_club=first.clubs.get(slot=2),
        values={"stamping": "I B", "target_lie_deg": Decimal("62")}, edition=1,
        by=room.fitter, at=AT,
    )  # fmt: skip
    accept_all(room, first)
    second = spec_draft(visit=room.visit, by=room.fitter, at=AT + timedelta(hours=1), instead_of=1)
    first.refresh_from_db()
    club = second.clubs.get(slot=2)
    assert (first.state, second.version) == ("withdrawn", 2)
    assert (club.stamping, club.target_lie_deg) == ("I B", 62)
    spec_sign(spec=second, edition=1, read_back=READ_BACK, by=room.fitter, at=AT)


def test_a_slot_that_was_decided_anew_starts_from_the_decision(room):
    first = drafted(room)
    spec_club_change(
        spec_club=first.clubs.get(slot=2), values={"target_lie_deg": Decimal("62")}, edition=1,
        by=room.fitter, at=AT,
    )  # fmt: skip
    Decision.objects.filter(slot=2).update(decided_at=AT + timedelta(minutes=5))
    second = spec_draft(visit=room.visit, by=room.fitter, at=AT + timedelta(hours=1), instead_of=1)
    assert second.clubs.get(slot=2).target_lie_deg == 63


def test_too_many_clubs_stop_until_one_leaves(room):
    Decision.objects.filter(slot=2).update(leaves_bag=None)
    room.visit.other_clubs.filter(kind="long_iron").update(count=7)
    # 1 + 2 + 7 + 1 by count, PW and the old 56, and the two of the spec: 15.
    spec = drafted(room)
    assert "SPEC-E040" in {f.id for f in spec_check(spec=spec, by=room.fitter, at=AT)}
    Decision.objects.filter(slot=2).update(leaves_bag=room.old)
    assert "SPEC-E040" not in {f.id for f in spec_check(spec=spec, by=room.fitter, at=AT)}


def test_a_shaft_that_does_not_fit_stops(room):
    spec = drafted(room)
    parallel = a_shaft(model="Steel 120", tip_kind="parallel", tip_mm=Decimal("9.398"))
    spec_club_change(
        spec_club=spec.clubs.get(slot=2), values={"shaft": parallel}, edition=1,
        by=room.fitter, at=AT,
    )  # fmt: skip
    assert "SPEC-E022" in {f.id for f in spec_check(spec=spec, by=room.fitter, at=AT)}


def test_a_club_on_another_shaft_than_it_was_tried_on_is_foretold_with_more_doubt(room):
    spec = drafted(room)
    tried = spec.clubs.get(slot=2)
    assert tried.predicted_sd_m is not None
    changed = spec_club_change(
        spec_club=tried, values={"shaft": a_shaft(model="Steel 130")}, edition=1,
        by=room.fitter, at=AT,
    )  # fmt: skip
    assert changed.predicted_sd_m > tried.predicted_sd_m
    assert changed.predicted_carry_m != tried.predicted_carry_m


def test_bends_of_earlier_years_count(room):
    room.fifty.bends = [["1.5", "0"]]
    room.fifty.save()
    spec = drafted(room)
    # 1.5 weak before and 1 weak now are 2.5: cast stainless goes 2.
    spec_club_change(
        spec_club=spec.clubs.get(slot=1),
        values={"target_loft_deg": Decimal("51.5"), "target_lie_deg": Decimal("63.5")},
        edition=1, by=room.fitter, at=AT,
    )  # fmt: skip
    assert "SPEC-E002" in {f.id for f in spec_check(spec=spec, by=room.fitter, at=AT)}


@pytest.mark.parametrize("role", [Role.BUILDER, Role.DESK])
def test_bench_and_desk_do_not_write_specs(room, role):
    with pytest.raises(Refused):
        spec_draft(visit=room.visit, by=staff_actor(room.location, role=role), at=AT)


def test_another_location_does_not_write_this_one_s_specs(room):
    elsewhere = staff_actor(Location.objects.create(name="Far Field", zone="UTC"))
    spec = drafted(room)
    with pytest.raises(Refused):
        spec_draft(visit=room.visit, by=elsewhere, at=AT)
    with pytest.raises(Refused):
        spec_sign(spec=spec, edition=1, read_back=READ_BACK, by=elsewhere, at=AT)


def test_what_was_accepted_stands_in_every_later_version_until_its_number_changes(room):
    first = drafted(room)
    accept_all(room, first)
    again = spec_draft(visit=room.visit, by=room.fitter, at=AT, instead_of=1)
    spec_check(spec=again, by=room.fitter, at=AT)
    stands = {one.finding.id: one for one in accepted_of(again)}
    assert (stands["SPEC-W023"].by, stands["SPEC-W023"].at) == ("Mara Quill", AT)
    assert stands["SPEC-W023"].reason == "tried and liked"
    spec_club_change(
        spec_club=again.clubs.get(slot=2), values={"stamping": "56"}, edition=1,
        by=room.fitter, at=AT,
    )  # fmt: skip
    spec_check(spec=again, by=room.fitter, at=AT)
    # Nothing is asked of an unsaid stamping any more; the new doubt was accepted by nobody.
    assert not {"SPEC-W023", "SPEC-W026"} & {one.finding.id for one in accepted_of(again)}


def test_what_was_accepted_of_another_club_is_said_to_count_no_more(room):
    spec = drafted(room)
    accept_all(room, spec)
    Acceptance.objects.filter(rule="SPEC-W034").update(things=[])  # from before clubs were named
    shown = {one.finding.id: one for one in shown_findings(spec)}
    old, kept = shown["SPEC-W034"], shown["SPEC-W023"]
    assert (old.accepted_by, old.accepted_before, old.may_accept) == ("", "Mara Quill", True)
    assert (kept.accepted_by, kept.accepted_before, kept.may_accept) == ("Mara Quill", "", False)
    with pytest.raises(SpecHasErrors) as refused:
        spec_sign(spec=spec, edition=1, read_back=READ_BACK, by=room.fitter, at=AT)
    assert [finding.id for finding in refused.value.findings] == ["SPEC-W034"]


def test_another_shaft_in_the_same_slot_was_accepted_by_nobody(room):
    spec = drafted(room)
    accept_all(room, spec)
    other = Shaft.objects.get(pk=room.shaft.pk)
    other.pk, other.model = None, "Another of the same"
    other.save(force_insert=True)
    before = {one.finding.id for one in accepted_of(spec) if "club.2." in str(one.finding.fields)}
    spec_club_change(
        spec_club=spec.clubs.get(slot=2), values={"shaft": other}, edition=1,
        by=room.fitter, at=AT,
    )  # fmt: skip
    spec_check(spec=spec, by=room.fitter, at=AT)
    assert before
    assert not [one for one in accepted_of(spec) if "club.2." in str(one.finding.fields)]


def test_the_last_word_on_a_finding_is_the_one_that_stands(room):
    spec = drafted(room)
    accept_all(room, spec)
    warning_accept(
        spec=spec, rule="SPEC-W023", fields=["club.2.stamping"], reason="asked him again",
        by=staff_actor(room.location, "Tove Lind"), at=AT + timedelta(minutes=5),
    )  # fmt: skip
    stands = {one.finding.id: one for one in accepted_of(spec)}
    assert (stands["SPEC-W023"].by, stands["SPEC-W023"].reason) == ("Tove Lind", "asked him again")


def test_an_acceptance_leaves_its_numbers_in_the_audit_and_in_the_signature(room):
    spec = drafted(room)
    club = spec.clubs.get(slot=2)
    spec_club_change(
        spec_club=club, values={"target_loft_deg": Decimal("53.5")}, edition=1,
        by=room.fitter, at=AT,
    )  # fmt: skip
    accept_all(room, spec)
    entry = next(
        e
        for e in AuditEntry.objects.filter(action="fitting.warning.accepted")
        if e.after["rule"] == "SPEC-W001"
    )
    assert entry.after["numbers"] == {"bend": "-2.5", "look": "2"}
    assert (entry.actor_name, entry.at, entry.after["reason"]) == (
        "Mara Quill", AT, "tried and liked",
    )  # fmt: skip
    spec_sign(spec=spec, edition=2, read_back=READ_BACK, by=room.fitter, at=AT)
    signature = AuditEntry.objects.get(action="fitting.spec.signed").after["accepted"]
    assert {"rule": "SPEC-W001", "by": "Mara Quill", "reason": "tried and liked"} in signature


def test_a_gap_is_what_is_left_when_the_carries_as_read_are_subtracted(room):
    clubs = list(drafted(room).clubs.order_by("slot"))
    yard = 0.9144
    # 100.6 and 86.4 yards read 101 and 86: by themselves the gap of 14.2 would read 14.
    for club, carry in zip(clubs, (100.6, 86.4), strict=False):
        club.predicted_carry_m = carry * yard
    rows = gap_rows(clubs[:2], visit_evidence(room.visit), "yd", as_hit_deg=Decimal("0.5"))
    carries = [int(row.carry.split()[0]) for row in rows]
    gaps = [int(row.gap.split()[0]) for row in rows if row.gap]
    assert carries[-2:] == [101, 86]
    assert gaps == [a - b for a, b in pairwise(carries)]
