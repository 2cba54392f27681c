"""A club's balance and length at the bench, from the parts that its order has copied."""

from __future__ import annotations

from typing import Literal

from orders.models import OrderClub
from orders.rules.dry_weight import DryParts
from sessions.models.words import LengthMethod
from sessions.rules.ruler_length import RulerLength, ruler_length
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
    )


def changes_at_bench(club: OrderClub) -> ChangeTable:
    """What a change does to this club's swing weight, or what is missing to say so."""
    return change_table(dry_parts_of(club))


def ruler_at_bench(club: OrderClub, unit: Literal["in", "mm"]) -> RulerLength:
    """Its target length by the bench ruler; nothing where the target is the ruler's already."""
    if club.length_method == LengthMethod.RULER:
        return RulerLength()
    return ruler_length(
        club.target_length_mm,
        lie_deg=club.target_lie_deg,
        sole_point_mm=club.sole_point_mm,
        unit=unit,
    )
