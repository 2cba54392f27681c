"""The balance of a spec's club for its page: what it comes to from its parts, what a change does,
and what was felt as tried."""

from __future__ import annotations

from typing import Literal

from sessions.models import SpecClub
from sessions.models.words import ClubSource
from sessions.rules.as_tried import TriedClub, as_tried
from sessions.rules.dry_weight import DryParts, wants_ferrule
from sessions.rules.finished_club import FinishedClub, finished_club
from sessions.rules.spec_limits import SpecLimits
from sessions.rules.what_changes import ChangeTable, change_table, not_worked_out


def finished_of(
    club: SpecClub, limits: SpecLimits, unit: Literal["in", "mm"]
) -> FinishedClub | None:
    """What a new club comes to; None for an own one, or where a figure of its parts isn't known."""
    parts = parts_of(club) if club.source == ClubSource.NEW else None
    if parts is None:
        return None
    return finished_club(parts, limits, target_points=club.target_swing_weight_points, unit=unit)


def changes_of(club: SpecClub, limits: SpecLimits) -> ChangeTable | None:
    """What a change does to a new club; None for an own one, whose parts stay as they are."""
    if club.source != ClubSource.NEW:
        return None
    parts = parts_of(club)
    if parts is None:
        named = (
            ("a head", club.head),
            ("a shaft", club.shaft),
            ("a grip", club.grip),
            ("the length", club.target_length_mm),
        )
        return not_worked_out([words for words, part in named if part is None])
    return change_table(parts, limits.fixings())


def parts_of(club: SpecClub) -> DryParts | None:
    """What a club's dry swing weight is foretold from; None while a part or the length is open."""
    head, shaft, grip, length = club.head, club.shaft, club.grip, club.target_length_mm
    if head is None or shaft is None or grip is None or length is None:
        return None
    return DryParts(
        length_mm=length,
        head_g=head.mass_g,
        bore_to_ground_mm=head.bore_to_ground_mm,
        shaft_g=shaft.mass_g,
        shaft_raw_mm=shaft.raw_length_mm,
        shaft_balance_mm=shaft.balance_mm,
        tip_trim_mm=club.tip_trim_mm,
        grip_g=grip.mass_g,
        grip_length_mm=grip.length_mm,
        cap_mm=grip.cap_mm,
        extra_layers=club.grip_extra_wraps,
        lower_extra_layers=club.grip_lower_extra_wraps,
        has_ferrule=wants_ferrule(club.ferrule),
    )


def tried_words(club: SpecClub) -> tuple[str, ...]:
    """The trial it was chosen by, its adapter taken out; nothing for an own club or without one."""
    trial = club.trial
    if club.source != ClubSource.NEW or trial is None or trial.trial_head_id is None:
        return ()
    return as_tried(
        TriedClub(
            adapter_g=None if trial.adapter is None else trial.adapter.mass_g,
            swing_weight_points=trial.swing_weight_points,
            mass_g=trial.mass_g,
            length_mm=trial.length_mm,
            bore_to_ground_mm=None if club.head is None else club.head.bore_to_ground_mm,
            target_points=club.target_swing_weight_points,
            target_mass_g=club.target_mass_g,
        )
    )
