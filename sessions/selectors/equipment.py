"""Trial equipment as it can be handed over, and a club as it is played, copied for a trial."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from decimal import ROUND_HALF_UP, Decimal
from typing import Any, Literal
from zoneinfo import ZoneInfo

from django.db.models import QuerySet

from fitshop.actor import Actor
from sessions.maths.bending import bounce_after, planned_bend
from sessions.models import (
    Adapter,
    BagEntry,
    Club,
    MeasuringDevice,
    TrialHead,
    TrialShaft,
    Visit,
)
from sessions.models.words import Grooves
from sessions.rules.wording import figure, is_bend
from sessions.selectors.catalogue import head_sole

Equipment = TrialHead | TrialShaft | Adapter
LengthUnit = Literal["in", "mm"]

# What a fitter may choose to change, as it is stored and read, in the order that proves most: loft
# for the gap, length and shaft, lie roughly right, then the sole; grip and balance last.
CHANGES = ("loft", "length", "shaft", "lie", "sole", "grip", "swing weight")


def heads_for(actor: Actor) -> QuerySet[TrialHead]:
    return TrialHead.objects.filter(location_id__in=actor.location_ids).select_related("head")


def shafts_for(actor: Actor) -> QuerySet[TrialShaft]:
    return TrialShaft.objects.filter(location_id__in=actor.location_ids).select_related(
        "shaft", "grip"
    )


def adapters_for(actor: Actor) -> QuerySet[Adapter]:
    return Adapter.objects.filter(location_id__in=actor.location_ids)


def devices_for(actor: Actor) -> QuerySet[MeasuringDevice]:
    return MeasuringDevice.objects.filter(location_id__in=actor.location_ids, in_use=True)


def withdrawn_words(item: Equipment, zone: str, at: datetime) -> str:
    """`T-17 was withdrawn 10:42: loose head. Take another.`; empty where it is in use.

    The clock is the location's; the day is said where it was another one.
    """
    if item.withdrawn_at is None:
        return ""
    then, now = (moment.astimezone(ZoneInfo(zone)) for moment in (item.withdrawn_at, at))
    day = "" if then.date() == now.date() else f"on {then.day} {then:%B %Y}, "
    why = item.withdrawn_why.rstrip(".")
    return f"{item.mark} was withdrawn {day}{then:%H:%M}: {why}. Take another."


def stop_words(item: Equipment, zone: str, at: datetime, *, says_why: bool = True) -> str:
    """What every tablet says of a club in the hand with a withdrawn part; "" where it is in use.

    `Withdrawn 10:42 by Wim: adapter cracked. Stop and take it out of the bay.` Without the reason
    where that could tell a hidden club.
    """
    if item.withdrawn_at is None:
        return ""
    then, now = (moment.astimezone(ZoneInfo(zone)) for moment in (item.withdrawn_at, at))
    day = "" if then.date() == now.date() else f"on {then.day} {then:%B %Y}, "
    who = f" by {item.withdrawn_by}" if item.withdrawn_by else ""
    why = f": {item.withdrawn_why.rstrip('.')}" if says_why else ""
    return f"Withdrawn {day}{then:%H:%M}{who}{why}. Stop and take it out of the bay."


@dataclass(frozen=True, slots=True)
class Played:
    """A club as it is in the player's hand: the columns of a Trial that are copied when it starts.

    Metric; None is not measured. A loft is measured where a gauge said it, not the stamp; a mass
    where the whole club was on the scale, not its parts.
    """

    head_name: str
    stamped_loft_deg: Decimal | None = None
    stamped_bounce_deg: Decimal | None = None
    loft_deg: Decimal | None = None
    loft_is_measured: bool = False
    bounce_deg: Decimal | None = None
    bounce_is_measured: bool = False
    lie_deg: Decimal | None = None
    sole_words: str = ""
    finish: str = ""
    shaft_name: str = ""
    shaft_mass_g: Decimal | None = None
    grip_name: str = ""
    length_mm: Decimal | None = None
    swing_weight_points: Decimal | None = None
    mass_g: Decimal | None = None
    mass_is_measured: bool = False
    grooves: str = Grooves.UNKNOWN

    def weighed(self, swing_weight_points: Decimal | None, mass_g: Decimal | None) -> Played:
        """With what was just read on the scale, which wins over what was known or added up."""
        return replace(
            self,
            swing_weight_points=_first(swing_weight_points, self.swing_weight_points),
            mass_g=_first(mass_g, self.mass_g),
            mass_is_measured=self.mass_is_measured or mass_g is not None,
        )

    @property
    def columns(self) -> dict[str, Any]:
        return asdict(self)


def played_trial_head(
    *,
    trial_head: TrialHead,
    trial_shaft: TrialShaft,
    adapter: Adapter | None,
    loft_deg: Decimal | None = None,
    lie_deg: Decimal | None = None,
) -> Played:
    """A trial head on a shaft. `loft_deg` and `lie_deg` as just read win over the last check.

    Bounce as the last check measured it, where the loft is still the one of that check; else it
    follows the loft, a degree for a degree, from that check or from the stamp.
    """
    head = trial_head.head
    read = _first(loft_deg, trial_head.measured_loft_deg)
    loft = _first(read, head.stamped_loft_deg)
    bounce, bounce_is_measured = _head_bounce(trial_head, loft)
    masses = [
        trial_head.measured_mass_g,
        trial_shaft.measured_mass_g,
        adapter.mass_g if adapter is not None else Decimal(0),
    ]
    return Played(
        head_name=f"{head.maker} {head.model}",
        stamped_loft_deg=head.stamped_loft_deg,
        stamped_bounce_deg=head.bounce_deg,
        loft_deg=loft,
        loft_is_measured=read is not None,
        bounce_deg=bounce,
        bounce_is_measured=bounce_is_measured,
        lie_deg=_first(lie_deg, trial_head.measured_lie_deg, head.lie_deg),
        sole_words=head_sole(head),
        finish=head.finish,
        shaft_name=f"{trial_shaft.shaft.maker} {trial_shaft.shaft.model}, {trial_shaft.shaft.flex}",
        shaft_mass_g=trial_shaft.shaft.mass_g,
        grip_name=str(trial_shaft.grip),
        length_mm=trial_shaft.playing_length_mm,
        mass_g=_total(masses),
        # A trial head is replaced before its grooves wear: it is hit as a new club would be.
        grooves=Grooves.FRESH,
    )


def head_words(trial_head: TrialHead) -> dict[str, str]:
    """A trial head on the shelf in the words that a club in the hand has for it."""
    head = trial_head.head
    loft = _first(trial_head.measured_loft_deg, head.stamped_loft_deg)
    bounce, is_measured = _head_bounce(trial_head, loft)
    lie = _first(trial_head.measured_lie_deg, head.lie_deg)
    return {
        "head_name": f"{head.maker} {head.model}",
        "loft_words": "" if loft is None else f"{figure(loft)}°",
        "bounce_words": ""
        if bounce is None
        else bounce_figure(bounce, head.bounce_deg, is_measured=is_measured),
        "sole_words": head_sole(head),
        "lie_words": "" if lie is None else f"{figure(lie)}°",
    }


def head_angles(trial_head: TrialHead) -> dict[str, Any]:
    """A trial head's figures for a tablet that holds it against another club by the shop's rule.

    `bends_from` is the loft and the bounce from which the bounce follows a loft that is read anew,
    as `played_trial_head` has it, and whether that bounce was measured; None where it doesn't.
    """
    head = trial_head.head
    loft = _first(trial_head.measured_loft_deg, head.stamped_loft_deg)
    measured, at_check = trial_head.measured_bounce_deg, trial_head.measured_loft_deg
    is_checked = measured is not None and at_check is not None
    start = (at_check, measured) if is_checked else (head.stamped_loft_deg, head.bounce_deg)
    return {
        "loft": _text(loft),
        "lie": _text(_first(trial_head.measured_lie_deg, head.lie_deg)),
        "bounce": _text(_head_bounce(trial_head, loft)[0]),
        "stamped_bounce": _text(head.bounce_deg),
        "bends_from": None
        if None in start
        else {"loft": _text(start[0]), "bounce": _text(start[1]), "is_measured": is_checked},
    }


def shaft_words(trial_shaft: TrialShaft, length: str) -> dict[str, str]:
    """A trial shaft likewise; `length` as the shop writes it."""
    shaft = trial_shaft.shaft
    return {
        "shaft_name": f"{shaft.maker} {shaft.model}, {shaft.flex}",
        "length_words": length,
        "grip_name": str(trial_shaft.grip),
    }


def played_club(
    *,
    club: Club,
    entry: BagEntry | None,
    loft_deg: Decimal | None = None,
    lie_deg: Decimal | None = None,
) -> Played:
    """An own club as its last bag entry has it; what nobody read is not measured."""
    read = _first(loft_deg, entry.loft_deg if entry else None)
    loft = _first(read, club.stamped_loft_deg)
    measured = entry.bounce_deg if entry else None
    predicted = _bounce(club.stamped_bounce_deg, loft, club.stamped_loft_deg)
    named = " ".join(word for word in (club.maker, club.model) if word)
    return Played(
        head_name=f"{club.label} ({named})" if named else club.label,
        stamped_loft_deg=club.stamped_loft_deg,
        stamped_bounce_deg=club.stamped_bounce_deg,
        loft_deg=loft,
        loft_is_measured=read is not None,
        bounce_deg=_first(measured, predicted),
        bounce_is_measured=measured is not None,
        lie_deg=_first(lie_deg, entry.lie_deg if entry else None),
        shaft_name=club.shaft,
        length_mm=entry.length_mm if entry else None,
        swing_weight_points=entry.swing_weight_points if entry else None,
        mass_g=entry.mass_g if entry else None,
        mass_is_measured=entry is not None and entry.mass_g is not None,
        grooves=entry.grooves if entry else Grooves.UNKNOWN,
    )


def last_entry(visit: Visit, club: Club) -> BagEntry | None:
    """How an own club was last read: at this visit, else at the one before it."""
    return (
        BagEntry.objects.filter(club=club, visit__player_id=visit.player_id)
        .order_by("-recorded_at", "-sequence")
        .first()
    )


def _text(value: Decimal | None) -> str | None:
    return None if value is None else figure(value)


def _first(*values: Decimal | None) -> Decimal | None:
    """The first that was measured."""
    return next((value for value in values if value is not None), None)


def _head_bounce(trial_head: TrialHead, loft: Decimal | None) -> tuple[Decimal | None, bool]:
    """A trial head's bounce at `loft`, and whether a gauge said so."""
    measured, at_check = trial_head.measured_bounce_deg, trial_head.measured_loft_deg
    if measured is not None and loft is not None and at_check is not None:
        return bounce_after(measured, planned_bend(loft, at_check)), loft == at_check
    if measured is not None and loft == trial_head.head.stamped_loft_deg:
        return measured, True
    head = trial_head.head
    return _bounce(head.bounce_deg, loft, head.stamped_loft_deg), False


def _bounce(
    stamped_bounce: Decimal | None, loft: Decimal | None, stamped_loft: Decimal | None
) -> Decimal | None:
    if stamped_bounce is None or loft is None or stamped_loft is None:
        return stamped_bounce
    return bounce_after(stamped_bounce, planned_bend(loft, stamped_loft))


def _total(masses: Sequence[Decimal | None]) -> Decimal | None:
    """The whole club's mass, where every part of it was weighed."""
    known = [mass for mass in masses if mass is not None]
    return sum(known, Decimal(0)) if len(known) == len(masses) else None


def played_loft_words(loft: Decimal | None, stamped: Decimal | None, is_measured: bool) -> str:
    """`53° (stamped 54, 1 strong)`; `54° as stamped, not measured` where no gauge said so."""
    if loft is None:
        return "loft not known"
    if not is_measured:
        return f"{figure(loft)}° as stamped, not measured"
    if stamped is not None and loft != stamped and not is_bend(loft, stamped):
        return f"{figure(loft)}° (stamped {figure(stamped)})"
    return f"{figure(loft)}°{_against_stamp(loft, stamped, loft, stamped)}"


def bounce_figure(bounce: Decimal, stamped: Decimal | None, *, is_measured: bool) -> str:
    """`10.8°` as a gauge said, `10°` as stamped; `about 9.5°` where it was worked out.

    What nobody measured has no finer step than half a degree.
    """
    if is_measured or bounce == stamped:
        return f"{figure(bounce)}°"
    return f"about {figure(_to_half(bounce))}°"


def _to_half(value: Decimal) -> Decimal:
    return (value * 2).quantize(Decimal(1), rounding=ROUND_HALF_UP) / 2


def played_bounce_words(
    bounce: Decimal | None,
    stamped_bounce: Decimal | None,
    loft: Decimal | None,
    stamped_loft: Decimal | None,
) -> str:
    """`9° (stamped 10, 1 strong)`."""
    if bounce is None:
        return "bounce not known"
    return f"{figure(bounce)}°{_against_stamp(bounce, stamped_bounce, loft, stamped_loft)}"


def _against_stamp(
    value: Decimal, stamped: Decimal | None, loft: Decimal | None, stamped_loft: Decimal | None
) -> str:
    if stamped is None or value == stamped:
        return ""
    if loft is None or stamped_loft is None or value - stamped != loft - stamped_loft:
        return f" (stamped {figure(stamped)})"
    bend = loft - stamped_loft
    return f" (stamped {figure(stamped)}, {figure(abs(bend))} {'weak' if bend > 0 else 'strong'})"
