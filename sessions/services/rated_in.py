"""Where a rating was given: the swing and the surroundings that the player had just felt."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.db.models import TextChoices

from sessions.models import Trial
from sessions.models.words import Face, Ground, HitFrom, Swing, Wetness
from sessions.services.capture import refuse_other_words

RATED_IN: dict[str, type[TextChoices]] = {
    "swing": Swing,
    "hit_from": HitFrom,
    "ground": Ground,
    "wetness": Wetness,
    "face": Face,
}


def rated_in(trial: Trial, given: Mapping[str, Any] | None, *, after: int = 0) -> dict[str, Any]:
    """Return the columns of Rating that say where it was given.

    `given` as the tablet shows them; without a swing those of the club's last block begun after
    the sequence `after`. All empty where nothing was hit yet.

    Raises FieldsRefused.
    """
    words = {name: (given or {}).get(name) or "" for name in RATED_IN}
    refuse_other_words(words, RATED_IN)
    if words["swing"]:
        return {**words, "target_m": (given or {}).get("target_m")}
    block = trial.blocks.filter(sequence__gt=after).order_by("sequence").last()
    if block is None:
        return {**dict.fromkeys(RATED_IN, ""), "target_m": None}
    return {name: getattr(block, name) for name in (*RATED_IN, "target_m")}
