"""The dry swing weight and the weight in the hosel, in words: one place for page and ticket."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any, Literal

from fitshop.setting import Value
from orders.models import OrderClub
from orders.models.bench import Measure
from orders.rules.dry_weight import WeightAnswer, dry_weight, weight_headline, weight_words
from orders.selectors.club_balance import dry_parts_of, points_words
from orders.selectors.figures import TOLERANCES
from orders.selectors.holds import Weighing, dry_figures, step_value, weighing_of
from sessions.maths.shown import show_length, show_mass, show_swing_weight
from sessions.rules.dry_weight import MM_PER_INCH, epoxy_points
from sessions.rules.facts import limits_from
from sessions.rules.finished_club import counted_words
from sessions.rules.wording import figure

# What changes a club's balance. Common practice: nothing else is done for it.
WAYS_OUT = {
    WeightAnswer.TOO_HEAVY: "A lighter head or a heavier grip, or a fitter accepts it.",
    WeightAnswer.TOO_LIGHT: "A heavier head or a lighter grip, or a fitter accepts it.",
}
NEVER = "Never ground, drilled or shortened for balance."


def dry_values(
    club: OrderClub, settings: Mapping[str, Value], unit: Literal["in", "mm"]
) -> dict[str, Any]:
    """The swing weight: asked for, foretold, to be read before gluing, and as it was read.

    `forecast` and `aim` are without epoxy, as the scale has them then; `to_add` counts it in:
    foretold from the parts until the scale was read, worked out from its reading from then on.
    """
    parts, target = dry_parts_of(club), club.target_swing_weight_points
    limits = limits_from(settings)
    fixings = limits.fixings()
    read, scale = dry_figures(club)
    added = step_value(club, "added_g")
    found: dict[str, Any] = {
        "target": points_words(target),
        "forecast": None,
        "aim": None,
        "to_add": None,
        "epoxy": show_mass(limits.epoxy_g) if limits.epoxy_g else None,
        "counted": "",
        "most": show_mass(limits.most_added_g),
        "read": points_words(sum(read, Decimal(0)) / len(read)) if read else None,
        "scale": f"{figure(scale)} {'point' if scale == 1 else 'points'}" if scale else "",
        "added": None if added is None else show_mass(added),
        "weighing": None,
    }
    if target is not None and fixings.epoxy_g:
        found["aim"] = show_swing_weight(float(target) - epoxy_points(parts, fixings))
    forecast = dry_weight(parts, fixings, target_points=target, most_added_g=limits.most_added_g)
    if forecast is not None:
        found["forecast"] = show_swing_weight(forecast.dry_points)
        found["counted"] = counted_words(parts, fixings)
        if forecast.added is not None and target is not None:
            found["to_add"] = weight_words(
                forecast.added,
                target_points=target,
                allowed_points=Decimal(str(settings[TOLERANCES[Measure.SWING_WEIGHT]])),
            )
    if (weighing := weighing_of(club, settings)) is not None:
        found["weighing"] = weighing_words(weighing, unit)
        found["to_add"] = found["weighing"]["headline"]
    return found


def weighing_words(weighing: Weighing, unit: Literal["in", "mm"]) -> dict[str, Any]:
    """What the reading asks for: a headline, where the weight goes, what to do if it can't be."""
    found = weighing.worked_out
    place = show_length(Decimal(repr(found.reading.at_in * MM_PER_INCH)), unit)
    glued = show_swing_weight(weighing.glued_points)
    hold = weighing.hold
    return {
        "headline": weight_headline(found),
        "read": show_swing_weight(found.reading.points),
        "place": f"In the hosel, {place} from the butt end" if found.to_add_g else "",
        "is_off": weighing.is_off,
        "glued": glued if weighing.added_g is not None else "",
        "way_out": WAYS_OUT.get(found.answer, ""),
        "never": NEVER if hold is not None else "",
        "accepted_by": hold.concession.signed_by if hold and hold.concession else "",
        "reason": hold.concession.reason if hold and hold.concession else "",
        "hold": hold,
    }
