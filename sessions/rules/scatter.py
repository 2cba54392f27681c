"""How a player scatters in one swing, block by block, to be pooled with a pair's own balls."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from sessions.maths.comparison_error import OtherBlocks
from sessions.rules.club_evidence import ClubEvidence, SituationFigures
from sessions.rules.measures import MeanMeasure

# What two blocks have to share for their scatter to be one player's in one swing.
_Alike = tuple[object, ...]


class Scatter:
    """The blocks of a visit by swing, target and device, read once for all pairs."""

    def __init__(self, clubs: Sequence[ClubEvidence]) -> None:
        self.clubs = clubs
        self.known: dict[_Alike, list[tuple[str, OtherBlocks]]] = {}

    def besides(
        self, here: SituationFigures, measure: MeanMeasure, apart_from: Collection[str]
    ) -> OtherBlocks:
        """The blocks like `here` of all clubs but those whose keys are named."""
        others = [
            blocks for key, blocks in self._blocks_like(here, measure) if key not in apart_from
        ]
        return OtherBlocks(
            sum(blocks.squares for blocks in others), sum(blocks.freedom for blocks in others)
        )

    def _blocks_like(
        self, here: SituationFigures, measure: MeanMeasure
    ) -> list[tuple[str, OtherBlocks]]:
        alike = _alike(here)
        key = (*alike, measure.key)
        if key not in self.known:
            self.known[key] = [
                (club.key, OtherBlocks.of([values]))
                for club in self.clubs
                for there in club.situations
                if _alike(there) == alike and (values := measure.values(there))
            ]
        return self.known[key]


def _alike(there: SituationFigures) -> _Alike:
    return (
        there.situation.swing,
        there.situation.target_m,
        there.context.device,
        there.context.figures,
    )
