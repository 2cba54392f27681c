"""The pitching wedge and the clubs of a spec with their lofts and carries; no rules yet."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal

from sessions.maths.carry_line import CarryLine, ClubKey
from sessions.maths.errors import NotAFigure
from sessions.maths.gaps import Gap, gap_on_line
from sessions.rules.facts import SpecFacts
from sessions.rules.wording import club_words, figure

# (words, loft [degrees], field) of the pitching wedge or a club of the spec.
Lofted = tuple[str, Decimal, str]


@dataclass(frozen=True, slots=True)
class Carried:
    """The pitching wedge or a club of the spec with its carry and that carry's doubt [m]."""

    words: str
    loft_deg: Decimal | None
    carry_m: float | None
    sd_m: float | None
    field: str
    on_line: ClubKey = ""


PITCHING_WEDGE = "the pitching wedge"


def lofted(facts: SpecFacts) -> list[Lofted]:
    """Everything whose loft is known, strongest first, with the pitching wedge among it."""
    known: list[Lofted] = [
        (club_words(club), club.played_loft_deg, club.field("target_loft_deg"))
        for club in facts.clubs
        if club.played_loft_deg is not None
    ]
    if facts.baseline_loft_deg is not None:
        loft = facts.baseline_loft_deg
        known.append((f"{PITCHING_WEDGE}, {figure(loft)}°", loft, "baseline.loft_deg"))
    return sorted(known, key=lambda one: (one[1], one[2]))


def baseline_carry(facts: SpecFacts) -> float | None:
    """The pitching wedge's carry [m] where it can carry a judgement: a number above nothing."""
    carry = facts.baseline_carry_m
    return carry if is_carry(carry) else None


def is_carry(carry_m: float | None) -> bool:
    return carry_m is not None and math.isfinite(carry_m) and carry_m > 0


def carried(facts: SpecFacts) -> list[Carried]:
    """The pitching wedge, then every club whose loft is known, by loft; None where no carry is.

    A club without a carry keeps its place, so that its neighbours are not taken for each other's.
    """
    by_loft = sorted(
        (club for club in facts.clubs if club.played_loft_deg is not None),
        key=lambda club: (club.played_loft_deg or Decimal(0), club.slot),
    )
    known = [
        Carried(
            PITCHING_WEDGE,
            facts.baseline_loft_deg,
            baseline_carry(facts),
            None,
            "baseline.carry_m",
            facts.baseline_key,
        )
    ]
    for club in by_loft:
        carry = club.predicted_carry_m if is_carry(club.predicted_carry_m) else None
        sd = club.predicted_carry_sd_m
        known.append(
            Carried(
                club_words(club),
                club.played_loft_deg,
                carry,
                sd,
                club.field("predicted_carry_m"),
                club.on_line,
            )
        )
    return known


def gap_percent(nearer_m: float, further_m: float, baseline_m: float) -> float:
    """The gap between two carries as a share of the pitching wedge's [%]; all in metres."""
    return (further_m - nearer_m) / baseline_m * 100


def gap_of(facts: SpecFacts, further: Carried, nearer: Carried) -> Gap | None:
    """The gap with its doubt from the player's line; None without a line, a loft or a carry."""
    return gap_between(facts.line, further, nearer)


def gap_between(line: CarryLine | None, further: Carried, nearer: Carried) -> Gap | None:
    """The gap between two carries with the line's doubt; None where one isn't to be believed."""
    if line is None or further.loft_deg is None or nearer.loft_deg is None:
        return None
    if further.carry_m is None or nearer.carry_m is None:
        return None
    try:
        return gap_on_line(
            line,
            float(further.loft_deg),
            float(nearer.loft_deg),
            clubs=(further.on_line, nearer.on_line),
            mean_m=further.carry_m - nearer.carry_m,
        )
    except NotAFigure:  # a file may have held anything; a rule judges what it can
        return None


def doubt_percent(
    facts: SpecFacts, further: Carried, nearer: Carried, baseline_m: float
) -> float | None:
    """One standard deviation of the gap as a share [%]; None where it is not known."""
    gap = gap_of(facts, further, nearer)
    if gap is not None:
        doubt_m = gap.doubt_m
    else:
        known = [one.sd_m for one in (further, nearer) if one.sd_m is not None and one.sd_m > 0]
        doubt_m = math.hypot(*known)
    share = doubt_m / baseline_m * 100
    return share if share > 0 and math.isfinite(share) else None


def doubt_words(facts: SpecFacts, further: Carried, nearer: Carried, baseline_m: float) -> str:
    """` (give or take 3 %)`, where a doubt is known."""
    share = doubt_percent(facts, further, nearer, baseline_m)
    return "" if share is None else f" (give or take {share:.0f} %)"
