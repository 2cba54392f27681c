"""Players: registered, changed, merged, and what they agreed to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, fields
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any
from uuid import UUID

import phonenumbers
from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.selectors import settings_in_force, the_shop
from fitshop.services.audit import audit_record
from fitshop.services.messages import messages_to_withdraw
from sessions.models import Consent, Player
from sessions.models.words import Hand, PlayerKind
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.selectors.people import consent_in_force, folded, letter_address


@dataclass(frozen=True, slots=True)
class PlayerValues:
    """A player as the desk gives it: metric figures, None where not measured.

    `phone` may be typed in any usual way; `carry_unit` empty means the shop's own.
    `as_typed` holds the texts of the measured fields by name.
    """

    given_name: str
    family_name: str
    hand: str
    kind: str
    carry_unit: str = ""
    email: str = ""
    phone: str = ""
    birth_date: date | None = None
    handicap: Decimal | None = None
    height_mm: Decimal | None = None
    wrist_to_floor_mm: Decimal | None = None
    finger_length_mm: Decimal | None = None
    glove: str = ""
    home_place: str = ""
    home_altitude_m: float | None = None
    guardian_name: str = ""
    guardian_email: str = ""
    notes: str = ""
    as_typed: dict[str, str] = field(default_factory=dict)


# Lowest, highest, unit: the first two as the columns' constraints have them.
BELIEVABLE = {
    "height_mm": (700, 2500, " mm"),
    "wrist_to_floor_mm": (300, 1300, " mm"),
    "finger_length_mm": (30, 150, " mm"),
    "handicap": (-10, 54, ""),
    "home_altitude_m": (-430, 5000, " m"),
}

Values = PlayerValues | Mapping[str, Any]
COLUMNS = tuple(each.name for each in fields(PlayerValues))


@transaction.atomic
def player_register(
    *, player_id: UUID | None = None, values: Values, by: Actor, at: datetime
) -> Player:
    """Register a player. The same `player_id` again: the same row, unchanged.

    Raises Refused, FieldsRefused. Writes Player, AuditEntry.
    """
    FITTING_POLICY.require(by, FittingAction.PLAYER_REGISTER)
    known = Player.objects.filter(pk=player_id).first() if player_id else None
    if known is not None:
        return known
    columns = _columns(values)
    _refuse_unborn(columns, at)

    player = Player(**columns, created_at=at, created_by=by.name)
    if player_id:
        player.id = player_id
    player.search_text = search_text_of(player)
    player.save(force_insert=True)
    audit_record(action="fitting.player.registered", subject=player, after=columns, by=by, at=at)
    return player


@transaction.atomic
def player_change(*, player: Player, values: Values, by: Actor, at: datetime) -> Player:
    """Change what is known of a player; nothing is written where nothing differs.

    Raises Refused, FieldsRefused, StateRefused. Writes Player, AuditEntry.
    """
    row = Player.objects.select_for_update().get(pk=player.pk)
    FITTING_POLICY.require(by, FittingAction.PLAYER_REGISTER)
    if row.merged_into_id is not None:
        raise StateRefused("This record was merged into another. Change that one.")
    columns = _columns(values)
    _refuse_unborn(columns, at)

    was = {name: getattr(row, name) for name in columns}
    changed = {name: value for name, value in columns.items() if value != was[name]}
    if not changed:
        return row
    for name, value in changed.items():
        setattr(row, name, value)
    row.search_text = search_text_of(row)
    row.save()
    audit_record(
        action="fitting.player.changed",
        subject=row,
        before={name: was[name] for name in changed},
        after=changed,
        by=by,
        at=at,
    )
    return row


@transaction.atomic
def player_merge(*, keep: Player, duplicate: Player, by: Actor, at: datetime) -> Player:
    """Join two records of one person: visits, clubs and consents go to the one that is kept.

    What the kept record leaves empty is taken over; nothing in it is overwritten. The duplicate
    stays, points to the kept one and is shown nowhere. Of two answers about one consent the
    later counts. Raises Refused, StateRefused. Writes Player, Visit, Club, Consent, AuditEntry.
    """
    rows = {
        row.pk: row
        for row in Player.objects.select_for_update()
        .filter(pk__in=[keep.pk, duplicate.pk])
        .order_by("pk")
    }
    kept, other = rows[keep.pk], rows[duplicate.pk]
    FITTING_POLICY.require(by, FittingAction.PLAYER_MERGE)
    if kept.pk == other.pk:
        raise StateRefused("These are one and the same record.")
    if kept.merged_into_id is not None or other.merged_into_id is not None:
        raise StateRefused("One of these records was merged already.")

    moved = {
        "visits": other.visits.update(player=kept),
        "clubs": other.clubs.update(player=kept),
        "consents": _unite_consents(kept, other),
    }
    taken_over = _fill_gaps(kept, other)
    kept.search_text = search_text_of(kept)
    kept.save()
    other.merged_into = kept
    other.save(update_fields=["merged_into"])
    audit_record(
        action="fitting.player.merged",
        subject=kept,
        before={"duplicate": other.pk},
        after=moved | {"taken_over": taken_over},
        by=by,
        at=at,
    )
    return kept


@transaction.atomic
def consent_record(
    *, player: Player, about: str, text_version: str, given_by: str, by: Actor, at: datetime
) -> Consent:
    """Write down a consent; one that is in force already is given back as it is.

    Raises Refused, FieldsRefused. Writes Consent, AuditEntry.
    """
    row = Player.objects.select_for_update().get(pk=player.pk)
    FITTING_POLICY.require(by, FittingAction.CONSENT_RECORD)
    _refuse_consent(row, about, given_by)
    known = consent_in_force(row, about)
    if known is not None:
        return known

    consent = Consent.objects.create(
        player=row,
        about=about,
        text_version=text_version,
        given_by=given_by,
        given_at=at,
        created_at=at,
        created_by=by.name,
    )
    audit_record(
        action="fitting.consent.recorded",
        subject=consent,
        after={"player": row.pk, "about": about, "text": text_version, "given_by": given_by},
        by=by,
        at=at,
    )
    return consent


@transaction.atomic
def consent_withdraw(*, consent: Consent, by: Actor, at: datetime) -> Consent:
    """Write down that a consent was taken back; what was agreed and when stays readable.

    Letters to the player that have not left are stopped where it was the one to e-mail.
    Raises Refused. Writes Consent, OutgoingMessage, AuditEntry.
    """
    row = Consent.objects.select_for_update().get(pk=consent.pk)
    FITTING_POLICY.require(by, FittingAction.CONSENT_RECORD)
    if row.withdrawn_at is not None:
        return row
    row.withdrawn_at = at
    row.save(update_fields=["withdrawn_at"])
    address = letter_address(row.player)
    if row.about == Consent.About.EMAIL and address:
        messages_to_withdraw(address=address, by=by, at=at)
    audit_record(
        action="fitting.consent.withdrawn",
        subject=row,
        before={"withdrawn_at": None},
        after={"withdrawn_at": at, "about": row.about},
        by=by,
        at=at,
    )
    return row


def phone_normalised(typed: str) -> str:
    """A telephone number as E.164, `+353861234567`; empty stays empty.

    A number without its country's code is read as one of the shop's own country.
    Raises FieldsRefused.
    """
    if not typed.strip():
        return ""
    region = str(settings_in_force()["shop.phone_region"])
    try:
        number = phonenumbers.parse(typed, region)
    except phonenumbers.NumberParseException:
        number = None
    if number is None or not phonenumbers.is_possible_number(number):
        raise FieldsRefused(
            {"phone": "This is no telephone number. From abroad, begin with + and the country."}
        )
    return phonenumbers.format_number(number, phonenumbers.PhoneNumberFormat.E164)


def search_text_of(player: Player) -> str:
    """Name, telephone number (as dialled from abroad and from home) and e-mail, folded."""
    parts = [folded(str(player)), folded(f"{player.family_name} {player.given_name}")]
    if player.phone:
        number = phonenumbers.parse(player.phone)
        national = phonenumbers.format_number(number, phonenumbers.PhoneNumberFormat.NATIONAL)
        parts += [player.phone.lstrip("+"), "".join(c for c in national if c.isdigit())]
    parts += [each.casefold() for each in (player.email, player.guardian_email) if each]
    return "\n".join(parts)


def _columns(values: Values) -> dict[str, Any]:
    """The columns to write, or FieldsRefused with every sentence at once."""
    given = asdict(values) if isinstance(values, PlayerValues) else dict(values)
    unknown = given.keys() - set(COLUMNS)
    if unknown:
        raise ValueError(f"a player has no {', '.join(sorted(unknown))}")
    columns = asdict(PlayerValues(**given))
    for name, value in columns.items():
        if isinstance(value, str):
            columns[name] = value.strip()
    if not columns["carry_unit"]:
        shop = the_shop()
        columns["carry_unit"] = shop.carry_unit if shop else "yd"
    errors = _refusals(columns)
    try:
        columns["phone"] = phone_normalised(columns["phone"])
    except FieldsRefused as refused:
        errors |= refused.errors
    if errors:
        raise FieldsRefused(errors)
    return columns


def _refuse_unborn(columns: Mapping[str, Any], at: datetime) -> None:
    """A player has no location, so a day that has begun anywhere on Earth is taken."""
    born = columns["birth_date"]
    if born is not None and born > (at + timedelta(hours=14)).date():
        raise FieldsRefused(
            {"birth_date": "This day is still to come."}, code="players.born_in_future"
        )


def _refusals(columns: Mapping[str, Any]) -> dict[str, str]:
    errors: dict[str, str] = {}
    for name, what in (("given_name", "given name"), ("family_name", "family name")):
        if not columns[name]:
            errors[name] = f"Type the {what}."
    if columns["hand"] not in Hand.values:
        errors["hand"] = "Right or left: from which side does this player hit?"
    if columns["kind"] not in PlayerKind.values:
        errors["kind"] = "Choose what lengths and weights are judged by."
    if columns["kind"] == PlayerKind.JUNIOR and not columns["guardian_name"]:
        errors["guardian_name"] = "A child needs a guardian's name."
    for name, (low, high, unit) in BELIEVABLE.items():
        value = columns[name]
        if value is not None and not low <= value <= high:
            errors[name] = f"That is not believable: {low} to {high}{unit}."
    return errors


def _refuse_consent(player: Player, about: str, given_by: str) -> None:
    errors: dict[str, str] = {}
    is_child = player.kind == PlayerKind.JUNIOR
    if about not in Consent.About.values:
        errors["about"] = "Choose what the consent is about."
    if given_by not in Consent.GivenBy.values:
        errors["given_by"] = "Say who agreed."
    elif is_child and given_by != Consent.GivenBy.GUARDIAN:
        errors["given_by"] = "For a child a guardian agrees."
    elif is_child and not player.guardian_name:
        errors["given_by"] = "Write down the guardian's name first."
    if about == Consent.About.EMAIL and not (player.guardian_email if is_child else player.email):
        whose = "the guardian's" if is_child else "the player's"
        errors["about"] = f"Write down {whose} e-mail address first."
    if errors:
        raise FieldsRefused(errors)


def _unite_consents(kept: Player, other: Player) -> int:
    """Bring the consents together so that one stays in force, unless a later word took it back."""
    moved = 0
    for about in Consent.About.values:
        rows = list(Consent.objects.filter(player__in=[kept, other], about=about))
        taken_back = max((row.withdrawn_at for row in rows if row.withdrawn_at), default=None)
        in_force = sorted(
            (row for row in rows if row.withdrawn_at is None), key=lambda row: row.given_at
        )
        for row in in_force:
            is_newest = row is in_force[-1]
            if not is_newest or (taken_back is not None and taken_back >= row.given_at):
                # Replaced by the newer one, or taken back later on the other record.
                row.withdrawn_at = in_force[-1].given_at if not is_newest else taken_back
                row.save(update_fields=["withdrawn_at"])
        moved += Consent.objects.filter(player=other, about=about).update(player=kept)
    return moved


def _fill_gaps(kept: Player, other: Player) -> list[str]:
    """Take over what the kept record leaves empty; answer the names of those columns."""
    taken = []
    for name in COLUMNS:
        if name == "as_typed":
            kept.as_typed = {**other.as_typed, **kept.as_typed}
        elif getattr(kept, name) in (None, "") and getattr(other, name) not in (None, ""):
            setattr(kept, name, getattr(other, name))
            taken.append(name)
    return taken
