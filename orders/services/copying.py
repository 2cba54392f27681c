"""Copying a signed spec into the clubs of a revision, and saying what differs from the last one.

What was promised does not move when a catalogue does, so every figure is copied.
"""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from fitshop.refusals import StateRefused
from orders.models import OrderClub, OrderRevision
from sessions.maths.bending import BendLimits
from sessions.maths.shown import show_degrees, show_inches, show_swing_weight
from sessions.models import BagEntry, Club, FinalSpec, Grip, Head, Shaft, SpecClub
from sessions.models.words import ClubSource
from sessions.rules.facts import HeadLimits, MakerLimits, Making, SpecLimits
from sessions.rules.sole_words import sole_words
from sessions.selectors.specs import accepted_of

BUILT_SOURCES = (ClubSource.NEW, ClubSource.OWN_ADJUSTED)
MAKING_BY_WORDS = {making.label: making for making in Making}


def clubs_to_build(spec: FinalSpec) -> list[SpecClub]:
    """The clubs the bench has work on: new ones and own ones that are changed."""
    return [
        club
        for club in spec.clubs.select_related("head", "shaft", "grip", "club__head")
        if club.source in BUILT_SOURCES
    ]


def order_club_from(revision: OrderRevision, club: SpecClub, limits: SpecLimits) -> OrderClub:
    """One club of the spec as the bench will build it, not saved yet.

    Raises StateRefused where a figure is missing without which nothing can be built.
    """
    own = club.club if club.source == ClubSource.OWN_ADJUSTED else None
    head = own.head if own is not None else club.head
    making = (head.making if head else own.making if own else "") or "unknown"
    bends = _bend_limits(head, making, limits)
    return OrderClub(
        revision=revision,
        spec_club=club,
        slot=club.slot,
        name=club.name or (own.label if own else f"Slot {club.slot}"),
        role=club.role,
        source=club.source,
        hand=club.hand,
        head_name=_head_name(head, own),
        sole_words=_sole(head),
        making=making,
        limit_weak_deg=bends.weak_deg,
        limit_strong_deg=bends.strong_deg,
        limit_upright_deg=bends.upright_deg,
        limit_flat_deg=bends.flat_deg,
        earlier_bends=list(own.bends) if own else [],
        head_mass_g=head.mass_g if head else None,
        bore_mm=head.bore_mm if head else None,
        bore_to_ground_mm=head.bore_to_ground_mm if head else None,
        sole_point_mm=head.sole_point_mm if head else None,
        **_asked(club, own),
        **_shaft(club.shaft, club),
        **_grip(club.grip, club),
        ferrule=club.ferrule,
        stamping=club.stamping,
        notes=club.notes,
    )


def _asked(club: SpecClub, own: Club | None) -> dict[str, Any]:
    """Stamped and target figures. An own club keeps what the spec leaves as it is."""
    entry = _last_reading(club, own)
    loft = _first(
        club.target_loft_deg, club.as_received_loft_deg, entry.loft_deg if entry else None
    )
    lie = _first(club.target_lie_deg, club.as_received_lie_deg, entry.lie_deg if entry else None)
    length = _first(club.target_length_mm, entry.length_mm if entry else None)
    for figure, word in ((loft, "loft"), (lie, "lie"), (length, "length")):
        if figure is None:
            raise StateRefused(
                f"Slot {club.slot} has no {word} to build to. Write it into the spec, then order."
            )
    return {
        "stamped_loft_deg": club.stamped_loft_deg,
        "stamped_bounce_deg": club.stamped_bounce_deg,
        "stock_lie_deg": club.stock_lie_deg,
        "target_loft_deg": loft,
        "target_lie_deg": lie,
        "target_length_mm": length,
        "length_method": club.length_method,
        "target_swing_weight_points": club.target_swing_weight_points,
        "target_mass_g": club.target_mass_g,
    }


def _shaft(shaft: Shaft | None, club: SpecClub) -> dict[str, Any]:
    if shaft is None:
        return {}
    pulled = ", out of an older club" if club.shaft_is_pulled else ""
    return {
        "shaft_name": f"{shaft}, {_plain(shaft.mass_g)} g, {shaft.flex}{pulled}"[:140],
        "shaft_material": shaft.material,
        "shaft_raw_length_mm": shaft.raw_length_mm,
        "shaft_mass_g": shaft.mass_g,
        "shaft_balance_mm": shaft.balance_mm,
        "shaft_butt_mm": shaft.butt_mm,
        "tip_kind": shaft.tip_kind,
        "tip_trim_mm": club.tip_trim_mm,
    }


def _grip(grip: Grip | None, club: SpecClub) -> dict[str, Any]:
    if grip is None:
        return {}
    return {
        "grip_name": f"{grip}{', ribbed' if grip.is_ribbed else ', round'}",
        "grip_core_mm": grip.core_mm,
        "grip_outside_mm": grip.outside_mm,
        "grip_lower_outside_mm": grip.lower_outside_mm,
        "grip_mass_g": grip.mass_g,
        "grip_length_mm": grip.length_mm,
        "grip_cap_mm": grip.cap_mm,
        "grip_extra_wraps": club.grip_extra_wraps,
        "grip_lower_extra_wraps": club.grip_lower_extra_wraps,
        "grip_logo": club.grip_logo,
    }


def _bend_limits(head: Head | None, making: str, limits: SpecLimits) -> BendLimits:
    """How far it bends each way: the maker's word where there is one, else the shop's default."""
    maker = (
        MakerLimits(
            weak_deg=head.limit_weak_deg,
            strong_deg=head.limit_strong_deg,
            up_deg=head.limit_upright_deg,
            flat_deg=head.limit_flat_deg,
        )
        if head
        else MakerLimits()
    )
    kind = MAKING_BY_WORDS.get(making, Making.UNKNOWN)
    return limits.bend_limits(HeadLimits(making=kind, maker=maker))


def _head_name(head: Head | None, own: Club | None) -> str:
    if head is not None:
        return str(head)
    words = f"{own.maker} {own.model}".strip() if own else ""
    return words or (own.label if own else "")


def _sole(head: Head | None) -> str:
    if head is None:
        return ""
    return sole_words(
        width_mm=head.sole_width_mm,
        camber=head.camber,
        heel=head.relief_heel,
        toe=head.relief_toe,
        leading=head.relief_leading,
        trailing=head.relief_trailing,
        leading_softened=head.leading_softened,
    )


def _last_reading(club: SpecClub, own: Club | None) -> BagEntry | None:
    if own is None:
        return None
    return own.entries.filter(visit_id=club.spec.visit_id).order_by("-sequence").first()


def _first(*figures: Decimal | None) -> Decimal | None:
    """The first that was measured: zero is a figure too."""
    return next((figure for figure in figures if figure is not None), None)


def _plain(value: Decimal) -> str:
    return show_degrees(value)


def accepted_sentences(spec: FinalSpec) -> list[str]:
    """What someone accepted of the findings this spec was signed with, the last word of each.

    An acceptance that was given in an earlier version holds as long as its numbers do.
    """
    zone = ZoneInfo(spec.visit.location.zone)
    return [
        f"{one.finding.sentence} Accepted by {one.by}: {one.reason} ({_moment(one.at, zone)})"
        for one in accepted_of(spec)
    ]


def _moment(at: datetime, zone: ZoneInfo) -> str:
    """`7 May 2027 at 09:30`, by the clock of the place where it was said."""
    local = at.astimezone(zone)
    return f"{local.day} {local:%b %Y} at {local:%H:%M}"


def _length(value: Decimal) -> str:
    return show_inches(value)


_COMPARED: tuple[tuple[str, str, Any], ...] = (
    ("source", "source", str),
    ("hand", "hand", str),
    ("head_name", "head", str),
    ("target_loft_deg", "loft", lambda value: f"{show_degrees(value)}°"),
    ("target_lie_deg", "lie", lambda value: f"{show_degrees(value)}°"),
    ("target_length_mm", "length", _length),
    ("target_swing_weight_points", "swing weight", show_swing_weight),
    ("target_mass_g", "total mass", lambda value: f"{show_degrees(value)} g"),
    ("shaft_name", "shaft", str),
    ("tip_trim_mm", "tip trim", _length),
    ("grip_name", "grip", str),
    ("grip_extra_wraps", "extra wraps", str),
    ("grip_lower_extra_wraps", "lower-hand extra wraps", str),
    ("grip_logo", "logo", str),
    ("ferrule", "ferrule", str),
    ("stamping", "stamping", str),
    ("notes", "note", str),
)


def club_changes(old: OrderClub | None, new: OrderClub) -> list[str]:
    """What one slot asks for now and asked for before, a sentence for each difference."""
    if old is None:
        return [f"Slot {new.slot} is new: {new.head_name}."]
    said = []
    for field, word, shown in _COMPARED:
        before, after = getattr(old, field), getattr(new, field)
        if before != after:
            said.append(
                f"Slot {new.slot}: {word} {_or_none(after, shown)}, was {_or_none(before, shown)}."
            )
    return said


def _or_none(value: Any, shown: Any) -> str:
    return "none" if value is None or value == "" else str(shown(value)).rstrip(".")
