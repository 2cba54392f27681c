"""The as-built record of an order as plain values, for the player's sheet: frozen with the mail.

A lost club is built again from it, so it says what was asked for beside what came out, and what
the club was made of.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any, Literal

from fitshop.selectors import the_shop
from fitshop.setting import Value
from orders.models import BuildOrder, Concession, OrderClub
from orders.models.bench import Measure, Step
from orders.rules.lengths import HOW
from orders.selectors.figures import Figure, figures_of, settings_of
from orders.selectors.neighbours import step_player_words, steps_of
from sessions.maths.shown import show_degrees, show_length, show_mass, show_swing_weight
from sessions.models.words import ClubSource

Unit = Literal["in", "mm"]
NOT_MEASURED = "not measured"


def as_built_values(order: BuildOrder) -> dict[str, Any]:
    """What the sheet says: texts only, so that it reads the same whenever it is rendered."""
    shop = the_shop()
    unit: Unit = "mm" if shop is not None and shop.length_unit == "mm" else "in"
    revision = order.revisions.get(is_current=True)
    settings = settings_of(revision).values
    rows = revision.clubs.prefetch_related("concessions", "readings__gauge", "steps")
    handed = order.handed_over_at
    zone = order.location.zone_info
    return {
        "number": order.number,
        "letter": revision.letter,
        "player": revision.player_name,
        "hand": revision.get_hand_display(),
        "hand_letter": revision.hand[0].upper(),
        "shop": shop.name if shop else "",
        "paper": shop.paper if shop else "A4",
        "date": f"{handed.astimezone(zone):%-d %B %Y}" if handed else "",
        "clubs": [_club_values(club, unit, settings) for club in rows],
        "steps_accepted": [
            step_player_words(step, unit)
            for step in steps_of(revision, settings)
            if step.concession is not None
        ],
    }


def _club_values(club: OrderClub, unit: Unit, settings: Mapping[str, Value]) -> dict[str, Any]:
    added = _weight_added(club)
    is_glued = club.source == ClubSource.NEW or club.shaft_name != ""
    return {
        "slot": club.slot,
        "name": club.name,
        "head": club.head_name,
        "hand": club.get_hand_display(),
        "loft": _built(Measure.LOFT, club.as_built_loft_deg, unit),
        "loft_asked": said_of(Measure.LOFT, club.target_loft_deg, unit),
        "stamped": (
            f"stamped {show_degrees(club.stamped_loft_deg)}"
            if club.stamped_loft_deg is not None
            else ""
        ),
        "bounce": bounce_built(club),
        "lie": _built(Measure.LIE, club.as_built_lie_deg, unit),
        "lie_asked": said_of(Measure.LIE, club.target_lie_deg, unit),
        "length": _built(Measure.LENGTH, club.as_built_length_mm, unit),
        "length_asked": said_of(Measure.LENGTH, club.target_length_mm, unit),
        "length_how": HOW[club.length_method],
        "swing_weight": _built(Measure.SWING_WEIGHT, club.as_built_swing_weight_points, unit),
        "swing_weight_asked": _asked(Measure.SWING_WEIGHT, club.target_swing_weight_points, unit),
        "mass": _built(Measure.TOTAL_MASS, club.as_built_mass_g, unit),
        "mass_asked": _asked(Measure.TOTAL_MASS, club.target_mass_g, unit),
        "shaft": club.shaft_name or "as it was",
        "tip": _tip_words(club, unit) if is_glued else "as it was",
        "ferrule": (club.ferrule or "none noted") if is_glued else "as it was",
        "added": (added or "none noted") if is_glued else "as it was",
        "grip": _grip_words(club),
        "logo": club.grip_logo if club.grip_name else "as it was",
        "stamping": club.stamping.strip() or "none",
        "accepted": [
            _accepted(figure, unit)
            for figure in figures_of(club, settings, length_unit=unit)
            if figure.concession is not None
        ],
    }


def said_of(measure: str, value: Decimal, unit: Unit) -> str:
    """A figure of one measure as people read it: `54.5°`, `35 1/4 in`, `D4`, `452 g`."""
    match Measure(measure):
        case Measure.LOFT | Measure.LIE | Measure.BOUNCE:
            return f"{show_degrees(value)}°"
        case Measure.LENGTH:
            return show_length(value, unit)
        case Measure.SWING_WEIGHT:
            return show_swing_weight(value)
        case Measure.GRIP_DIAMETER:
            return f"{value / Decimal('25.4'):.3f} in" if unit == "in" else f"{value:.2f} mm"
        case _:
            return show_mass(value)


def _built(measure: Measure, value: Decimal | None, unit: Unit) -> str:
    return NOT_MEASURED if value is None else said_of(measure, value, unit)


def _asked(measure: Measure, value: Decimal | None, unit: Unit) -> str:
    return "" if value is None else said_of(measure, value, unit)


def _accepted(figure: Figure, unit: Unit) -> dict[str, str]:
    """A difference that somebody stood for: what came out, and the sentence that goes with it."""
    conceded = figure.concession
    assert conceded is not None
    return {
        "what": figure.measure.label,
        "came": said_of(figure.measure, conceded.accepted_value, unit),
        "said": player_words_of(conceded, unit),
    }


def player_words_of(conceded: Concession, unit: Unit) -> str:
    """What the player reads of an accepted difference: never the shop's own reason."""
    return conceded.player_words or suggested_words(
        Measure(conceded.measure),
        target=conceded.target,
        came=conceded.accepted_value,
        by=conceded.signed_by,
        unit=unit,
    )


def suggested_words(
    measure: Measure, *, target: Decimal, came: Decimal, by: str, unit: Unit
) -> str:
    """A plain sentence for the player, from the figures alone."""
    asked, built = said_of(measure, target, unit), said_of(measure, came, unit)
    return f"The {measure.label} came out at {built} instead of {asked}; {by} accepted it."


def _weight_added(club: OrderClub) -> str:
    """What went into the hosel, as the bench wrote it at the dry swing weight."""
    row = next((step for step in club.steps.all() if step.step == Step.DRY_WEIGHT), None)
    typed = None if row is None else row.values.get("added_g")
    added = Decimal(str(typed or 0))
    return show_mass(added) if added else ""


def _tip_words(club: OrderClub, unit: Unit) -> str:
    if club.tip_kind == "taper":
        return "taper tip, not trimmed"
    if club.tip_trim_mm == 0:
        return "not trimmed"
    return f"{show_length(club.tip_trim_mm, unit)} trimmed off the tip"


def bounce_built(club: OrderClub) -> str:
    """Measured where there is a gauge, else what the bend makes of the stamp, said as such."""
    if club.as_built_bounce_deg is not None:
        return f"{show_degrees(club.as_built_bounce_deg)}°"
    known = (club.stamped_bounce_deg, club.stamped_loft_deg, club.as_built_loft_deg)
    if any(figure is None for figure in known):
        return "not measured"
    bounce, stamped, built = (Decimal(figure) for figure in known if figure is not None)
    return f"{show_degrees(bounce + built - stamped)}° (worked out, not measured)"


def _grip_words(club: OrderClub) -> str:
    if not club.grip_name:
        return "as it was"
    lower = club.grip_lower_extra_wraps
    extra = f"base tape and {club.grip_extra_wraps} extra"
    return f"{club.grip_name}, {extra}" + (f", lower hand {lower} more" if lower else "")
