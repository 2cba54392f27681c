"""What the rules and settings of now would find in a spec that was signed: said, never changed."""

import json
from io import StringIO

import pytest
from django.apps import apps
from django.core import serializers
from django.core.management import call_command

from fitshop.actor import Role
from fitshop.services.shop_settings import settings_change
from sessions.models import FinalSpec
from sessions.models.specs import READ_BACK
from sessions.selectors.rule_book import rule_book_in_force
from sessions.services.specs import spec_check, spec_draft, spec_sign, warning_accept
from tests.spec_room import AT, Room, staff_actor

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    return Room()


def signed(room: Room) -> FinalSpec:
    spec = spec_draft(visit=room.visit, by=room.fitter, at=AT)
    for found in spec_check(spec=spec, by=room.fitter, at=AT):
        if found.wants_a_look:
            warning_accept(
                spec=spec, rule=found.id, fields=found.fields, reason="tried and liked",
                by=room.fitter, at=AT,
            )  # fmt: skip
    return spec_sign(spec=spec, edition=spec.edition, read_back=READ_BACK, by=room.fitter, at=AT)


def changed(room: Room, **typed: str):
    manager = staff_actor(room.location, "Una Frost", Role.MANAGER)
    keys = {key.replace("__", ".").replace("SPEC_", "SPEC-"): text for key, text in typed.items()}
    return settings_change(typed=keys, by=manager, at=AT)


def told(*words: str) -> str:
    out = StringIO()
    call_command("revalidate_specs", *words, stdout=out)
    return out.getvalue()


def everything() -> str:
    """Every row of every table of ours."""
    labels = ("shop", "fitting", "orders")
    return json.dumps(
        [
            serializers.serialize("json", model.objects.order_by("pk"))
            for label in labels
            for model in apps.get_app_config(label).get_models()
        ]
    )


def test_a_spec_under_the_same_rules_and_settings_is_the_same(room):
    signed(room)
    assert told() == "1 looked at, 0 would be judged otherwise.\n"
    assert "judged under SPEC 4.0, now SPEC 4.0: the same." in told("--all")


def test_a_limit_that_was_moved_is_told_with_the_sentence_and_changes_nothing(room):
    spec = signed(room)
    changed(room, spec__shots_for_a_build="6")
    before = everything()
    said = told()
    assert everything() == before
    assert "judged under SPEC 4.0, now SPEC 4.1:" in said
    assert "+ Look at this, SPEC-W030: Slot 2, 55° (stamped 56, bent 1 strong): 5 shots were hit " \
        "with it; 6 are the least for a club that is built." in said  # fmt: skip
    assert "1 looked at, 1 would be judged otherwise." in said
    spec.refresh_from_db()
    assert (spec.rule_set, spec.state) == ("SPEC 4.0", "signed")


def test_a_rule_that_weighs_otherwise_and_one_that_is_off_are_told(room):
    spec = signed(room)
    assert {"SPEC-W023", "SPEC-N071"} <= {row.rule for row in spec.findings.all()}
    changed(room, rules__SPEC_W023="off", rules__SPEC_N071="look at this")
    said = told()
    assert "- Look at this, SPEC-W023:" in said
    assert "~ SPEC-N071: note, now look at this:" in said


def test_only_specs_in_the_states_asked_for_are_looked_at(room):
    signed(room)
    assert told("--state", "draft") == "0 looked at, 0 would be judged otherwise.\n"


def test_a_switched_off_rule_is_not_found_and_a_stricter_one_stops_the_signature(room):
    changed(room, rules__SPEC_W023="off", rules__SPEC_N071="stops the order")
    spec = spec_draft(visit=room.visit, by=room.fitter, at=AT)
    found = {f.id: f for f in spec_check(spec=spec, by=room.fitter, at=AT)}
    assert "SPEC-W023" not in found
    assert found["SPEC-N071"].stops
    spec.refresh_from_db()
    assert spec.rule_set == "SPEC 4.1"
    assert spec.findings.get(rule="SPEC-N071").severity == "stops the order"


def test_a_setting_that_no_rule_reads_makes_no_new_rule_set(room):
    changed(room, visit__minutes="75")
    assert rule_book_in_force().name == "SPEC 4.0"
    changed(room, build__most_added_g="8")
    assert rule_book_in_force().name == "SPEC 4.2"


def test_the_book_of_then_stays_readable(room):
    changed(room, spec__gap_high_pct="14")
    changed(room, spec__gap_high_pct="15", rules__SPEC_W011="note")

    def gap(version):
        book = rule_book_in_force(version)
        rule = next(r for c in book.chapters for r in c.rules if r.id == "SPEC-W011")
        return book.name, rule.weight_words, [limit.words for limit in rule.limits][:2]

    assert gap(0) == ("SPEC 4.0", "Look at this", ["8 %", "13 %"])
    assert gap(1) == ("SPEC 4.1", "Look at this", ["8 %", "14 %"])
    assert gap(None) == ("SPEC 4.2", "Note", ["8 %", "15 %"])
