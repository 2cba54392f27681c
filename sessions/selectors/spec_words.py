"""A club of a spec in words: absolute figures, and a bent club never by a bare number."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from sessions.maths.bending import planned_bend
from sessions.maths.shown import (
    distance_in,
    show_degrees,
    show_distance,
    show_length,
    show_mass,
    show_swing_weight,
)
from sessions.maths.unit_factors import DistanceUnit
from sessions.models import SpecClub
from sessions.models.words import ClubSource
from sessions.rules.carried import Carried, gap_between
from sessions.rules.club_evidence import Baseline, ClubEvidence
from sessions.rules.evidence import VisitEvidence
from sessions.rules.sole_words import sole_words
from sessions.rules.wording import bend_text, club_bounce_words, figure, loft_words, own_loft_words
from sessions.selectors.carry_base import balls_of, full_balls_of
from sessions.selectors.spec_facts import club_facts, stamping_of

NOT_SAID = "not said yet"
AS_IT_IS = "as it is"


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a club: `fields` are the columns that its findings speak of."""

    label: str
    words: str
    fields: tuple[str, ...]


def club_lines(club: SpecClub, *, length_unit: str) -> tuple[Line, ...]:
    """A club in full, in the order in which a bench reads it."""
    return (
        Line("Head", head_said(club), ("head", "hand", "evidence")),
        Line("Loft", loft_said(club), ("target_loft_deg", "stamped_loft_deg",
                                                 "as_received_loft_deg")),
        Line("Bounce", bounce_said(club), ("stamped_bounce_deg", "sole")),
        Line("Lie, score lines level", lie_said(club), ("target_lie_deg", "as_received_lie_deg")),
        Line("Length", length_said(club, length_unit), ("length_mm",)),
        Line("Shaft", shaft_said(club, length_unit), ("shaft", "tip_trim_mm")),
        Line("Grip", grip_said(club), ("grip",)),
        Line("Swing weight", swing_weight_said(club), ("swing_weight_points",)),
        Line("Stamping", stamping_said(club), ("stamping",)),
        Line("Role", club.get_role_display().capitalize() or NOT_SAID, ("role",)),
    )  # fmt: skip


def head_said(club: SpecClub) -> str:
    if club.club is not None:
        own = club.club
        known = " ".join(part for part in (own.maker, own.model) if part)
        return f"own {own.label}" + (f", {known}" if known else "")
    if club.head is None:
        return NOT_SAID
    head = club.head
    sole = sole_words(
        width_mm=head.sole_width_mm,
        camber=head.camber,
        heel=head.relief_heel,
        toe=head.relief_toe,
        leading=head.relief_leading,
        trailing=head.relief_trailing,
        leading_softened=head.leading_softened,
    )
    return f"{head}, {head.get_hand_display()} hand; {sole}"


def loft_said(club: SpecClub) -> str:
    if club.source == ClubSource.NEW:
        return loft_words(club.target_loft_deg, club.stamped_loft_deg) or NOT_SAID
    return own_loft_words(club_facts(club, None)).removeprefix("own ")


def bounce_said(club: SpecClub) -> str:
    """Foretold for a new club; an own one as it was measured, as the rules say it too."""
    said = club_bounce_words(club_facts(club, None))
    return said or (NOT_SAID if club.source == ClubSource.NEW else "not measured")


def lie_said(club: SpecClub) -> str:
    """The lie against the head's own, or against what was measured on an own club."""
    new = club.source == ClubSource.NEW
    start = club.stock_lie_deg if new else club.as_received_lie_deg
    target = club.target_lie_deg
    if target is None:
        if new:
            return NOT_SAID
        return "not measured" if start is None else f"{figure(start)}°, {AS_IT_IS}"
    if start is None or start == target:
        return f"{figure(target)}°"
    bend = bend_text(planned_bend(target, start), "lie")
    return f"{figure(target)}° ({'head' if new else 'measured'} {figure(start)}, bent {bend})"


def length_alone(club: SpecClub, unit: str) -> str:
    """The length as it is read to a player, without the method."""
    if club.target_length_mm is None:
        return NOT_SAID if club.source == ClubSource.NEW else "not measured"
    return show_length(club.target_length_mm, "mm" if unit == "mm" else "in")


def length_said(club: SpecClub, unit: str) -> str:
    shown = length_alone(club, unit)
    return (
        shown if club.target_length_mm is None else f"{shown}, {club.get_length_method_display()}"
    )


def shaft_said(club: SpecClub, unit: str) -> str:
    if club.source != ClubSource.NEW:
        own = club.club.shaft if club.club is not None else ""
        return f"{own}, {AS_IT_IS}" if own else AS_IT_IS
    if club.shaft is None:
        return NOT_SAID
    tip = "tip not trimmed"
    if club.tip_trim_mm:
        tip = f"tip trimmed {show_length(club.tip_trim_mm, 'mm' if unit == 'mm' else 'in')}"
    pulled = ", out of an older club" if club.shaft_is_pulled else ""
    return (
        f"{club.shaft}, {club.shaft.flex}, {club.shaft.get_tip_kind_display()} tip{pulled}; {tip}"
    )


def grip_said(club: SpecClub) -> str:
    if club.grip is None:
        return NOT_SAID if club.source == ClubSource.NEW else AS_IT_IS
    extra = f"base tape and {club.grip_extra_wraps} extra" if club.grip_extra_wraps else "base tape"
    lower = (
        f", {club.grip_lower_extra_wraps} more under the lower hand"
        if club.grip_lower_extra_wraps
        else ""
    )
    return f"{club.grip}; {extra}{lower}; logo {club.grip_logo}"


def swing_weight_said(club: SpecClub) -> str:
    points, mass = club.target_swing_weight_points, club.target_mass_g
    said = [] if points is None else [show_swing_weight(points)]
    if mass is not None:
        said.append(show_mass(mass))
    if said:
        return ", ".join(said)
    return "what comes" if club.source == ClubSource.NEW else "not measured"


def stamping_said(club: SpecClub) -> str:
    text = stamping_of(club)
    if text is None:
        return NOT_SAID if club.source == ClubSource.NEW else "none"
    return f"“{text}”" if text else "none"


def carry_said(club: SpecClub, unit: DistanceUnit) -> str:
    """`98 yd, give or take 2`: one standard deviation of the mean, from the line."""
    if club.predicted_carry_m is None:
        return "not known"
    return _with_doubt(club.predicted_carry_m, club.predicted_sd_m, unit)


@dataclass(frozen=True, slots=True)
class CarryBasis:
    """What a carry rests on: `hit` (so many full balls that day), `hit_otherwise` (so many at
    another loft, which `hit_at` says), `hit_other_shaft`, `hit_elsewhere` (no ball of it was hit
    like the pitching wedge's), `said` by the player, `forecast`, or `unknown`."""

    kind: str = "forecast"
    balls: int = 0
    hit_at: str = ""


def is_bent(club: SpecClub) -> bool:
    """Whether the head is bent: a new one from its stamp and own lie, an own one as measured."""
    if club.source == ClubSource.NEW:
        starts = (club.stamped_loft_deg, club.stock_lie_deg)
    elif club.source == ClubSource.OWN_ADJUSTED:
        starts = (club.as_received_loft_deg, club.as_received_lie_deg)
    else:
        return False
    targets = (club.target_loft_deg, club.target_lie_deg)
    return any(
        start is not None and target is not None and start != target
        for start, target in zip(starts, targets, strict=True)
    )


def carry_basis(club: SpecClub, evidence: VisitEvidence, as_hit_deg: Decimal) -> CarryBasis:
    """What the carry of a spec's club rests on: its own balls, what was said, or a forecast."""
    if club.predicted_carry_m is None:
        return CarryBasis("unknown")
    hit = _evidence_of(club, evidence)
    counts = {} if evidence.baseline is None else balls_of(evidence.baseline, evidence.clubs)
    balls = 0 if hit is None else counts.get(hit.key, 0)
    if hit is not None and balls:
        if club.source == ClubSource.NEW and hit.on_line.shaft not in ("", str(club.shaft_id)):
            return CarryBasis("hit_other_shaft", balls)
        loft, plays = hit.loft_deg, _played(club)
        if loft is None or plays is None or abs(loft - plays) <= as_hit_deg:
            return CarryBasis("hit", balls)
        return CarryBasis("hit_otherwise", balls, f"{show_degrees(loft)}°")
    if evidence.line is None and club.source == ClubSource.OWN_KEPT:
        return CarryBasis("said")
    elsewhere = 0 if hit is None else full_balls_of(hit)
    return CarryBasis("hit_elsewhere", elsewhere) if elsewhere else CarryBasis("forecast")


def _evidence_of(club: SpecClub, evidence: VisitEvidence) -> ClubEvidence | None:
    if club.trial_id is not None:
        return evidence.club_of(club.trial_id)
    if club.club_id is None:
        return None
    return next((each for each in evidence.clubs if each.club_id == club.club_id), None)


def baseline_basis(baseline: Baseline) -> CarryBasis:
    return CarryBasis("hit", baseline.balls) if baseline.balls else CarryBasis("said")


@dataclass(frozen=True, slots=True)
class GapRow:
    """A row of the ladder: the club, its carry, the gap to the next one, and how often the two
    turn round: the next ball of this one falling shorter than that of the next."""

    name: str
    carry: str
    gap: str
    overlap: str
    basis: CarryBasis = field(default_factory=CarryBasis)


def gap_rows(
    clubs: Sequence[SpecClub],
    evidence: VisitEvidence,
    unit: DistanceUnit,
    *,
    as_hit_deg: Decimal,
) -> tuple[GapRow, ...]:
    """The pitching wedge first, then by loft as it will be played.

    No gap is said across a club whose carry is not known; its doubt is the carry line's, as the
    rules have it.
    """
    known = _by_carry(clubs, evidence)
    bases = [carry_basis(club, evidence, as_hit_deg) for club in _by_loft(clubs)]
    if evidence.baseline is not None:
        bases.insert(0, baseline_basis(evidence.baseline))
    rows = []
    for place, one in enumerate(known):
        after = known[place + 1] if place + 1 < len(known) else None
        gap = None if after is None else gap_between(evidence.line, one, after)
        said = "" if after is None else "not known"
        if after is not None and one.carry_m is not None and after.carry_m is not None:
            said = _gap_as_read(one.carry_m, after.carry_m, unit)
            if gap is not None:
                said += _doubt(gap.doubt_m, unit)
        carry = "not known" if one.carry_m is None else show_distance(one.carry_m, unit)
        turned = "" if gap is None else _in_a_hundred(gap.overlap)
        rows.append(GapRow(one.words, carry, said, turned, bases[place]))
    return tuple(rows)


def _gap_as_read(further_m: float, nearer_m: float, unit: DistanceUnit) -> str:
    """The gap between two carries as they are read, so that whoever subtracts them finds it."""
    further, nearer = (round(distance_in(carry_m, unit)) for carry_m in (further_m, nearer_m))
    return f"{further - nearer} {unit}"


def _in_a_hundred(chance: float) -> str:
    """`7 in 100`; what rounds to nothing is not called nothing."""
    said = round(chance * 100)
    return f"{said} in 100" if said else "under 1 in 100"


def _by_carry(clubs: Sequence[SpecClub], evidence: VisitEvidence) -> list[Carried]:
    baseline = evidence.baseline
    known: list[Carried] = []
    if baseline is not None:
        name, key = (
            f"Pitching wedge, {show_degrees(baseline.loft_deg)}°",
            str(baseline.club_id or ""),
        )
        known.append(Carried(name, baseline.loft_deg, baseline.carry_m, None, "", key))
    for club in _by_loft(clubs):
        loft = _played(club)
        name = f"{club.name}, {show_degrees(loft)}°" if loft is not None else club.name
        key = str(club.club_id or club.trial_id or "")
        known.append(Carried(name, loft, club.predicted_carry_m, club.predicted_sd_m, "", key))
    return known


def _by_loft(clubs: Sequence[SpecClub]) -> list[SpecClub]:
    return sorted(clubs, key=lambda club: (_played(club) or Decimal(90), club.slot))


def _played(club: SpecClub) -> Decimal | None:
    loft: Decimal | None = club.target_loft_deg
    return club.as_received_loft_deg if loft is None else loft


def _with_doubt(value_m: float, sd_m: float | None, unit: DistanceUnit) -> str:
    return show_distance(value_m, unit) + _doubt(sd_m, unit)


def _doubt(sd_m: float | None, unit: DistanceUnit) -> str:
    """`, give or take 2`: one standard deviation; nothing where none is known."""
    if sd_m is None or sd_m <= 0:
        return ""
    doubt = show_distance(sd_m, unit).split(" ")[0]
    return f", give or take {'less than 1' if doubt == '0' else doubt}"
