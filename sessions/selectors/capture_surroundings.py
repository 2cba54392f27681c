"""The surroundings that each swing was last hit in, over all clubs of a visit.

Said for the visit and not for a club, so that it also holds while a hidden comparison runs: where
a ball lay names no head.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from sessions.maths.unit_factors import DistanceUnit
from sessions.models import Block, Trial
from sessions.models.words import Face, HitFrom, Swing
from sessions.selectors.capture_trials import situation_document
from sessions.selectors.capture_words import Document

# How a swing begins that was not hit yet: nobody plays a bunker shot off a mat. Common practice.
FIRST_IN: Final[Mapping[str, Document]] = {
    Swing.SAND: {"hit_from": str(HitFrom.SAND_FIRM), "face": str(Face.LITTLE_OPEN)},
    Swing.FLOP: {"face": str(Face.WIDE_OPEN)},
}


def surroundings_document(trials: Sequence[Trial], unit: DistanceUnit) -> Document:
    """`now`: of the last block. `by_swing`: of each swing's last one. `first`: where there is none.

    In the server's order, whichever club it was.
    """
    blocks: list[Block] = sorted(
        (block for trial in trials for block in trial.blocks.all()),
        key=lambda block: block.sequence,
    )
    told = [situation_document(block, unit) for block in blocks]
    by_swing: Document = {}
    for one in told:
        # What was hit last stands last.
        by_swing.pop(one["swing"], None)
        by_swing[one["swing"]] = one
    return {
        "now": told[-1] if told else None,
        "by_swing": by_swing,
        "first": {str(swing): values for swing, values in FIRST_IN.items()},
    }
