"""One club at the bench, in words: its column of the ticket, and its page.

None stands for a figure that isn't known or not read yet: the ticket shows a box for it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any, Literal

from fitshop.selectors import the_shop
from fitshop.setting import Value
from orders.models import OrderClub
from orders.models.bench import Measure, Stage, Step
from orders.rules.head_mass import answer_words, off_words
from orders.rules.lengths import BY_THE_RULES, HOW
from orders.rules.metal import travel_left
from orders.rules.tolerances import BendToMake
from orders.selectors.as_built import bounce_built
from orders.selectors.club_balance import points_words
from orders.selectors.cures import cure_of, is_too_cold
from orders.selectors.dry_words import dry_values
from orders.selectors.figures import (
    TOLERANCES,
    bend_left,
    bend_of,
    butt_measured,
    grip_diameters_of,
    head_limits,
    left_to_bend,
    standing_readings,
    work_of,
)
from orders.selectors.holds import head_off_of
from orders.selectors.lengths import BY, RulerTarget, other_ruler
from orders.selectors.metal import bends_at_bench, head_now, is_read_since_bend
from orders.selectors.permanent import bends_words, permanent_words
from sessions.maths.bending import Bend, BendLimits
from sessions.maths.cutting import TipKind, nearest_sixteenth, shaft_cut
from sessions.maths.errors import MathsError
from sessions.maths.shown import show_degrees, show_length, show_mass
from sessions.models.words import ClubSource
from sessions.rules.bend_does import bend_does, loft_taken_words, offset_words
from sessions.rules.facts import limits_from
from sessions.rules.wording import bend_text, figure

Unit = Literal["in", "mm"]
# A step that is still to be done, as one says it to the builder.
TO_DO = {
    Step.PICKED: "pick the head, say its hand aloud",
    Step.BARE_HEAD: "measure the bare head",
    Step.STAMPED: "stamp and paint",
    Step.BENT_BARE: "bend the bare head, look at the hosel",
    Step.READ_BENT: "read loft and lie after the bend",
    Step.HOSEL: "prepare the hosel",
    Step.TIP_TRIM: "trim the tip",
    Step.TIP: "prepare the tip",
    Step.BUTT_CUT: "dry fit, cut the butt",
    Step.DRY_WEIGHT: "read the dry swing weight, add the weight",
    Step.EPOXY: "mix the epoxy and glue",
    Step.CURED: "pull and rattle test",
    Step.BENT_BUILT: "bend it, look at the hosel",
    Step.GRIPPED: "grip and align",
    Step.MEASURED: "measure as built",
    Step.CLEANED: "clean it",
}


def club_values(
    club: OrderClub, unit: Unit, settings: Mapping[str, Value], zone: Any
) -> dict[str, Any]:
    """One club, every figure that can be worked out worked out."""
    done = {step.step: step for step in club.steps.all()}
    work = work_of(club, settings)
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
        "is_graphite": club.shaft_material == "graphite",
        "ferrule": club.ferrule,
        "notes": club.notes,
        "stamping": club.stamping.strip() or "none",
        "picked": Step.PICKED in done,
        "received": _received(club, settings),
        "bend": bend_values(club, settings),
        "permanent": permanent_words(club, unit),
        "bounce": _bounce(club, settings),
        "cut": _cut(club, unit, settings, done.get(Step.HOSEL)),
        "depth": _step_length(done.get(Step.HOSEL), "depth_mm", unit),
        "usual_depth": show_length(Decimal(str(settings["build.insertion_mm"])), unit),
        "bore": _inch_or_mm(club.bore_mm, unit),
        "dry": dry_values(club, settings, unit),
        "epoxy": _epoxy(club, done.get(Step.EPOXY), zone),
        "grip": _grip(club, settings, unit),
        "target": _target(club, unit),
        "built": _built(club, unit),
    }


def what_to_do(step: str, words: Mapping[str, Any]) -> str:
    """What one step wants of this club, from its `club_values`: a line under the step's name."""
    bend, cut, dry, grip = words["bend"], words["cut"], words["dry"], words["grip"]
    match Step(step):
        case Step.PICKED:
            bounce = f", bounce {words['stamped_bounce']}" if words["stamped_bounce"] else ""
            ferrule = f"; ferrule {words['ferrule']}" if words["ferrule"] else ""
            return f"{words['head']}{bounce}{ferrule}"
        case Step.BARE_HEAD:
            return "On the test rod, score lines level. Bore cleaned and gauged."
        case Step.STAMPED:
            return f"Exactly so: {words['stamping']}"
        case Step.BENT_BARE | Step.BENT_BUILT:
            return f"Loft {bend['loft']}, lie {bend['lie']}, 1 degree at a time. {bend['most']}"
        case Step.READ_BENT:
            return "On the test rod again, score lines level: what is left is bent by this"
        case Step.HOSEL:
            bore = f", bore {words['bore']}" if words["bore"] else ""
            chamfer = "; chamfered for graphite" if words["is_graphite"] else ""
            return f"Usually {words['usual_depth']} deep{bore}{chamfer}"
        case Step.TIP_TRIM:
            return str(cut["tip"])
        case Step.TIP:
            return "Paint only, by hand, no heat" if words["is_graphite"] else "Steel: on the belt"
        case Step.BUTT_CUT if cut["butt"] is not None:
            return f"Butt {cut['butt']} off {cut['raw']} leaves {cut['left']}"
        case Step.DRY_WEIGHT:
            return _dry_to_do(dry)
        case Step.EPOXY:
            return "Mixed by its sheet; seated again after five minutes, aligned, racked"
        case Step.GRIPPED:
            measures = f"; measure {grip['at_2']} 2 in under the cap" if grip["at_2"] else ""
            return f"{grip['name']}, {grip['wraps']}, logo {grip['logo']}{measures}"
        case _:
            return ""


def _dry_to_do(dry: Mapping[str, Any]) -> str:
    """What to read on the dry scale; once it is read, the answer."""
    if dry["weighing"] is not None:
        return f"Reads {dry['read']}. {dry['to_add']}."
    if dry["target"] is None:
        return "No swing weight is asked for"
    aim = (
        f"{dry['aim']} dry is {dry['target']} when glued" if dry["aim"] else f"For {dry['target']}"
    )
    parts = f"; the parts come to {dry['forecast']} dry" if dry["forecast"] else ""
    return f"{aim}{parts}"


def _plain(value: Decimal | None) -> str | None:
    return None if value is None else show_degrees(value)


def _mass(value: Decimal | None) -> str | None:
    return None if value is None else show_mass(value)


def _inch_or_mm(value: Decimal | None, unit: Unit) -> str | None:
    """A diameter: thousandths of an inch, or hundredths of a millimetre."""
    if value is None:
        return None
    return f"{value / Decimal('25.4'):.3f} in" if unit == "in" else f"{value:.2f} mm"


def _received(club: OrderClub, settings: Mapping[str, Value]) -> dict[str, Any]:
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
        "mass_off": _mass_off(club, settings),
        "head_off": _head_off(club, settings),
        "bay": ", ".join(said),
    }


def _mass_off(club: OrderClub, settings: Mapping[str, Value]) -> str:
    """How far the head is from its stated mass, where that is more than it may be."""
    if club.as_received_mass_g is None or club.head_mass_g is None:
        return ""
    off = club.as_received_mass_g - club.head_mass_g
    allowed = Decimal(str(settings[TOLERANCES[Measure.HEAD_MASS]]))
    return "" if abs(off) <= allowed else off_words(off, allowed)


def _head_off(club: OrderClub, settings: Mapping[str, Value]) -> dict[str, Any] | None:
    """What becomes of a new head off its stated mass: what to do, or who accepted it and why."""
    off = head_off_of(club, settings)
    if off is None:
        return None
    accepted = off.hold.concession
    return {
        "what": off_words(off.off_g, off.tolerance_g),
        "do": answer_words(off.answer),
        "wants_second_reading": off.hold.wants_second_reading,
        "accepted_by": accepted.signed_by if accepted else "",
        "reason": accepted.reason if accepted else "",
    }


def bend_values(club: OrderClub, settings: Mapping[str, Value]) -> dict[str, Any]:
    """The bend to make from as received; once it was bent or read as built, what is left."""
    left = bend_left(club, settings)
    bend = bend_of(club, settings) if left is None else left
    planned_loft = planned_lie = None
    if club.stamped_loft_deg is not None:
        planned_loft = bend_text(club.target_loft_deg - club.stamped_loft_deg, "loft")
    if club.stock_lie_deg is not None:
        planned_lie = bend_text(club.target_lie_deg - club.stock_lie_deg, "lie")
    said = (("loft", planned_loft), ("lie", planned_lie))
    loft_bend, lie_bend = _bends_known(club, bend)
    made = bends_at_bench(club)
    return {
        "loft": None if bend.loft_deg is None else bend_text(bend.loft_deg, "loft"),
        "lie": None if bend.lie_deg is None else bend_text(bend.lie_deg, "lie"),
        "is_left": left is not None,
        "is_enough": left is not None and not left_to_bend(club, settings),
        "is_read": is_read_since_bend(club),
        "last_loft": _plain(head_now(club)[0]) if left is not None else None,
        "last_lie": _plain(head_now(club)[1]) if left is not None else None,
        "target_loft": show_degrees(club.target_loft_deg),
        "target_lie": show_degrees(club.target_lie_deg),
        "planned_loft": planned_loft,
        "planned_lie": planned_lie,
        "planned": ", ".join(f"{word} {words}" for word, words in said if words is not None),
        "refusals": list(bend.refusals),
        "made": bends_words(made),
        "most": _most(club, settings, made),
        "does": bend_does(loft_bend, lie_bend, club.target_loft_deg),
        "offset": offset_words(loft_bend),
        "takes_loft": loft_taken_words(lie_bend, club.target_loft_deg),
        "earlier": len(club.earlier_bends),
    }


def _bends_known(club: OrderClub, bend: BendToMake) -> tuple[Decimal | None, Decimal | None]:
    """(loft, lie) bends as they are to be made, as planned until the head is read."""
    loft, lie = bend.loft_deg, bend.lie_deg
    if loft is None and club.stamped_loft_deg is not None:
        loft = club.target_loft_deg - club.stamped_loft_deg
    if lie is None and club.stock_lie_deg is not None:
        lie = club.target_lie_deg - club.stock_lie_deg
    return loft, lie


def _most(club: OrderClub, settings: Mapping[str, Value], made: Sequence[Bend]) -> str:
    """How far it may be bent: its limits, or what is left of them after what it was bent."""
    ways = {
        "weak": club.limit_weak_deg,
        "strong": club.limit_strong_deg,
        "upright": club.limit_upright_deg,
        "flat": club.limit_flat_deg,
    }
    limits = set(ways.values())
    if limits == {Decimal(0)}:
        return "Not bent: ask the maker first"
    if made or club.earlier_bends:
        return _travel_left_words(club, settings, made)
    if len(limits) == 1:
        return f"At most {figure(limits.pop())}° each way, both together"
    return "At most " + ", ".join(f"{figure(limit)} {way}" for way, limit in ways.items())


def _travel_left_words(club: OrderClub, settings: Mapping[str, Value], made: Sequence[Bend]) -> str:
    earlier = head_limits(club, limits_from(settings), made).earlier
    left = travel_left(
        earlier,
        BendLimits(
            weak_deg=club.limit_weak_deg,
            strong_deg=club.limit_strong_deg,
            upright_deg=club.limit_upright_deg,
            flat_deg=club.limit_flat_deg,
        ),
    )
    ways = (left.weak_deg, left.strong_deg, left.upright_deg, left.flat_deg)
    if not any(ways):
        return "Left: nothing, it is bent as far as it goes"
    weak, strong, upright, flat = map(figure, ways)
    return f"Left: {weak} weak or {strong} strong, {upright} upright or {flat} flat"


def _bounce(club: OrderClub, settings: Mapping[str, Value]) -> dict[str, str | None]:
    if club.as_built_bounce_deg is not None:
        return {"figure": bounce_built(club), "words": "measured as built"}
    after = bend_of(club, settings).bounce_deg
    if after is None:
        return {"figure": None, "words": "stamp not known"}
    return {"figure": f"{figure(after)}°", "words": _bounce_words(club)}


def _bounce_words(club: OrderClub) -> str:
    read = standing_readings(club, Stage.AS_RECEIVED, Measure.BOUNCE)
    if read and club.as_received_loft_deg is not None:
        mean = sum((each.value for each in read), Decimal(0)) / len(read)
        return (
            f"read {show_degrees(mean)}, bent "
            f"{bend_text(club.target_loft_deg - club.as_received_loft_deg)}"
        )
    if club.stamped_bounce_deg is None or club.stamped_loft_deg is None:
        return ""
    bend = club.target_loft_deg - club.stamped_loft_deg
    if bend == 0:
        return "as stamped"
    if club.as_received_loft_deg not in (None, club.stamped_loft_deg):
        bounce, loft = figure(club.stamped_bounce_deg), figure(club.stamped_loft_deg)
        return f"stamped {bounce} at {loft}°, follows the loft"
    return f"stamped {figure(club.stamped_bounce_deg)}, bent {bend_text(bend)}"


def _cut(club: OrderClub, unit: Unit, settings: Mapping[str, Value], hosel: Any) -> dict[str, Any]:
    """Butt cut and what is left, or a sentence, or None where a figure isn't known."""
    tip = (
        "tip none (taper)"
        if club.tip_kind == "taper"
        else f"tip {show_length(club.tip_trim_mm, unit)}"
        if club.tip_trim_mm != 0
        else "tip none"
    )
    try:
        left = _cut_to(club, settings, hosel, unit)
    except MathsError as refusal:
        return {"tip": tip, "butt": None, "left": None, "raw": None, "refusal": str(refusal)}
    if left is None or club.shaft_raw_length_mm is None:
        return {"tip": tip, "butt": None, "left": None, "raw": None, "refusal": ""}
    butt = club.shaft_raw_length_mm - club.tip_trim_mm - left
    return {
        "tip": tip,
        "butt": show_length(butt, unit),
        "left": show_length(left, unit),
        "raw": show_length(club.shaft_raw_length_mm, unit),
        "refusal": "",
    }


def cut_left_mm(club: OrderClub, settings: Mapping[str, Value]) -> Decimal | None:
    """What the shaft is cut to, as the ticket says it [mm]; None where that can't be said."""
    shop = the_shop()
    unit: Unit = "mm" if shop is not None and shop.length_unit == "mm" else "in"
    hosel = next((step for step in club.steps.all() if step.step == Step.HOSEL), None)
    try:
        return _cut_to(club, settings, hosel, unit)
    except MathsError:
        return None


def _cut_to(
    club: OrderClub, settings: Mapping[str, Value], hosel: Any, unit: Unit
) -> Decimal | None:
    """The shaft's length after the cut, in sixteenths where inches are spoken [mm].

    The shaft bottoms: it stands as deep as the hosel was gauged, and never less than the shop asks.
    None where a figure isn't known. Raises MathsError where it can't be cut so.
    """
    raw, bore, cap = club.shaft_raw_length_mm, club.bore_to_ground_mm, club.grip_cap_mm
    if raw is None or bore is None or cap is None:
        return None
    tip_kind: TipKind = "taper" if club.tip_kind == "taper" else "parallel"
    cut = shaft_cut(
        club_length_mm=club.target_length_mm,
        raw_length_mm=raw,
        bore_bottom_to_ground_mm=bore,
        cap_mm=cap,
        tip_kind=tip_kind,
        tip_trim_mm=club.tip_trim_mm,
        bore_depth_mm=_step_mm(hosel, "depth_mm"),
        least_insertion_mm=Decimal(str(settings["build.least_insertion_mm"])),
    )
    return nearest_sixteenth(cut.cut_length_mm) if unit == "in" else cut.cut_length_mm


def _step_mm(step: Any, key: str) -> Decimal | None:
    return None if step is None or not step.values.get(key) else Decimal(step.values[key])


def _step_length(step: Any, key: str, unit: Unit) -> str | None:
    if step is None or key not in step.values:
        return None
    return show_length(Decimal(step.values[key]), unit)


def _epoxy(club: OrderClub, step: Any, zone: Any) -> dict[str, str | bool | None]:
    """Resin, batch, coldest temperature and end of the cure; None for what is still to be typed."""
    if step is None:
        names = ("resin", "batch", "mixed", "temperature", "until")
        return dict.fromkeys(names)
    cure = cure_of(step)
    until = club.cure_until.astimezone(zone) if club.cure_until is not None else None
    return {
        "resin": cure.resin or None,
        "batch": cure.batch or None,
        "mixed": f"{step.done_at.astimezone(zone):%a %H:%M}",
        "temperature": figure(cure.end.coldest_c),
        "is_too_cold": is_too_cold(club),
        "until": "before it is warmed"
        if is_too_cold(club)
        else f"{until:%a} {until.day} {until:%b %H:%M}"
        if until
        else None,
    }


def _grip(club: OrderClub, settings: Mapping[str, Value], unit: Unit) -> dict[str, Any]:
    lower = club.grip_lower_extra_wraps
    wraps = f"base + {club.grip_extra_wraps} extra"
    diameters = grip_diameters_of(club, settings)
    return {
        "name": club.grip_name,
        "wraps": f"{wraps}, lower hand + {lower}" if lower else wraps,
        "logo": club.grip_logo,
        "core": _inch_or_mm(club.grip_core_mm, unit),
        "at_2": _inch_or_mm(diameters.at_2_in_mm, unit),
        "at_6": _inch_or_mm(diameters.at_6_in_mm, unit),
        "butt": "measured butt" if butt_measured(club) is not None else "stated butt",
    }


def _loft_words(club: OrderClub) -> str:
    """From the stamp until the head is read; then from what it is, whatever is stamped."""
    stamped, came, target = (
        club.stamped_loft_deg, club.as_received_loft_deg, club.target_loft_deg
    )  # fmt: skip
    if stamped is None:
        return ""
    if came is not None and came != stamped:
        return f"stamped {figure(stamped)}, came {figure(came)}"
    if target == stamped:
        return "as stamped"
    return f"stamped {figure(stamped)}, bent {bend_text(target - stamped)}"


def _target(club: OrderClub, unit: Unit) -> dict[str, str | None]:
    ruler = other_ruler(club, unit)
    return {
        "loft": f"{figure(club.target_loft_deg)}°",
        "loft_words": _loft_words(club),
        "lie": f"{figure(club.target_lie_deg)}°",
        "length": show_length(club.target_length_mm, unit),
        "rulers": _rulers_briefly(club, ruler),
        "how": HOW[club.length_method],
        "other": BY[ruler.method],
        "ruler": ruler.reads,
        "ruler_missing": ruler.missing,
        "swing_weight": points_words(club.target_swing_weight_points),
        "mass": _mass(club.target_mass_g),
    }


def _rulers_briefly(club: OrderClub, other: RulerTarget) -> str:
    """For the ticket's narrow column: what the other ruler reads, or which one alone will do."""
    stop, shaft = "60° stop", "ruler"
    if club.length_method == BY_THE_RULES:
        return f"{shaft} {other.reads}" if other.reads else f"{stop} only"
    return f"{shaft}; {stop} {other.reads}" if other.reads else f"{shaft} only"


def _built(club: OrderClub, unit: Unit) -> dict[str, str | None]:
    length = club.as_built_length_mm
    return {
        "loft": _plain(club.as_built_loft_deg),
        "lie": _plain(club.as_built_lie_deg),
        "length": None if length is None else show_length(length, unit),
        "swing_weight": points_words(club.as_built_swing_weight_points),
        "mass": _mass(club.as_built_mass_g),
    }
