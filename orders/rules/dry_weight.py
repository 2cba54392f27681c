"""What the ticket says of the weight in the hosel; the forecast itself is the fitting room's.

`DryParts` and `dry_weight` come from `sessions.rules.dry_weight`, so that a spec and its ticket
never disagree on whether a swing weight can be reached.
"""

from __future__ import annotations

from decimal import Decimal

from sessions.maths.balance import AddedWeight
from sessions.maths.shown import show_mass, show_swing_weight
from sessions.rules.dry_weight import DryParts, DryWeight, Fixings, dry_weight

__all__ = ["DryParts", "DryWeight", "Fixings", "dry_weight", "weight_words"]


def weight_words(
    added: AddedWeight,
    *,
    target_points: Decimal | None = None,
    allowed_points: Decimal | int = 0,
) -> str:
    """What goes into the hosel, or why the target can't be reached and what can.

    What can be reached is good enough within `allowed_points` of the target.

    >>> weight_words(AddedWeight(4.21, 9.0, True, 4.0))
    'about 4.2 g'
    >>> weight_words(AddedWeight(12.0, 9.0, False, 2.5))
    'D2.5 is the most with 9 g: change a part, or have the swing weight revised'
    """
    if added.is_allowed:
        grams = max(added.mass_g, 0.0)
        return "none" if round(grams, 1) == 0 else f"about {show_mass(grams)}"
    reached = show_swing_weight(added.reached_points)
    near = target_points is not None and (
        abs(Decimal(str(added.reached_points)) - target_points) <= allowed_points
    )
    if near:
        weight = "none" if added.mass_g < 0 else show_mass(added.most_allowed_g)
        return f"{weight}: {reached} is within what is allowed"
    if added.mass_g < 0:
        return f"{reached} with nothing added: a lighter head or a heavier grip, or have it revised"
    most = show_mass(added.most_allowed_g)
    return f"{reached} is the most with {most}: change a part, or have the swing weight revised"
