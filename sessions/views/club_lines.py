"""A club's evidence as lines of words, for the verdicts and the decision: the same on both."""

from __future__ import annotations

from typing import Any

from sessions.charts import spread_words
from sessions.maths.dispersion import Proximity, Spread
from sessions.maths.drift import Drift
from sessions.maths.shown import show_distance, show_side
from sessions.maths.unit_factors import DistanceUnit
from sessions.models.words import Strike, Turf
from sessions.rules.club_evidence import ClubEvidence, SituationFigures, counts_words
from sessions.rules.evidence import SlotEvidence
from sessions.rules.likeness import Likeness
from sessions.rules.verdict_words import undecided, verdict_boxes
from sessions.rules.verdicts import Pair

NOT_ON_TURF = "Not tested on turf: mats forgive."
LEAST_FOR_MEDIAN = 5


def club_line(
    club: ClubEvidence,
    there: SlotEvidence,
    unit: DistanceUnit,
    beside: Likeness | None = None,
    beside_now: Likeness | None = None,
) -> dict[str, Any]:
    """One club: what it is, what it did in each situation, and the verdicts against another.

    `beside` says how it is made beside the club that it is held against, `beside_now` beside the
    one played now; where the two are one club it is said once.
    """
    pairs = [pair for pair in there.pairs if pair.candidate.key == club.key]
    is_same = beside is not None and beside_now is not None and beside.against == beside_now.against
    is_mat_only = club.is_tested_on_turf is False
    return {
        "club": club,
        "name": club.name[:1].upper() + club.name[1:],
        "about": ", ".join(_about(club)),
        "situations": [
            _situation_line(each, unit) | {"stops": there.stops(club, each, unit)}
            for each in club.situations
        ],
        "strikes": counts_words({Strike(w).label.lower(): n for w, n in club.strikes.items()}),
        "turf": counts_words({Turf(w).label.lower(): n for w, n in club.turf.items()}),
        "not_on_turf": NOT_ON_TURF if is_mat_only and not club.is_own else "",
        "cautions": tuple(dict.fromkeys(said for pair in pairs for said in pair.cautions)),
        "pairs": [pair_lines(pair, unit) for pair in pairs],
        "likenesses": [
            each
            for each in (beside, None if is_same else beside_now)
            if each is not None and not club.is_own
        ],
    }


def pair_lines(pair: Pair, unit: DistanceUnit) -> dict[str, Any]:
    """One situation of a pair: boxes, or why they are not compared."""
    return {
        "situation": pair.one.situation.words(unit),
        "against": pair.against.name,
        "boxes": verdict_boxes(pair, unit),
        "undecided": undecided(pair, unit),
        "unfair": pair.unfair,
    }


def _about(club: ClubEvidence) -> list[str]:
    said = []
    if club.loft_words:
        said.append(club.loft_words)
    if club.bounce_words:
        said.append(f"bounce {club.bounce_words}")
    if club.sole_words:
        said.append(club.sole_words)
    if club.grooves in {"worn", "fresh"}:
        said.append(f"{club.grooves} grooves")
    return said


def _situation_line(each: SituationFigures, unit: DistanceUnit) -> dict[str, Any]:
    figures = each.figures
    return {
        "words": each.situation.words(unit),
        "balls": figures.shots,
        "misreads": figures.misreads,
        "left_out": figures.left_out_of_mean,
        "carry": mean_words(figures.carry, unit),
        "carry_is": "" if figures.carry is None else show_distance(figures.carry.mean, unit),
        "carry_doubt": spread_words(figures.carry, unit),
        "side": ""
        if figures.side is None
        else show_side(figures.side.mean, unit) + _own_count(figures.side, figures.carry),
        "side_doubt": spread_words(figures.side, unit),
        "spin": ""
        if each.spin is None
        else f"{round(each.spin.mean, -1):,.0f} rpm" + _own_count(each.spin, figures.carry),
        "more": _more_lines(each, unit),
    }


def _own_count(mean: Spread, carry: Spread | None) -> str:
    """` (1 ball)` behind a mean of other balls than the carry's, whose count stands there."""
    if carry is not None and mean.n == carry.n:
        return ""
    return f" ({counted_words(mean.n)})"


def counted_words(balls: int) -> str:
    return f"{balls} {'ball' if balls == 1 else 'balls'}"


def _more_lines(each: SituationFigures, unit: DistanceUnit) -> list[str]:
    """What stands below the mean: without the odd ball, at the target, on the face, far off."""
    figures, said = each.figures, []
    carry = figures.carry
    if carry is not None and carry.n >= LEAST_FOR_MEDIAN:
        said.append(
            f"Median carry {show_distance(carry.median, unit)}, "
            f"half of the balls within {show_distance(carry.mad, unit)} of it"
        )
    if each.near is not None:
        near = _near_words(each.near, unit)
        is_all = carry is not None and each.near.n == carry.n
        said.append(near if is_all else f"{near}, {counted_words(each.near.n)}")
    if figures.strike_up is not None and figures.strike_toe is not None:
        up, toe = figures.strike_up, figures.strike_toe
        said.append(
            f"On the face: {_millimetres(up, 'high', 'low')}, {_millimetres(toe, 'toe', 'heel')} "
            f"({counted_words(up.n)})"
        )
    if figures.left_out_of_mean:
        said.append(f"{figures.left_out_of_mean} of {figures.shots} balls left out of the mean")
    if figures.far_off_m:
        off = ", ".join(show_distance(value, unit) for value in figures.far_off_m)
        said.append(f"Far off the others, and counted: {off}. A misread?")
    return said


def _near_words(near: Proximity, unit: DistanceUnit) -> str:
    """`6 yd from the target: 2 yd short (spread 5) and 1 yd left (spread 3)`."""
    ways = []
    for mean, sd, more, less in (
        (near.along_m, near.along_sd_m, "long", "short"),
        (near.across_m, near.across_sd_m, "right", "left"),
    ):
        size = show_distance(abs(mean), unit)
        way = f"{size} {more if mean > 0 else less}"
        ways.append(way if sd is None else f"{way} (spread {show_distance(sd, unit)})")
    return f"{show_distance(near.mean_distance_m, unit)} from the target: {' and '.join(ways)}"


def _millimetres(spread: Spread, more: str, less: str) -> str:
    size = round(abs(spread.mean))
    if size == 0:
        return f"middle between {less} and {more}"
    return f"{size} mm {more if spread.mean > 0 else less}"


def drift_words(drift: Drift | None, unit: DistanceUnit) -> str:
    """What the hour itself did to carry, where it is told from nothing; else that it is not."""
    if drift is None:
        return ""
    size = show_distance(abs(drift.per_ten), unit, 1)
    way = "longer" if drift.per_ten > 0 else "shorter"
    if drift.is_sure:
        return (
            f"Over the visit carry drifts: {size} {way} in ten balls, whatever the club. "
            "Compare clubs that were hit in turn."
        )
    return f"No drift told over {drift.balls} balls (seen: {size} {way} in ten)."


def mean_words(spread: Spread | None, unit: DistanceUnit) -> str:
    """`97 yd (5 balls, spread 4 yd)`: never a mean without its doubt."""
    if spread is None:
        return "carry not measured"
    return f"{show_distance(spread.mean, unit)} ({spread_words(spread, unit)})"
