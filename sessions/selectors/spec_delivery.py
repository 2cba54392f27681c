"""What a degree of lie does to a spec's club, and the lie that goes with its length, in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from sessions.maths.unit_factors import DistanceUnit
from sessions.models import BagEntry, SpecClub
from sessions.rules.delivered import degree_of_lie_words, lie_of_length_words


def delivery_notes(
    club: SpecClub,
    pitching_wedge: BagEntry | None,
    *,
    carry_unit: DistanceUnit,
    length_unit: Literal["in", "mm"],
) -> Mapping[str, str]:
    """By the field they stand beside; a field of which nothing can be said is left out.

    The lie is held against the trial that the club was chosen by, where its lie and length are
    known, else against the pitching wedge that stays.
    """
    loft = club.as_received_loft_deg if club.target_loft_deg is None else club.target_loft_deg
    said = {
        "target_lie_deg": degree_of_lie_words(loft, club.predicted_carry_m, club.hand, carry_unit),
        "target_length_mm": _of_another_length(club, pitching_wedge, length_unit),
    }
    return {name: words for name, words in said.items() if words}


def _of_another_length(
    club: SpecClub, pitching_wedge: BagEntry | None, unit: Literal["in", "mm"]
) -> str:
    trial = club.trial
    is_tried = trial is not None and trial.length_mm is not None and trial.lie_deg is not None
    known = trial if is_tried else pitching_wedge
    if known is None:
        return ""
    return lie_of_length_words(
        club.target_length_mm,
        of="The club tried" if is_tried else "The pitching wedge",
        known_length_mm=known.length_mm,
        known_lie_deg=known.lie_deg,
        unit=unit,
    )
