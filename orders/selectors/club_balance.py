"""A club's balance and length at the bench, from the parts that its order has copied."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Literal

from fitshop.setting import Value
from orders.models import OrderClub
from orders.models.bench import Step
from orders.rules.dry_weight import DryParts
from sessions.maths.shown import show_swing_weight
from sessions.rules.dry_weight import wants_ferrule
from sessions.rules.facts import limits_from
from sessions.rules.finished_club import FinishedClub, finished_club
from sessions.rules.what_changes import ChangeTable, change_table


def dry_parts_of(club: OrderClub) -> DryParts:
    """What its dry swing weight is foretold from: the head as weighed, where it was."""
    weighed = club.as_received_mass_g
    return DryParts(
        length_mm=club.target_length_mm,
        head_g=weighed if weighed is not None else club.head_mass_g,
        bore_to_ground_mm=club.bore_to_ground_mm,
        shaft_g=club.shaft_mass_g,
        shaft_raw_mm=club.shaft_raw_length_mm,
        shaft_balance_mm=club.shaft_balance_mm,
        tip_trim_mm=club.tip_trim_mm,
        grip_g=club.grip_mass_g,
        grip_length_mm=club.grip_length_mm,
        cap_mm=club.grip_cap_mm,
        extra_layers=club.grip_extra_wraps,
        lower_extra_layers=club.grip_lower_extra_wraps,
        has_ferrule=wants_ferrule(club.ferrule),
        insertion_mm=depth_gauged(club),
    )


def depth_gauged(club: OrderClub) -> Decimal | None:
    """The hosel's depth as the bench wrote it [mm, never 0]."""
    row = next((row for row in club.steps.all() if row.step == Step.HOSEL), None)
    typed = row.values.get("depth_mm") if row is not None else None
    return Decimal(typed) if typed else None


def changes_at_bench(club: OrderClub, settings: Mapping[str, Value]) -> ChangeTable:
    """What a change does to this club's swing weight, or what is missing to say so."""
    return change_table(dry_parts_of(club), limits_from(settings).fixings())


def finished_at_bench(
    club: OrderClub, settings: Mapping[str, Value], unit: Literal["in", "mm"]
) -> FinishedClub | None:
    """What the club comes to from its parts; None where a figure of theirs isn't known."""
    return finished_club(
        dry_parts_of(club),
        limits_from(settings),
        target_points=club.target_swing_weight_points,
        unit=unit,
        is_head_weighed=club.as_received_mass_g is not None,
    )


def points_words(value: Decimal | None) -> str | None:
    return None if value is None else show_swing_weight(value)
