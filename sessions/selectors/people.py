"""Every read of players and consents that is worth a name, and how a search reads what is typed."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from uuid import UUID

from django.db.models import Q, QuerySet

from fitshop.actor import Actor
from sessions.models import Consent, Player
from sessions.models.words import PlayerKind
from sessions.policy import FITTING_POLICY, FittingAction

# Letters that Unicode does not take apart into a plain letter and its mark.
PLAIN_LETTERS = str.maketrans(
    {"ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe", "ı": "i", "’": "'"}
)
ONLY_A_NUMBER = re.compile(r"[\d\s+()/.-]+")


@dataclass(frozen=True, slots=True)
class Addressee:
    """Who a letter about a player goes to: the player, or a junior's guardian."""

    name: str
    email: str


def folded(text: str) -> str:
    """Lower case, no accents, one space between words: `Séan  Ó Brádaigh` is `sean o bradaigh`."""
    apart = unicodedata.normalize("NFKD", text.casefold().translate(PLAIN_LETTERS))
    plain = "".join(letter for letter in apart if not unicodedata.combining(letter))
    return " ".join(plain.split())


def search_words(typed: str) -> list[str]:
    """What must all be found: a telephone number's digits as one word, else each word folded."""
    text = typed.strip()
    if ONLY_A_NUMBER.fullmatch(text) and any(letter.isdigit() for letter in text):
        digits = "".join(letter for letter in text if letter.isdigit())
        return [digits.removeprefix("00") or digits]
    return folded(text).split()


def players_for(actor: Actor) -> QuerySet[Player]:
    """The shop's players; those merged into another are reached through that one."""
    if not FITTING_POLICY.is_allowed(actor, FittingAction.PLAYERS_VIEW):
        return Player.objects.none()
    return Player.objects.filter(merged_into__isnull=True)


def players_found(actor: Actor, typed: str) -> QuerySet[Player]:
    """Players whose name, telephone number or e-mail holds every word typed, in any order."""
    rows = players_for(actor)
    for word in search_words(typed):
        rows = rows.filter(search_text__contains=word)
    return rows


def players_page(
    actor: Actor, typed: str, *, after: UUID | None, at_most: int
) -> tuple[list[Player], bool]:
    """The players found that come after that one by name, and whether there are more of them."""
    rows = players_found(actor, typed).order_by("family_name", "given_name", "pk")
    last = Player.objects.filter(pk=after).first() if after else None
    if last is not None:
        same_family = Q(family_name=last.family_name)
        same_name = same_family & Q(given_name=last.given_name)
        rows = rows.filter(
            Q(family_name__gt=last.family_name)
            | same_family & Q(given_name__gt=last.given_name)
            | same_name & Q(pk__gt=last.pk)
        )
    found = list(rows[: at_most + 1])
    return found[:at_most], len(found) > at_most


def player_for(actor: Actor, player_id: UUID) -> Player | None:
    """One player, merged ones included (`merged_into` says where to go on), or None."""
    if not FITTING_POLICY.is_allowed(actor, FittingAction.PLAYERS_VIEW):
        return None
    return Player.objects.select_related("merged_into").filter(pk=player_id).first()


def players_alike(
    actor: Actor,
    *,
    given_name: str,
    family_name: str,
    phone: str,
    email: str,
    but: UUID | None = None,
) -> list[Player]:
    """Players who may be the same person: the same telephone number, e-mail or full name."""
    same = Q(search_text__startswith=f"{folded(f'{given_name} {family_name}')}\n")
    if phone:
        same |= Q(phone=phone)
    if email:
        same |= Q(email__iexact=email)
    rows = players_for(actor).filter(same)
    return list((rows.exclude(pk=but) if but else rows)[:5])


def consent_in_force(player: Player, about: str) -> Consent | None:
    return player.consents.filter(about=about, withdrawn_at__isnull=True).first()


def awaits_guardian(player: Player) -> bool:
    """Whether the guardian of a child has still to agree that the shop keeps the record."""
    if player.kind != PlayerKind.JUNIOR:
        return False
    consent = consent_in_force(player, Consent.About.RECORD)
    return consent is None or consent.given_by != Consent.GivenBy.GUARDIAN


def letter_address(player: Player) -> str:
    """The address that letters about a player go to: a junior's to the guardian; "" where none."""
    email: str = player.guardian_email if player.kind == PlayerKind.JUNIOR else player.email
    return email


def letter_refusal(player: Player) -> str | None:
    """Why no letter may go to this player, as a page says it; None where it may.

    A junior's letters go to the guardian and need the guardian's consent.
    """
    is_child = player.kind == PlayerKind.JUNIOR
    consent = consent_in_force(player, Consent.About.EMAIL)
    if consent is None:
        whose = "guardian has" if is_child else "player has"
        return f"The {whose} not agreed to e-mail. Print the spec sheet instead."
    if is_child and consent.given_by != Consent.GivenBy.GUARDIAN:
        return "A child's summary needs the guardian's consent; only the child has agreed."
    if not letter_address(player):
        whose = "guardian's" if is_child else "player's"
        return f"The {whose} e-mail address is not recorded. Print the spec sheet instead."
    if is_child and not player.guardian_name:
        return "The guardian's name is not recorded. Print the spec sheet instead."
    return None


def greeting_of(player: Player) -> str:
    """Whom every letter about a player speaks to: a child's is read by the guardian."""
    if player.kind == PlayerKind.JUNIOR and player.guardian_name:
        return f"{player.guardian_name}, about {player.given_name}'s clubs"
    return str(player.given_name)


def addressee_of(player: Player) -> Addressee | None:
    """Where letters may go; None where `letter_refusal` says why they may not."""
    if letter_refusal(player) is not None:
        return None
    is_child = player.kind == PlayerKind.JUNIOR
    return Addressee(player.guardian_name if is_child else str(player), letter_address(player))
