"""The as-built record of an order as plain values, for the player's sheet: frozen with the mail."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from fitshop.selectors import the_shop
from orders.models import BuildOrder, OrderClub
from sessions.maths.shown import show_degrees, show_length, show_mass, show_swing_weight
from sessions.rules.wording import listed


def as_built_values(order: BuildOrder) -> dict[str, Any]:
    """What the sheet says: texts only, so that it reads the same whenever it is rendered."""
    shop = the_shop()
    unit = shop.length_unit if shop else "in"
    revision = order.revisions.get(is_current=True)
    clubs = [_club_values(club, unit) for club in revision.clubs.prefetch_related("concessions")]
    handed = order.handed_over_at
    zone = order.location.zone_info
    return {
        "number": order.number,
        "letter": revision.letter,
        "player": revision.player_name,
        "shop": shop.name if shop else "",
        "paper": shop.paper if shop else "A4",
        "date": f"{handed.astimezone(zone):%-d %B %Y}" if handed else "",
        "clubs": clubs,
    }


def _club_values(club: OrderClub, unit: Any) -> dict[str, Any]:
    return {
        "slot": club.slot,
        "name": club.name,
        "head": club.head_name,
        "hand": club.get_hand_display(),
        "loft": _degrees(club.as_built_loft_deg, club.target_loft_deg),
        "stamped": (
            f"stamped {show_degrees(club.stamped_loft_deg)}"
            if club.stamped_loft_deg is not None
            else ""
        ),
        "bounce": bounce_built(club),
        "lie": _degrees(club.as_built_lie_deg, club.target_lie_deg),
        "length": (
            show_length(club.as_built_length_mm, unit)
            if club.as_built_length_mm is not None
            else "not measured"
        ),
        "swing_weight": (
            show_swing_weight(club.as_built_swing_weight_points)
            if club.as_built_swing_weight_points is not None
            else "not measured"
        ),
        "mass": show_mass(club.as_built_mass_g)
        if club.as_built_mass_g is not None
        else "not measured",
        "shaft": club.shaft_name or "as it was",
        "grip": _grip_words(club),
        "accepted": listed([each.get_measure_display() for each in club.concessions.all()]),
    }


def bounce_built(club: OrderClub) -> str:
    """Measured where there is a gauge, else what the bend makes of the stamp, said as such."""
    if club.as_built_bounce_deg is not None:
        return f"{show_degrees(club.as_built_bounce_deg)}°"
    known = (club.stamped_bounce_deg, club.stamped_loft_deg, club.as_built_loft_deg)
    if any(figure is None for figure in known):
        return "not measured"
    bounce, stamped, built = (Decimal(figure) for figure in known if figure is not None)
    return f"{show_degrees(bounce + built - stamped)}° (reckoned from the bend)"


def _grip_words(club: OrderClub) -> str:
    if not club.grip_name:
        return "as it was"
    extra = club.grip_extra_wraps
    return f"{club.grip_name}, base + {extra} extra"


def _degrees(built: Decimal | None, target: Decimal) -> str:
    if built is None:
        return f"not measured (asked for {show_degrees(target)}°)"
    return f"{show_degrees(built)}°"
