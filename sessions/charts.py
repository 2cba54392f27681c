"""What a visit's evidence looks like: ladders of carries, where balls landed, differences.

Values of `sessions.rules` in, charts of `fitshop.charts` out, in the player's own unit.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from fitshop.charts import (
    ChartTable,
    Dispersion,
    Ellipse,
    Intervals,
    Ladder,
    Landing,
    Reach,
    Rung,
    dispersion,
    dispersion_table,
    intervals,
    intervals_table,
    ladder,
    ladder_table,
)
from sessions.maths.comparison import Difference
from sessions.maths.dispersion import Spread
from sessions.maths.shown import distance_in, show_distance
from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.club_evidence import Baseline, ClubEvidence, SituationFigures
from sessions.rules.verdict_words import is_seen
from sessions.rules.verdicts import Pair


@dataclass(frozen=True)
class ShownChart:
    """A picture and its table, as `fitshop/parts/chart.html` takes them."""

    svg: str
    table: ChartTable


@dataclass(frozen=True)
class PlannedRung:
    """A wedge of a plan as a ladder shows it [m]."""

    label: str
    carry_m: float | None
    low_m: float | None
    high_m: float | None
    note: str = ""


def plan_ladder(
    baseline: Baseline,
    slots: Sequence[PlannedRung],
    unit: DistanceUnit,
    *,
    title: str = "Carry, and the gap to the next club",
    width: int = 330,
    paper: bool = False,
) -> ShownChart:
    """The pitching wedge as hit, and below it what each wedge should carry, with its doubt."""
    top = Rung(
        label=f"{baseline.loft_deg.normalize():f}°",
        value=distance_in(baseline.carry_m, unit),
        low=_in(None if baseline.carry is None else baseline.carry.low, unit),
        high=_in(None if baseline.carry is None else baseline.carry.high, unit),
        here=True,
        note=", ".join(filter(None, [baseline.name, spread_words(baseline.carry, unit)])),
    )
    rungs = [
        Rung(
            label=slot.label,
            value=_in(slot.carry_m, unit),
            low=_in(slot.low_m, unit),
            high=_in(slot.high_m, unit),
            planned=True,
            note=slot.note,
        )
        for slot in slots
    ]
    chart = Ladder(title, unit, (top, *rungs))
    return ShownChart(ladder(chart, width=width, paper=paper), ladder_table(chart))


def carry_ladder(
    clubs: Iterable[ClubEvidence],
    unit: DistanceUnit,
    *,
    here: ClubEvidence | None = None,
    width: int = 300,
    paper: bool = False,
) -> ShownChart:
    """Full stock carries of the clubs hit, longest first, each with its balls and spread.

    Balls hit otherwise than the rest are said to be, on their rung and in the title.

    Rivals for one slot stand side by side: the club in the hand, or the last one tried, is the one
    that the gaps are measured to.
    """
    places: dict[object, list[tuple[ClubEvidence, SituationFigures]]] = {}
    for club in clubs:
        full = club.full_stock()
        if full is not None:
            places.setdefault(club.key if club.slot is None else club.slot, []).append((club, full))
    ordered = [_rivals(place, here) for place in places.values()]
    ordered.sort(key=lambda place: -_mean(place[0][1].figures.carry))
    rungs = tuple(
        Rung(
            label=_rung_label(club),
            value=_in(_mean(full.figures.carry), unit),
            low=_in(full.figures.carry.low if full.figures.carry else None, unit),
            high=_in(full.figures.carry.high if full.figures.carry else None, unit),
            here=here is not None and club.key == here.key,
            note=", ".join(
                filter(
                    None,
                    [spread_words(full.figures.carry, unit), *club.full_apart(), _rung_note(club)],
                )
            ),
            beside=index > 0,
        )
        for place in ordered
        for index, (club, full) in enumerate(place)
    )
    is_mixed = any(club.full_apart() for place in ordered for club, _ in place)
    title = "Full swings: carry and gaps" + (", not all hit alike" if is_mixed else "")
    chart = Ladder(title, unit, rungs)
    return ShownChart(ladder(chart, width=width, paper=paper), ladder_table(chart))


Hit = tuple[ClubEvidence, SituationFigures]


def _rivals(place: Sequence[Hit], here: ClubEvidence | None) -> list[Hit]:
    """The one that stands for the slot, and after it the others, longest first."""
    in_hand = [hit for hit in place if here is not None and hit[0].key == here.key]
    tried = [hit for hit in place if not hit[0].is_own]
    first = (in_hand or tried or list(place))[-1]
    others = [hit for hit in place if hit is not first]
    return [first, *sorted(others, key=lambda hit: -_mean(hit[1].figures.carry))]


def club_dispersion(
    club: ClubEvidence,
    there: SituationFigures,
    unit: DistanceUnit,
    *,
    width: int = 300,
    paper: bool = False,
) -> ShownChart:
    """Where one club's balls landed in one situation, seen from behind."""
    landings = tuple(
        Landing(
            side=distance_in(shot.side_m, unit),
            along=distance_in(shot.carry_m, unit),
            out=not shot.counted_in_mean,
        )
        for shot in there.shots
        if not shot.misread and shot.side_m is not None and shot.carry_m is not None
    )
    found = there.figures.ellipse
    shown = None
    if found is not None:
        shown = Ellipse(
            side=distance_in(found.centre_side_m, unit),
            along=distance_in(found.centre_carry_m, unit),
            half_major=distance_in(found.semi_major_m, unit),
            half_minor=distance_in(found.semi_minor_m, unit),
            turn_deg=found.angle_deg,
            meaning=f"the next ball lands inside with {found.share:.0%}",
        )
    title = f"{club.name}: {there.situation.words(unit)}"
    chart = Dispersion(title, unit, landings, shown, things="balls")
    return ShownChart(dispersion(chart, width=width, paper=paper), dispersion_table(chart))


def carry_intervals(
    pairs: Sequence[Pair], unit: DistanceUnit, *, width: int = 330, paper: bool = False
) -> ShownChart:
    """The differences in carry of each pair, with the band that is too small to use.

    The interval is the one that the verdict was taken from. A real difference whose interval
    reaches into the band is noted as one that may be too small to use.
    """
    judged = [pair for pair in pairs if pair.carry is not None and is_seen(pair.carry)]
    reaches = tuple(
        Reach(
            label=f"{_short(pair.candidate)}, {pair.one.situation.words(unit)}",
            value=_in(pair.carry.difference, unit),
            low=_in(pair.carry.low, unit),
            high=_in(pair.carry.high, unit),
            note=_reach_note(pair.carry),
        )
        for pair in judged
        if pair.carry is not None
    )
    margin = judged[0].carry.margin if judged and judged[0].carry is not None else None
    against = f" against {judged[0].against.name}" if judged else ""
    title = f"Difference in carry{against}: where it lies"
    chart = Intervals(title, unit, reaches, margin=_in(margin, unit))
    return ShownChart(intervals(chart, width=width, paper=paper), intervals_table(chart))


def _reach_note(found: Difference) -> str:
    """The verdict; a real difference that may be too small to use is said to be one."""
    ends = (found.low, found.high)
    if found.verdict != "real difference" or any(end is None for end in ends):
        return found.verdict
    nearest = min(abs(end) for end in ends if end is not None)
    return f"{found.verdict}, may be too small to use" if nearest < found.margin else found.verdict


def spread_words(spread: Spread | None, unit: DistanceUnit) -> str:
    """`5 balls, spread 4 yd`: what stands beside every mean."""
    if spread is None:
        return ""
    balls = f"{spread.n} {'ball' if spread.n == 1 else 'balls'}"
    if spread.sd is None:
        return balls
    return f"{balls}, spread {show_distance(spread.sd, unit)}"


def _short(club: ClubEvidence) -> str:
    """A label for a chart: an own club's name, else the loft it played at."""
    if club.is_hidden or club.is_own or club.loft_deg is None:
        return club.name
    return f"{club.loft_deg.normalize():f}°"


def _rung_label(club: ClubEvidence) -> str:
    """A club's loft, or the number it goes by; its name only where no loft is known."""
    if club.is_hidden or club.loft_deg is None:
        return club.name
    return f"{club.loft_deg.normalize():f}°"


def _rung_note(club: ClubEvidence) -> str:
    """An own club's name; else `stamped 54` of a bent head, so that its loft never stands bare."""
    if club.is_hidden:
        return ""
    if club.is_own:
        return "" if club.loft_deg is None else club.name.removeprefix("your ")
    if club.stamped_loft_deg in (None, club.loft_deg):
        return ""
    return f"stamped {club.stamped_loft_deg.normalize():f}" if club.stamped_loft_deg else ""


def _mean(spread: Spread | None) -> float:
    return 0.0 if spread is None else spread.mean


def _in(value_m: float | None, unit: DistanceUnit) -> float | None:
    return None if value_m is None else distance_in(value_m, unit)
