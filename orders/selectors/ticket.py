"""Everything a ticket says, in words: nothing is left to be worked out in the head.

One sheet holds two clubs side by side, whole; a ticket of more clubs has more sheets.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime
from decimal import Decimal
from typing import Any

from django.urls import reverse

from fitshop.selectors import settings_in_force, the_shop
from fitshop.setting import Value
from orders.models import BuildOrder, OrderClub, OrderRevision
from orders.rules.lengths import HOW, METHODS
from orders.selectors.club_words import Unit, club_values
from orders.selectors.figures import settings_of
from orders.selectors.holds import accepted_words
from orders.selectors.neighbours import open_steps
from orders.selectors.orders import open_wait
from sessions.maths.shown import show_length
from sessions.rules.wording import figure

A_SHEET = 2


def ticket_values(revision: OrderRevision, *, printed_at: datetime) -> dict[str, Any]:
    """The ticket of one revision, replaced or not, as plain values for its document."""
    order = revision.order
    shop = the_shop()
    unit: Unit = "mm" if shop is not None and shop.length_unit == "mm" else "in"
    settings = settings_of(revision).values
    zone = order.location.zone_info
    rows = revision.clubs.select_related("spec_club").prefetch_related(
        "steps", "readings__gauge", "concessions"
    )
    clubs = [club_values(club, unit, settings, zone) for club in rows]
    return {
        "number": order.number,
        "letter": revision.letter,
        "code": f"ORDER {order.number} {revision.letter}",
        "scan": _scanned(order.number, revision.letter),
        "state": order.get_state_display(),
        "is_cancelled": order.state == "cancelled",
        "player": revision.player_name,
        "bench": order.bench,
        "location": order.location.name,
        "note": order.note,
        "hand": revision.hand,
        "hand_letter": revision.hand[0].upper(),
        "due": f"{order.due_on:%a} {order.due_on.day} {order.due_on:%b}",
        "made": _day(revision.made_at.astimezone(zone)),
        "made_by": revision.made_by,
        "printed": f"{_day(printed_at.astimezone(zone))} {printed_at.astimezone(zone):%H:%M}",
        "paper": shop.paper if shop else "A4",
        "why": revision.why,
        "changes": revision.changes,
        "accepted": revision.accepted,
        "waiting": _waiting(order),
        "allowed": _allowed(settings, unit),
        "beside": [step.sentence(unit) for step in open_steps(revision, settings)],
        "measured_how": _measured_how(rows),
        "clubs": clubs,
        "sheets": [clubs[first : first + A_SHEET] for first in range(0, len(clubs), A_SHEET)],
        "columns": len(clubs),
        "bends_are_left": any(club["bend"]["is_left"] for club in clubs),
        **_signatures(revision, zone),
        **_neighbours(order, revision),
    }


def _scanned(number: int, letter: str) -> str:
    """What the code holds: the sheet's address, where the shop has a public one.

    Capitals, since scheme and name mean the same in any case and such a code is smaller.
    """
    origin = str(settings_in_force()["shop.public_address"])
    if not origin:
        return f"ORDER {number} {letter}"
    path = reverse("sheet", kwargs={"number": number, "letter": letter})
    return f"{origin.upper()}{path}"


def _day(moment: datetime) -> str:
    return f"{moment.day} {moment:%b %Y}"


def _allowed(settings: Mapping[str, Value], unit: Unit) -> str:
    def set_to(name: str) -> Decimal:
        return Decimal(str(settings[f"tolerance.{name}"]))

    length = show_length(set_to("length_mm"), unit)
    grip = set_to("grip_diameter_mm")
    grip_words = f"{grip:.1f} mm" if unit == "mm" else _sixty_fourths(grip)
    return (
        f"loft ±{figure(set_to('loft_deg'))}° (steps ±{figure(set_to('loft_step_deg'))}°), "
        f"lie ±{figure(set_to('lie_deg'))}°, "
        f"length ±{length}, swing weight ±{figure(set_to('swing_weight_points'))} point, "
        f"grip ±{grip_words}, head ±{figure(set_to('head_mass_g'))} g, "
        f"whole club ±{figure(set_to('total_mass_g'))} g"
    )


def _measured_how(clubs: Iterable[OrderClub]) -> str:
    """Said once for the whole ticket; each club's own column says which of them is its own."""
    methods = {club.length_method for club in clubs}
    said = "; or ".join(HOW[method] for method in METHODS if method in methods)
    return f"Lie with the score lines level; length {said}."


def _waiting(order: BuildOrder) -> str:
    wait = open_wait(order)
    if wait is None:
        return ""
    day = wait.expected_on
    when = f"expected {day:%a} {day.day} {day:%b}" if day else "no day promised"
    return f"{wait.missing}, {when}"


def _sixty_fourths(value: Decimal) -> str:
    return f"{value / Decimal('25.4') * 64:.0f}/64 in"


def _signatures(revision: OrderRevision, zone: Any) -> dict[str, Any]:
    builders: list[str] = []
    accepted = []
    for club in revision.clubs.all():
        for step in club.steps.all():
            if step.done_by not in builders:
                builders.append(step.done_by)
        accepted += [
            f"Slot {club.slot}, {accepted_words(each)}: {each.signed_by}, {each.reason}"
            for each in club.concessions.all()
        ]
    checks = list(revision.checks.all())
    passed = next((check for check in checks if check.result == "passed"), None)
    same = " (also built)" if passed is not None and passed.same_person_built else ""
    return {
        "built_by": ", ".join(builders),
        "checked_by": (
            f"{passed.signed_by}{same}, {_day(passed.signed_at.astimezone(zone))}" if passed else ""
        ),
        "reworks": [
            f"{check.cause}{': ' + check.note if check.note else ''} ({check.signed_by}, "
            f"{_day(check.signed_at.astimezone(zone))})"
            for check in reversed(checks)
            if check.result == "rework"
        ],
        "conceded": accepted
        + [
            f"Slots {each.slot_above} and {each.slot_below}, step in "
            f"{each.get_measure_display()}: {each.signed_by}, {each.reason}"
            for each in revision.set_concessions.all()
        ],
    }


def _neighbours(order: BuildOrder, revision: OrderRevision) -> dict[str, str]:
    letters = sorted(order.revisions.values_list("letter", flat=True))
    here = letters.index(revision.letter)
    return {
        "replaces": letters[here - 1] if here else "",
        "replaced_by": letters[here + 1] if here + 1 < len(letters) else "",
    }
