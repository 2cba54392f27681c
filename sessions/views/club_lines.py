"""A club's evidence as lines of words, for the verdicts and the decision: the same on both."""

from __future__ import annotations

from typing import Any

from sessions.charts import spread_words
from sessions.maths.dispersion import Spread
from sessions.maths.shown import show_distance, show_side
from sessions.maths.unit_factors import DistanceUnit
from sessions.models.words import Strike, Turf
from sessions.rules.club_evidence import ClubEvidence, counts_words
from sessions.rules.evidence import SlotEvidence
from sessions.rules.verdict_words import verdict_boxes
from sessions.rules.verdicts import Pair

NOT_ON_TURF = "Not tested on turf: mats forgive."


def club_line(club: ClubEvidence, there: SlotEvidence, unit: DistanceUnit) -> dict[str, Any]:
    """One club: what it is, what it did in each situation, and the verdicts against another."""
    is_mat_only = club.is_tested_on_turf is False
    return {
        "club": club,
        "name": club.name[:1].upper() + club.name[1:],
        "about": ", ".join(_about(club)),
        "situations": [_situation_line(each, unit) for each in club.situations],
        "strikes": counts_words({Strike(w).label.lower(): n for w, n in club.strikes.items()}),
        "turf": counts_words({Turf(w).label.lower(): n for w, n in club.turf.items()}),
        "not_on_turf": NOT_ON_TURF if is_mat_only and not club.is_own else "",
        "cautions": tuple(
            dict.fromkeys(said for pair in there.pairs_of(club) for said in pair.cautions)
        ),
        "pairs": [pair_lines(pair, unit) for pair in there.pairs_of(club)],
    }


def pair_lines(pair: Pair, unit: DistanceUnit) -> dict[str, Any]:
    """One situation of a pair: boxes, or why they are not compared."""
    return {
        "situation": pair.one.situation.words(unit),
        "against": pair.against.name,
        "boxes": verdict_boxes(pair, unit),
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


def _situation_line(each: Any, unit: DistanceUnit) -> dict[str, Any]:
    figures = each.figures
    return {
        "words": each.situation.words(unit),
        "balls": figures.shots,
        "misreads": figures.misreads,
        "left_out": figures.left_out_of_mean,
        "carry": mean_words(figures.carry, unit),
        "carry_is": "" if figures.carry is None else show_distance(figures.carry.mean, unit),
        "carry_doubt": spread_words(figures.carry, unit),
        "side": "" if figures.side is None else show_side(figures.side.mean, unit),
        "side_doubt": spread_words(figures.side, unit),
        "spin": "" if each.spin is None else f"{round(each.spin.mean, -1):.0f} rpm",
    }


def mean_words(spread: Spread | None, unit: DistanceUnit) -> str:
    """`97 yd (5 balls, spread 4)`: never a mean without its doubt."""
    if spread is None:
        return "carry not measured"
    return f"{show_distance(spread.mean, unit)} ({spread_words(spread, unit)})"
