"""What the club's page shows of its cure."""

from __future__ import annotations

from datetime import tzinfo
from typing import Any

from orders.flow import ClubState
from orders.forms import CorrectForm, TemperatureForm
from orders.models import OrderClub
from orders.selectors.cures import Cure, cure_of, epoxy_step


def cure_context(club: OrderClub, zone: tzinfo) -> dict[str, Any]:
    """The cure and its forms while it is not tested; nothing for a club that isn't glued."""
    step = epoxy_step(club)
    if step is None:
        return {}
    cure = cure_of(step)
    context: dict[str, Any] = {"facts": cure, "end": cure.end, "glued_by": step.done_by}
    if club.state == ClubState.CURING:
        context |= {
            "temperature_form": TemperatureForm(prefix="cure"),
            "correct_form": CorrectForm(
                prefix="correct", shown=times_read(cure, zone), initial=typed_before(cure)
            ),
        }
    return context


def times_read(cure: Cure, zone: tzinfo) -> list[str]:
    """When each temperature was read, the first at the mixing."""
    first, *later = cure.temperatures
    shown = [f"mixed {first.read_at.astimezone(zone):%a %H:%M}"]
    return shown + [f"read {each.read_at.astimezone(zone):%a %H:%M}" for each in later]


def typed_before(cure: Cure) -> dict[str, Any]:
    first, *later = (each.celsius for each in cure.temperatures)
    return {
        "temperature_c": first,
        "resin": cure.resin_id or None,
        "batch": cure.batch,
        "expires_on": cure.expires_on,
        "hours": cure.hours,
    } | {f"temperature_{place}": celsius for place, celsius in enumerate(later, start=1)}
