"""What two clubs are compared in: how each measure is called, said and weighed.

The margins are the shop's settings. A mean, a spread, a share and a rating are each judged by
their own kind of evidence; see `sessions.maths.comparison`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from sessions.maths.shown import distance_in
from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.club_evidence import Margins, SituationFigures

Kind = Literal["distance", "degrees", "rpm"]


@dataclass(frozen=True)
class MeanMeasure:
    """A figure of every shot whose means are compared; `words` are for more, less and the same."""

    key: str
    what: str
    kind: Kind
    words: tuple[str, str, str]
    values: Callable[[SituationFigures], tuple[float, ...]]
    margin: Callable[[Margins], float]


MEANS: tuple[MeanMeasure, ...] = (
    MeanMeasure(
        "carry",
        "Carry",
        "distance",
        ("longer than", "shorter than", "as long as"),
        lambda there: there.carries_m,
        lambda margins: margins.carry_m,
    ),
    MeanMeasure(
        "side",
        "Direction",
        "distance",
        ("right of", "left of", "in line with"),
        lambda there: there.sides_m,
        lambda margins: margins.side_m,
    ),
    MeanMeasure(
        "proximity",
        "Distance from the target",
        "distance",
        ("farther than", "nearer than", "as near as"),
        lambda there: there.distances_m,
        lambda margins: margins.proximity_m,
    ),
    MeanMeasure(
        "launch",
        "Launch",
        "degrees",
        ("higher than", "lower than", "as high as"),
        lambda there: there.launches_deg,
        lambda margins: margins.launch_deg,
    ),
    MeanMeasure(
        "spin",
        "Spin",
        "rpm",
        ("more than", "less than", "as much as"),
        lambda there: there.spins_rpm,
        lambda margins: margins.spin_rpm,
    ),
    MeanMeasure(
        "landing",
        "Landing angle",
        "degrees",
        ("steeper than", "flatter than", "as steep as"),
        lambda there: there.landings_deg,
        lambda margins: margins.landing_deg,
    ),
)
MEAN_OF = {measure.key: measure for measure in MEANS}
SPREAD, STRIKES = "spread", "strikes"
WHAT = {measure.key: measure.what for measure in MEANS} | {
    SPREAD: "Spread of carry",
    STRIKES: "Strikes",
}


def what_of(key: str) -> str:
    """The heading of a measure; a rating goes by what was rated: `rating: feel`."""
    return WHAT.get(key) or key.removeprefix("rating: ").capitalize()


def in_unit(value: float, kind: Kind, unit: DistanceUnit) -> float:
    """A figure in the unit it is read in; spin to the nearest ten."""
    if kind == "distance":
        return distance_in(value, unit)
    return round(value, -1) if kind == "rpm" else value


def unit_words(kind: Kind, unit: DistanceUnit) -> str:
    return {"distance": str(unit), "degrees": "degrees", "rpm": "rpm"}[kind]
