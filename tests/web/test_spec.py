"""The spec's page as a fitter uses it: changed, refused beside the field, checked, signed."""

import re
from html import unescape

import pytest
from django.urls import reverse

from fitshop.actor import Role
from fitshop.services.shop_settings import settings_change
from sessions.models import FinalSpec
from sessions.rules.spec import SPEC_RULES
from tests.spec_room import AT, Room, shop, signed_in, staff_actor

pytestmark = pytest.mark.django_db


@pytest.fixture
def room(client):
    shop()
    room = Room()
    client.force_login(signed_in(room.location))
    return room


def page(client, room):
    return client.get(reverse("spec", args=[room.visit.pk]))


def drafted(client, room) -> FinalSpec:
    client.post(reverse("spec_draft", args=[room.visit.pk]))
    return FinalSpec.objects.get()


def typed(spec, **changes):
    """The form of slot 2 as the page shows it, with some fields typed over."""
    values = {
        "edition": "1", "name": "Sand wedge", "role": "touch", "target_loft_deg": "55",
        "target_lie_deg": "63", "target_length_mm": "35 1/4", "length_method": "rules",
        "target_swing_weight_points": "D4", "target_mass_g": "", "tip_trim_mm": "0",
        "shaft": str(spec.clubs.get(slot=2).shaft_id), "grip": str(spec.clubs.get(slot=2).grip_id),
        "grip_extra_wraps": "0", "grip_lower_extra_wraps": "0", "grip_logo": "up", "ferrule": "",
        "stamping": "none", "notes": "",
    } | changes  # fmt: skip
    return {f"slot2-{name}": value for name, value in values.items()}


def change(client, room, spec, **changes):
    club = spec.clubs.get(slot=2)
    address = reverse("spec_club", args=[room.visit.pk, club.pk])
    return client.post(address, typed(spec, **changes))


def check(client, room, spec):
    return client.post(reverse("spec_check", args=[room.visit.pk, spec.pk]), follow=True)


HEARD = {"hand": "on", "length": "on", "stamping": "on"}


def sign(client, room, spec, edition="1"):
    address = reverse("spec_sign", args=[room.visit.pk, spec.pk])
    return client.post(address, {"edition": edition, **HEARD}, follow=True)


def test_the_page_says_each_club_in_full_and_the_bent_one_with_its_stamp(client, room):
    drafted(client, room)
    text = page(client, room).content.decode()
    assert "55° (stamped 56, bent 1 strong)" in text
    assert "11° (stamped 12, bent 1 strong)" in text
    assert "63° (head 64, bent 1 flat)" in text
    assert "35 1/4 in, on the 60 degree plane (Rules)" in text


def test_a_comma_is_a_decimal_point_and_is_kept_as_typed(client, room):
    spec = drafted(client, room)
    assert change(client, room, spec, target_loft_deg="54,5").status_code == 302
    club = spec.clubs.get(slot=2)
    assert (str(club.target_loft_deg), club.as_typed["target_loft_deg"]) == ("54.50", "54,5")


@pytest.mark.parametrize("loft", ["5", "90", "fifty", "55.5.5"])
def test_a_loft_nobody_makes_is_refused_beside_the_field_and_stays_as_typed(client, room, loft):
    spec = drafted(client, room)
    answer = change(client, room, spec, target_loft_deg=loft)
    text = answer.content.decode()
    assert answer.status_code == 422
    assert f'value="{loft}"' in text
    assert 'id="id_slot2-target_loft_deg_error"' in text
    assert spec.clubs.get(slot=2).target_loft_deg == 55


def test_saving_a_form_untouched_changes_no_figure(client, room):
    spec = drafted(client, room)
    before = spec.clubs.filter(slot=2).values().get()
    change(client, room, spec)
    after = spec.clubs.filter(slot=2).values().get()
    same = ["target_loft_deg", "target_lie_deg", "target_length_mm", "shaft_id", "grip_id"]
    assert [after[name] for name in same] == [before[name] for name in same]


def test_the_second_of_two_people_sees_both_figures(client, room):
    spec = drafted(client, room)
    change(client, room, spec, target_loft_deg="54")
    answer = change(client, room, spec, target_loft_deg="57")
    text = answer.content.decode()
    assert answer.status_code == 409
    assert "Mara Quill changed it" in text
    assert 'value="57"' in text
    assert "54° (stamped 56, bent 2 strong)" in text
    assert spec.clubs.get(slot=2).target_loft_deg == 54


def test_what_is_found_stands_beside_it_and_is_accepted_with_a_reason(client, room):
    spec = drafted(client, room)
    change(client, room, spec, target_loft_deg="53.5")
    text = check(client, room, spec).content.decode()
    assert "Look at this" in text
    assert "SPEC-W001" in text
    address = reverse("spec_accept", args=[room.visit.pk, spec.pk])
    found = {"rule": "SPEC-W001", "fields_said": "club.2.target_loft_deg"}
    refused = client.post(address, found, follow=True).content.decode()
    assert "Say why it is right" in refused
    kept = client.post(address, found | {"chip": "Tried and liked"}, follow=True).content.decode()
    assert "Accepted by Mara Quill: Tried and liked" in kept


def test_it_is_signed_once_and_then_only_drafted_anew(client, room):
    spec = drafted(client, room)
    change(client, room, spec)
    check(client, room, spec)
    for row in spec.findings.filter(severity="look at this"):
        client.post(
            reverse("spec_accept", args=[room.visit.pk, spec.pk]),
            {"rule": row.rule, "fields_said": " ".join(row.fields), "words": "as he plays it"},
        )
    text = sign(client, room, spec, "2").content.decode()
    assert "Signed by Mara Quill" in text
    assert "Draft a new version" in text
    assert "Change this club" not in text
    again = sign(client, room, spec, "2").content.decode()
    assert "Mara Quill signed version 1" in again


def test_a_draft_that_nobody_signed_is_withdrawn_only_by_a_second_step_that_names_it(client, room):
    spec = drafted(client, room)
    change(client, room, spec, stamping="I B")
    address = reverse("spec_draft", args=[room.visit.pk])
    refused = client.post(address, follow=True).content.decode()
    assert "Version 1 is drafted already and not signed" in refused
    assert "Version 1 is not signed. It is withdrawn" in refused
    assert FinalSpec.objects.get().state == "draft"
    named = re.search(r'name="instead_of" value="(\d+)"', refused).group(1)
    client.post(address, {"instead_of": named})
    assert sorted(FinalSpec.objects.values_list("version", "state")) == [
        (1, "withdrawn"), (2, "draft"),
    ]  # fmt: skip


def test_what_stops_the_order_is_said_when_signing(client, room):
    spec = drafted(client, room)
    change(client, room, spec, target_loft_deg="52")
    text = sign(client, room, spec, "2").content.decode()
    assert "Not signed:" in text
    spec.refresh_from_db()
    assert spec.state == "draft"


def test_after_an_expired_sign_in_one_comes_back_to_the_page(client, room):
    client.logout()
    address = reverse("spec", args=[room.visit.pk])
    answer = client.get(address)
    assert answer.status_code == 302
    assert answer["Location"].endswith(f"?next={address}")


def test_a_spec_of_another_location_is_not_found(client, room):
    from fitshop.models import Location

    spec = drafted(client, room)
    client.force_login(signed_in(Location.objects.create(name="Far", zone="UTC"), "far"))
    assert page(client, room).status_code == 404
    sheet = reverse("spec_sheet", args=[room.visit.pk, spec.pk])
    assert client.get(sheet).status_code == 404
    assert check(client, room, spec).status_code == 404


def told(text: str) -> str:
    """A page as it is read: entities undone, white space as one blank."""
    return " ".join(unescape(text).split())


def test_the_whole_rule_book_is_printed_from_the_rules(client, room):
    text = told(client.get(reverse("rule_book")).content.decode())
    for rule in SPEC_RULES.rules:
        assert f'<li id="{rule.id}"' in text
        assert rule.about in text
    for said in (
        "rule set SPEC 4.0, settings 0",
        "Stops the order",
        "Common practice",
        "The Equipment Rules, effective 1 January 2019",
        "29 CFR 1910.1024",
        "<b>4 degrees</b> A smaller step of loft between two neighbours wants a look.",
        "<b>8 %</b> A smaller carry gap",
        "<b>90 days</b>",
        "<b>1 point</b> A more lofted club",
        "<b>889 mm (35 in)</b> A man's wedge is seldom shorter than this.",
        'Limits as for <a href="#SPEC-E001">SPEC-E001</a>.',
    ):
        assert said in text


def test_the_rule_book_shows_what_the_shop_set_and_what_it_was_before(client, room):
    manager = staff_actor(room.location, "Una Frost", Role.MANAGER)
    typed = {"spec.gap_low_pct": "7", "rules.SPEC-W012": "off", "rules.SPEC-N010": "look at this"}
    settings_change(typed=typed, by=manager, at=AT)
    now = told(client.get(reverse("rule_book")).content.decode())
    assert "rule set SPEC 4.1, settings 1" in now
    assert '<b>7 %</b> <span class="soft">(default 8 %)</span>' in now
    assert 'id="SPEC-W012" class="rule is-off"' in now
    assert "born as: note" in now
    then = told(client.get(reverse("rule_book") + "?settings=0").content.decode())
    assert "rule set SPEC 4.0, settings 0, as they were then" in then
    assert "<b>8 %</b> A smaller carry gap" in then
    assert "is-off" not in then


@pytest.mark.parametrize("version", ["1", "-1", "x", "99999999999999999999"])
def test_settings_that_never_were_are_not_found(client, room, version):
    assert client.get(reverse("rule_book") + f"?settings={version}").status_code == 404


def test_what_was_found_is_counted_at_the_top_with_a_way_to_each(client, room):
    spec = drafted(client, room)
    change(client, room, spec, target_loft_deg="52")
    text = told(check(client, room, spec).content.decode())
    todo = text.split('aria-label="What was found"')[1].split("</nav>")[0]
    assert "1 thing stops the order" in todo
    assert '<a href="#slot-2">2 Sand wedge (1 to change, ' in todo
    # Slot 1 keeps what is there: nothing is asked of it.
    assert "#slot-1" not in todo


def test_the_gap_is_said_with_its_doubt_and_how_often_it_turns_round(client, room):
    drafted(client, room)
    text = told(page(client, room).content.decode())
    row = re.search(r"Pitching wedge, 46°</th>(.*?)</tr>", text)[1]
    assert re.search(
        r"120 yd .*</td> ?<td>\d+ yd, give or take \d</td><td>(under )?\d+ in 100</td>", row
    )


def test_what_was_not_ticked_is_said_beside_it_and_the_other_ticks_stay(client, room):
    spec = drafted(client, room)
    check(client, room, spec)
    for row in spec.findings.filter(severity="look at this"):
        client.post(
            reverse("spec_accept", args=[room.visit.pk, spec.pk]),
            {"rule": row.rule, "fields_said": " ".join(row.fields), "words": "as he plays it"},
        )
    assert page(client, room).context["page"].bent == ("Sand wedge",)
    address = reverse("spec_sign", args=[room.visit.pk, spec.pk])
    answer = client.post(address, {"edition": "1", "hand": "on", "stamping": "on"})
    form = answer.context["sign_form"]
    assert answer.status_code == 422
    assert form.has_error("length", "spec.not_read_back")
    assert (form["hand"].value(), form["length"].value()) == (True, False)
    spec.refresh_from_db()
    assert spec.state == "checked"
