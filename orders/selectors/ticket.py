"""Everything a ticket says, in words: nothing is left to be worked out in the head.

None stands for a figure that isn't known or not read yet: the ticket shows a box for it.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from decimal import Decimal
from typing import Any, Literal

from fitshop.selectors import the_shop
from fitshop.setting import Value
from orders.models import BuildOrder, OrderClub, OrderRevision
from orders.models.bench import Step
from orders.rules.dry_weight import DryParts, dry_weight, weight_words
from orders.selectors.as_built import bounce_built
from orders.selectors.figures import bend_of, settings_of, work_of
from sessions.maths.bending import bounce_after
from sessions.maths.cutting import TipKind, nearest_sixteenth, shaft_cut
from sessions.maths.errors import MathsError
from sessions.maths.shown import show_degrees, show_length, show_mass, show_swing_weight
from sessions.models.words import ClubSource, LengthMethod
from sessions.rules.wording import bend_text, figure

Unit = Literal["in", "mm"]


def ticket_values(revision: OrderRevision, *, printed_at: datetime) -> dict[str, Any]:
    """The ticket of one revision, replaced or not, as plain values for its document."""
    order = revision.order
    shop = the_shop()
    unit: Unit = "mm" if shop is not None and shop.length_unit == "mm" else "in"
    settings = settings_of(revision).values
    zone = order.location.zone_info
    clubs = [
        club_values(club, unit, settings, zone)
        for club in revision.clubs.select_related("spec_club").prefetch_related(
            "steps", "readings__gauge", "concessions"
        )
    ]
    return {
        "number": order.number,
        "letter": revision.letter,
        "code": f"ORDER {order.number} {revision.letter}",
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
        "allowed": _allowed(settings, unit),
        "clubs": clubs,
        "columns": len(clubs),
        **_signatures(revision, zone),
        **_neighbours(order, revision),
    }


def club_values(
    club: OrderClub, unit: Unit, settings: Mapping[str, Value], zone: Any
) -> dict[str, Any]:
    """One club's column."""
    done = {step.step: step for step in club.steps.all()}
    work = work_of(club)
    return {
        "slot": club.slot,
        "name": club.name,
        "hand": club.hand,
        "hand_letter": club.hand[0].upper(),
        "is_own": club.source == ClubSource.OWN_ADJUSTED,
        "is_glued": work.is_glued,
        "is_gripped": work.is_gripped,
        "role": club.get_role_display(),
        "head": club.head_name,
        "sole": club.sole_words,
        "stamped_bounce": _plain(club.stamped_bounce_deg),
        "shaft": club.shaft_name,
        "grip": club.grip_name,
        "ferrule": club.ferrule,
        "notes": club.notes,
        "stamping": club.stamping.strip() or "none",
        "picked": Step.PICKED in done,
        "received": _received(club),
        "bend": _bend(club, settings),
        "bounce": _bounce(club),
        "cut": _cut(club, unit),
        "depth": _step_length(done.get(Step.HOSEL), "depth_mm", unit),
        "bore": _inch_or_mm(club.bore_mm, unit),
        "dry": _dry(club, settings, done.get(Step.DRY_WEIGHT)),
        "epoxy": _epoxy(club, done.get(Step.EPOXY), zone),
        "wraps": _wraps(club),
        "logo": club.grip_logo,
        "core": _inch_or_mm(club.grip_core_mm, unit),
        "target": _target(club, unit),
        "built": _built(club, unit),
    }


def _day(moment: datetime) -> str:
    return f"{moment.day} {moment:%b %Y}"


def _plain(value: Decimal | None) -> str | None:
    return None if value is None else show_degrees(value)


def _mass(value: Decimal | None) -> str | None:
    return None if value is None else show_mass(value)


def _inch_or_mm(value: Decimal | None, unit: Unit) -> str | None:
    """A diameter: thousandths of an inch, or hundredths of a millimetre."""
    if value is None:
        return None
    return f"{value / Decimal('25.4'):.3f} in" if unit == "in" else f"{value:.2f} mm"


def _received(club: OrderClub) -> dict[str, str | None]:
    bay = club.spec_club
    said = [
        f"{word} {show_degrees(value)}"
        for word, value in (("loft", bay.as_received_loft_deg), ("lie", bay.as_received_lie_deg))
        if value is not None
    ]
    return {
        "loft": _plain(club.as_received_loft_deg),
        "lie": _plain(club.as_received_lie_deg),
        "mass": _mass(club.as_received_mass_g),
        "stated_mass": _mass(club.head_mass_g),
        "bay": ", ".join(said),
    }


def _bend(club: OrderClub, settings: Mapping[str, Value]) -> dict[str, Any]:
    bend = bend_of(club, settings)
    planned = []
    if club.stamped_loft_deg is not None:
        planned.append(_planned(club.target_loft_deg - club.stamped_loft_deg, "loft"))
    if club.stock_lie_deg is not None:
        planned.append(_planned(club.target_lie_deg - club.stock_lie_deg, "lie"))
    return {
        "loft": None if bend.loft_deg is None else _bend_words(bend.loft_deg, "loft"),
        "lie": None if bend.lie_deg is None else _bend_words(bend.lie_deg, "lie"),
        "target_loft": show_degrees(club.target_loft_deg),
        "target_lie": show_degrees(club.target_lie_deg),
        "planned": ", ".join(planned),
        "refusals": list(bend.refusals),
        "most": _most(club),
        "earlier": len(club.earlier_bends),
    }


def _bend_words(bend: Decimal, axis: Literal["loft", "lie"]) -> str:
    return bend_text(bend, axis)


def _planned(bend: Decimal, axis: Literal["loft", "lie"]) -> str:
    return f"{axis} {bend_text(bend, axis)}"


def _most(club: OrderClub) -> str:
    ways = {
        "weak": club.limit_weak_deg,
        "strong": club.limit_strong_deg,
        "upright": club.limit_upright_deg,
        "flat": club.limit_flat_deg,
    }
    limits = set(ways.values())
    if len(limits) == 1:
        limit = limits.pop()
        if limit == 0:
            return "Not bent: ask the maker first"
        return f"Most {figure(limit)}° each way, loft and lie together"
    return "Most " + ", ".join(f"{figure(limit)} {way}" for way, limit in ways.items())


def _bounce(club: OrderClub) -> dict[str, str | None]:
    if club.as_built_bounce_deg is not None:
        return {"figure": bounce_built(club), "words": "measured as built"}
    if club.stamped_bounce_deg is None or club.stamped_loft_deg is None:
        return {"figure": None, "words": "stamp not known"}
    bend = club.target_loft_deg - club.stamped_loft_deg
    after = bounce_after(club.stamped_bounce_deg, bend)
    words = (
        "as stamped"
        if bend == 0
        else f"stamped {figure(club.stamped_bounce_deg)}, bent {bend_text(bend)}"
    )
    return {"figure": f"{figure(after)}°", "words": words}


def _cut(club: OrderClub, unit: Unit) -> dict[str, Any]:
    """Butt cut and what is left, or a sentence, or None where a figure isn't known."""
    tip = (
        "tip none (taper)"
        if club.tip_kind == "taper"
        else f"tip {show_length(club.tip_trim_mm, unit)}"
        if club.tip_trim_mm != 0
        else "tip none"
    )
    known = (club.shaft_raw_length_mm, club.bore_to_ground_mm, club.grip_cap_mm)
    if club.shaft_raw_length_mm is None or any(value is None for value in known):
        return {"tip": tip, "butt": None, "left": None, "raw": None, "refusal": ""}
    assert club.bore_to_ground_mm is not None
    assert club.grip_cap_mm is not None
    tip_kind: TipKind = "taper" if club.tip_kind == "taper" else "parallel"
    try:
        cut = shaft_cut(
            club_length_mm=club.target_length_mm,
            raw_length_mm=club.shaft_raw_length_mm,
            bore_bottom_to_ground_mm=club.bore_to_ground_mm,
            cap_mm=club.grip_cap_mm,
            tip_kind=tip_kind,
            tip_trim_mm=club.tip_trim_mm,
        )
    except MathsError as refusal:
        return {"tip": tip, "butt": None, "left": None, "raw": None, "refusal": str(refusal)}
    left = nearest_sixteenth(cut.cut_length_mm) if unit == "in" else cut.cut_length_mm
    butt = club.shaft_raw_length_mm - club.tip_trim_mm - left
    return {
        "tip": tip,
        "butt": show_length(butt, unit),
        "left": show_length(left, unit),
        "raw": show_length(club.shaft_raw_length_mm, unit),
        "refusal": "",
    }


def _step_length(step: Any, key: str, unit: Unit) -> str | None:
    if step is None or key not in step.values:
        return None
    return show_length(Decimal(step.values[key]), unit)


def _dry(club: OrderClub, settings: Mapping[str, Value], step: Any) -> dict[str, Any]:
    most = Decimal(str(settings["build.most_added_g"]))
    forecast = dry_weight(
        DryParts(
            length_mm=club.target_length_mm,
            head_g=(
                club.as_received_mass_g if club.as_received_mass_g is not None else club.head_mass_g
            ),
            bore_to_ground_mm=club.bore_to_ground_mm,
            shaft_g=club.shaft_mass_g,
            shaft_raw_mm=club.shaft_raw_length_mm,
            shaft_balance_mm=club.shaft_balance_mm,
            tip_trim_mm=club.tip_trim_mm,
            grip_g=club.grip_mass_g,
            grip_length_mm=club.grip_length_mm,
            cap_mm=club.grip_cap_mm,
        ),
        target_points=club.target_swing_weight_points,
        most_added_g=most,
    )
    values = step.values if step is not None else {}
    return {
        "target": _points(club.target_swing_weight_points),
        "forecast": None if forecast is None else show_swing_weight(forecast.points),
        "to_add": (
            None if forecast is None or forecast.added is None else weight_words(forecast.added)
        ),
        "most": show_mass(most),
        "read": _points(Decimal(values["points"])) if values.get("points") else None,
        "added": show_mass(Decimal(values["added_g"])) if values.get("added_g") else None,
    }


def _points(value: Decimal | None) -> str | None:
    return None if value is None else show_swing_weight(value)


def _epoxy(club: OrderClub, step: Any, zone: Any) -> dict[str, str | None]:
    until = club.cure_until.astimezone(zone) if club.cure_until is not None else None
    return {
        "mixed": f"{step.done_at.astimezone(zone):%a %H:%M}" if step else None,
        "temperature": f"{figure(Decimal(step.values['temperature_c']))}" if step else None,
        "until": f"{until:%a} {until.day} {until:%b %H:%M}" if until else None,
    }


def _wraps(club: OrderClub) -> str:
    lower = club.grip_lower_extra_wraps
    said = f"base + {club.grip_extra_wraps} extra"
    return f"{said}, lower hand + {lower}" if lower else said


def _target(club: OrderClub, unit: Unit) -> dict[str, str | None]:
    stamped = club.stamped_loft_deg
    bend = None if stamped is None else club.target_loft_deg - stamped
    return {
        "loft": f"{figure(club.target_loft_deg)}°",
        "loft_words": (
            ""
            if stamped is None or bend is None
            else "as stamped"
            if bend == 0
            else f"stamped {figure(stamped)}, bent {bend_text(bend)}"
        ),
        "lie": f"{figure(club.target_lie_deg)}°",
        "length": show_length(club.target_length_mm, unit),
        "method": "along the shaft" if club.length_method == LengthMethod.RULER else "on 60° plane",
        "swing_weight": _points(club.target_swing_weight_points),
        "mass": _mass(club.target_mass_g),
    }


def _built(club: OrderClub, unit: Unit) -> dict[str, str | None]:
    length = club.as_built_length_mm
    return {
        "loft": _plain(club.as_built_loft_deg),
        "lie": _plain(club.as_built_lie_deg),
        "length": None if length is None else show_length(length, unit),
        "swing_weight": _points(club.as_built_swing_weight_points),
        "mass": _mass(club.as_built_mass_g),
    }


def _allowed(settings: Mapping[str, Value], unit: Unit) -> str:
    def set_to(name: str) -> Decimal:
        return Decimal(str(settings[f"tolerance.{name}"]))

    length = show_length(set_to("length_mm"), unit)
    grip = set_to("grip_diameter_mm")
    grip_words = f"{grip:.1f} mm" if unit == "mm" else _sixty_fourths(grip)
    return (
        f"loft ±{figure(set_to('loft_deg'))}°, lie ±{figure(set_to('lie_deg'))}°, "
        f"length ±{length}, swing weight ±{figure(set_to('swing_weight_points'))} point, "
        f"grip ±{grip_words}, head as received ±{figure(set_to('head_mass_g'))} g, "
        f"whole club ±{figure(set_to('total_mass_g'))} g"
    )


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
            f"Slot {club.slot}, {each.get_measure_display()}: {each.signed_by}, {each.reason}"
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
        "conceded": accepted,
    }


def _neighbours(order: BuildOrder, revision: OrderRevision) -> dict[str, str]:
    letters = sorted(order.revisions.values_list("letter", flat=True))
    here = letters.index(revision.letter)
    return {
        "replaces": letters[here - 1] if here else "",
        "replaced_by": letters[here + 1] if here + 1 < len(letters) else "",
    }
