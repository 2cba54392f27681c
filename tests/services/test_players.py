"""Players: read, found again, joined, and never written to without consent."""

import datetime as dt
import uuid
from decimal import Decimal

import pytest

from fitshop.actor import Role
from fitshop.models import AuditEntry
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.services.shop_settings import settings_change
from sessions.models import Club, Consent, Player
from sessions.selectors.people import (
    addressee_of,
    consent_in_force,
    folded,
    player_for,
    players_alike,
    players_found,
)
from sessions.services.players import (
    consent_record,
    consent_withdraw,
    phone_normalised,
    player_change,
    player_merge,
    player_register,
)
from tests.fixtures_desk import AT, CLOCKWORK, a_desk, a_player

pytestmark = pytest.mark.django_db

LATER = AT + dt.timedelta(days=3)


@pytest.fixture
def desk():
    return a_desk()


@pytest.fixture
def at_the_desk(desk):
    return desk.actor(Role.DESK)


def agree(player, about="email", given_by="player", at=AT):
    return consent_record(
        player=player, about=about, text_version="t-1", given_by=given_by, by=CLOCKWORK, at=at
    )


def test_a_registered_player_has_the_shops_unit_and_an_audit_row(at_the_desk):
    player = player_register(
        values={
            "given_name": " Imke ",
            "family_name": "Brandvold",
            "hand": "left",
            "kind": "woman",
            "height_mm": Decimal("1702"),
            "as_typed": {"height_mm": "5 ft 7"},
        },
        by=at_the_desk,
        at=AT,
    )
    player.refresh_from_db()
    assert (player.given_name, player.carry_unit, player.created_by) == ("Imke", "yd", "Mara Quill")
    assert player.height_mm == Decimal("1702")
    assert player.wrist_to_floor_mm is None
    assert player.as_typed == {"height_mm": "5 ft 7"}
    entry = AuditEntry.objects.get(action="fitting.player.registered")
    assert entry.object_id == str(player.pk)


def test_the_same_id_again_is_the_same_player(at_the_desk):
    one = uuid.uuid4()
    first = a_player(player_id=one)
    again = a_player("Someone", "Else", player_id=one)
    assert again.pk == first.pk
    assert str(Player.objects.get()) == "Imke Brandvold"
    assert AuditEntry.objects.filter(action="fitting.player.registered").count() == 1


def test_everything_that_does_not_fit_is_said_at_once_and_nothing_is_written(desk):
    with pytest.raises(FieldsRefused) as refused:
        a_player("", "Brandvold", hand="both", phone="12", height_mm=Decimal(2600))
    assert set(refused.value.errors) == {"given_name", "hand", "phone", "height_mm"}
    assert not Player.objects.exists()


def test_a_builder_registers_nobody(desk):
    with pytest.raises(Refused):
        player_register(
            values={"given_name": "A", "family_name": "B", "hand": "right", "kind": "man"},
            by=desk.actor(Role.BUILDER),
            at=AT,
        )


def test_a_child_needs_a_guardian(desk):
    with pytest.raises(FieldsRefused) as refused:
        a_player(kind="junior")
    assert refused.value.errors == {"guardian_name": "A child needs a guardian's name."}


# Each is one number in two writings: national as dialled at home, and E.164 (ITU-T E.164:
# country code, then the national number without its trunk 0). Irish mobile and Dublin landline
# ranges: ComReg's numbering conditions, from memory.
@pytest.mark.parametrize(
    ("typed", "stored"),
    [
        ("086 123 4567", "+353861234567"),
        ("(01) 496-0123", "+35314960123"),
        ("+44 20 7946 0018", "+442079460018"),
        ("00353 86 1234567", "+353861234567"),
        ("", ""),
    ],
)
def test_a_telephone_number_is_kept_in_its_international_form(desk, typed, stored):
    assert phone_normalised(typed) == stored


def test_the_shops_country_reads_a_bare_number(desk):
    settings_change(typed={"shop.phone_region": "GB"}, by=desk.actor(Role.MANAGER), at=AT)
    assert phone_normalised("020 7946 0018") == "+442079460018"


@pytest.mark.parametrize("typed", ["12", "call me", "0", "086 123 4567 8910 1112"])
def test_what_is_no_telephone_number_is_refused(desk, typed):
    with pytest.raises(FieldsRefused):
        phone_normalised(typed)


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("Séan  Ó Brádaigh", "sean o bradaigh"),
        ("Bjørn Łukasz", "bjorn lukasz"),
        ("GROSS Groß", "gross gross"),
        ("Æsa O’Neill", "aesa o'neill"),
    ],
)
def test_accents_and_capitals_do_not_hide_a_name(text, plain):
    assert folded(text) == plain


@pytest.mark.parametrize(
    "typed",
    [
        "brad",
        "BRÁD",
        "o brad",
        "bradaigh sean",
        "sean.o",
        "01 496",
        "496 01",
        "+353 1 49",
        "00353 1",
    ],
)
def test_any_part_of_name_telephone_or_mail_finds_a_player(at_the_desk, typed):
    wanted = a_player("Séan", "Ó Brádaigh", phone="01 496 0123", email="sean.o@larkhill.example")
    a_player("Tuva", "Lindqvist", phone="086 123 4567")
    assert list(players_found(at_the_desk, typed)) == [wanted]


def test_what_nobody_is_called_finds_nobody(at_the_desk):
    a_player(phone="086 123 4567")
    assert not players_found(at_the_desk, "brandvold tuva").exists()
    assert not players_found(at_the_desk, "999").exists()


def test_a_builder_sees_no_players(desk):
    player = a_player()
    assert not players_found(desk.actor(Role.BUILDER), "imke").exists()
    assert player_for(desk.actor(Role.BUILDER), player.pk) is None


@pytest.mark.parametrize(
    "same",
    [
        {"given_name": "IMKE", "family_name": "brandvold", "phone": "", "email": ""},
        {"given_name": "I", "family_name": "B", "phone": "+353861234567", "email": ""},
        {"given_name": "I", "family_name": "B", "phone": "", "email": "IMKE@larkhill.example"},
    ],
)
def test_the_same_name_number_or_mail_may_be_the_same_person(at_the_desk, same):
    known = a_player(phone="086 123 4567", email="imke@larkhill.example")
    assert players_alike(at_the_desk, **same) == [known]
    assert players_alike(at_the_desk, **same, but=known.pk) == []


def test_a_name_that_only_begins_alike_is_another_person(at_the_desk):
    a_player("Imke", "Brandvoldsen")
    assert (
        players_alike(at_the_desk, given_name="Imke", family_name="Brandvold", phone="", email="")
        == []
    )


def test_a_change_is_audited_before_and_after_and_found_by_the_new_name(at_the_desk):
    player = a_player()
    values = {"given_name": "Imke", "family_name": "Solheim", "hand": "right", "kind": "woman"}
    player_change(player=player, values=values, by=at_the_desk, at=LATER)
    entry = AuditEntry.objects.get(action="fitting.player.changed")
    assert (entry.before, entry.after) == (
        {"family_name": "Brandvold"},
        {"family_name": "Solheim"},
    )
    assert players_found(at_the_desk, "solheim").count() == 1
    player_change(player=player, values=values, by=at_the_desk, at=LATER)
    assert AuditEntry.objects.filter(action="fitting.player.changed").count() == 1


def test_merging_moves_everything_and_overwrites_nothing(desk, at_the_desk):
    keep = a_player(phone="086 123 4567")
    duplicate = a_player("Imke", "Brandvoldt", phone="01 496 0123", email="imke@larkhill.example")
    visit = desk.book(duplicate)
    club = Club.objects.create(
        player=duplicate, kind="wedge", label="56", hand="right", created_at=AT
    )
    agree(duplicate)
    kept = player_merge(keep=keep, duplicate=duplicate, by=at_the_desk, at=LATER)
    visit.refresh_from_db()
    club.refresh_from_db()
    assert (visit.player_id, club.player_id) == (keep.pk, keep.pk)
    assert (kept.phone, kept.email) == ("+353861234567", "imke@larkhill.example")
    assert addressee_of(kept).email == "imke@larkhill.example"
    assert list(players_found(at_the_desk, "imke")) == [keep]
    assert player_for(at_the_desk, duplicate.pk).merged_into_id == keep.pk


def test_a_consent_taken_back_later_on_the_other_record_stays_taken_back(desk, at_the_desk):
    keep = a_player(email="imke@larkhill.example")
    duplicate = a_player("Imke", "B", email="imke@larkhill.example")
    agree(keep)
    consent_withdraw(consent=agree(duplicate), by=CLOCKWORK, at=LATER)
    player_merge(keep=keep, duplicate=duplicate, by=at_the_desk, at=LATER + dt.timedelta(days=1))
    assert consent_in_force(keep, "email") is None
    assert keep.consents.count() == 2


def test_of_two_consents_the_newer_stays_in_force(desk, at_the_desk):
    keep = a_player(email="imke@larkhill.example")
    duplicate = a_player("Imke", "B", email="imke@larkhill.example")
    agree(keep)
    newer = agree(duplicate, at=LATER)
    player_merge(keep=keep, duplicate=duplicate, by=at_the_desk, at=LATER)
    assert consent_in_force(keep, "email") == newer


def test_a_record_is_merged_once_and_never_into_itself(desk, at_the_desk):
    keep, other = a_player(), a_player("Tuva", "Lindqvist")
    with pytest.raises(StateRefused):
        player_merge(keep=keep, duplicate=keep, by=at_the_desk, at=AT)
    player_merge(keep=keep, duplicate=other, by=at_the_desk, at=AT)
    with pytest.raises(StateRefused):
        player_merge(keep=keep, duplicate=other, by=at_the_desk, at=AT)


def test_a_fitter_merges_nobody(desk):
    with pytest.raises(Refused):
        player_merge(
            keep=a_player(), duplicate=a_player("A", "B"), by=desk.actor(Role.FITTER), at=AT
        )


def test_no_letter_without_consent_and_none_after_it_is_taken_back(desk):
    player = a_player(email="imke@larkhill.example")
    assert addressee_of(player) is None
    consent = agree(player)
    assert agree(player) == consent
    assert (addressee_of(player).name, addressee_of(player).email) == (
        "Imke Brandvold",
        "imke@larkhill.example",
    )
    consent_withdraw(consent=consent, by=CLOCKWORK, at=LATER)
    assert addressee_of(player) is None
    assert Consent.objects.get().given_at == AT


def test_a_childs_letters_go_to_the_guardian_who_agreed(desk):
    child = a_player(
        kind="junior",
        email="tuva@larkhill.example",
        guardian_name="Per Lindqvist",
        guardian_email="per@larkhill.example",
    )
    with pytest.raises(FieldsRefused) as refused:
        agree(child)
    assert refused.value.errors == {"given_by": "For a child a guardian agrees."}
    agree(child, given_by="guardian")
    assert addressee_of(child).email == "per@larkhill.example"


def test_a_consent_to_mail_needs_an_address(desk):
    with pytest.raises(FieldsRefused) as refused:
        agree(a_player())
    assert refused.value.errors == {"about": "Write down the player's e-mail address first."}
